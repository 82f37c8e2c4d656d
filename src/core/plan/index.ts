export { type Agreement, agree, agreementOf, independent } from "./agreement.ts";
export { type ReadingView, viewReading } from "./asked.ts";
export { cautionsFor, LOCAL_RULES_FIRST } from "./cautions.ts";
export { everythingToFit } from "./contents.ts";
export { decidingValues } from "./deciding.ts";
export { drillingNotMet } from "./drilling-not-met.ts";
export { finishOf, gateOf } from "./gate.ts";
export { mergeWorks, type PlannedWork } from "./merge-works.ts";
export { ORDER_RULES, type OrderRule } from "./order-rules.ts";
export { type Lag, type Schedule, schedule, type Task } from "./schedule.ts";
export { planTraveller } from "./traveller.ts";
export { turnAngle, turnWords } from "./turn-words.ts";
export type {
  AskedReading,
  Caution,
  Circumstances,
  DoneStep,
  Gate,
  GateReason,
  GateRule,
  KeptPart,
  Need,
  Override,
  PlanInput,
  PlanPlaces,
  PrintCheck,
  Purchase,
  Step,
  StepKind,
  TakenReading,
  ToFit,
  ToolLine,
  Traveller,
  Turn,
} from "./types.ts";
export { STEP_KINDS } from "./types.ts";
export { bitSettled, depthSettled } from "./unsettled.ts";
