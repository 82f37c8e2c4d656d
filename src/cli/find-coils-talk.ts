/** What is asked to find a pickup's coils: names first, then ohms, kicks and the compass, in the order of findCoils. */
import {
  type CoilNeed,
  type CoilSearch,
  type CoilsFound,
  type CompassReading,
  findCoils,
  type Kick,
  type KickReading,
  type ResistanceReading,
} from "../core/circuit/index.ts";
import { InputError } from "../core/errors.ts";
import { isLugName } from "../core/job/index.ts";
import { parseQuantity } from "../core/quantity/index.ts";
import { type Inquiry, isSkipped, namesOf, pairInLine, type Question, requirePlainNames } from "./find-talk.ts";

/** A reading with the words it was written in. */
export type SaidResistance = ResistanceReading & { readonly said: string };

export type CoilAnswer =
  | { readonly kind: "conductors"; readonly names: readonly string[] }
  | { readonly kind: "metal"; readonly shields: readonly string[]; readonly metals: readonly string[] }
  | { readonly kind: "rows"; readonly names: readonly string[] }
  | { readonly kind: "resistance"; readonly reading: SaidResistance }
  | { readonly kind: "kick"; readonly reading: KickReading }
  | { readonly kind: "compass"; readonly reading: CompassReading }
  | { readonly kind: "skipped"; readonly need: CoilNeed };

export interface AskedCoils extends CoilSearch {
  readonly resistances: readonly SaidResistance[];
  readonly kicks: readonly KickReading[];
  readonly compass: readonly CompassReading[];
}

/** More wires than any pickup has; a job file takes eight coils. */
const MOST_CONDUCTORS = 8;
const MOST_ROWS = 8;

export const coilInquiry: Inquiry<CoilAnswer> = { next: nextQuestion, unasked, soFar };

/** The answers as a search; undefined until conductors, metal and rows are named. */
export function coilSearchOf(answers: readonly CoilAnswer[]): AskedCoils | undefined {
  const [conductors, metal, rows] = answers;
  if (conductors?.kind !== "conductors" || metal?.kind !== "metal" || rows?.kind !== "rows") return undefined;
  return {
    conductors: conductors.names,
    shields: metal.shields,
    metals: metal.metals,
    rows: rows.names,
    resistances: answers.flatMap((one) => (one.kind === "resistance" ? one.reading : [])),
    kicks: answers.flatMap((one) => (one.kind === "kick" ? one.reading : [])),
    compass: answers.flatMap((one) => (one.kind === "compass" ? one.reading : [])),
  };
}

function nextQuestion(answers: readonly CoilAnswer[]): Question<CoilAnswer> | undefined {
  const [conductors, metal] = answers;
  if (conductors?.kind !== "conductors") return CONDUCTORS;
  if (metal?.kind !== "metal") return metalOf(conductors.names);
  const search = coilSearchOf(answers);
  if (!search) return rowsOf(conductors.names);
  const found = findCoils(search);
  const skipped = answers.flatMap((one) => (one.kind === "skipped" ? keyOf(one.need) : []));
  const need = [...readAgain(found, search), ...found.needs].find((one) => !skipped.includes(keyOf(one)));
  if (!need) return undefined;
  const firstOfKind = !answers.some(({ kind }) => kind === need.kind);
  const trouble = found.contradictions.filter((one) => concerns(one.pairs, need)).map(({ words }) => words);
  return questionOf(need, [...trouble, ...(firstOfKind ? [howTo(need)] : [])]);
}

function unasked(line: string, answers: readonly CoilAnswer[]): CoilAnswer | undefined {
  const search = coilSearchOf(answers);
  const names = search && [...search.conductors, ...(search.shields ?? []), ...(search.metals ?? [])];
  const named = pairInLine(line, names ?? []);
  return named && resistanceAnswer(named.a, named.b, named.rest);
}

/** What contradicts, the oldest first. Pairs that do not add up once more each: if they stay, the pickup is so. */
function readAgain({ contradictions }: CoilsFound, { resistances }: AskedCoils): CoilNeed[] {
  const lastRead = (a: string, b: string) => resistances.findLastIndex((one) => isOf(one, a, b));
  const timesRead = (a: string, b: string) => resistances.filter((one) => isOf(one, a, b)).length;
  return contradictions
    .flatMap(({ kind, pairs }) => {
      if (kind === "kicks disagree") return [];
      const [why, most] =
        kind === "open and joined" ? ["readings contradict each other", Infinity] : ["the readings do not add up", 1];
      return pairs.filter(([a, b]) => timesRead(a, b) <= most).map(([a, b]) => ({ a, b, why, at: lastRead(a, b) }));
    })
    .sort((one, other) => one.at - other.at)
    .map(({ a, b, why }) => ({ kind: "resistance", a, b, words: `Read ${a} to ${b} again: ${why}.` }));
}

function concerns(pairs: readonly (readonly [string, string])[], need: CoilNeed): boolean {
  if (need.kind === "compass") return false;
  const [a, b] = need.kind === "kick" ? [need.red, need.black] : [need.a, need.b];
  return pairs.some(([x, y]) => isOf({ a: x, b: y, ohms: "open" }, a, b));
}

function isOf(reading: ResistanceReading, a: string, b: string): boolean {
  return (reading.a === a && reading.b === b) || (reading.a === b && reading.b === a);
}

function keyOf(need: CoilNeed): string {
  if (need.kind === "compass") return JSON.stringify([need.kind, need.row]);
  if (need.kind === "kick") return JSON.stringify([need.kind, need.row, ...[need.red, need.black].sort()]);
  return JSON.stringify([need.kind, ...[need.a, need.b].sort()]);
}

const CONDUCTORS: Question<CoilAnswer> = {
  where: "conductors",
  prompt: "Name the conductors in one line, by their own colours.",
  hints: [
    "For example: grey yellow violet pink. Not the bare wire or braid: it is asked for next.",
    "At every question: ? if you do not know, undo takes the last answer back, done shows what is known by then.",
  ],
  read(line) {
    const names = namesOf(line.toLowerCase()).map((name) => name.replaceAll(" ", "-"));
    const odd = names.find((name) => !isLugName(name));
    if (odd !== undefined)
      throw new InputError(
        "conductors",
        `cannot take "${odd.slice(0, 40)}" as a name`,
        "Use letters, digits, / and -, e.g. white/red",
      );
    if (names.length > MOST_CONDUCTORS)
      throw new InputError("conductors", `${names.length} are too many`, `Name at most ${MOST_CONDUCTORS}`);
    checked({ conductors: names });
    return { kind: "conductors", names };
  },
};

function metalOf(conductors: readonly string[]): Question<CoilAnswer> {
  return {
    where: "metal",
    prompt: "Which of these can a probe touch: bare lead, cover, base plate?",
    hints: ["For example: bare lead, base plate. Leave the line empty for none."],
    read(line) {
      const text = isSkipped(line) || /^(?:none|no)$/i.test(line) ? "" : line.toLowerCase();
      const rest = text.replace(METAL, " ").replace(/[\s,;]|\band\b/g, "");
      if (rest !== "")
        throw new InputError("metal", `cannot read "${line.slice(0, 40)}"`, "Use bare lead, cover, base plate");
      const shields = /bare|braid|shield/.test(text) ? ["bare"] : [];
      const metals = [...(/cover/.test(text) ? ["cover"] : []), ...(/plate/.test(text) ? ["base plate"] : [])];
      if (conductors.length + shields.length + metals.length < 2)
        throw new InputError(
          "metal",
          `${conductors[0]} alone makes no pair to put the probes on`,
          "Name the bare lead or the cover too, or write undo and name all conductors",
        );
      checked({ conductors, shields, metals });
      return { kind: "metal", shields, metals };
    },
  };
}

const METAL = /bare(?: (?:lead|wire))?|braid|shield|cover|(?:base ?)?plate/g;

function rowsOf(conductors: readonly string[]): Question<CoilAnswer> {
  const usual = conductors.length > 2 ? KINDS.humbucker : KINDS.single;
  return {
    where: "rows",
    prompt: "Which rows of poles has it?",
    hints: [
      `Write single, humbucker, a number, or a name for each row, e.g. screws slugs. Left empty: ${usual.join(", ")}.`,
    ],
    read(line) {
      const names = rowNames(line.toLowerCase(), usual);
      requirePlainNames(names, "rows");
      if (names.length > MOST_ROWS)
        throw new InputError("rows", `${names.length} are too many`, `Name at most ${MOST_ROWS}`);
      checked({ conductors, rows: names });
      return { kind: "rows", names };
    },
  };
}

const KINDS = { single: ["poles"], humbucker: ["screws", "slugs"] } as const;

function rowNames(line: string, usual: readonly string[]): readonly string[] {
  if (isSkipped(line)) return usual;
  if (line === "single" || line === "humbucker") return KINDS[line];
  if (!/^\d{1,2}$/.test(line)) return namesOf(line);
  const count = Number(line);
  if (count === 0) throw new InputError("rows", "0 rows cannot kick", "Count the rows of poles or blades, from 1");
  return count === 1 ? KINDS.single : Array.from({ length: count }, (_, index) => `row-${index + 1}`);
}

/** @throws InputError for a name that stands twice, or none */
function checked(names: Pick<CoilSearch, "conductors" | "shields" | "metals"> & { readonly rows?: readonly string[] }) {
  findCoils({ rows: ["poles"], ...names, resistances: [] });
}

/** An answer to a kick, not a blank. */
const DASH = /^[-−–—]$/;

function howTo(need: CoilNeed): string {
  switch (need.kind) {
    case "resistance":
      return `Write e.g. 3.95 k, 0.4 ohm, or open (OL). Another pair, or one once more: ${need.b} ${need.a} 3.95 k.`;
    case "kick":
      return "Write up (+), down (-) or none; weak up or weak down for a faint one.";
    case "compass":
      return "Write north or south: the end of the needle that is drawn.";
  }
}

function questionOf(need: CoilNeed, hints: readonly string[]): Question<CoilAnswer> {
  const { words: prompt } = need;
  const elseRead = (take: (line: string) => CoilAnswer) => (line: string) =>
    isSkipped(line) && !(need.kind === "kick" && DASH.test(line)) ? { kind: "skipped" as const, need } : take(line);
  if (need.kind === "resistance") {
    const { a, b } = need;
    return { where: `${a} to ${b}`, prompt, hints, read: elseRead((line) => resistanceAnswer(a, b, line)) };
  }
  if (need.kind === "kick") {
    const { red, black, row } = need;
    const read = elseRead((line) => ({ kind: "kick", reading: { red, black, row, kick: kickOf(line) } }));
    return { where: `kick of ${red} to ${black} at ${row}`, prompt, hints, read };
  }
  const { row } = need;
  const read = elseRead((line) => ({ kind: "compass", reading: { row, drawn: drawnOf(line) } }));
  return { where: `compass at ${row}`, prompt, hints, read };
}

/** @throws InputError if both names are one, or the reading cannot be read */
function resistanceAnswer(a: string, b: string, line: string): CoilAnswer {
  const where = `${a} to ${b}`;
  if (a === b) throw new InputError(where, `both probes on "${a}"`, "Put the probes on two of them");
  return { kind: "resistance", reading: { a, b, ...ohmsOf(line, where) } };
}

const OPEN = /^(?:open|[o0]\.?l\.?|overload|inf(?:inite|inity)?|∞|no reading)$/i;

function ohmsOf(line: string, path: string): { readonly ohms: number | "open"; readonly said: string } {
  if (OPEN.test(line)) return { ohms: "open", said: "open" };
  return { ohms: parseQuantity(line, { path, kind: "resistance", min: 0 }).value, said: line };
}

function kickOf(line: string): Kick {
  const [, weak, way = ""] = /^(weak(?:ly)? +)?(up|\+|plus|down|[-−–—]|minus|none|no|nothing|0)$/i.exec(line) ?? [];
  const word = way.toLowerCase();
  if (["none", "no", "nothing", "0"].includes(word) && !weak) return "none";
  const sign = ["up", "+", "plus"].includes(word)
    ? "+"
    : word === "down" || word === "minus" || DASH.test(word)
      ? "-"
      : undefined;
  if (sign === undefined)
    throw new InputError("kick", `cannot read "${line.slice(0, 40)}"`, "Write up, down or none, or ? to go on without");
  return weak ? `weak ${sign}` : sign;
}

function drawnOf(line: string): "north" | "south" {
  if (/^n(?:orth)?$/i.test(line)) return "north";
  if (/^s(?:outh)?$/i.test(line)) return "south";
  throw new InputError("compass", `cannot read "${line.slice(0, 40)}"`, "Write north or south, or ? to go on without");
}

function soFar(answers: readonly CoilAnswer[]): string {
  const search = coilSearchOf(answers);
  if (!search) return "";
  const { coils, joints, loose, mostReadingsLeft: left } = findCoils(search);
  const parts = [
    ...coils.map(({ ends, ohms, finish }) => {
      const coil = `${ends.join("-")} ${(ohms / 1000).toFixed(2)} k`;
      return finish === undefined ? coil : `${coil}, finish ${finish}`;
    }),
    ...joints.map((joint) => `${joint.join(" and ")} joined`),
    ...loose.map((name) => `${name} open to all`),
  ];
  const most = left === 0 ? "" : ` Readings of ohms left: ${left} at most.`;
  return `So far: ${parts.length === 0 ? "no coil yet" : parts.join("; ")}.${most}`;
}
