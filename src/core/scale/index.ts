/** Scale length, frets, setback, and where the scale line falls on the body. See docs/spec/bridge.md. */
export { type FretReading, fitScale, type ScaleFit, suspectReadings } from "./fit.ts";
export { fretPositionMm, fretShare, fretToScaleLineMm } from "./frets.ts";
export { type MultiScale, type StringRun, stringRuns } from "./multi-scale.ts";
export {
  type HeelChain,
  scaleLineFromFret12Mm,
  scaleLineFromHeelChainMm,
  scaleLineFromScaleLengthMm,
} from "./scale-line.ts";
export {
  centsLeft,
  type SharedSaddle,
  setbackFromCentsMm,
  setbackFromOldSaddleMm,
  shareSaddle,
  type TrialReading,
} from "./setback.ts";
