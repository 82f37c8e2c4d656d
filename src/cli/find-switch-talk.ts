/** What is asked to find a switch's contacts: lugs and positions first, then pair by pair, never one that follows. */
import { type ContactReading, type ContactSearch, type ContactsFound, findContacts } from "../core/circuit/index.ts";
import { InputError } from "../core/errors.ts";
import { isLugName } from "../core/job/index.ts";
import { type Inquiry, isSkipped, namesOf, pairInLine, type Question, requirePlainNames } from "./find-talk.ts";

interface Pair {
  readonly position: string;
  readonly a: string;
  readonly b: string;
}

export type ContactAnswer =
  | { readonly kind: "lugs"; readonly lugs: readonly string[]; readonly poles: readonly (readonly string[])[] }
  | { readonly kind: "positions"; readonly names: readonly string[] }
  | { readonly kind: "contact"; readonly reading: ContactReading }
  | { readonly kind: "skipped"; readonly pair: Pair };

/** As many as a job file takes. */
const MOST_LUGS = 64;
const MOST_POSITIONS = 24;

export const contactInquiry: Inquiry<ContactAnswer> = { next: nextQuestion, unasked, soFar };

/** The answers as a search; undefined until lugs and positions are named. */
export function contactSearchOf(
  answers: readonly ContactAnswer[],
): Required<Omit<ContactSearch, "timing">> | undefined {
  const [lugs, positions] = answers;
  if (lugs?.kind !== "lugs" || positions?.kind !== "positions") return undefined;
  const readings = answers.flatMap((one) => (one.kind === "contact" ? one.reading : []));
  return { lugs: lugs.lugs, poles: lugs.poles, positions: positions.names, readings };
}

function nextQuestion(answers: readonly ContactAnswer[]): Question<ContactAnswer> | undefined {
  if (answers.length === 0) return LUGS;
  const search = contactSearchOf(answers);
  if (!search) return POSITIONS;
  const found = findContacts(search);
  const pair = pairToRead(found, answers);
  if (!pair) return undefined;
  const { position, a, b } = pair;
  const again = found.contradictions.find((one) => one.position === position);
  const first = search.readings.length === 0;
  return {
    where: `position ${position}, ${a} to ${b}`,
    prompt: `Position ${position}: ${a} to ${b}? y/n`,
    hints: [
      ...(again ? [again.words] : []),
      ...(first
        ? [
            `y if the meter beeps, n if it does not. Another pair, or one once more: ${b} ${a} y, or ${position}: ${b} ${a} y.`,
          ]
        : []),
    ],
    read(line) {
      if (isSkipped(line)) return { kind: "skipped", pair };
      return contactAnswer(position, a, b, line);
    },
  };
}

/** The pair that findContacts wants, or another where that one was skipped. */
function pairToRead(found: ContactsFound, answers: readonly ContactAnswer[]): Pair | undefined {
  const { next, contradictions, positions } = found;
  const skipped = answers.flatMap((one) => (one.kind === "skipped" ? one.pair : []));
  const isSkippedPair = ({ position, a, b }: Pair) =>
    skipped.some((one) => one.position === position && [one.a, one.b].includes(a) && [one.a, one.b].includes(b));
  if (next && !isSkippedPair(next)) return { position: next.position, a: next.a, b: next.b };
  const inDoubt = contradictions.flatMap(({ position, open, chain }) =>
    [open, ...chain].map(([a, b]) => ({ position, a, b })),
  );
  const unread = positions.flatMap(({ name, unknown }) => unknown.map(([a, b]) => ({ position: name, a, b })));
  return [...inDoubt, ...unread].find((pair) => !isSkippedPair(pair));
}

/** A pair that is named, in the position that is named or else the one that is asked about. */
function unasked(line: string, answers: readonly ContactAnswer[]): ContactAnswer | undefined {
  const search = contactSearchOf(answers);
  if (!search) return undefined;
  const named = search.positions.find((name) => line.toLowerCase().startsWith(`${name.toLowerCase()}:`));
  const position = named ?? pairToRead(findContacts(search), answers)?.position;
  const pair = pairInLine(named === undefined ? line : line.slice(named.length + 1).trim(), search.lugs);
  return pair && position !== undefined ? contactAnswer(position, pair.a, pair.b, pair.rest) : undefined;
}

const LUGS: Question<ContactAnswer> = {
  where: "lugs",
  prompt: "Name the lugs in one line, in the order in which they stand.",
  hints: [
    "For example: c 1 2 3. With poles that can be seen apart: p1-c p1-1 p1-2 p2-c p2-1 p2-2, or c 1 2 | d 3 4.",
    "Lugs of two poles are taken as open and not asked: give no poles to have every pair read.",
    "At every question: ? if you do not know, undo takes the last answer back, done shows what is known by then.",
  ],
  read(line) {
    const byPole = line
      .toLowerCase()
      .split("|")
      .map((part) => part.split(/[\s,;]+/).filter(Boolean));
    const lugs = byPole.flat();
    const odd = lugs.find((lug) => !isLugName(lug));
    if (odd !== undefined)
      throw new InputError(
        "lugs",
        `cannot take "${odd.slice(0, 40)}" as a name`,
        "Use letters, digits, / and -, e.g. c 1 2 3",
      );
    if (lugs.length < 2 || lugs.length > MOST_LUGS)
      throw new InputError("lugs", `${lugs.length} named`, `Name 2 to ${MOST_LUGS} lugs`);
    const poles = (byPole.length > 1 ? byPole : polesByName(lugs)).filter(({ length }) => length > 0);
    findContacts({ lugs, positions: ["1"], readings: [], poles });
    return { kind: "lugs", lugs, poles };
  },
};

/** `p1-c` belongs to pole p1; only if every lug is named so. */
function polesByName(lugs: readonly string[]): string[][] {
  const poles = new Map<string, string[]>();
  for (const lug of lugs) {
    const pole = /^(p\d+)-/.exec(lug)?.[1];
    if (pole === undefined) return [];
    poles.set(pole, [...(poles.get(pole) ?? []), lug]);
  }
  return [...poles.values()];
}

const POSITIONS: Question<ContactAnswer> = {
  where: "positions",
  prompt: "Name its positions in one line, from one end to the other, or say how many.",
  hints: ["For example: up middle down, or 5."],
  read(line) {
    const count = /^\d{1,2}$/.test(line) ? Number(line) : 0;
    const names = count > 1 ? Array.from({ length: count }, (_, index) => `${index + 1}`) : namesOf(line);
    requirePlainNames(names, "positions");
    if (names.length > MOST_POSITIONS)
      throw new InputError("positions", `${names.length} are too many`, `Name at most ${MOST_POSITIONS}`);
    findContacts({ lugs: ["1", "2"], positions: names, readings: [] });
    return { kind: "positions", names };
  },
};

/** @throws InputError if both names are one, or the answer cannot be read */
function contactAnswer(position: string, a: string, b: string, line: string): ContactAnswer {
  if (a === b) throw new InputError("contact", `both probes on "${a}"`, "Put the probes on two lugs");
  return { kind: "contact", reading: { position, a, b, closed: closedOf(line) } };
}

function closedOf(line: string): boolean {
  if (/^(?:y|yes|beep|beeps|closed)$/i.test(line)) return true;
  if (/^(?:n|no|silent|open)$/i.test(line)) return false;
  throw new InputError("contact", `cannot read "${line.slice(0, 40)}"`, "Write y if the meter beeps, n if it does not");
}

function soFar(answers: readonly ContactAnswer[]): string {
  const last = answers.at(-1);
  const search = contactSearchOf(answers);
  if (!search) return "";
  const { positions, mostReadingsLeft: left } = findContacts(search);
  const at = last?.kind === "contact" ? last.reading.position : last?.kind === "skipped" ? last.pair.position : "";
  const here = positions.find(({ name }) => name === at);
  const joined = here?.joined.map((group) => group.join(" and ")).join("; ");
  const known = here ? `Position ${at}: ${joined ? `${joined} joined` : "nothing joined yet"}. ` : "";
  return `${known}Readings left: ${left} at most.`;
}
