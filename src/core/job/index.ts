export { wallDiameter } from "./acts-wood.ts";
export { minutesOf } from "./clock-time.ts";
export { compareStates, type Difference } from "./compare-states.ts";
export { fileWorkOf } from "./file-work.ts";
export { type Folded, type FoldOptions, foldInstrument, GLUE_CURE_MINUTES, type Voided, voidOf } from "./fold.ts";
export { otherHand } from "./handed.ts";
export type {
  DrillMethod,
  FretSlip,
  Instrument,
  Limits,
  Neck,
  SetbackEvidence,
  StringData,
  TwoScales,
  Workshop,
} from "./instrument.ts";
export type {
  Battery,
  Bridge,
  BridgePiece,
  Control,
  Lever,
  MassChange,
  PartHole,
  Pickup,
  Saddle,
  Shaft,
  StrapButton,
  Tuners,
} from "./instrument-parts.ts";
export type {
  WiredCoil,
  WiredComponent,
  WiredDevice,
  WiredPair,
  WiredState,
  WiredTrack,
  WiredWire,
  Wiring,
} from "./instrument-wiring.ts";
export type { Body, BodyPoint, Cavity, Channel, Hole } from "./instrument-wood.ts";
export { logOf } from "./log.ts";
export type { LogEntry, Operation, Undo } from "./operation.ts";
export { jobToData, type KeptSection, type ParsedJob, parseJob } from "./parse.ts";
export { type Conflict, readingsAgree, type TakenReading } from "./readings.ts";
export { DRILLING_U_MM, kindOfSubject, type Resolved, resolveActual, resolveAsFound } from "./resolve.ts";
export { type JobFile, jobJsonSchema, VERSIONS } from "./schema.ts";
export { isId, isLugName } from "./schema-wiring.ts";
export { covers, type VoidRule, voidsOf } from "./voids.ts";
