/** Words and figures as they appear on a sheet, in the unit chosen for it. */
import { type LengthUnit, showFigure } from "../quantity/index.ts";
import type { Words } from "./scene.ts";

export function wordsText(words: Words, units: LengthUnit): string {
  return typeof words === "string"
    ? words
    : words.map((part) => (typeof part === "string" ? part : withMinus(showFigure(part, units)))).join("");
}

/** A length without its unit: the title block names the unit for the whole sheet. */
export function lengthFigure(valueMm: number, digits: number, units: LengthUnit): string {
  return withMinus(showFigure({ value: valueMm, unit: "mm", digits }, units).replace(/ (mm|in)$/, ""));
}

/** A minus as wide as a plus: a hyphen before a figure is easily lost in print. */
export function withMinus(text: string): string {
  return text.replace(/^-/, "−");
}
