export type { BlindSpot } from "./blind-spots.ts";
export { type StateCheck, soundNames, type WiringCheck, wantedOf, wiringCheck } from "./check.ts";
export { circuitOf, type Guess, movedBy, PRIOR, type WiredCircuit } from "./circuit-of.ts";
export { bandOf, type OhmsBand, ohmsBand } from "./ohms.ts";
export { plainCopy } from "./plain-copy.ts";
export {
  loadOf,
  type StateReport,
  type StringReport,
  stateCurve,
  WARM_CELSIUS,
  type WiringReport,
  wiringReport,
} from "./report.ts";
