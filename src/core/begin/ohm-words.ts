/**
 * Ohms as people write them: `8.2 k`, `8k2`, `6.2 with 6.5 k (meter)`, `6.30 k at 95 °F (meter)`, `(3.95 k then 4.05 k) with 6.1 k`.
 *
 * A unit, and a tool or origin in brackets, count for the whole line if they stand once, behind the last figure. Without
 * a word in brackets the figure is taken as a data sheet's, which has the wider limits.
 */
import { copperFactor, readSound, type Sound } from "../circuit/index.ts";
import { InputError } from "../errors.ts";
import { type Known, parseQuantity } from "../quantity/index.ts";
import { isDontKnow } from "./answers.ts";
import { shown } from "./reading.ts";

export interface OhmsFigure {
  readonly ohms: number;
  readonly measured: boolean;
  /** Of the coil when it was read, where that was said. */
  readonly celsius?: number;
  /** What stands behind the number in a job file: doubt, tool or origin. */
  readonly tail: string;
}

interface OhmsWant {
  readonly entry: string;
  readonly what: string;
  readonly least: number;
  readonly most: number;
}

export const A_COIL = { what: "the ohms of a coil", least: 1, most: 200e3 } as const;
export const A_POT = { what: "the ohms of a pot", least: 1e3, most: 10e6 } as const;
/** Of what a meter can show at all; open is told in words. */
export const AT_THE_JACK = { what: "a reading at the jack", least: 0, most: 100e6 } as const;

const UNIT = `(?:k(?:ohms?|Ω)?|meg(?:ohms?)?|M(?:ohms?|Ω)?|R|ohms?|Ω)(?![a-z])`;
const NUMBER = String.raw`\d+[kMR]\d+|\d+(?:[.,]\d+)?|\.\d+`;
const NOTE = String.raw`\s*\(\s*([a-z][a-z ]*)\)`;
const FIGURE = new RegExp(
  String.raw`(${NUMBER})(?![\d.,])\s*(${UNIT})?(\s*±\s*\d+(?:[.,]\d+)?\s*(?:%|${UNIT}))?(?:${NOTE})?(?:\s+at\s+(-?\d+(?:[.,]\d+)?\s*°?\s*[CF])\b)?(?:${NOTE})?`,
  "gi",
);

interface Found {
  readonly number: string;
  readonly unit: string;
  readonly doubt: string;
  readonly note: string;
  readonly at: string;
}

/** Figures of a line, and the line with `coil-1`, `coil-2` in their places. */
function scan(text: string): { readonly figures: readonly Found[]; readonly rest: string } {
  const figures: Found[] = [];
  const plain = text.replaceAll("\u2126", "Ω");
  const rest = plain.replace(FIGURE, (_, number: string, unit = "", doubt = "", before = "", at = "", behind = "") => {
    figures.push({ number, unit, doubt: doubt.trim(), note: (before || behind).trim(), at });
    return ` coil-${figures.length} `;
  });
  const last = figures.at(-1);
  const once = (key: "unit" | "note") => figures.filter((one) => one[key] !== "").length === 1 && last?.[key] !== "";
  const [sharedUnit, sharedNote] = [once("unit") ? last?.unit : undefined, once("note") ? last?.note : undefined];
  return {
    figures: figures.map((one) => ({
      ...one,
      unit: sharedUnit !== undefined && /^[\d.,]+$/.test(one.number) ? sharedUnit : one.unit,
      note: sharedNote ?? one.note,
    })),
    rest: rest.replace(/\s+/g, " ").trim(),
  };
}

function figureOf({ number, unit, doubt, note, at }: Found, want: OhmsWant): OhmsFigure {
  const tail = `${doubt === "" ? "" : ` ${doubt}`}${note === "" ? "" : ` (${note})`}`;
  const said = `${number}${unit === "" ? "" : ` ${unit}`}`;
  const known: Known = parseQuantity(`${said}${tail}`, { path: want.entry, kind: "resistance" });
  if (known.value < want.least || known.value > want.most)
    throw new InputError(
      want.entry,
      `${said} cannot be ${want.what}: ${plainOhms(want.least)} to ${plainOhms(want.most)} is possible`,
      "Check the figure and its unit, e.g. 8.2 k",
    );
  const celsius = at === "" ? undefined : readCelsius(at, want.entry);
  return {
    ohms: known.value,
    measured: known.origin === "measured",
    tail,
    ...(celsius === undefined ? {} : { celsius }),
  };
}

export function plainOhms(ohms: number): string {
  const [value, unit] = ohms >= 1e6 ? [ohms / 1e6, "MΩ"] : ohms >= 1e3 ? [ohms / 1e3, "kΩ"] : [ohms, "Ω"];
  return `${Number(value.toFixed(3))} ${unit}`;
}

/** @throws InputError for what is no temperature of a room */
export function readCelsius(text: string, entry: string): number {
  const { value } = parseQuantity(text, { path: entry, kind: "temperature" });
  if (value >= -10 && value <= 50) return value;
  throw new InputError(entry, `${shown(text)} cannot be the temperature of a room`, "Write e.g. 22 °C or 72 °F");
}

/** One figure or more with nothing between them but commas. */
export function readOhmsList(text: string, want: OhmsWant): OhmsFigure[] {
  const { figures, rest } = scan(text);
  const left = rest.replace(/coil-\d+|[,;/]|\band\b/gi, " ").trim();
  if (figures.length === 0 || left !== "") throw unreadable(text, want.entry, "8.2 k");
  return figures.map((one) => figureOf(one, want));
}

/** Two figures, of which one may be `?`. */
export function readTwoOhms(text: string, want: OhmsWant): readonly [OhmsFigure | undefined, OhmsFigure | undefined] {
  const halves = text.split(/\s*(?:[;/]|,\s|\band\b)\s*|\s+(?=\?)|(?<=\?)\s+/i).filter((half) => half !== "");
  const [one, other] = halves;
  if (halves.length === 2 && one !== undefined && other !== undefined && (isDontKnow(one) || isDontKnow(other)))
    return [isDontKnow(one) ? undefined : only(one, want), isDontKnow(other) ? undefined : only(other, want)];
  const list = readOhmsList(text, want);
  if (list.length !== 2)
    throw new InputError(
      want.entry,
      `gives ${list.length} ${list.length === 1 ? "figure" : "figures"}`,
      "Give two, with ? for one that nobody knows, e.g. 6.2 k, 6.5 k",
    );
  return [list[0], list[1]];
}

function only(text: string, want: OhmsWant): OhmsFigure | undefined {
  return readOhmsList(text, want)[0];
}

export interface CoilsInWords {
  /** Of `coil-1`, `coil-2` and so on, in the order of the figures. */
  readonly sound: Sound;
  readonly coils: readonly OhmsFigure[];
}

/** @throws InputError for what cannot be read as coils joined by `with` and `then` */
export function readCoils(text: string, entry: string): CoilsInWords {
  const { figures, rest } = scan(text);
  const words = rest
    .replace(/\b(?:in )?parallel (?:with|to)\b/gi, "with")
    .replace(/\b(?:in )?series with\b/gi, "then")
    .replace(/\bcoil-\d+\b/g, " $& ");
  const names = figures.map((_, index) => `coil-${index + 1}`);
  const bad = unreadable(text, entry, "8.2 k, or 6.2 k with 6.5 k, or (3.95 k then 4.05 k) with 6.1 k");
  if (figures.length === 0 || figures.length > MOST_COILS || /flipped|one of/i.test(words)) throw bad;
  try {
    const [sound] = readSound(words, { coils: names, pickups: new Map() }, entry);
    if (!sound) throw bad;
    return { sound, coils: figures.map((one) => figureOf(one, { entry, ...A_COIL })) };
  } catch (error) {
    // Its words name the places and not the figures.
    if (error instanceof InputError && /coil-\d|is no coil|bracket|side by side|cannot be read/.test(error.problem))
      throw bad;
    throw error;
  }
}

const MOST_COILS = 8;

function unreadable(text: string, entry: string, example: string): InputError {
  return new InputError(
    entry,
    `cannot read "${shown(text)}"`,
    `Write e.g. ${example}: with for in parallel, then for in series, brackets where both occur`,
  );
}

/**
 * The figure as a job file keeps it, at 20 °C: a sheet's figure as it stands, one that was read brought down from the
 * temperature at which it was read, which is the room's where nothing was said.
 */
export function writtenAt20({ ohms, measured, celsius, tail }: OhmsFigure, roomCelsius: number): string {
  const at = celsius ?? (measured ? roomCelsius : 20);
  return writtenOhms(ohms / copperFactor(at), tail);
}

/** `6.2 k (meter)` */
export function writtenOhms(ohms: number, tail: string): string {
  return `${Number((ohms / 1000).toFixed(5))} k${tail}`;
}
