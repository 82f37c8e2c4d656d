/**
 * Numbers as people write them, kept as exact fractions.
 *
 * Model: an optional sign, then a decimal (point or comma), a fraction, or a whole number with a fraction behind a
 * space or a hyphen: at the bench `1-1/8` is one and an eighth, never one less an eighth. The value stays a fraction
 * until the unit's factor is on it; only then is it rounded, once, to the nearest double.
 * Left out: thousands separators, arithmetic, words for numbers.
 */
import Fraction from "fraction.js";
import { InputError } from "../errors.ts";

/** The longest text that is read at all: bounds the work that a hostile file can cause. */
export const LONGEST_TEXT = 120;

/** Unicode fractions with their terms; U+2189 (0/3) is left out because nobody means it. */
const VULGAR: Readonly<Record<string, string>> = {
  "½": "1/2",
  "⅓": "1/3",
  "⅔": "2/3",
  "¼": "1/4",
  "¾": "3/4",
  "⅕": "1/5",
  "⅖": "2/5",
  "⅗": "3/5",
  "⅘": "4/5",
  "⅙": "1/6",
  "⅚": "5/6",
  "⅐": "1/7",
  "⅛": "1/8",
  "⅜": "3/8",
  "⅝": "5/8",
  "⅞": "7/8",
  "⅑": "1/9",
  "⅒": "1/10",
};

/**
 * Look-alikes brought to one form. Compatibility folding (NFKC) is avoided on purpose: it turns 10² into 102.
 * A letter with a combining mark stays as it is and is refused later.
 */
const LOOK_ALIKES: readonly (readonly [RegExp, string])[] = [
  [/[\u00a0\u2000-\u200a\u202f\u205f\u3000\t\r\n]/g, " "],
  [/[\u2010-\u2015\u2212]/g, "-"],
  [/[\u2044\u2215]/g, "/"],
  [/\u00b5/g, "μ"],
  [/\u2126/g, "Ω"],
  [/\u212a/g, "K"],
  [/[\u00ba\u02da]/g, "°"],
  [/\u2103/g, "°C"],
  [/\u2109/g, "°F"],
  [/[\u2032\u2018\u2019\u02b9\u00b4]/g, "'"],
  [/[\u2033\u201c\u201d\u02ba]|''/g, '"'],
  [/\+\s?\/?\s?-|\u2213/g, "±"],
];

export function tidy(text: string): string {
  let out = "";
  const letters = [...text];
  letters.forEach((letter, index) => {
    const fraction = VULGAR[letter];
    if (fraction === undefined) {
      out += letter;
      return;
    }
    // 25½ needs a space, and so does the nonsense ½5, which would else read as a twenty-fifth.
    const before = /\d$/.test(out) ? " " : "";
    const after = /^\d/.test(letters[index + 1] ?? "") ? " " : "";
    out += before + fraction + after;
  });
  for (const [pattern, plain] of LOOK_ALIKES) out = out.replace(pattern, plain);
  return out.trim();
}

export interface ExactNumber {
  readonly value: Fraction;
  /** The number's own letters, without sign. */
  readonly written: string;
  readonly form: "decimal" | "fraction";
  /** What follows the number. */
  readonly rest: string;
}

const NUMBER =
  /^(?<sign>[+-]?)\s*(?:(?<whole>\d+)(?:\s+|-)(?<over>\d+)\s*\/\s*(?<under>\d+)|(?<over1>\d+)\s*\/\s*(?<under1>\d+)|(?<decimal>\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE](?<power>[+-]?\d{1,2})(?!\d))?)/;

/**
 * The number at the start of a tidied text; undefined if there is none.
 *
 * @throws InputError on a number that reads two ways or divides by zero
 */
export function readNumber(text: string, where: string): ExactNumber | undefined {
  const match = NUMBER.exec(text);
  const groups = match?.groups;
  if (!match || !groups) return undefined;
  const rest = text.slice(match[0].length).trim();
  if (/^[\d.,/+-]/.test(rest)) return undefined;
  const sign = groups.sign === "-" ? -1n : 1n;
  const written = match[0].replace(/^[+-]\s*/, "");
  if (groups.decimal !== undefined) {
    refuseThousands(groups.decimal, where);
    return { value: decimal(groups.decimal, groups.power ?? "0", sign), written, form: "decimal", rest };
  }
  const over = BigInt(groups.over ?? groups.over1 ?? 0);
  const under = BigInt(groups.under ?? groups.under1 ?? 1);
  const whole = BigInt(groups.whole ?? 0);
  if (under === 0n)
    throw new InputError(where, `${written} divides by zero`, "Correct the lower figure of the fraction");
  if (groups.whole !== undefined && over >= under) {
    throw new InputError(where, `${written} has a fraction of one or more behind a whole number`, "Check the fraction");
  }
  return { value: new Fraction(sign * (whole * under + over), under), written, form: "fraction", rest };
}

function refuseThousands(written: string, where: string): void {
  if (!/^[1-9]\d{0,2},\d{3}$/.test(written)) return;
  const [before, after] = written.split(",");
  throw new InputError(
    where,
    `${written} could be ${before}${after} or ${before}.${after}`,
    `Write ${before}${after} or ${before}.${after}`,
  );
}

function decimal(written: string, power: string, sign: bigint): Fraction {
  const [before = "", after = ""] = written.split(/[.,]/);
  const digits = BigInt(`${before}${after}` || "0");
  const exponent = Number(power) - after.length;
  const scale = 10n ** BigInt(Math.abs(exponent));
  return exponent < 0 ? new Fraction(sign * digits, scale) : new Fraction(sign * digits * scale, 1n);
}

/**
 * The double nearest to a fraction. Dividing two rounded big integers, as `valueOf` does, rounds up to three times:
 * here the quotient keeps 66 bits and a mark for what lies below them, and is rounded once.
 */
export function toDouble(fraction: Fraction): number {
  const { n, d } = fraction;
  const sign = fraction.s < 0n ? -1 : 1;
  if (n === 0n) return 0;
  if (n <= Number.MAX_SAFE_INTEGER && d <= Number.MAX_SAFE_INTEGER) return (sign * Number(n)) / Number(d);
  const shift = 66 - (n.toString(2).length - d.toString(2).length);
  const top = shift > 0 ? n << BigInt(shift) : n;
  const bottom = shift > 0 ? d : d << BigInt(-shift);
  const below = top % bottom === 0n ? 0n : 1n;
  return sign * Number((top / bottom) | below) * 2 ** -shift;
}
