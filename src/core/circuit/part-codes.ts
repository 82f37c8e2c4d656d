/**
 * Values printed on resistors, pots and capacitors.
 *
 * Model: every way in which the text can be read is tried; a way that gives no value of the E24 series is dropped where
 * another gives one. What remains is told, likeliest first.
 * Left out: values of E48 and up with three digits, F and G as picofarads below 10 pF, codes that only one maker uses.
 * Source: IEC 60062 as tabulated in an encyclopaedia article (R, K, M as decimal point) and in pages on capacitor codes
 * (three digits, 8 and 9 as third digit, tolerance letters of capacitors). From memory: p, n, u as decimal point; G and
 * L on resistors; tolerance letters of resistors; letters for the rated voltage; "k" for a thousand picofarads and
 * "mfd" for microfarads on old capacitors.
 */
import { InputError } from "../errors.ts";
import { isPreferred } from "./preferred-values.ts";

export interface ResistorReading {
  readonly nominalOhms: number;
  /** Missing when the code has no letter for it. */
  readonly tolerance?: { readonly letter: string; readonly leastOhms: number; readonly mostOhms: number };
  /** Which way of reading gave it. */
  readonly how: string;
}

export interface CapacitorReading {
  readonly nominalFarads: number;
  /** Missing when the code has no letter for it. */
  readonly tolerance?: { readonly letter: string; readonly leastFarads: number; readonly mostFarads: number };
  readonly ratedVolts?: number;
  /** Which way of reading gave it. */
  readonly how: string;
}

export interface CodeReadings<Reading> {
  readonly likeliest: Reading;
  /** Further ways to read the same text; empty when there is no doubt. */
  readonly others: readonly Reading[];
  /** What to say when there are others. */
  readonly doubt?: string;
}

/** One way to read a text, before limits are put to it. Digits and exponent as text keep the value exact. */
interface Way {
  readonly digits: string;
  readonly exponent: number;
  readonly letter?: string | undefined;
  readonly how: string;
}

/** Percent below and above. */
type Percent = readonly [below: number, above: number];

/** From memory. */
const RESISTOR_PERCENT: Readonly<Record<string, number>> = { B: 0.1, C: 0.25, D: 0.5, F: 1, G: 2, J: 5, K: 10, M: 20 };

const CAPACITOR_PERCENT: Readonly<Record<string, Percent>> = {
  F: [1, 1],
  G: [2, 2],
  H: [3, 3],
  J: [5, 5],
  K: [10, 10],
  M: [20, 20],
  P: [0, 100],
  Z: [20, 80],
};
const CAPACITOR_PICOFARADS: Readonly<Record<string, number>> = { B: 0.1, C: 0.25, D: 0.5 };
const PICO = 1e-12;

const OHM_EXPONENT: Readonly<Record<string, number>> = { R: 0, E: 0, K: 3, M: 6, G: 9, L: -3 };
const FARAD_EXPONENT: Readonly<Record<string, number>> = { p: -12, n: -9, u: -6 };

/** First significant figures of the letters for rated voltage; the digit before is the power of ten. From memory. */
const VOLTS: Readonly<Record<string, number>> = {
  A: 1,
  B: 1.25,
  C: 1.6,
  D: 2,
  E: 2.5,
  F: 3.15,
  G: 4,
  H: 5,
  J: 6.3,
  K: 8,
  V: 3.5,
};

/**
 * Reads a resistor's code: "R47", "4R7", "470R", "4K7", "47K3", "4M7", with a tolerance letter behind, "473", "4.7k".
 *
 * @throws InputError if the text is no code of a resistor
 * @example
 * readResistorCode("4K7J").likeliest; // 4700 ohm, from 4465 to 4935
 */
export function readResistorCode(text: string): CodeReadings<ResistorReading> {
  const tidy = text
    .replace(/\s+/g, "")
    .replace(",", ".")
    .replace(/(\u03a9|\u2126|ohms?)$/i, "");
  const ways = [...resistorLetterWays(tidy), ...resistorDigitWays(tidy)];
  if (ways.length === 0) {
    const remedy = 'Write it as "4K7", "470R", "4.7k" or "473"; of a part with rings, read the rings or use a meter';
    throw new InputError("code", `cannot read "${text}" as a resistor`, remedy);
  }
  return readings(text, ways, asResistor, ({ nominalOhms }) => ohmsInWords(nominalOhms));
}

/** A letter in the place of the decimal point, or behind the number. */
function resistorLetterWays(text: string): Way[] {
  const found = /^(\d*)\.?(\d*)([RKMGLE])(\d*)([BCDFGJKM]?)$/i.exec(text);
  if (!found) return [];
  const [, whole = "", decimals = "", multiplier = "", behind = "", letter = ""] = found;
  const inNumber = text.includes(".");
  if (whole + decimals + behind === "" || (inNumber && (decimals === "" || behind !== ""))) return [];
  const exponent = OHM_EXPONENT[multiplier.toUpperCase()] ?? 0;
  const digits = number(whole, inNumber ? decimals : behind);
  const tolerance = letter === "" ? undefined : letter.toUpperCase();
  const way = { digits, exponent, letter: tolerance, how: `${multiplier} stands for the decimal point and the size` };
  if (multiplier !== "m") return [way];
  return [
    { ...way, how: "m meant as M, millions" },
    { ...way, exponent: -3, how: "m as thousandths" },
  ];
}

/** Digits alone: the last may count the zeros. */
function resistorDigitWays(text: string): Way[] {
  if (!/^(\d+|\d*\.\d+)$/.test(text)) return [];
  const literal = { digits: text, exponent: 0, how: "ohms written out" };
  if (!/^\d{3,4}$/.test(text)) return [literal];
  return [
    { digits: text.slice(0, -1), exponent: Number(text.at(-1)), how: "the last digit counts the zeros" },
    literal,
  ];
}

function asResistor({ digits, exponent, letter, how }: Way): ResistorReading {
  const nominalOhms = Number(`${digits}e${exponent}`);
  const percent = letter === undefined ? undefined : RESISTOR_PERCENT[letter];
  if (letter === undefined || percent === undefined) return { nominalOhms, how };
  const leastOhms = nominalOhms * (1 - percent / 100);
  const mostOhms = nominalOhms * (1 + percent / 100);
  return { nominalOhms, tolerance: { letter, leastOhms, mostOhms }, how };
}

/**
 * Reads a pot's code: a resistor's code with, before or behind it, a letter for the taper ("A500K", "250KB", "B504").
 *
 * @returns the letter too; it does not tell the taper, since its meaning differs from region to region
 * @throws InputError if the text is no code of a pot
 */
export function readPotCode(text: string): CodeReadings<ResistorReading> & { readonly taperLetter?: string } {
  const tidy = text.replace(/\s+/g, "");
  const found = /^([A-DW])[-.]?(\d.*)$/i.exec(tidy) ?? /^(.*[\dKM])[-.]?([ABCDW])$/i.exec(tidy);
  if (!found) return readResistorCode(text);
  const [, one = "", two = ""] = found;
  const [letter, code] = one.length === 1 && !/\d/.test(one) ? [one, two] : [two, one];
  return { ...readResistorCode(code), taperLetter: letter.toUpperCase() };
}

/**
 * Reads a capacitor's code: "p33", "4n7", "22n", "223", "473J", "2A473J", "0.022", "22 nF"; "220" in two ways.
 *
 * @throws InputError if the text is no code of a capacitor
 * @example
 * readCapacitorCode("223K").likeliest; // 22e-9 F, from 19.8e-9 to 24.2e-9
 */
export function readCapacitorCode(text: string): CodeReadings<CapacitorReading> {
  const { code: spaced, ratedVolts } = withoutVoltage(text.trim().replace(",", ".").replace(/[µμ]/g, "u"));
  const code = spaced.replace(/\s+/g, "");
  const ways = [...faradLetterWays(code), ...zeroCountWays(code), ...plainNumberWays(code)];
  if (ways.length === 0) {
    const remedy = 'Write it as "22n", "4n7", "473J" or "0.022 uF", without the voltage, or measure it with a meter';
    throw new InputError("code", `cannot read "${text}" as a capacitor`, remedy);
  }
  const withVolts = (way: Way) => (ratedVolts === undefined ? asCapacitor(way) : { ...asCapacitor(way), ratedVolts });
  return readings(text, ways, withVolts, ({ nominalFarads }) => faradsInWords(nominalFarads));
}

/** Volts stand behind ("473J100", "22n 630V") or, as digit and letter, before ("2A473J"). */
function withoutVoltage(text: string): { readonly code: string; readonly ratedVolts?: number } {
  const behind =
    /^(.*[a-z])\s*(\d{2,4})\s*V(?:DC|AC)?$/i.exec(text) ??
    /^(.+?)[\s/-]+(\d{2,4})\s*V(?:DC|AC)?$/i.exec(text) ??
    /^(.*\d\s*[BCDFGHJKMZ])\s*(\d{2,4})$/i.exec(text);
  if (behind?.[1] && behind[2]) return { code: behind[1], ratedVolts: Number(behind[2]) };
  const [, power = "", letter = "", code] = /^([0-3])([A-HJKV])(\d{3}[A-Z]?)$/i.exec(text) ?? [];
  const figure = VOLTS[letter.toUpperCase()];
  if (code === undefined || figure === undefined) return { code: text };
  return { code, ratedVolts: Number(`${figure}e${power}`) };
}

/** p, n or u in the place of the decimal point, or behind the number. */
function faradLetterWays(text: string): Way[] {
  const old = /^(\d+|\d*\.\d+)(m{1,2})fd?$/i.exec(text);
  if (old?.[1] && old[2]) {
    const exponent = old[2].length === 1 ? -6 : -12;
    return [{ digits: old[1], exponent, how: "mf as microfarads and mmf as picofarads, as on old capacitors" }];
  }
  const found = /^(\d*)(\.\d+)?([pnu])(\d{0,2})(f?)([BCDFGHJKMPZ]?)$/i.exec(text);
  if (!found) return [];
  const [, whole = "", decimals = "", unit = "", behind = "", farad = "", letter = ""] = found;
  if (whole + decimals + behind === "" || (decimals !== "" && behind !== "")) return [];
  // Behind digits an F is no farad any more: "4n7F" is 1 %.
  const tolerance = letter !== "" ? letter : behind !== "" && farad !== "" ? farad : undefined;
  if (letter !== "" && behind !== "" && farad !== "") return [];
  const digits = number(whole, decimals.slice(1) + behind);
  const exponent = FARAD_EXPONENT[unit.toLowerCase()] ?? 0;
  return [
    { digits, exponent, letter: tolerance?.toUpperCase(), how: `${unit} stands for the decimal point and the size` },
  ];
}

/** Three digits: two figures and the number of zeros, in picofarads; 8 and 9 stand for hundredths and tenths. */
function zeroCountWays(text: string): Way[] {
  const found = /^(\d\d)(\d)([BCDFGHJKMPZ]?)$/i.exec(text);
  const [, digits, zeros, letter] = found ?? [];
  if (digits === undefined || digits === "00" || zeros === undefined) return [];
  const power = { 8: -2, 9: -1 }[Number(zeros)] ?? Number(zeros);
  const how = "two figures and the number of zeros, in picofarads";
  return [{ digits, exponent: power - 12, letter: letter?.toUpperCase() || undefined, how }];
}

/** A number without a unit. */
function plainNumberWays(text: string): Way[] {
  const found = /^(\d+|\d*\.\d+)([BCDFGHJKMPZ]?)$/i.exec(text);
  const [, digits, letter = ""] = found ?? [];
  if (digits === undefined || Number(digits) === 0) return [];
  const written = { digits, letter: letter.toUpperCase() || undefined };
  const microfarads = { ...written, exponent: -6, how: "microfarads written out" };
  const ways: Way[] = digits.includes(".")
    ? [microfarads]
    : [{ ...written, exponent: -12, how: "picofarads written out" }];
  if (/^\d{1,2}$/.test(text)) ways.push(microfarads);
  if (letter.toUpperCase() === "K" && Number(digits) >= 1) {
    ways.push({ digits, exponent: -9, how: "k as a thousand picofarads, as on old capacitors" });
  }
  return ways;
}

function asCapacitor({ digits, exponent, letter, how }: Way): CapacitorReading {
  const nominalFarads = Number(`${digits}e${exponent}`);
  if (letter === undefined) return { nominalFarads, how };
  const farads = (CAPACITOR_PICOFARADS[letter] ?? 0) * PICO;
  const [below, above] = CAPACITOR_PERCENT[letter] ?? [0, 0];
  const leastFarads = Math.max(0, nominalFarads * (1 - below / 100) - farads);
  const mostFarads = nominalFarads * (1 + above / 100) + farads;
  return { nominalFarads, tolerance: { letter, leastFarads, mostFarads }, how };
}

/** Ways as readings, the unlikely dropped, with words for the doubt that remains. */
function readings<Reading extends { readonly how: string; readonly tolerance?: { readonly letter: string } }>(
  text: string,
  ways: readonly Way[],
  read: (way: Way) => Reading,
  inWords: (reading: Reading) => string,
): CodeReadings<Reading> {
  const made = ways.filter(({ digits, exponent }) => isMade(Number(`${digits}e${exponent}`)));
  const [likeliest, ...others] = (made.length > 0 ? made : ways).map(read);
  if (likeliest === undefined) throw new Error(`no way to read "${text}"`);
  if (others.length === 0) return { likeliest, others };
  const meanings = [likeliest, ...others].map((one) => {
    const letter = one.tolerance ? `, ${one.tolerance.letter} as tolerance` : "";
    return `${inWords(one)} (${one.how}${letter})`;
  });
  return { likeliest, others, doubt: `"${text}" can be ${meanings.join(" or ")}: measure it before you trust it` };
}

/** Pots, and capacitors of old, come in 25 and 50 too. */
function isMade(value: number): boolean {
  const figures = Number(value.toExponential(6).split("e")[0]);
  return value === 0 || figures === 2.5 || figures === 5 || isPreferred(value, "E24");
}

function number(whole: string, decimals: string): string {
  return decimals === "" ? whole : `${whole === "" ? "0" : whole}.${decimals}`;
}

const OHM_SIZES = [
  [1e6, "Mohm"],
  [1e3, "kohm"],
  [1, "ohm"],
] as const;

const FARAD_SIZES = [
  [1e-6, "uF"],
  [1e-9, "nF"],
  [1e-12, "pF"],
] as const;

function ohmsInWords(ohms: number): string {
  return inSizes(ohms, OHM_SIZES);
}

function faradsInWords(farads: number): string {
  return inSizes(farads, FARAD_SIZES);
}

function inSizes(value: number, sizes: typeof OHM_SIZES | typeof FARAD_SIZES): string {
  const [size, unit] = sizes.find(([one]) => value >= one * 0.9999) ?? sizes[2];
  return `${Number((value / size).toPrecision(6))} ${unit}`;
}
