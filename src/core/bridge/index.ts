/** Where a bridge may stand, which holes collide, and what that costs. See docs/spec/bridge.md. */
export { neededTravelMm, reserveProbability, type SaddleDoubt, type TravelWanted } from "./chance.ts";
export { type PlaceRange, plugFreeRanges, widestWall } from "./clear-ranges.ts";
export { type DrillGuide, drillGuide, drillTipMm } from "./drill.ts";
export { type BodyPoint, type PartPoint, type Pose, toBody, toPart } from "./frame.ts";
export {
  type HoleLimits,
  type HoleScene,
  holesAtPose,
  type NewHole,
  newDiameterMm,
  type OldHole,
  type PatternHole,
  plugForMm,
} from "./holes.ts";
export {
  type Conflict,
  type ConflictRule,
  type HoleWall,
  type Judgement,
  judgeHoles,
  leastHoleWallMm,
  leastWall,
  newHoleSolid,
  type PlugNeeded,
  plugSolid,
  type RunIn,
} from "./judge.ts";
export {
  type PostPlaces,
  poseFromPosts,
  postPlaces,
  type SingleUnit,
  type TwoPosts,
  type TwoPostWindow,
  tailpieceWindow,
  twoPostWindow,
  type UnitPlace,
  unitPlaces,
} from "./posts.ts";
export {
  type FreestPose,
  freestYaw,
  type PlaceYaw,
  type PoseBounds,
  type PoseLimit,
  poseLimits,
  poseSlice,
  type SideRange,
  sideRange,
  sideShiftFromPlayMm,
} from "./region.ts";
export { type RangeWanted, type RemedySearch, requiredRanges, type WindowRemedy, windowRemedies } from "./remedies.ts";
export { type Candidate, isBetter, type PlaceFound, type PlaceSearch, searchPlace } from "./search.ts";
export {
  type BodyEdge,
  bodyOutline,
  type Channel,
  type Column,
  column,
  type DrilledHole,
  drilledHole,
  type Rout,
  rout,
  type Solid,
  tailLine,
  wallMm,
  wireChannel,
} from "./solids.ts";
export { type Anchor, ballToNutMm, breakAngleDegrees, type ContactPlace, windingPastNutMm } from "./winding.ts";
export {
  leastSaddleSpareMm,
  leastSaddleSpareTurnedMm,
  type PlacedSaddleSet,
  type PlacementCheck,
  type PlateWindow,
  placementAllowed,
  plateWindow,
  type SaddleSet,
  type SaddleSpare,
  windowAtYaw,
} from "./window.ts";
