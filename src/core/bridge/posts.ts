/**
 * Bridges on two posts, their tailpiece, and single-string units.
 *
 * Model, two posts: the bar is rigid; each post stands at its own u, so the bar's yaw is chosen by where the posts are
 * drilled: u_right - u_left = -(q_right - q_left) sin f. Contact i lies on the line through the posts' places plus its
 * offset p_i - p_post.
 * Model, single units: every unit is a part with one saddle, its own place and its own yaw along its string; neighbours
 * must not touch.
 * Left out: lean of the posts; a bar that is not straight is described by its saddles' own p.
 * Source: derived.
 */
import { requirePositive } from "../checks.ts";
import { InputError } from "../errors.ts";
import { type BodyPoint, type PartPoint, type Pose, RADIANS_PER_DEGREE, toBody } from "./frame.ts";
import { freestYaw } from "./region.ts";
import { column, wallMm } from "./solids.ts";
import { type PlacedSaddleSet, type PlateWindow, windowAtYaw } from "./window.ts";

export interface TwoPosts {
  /** The post toward y < 0 and the one toward y > 0, in the bar's own frame. */
  readonly left: PartPoint;
  readonly right: PartPoint;
}

export interface PostPlaces {
  readonly left: BodyPoint;
  readonly right: BodyPoint;
}

/** Where the posts stand for a pose of the bar. */
export function postPlaces(posts: TwoPosts, pose: Pose): PostPlaces {
  return { left: toBody(pose, posts.left), right: toBody(pose, posts.right) };
}

/**
 * The bar's pose from where its posts stand.
 *
 * @throws InputError if the posts stand further apart or closer than the bar's own holes by more than `slackMm`
 */
export function poseFromPosts(posts: TwoPosts, places: PostPlaces, slackMm = 1): Pose {
  const partApart = Math.hypot(posts.right.pMm - posts.left.pMm, posts.right.qMm - posts.left.qMm);
  const bodyApart = Math.hypot(places.right.uMm - places.left.uMm, places.right.yMm - places.left.yMm);
  if (!(Math.abs(partApart - bodyApart) <= slackMm)) {
    throw new InputError(
      "places",
      `the posts stand ${bodyApart.toFixed(2)} mm apart, the bar wants ${partApart.toFixed(2)}`,
      "Measure both again between the posts' middles",
    );
  }
  const onBody = Math.atan2(places.right.yMm - places.left.yMm, places.right.uMm - places.left.uMm);
  const onPart = Math.atan2(posts.right.qMm - posts.left.qMm, posts.right.pMm - posts.left.pMm);
  const yawDegrees = (onBody - onPart) / RADIANS_PER_DEGREE;
  const middle = { pMm: (posts.left.pMm + posts.right.pMm) / 2, qMm: (posts.left.qMm + posts.right.qMm) / 2 };
  const turned = toBody({ placeMm: 0, sideMm: 0, yawDegrees }, middle);
  return {
    placeMm: (places.left.uMm + places.right.uMm) / 2 - turned.uMm,
    sideMm: (places.left.yMm + places.right.yMm) / 2 - turned.yMm,
    yawDegrees,
  };
}

export interface TwoPostWindow {
  /** Window of a bar that stands square: usually narrow or empty. */
  readonly square: PlateWindow;
  /** Window at the freest yaw. */
  readonly freest: PlateWindow;
  readonly yawDegrees: number;
  /** Posts for the middle of that window. */
  readonly posts: PostPlaces;
  /** Travel left beyond the reserve there; negative: no yaw within the limit will do. */
  readonly spareMm: number;
}

/**
 * Where two posts may stand so that every saddle reaches its setback, and the pair of places that leaves most travel.
 *
 * @throws InputError as `windowAtYaw`
 */
export function twoPostWindow(
  input: PlacedSaddleSet & {
    readonly reserveMm: number;
    readonly posts: TwoPosts;
    readonly sideMm: number;
    readonly yawLimitDegrees: number;
  },
): TwoPostWindow {
  const { yawDegrees, window } = freestYaw(input);
  const pose = { placeMm: (window.minMm + window.maxMm) / 2, sideMm: input.sideMm, yawDegrees };
  return {
    square: windowAtYaw({ ...input, yawDegrees: 0 }),
    freest: window,
    yawDegrees,
    posts: postPlaces(input.posts, pose),
    spareMm: window.widthMm / 2,
  };
}

/**
 * Where a separate tailpiece may stand: its front edge, behind the bridge by a distance between two limits and with
 * its rear edge before the body's tail edge less a margin.
 *
 * @returns the interval of u of its front edge; `maxMm` below `minMm` if there is none
 */
export function tailpieceWindow(tail: {
  /** u that the distance is counted from, e.g. the bridge's post line. */
  readonly bridgeUMm: number;
  readonly distanceFromMm: number;
  readonly distanceToMm: number;
  readonly tailpieceLengthMm: number;
  readonly tailEdgeUMm: number;
  readonly edgeMarginMm: number;
}): { readonly minMm: number; readonly maxMm: number } {
  requirePositive(tail.tailpieceLengthMm, "tailpieceLengthMm", "mm", "Measure the tailpiece along the strings");
  return {
    minMm: tail.bridgeUMm + tail.distanceFromMm,
    maxMm: Math.min(tail.bridgeUMm + tail.distanceToMm, tail.tailEdgeUMm - tail.edgeMarginMm - tail.tailpieceLengthMm),
  };
}

export interface SingleUnit {
  /** u of the wanted contact and y of the string there. */
  readonly targetMm: number;
  readonly stringYMm: number;
  /** Run of the string; positive toward y > 0 on its way to the tail. */
  readonly yawDegrees: number;
  readonly fromMm: number;
  readonly toMm: number;
  readonly lengthMm: number;
  readonly widthMm: number;
}

export interface UnitPlace {
  /** Window of the unit's front edge in u, on its string's line. */
  readonly minMm: number;
  readonly maxMm: number;
  readonly widthMm: number;
  /** Pose in the middle of that window. */
  readonly pose: Pose;
  /** Air to the next unit of the list with both in the middle of their windows; undefined for the last. */
  readonly gapToNextMm: number | undefined;
}

/**
 * Window, pose and spacing of single-string units. The front edge's middle lies on the string's own line.
 *
 * @returns one place a unit, in the order given (neighbours next to one another)
 */
export function unitPlaces(input: { readonly units: readonly SingleUnit[]; readonly reserveMm: number }): UnitPlace[] {
  const windows = input.units.map((unit, index) => {
    requirePositive(unit.lengthMm, `units[${index}].lengthMm`, "mm", "Measure the unit along the string");
    requirePositive(unit.widthMm, `units[${index}].widthMm`, "mm", "Measure the unit across the string");
    const { minMm, maxMm, widthMm } = windowAtYaw({
      targetsMm: [unit.targetMm],
      fromMm: [unit.fromMm],
      toMm: [unit.toMm],
      acrossMm: [0],
      reserveMm: input.reserveMm,
      yawDegrees: unit.yawDegrees,
    });
    const placeMm = (minMm + maxMm) / 2;
    const sideMm = unit.stringYMm - (unit.targetMm - placeMm) * Math.tan(unit.yawDegrees * RADIANS_PER_DEGREE);
    return { minMm, maxMm, widthMm, pose: { placeMm, sideMm, yawDegrees: unit.yawDegrees } };
  });
  return windows.map((window, index) => {
    const next = windows[index + 1];
    const unit = input.units[index];
    const nextUnit = input.units[index + 1];
    const gapToNextMm =
      next && unit && nextUnit ? wallMm(footprint(window.pose, unit), footprint(next.pose, nextUnit)) : undefined;
    return { ...window, gapToNextMm };
  });
}

function footprint(pose: Pose, unit: SingleUnit) {
  const middle = toBody(pose, { pMm: unit.lengthMm / 2, qMm: 0 });
  return column({
    id: "unit",
    uMm: middle.uMm,
    yMm: middle.yMm,
    alongMm: unit.lengthMm,
    acrossMm: unit.widthMm,
    cornerRadiusMm: 0,
    yawDegrees: pose.yawDegrees,
    topZMm: Number.POSITIVE_INFINITY,
    bottomZMm: Number.NEGATIVE_INFINITY,
  });
}
