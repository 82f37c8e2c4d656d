export type {
  Margin,
  NextReading,
  PartWant,
  Permanence,
  Remedy,
  Share,
  Source,
  Status,
  Sum,
  SumRow,
  Verdict,
} from "./verdict.ts";
export type { BodyPlace, DrillPlace, PlugPlace, Work } from "./work.ts";
