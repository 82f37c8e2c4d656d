/** A conversation over a meter: one question at a time, any answer can be taken back, nothing lost by a slip. */
import { isDontKnow } from "../core/begin/index.ts";
import { InputError } from "../core/errors.ts";
import type { Input, Io } from "./command.ts";
import { paint, printable, wrap } from "./text.ts";

export interface Question<Answer> {
  /** What a message calls it, e.g. "orange to brown". */
  readonly where: string;
  readonly prompt: string;
  /** How to answer, and what has to be said before; a line each. */
  readonly hints: readonly string[];
  /** @throws InputError for what cannot be read */
  readonly read: (line: string) => Answer;
}

export interface Inquiry<Answer> {
  /** What to ask after these answers; undefined when there is no more to be found. */
  readonly next: (answers: readonly Answer[]) => Question<Answer> | undefined;
  /** A reading that the person names and nobody asked for, e.g. an earlier one once more; undefined if it is none. */
  readonly unasked: (line: string, answers: readonly Answer[]) => Answer | undefined;
  /** A short line on what is known so far; empty for nothing to say. */
  readonly soFar: (answers: readonly Answer[]) => string;
}

/**
 * Asks until everything is found, the person says "done", or the lines end.
 *
 * @throws InputError for an answer that cannot be read where nobody can be asked again
 */
export async function inquire<Answer>(
  { next, unasked, soFar }: Inquiry<Answer>,
  { io, input }: { readonly io: Io; readonly input: Input },
): Promise<readonly Answer[]> {
  let answers: readonly Answer[] = [];
  for (;;) {
    const question = next(answers);
    if (input.live) show(question ?? ALL_READ, io);
    const line = (await input.line())?.trim();
    if (line === undefined || /^(?:done|stop|quit)$/i.test(line)) return answers;
    if (question === undefined && line === "") return answers;
    try {
      if (/^(?:undo|back)$/i.test(line)) {
        if (answers.length === 0)
          throw new InputError("undo", "there is nothing to take back", "Answer the first question");
        answers = answers.slice(0, -1);
        if (input.live) say(io, "Taken back.");
      } else answers = [...answers, unasked(line, answers) ?? (question ?? nothingLeft(line)).read(line)];
      const words = soFar(answers);
      if (input.live && words !== "") say(io, printable(words));
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      if (!input.live) throw new InputError(question?.where ?? "last line", error.problem, error.remedy);
      say(io, `${printable(capital(error.problem))}. ${printable(error.remedy)}.`);
    }
  }
}

const ALL_READ = {
  prompt: "Everything that readings can tell is read.",
  hints: ["Leave the line empty to see it all, or write undo to take the last answer back."],
};

function nothingLeft(line: string): never {
  const seen = line.length > 40 ? `${line.slice(0, 40)}…` : line;
  throw new InputError("last line", `"${seen}" answers no question: everything is read`, "Leave it out, or write undo");
}

function show({ prompt, hints }: Pick<Question<unknown>, "prompt" | "hints">, io: Io): void {
  io.err("");
  for (const line of wrap(paint(printable(prompt), "strong", io.colour), io.width)) io.err(line);
  for (const hint of hints) say(io, printable(hint));
}

function say(io: Io, text: string): void {
  for (const line of wrap(text, io.width, "  ")) io.err(line);
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** Whether the person skips the question. */
export function isSkipped(line: string): boolean {
  return isDontKnow(line);
}

/** Names of one line: between commas where there are any, else between spaces. */
export function namesOf(line: string): string[] {
  const parts = /[,;]/.test(line) ? line.split(/[,;]/) : line.split(/\s+/);
  return parts.map((part) => part.trim().replace(/\s+/g, " ")).filter(Boolean);
}

/** @throws InputError for a name that would be hard to print or to write in a file */
export function requirePlainNames(names: readonly string[], where: string): void {
  const odd = names.find((name) => !/^[\p{L}\p{N}][\p{L}\p{N} /+-]{0,29}$/u.test(name));
  if (odd === undefined) return;
  const problem = `cannot take "${odd.slice(0, 40)}" as a name`;
  throw new InputError(where, problem, "Use up to 30 letters, digits, spaces, / and -");
}

/** A pair that the person names in front of a reading, "orange to cream 6.4 k"; undefined if the line names none. */
export function pairInLine(
  line: string,
  names: readonly string[],
): { readonly a: string; readonly b: string; readonly rest: string } | undefined {
  const [a, afterA] = leadingName(line, names);
  const [b, rest] = leadingName(afterA.replace(/^to /i, ""), names);
  return a === undefined || b === undefined || rest === "" ? undefined : { a, b, rest };
}

function leadingName(line: string, names: readonly string[]): readonly [string | undefined, string] {
  const name = names.find((one) => line.toLowerCase().startsWith(`${one} `));
  return name === undefined ? [undefined, line] : [name, line.slice(name.length).trim()];
}
