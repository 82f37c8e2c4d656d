/** How verdicts are shown in a terminal: units, width, colour, and the words and figures that recur. */
import { chanceFigure, oddsInWords } from "../core/ledger/index.ts";
import { type LengthUnit, type Phrase, showPhrase } from "../core/quantity/index.ts";
import type { Status } from "../core/verdict/index.ts";
import { paint, printable, type Tone } from "./text.ts";

export interface Style {
  readonly units: LengthUnit;
  readonly width: number;
  readonly colour: boolean;
  /** Chance that a step which cannot be undone waits for. */
  readonly gate: number;
}

const TONE_OF_STATUS = {
  "no-go": "bad",
  measure: "open",
  rework: "work",
  go: "good",
} as const satisfies Record<Status, Tone>;

export function statusWord(status: Status, style: Style): string {
  return paint(status, TONE_OF_STATUS[status], style.colour);
}

/** In the units asked for, and safe to print. */
export function phrase(words: Phrase, style: Style): string {
  return printable(showPhrase(words, style.units));
}

/** Figure and words: `0.63, about 2 in 3`. */
export function chance(probability: number, style: Style): string {
  return `${chanceFigure(probability, style.gate)}, ${oddsInWords(probability)}`;
}
