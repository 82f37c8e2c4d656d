/**
 * Reads a value as people write it, with its unit, its doubt and where it came from.
 *
 * Form: number unit ± doubt unit (tool or origin, k=2). The unit may stand before or behind the ±; a tool or origin
 * may also follow a comma. Nothing is guessed that could be wrong by a factor: a bare 0.010 may be inches or
 * millimetres, a bare 7.9 may be ohms or kilohms, so both are asked for.
 * Left out: arithmetic, ranges, several values in one text.
 */
import Fraction from "fraction.js";
import { InputError } from "../errors.ts";
import { doubtOf, type Stated } from "./doubt.ts";
import { type ExactNumber, LONGEST_TEXT, readNumber, tidy, toDouble } from "./number.ts";
import { type Tool, toolNamed } from "./tools.ts";
import { howToWrite, kindInWords, kindOfUnit, type Unit, unitNamed, unitQuestion } from "./units.ts";
import { BASE_UNIT, type Kind, type Known, type Origin } from "./value.ts";

export interface Want {
  /** Where the value stands in the job; every message begins with it. */
  readonly path: string;
  readonly kind: Kind;
  /** Origin where no bracket says otherwise; "data sheet" unless given. */
  readonly origin?: Origin | undefined;
  /** Tool stated once for a group; values of kinds that it does not read pass it by. */
  readonly tool?: string | undefined;
  /** Shared by values read from one placing of the tool: the part of the error that they have in common gets this id. */
  readonly placing?: string | undefined;
  /** Unit of a bare length, as stated by the file. */
  readonly bareUnit?: "mm" | "inch" | undefined;
  /** Standard uncertainty of an assumed value, base unit; a stated default where not given. */
  readonly assumedU?: number | undefined;
  /** Smallest value allowed, base unit. */
  readonly min?: number | undefined;
}

/** What the brackets say. */
interface Notes {
  readonly tool: Tool | undefined;
  readonly origin: Origin | undefined;
  readonly guessed: boolean;
  readonly exact: boolean;
  readonly k: number | undefined;
}

/** A number with its unit, still exact. */
interface Amount {
  readonly number: ExactNumber;
  readonly unitText: string;
}

/**
 * @throws InputError that names `want.path`, whatever the text
 * @example
 * parseQuantity("12.3 ±0.2 mm (rule)", { path: "neck.heel", kind: "length" }).value; // 12.3
 */
export function parseQuantity(text: string | number, want: Want): Known {
  // A file may hold anything in place of a value: that is refused below, and never remembered.
  if (typeof text !== "string" && typeof text !== "number") return readQuantity(text, want);
  const { path, kind, origin, tool, placing, bareUnit, assumedU, min } = want;
  const key = JSON.stringify([text, path, kind, origin, tool, placing, bareUnit, assumedU, min]);
  const known = read.get(key);
  if (known) return known;
  const fresh = readQuantity(text, want);
  // A job has some hundred values: so many texts are those of a day's typing.
  if (read.size >= MOST_REMEMBERED) read.clear();
  read.set(key, fresh);
  return fresh;
}

const MOST_REMEMBERED = 5000;
/** What was read, by all that it was read from: most of a job stays the same from edit to edit. */
const read = new Map<string, Known>();

function readQuantity(text: string | number, want: Want): Known {
  const said = acceptedText(text, want);
  const { body, notes } = takeNotes(tidy(said), want);
  const [valueText = "", doubtText, ...more] = body.split("±");
  if (more.length > 0) throw unreadable(said, want);
  const amount = readAmount(valueText, said, want);
  const doubt = doubtText === undefined ? undefined : readAmount(doubtText, said, want);
  const unit = valueUnit(amount, doubt, said, want);
  const value = toDouble(amount.number.value.add(unit.offset).mul(unit.factor));
  refuseTooSmall(value, said, want);
  const tool = usedTool(notes, want);
  const origin = tool ? "measured" : (notes.origin ?? want.origin ?? "data sheet");
  const stated = statedDoubt(doubt, amount, unit, value, notes, said, want);
  const { path, kind, placing, assumedU } = want;
  const terms = doubtOf({ path, kind, value, origin, guessed: notes.guessed, stated, tool, placing, assumedU });
  return { known: true, path, kind, value, origin, doubt: terms, ...(tool ? { tool: tool.name } : {}), said };
}

/** Also guards at run time: a file may hold anything in place of a value. */
function acceptedText(text: unknown, want: Want): string {
  if (typeof text === "number") {
    if (!Number.isFinite(text)) throw new InputError(want.path, `${text} is not a number`, howToWrite(want.kind));
    return String(text);
  }
  if (typeof text !== "string") {
    throw new InputError(
      want.path,
      `must be text or a number, got ${text === null ? "nothing" : typeof text}`,
      howToWrite(want.kind),
    );
  }
  if (text.length > LONGEST_TEXT) {
    throw new InputError(
      want.path,
      `is ${text.length} characters long, more than ${LONGEST_TEXT}`,
      howToWrite(want.kind),
    );
  }
  return text.trim();
}

function unreadable(said: string, want: Want): InputError {
  // Control characters and half surrogates would spoil a terminal or a page.
  const shown = said.replace(/[\p{Cc}\p{Cs}\p{Cf}]/gu, "?");
  const problem = said === "" ? "is empty" : `cannot read "${shown}"`;
  return new InputError(want.path, problem, howToWrite(want.kind));
}

const ORIGINS: ReadonlyMap<string, { readonly origin: Origin; readonly guessed: boolean }> = new Map([
  ["data sheet", { origin: "data sheet", guessed: false }],
  ["datasheet", { origin: "data sheet", guessed: false }],
  ["declared", { origin: "data sheet", guessed: false }],
  ["assumed", { origin: "assumed", guessed: false }],
  ["guess", { origin: "assumed", guessed: true }],
  ["guessed", { origin: "assumed", guessed: true }],
  ["measured", { origin: "measured", guessed: false }],
]);

/** Brackets, and names behind a comma, taken off the text. */
function takeNotes(text: string, want: Want): { readonly body: string; readonly notes: Notes } {
  const found: string[] = [];
  let body = text.replace(/\(([^()]*)\)/g, (_, inside: string) => {
    found.push(...inside.split(/[,;]/));
    return " ";
  });
  for (let tail = commaTail(body); tail; tail = commaTail(body)) {
    found.push(tail.name);
    body = tail.before;
  }
  let notes: Notes = { tool: undefined, origin: undefined, guessed: false, exact: false, k: undefined };
  for (const note of found) notes = addNote(notes, note.trim(), want);
  return { body: body.trim(), notes };
}

function commaTail(text: string): { readonly before: string; readonly name: string } | undefined {
  const match = /^([^,]*(?:,\d[^,]*)*),\s*([a-z][a-z =\d]*)$/i.exec(text.trimEnd());
  return match ? { before: match[1] ?? "", name: match[2] ?? "" } : undefined;
}

function addNote(notes: Notes, note: string, want: Want): Notes {
  const word = note.toLowerCase().replace(/\s+/g, " ");
  const k = /^k ?= ?([1-4](?:\.\d+)?)$/.exec(word)?.[1];
  if (k !== undefined) return { ...notes, k: Number(k) };
  if (word === "exact") return { ...notes, exact: true };
  const tool = toolNamed(word);
  const origin = ORIGINS.get(word);
  if ((tool || origin) && (notes.tool || notes.origin)) {
    throw new InputError(want.path, `"${note}" is a second tool or origin for one value`, "Name one");
  }
  if (tool && !tool.kinds.includes(want.kind)) {
    throw new InputError(
      want.path,
      `${tool.name} does not read ${kindInWords(want.kind)}`,
      "Name the tool that was used",
    );
  }
  if (tool) return { ...notes, tool };
  if (origin) return { ...notes, ...origin };
  throw new InputError(
    want.path,
    `cannot read "(${note.replace(/[\p{Cc}\p{Cs}\p{Cf}]/gu, "?")})"`,
    "Name a tool or an origin, e.g. (calliper), (rule), (data sheet) or (assumed)",
  );
}

function usedTool(notes: Notes, want: Want): Tool | undefined {
  if (notes.tool || notes.origin || want.tool === undefined) return notes.tool;
  const tool = toolNamed(want.tool);
  if (!tool)
    throw new InputError(
      want.path,
      `no measuring tool is called "${want.tool}"`,
      "Name one, e.g. steel rule or calliper",
    );
  return tool.kinds.includes(want.kind) ? tool : undefined;
}

function readAmount(text: string, said: string, want: Want): Amount {
  const trimmed = text.trim();
  const number = codedNumber(trimmed, want) ?? joinedRatio(trimmed, want) ?? readNumber(trimmed, want.path);
  if (!number) throw unreadable(said, want);
  return joinedAmount(number, said, want) ?? { number, unitText: number.rest };
}

/** 4k7, 2n2, 4R7: the prefix in the place of the point (IEC 60062; published, from memory). */
function codedNumber(text: string, want: Want): ExactNumber | undefined {
  const letters = want.kind === "resistance" ? "kKMR" : want.kind === "capacitance" ? "pnuμ" : undefined;
  if (letters === undefined) return undefined;
  const match = new RegExp(`^(\\d+)([${letters}])(\\d+)\\s*(Ω|F)?$`).exec(text);
  if (!match) return undefined;
  const plain = readNumber(`${match[1]}.${match[3]}${match[2]}`, want.path);
  return plain && { ...plain, written: text };
}

/** 16:1 */
function joinedRatio(text: string, want: Want): ExactNumber | undefined {
  if (want.kind !== "ratio") return undefined;
  const match = /^(\d+(?:\.\d+)?)\s*:\s*(\d+(?:\.\d+)?)$/.exec(text);
  if (!match) return undefined;
  const under = new Fraction(match[2] ?? "1");
  if (under.n === 0n) throw new InputError(want.path, `${text} divides by zero`, howToWrite("ratio"));
  return { value: new Fraction(match[1] ?? "0").div(under), written: text, form: "decimal", rest: "" };
}

/** 2' 1 1/2" and 1 h 30 min: the second number counts in the first one's unit. */
function joinedAmount(first: ExactNumber, said: string, want: Want): Amount | undefined {
  const match = /^(ft|feet|foot|'|h|hr|hrs|hours?)\s*([\d.].*)$/i.exec(first.rest);
  if (!match) return undefined;
  const unitText = match[1] ?? "";
  const second = readNumber(match[2] ?? "", want.path);
  const large = unitNamed(unitText, want.kind);
  const small = second && unitNamed(second.rest, want.kind);
  if (!large || !small || small.factor.gte(large.factor)) throw unreadable(said, want);
  const part = second.value.mul(small.factor).div(large.factor);
  const value = first.value.s < 0n ? first.value.sub(part) : first.value.add(part);
  return { number: { ...first, value, written: said, rest: "" }, unitText };
}

/** `12.3 ±0.2 mm`: the unit behind the doubt counts for both, unless it is per cent. */
function valueUnit(amount: Amount, doubt: Amount | undefined, said: string, want: Want): Unit {
  if (amount.unitText !== "") return namedUnit(amount.unitText, said, want);
  if (doubt && doubt.unitText !== "" && doubt.unitText !== "%") return namedUnit(doubt.unitText, said, want);
  return bareUnit(amount.number, said, want);
}

function namedUnit(name: string, said: string, want: Want): Unit {
  const question = unitQuestion(name, want.kind);
  if (question !== undefined) throw new InputError(want.path, question, howToWrite(want.kind));
  const unit = unitNamed(name, want.kind);
  if (unit) return unit;
  const other = kindOfUnit(name);
  if (other === undefined) throw unreadable(said, want);
  throw new InputError(
    want.path,
    `"${said}" is ${kindInWords(other)}, not ${kindInWords(want.kind)}`,
    howToWrite(want.kind),
  );
}

const BASE: Unit = { factor: new Fraction(1n), offset: new Fraction(0n) };
const INCH: Unit = { factor: new Fraction("25.4"), offset: new Fraction(0n) };

/** The unit of a number without one, or a question where the number would fit two. */
function bareUnit(number: ExactNumber, said: string, want: Want): Unit {
  const { kind } = want;
  const size = Math.abs(toDouble(number.value));
  if (kind === "length") return bareLengthUnit(number, size, want);
  if (size === 0) return BASE;
  // No string weighs under 0.01 g/m and none weighs as much as 0.01 lb/in; no workshop is at 45 °C or above.
  const unclear =
    kind === "resistance" ||
    kind === "capacitance" ||
    kind === "inductance" ||
    kind === "force" ||
    (kind === "mass per length" && size < 0.01) ||
    (kind === "temperature" && size > 45);
  if (unclear) throw new InputError(want.path, `"${said}" has no unit`, howToWrite(kind));
  return BASE;
}

/** Sizes of strings, feelers and nut slots are written .010 by one bench and 0.25 by the next. */
function bareLengthUnit(number: ExactNumber, size: number, want: Want): Unit {
  if (want.bareUnit === "inch") return INCH;
  const { written, form } = number;
  const inchLike =
    form === "fraction" || (want.bareUnit === undefined && (size < 0.2 || /^0?[.,]\d{3}$/.test(written)));
  if (size === 0 || !inchLike) return BASE;
  const sign = number.value.s < 0n ? "-" : "";
  const shown = `${sign}${written}`;
  throw new InputError(want.path, `${shown} could be inches or millimetres`, `Write ${shown} in or ${shown} mm`);
}

function statedDoubt(
  doubt: Amount | undefined,
  amount: Amount,
  unit: Unit,
  value: number,
  notes: Notes,
  said: string,
  want: Want,
): Stated | undefined {
  if (!doubt) {
    if (notes.k !== undefined)
      throw new InputError(
        want.path,
        `k = ${notes.k} stands without a ±`,
        "Write the ± that it belongs to, e.g. ±0.2 (k=2)",
      );
    return notes.exact ? { halfWidth: 0, k: undefined } : undefined;
  }
  if (notes.exact) throw new InputError(want.path, "is called exact and has a ±", "Leave one of them out");
  if (doubt.number.value.s < 0n) throw unreadable(said, want);
  return { halfWidth: halfWidth(doubt, amount, unit, value, said, want), k: notes.k };
}

function halfWidth(doubt: Amount, amount: Amount, unit: Unit, value: number, said: string, want: Want): number {
  const { number, unitText } = doubt;
  if (unitText !== "%") {
    const own = unitText === "" ? unit : namedUnit(unitText, said, want);
    return toDouble(number.value.mul(own.factor));
  }
  if (want.kind !== "ratio") return toDouble(number.value.div(100n)) * Math.abs(value);
  // Per cent of a ratio could be points or a part of it; points are meant where both carry the sign.
  if (amount.unitText === "%") return toDouble(number.value.div(100n));
  throw new InputError(
    want.path,
    `"${said}" could mean points or a part of the value`,
    "Write both numbers with %, or neither",
  );
}

function refuseTooSmall(value: number, said: string, want: Want): void {
  const { min, kind, path } = want;
  if (min === undefined || value >= min) return;
  const base = BASE_UNIT[kind];
  throw new InputError(
    path,
    `must be at least ${min}${base === "" ? "" : ` ${base}`}, got "${said}"`,
    "Check the number and its sign",
  );
}
