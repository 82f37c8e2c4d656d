/**
 * Rows of holes as a person reads them off, one row to a semicolon: where along, a colon, where across.
 *
 * Along: one figure, or two from one laying of the rule (where the datum reads, where the holes read). Across: `5 at 10`
 * (five places 10.0 apart, the middle one on the centre line), or figures from the centre line with minus to the left,
 * or a running dimension `0 10 20 30 40` from the first hole, which is centred. Then, in any order, `dia 3.2`,
 * `pilot 2.5`, `deep 22`, `through`. Sizes stand behind the places: a figure left over behind a size would be one hole
 * too many, so it is asked about. A unit that stands once, behind the last figure, counts for the whole entry.
 */
import { InputError } from "../errors.ts";
import {
  type LineWant,
  mixedUnits,
  NUMBER,
  plainMm,
  type Reading,
  readLengths,
  shown,
  UNIT,
  withUnit,
} from "./reading.ts";

export interface HoleRow {
  /** From the datum; a difference where the rule was laid with the datum on a mark of its own. */
  readonly along: Reading;
  /** From the centre line, most negative first. */
  readonly across: readonly Reading[];
  readonly centred: boolean;
  readonly diameter?: Reading;
  readonly pilot?: Reading;
  readonly depth?: Reading;
  readonly through: boolean;
}

export interface RowsWant {
  readonly entry: string;
  readonly tool: string;
  /** For sizes of the holes themselves. */
  readonly sizeTool: string;
  readonly minAlongMm: number;
  readonly maxAlongMm: number;
  /** "from fret 12", "from the front edge". */
  readonly from: string;
}

const MOST_ROWS = 8;
const MOST_HOLES = 16;
/** Half of the widest bridge. */
const WIDEST_MM = 110;
const SIZE = String.raw`${NUMBER}(?![\d/])\s*(?:${UNIT})?(?:\s*±\s*${NUMBER}\s*(?:${UNIT}|%)?)?`;
const NAMED = new RegExp(String.raw`\b(dia(?:meter)?|wide|thread|pilot|deep|depth)\s*(${SIZE})`, "gi");
/** Stands where a size was taken out, to see what follows it. */
const TAKEN = "|";
const LEFT_BEHIND = /\|[\s,x-]*(?:(?:to|by|and|or)\b[\s-]*)?[+-]?[.,±]*\d/i;
const FIRST = new RegExp(String.raw`^${NUMBER}(?![\d/])\s*(?:${UNIT})?`, "i");
const PATTERN = /(\d+)\s*(?:at|x|@)\s*(.+)$/i;

/** @throws InputError naming the entry */
export function readHoleRows(text: string, want: RowsWant): HoleRow[] {
  const note = /\(([^()]*)\)\s*$/.exec(text)?.[0] ?? "";
  const rows = text
    .slice(0, text.length - note.length)
    .split(";")
    .map((row) => row.trim())
    .filter((row) => row !== "");
  if (rows.length === 0) throw cannotRead(text, want);
  if (rows.length > MOST_ROWS)
    throw new InputError(want.entry, `has ${rows.length} rows`, `Give the ${MOST_ROWS} nearest to the new bridge`);
  const raw = rows.map((row) => takeApart(/\(/.test(row) ? row : `${row} ${note}`, want));
  return alike(inOneUnit(raw, want).map((row) => readRow(row, want)));
}

/** What one row says, sorted but not yet read. */
interface RawRow {
  readonly along: string;
  /** In `5 at 10` the 5; `across` is then the distance from one hole to the next. */
  readonly count?: number;
  readonly across: string;
  /** By what they tell: diameter, pilot, depth. */
  readonly sizes: ReadonlyMap<string, string>;
  readonly note: string;
  readonly through: boolean;
}

function takeApart(text: string, want: RowsWant): RawRow {
  const sizes = new Map<string, string>();
  const note = /\([^()]*\)/.exec(text)?.[0] ?? "";
  const marked = text
    .replace(/\([^()]*\)/g, " ")
    .replaceAll(TAKEN, " ")
    .replace(NAMED, (_, name: string, size: string) => {
      sizes.set(meaning(name), size);
      return ` ${TAKEN} `;
    });
  if (LEFT_BEHIND.test(marked))
    throw new InputError(
      want.entry,
      "has a figure behind the size of a hole, which could be one more hole",
      "Write the places first, then each size with one figure, e.g. 34: -21 0 21 dia 3.5 ±0.5 deep 24",
    );
  const plain = marked
    .replaceAll(TAKEN, " ")
    .replace(/\b(?:through|screws?|holes?|posts?|studs?|strings?)\b/gi, " ")
    .replace(/[,\s]+$/, "")
    .trim();
  const { along, across } = halves(plain, want);
  const pattern = PATTERN.exec(across);
  const told = pattern?.index === 0 ? { count: Number(pattern[1]), across: pattern[2] ?? "" } : { across };
  return { along, ...told, sizes, note, through: /\bthrough\b/i.test(text) };
}

/** The unit behind the entry's last figure goes behind all that have none; one behind a size alone says too little. */
function inOneUnit(rows: readonly RawRow[], want: RowsWant): RawRow[] {
  const parts = rows.flatMap(({ along, across, sizes }) => [along, across, ...sizes.values()]);
  const filled = withUnit(parts, want.entry);
  const places = withUnit(
    rows.flatMap(({ along, across }) => [along, across]),
    want.entry,
  );
  let next = 0;
  return rows.map((row, index) => {
    const [along = "", across = ""] = [filled[next++], filled[next++]];
    if (along !== places[2 * index] || across !== places[2 * index + 1]) throw mixedUnits(want.entry);
    return { ...row, along, across, sizes: new Map([...row.sizes.keys()].map((key) => [key, filled[next++] ?? ""])) };
  });
}

/** Sizes said of one row hold for the rows that say nothing. */
function alike(rows: readonly HoleRow[]): HoleRow[] {
  const first = (key: "diameter" | "pilot" | "depth") => rows.find((row) => row[key] !== undefined)?.[key];
  const [diameter, pilot, depth] = [first("diameter"), first("pilot"), first("depth")];
  const said = {
    ...(diameter === undefined ? {} : { diameter }),
    ...(pilot === undefined ? {} : { pilot }),
    ...(depth === undefined ? {} : { depth }),
  };
  return rows.map((row) => ({ ...said, ...row }));
}

function readRow(row: RawRow, want: RowsWant): HoleRow {
  const { along, note, sizes } = row;
  const size = (key: string, what: string, maxMm: number): Reading | undefined => {
    const said = sizes.get(key);
    return said === undefined
      ? undefined
      : only(readLengths(`${said} ${note}`, { ...lineWant(want, what, 0.5, maxMm), tool: want.sizeTool }), want, what);
  };
  const diameter = size("diameter", "the diameter of a hole", 30);
  const pilot = size("pilot", "a pilot hole", 30);
  const depth = size("depth", "the depth of a hole", 60);
  return {
    along: alongOf(readLengths(`${along} ${note}`, lineWant(want, `a place ${want.from}`, -WIDEST_MM, 2000)), want),
    ...acrossOf(row, want),
    ...(diameter === undefined ? {} : { diameter }),
    ...(pilot === undefined ? {} : { pilot }),
    ...(depth === undefined ? {} : { depth }),
    through: row.through,
  };
}

function meaning(name: string): string {
  const word = name.toLowerCase();
  return word === "pilot" ? "pilot" : word === "deep" || word === "depth" ? "depth" : "diameter";
}

/** What stands before and behind the colon; without one, `395 5 at 10` and `395 -20 0 20` are clear enough. */
function halves(plain: string, want: RowsWant): { readonly along: string; readonly across: string } {
  const colon = plain.indexOf(":");
  if (colon >= 0) return { along: plain.slice(0, colon), across: plain.slice(colon + 1).trim() };
  const pattern = PATTERN.exec(plain);
  if (pattern && pattern.index > 0) return { along: plain.slice(0, pattern.index), across: pattern[0] };
  const first = FIRST.exec(plain)?.[0];
  const rest = first === undefined ? "" : plain.slice(first.length).trim();
  if (first === undefined || rest === "") throw cannotRead(plain, want);
  return { along: first, across: rest };
}

/** One figure from the datum; two are the datum's own reading and the holes', from one laying. */
function alongOf(readings: readonly Reading[], want: RowsWant): Reading {
  const [first, second, ...more] = readings;
  if (!first || more.length > 0)
    throw new InputError(
      want.entry,
      `gives ${readings.length} figures along for one row`,
      `Give one, ${want.from}, then a colon, e.g. 395.5: 5 at 10`,
    );
  const along = second === undefined ? first : difference(first, second);
  if (along.valueMm >= want.minAlongMm && along.valueMm <= want.maxAlongMm) return along;
  throw new InputError(
    want.entry,
    `${plainMm(along.valueMm)} mm ${want.from} cannot be: ${want.minAlongMm} to ${want.maxAlongMm} mm is possible`,
    "Check the figure and what it was measured from",
  );
}

/** A span read from one laying is as sure as one reading of it. */
function difference(from: Reading, to: Reading): Reading {
  const valueMm = to.valueMm - from.valueMm;
  return { ...to, valueMm, written: `${plainMm(valueMm)} mm (${to.by})` };
}

const ON_THE_LINE = /^(?:on )?(?:the )?(?:centre|center|middle)(?: line)?$/i;

function acrossOf(row: RawRow, want: RowsWant): Pick<HoleRow, "across" | "centred"> {
  const { count, note } = row;
  const text = ON_THE_LINE.test(row.across) ? "0" : row.across;
  if (count !== undefined) {
    refuseCount(count, want);
    const pitch = only(
      readLengths(`${text} ${note}`, lineWant(want, "the distance from one hole to the next", 2, 2 * WIDEST_MM)),
      want,
      "distance from hole to hole",
    );
    const across = Array.from({ length: count }, (_, index) => moved(pitch, pitch.valueMm * (index - (count - 1) / 2)));
    return { across, centred: true };
  }
  if (text === "")
    throw new InputError(
      want.entry,
      "does not say where the holes stand across",
      "Write e.g. 395.5: 5 at 10, or 395.5: -20 -10 0 10 20",
    );
  const readings = readLengths(`${text} ${note}`, lineWant(want, "a place across", -WIDEST_MM, 2 * WIDEST_MM));
  refuseCount(readings.length, want);
  const ordered = [...readings].sort((a, b) => a.valueMm - b.valueMm);
  const [least, most] = [ordered[0]?.valueMm ?? 0, ordered.at(-1)?.valueMm ?? 0];
  const running = readings.length > 1 && readings[0]?.valueMm === 0 && least === 0;
  const across = running ? ordered.map((one) => moved(one, one.valueMm - most / 2)) : ordered;
  const wide = across.find((one) => Math.abs(one.valueMm) > WIDEST_MM);
  if (wide)
    throw new InputError(
      want.entry,
      `${plainMm(wide.valueMm)} mm across is off any bridge`,
      "Write places across from the centre line, minus to the left with the head up",
    );
  return { across, centred: running };
}

function moved(reading: Reading, valueMm: number): Reading {
  return { ...reading, valueMm, written: `${plainMm(valueMm)} mm (${reading.by})` };
}

function refuseCount(count: number, want: RowsWant): void {
  if (count >= 1 && count <= MOST_HOLES) return;
  throw new InputError(want.entry, `gives ${count} holes in a row`, `Give 1 to ${MOST_HOLES}`);
}

function only(readings: readonly Reading[], want: RowsWant, what: string): Reading {
  const [first, second] = readings;
  if (first && !second) return first;
  throw new InputError(want.entry, `gives ${readings.length} figures for the ${what}`, "Give one");
}

function lineWant(want: RowsWant, what: string, minMm: number, maxMm: number): LineWant {
  return { entry: want.entry, tool: want.tool, what, minMm, maxMm };
}

function cannotRead(text: string, want: RowsWant): InputError {
  return new InputError(
    want.entry,
    `cannot read "${shown(text)}" as rows of holes`,
    `Write how far ${want.from}, a colon, and where across, e.g. 395.5: 5 at 10`,
  );
}
