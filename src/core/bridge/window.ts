/**
 * At which places can every saddle reach its setback?
 *
 * Model: string i wants its contact at u = target_i (scale line + setback). With the pose's yaw f, saddle i reaches
 * u = P + p cos f - q_i sin f for p between from_i and to_i, less a reserve at each end. For a fixed yaw that is an
 * interval of P, exact at any angle:
 *   P_max = min_i (T_i + q_i sin f - (from_i + r) cos f),  P_min = max_i (T_i + q_i sin f - (to_i - r) cos f).
 * Left out: that the string runs at a slight angle to the centre line (targets are taken along u).
 * Source: derived. Reserve 0.5 at each end: common practice.
 */
import { requireFinite } from "../checks.ts";
import { InputError } from "../errors.ts";
import { type Pose, RADIANS_PER_DEGREE, ROUNDING_MM } from "./frame.ts";

export interface SaddleSet {
  /** u of the wanted contact, string 1 first. */
  readonly targetsMm: readonly number[];
  /** Contact range of each saddle, counted as p from the part's front edge. */
  readonly fromMm: readonly number[];
  readonly toMm: readonly number[];
}

export interface PlacedSaddleSet extends SaddleSet {
  /** q of each saddle, across from the part's middle. */
  readonly acrossMm: readonly number[];
}

export interface PlateWindow {
  readonly minMm: number;
  readonly maxMm: number;
  /** Negative: empty by so much. */
  readonly widthMm: number;
  /** Index of the string whose saddle is at its rear end at `minMm`, and at its front end at `maxMm`. */
  readonly bindingMinIndex: number;
  readonly bindingMaxIndex: number;
}

/**
 * Window of a plate that stands square.
 *
 * @throws InputError if the lists differ in length, hold a value that is no number, or a range ends before it begins
 * @example
 * plateWindow({ targetsMm: [184.11, 186.26], fromMm: [11.5, 13], toMm: [16, 18], reserveMm: 0.5 });
 */
export function plateWindow(input: SaddleSet & { readonly reserveMm: number }): PlateWindow {
  return windowAtYaw({ ...input, acrossMm: input.targetsMm.map(() => 0), yawDegrees: 0 });
}

/**
 * Window of a part that stands turned by a fixed yaw: places of the middle of its front edge.
 *
 * @throws InputError as `plateWindow`
 */
export function windowAtYaw(
  input: PlacedSaddleSet & { readonly reserveMm: number; readonly yawDegrees: number },
): PlateWindow {
  refuseSaddles(input, input.acrossMm);
  requireFinite(
    input.reserveMm,
    "reserveMm",
    "mm",
    "Give what is to stay free at each end of the travel, 0.5 as a rule",
  );
  const { targetsMm, fromMm, toMm, acrossMm, reserveMm } = input;
  const cos = Math.cos(input.yawDegrees * RADIANS_PER_DEGREE);
  const sin = Math.sin(input.yawDegrees * RADIANS_PER_DEGREE);
  let minMm = Number.NEGATIVE_INFINITY;
  let maxMm = Number.POSITIVE_INFINITY;
  let bindingMinIndex = 0;
  let bindingMaxIndex = 0;
  for (let i = 0; i < targetsMm.length; i++) {
    const lineMm = at(targetsMm, i) + at(acrossMm, i) * sin;
    const latest = lineMm - (at(fromMm, i) + reserveMm) * cos;
    const earliest = lineMm - (at(toMm, i) - reserveMm) * cos;
    if (latest < maxMm) {
      maxMm = latest;
      bindingMaxIndex = i;
    }
    if (earliest > minMm) {
      minMm = earliest;
      bindingMinIndex = i;
    }
  }
  return { minMm, maxMm, widthMm: maxMm - minMm, bindingMinIndex, bindingMaxIndex };
}

export interface SaddleSpare {
  /** Travel left toward the neck and toward the tail, without any reserve taken off; negative is out of reach. */
  readonly frontMm: number;
  readonly rearMm: number;
}

export interface PlacementCheck {
  readonly allowed: boolean;
  readonly sparesMm: readonly SaddleSpare[];
  /** Least travel left at any end of any saddle, and whose. */
  readonly leastMm: number;
  readonly leastIndex: number;
}

/**
 * The direct check of one pose: how much travel each saddle has left when it stands where its string wants it.
 *
 * @throws InputError as `plateWindow`
 */
export function placementAllowed(
  input: PlacedSaddleSet & { readonly pose: Pose; readonly reserveMm: number },
): PlacementCheck {
  refuseSaddles(input, input.acrossMm);
  requireFinite(
    input.reserveMm,
    "reserveMm",
    "mm",
    "Give what is to stay free at each end of the travel, 0.5 as a rule",
  );
  const { pose, targetsMm, fromMm, toMm, acrossMm, reserveMm } = input;
  const cos = Math.cos(pose.yawDegrees * RADIANS_PER_DEGREE);
  const sin = Math.sin(pose.yawDegrees * RADIANS_PER_DEGREE);
  const sparesMm = targetsMm.map((target, i) => {
    const p = (target - pose.placeMm + at(acrossMm, i) * sin) / cos;
    return { frontMm: p - at(fromMm, i), rearMm: at(toMm, i) - p };
  });
  let leastIndex = 0;
  let leastMm = Number.POSITIVE_INFINITY;
  sparesMm.forEach(({ frontMm, rearMm }, i) => {
    const least = Math.min(frontMm, rearMm);
    if (least < leastMm) {
      leastMm = least;
      leastIndex = i;
    }
  });
  return { allowed: leastMm >= reserveMm - ROUNDING_MM, sparesMm, leastMm, leastIndex };
}

/**
 * Least travel left at a square place, for a sampler: no checks, nothing allocated. Take the reserve off outside.
 *
 * @param targetsMm wanted contacts; @param fromMm and @param toMm ranges, all in the same order
 */
export function leastSaddleSpareMm(
  placeMm: number,
  targetsMm: ArrayLike<number>,
  fromMm: ArrayLike<number>,
  toMm: ArrayLike<number>,
): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < targetsMm.length; i++) {
    const p = (targetsMm[i] as number) - placeMm;
    least = Math.min(least, p - (fromMm[i] as number), (toMm[i] as number) - p);
  }
  return least;
}

/** The same for a turned part. */
export function leastSaddleSpareTurnedMm(
  placeMm: number,
  yawRadians: number,
  targetsMm: ArrayLike<number>,
  fromMm: ArrayLike<number>,
  toMm: ArrayLike<number>,
  acrossMm: ArrayLike<number>,
): number {
  const cos = Math.cos(yawRadians);
  const sin = Math.sin(yawRadians);
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < targetsMm.length; i++) {
    const p = ((targetsMm[i] as number) - placeMm + (acrossMm[i] as number) * sin) / cos;
    least = Math.min(least, p - (fromMm[i] as number), (toMm[i] as number) - p);
  }
  return least;
}

/** Refuses lists that do not belong together. */
export function refuseSaddles(saddles: SaddleSet, acrossMm: readonly number[]): void {
  const { targetsMm, fromMm, toMm } = saddles;
  const count = targetsMm.length;
  if (count === 0 || fromMm.length !== count || toMm.length !== count || acrossMm.length !== count) {
    throw new InputError(
      "targetsMm",
      `targets, ranges and places across must be as many as the strings, got ${count}, ${fromMm.length}, ${toMm.length} and ${acrossMm.length}`,
      "Give one of each for every string, string 1 first",
    );
  }
  for (let i = 0; i < count; i++) {
    requireFinite(at(targetsMm, i), `targetsMm[${i}]`, "mm", "Work out scale line and setback first");
    requireFinite(at(fromMm, i), `fromMm[${i}]`, "mm", "Measure the foremost contact from the part's front edge");
    requireFinite(at(toMm, i), `toMm[${i}]`, "mm", "Measure the rearmost contact from the part's front edge");
    requireFinite(at(acrossMm, i), `acrossMm[${i}]`, "mm", "Measure the saddle from the part's middle");
    if (at(toMm, i) < at(fromMm, i)) {
      throw new InputError(
        `toMm[${i}]`,
        `the range ends at ${toMm[i]} mm, before it begins at ${fromMm[i]} mm`,
        "Count both from the part's front edge, the foremost contact first",
      );
    }
  }
}

function at(values: readonly number[], index: number): number {
  return values[index] ?? Number.NaN;
}
