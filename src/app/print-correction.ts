/** What the rules of a printed sheet measured, as a correction for the next print. */
import { GIVE_THE_CODE, nextPrint, type PaperName, type PrintFactors } from "../core/drawing/index.ts";
import { InputError } from "../core/errors.ts";
import { parseQuantity } from "../core/quantity/index.ts";

const EXAMPLE = '"279.2, 189.6, 337.5, 337.4"';
const PARTS = ["down the sheet", "across the sheet", "top left to bottom right", "top right to bottom left"] as const;

/**
 * @param printed the four lengths as read: down, across, both diagonals; then the sheet's code, which an upright sheet
 *   that was not corrected may do without. `;` between them if they hold commas
 * @returns factors for the next print, on top of those that the sheet was drawn with; `undefined` if none are needed
 * @throws InputError if a reading is missing or cannot be read, or if no correction can help this print
 */
export function printCorrection(printed: string, where: string, paper: PaperName): PrintFactors | undefined {
  const given = printed.split(printed.includes(";") ? ";" : ",").map((text) => text.trim());
  const texts = given.slice(0, PARTS.length);
  const [code, ...more] = given.slice(PARTS.length);
  if (texts.length !== PARTS.length || texts.includes("") || more.length > 0) {
    const remedy = `Give four lengths with commas between, ${PARTS.join(", ")}, e.g. ${where} ${EXAMPLE}`;
    throw new InputError(where, `needs four lengths, got "${printed}"`, remedy);
  }
  const lengthMm = (index: 0 | 1 | 2 | 3): number =>
    parseQuantity(texts[index] ?? "", { path: `${where}, ${PARTS[index]}`, kind: "length", bareUnit: "mm" }).value;
  const measured = { alongMm: lengthMm(0), acrossMm: lengthMm(1), diagonal1Mm: lengthMm(2), diagonal2Mm: lengthMm(3) };

  const { check, factors } = nextPrint(measured, code, paper, where);
  if ("refuse" in check)
    throw new InputError(where, check.refuse, code === undefined ? `${check.remedy}. ${GIVE_THE_CODE}` : check.remedy);
  return factors;
}
