export type { BlindSpot } from "./blind-spots.ts";
export { circuitOf, type Guess, movedBy, PRIOR, type WiredCircuit } from "./circuit-of.ts";
export { bandOf, type OhmsBand, OPEN_FROM_OHMS, ohmsBand, readingAgrees } from "./ohms.ts";
export { type OhmsCause, ohmsBehindCapacitors, ohmsCauses, ohmsOfCoilsAlone } from "./ohms-causes.ts";
export { plainCopy } from "./plain-copy.ts";
export {
  loadOf,
  type StateCheck,
  type StateReport,
  type StringReport,
  soundNames,
  stateCurve,
  WARM_CELSIUS,
  type WiringCheck,
  type WiringReport,
  wantedOf,
  wiringCheck,
  wiringReport,
} from "./report.ts";
export {
  CONTACT_OHMS,
  type GroupKind,
  type Joint,
  type Proof,
  type SolderGroup,
  shownOhms,
  solderGroups,
} from "./soldering.ts";
