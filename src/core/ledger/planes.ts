/**
 * The straight-line stand-in of a margin: what each error term does to it when it is off by one standard uncertainty,
 * and whether it can be believed (trials.ts).
 */
import type { Points, Steps, Trial } from "./trials.ts";

export interface Plane {
  /** Change of the margin per term, in the order of the model's terms. */
  readonly slopes: Float64Array;
  /** Indexes of the terms whose slope is not 0. */
  readonly moving: Int32Array;
}

/** A term whose steps give no number is left flat. */
export function planeOf({ forward, backward }: Steps): Plane {
  const slopes = forward.map((there, term) => {
    const slope = (there - (backward[term] as number)) / 2;
    return Number.isFinite(slope) ? slope : 0;
  });
  return { slopes, moving: Int32Array.from([...slopes.keys()].filter((term) => slopes[term] !== 0)) };
}

/** Root of the sum of squares of the slopes: the margin's standard uncertainty. */
export function uOf({ slopes }: Plane): number {
  let squares = 0;
  for (const slope of slopes) squares += slope * slope;
  return Math.sqrt(squares);
}

/** The term with the largest part in the planes' variances: its range smooths most. */
export function pivotOf(planes: readonly Plane[]): number {
  const parts = new Float64Array(planes[0]?.slopes.length ?? 0);
  for (const { slopes } of planes) {
    const total = slopes.reduce((sum, slope) => sum + slope * slope, 0);
    if (total > 0)
      for (let term = 0; term < parts.length; term += 1)
        parts[term] = (parts[term] ?? 0) + (slopes[term] ?? 0) ** 2 / total;
  }
  return Math.max(0, parts.indexOf(Math.max(...parts)));
}

/** Off the plane by more than this part of the margin is more than rounding. */
const ROUNDING = 1e-11;
/**
 * How far a margin may leave its plane and still count as lying on it, in its own standard uncertainties: a border
 * shifted by this moves the probability by at most 0.4 × 0.0075 = 0.3 %, 0.4 being the normal curve's height (derived).
 */
const OFF_PLANE = 0.0075;
/** At double doubt a curvature stands four times as far off. */
const OFF_PLANE_FAR = 4 * OFF_PLANE;

/** Whether the margin lies on its plane, as far as the trial tells. */
export function isStraight(trial: Trial, plane: Plane, points: Points): boolean {
  const { start, forward, backward } = trial;
  const u = uOf(plane);
  const rounding = ROUNDING * Math.abs(start);
  for (let term = 0; term < forward.length; term += 1) {
    const bend = Math.abs((forward[term] as number) + (backward[term] as number) - 2 * start) / 2;
    // Turned round, so that no number does not pass for straight.
    if (!(bend <= OFF_PLANE * u + rounding)) return false;
  }
  return farthestOff(trial, plane, points) <= OFF_PLANE_FAR * u + rounding;
}

/** How far the margin leaves its plane at the points; no number: infinitely. */
function farthestOff({ start, far }: Trial, { slopes, moving }: Plane, points: Points): number {
  let farthest = 0;
  for (let point = 0; point < far.length; point += 1) {
    let plane = start;
    for (const term of moving) plane += (slopes[term] as number) * ((points[term] as Float64Array)[point] as number);
    const off = Math.abs((far[point] as number) - plane);
    if (Number.isNaN(off)) return Number.POSITIVE_INFINITY;
    if (off > farthest) farthest = off;
  }
  return farthest;
}
