/** What the core answers. The parts stand apart so that a page takes only those that a sheet needs. */
export { ask, assess, type Job, loadJob, type QuestionName, questionsOf } from "./answers.ts";
export { drawings, markingOut, papers, tryPlace } from "./drawn.ts";
export { InputError } from "./errors.ts";
export { jobJsonSchema as jobSchema, kindOfSubject } from "./job/index.ts";
export { createLedger } from "./ledger/index.ts";
export {
  gateReadings,
  gatesOf,
  type MeasuredPrint,
  measuredPrint,
  printInWords,
  readPrint,
  travellerOf,
} from "./steps.ts";
export { signalDrawing, spiceOf, wiringDrawing, wiringOf } from "./wired.ts";
export type { StateReport, StringReport, WiringReport } from "./wiring/index.ts";
