export type { BlindSpot } from "./blind-spots.ts";
export { type StateCheck, soundNames, type WiringCheck, wantedOf, wiringCheck } from "./check.ts";
export { circuitOf, type Guess, movedBy, PRIOR, type WiredCircuit } from "./circuit-of.ts";
export { drawWiring, signalOf, signalPage, wiresOfSignal, wiringPage } from "./draw-wiring.ts";
export { bandOf, type OhmsBand, OPEN_FROM_OHMS, ohmsBand, readingAgrees } from "./ohms.ts";
export { type OhmsCause, ohmsBehindCapacitors, ohmsCauses, ohmsOfCoilsAlone } from "./ohms-causes.ts";
export { plainCopy } from "./plain-copy.ts";
export { type PlacedDevice, type PlacedLug, type PlateLayout, plateLayout } from "./plate-layout.ts";
export { type PictureOptions, type PlatePicture, platePicture } from "./plate-picture.ts";
export {
  loadOf,
  type StateReport,
  type StringReport,
  stateCurve,
  WARM_CELSIUS,
  type WiringReport,
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
export { type WireName, wireNames } from "./wire-names.ts";
