/**
 * The poses of a part as a convex region, the freest yaw, and how far sideways a part may go.
 *
 * Model: for small yaw f (radians; cos f = 1, sin f = f) the saddle ranges are linear in place, side and yaw:
 *   P - q_i f <= T_i - from_i - r   and   -P + q_i f <= to_i - r - T_i.
 * Side is bounded by the strings' margin at the last fret. The region is a polyhedron; its slice at a side is a convex
 * polygon in (place, yaw). Within 1° it differs from the exact check (`placementAllowed`) by less than 0.005.
 * Left out: the slight turn of the strings as the bridge moves sideways.
 * Source: derived, half-plane clipping (Sutherland and Hodgman's method for a convex window).
 */
import { requireFinite, requirePositive } from "../checks.ts";
import { InputError } from "../errors.ts";
import { RADIANS_PER_DEGREE } from "./frame.ts";
import { type PlacedSaddleSet, type PlateWindow, refuseSaddles, windowAtYaw } from "./window.ts";

/** place · P + yaw · f + side · S <= atMost, f in radians. */
export interface PoseLimit {
  readonly place: number;
  readonly side: number;
  readonly yaw: number;
  readonly atMostMm: number;
  /** What would be overstepped. */
  readonly of: "front of a saddle" | "rear of a saddle" | "side" | "yaw";
  /** Index of the string, for a saddle. */
  readonly index?: number;
}

export interface PoseBounds {
  readonly sideFromMm: number;
  readonly sideToMm: number;
  readonly yawLimitDegrees: number;
}

/**
 * The inequalities that bound a part's pose.
 *
 * @throws InputError if the lists differ in length or a bound is no number
 */
export function poseLimits(
  input: PlacedSaddleSet & { readonly reserveMm: number; readonly bounds: PoseBounds },
): PoseLimit[] {
  refuseSaddles(input, input.acrossMm);
  const { targetsMm, fromMm, toMm, acrossMm, reserveMm, bounds } = input;
  requireFinite(reserveMm, "reserveMm", "mm", "Give what is to stay free at each end of the travel");
  const yawLimit = bounds.yawLimitDegrees * RADIANS_PER_DEGREE;
  const limits: PoseLimit[] = [
    { place: 0, side: 1, yaw: 0, atMostMm: bounds.sideToMm, of: "side" },
    { place: 0, side: -1, yaw: 0, atMostMm: -bounds.sideFromMm, of: "side" },
    { place: 0, side: 0, yaw: 1, atMostMm: yawLimit, of: "yaw" },
    { place: 0, side: 0, yaw: -1, atMostMm: yawLimit, of: "yaw" },
  ];
  targetsMm.forEach((target, index) => {
    const q = acrossMm[index] ?? 0;
    limits.push(
      {
        place: 1,
        side: 0,
        yaw: -q,
        atMostMm: target - (fromMm[index] ?? 0) - reserveMm,
        of: "front of a saddle",
        index,
      },
      { place: -1, side: 0, yaw: q, atMostMm: (toMm[index] ?? 0) - reserveMm - target, of: "rear of a saddle", index },
    );
  });
  return limits;
}

export interface PlaceYaw {
  readonly placeMm: number;
  readonly yawDegrees: number;
}

/**
 * Slice of the region at one side.
 *
 * @param input `around`: a place near the window; the polygon is cut from a square of 2 m about it
 * @returns corners in order round the polygon; none if the slice is empty
 */
export function poseSlice(input: {
  readonly limits: readonly PoseLimit[];
  readonly sideMm: number;
  readonly aroundMm: number;
}): PlaceYaw[] {
  const HALF_MM = 1000;
  const HALF_TURN = Math.PI / 4;
  const { limits, sideMm, aroundMm } = input;
  let corners: [number, number][] = [
    [aroundMm - HALF_MM, -HALF_TURN],
    [aroundMm + HALF_MM, -HALF_TURN],
    [aroundMm + HALF_MM, HALF_TURN],
    [aroundMm - HALF_MM, HALF_TURN],
  ];
  for (const limit of limits) {
    corners = clip(corners, limit.place, limit.yaw, limit.atMostMm - limit.side * sideMm);
    if (corners.length === 0) return [];
  }
  return corners.map(([placeMm, yaw]) => ({ placeMm, yawDegrees: yaw / RADIANS_PER_DEGREE }));
}

/** Keeps the part of a convex polygon where a x + b y <= c. */
function clip(corners: readonly [number, number][], a: number, b: number, c: number): [number, number][] {
  const out: [number, number][] = [];
  corners.forEach((here, i) => {
    const before = corners[(i + corners.length - 1) % corners.length] as [number, number];
    const over = a * here[0] + b * here[1] - c;
    const overBefore = a * before[0] + b * before[1] - c;
    if (over > 0 !== overBefore > 0) {
      const t = overBefore / (overBefore - over);
      out.push([before[0] + t * (here[0] - before[0]), before[1] + t * (here[1] - before[1])]);
    }
    if (over <= 0) out.push(here);
  });
  return out;
}

export interface FreestPose {
  readonly yawDegrees: number;
  /** Window at that yaw; its middle leaves the most travel. */
  readonly window: PlateWindow;
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;
const GOLDEN_STEPS = 60;
const HALVINGS = 30;

/** Nobody sets a yaw for less than this much more travel. */
const ENOUGH_MM = 0.005;

/**
 * The least yaw whose window is the widest, to 0.005. The width is concave in the yaw (a minimum of straight lines less
 * a maximum of straight lines, to first order), so golden section finds the widest and halving the least yaw near it.
 *
 * @throws InputError as `windowAtYaw`
 */
export function freestYaw(
  input: PlacedSaddleSet & { readonly reserveMm: number; readonly yawLimitDegrees: number },
): FreestPose {
  requireFinite(input.yawLimitDegrees, "yawLimitDegrees", "°", "Give the greatest yaw that would be accepted");
  const width = (yawDegrees: number): number => windowAtYaw({ ...input, yawDegrees }).widthMm;
  const widestAt = highest(width, Math.abs(input.yawLimitDegrees));
  const enough = width(widestAt) - ENOUGH_MM;
  let far = 1;
  let near = 0;
  for (let n = 0; n < HALVINGS; n++) {
    const share = n === 0 ? 0 : (far + near) / 2;
    if (width(share * widestAt) >= enough) far = share;
    else near = share;
  }
  const yawDegrees = far * widestAt;
  return { yawDegrees, window: windowAtYaw({ ...input, yawDegrees }) };
}

/** Where a concave function of -reach to reach is highest. */
function highest(of: (x: number) => number, reach: number): number {
  let low = -reach;
  let high = reach;
  let left = high - GOLDEN * (high - low);
  let right = low + GOLDEN * (high - low);
  let atLeft = of(left);
  let atRight = of(right);
  for (let step = 0; step < GOLDEN_STEPS; step++) {
    if (atLeft >= atRight) {
      high = right;
      right = left;
      atRight = atLeft;
      left = high - GOLDEN * (high - low);
      atLeft = of(left);
    } else {
      low = left;
      left = right;
      atLeft = atRight;
      right = low + GOLDEN * (high - low);
      atRight = of(right);
    }
  }
  return (low + high) / 2;
}

export interface SideRange {
  readonly fromMm: number;
  readonly toMm: number;
}

/**
 * How far sideways the part may go so that every string keeps its margin to the board's edge at the last fret.
 *
 * @param board half width of the board and place of the last fret from the nut; `marginMm` is taken to the string's
 *   middle
 * @returns the interval of `side`; `toMm` below `fromMm` if no side will do
 */
export function sideRange(board: {
  readonly halfWidthAtLastFretMm: number;
  readonly lastFretXMm: number;
  readonly marginMm: number;
  /** Per string: y at the nut, q on the part, and contact from the nut. */
  readonly nutYMm: readonly number[];
  readonly acrossMm: readonly number[];
  readonly contactXMm: readonly number[];
}): SideRange {
  requirePositive(
    board.halfWidthAtLastFretMm,
    "halfWidthAtLastFretMm",
    "mm",
    "Measure the board's width at the last fret and halve it",
  );
  requirePositive(board.lastFretXMm, "lastFretXMm", "mm", "Measure from the nut to the last fret");
  if (board.nutYMm.length !== board.acrossMm.length || board.nutYMm.length !== board.contactXMm.length) {
    throw new InputError(
      "acrossMm",
      "must be as many as the strings at the nut",
      "Give one of each for every string, string 1 first",
    );
  }
  const room = board.halfWidthAtLastFretMm - board.marginMm;
  let fromMm = Number.NEGATIVE_INFINITY;
  let toMm = Number.POSITIVE_INFINITY;
  board.nutYMm.forEach((nutY, i) => {
    // y at the last fret = nutY (1 - share) + (side + q) share, kept between -room and +room.
    const share = board.lastFretXMm / (board.contactXMm[i] ?? Number.NaN);
    const q = board.acrossMm[i] ?? Number.NaN;
    fromMm = Math.max(fromMm, (-room - nutY * (1 - share)) / share - q);
    toMm = Math.min(toMm, (room - nutY * (1 - share)) / share - q);
  });
  return { fromMm, toMm };
}

/**
 * Sideways doubt at the bridge when the heel can turn in its pocket: play over the pocket's length, carried on to the
 * bridge.
 */
export function sideShiftFromPlayMm(pocket: {
  readonly playMm: number;
  readonly lengthMm: number;
  readonly mouthToBridgeMm: number;
}): number {
  requirePositive(pocket.lengthMm, "lengthMm", "mm", "Measure the pocket along the centre line");
  return (pocket.playMm / pocket.lengthMm) * pocket.mouthToBridgeMm;
}
