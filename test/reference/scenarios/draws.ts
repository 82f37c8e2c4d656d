/**
 * The probability of a place by plain draws: a second way to the figure, on plain arrays, sharing no code with the
 * program. Random numbers: the 32-bit generator "mulberry32" (public domain, from memory), its state fixed; normal
 * numbers from pairs of them by the polar method of Box and Muller (published, from memory).
 */
export function generator(start: number): () => number {
  let state = start >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

export function normals(random: () => number): () => number {
  let spare: number | undefined;
  return () => {
    if (spare !== undefined) {
      const kept = spare;
      spare = undefined;
      return kept;
    }
    for (;;) {
      const a = 2 * random() - 1;
      const b = 2 * random() - 1;
      const square = a * a + b * b;
      if (square === 0 || square >= 1) continue;
      const factor = Math.sqrt((-2 * Math.log(square)) / square);
      spare = b * factor;
      return a * factor;
    }
  };
}

export interface DrawnPlate {
  readonly line: number;
  readonly place: number;
  readonly setbacks: readonly number[];
  /** Of every setback. */
  readonly setbackU: number;
  readonly from: readonly number[];
  readonly to: readonly number[];
  readonly reserve: number;
  /** Where the new holes stand, along and across. */
  readonly newHoles: readonly (readonly [number, number])[];
  readonly newRadius: number;
  /** A data sheet's ±0.05 on how far a row stands back, on each place across and on a row's diameter; even likewise. */
  readonly newLimit: number;
  readonly oldHoles: readonly (readonly [number, number])[];
  readonly oldRadius: number;
  readonly wall: number;
  /** Of each old hole across, and of the one diameter that was read for the row. */
  readonly oldAcrossU: number;
  readonly oldRadiusU: number;
  /** A data sheet's ±0.05 on each end of a saddle's travel; each draw even between the limits. */
  readonly travelLimit: number;
}

/** A way of measuring with a way of drilling. */
export interface Way {
  readonly lineU: number;
  /** Of the old row as a whole, along. */
  readonly oldRowU: number;
  readonly drillU: number;
}

/** For each way the share of the draws in which every saddle keeps its reserve and every wall its width. */
export function sharesThatHold(plate: DrawnPlate, ways: readonly Way[], draws: number, start: number): number[] {
  const random = generator(start);
  const normal = normals(random);
  const even = (limit = plate.travelLimit): number => (2 * random() - 1) * limit;
  const strings = plate.setbacks.length;
  const holds = ways.map(() => 0);
  const oldY = new Float64Array(plate.oldHoles.length);
  const rows = [...new Set(plate.newHoles.map(([u]) => u))];
  const rowOf = plate.newHoles.map(([u]) => rows.indexOf(u));
  // As made: along, across, and what its radius differs by.
  const made = plate.newHoles.map(() => [0, 0, 0] as [number, number, number]);
  for (let n = 0; n < draws; n++) {
    const [line, along, across, row] = [normal(), normal(), normal(), normal()] as const;
    // What the saddles have left before line and plate are shifted.
    let leastFront = Number.POSITIVE_INFINITY;
    let leastRear = Number.POSITIVE_INFINITY;
    for (let i = 0; i < strings; i++) {
      const p = plate.line + (plate.setbacks[i] ?? 0) + plate.setbackU * normal() - plate.place;
      leastFront = Math.min(leastFront, p - (plate.from[i] ?? 0) - even() - plate.reserve);
      leastRear = Math.min(leastRear, (plate.to[i] ?? 0) + even() - plate.reserve - p);
    }
    const reach = plate.newRadius + plate.oldRadius + plate.oldRadiusU * normal() + plate.wall;
    for (let k = 0; k < oldY.length; k++) oldY[k] = (plate.oldHoles[k]?.[1] ?? 0) + plate.oldAcrossU * normal();
    const rowBack = rows.map(() => even(plate.newLimit));
    const rowRadius = rows.map(() => even(plate.newLimit) / 2);
    plate.newHoles.forEach(([u, y], k) => {
      const row = rowOf[k] ?? 0;
      made[k] = [u + (rowBack[row] ?? 0), y + even(plate.newLimit), rowRadius[row] ?? 0];
    });
    for (let w = 0; w < ways.length; w++) {
      const { lineU, oldRowU, drillU } = ways[w] as Way;
      const shift = lineU * line - drillU * along;
      if (leastFront + shift < 0 || leastRear - shift < 0) continue;
      if (clears(plate, made, oldY, reach, drillU * along - oldRowU * row, drillU * across))
        holds[w] = (holds[w] ?? 0) + 1;
    }
  }
  return holds.map((count) => count / draws);
}

function clears(
  plate: DrawnPlate,
  made: readonly (readonly [number, number, number])[],
  oldY: Float64Array,
  reach: number,
  along: number,
  across: number,
): boolean {
  for (let k = 0; k < oldY.length; k++) {
    for (const [u, y, thicker] of made) {
      const du = u + along - (plate.oldHoles[k]?.[0] ?? 0);
      const dy = y + across - (oldY[k] ?? 0);
      if (du * du + dy * dy < (reach + thicker) ** 2) return false;
    }
  }
  return true;
}
