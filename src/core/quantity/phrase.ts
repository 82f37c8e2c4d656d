/**
 * Sentences whose figures keep their number and unit, so that one verdict can be shown in millimetres or in inches
 * and written to JSON without parsing text.
 */

export interface Figure {
  readonly value: number;
  /** "mm" figures follow the mm/inch switch; every other unit is shown as it stands. */
  readonly unit: string;
  /** Decimals when shown in `unit`; an inch figure gets one or two more. */
  readonly digits: number;
  /** Standard uncertainty in `unit`; shown behind the figure, expanded with k = 2. */
  readonly u?: number;
}

export type Phrase = readonly (string | Figure)[];

export type LengthUnit = "mm" | "inch";

/** say`short by ${mm(1.7)}`: a phrase from a template. Nested phrases are spliced in. */
export function say(strings: TemplateStringsArray, ...parts: (string | number | Figure | Phrase)[]): Phrase {
  const out: (string | Figure)[] = [];
  strings.forEach((text, index) => {
    if (text) out.push(text);
    const part = parts[index];
    if (part === undefined) return;
    if (typeof part === "number") out.push(String(part));
    else if (Array.isArray(part)) out.push(...(part as Phrase));
    else out.push(part as string | Figure);
  });
  return out;
}

/** A length in millimetres. */
export function mm(value: number, digits = 2, u?: number): Figure {
  return u === undefined ? { value, unit: "mm", digits } : { value, unit: "mm", digits, u };
}

/** Any other figure with its unit. */
export function figure(value: number, unit: string, digits = 1): Figure {
  return { value, unit, digits };
}

const MM_PER_INCH = 25.4;

/** Doubts are shown expanded, about 95 %: JCGM 100:2008, 6.2.1. */
const COVERAGE = 2;

/** The figure alone, with its unit: `1.70 mm` or `0.067 in`. */
export function showFigure(part: Figure, units: LengthUnit): string {
  const inch = part.unit === "mm" && units === "inch";
  const factor = inch ? 1 / MM_PER_INCH : 1;
  const digits = inch ? part.digits + (part.digits > 1 ? 1 : 2) : part.digits;
  const unit = inch ? "in" : part.unit;
  const number = cleanZero((part.value * factor).toFixed(digits));
  const doubt = part.u === undefined ? "" : ` ±${(COVERAGE * part.u * factor).toFixed(digits)}`;
  const shown = `${number}${doubt}${unit === "" ? "" : unit === "°" || unit === "%" ? unit : ` ${unit}`}`;
  return doubt === "" ? shown : `${shown} (k=${COVERAGE})`;
}

export function showPhrase(phrase: Phrase, units: LengthUnit = "mm"): string {
  return phrase.map((part) => (typeof part === "string" ? part : showFigure(part, units))).join("");
}

/** "-0.00" reads as a sign that is not there. */
function cleanZero(text: string): string {
  return /^-0(\.0*)?$/.test(text) ? text.slice(1) : text;
}
