/**
 * Lines along which wires may run: through every lug, and evenly between.
 *
 * Lugs whose tracks would lie within a hair of each other share one, so that a wire may end that much beside the middle
 * of its pad.
 */

/** Tracks of two lugs nearer than this become one. */
const SHARED_MM = 0.1;

/** Fine steps on either side of a lug. */
const FINE_STEPS = 2;

/** Lugs that are further apart have coarse steps between. */
const FAR_IN_SPACINGS = 7;

/** A hair that sums of fractions may be out by. */
const HAIR_MM = 1e-9;

export interface Tracks {
  /** Places of n tracks, rising. */
  readonly atMm: readonly number[];
  /** For each track the first and the last that are nearer than the spacing of wires. */
  readonly near: readonly Span[];
  /** The same for what must stay clear of a corner. */
  readonly atCorner: readonly Span[];
}

/** First and last index, both included. */
export type Span = readonly [first: number, last: number];

export interface TrackRules {
  readonly spacingMm: number;
  readonly cornerMm: number;
  readonly pitchMm: number;
}

export interface Passed {
  /** Places of lugs, in any order. */
  readonly lugs: readonly number[];
  /** Places that a track should pass besides, unless one of a lug passes there. */
  readonly beside: readonly number[];
}

export function tracks(from: number, to: number, passed: Passed, rules: TrackRules): Tracks {
  const isInside = (at: number): boolean => at > from + SHARED_MM && at < to - SHARED_MM;
  const lugs = merged(passed.lugs.filter(isInside));
  const isOwn = (at: number): boolean => isInside(at) && lugs.every((lug) => Math.abs(lug - at) > SHARED_MM);
  const inside = [...lugs, ...merged(passed.beside.filter(isOwn))].sort((a, b) => a - b);
  const fixed = [from, ...inside, to];
  const atMm = fixed.flatMap((at, n) => {
    const next = fixed[n + 1];
    return next === undefined ? [at] : [at, ...between(at, next, rules)];
  });
  return { atMm, near: spans(atMm, rules.spacingMm), atCorner: spans(atMm, rules.cornerMm) };
}

/** Half a spacing apart near a lug, where wires fan in, and a spacing apart where the next lug is far. */
function between(from: number, to: number, { spacingMm, pitchMm }: TrackRules): number[] {
  if (to - from < FAR_IN_SPACINGS * spacingMm) return evenly(from, to, pitchMm);
  const [first, last] = [from + FINE_STEPS * pitchMm, to - FINE_STEPS * pitchMm];
  const fine = Array.from({ length: FINE_STEPS - 1 }, (_, n) => (n + 1) * pitchMm);
  return [
    ...fine.map((step) => from + step),
    first,
    ...evenly(first, last, spacingMm),
    last,
    ...fine.map((step) => to - step).reverse(),
  ];
}

/** Places between two, evenly, as near to each other as the pitch. */
function evenly(from: number, to: number, pitchMm: number): number[] {
  const parts = Math.max(1, Math.floor((to - from) / pitchMm + HAIR_MM));
  return Array.from({ length: parts - 1 }, (_, n) => from + ((to - from) * (n + 1)) / parts);
}

function merged(places: readonly number[]): number[] {
  const kept: number[] = [];
  for (const at of [...places].sort((a, b) => a - b)) {
    if (at - (kept.at(-1) ?? Number.NEGATIVE_INFINITY) > SHARED_MM) kept.push(at);
  }
  return kept;
}

function spans(atMm: readonly number[], withinMm: number): Span[] {
  return atMm.map((at) => {
    const isNear = (other: number): boolean => Math.abs(other - at) < withinMm - HAIR_MM;
    return [atMm.findIndex(isNear), atMm.findLastIndex(isNear)];
  });
}
