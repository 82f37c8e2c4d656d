/** The conversation that a job is begun with: one entry at a time, back and forth, nothing lost by a slip. */
import { readBack, starterNamed } from "../app/begin.ts";
import { type Answers, type Entry, isDontKnow, STARTERS, type Starter } from "../core/begin/index.ts";
import { InputError } from "../core/errors.ts";
import { type LengthUnit, showPhrase } from "../core/quantity/index.ts";
import type { Input, Io } from "./command.ts";
import { paint, printable, table, wrap } from "./text.ts";

export interface Talk {
  readonly io: Io;
  readonly input: Input;
  readonly units: LengthUnit;
}

/** Which question? Undefined: the person left. @throws InputError if nobody can be asked again */
export async function chooseStarter({ io, input }: Talk): Promise<Starter | undefined> {
  io.err("What do you want to know? Type the number.\n");
  io.err(starterList(io.width));
  for (;;) {
    const line = await input.line();
    if (line === undefined) return undefined;
    try {
      return starterNamed(line, "begin");
    } catch (error) {
      if (!input.live || !(error instanceof InputError)) throw error;
      say(io, `${capital(error.problem)}. ${error.remedy}.`);
    }
  }
}

/** The questions that a job can be begun with, numbered. */
function starterList(width: number): string {
  return table(
    STARTERS.map(({ id, title }, index) => [String(index + 1), id, title]),
    ["point", "left", "left"],
    width,
    "  ",
  ).join("\n");
}

/**
 * All entries of a starter that `given` does not answer.
 *
 * @returns undefined if the person left
 * @throws InputError for an entry that cannot be read where nobody can be asked again
 */
export async function takeAnswers(starter: Starter, given: Answers, talk: Talk): Promise<Answers | undefined> {
  return talk.input.live ? talkThrough(starter, given, talk) : readThrough(starter, given, talk.input);
}

/** One line an entry; where the lines end, the rest is not known. */
async function readThrough(starter: Starter, given: Answers, input: Input): Promise<Answers> {
  const answers: Record<string, string> = { ...given };
  for (const { id } of starter.entries) {
    if (Object.hasOwn(given, id)) continue;
    const line = await input.line();
    if (line === undefined) break;
    answers[id] = line;
    readBack(starter, id, upTo(starter, id, answers));
  }
  return answers;
}

async function talkThrough(starter: Starter, given: Answers, talk: Talk): Promise<Answers | undefined> {
  const { io } = talk;
  const entries = starter.entries.filter(({ id }) => !Object.hasOwn(given, id));
  const answers: Record<string, string> = { ...given };
  const asked = new Set<string>();
  io.err(`\n${paint(starter.title, "strong", io.colour)}`);
  say(
    io,
    `${entries.length} ${entries.length === 1 ? "reading" : "readings"}, each of which you may not know: leave the line empty, or write don't know.${entries.some(({ kind, tool }) => kind !== "words" || tool !== "") ? MILLIMETRES : ""} Write ? for more, back for the one before.`,
  );
  for (let index = 0; index < entries.length; ) {
    const entry = entries[index] as Entry;
    const before = asked.has(entry.id) ? answers[entry.id] : undefined;
    showEntry(entry, `${index + 1} of ${entries.length}`, before, io);
    const step = await takeOne(starter, entry, { answers, before, first: index === 0 }, talk);
    if (step === "left") return undefined;
    if (step === "back") {
      index -= 1;
      continue;
    }
    asked.add(entry.id);
    answers[entry.id] = step;
    index += 1;
  }
  io.err("");
  return answers;
}

const MILLIMETRES =
  " Bare figures are millimetres. If you used another tool than the one named, write it in brackets behind the figures, e.g. 324 (tape).";

interface SoFar {
  readonly answers: Answers;
  /** What was typed here before the person went back. */
  readonly before: string | undefined;
  readonly first: boolean;
}

/** Until it can be read: what was typed, or that the person goes back or leaves. */
async function takeOne(
  starter: Starter,
  entry: Entry,
  { answers, before, first }: SoFar,
  { io, input, units }: Talk,
): Promise<string> {
  for (;;) {
    const typed = (await input.line())?.trim();
    if (typed === undefined) return "left";
    if (/^(?:\?|help|more)$/i.test(typed)) {
      say(io, `${entry.more} If you do not know: ${entry.unknown}.`);
      continue;
    }
    if (/^back$/i.test(typed)) {
      if (!first) return "back";
      say(io, "This is the first one.");
      continue;
    }
    const line = typed === "=" && before !== undefined ? before : typed;
    try {
      const read = readBack(starter, entry.id, upTo(starter, entry.id, { ...answers, [entry.id]: line }));
      if (isDontKnow(line)) say(io, `Not known: ${entry.unknown}.`);
      else if (read) say(io, `Read: ${printable(showPhrase(read, units))}`);
      return line;
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      say(io, `${printable(capital(error.problem))}. ${printable(error.remedy)}.`);
    }
  }
}

/** Later entries may hang on this one and are read when their turn comes. */
function upTo(starter: Starter, entry: string, answers: Answers): Answers {
  const last = starter.entries.findIndex(({ id }) => id === entry);
  const ids = starter.entries.slice(0, last + 1).map(({ id }) => id);
  return Object.fromEntries(Object.entries(answers).filter(([id]) => ids.includes(id)));
}

function showEntry(entry: Entry, place: string, before: string | undefined, io: Io): void {
  io.err("");
  for (const line of wrap(`${place}: ${paint(entry.prompt, "strong", io.colour)}`, io.width)) io.err(line);
  say(io, entry.lay);
  say(io, `For example: ${entry.example}${entry.tool === "" ? "" : `  (tool: ${entry.tool})`}`);
  if (before !== undefined && before !== "") say(io, `Before: ${printable(before)}  (= keeps it)`);
}

function say(io: Io, text: string): void {
  for (const line of wrap(text, io.width, "  ")) io.err(line);
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
