/**
 * Values written out for people, in a form that parseQuantity reads back.
 *
 * Digits: a doubt is given to at most two significant digits and the value to the same place (JCGM 100:2008, 7.2.6;
 * published). One or two: two where the doubt's leading digits lie below 3.55, one above (the rounding rule of the
 * particle data tables; from memory), so that rounding changes a doubt by a seventh at most.
 * What stands behind ± means the same as on the way in: a limit, or with (k=2) twice the standard uncertainty.
 */
import { MM_PER_INCH } from "./units.ts";
import { BASE_UNIT, type Kind, type Known, type Quantity, standardUncertainty } from "./value.ts";

/** A length as millimetres, decimal inches, or inches to the nearest 1/64. */
export type LengthShown = "mm" | "inch" | "fraction";

export interface LengthStyle {
  readonly units: LengthShown;
  /** Decimals in mm where no doubt is given; decimal inches get one or two more. */
  readonly digits: number;
  /** Standard uncertainty in mm; then it sets the digits. */
  readonly u?: number | undefined;
}

const SIXTY_FOURTHS = 64;
const MOST_DECIMALS = 15;

/**
 * @example
 * formatLength(647.7, { units: "fraction", digits: 1 }); // 25 1/2″
 */
export function formatLength(valueMm: number, { units, digits, u }: LengthStyle): string {
  if (units === "fraction") return `${inchFraction(valueMm / MM_PER_INCH)}″`;
  const inch = units === "inch";
  const factor = inch ? 1 / MM_PER_INCH : 1;
  const places = u === undefined || u === 0 ? digits + (inch ? (digits > 1 ? 1 : 2) : 0) : decimalsFor(u * factor);
  return `${rounded(valueMm * factor, places)} ${inch ? "in" : "mm"}`;
}

/**
 * A value with its doubt and origin, e.g. `44.50 ±0.10 mm (calliper, k=2)`; "not known" if nobody has said.
 */
export function formatQuantity(quantity: Quantity, units: LengthShown = "mm"): string {
  if (!quantity.known) return "not known";
  const notes: string[] = [quantity.tool ?? quantity.origin];
  const scale = scaleFor(quantity, units);
  const half = halfWidth(quantity);
  if (half.width === 0) {
    if (quantity.kind !== "count" && quantity.kind !== "money") notes.push("exact");
    return `${joined(shownPlain(quantity, scale, units), scale.unit)} (${notes.join(", ")})`;
  }
  if (half.k !== undefined) notes.push(`k=${half.k}`);
  const places = decimalsFor(half.width * scale.factor);
  const doubt = `±${joined(rounded(half.width * scale.factor, places), scale.unit)}`;
  const value =
    units === "fraction" && quantity.kind === "length"
      ? formatLength(quantity.value, { units, digits: 2 })
      : rounded(quantity.value * scale.factor, places);
  return `${value} ${doubt} (${notes.join(", ")})`;
}

/** What stands behind the ±: the limit of a lone rectangular term, else twice the standard uncertainty. */
function halfWidth(quantity: Known): { readonly width: number; readonly k: number | undefined } {
  const [first, ...more] = quantity.doubt;
  if (first && more.length === 0 && first.shape === "uniform")
    return { width: Math.abs(first.u) * Math.sqrt(3), k: undefined };
  return { width: 2 * standardUncertainty(quantity), k: 2 };
}

interface Scale {
  readonly unit: string;
  /** Units shown in one base unit. */
  readonly factor: number;
}

/** Prefixes, largest first, with the smallest value that gets them. */
const PREFIXED: Readonly<Partial<Record<Kind, readonly Scale[]>>> = {
  resistance: [
    { unit: "MΩ", factor: 1e-6 },
    { unit: "kΩ", factor: 1e-3 },
    { unit: "Ω", factor: 1 },
  ],
  capacitance: [
    { unit: "µF", factor: 1e6 },
    { unit: "nF", factor: 1e9 },
    { unit: "pF", factor: 1e12 },
  ],
  inductance: [
    { unit: "H", factor: 1 },
    { unit: "mH", factor: 1e3 },
  ],
};

function scaleFor({ kind, value }: Known, units: LengthShown): Scale {
  if (kind === "length" && units !== "mm") return { unit: "in", factor: 1 / MM_PER_INCH };
  const scales = PREFIXED[kind];
  const fallback = { unit: BASE_UNIT[kind], factor: 1 };
  if (!scales) return fallback;
  return scales.find(({ factor }) => Math.abs(value) * factor >= 1) ?? scales.at(-1) ?? fallback;
}

function shownPlain(quantity: Known, scale: Scale, units: LengthShown): string {
  if (units === "fraction" && quantity.kind === "length") return inchFraction(quantity.value / MM_PER_INCH);
  // Twelve digits hide the last bits that a factor leaves behind.
  return String(Number((quantity.value * scale.factor).toPrecision(12)));
}

function joined(number: string, unit: string): string {
  if (unit === "") return number;
  return unit === "°" ? `${number}°` : `${number} ${unit}`;
}

/** Decimals that a doubt deserves; negative: tens and more. */
function decimalsFor(doubt: number): number {
  // Rounded to three digits first, so that 0.09996 counts as 0.100.
  const [mantissa = "1", exponent = "0"] = doubt.toExponential(2).split("e");
  const place = -Number(exponent);
  return Number(mantissa) < 3.55 ? place + 1 : place;
}

function rounded(value: number, decimals: number): string {
  if (decimals < 0) {
    const step = 10 ** -decimals;
    return String(Math.round(value / step) * step || 0);
  }
  const text = value.toFixed(Math.min(decimals, MOST_DECIMALS));
  return /^-0(\.0*)?$/.test(text) ? text.slice(1) : text;
}

function inchFraction(inches: number): string {
  const steps = Math.round(Math.abs(inches) * SIXTY_FOURTHS);
  const sign = inches < 0 && steps > 0 ? "-" : "";
  const whole = Math.floor(steps / SIXTY_FOURTHS);
  let over = steps % SIXTY_FOURTHS;
  let under = SIXTY_FOURTHS;
  while (over > 0 && over % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  if (over === 0) return `${sign}${whole}`;
  return `${sign}${whole > 0 ? `${whole} ` : ""}${over}/${under}`;
}
