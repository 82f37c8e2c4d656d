/** What the rules of a printed sheet measured, as a correction for the next print. */
import { nominalOf, type PaperName, type PrintFactors, printCheck, sheetPaper } from "../core/drawing/index.ts";
import { InputError } from "../core/errors.ts";
import { parseQuantity } from "../core/quantity/index.ts";

const EXAMPLE = '"279.2, 189.6, 337.5, 337.4"';
const PARTS = ["down the sheet", "across the sheet", "top left to bottom right", "top right to bottom left"] as const;

/**
 * @param printed the four lengths as read from an upright sheet: down, across, both diagonals; `;` between them if they hold commas
 * @returns factors for the next print; `undefined` if the print is true as it is
 * @throws InputError if a reading is missing or cannot be read, or if no correction can help this print
 */
export function printCorrection(printed: string, where: string, paper: PaperName): PrintFactors | undefined {
  const texts = printed.split(printed.includes(";") ? ";" : ",").map((text) => text.trim());
  if (texts.length !== PARTS.length || texts.includes("")) {
    const remedy = `Give four lengths with commas between, ${PARTS.join(", ")}, e.g. ${where} ${EXAMPLE}`;
    throw new InputError(where, `needs four lengths, got "${printed}"`, remedy);
  }
  const lengthMm = (index: 0 | 1 | 2 | 3): number =>
    parseQuantity(texts[index] ?? "", { path: `${where}, ${PARTS[index]}`, kind: "length", bareUnit: "mm" }).value;
  const measured = { alongMm: lengthMm(0), acrossMm: lengthMm(1), diagonal1Mm: lengthMm(2), diagonal2Mm: lengthMm(3) };

  const check = printCheck(measured, nominalOf(sheetPaper(paper, "portrait").frame));
  if ("refuse" in check) throw new InputError(where, check.refuse, check.remedy);
  return "correct" in check ? check.correct : undefined;
}
