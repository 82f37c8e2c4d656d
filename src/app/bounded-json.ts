/**
 * Reads JSON that comes from elsewhere. How deep it is nested is looked at before anything walks it: what walks nested
 * values calls itself, and a deep enough text would end the process.
 */
import { InputError } from "../core/errors.ts";

/** An entry's value may be 24 deep; a bundle or a request wraps it in a few more. */
const DEEPEST = 48;

/** @throws InputError if the text is nested too deep or is not JSON */
export function boundedJson(text: string, where: string, remedy: string): unknown {
  if (isDeeperThan(DEEPEST, text)) throw new InputError(where, `is nested more than ${DEEPEST} deep`, remedy);
  try {
    return JSON.parse(text) as unknown;
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    throw new InputError(where, "is not JSON", remedy);
  }
}

/** A value from elsewhere, short enough for a message; never by its own way of turning itself into a text. */
export function shown(value: unknown): string {
  return (JSON.stringify(value) ?? "nothing").slice(0, 20);
}

/** Counts brackets outside texts, without calling itself. */
function isDeeperThan(limit: number, text: string): boolean {
  let depth = 0;
  for (let at = 0; at < text.length; at += 1) {
    const sign = text[at];
    if (sign === '"') at = endOfText(text, at);
    else if (sign === "[" || sign === "{") {
      depth += 1;
      if (depth > limit) return true;
    } else if (sign === "]" || sign === "}") depth -= 1;
  }
  return false;
}

/** Where the text that starts with a quote ends; the end of everything if it does not. */
function endOfText(text: string, start: number): number {
  for (let quote = text.indexOf('"', start + 1); quote >= 0; quote = text.indexOf('"', quote + 1)) {
    let before = quote - 1;
    while (text[before] === "\\") before -= 1;
    if ((quote - before) % 2 === 1) return quote;
  }
  return text.length;
}
