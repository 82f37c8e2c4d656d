/**
 * Units that people write, with their exact factor to the unit in which the core holds each kind.
 *
 * 1 in = 25.4 mm and 1 lb = 0.45359237 kg are exact by the agreement of 1959; 1 lbf uses the standard acceleration
 * 9.80665 m/s² (published, from memory). A unit that reads two ways is not guessed but asked for: see `ASKED`.
 */
import Fraction from "fraction.js";
import type { Kind } from "./value.ts";

export const MM_PER_INCH = 25.4;

export function inchesFromMm(lengthMm: number): number {
  return lengthMm / MM_PER_INCH;
}

export function mmFromInches(lengthInches: number): number {
  return lengthInches * MM_PER_INCH;
}

export interface Unit {
  /** Base units in one of this. */
  readonly factor: Fraction;
  /** Added before the factor (degrees Fahrenheit, kelvin). */
  readonly offset: Fraction;
}

/** Names, then the factor as decimal or fraction, then the offset. */
type Row = readonly [names: string, factor: string, offset?: string];

const PER_INCH = "453.59237 / 0.0254";
const PER_FOOT = "453.59237 / 0.3048";

const ROWS: Readonly<Record<Kind, readonly Row[]>> = {
  length: [
    ["mm millimetre millimetres millimeter millimeters", "1"],
    ["cm centimetre centimetres centimeter centimeters", "10"],
    ["m metre metres meter meters", "1000"],
    ["μm um micron microns micrometre micrometres micrometer micrometers", "0.001"],
    ['in inch inches "', "25.4"],
    ["thou thousandth thousandths", "0.0254"],
    ["ft foot feet '", "304.8"],
  ],
  angle: [["° deg degree degrees", "1"]],
  cents: [["cents cent ct ¢ c", "1"]],
  count: [],
  mass: [
    ["g gram grams gramme grammes", "1"],
    ["kg kilogram kilograms", "1000"],
    ["mg", "0.001"],
    ["lb lbs pound pounds", "453.59237"],
    ["oz ounce ounces", "453.59237 / 16"],
  ],
  "mass per length": [
    ["g/m mg/mm", "1"],
    ["kg/m g/mm", "1000"],
    ["g/cm", "100"],
    ["mg/m", "0.001"],
    ['lb/in lbs/in lbm/in lb/inch lb/"', PER_INCH],
    ["lb/ft lbs/ft lbm/ft", PER_FOOT],
  ],
  frequency: [
    ["Hz hertz", "1"],
    ["kHz", "1000"],
  ],
  resistance: [
    ["Ω R ohm ohms", "1"],
    ["kΩ k K KΩ kR kohm kohms kilohm kilohms", "1000"],
    ["MΩ M Mohm Mohms MOhm MOhms Meg meg megohm megohms", "1000000"],
    ["mΩ", "0.001"],
  ],
  capacitance: [
    ["F farad farads", "1"],
    ["μF uF u μ microfarad microfarads", "0.000001"],
    ["nF n nanofarad nanofarads", "0.000000001"],
    ["pF p picofarad picofarads", "0.000000000001"],
  ],
  inductance: [
    ["H henry henries henrys", "1"],
    ["mH", "0.001"],
    ["μH uH", "0.000001"],
  ],
  // String tables print tension in lb or kg and mean the force (common practice, no source).
  force: [
    ["N newton newtons", "1"],
    ["lbf lb lbs pound pounds", "0.45359237 * 9.80665"],
    ["kgf kg", "9.80665"],
  ],
  hours: [
    ["h hr hrs hour hours", "1"],
    ["min mins minute minutes", "1 / 60"],
    ["s sec secs second seconds", "1 / 3600"],
  ],
  money: [["cu", "1"]],
  temperature: [
    ["°C C c degC celsius", "1"],
    ["°F F f degF fahrenheit", "5 / 9", "-32"],
    ["K kelvin", "1", "-273.15"],
  ],
  ratio: [["%", "0.01"]],
};

/** Units that mean two things; the text is the question put to the writer. */
const ASKED: Readonly<Partial<Record<Kind, Readonly<Record<string, string>>>>> = {
  length: {
    mil: "mil can mean a millimetre or a thousandth of an inch",
    mils: "mils can mean millimetres or thousandths of an inch",
  },
  resistance: { m: "m can mean milliohms or megohms", mohm: "mohm can mean milliohms or megohms" },
  capacitance: {
    mF: "mF is a thousandth of a farad today and a microfarad on old prints",
    MF: "MF means microfarads on old prints only",
    mfd: "mfd is not a unit of today",
    MFD: "MFD is not a unit of today",
  },
};

const NAMES: Readonly<Record<Kind, string>> = {
  length: "a length",
  angle: "an angle",
  cents: "an interval in cents",
  count: "a plain number",
  mass: "a mass",
  "mass per length": "a mass per length",
  frequency: "a frequency",
  resistance: "a resistance",
  capacitance: "a capacitance",
  inductance: "an inductance",
  force: "a force",
  hours: "a time",
  money: "a cost",
  temperature: "a temperature",
  ratio: "a ratio",
};

const REMEDIES: Readonly<Record<Kind, string>> = {
  length: "Write a length with its unit, e.g. 648 mm or 25 1/2 in",
  angle: "Write degrees, e.g. 0.5°",
  cents: "Write cents, e.g. 17.1 cents",
  count: "Write a plain number, e.g. 22",
  mass: "Write a mass, e.g. 32.5 g",
  "mass per length": "Write g/m or lb/in, e.g. 0.671 g/m",
  frequency: "Write hertz, e.g. 246.94 Hz",
  resistance: "Write a number with Ω, k or M, e.g. 500k",
  capacitance: "Write a number with p, n or u, e.g. 22n",
  inductance: "Write henries, e.g. 4.4 H or 120 mH",
  force: "Write N or lbf, e.g. 78 N",
  hours: "Write hours or minutes, e.g. 1.5 h or 90 min",
  money: "Write a plain number or cu, the job's own cost unit, e.g. 9 cu",
  temperature: "Write °C or °F, e.g. 20 °C",
  ratio: "Write a plain number, per cent or a ratio, e.g. 0.5, 50 % or 16:1",
};

/** What the kind is called in a sentence, e.g. "a length". */
export function kindInWords(kind: Kind): string {
  return NAMES[kind];
}

/** How to write a value of the kind. */
export function howToWrite(kind: Kind): string {
  return REMEDIES[kind];
}

const KINDS = Object.keys(ROWS) as Kind[]; // ROWS has every kind as a key, and nothing else
const EXACT_NAMES = new Map(KINDS.map((kind) => [kind, exactNames(ROWS[kind])]));
const FOLDED_NAMES = new Map(KINDS.map((kind) => [kind, foldedNames(ROWS[kind])]));

/** The unit of that name, if it belongs to the kind. Spaces and a full stop at the end do not matter. */
export function unitNamed(name: string, kind: Kind): Unit | undefined {
  const key = unitKey(name);
  return EXACT_NAMES.get(kind)?.get(key) ?? FOLDED_NAMES.get(kind)?.get(key.toLowerCase());
}

/** The question to put when the unit reads two ways. */
export function unitQuestion(name: string, kind: Kind): string | undefined {
  const asked = ASKED[kind];
  const key = unitKey(name);
  return asked && Object.hasOwn(asked, key) ? asked[key] : undefined;
}

/** A kind that does have the unit, for saying what was given instead. */
export function kindOfUnit(name: string): Kind | undefined {
  return KINDS.find((kind) => unitNamed(name, kind) !== undefined);
}

function unitKey(name: string): string {
  return name.replace(/\s+/g, "").replace(/(?<=.)\.$/, "");
}

function exactNames(rows: readonly Row[]): Map<string, Unit> {
  const names = new Map<string, Unit>();
  for (const [row, factor, offset] of rows) {
    const unit = { factor: factorOf(factor), offset: new Fraction(offset ?? "0") };
    for (const name of row.split(" ")) names.set(name, unit);
  }
  return names;
}

/** Names that stay clear without their capitals: mm and MM, but not MΩ and mΩ. */
function foldedNames(rows: readonly Row[]): Map<string, Unit> {
  const names = new Map<string, Unit>();
  const unclear = new Set<string>();
  for (const [name, unit] of exactNames(rows)) {
    const folded = name.toLowerCase();
    const before = names.get(folded);
    if (before && before !== unit) unclear.add(folded);
    names.set(folded, unit);
    // A capital that carries the meaning must be written as one: M is mega, m milli; N newton, n nano.
    if (name !== folded && (name.length === 1 || name.startsWith("M"))) unclear.add(folded);
  }
  for (const folded of unclear) if (!rows.some(([row]) => row.split(" ").includes(folded))) names.delete(folded);
  return names;
}

function factorOf(text: string): Fraction {
  const [first = "", operator, second = ""] = text.split(" ");
  const left = new Fraction(first);
  if (operator === "/") return left.div(new Fraction(second));
  if (operator === "*") return left.mul(new Fraction(second));
  return left;
}
