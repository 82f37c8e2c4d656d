export { over, type Places } from "./formulas.ts";
export { createLedger } from "./memo.ts";
export { nextReading } from "./next-reading.ts";
export { normalArea, normalPoint } from "./normal.ts";
export { sumOf } from "./sum.ts";
export type {
  Asking,
  JointProblem,
  KnownWeight,
  Ledger,
  Numbers,
  Part,
  Problem,
  Question,
  ReadingAdvice,
  ReadingOption,
  ReadingWorth,
  SumSpec,
  UnknownWeight,
  Weighed,
  WeighedMany,
  WeighMethod,
} from "./types.ts";
export { jointly, probabilityOf, weigh, weighMany } from "./weigh.ts";
export { chanceFigure, GATE_CHANCE, inWords, oddsInWords } from "./words.ts";
