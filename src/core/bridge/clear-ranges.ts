/**
 * Along which places does a pattern of holes clear the old ones, and where is the wall widest?
 *
 * Model: at a fixed side and yaw only the place changes, so every pair of holes is in plan a point that moves along u
 * past another; the pair is too near for places within sqrt(reach² - dy²) of the one where they are abreast, reach
 * being both radii and the wall. What is left of the window is exact.
 * Left out: obstacles that cannot be plugged (`judgeHoles`), plugs.
 * Source: derived.
 */
import { ROUNDING_MM } from "./frame.ts";
import {
  type HoleLimits,
  holesAtPose,
  isReused,
  newDiameterMm,
  type OldHole,
  type PatternHole,
  reuseWithinMm,
} from "./holes.ts";

export interface PlaceRange {
  readonly fromMm: number;
  readonly toMm: number;
}

interface Row {
  readonly pattern: readonly PatternHole[];
  readonly oldHoles: readonly OldHole[];
  readonly sideMm: number;
  readonly yawDegrees: number;
}

/**
 * Ranges of the window in which no old hole needs a plug.
 *
 * @returns in order along u; none if every place needs one
 */
export function plugFreeRanges(
  input: Row & { readonly limits: HoleLimits; readonly window: { readonly minMm: number; readonly maxMm: number } },
): PlaceRange[] {
  const { limits, window } = input;
  const blocked = pairs(input)
    .flatMap((pair) => blockedStretches(pair, limits))
    .sort((a, b) => a.fromMm - b.fromMm);
  const free: PlaceRange[] = [];
  let at = window.minMm;
  for (const { fromMm, toMm } of blocked) {
    if (fromMm >= window.maxMm) break;
    if (fromMm > at) free.push({ fromMm: at, toMm: fromMm });
    at = Math.max(at, toMm);
  }
  if (at <= window.maxMm) free.push({ fromMm: at, toMm: window.maxMm });
  return free;
}

/** Where a pair is too near; about the place at which the old hole can be used again there is a gap. */
function blockedStretches({ abreastMm, dyMm, reachMm, pair }: Pair, limits: HoleLimits): PlaceRange[] {
  const half = Math.sqrt(Math.max(0, (reachMm + limits.wallMm - ROUNDING_MM) ** 2 - dyMm ** 2));
  if (half === 0) return [];
  const [hole, old] = pair;
  const gap = Math.sqrt(Math.max(0, reuseWithinMm(limits) ** 2 - dyMm ** 2));
  if (!isReused(hole, old.diameterMm, 0, limits)) return [{ fromMm: abreastMm - half, toMm: abreastMm + half }];
  return [
    { fromMm: abreastMm - half, toMm: abreastMm - gap },
    { fromMm: abreastMm + gap, toMm: abreastMm + half },
  ];
}

const SCAN_MM = 0.02;
const HALVINGS = 40;

/** Place of the widest least wall in a range, to a micrometre. Infinity at the range's start if there is no old hole. */
export function widestWall(input: Row & { readonly range: PlaceRange }): {
  readonly placeMm: number;
  readonly wallMm: number;
} {
  const met = pairs(input);
  const wall = (placeMm: number): number =>
    met.reduce(
      (least, { abreastMm, dyMm, reachMm }) => Math.min(least, Math.hypot(placeMm - abreastMm, dyMm) - reachMm),
      Number.POSITIVE_INFINITY,
    );
  const { fromMm, toMm } = input.range;
  let best = fromMm;
  for (let n = 0; n * SCAN_MM <= toMm - fromMm; n++)
    if (wall(fromMm + n * SCAN_MM) > wall(best)) best = fromMm + n * SCAN_MM;
  if (wall(toMm) > wall(best)) best = toMm;
  for (let step = SCAN_MM / 2, n = 0; n < HALVINGS; n++, step /= 2) {
    for (const next of [best - step, best + step])
      if (next >= fromMm && next <= toMm && wall(next) > wall(best)) best = next;
  }
  return { placeMm: best, wallMm: wall(best) };
}

interface Pair {
  /** Place at which the two stand abreast. */
  readonly abreastMm: number;
  readonly dyMm: number;
  /** Both radii. */
  readonly reachMm: number;
  readonly pair: readonly [PatternHole, OldHole];
}

function pairs(row: Row): Pair[] {
  const atZero = holesAtPose(row.pattern, { placeMm: 0, sideMm: row.sideMm, yawDegrees: row.yawDegrees });
  return atZero.flatMap((hole, i) =>
    row.oldHoles
      .filter((old) => !(old.plug && hole.purpose === "screw"))
      .map((old) => ({
        abreastMm: old.uMm - hole.uMm,
        dyMm: old.yMm - hole.yMm,
        reachMm: newDiameterMm(hole) / 2 + (old.plug?.diameterMm ?? old.diameterMm) / 2,
        pair: [row.pattern[i] as PatternHole, old] as const,
      })),
  );
}
