/** Heights: fret plane, radius, relief, saddle heights, shim, screw turns. See docs/spec/setup.md. */
export {
  countPlaneFrom,
  type FretPlane,
  fretPlaneFromHeel,
  fretPlaneFromStraightedge,
  planeHeightMm,
  reliefRiseMm,
} from "./fret-plane.ts";
export {
  type BoardRadius,
  coneRadiusMm,
  dropMm,
  radiusAtMm,
  radiusFromSagittaMm,
  saddleArcMm,
  sagittaMm,
} from "./radius.ts";
export {
  actionFromSaddleMm,
  type SaddleHeight,
  type StringLine,
  saddleHeight,
  saddleHeightMm,
} from "./saddle-height.ts";
export {
  heightChangeAlongMm,
  heightOfTurnsMm,
  pitchFromThreadsPerInchMm,
  type ScrewTurn,
  saddleChangeForActionMm,
  screwTurn,
} from "./screw.ts";
export {
  heightsWithShimMm,
  type Pocket,
  type ShimAnswer,
  type ShimWanted,
  shimAngleDegrees,
  shimForRiseMm,
  shimGain,
  shimRange,
  type ThickEnd,
} from "./shim.ts";
