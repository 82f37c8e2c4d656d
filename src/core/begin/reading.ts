/**
 * One or more lengths in a line, as people read them off: `324`, `11.5 16`, `12 3/4 in (tape)`, `36, 52.5 with a calliper`.
 *
 * A bare number is in millimetres. A unit behind the last number counts for the whole line if no other number has one;
 * a fraction without a unit is asked about, because nobody divides millimetres by sixteen.
 * The tool stands in brackets or as words behind the last number, once for the line; without it the entry's own tool is
 * taken. A hyphen between two figures means "to", not a sign.
 */
import { InputError } from "../errors.ts";
import { type Known, parseQuantity, standardUncertainty, toolNamed } from "../quantity/index.ts";

export interface Reading {
  readonly valueMm: number;
  /** Standard uncertainty. */
  readonly uMm: number;
  /** Tool or origin, as it stands in brackets in the job file. */
  readonly by: string;
  readonly measured: boolean;
  /** As it goes into the job file: `12 3/4 in (tape)`. */
  readonly written: string;
}

export interface LineWant {
  /** Entry, for messages. */
  readonly entry: string;
  readonly tool: string;
  readonly minMm: number;
  readonly maxMm: number;
  /** What the length is, to say why a value cannot be: "from nut to fret 12". */
  readonly what: string;
}

/** A whole number in front of a fraction does not begin with 0: `0 13/32` are two places, not one. */
export const NUMBER = String.raw`[+-]?(?:[1-9]\d*[ -]\d+\/\d+|\d+\/\d+|\d+(?:[.,]\d+)?|\.\d+)`;
export const UNIT = String.raw`(?:mm\b|millimet(?:re|er)s?\b|cm\b|inch(?:es)?\b|in\b|")`;
const LENGTH = new RegExp(String.raw`(${NUMBER})(?![\d/])\s*(${UNIT})?(?:\s*±\s*(${NUMBER})\s*(${UNIT}|%)?)?`, "gi");
/** Words that stand between figures and say nothing. */
const SEPARATORS = /[,;/-]|\b(?:x|to|and|by|then|about|mm)\b/gi;
const TOOL_WORDS = /\b(?:with|by|using|a|an|the|my|read|on)\b/gi;

interface Figure {
  readonly number: string;
  readonly unit: string;
  readonly doubt: string;
}

/**
 * @throws InputError naming the entry, for what cannot be read or cannot be such a length
 * @example
 * readLengths("36, 52.5 (calliper)", want).map((one) => one.valueMm); // [36, 52.5]
 */
export function readLengths(text: string, want: LineWant): Reading[] {
  const { body, note } = takeNote(text, want);
  const figures: Figure[] = [];
  if (/\d,\d+,\d/.test(body))
    throw new InputError(want.entry, `cannot tell the figures of "${shown(body)}" apart`, "Put a space between them");
  const plain = body.replace(/(\d)(?:-| - )(?=\d)(?!\d+\/\d)/g, "$1 ");
  const rest = plain.replace(LENGTH, (_, number: string, unit = "", doubt = "", doubtUnit = "") => {
    // 12 1/2 ±1/16 in: the unit behind the doubt counts for both.
    const own = unit === "" && doubtUnit !== "%" ? doubtUnit : unit;
    figures.push({ number, unit: own, doubt: doubt === "" ? "" : ` ±${doubt} ${doubtUnit}` });
    return " ";
  });
  const by = note ?? toolIn(rest, want) ?? want.tool;
  if (figures.length === 0) throw unreadable(text, want);
  return shared(figures, want).map((figure) => readingOf(figure, by, want));
}

function takeNote(text: string, want: LineWant): { readonly body: string; readonly note: string | undefined } {
  const notes = [...text.matchAll(/\(([^()]*)\)/g)].map(([, inside = ""]) => inside.trim());
  const body = text.replace(/\([^()]*\)/g, " ");
  if (/[()]/.test(body)) throw unreadable(text, want);
  if (new Set(notes).size > 1)
    throw new InputError(want.entry, `names ${notes.length} tools`, "Name the tool once, at the end of the line");
  return { body, note: notes[0] };
}

/** Words left over are a tool, or a slip of the pen. */
function toolIn(rest: string, want: LineWant): string | undefined {
  const words = rest.replace(SEPARATORS, " ").replace(TOOL_WORDS, " ").replace(/\s+/g, " ").trim();
  if (words === "") return undefined;
  if (toolNamed(words)) return words;
  throw new InputError(
    want.entry,
    `cannot read "${shown(words)}"`,
    "Write the figures, and the tool in brackets if it was another one",
  );
}

/** A unit behind the last figure counts for all; a mixture is asked about. */
function shared(figures: readonly Figure[], want: LineWant): readonly Figure[] {
  const last = figures.at(-1)?.unit ?? "";
  const withUnit = figures.filter(({ unit }) => unit !== "").length;
  if (withUnit === 0 || withUnit === figures.length) return figures;
  if (withUnit > 1 || last === "") throw mixedUnits(want.entry);
  return figures.map((figure) => ({ ...figure, unit: last }));
}

/**
 * Parts of one entry (rows, groups of strings) are read one by one: a unit that stands once, behind the entry's last
 * figure, goes behind each of them here, and a mixture across parts is asked about as it is within one.
 *
 * @param parts figures in the order in which they were written, without tools
 * @example
 * withUnit(["7/16 5/8", "1/2 3/4 in"], "travel"); // ["7/16 5/8 in", "1/2 3/4 in"]
 */
export function withUnit(parts: readonly string[], entry: string): string[] {
  const figures = parts.flatMap((part, index) =>
    [...part.matchAll(LENGTH)]
      .map(([, number = "", unit = "", , doubtUnit = ""]) => ({
        index,
        number,
        unit: unit === "" && doubtUnit !== "%" ? doubtUnit : unit,
      }))
      // Nothing is nothing in any unit.
      .filter(({ number, unit }) => unit !== "" || Number(number) !== 0),
  );
  const units = new Set(figures.flatMap(({ unit }) => (unit === "" ? [] : [unit])));
  const bare = figures.some(({ unit }) => unit === "");
  if (!bare || [...units].every((unit) => MILLIMETRES.test(unit))) return [...parts];
  const last = figures.at(-1)?.unit ?? "";
  if (units.size > 1 || last === "") throw mixedUnits(entry);
  return parts.map((part, index) => {
    const own = figures.filter((figure) => figure.index === index);
    return own.length > 0 && own.at(-1)?.unit === "" ? `${part.trim()} ${last}` : part;
  });
}

/** Figures without a unit are millimetres, so that unit asks no question. */
const MILLIMETRES = /^(?:mm|mil.*)$/i;

export function mixedUnits(entry: string): InputError {
  return new InputError(
    entry,
    "has a unit behind some figures and none behind others",
    "Write the unit behind each, or once behind the last",
  );
}

function readingOf({ number, unit, doubt }: Figure, by: string, want: LineWant): Reading {
  if (unit === "" && number.includes("/"))
    throw new InputError(
      want.entry,
      `${number} could be inches or millimetres`,
      `Write ${number} in, or the unit once behind the last figure`,
    );
  const body = `${number}${unit === "" ? " mm" : unit === '"' ? '"' : ` ${unit}`}`;
  const written = `${body}${doubt.trimEnd()} (${by})`;
  const known: Known = parseQuantity(written, { path: want.entry, kind: "length", bareUnit: "mm" });
  refuseImpossible(known.value, body, want);
  return {
    valueMm: known.value,
    uMm: standardUncertainty(known),
    by: known.tool ?? by,
    measured: known.origin === "measured",
    written,
  };
}

function refuseImpossible(valueMm: number, said: string, { entry, minMm, maxMm, what }: LineWant): void {
  if (valueMm >= minMm && valueMm <= maxMm) return;
  throw new InputError(
    entry,
    `${said} cannot be ${what}: ${minMm} to ${maxMm} mm is possible`,
    "Check the figure and its unit; bare figures are millimetres",
  );
}

function unreadable(text: string, want: LineWant): InputError {
  return new InputError(
    want.entry,
    `cannot read "${shown(text)}"`,
    "Write the figures in millimetres, e.g. 324 or 12 3/4 in; an empty line if you do not know",
  );
}

/** Control characters would spoil a terminal or a page. */
export function shown(text: string): string {
  const clean = text.replace(/[\p{Cc}\p{Cs}\p{Cf}]/gu, "?");
  return clean.length > 60 ? `${clean.slice(0, 57)}…` : clean;
}

/**
 * A length worked out from a reading, as it goes into a job file: factor × value + shift, its doubt with it.
 *
 * @example
 * writtenScaled({ ...rule324, valueMm: 324, uMm: 0.25 }, { factor: 2 }); // "648 ±1 mm (steel rule, k=2)"
 */
export function writtenScaled(
  reading: Reading,
  { factor = 1, shiftMm = 0 }: { readonly factor?: number; readonly shiftMm?: number },
): string {
  const value = reading.valueMm * factor + shiftMm;
  const by = reading.by.replace(/,?\s*(?:k ?= ?[\d.]+|exact)/gi, "") || "data sheet";
  if (reading.uMm === 0) return `${plainMm(value)} ±0 mm (${by})`;
  return `${plainMm(value)} ±${plainMm(2 * Math.abs(factor) * reading.uMm)} mm (${by}, k=2)`;
}

/** Millimetres to a thousandth, without zeros that say nothing. */
export function plainMm(value: number): string {
  return String(Number(value.toFixed(3)));
}
