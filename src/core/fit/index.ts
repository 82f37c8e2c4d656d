export type {
  BushingFit,
  BushingStack,
  DepthBelow,
  GapToFoil,
  HoleForThread,
  OpeningTool,
  SpotFace,
} from "./bushing.ts";
export { bushingFit, controlDepth, freeDepthMm, gapToFoil, holeForThread, openingTool, spotFace } from "./bushing.ts";
export type { FinishAdvice, ThroughHole } from "./drilling.ts";
export { finishAdvice, fromBothFaces, onTheBack } from "./drilling.ts";
export type { BalanceChange, Box, BoxFit, MassMoved } from "./fittings.ts";
export { balanceChange, boxFit } from "./fittings.ts";
export type { KnobAnswer, KnobFit, KnobOnShaft } from "./knob.ts";
export { knobFit, MOST_WOBBLE_MM } from "./knob.ts";
export type { ScrewPairFit, SlotFit } from "./lever.ts";
export { screwPairFit, slotFit } from "./lever.ts";
export type { NutFile, NutSlotFit } from "./nut-slot.ts";
export { nutFile, nutSlotFit } from "./nut-slot.ts";
export type { DepthFit, LowestSetting, PickupGap, RectangleFit, RectangleInRout } from "./pickup.ts";
export {
  depthInRout,
  gapEachSideMm,
  leastCornerRadiusMm,
  lowestSetting,
  pickupGap,
  rectangleInRout,
} from "./pickup.ts";
export type { InchDrawing, PlatePoint, StringGround, Symmetry } from "./plate.ts";
export { faceDown, inchDrawing, stringGround } from "./plate.ts";
export type { PoleFit, PolePairFit, PoleRow, StringLine } from "./poles.ts";
export { crossingMm, poleFit, polePairFit } from "./poles.ts";
export type { Rule, RuleName } from "./rules.ts";
export { RULES } from "./rules.ts";
export type { Taper } from "./taper.ts";
export { AUDIO_AT_HALF, levelAfterTurn, taperFromOhms, taperRatio } from "./taper.ts";
export type { ThreadGeometry, ThreadsTogether } from "./thread.ts";
export {
  findThread,
  threadGeometry,
  threadsTogether,
  whichThreads,
} from "./thread.ts";
export type { HeadstockFit, ScrewPlace, ScrewWall, TunerAdapter } from "./tuner.ts";
export { headstockFit, postSlotFit, tunerAdapter, tunerScrewWall } from "./tuner.ts";
export type { HoldInHole, LeadHole, PullOut, RootRule, ScrewSpacing, WoodScrew } from "./wood-screw.ts";
export {
  engagementMm,
  holdInHole,
  lateralLead,
  leadFractionByBotany,
  leadHole,
  nearestBitMm,
  numberedSizeMm,
  pullOut,
  rootMm,
  screwSpacing,
  woodScrew,
} from "./wood-screw.ts";
