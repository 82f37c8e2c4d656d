/** What was typed for an entry, or that nobody knows. */
import { InputError } from "../errors.ts";
import type { Answers } from "./types.ts";

/** Longer than any reading; bounds the work that a hostile text can cause. */
const LONGEST_ANSWER = 400;

const NOT_KNOWN = /^(?:|[-–—?]+|(?:i )?do(?:n['’]?t| not) know|not known|unknown|no idea|not sure|skip|dunno)[.!]?$/i;

/** Whether the text says that the person does not know. */
export function isDontKnow(text: string): boolean {
  return NOT_KNOWN.test(text.trim());
}

/**
 * The text of an entry, in one form of sign: dashes, quotes and spaces as a keyboard has them.
 *
 * @returns undefined for "don't know"
 * @throws InputError for a text too long to be a reading
 */
export function answerTo(answers: Answers, entry: string): string | undefined {
  const text = Object.hasOwn(answers, entry) ? answers[entry] : undefined;
  if (text === undefined || isDontKnow(text)) return undefined;
  if (text.length > LONGEST_ANSWER) {
    throw new InputError(entry, `is ${text.length} characters long`, "Write the figures and nothing else");
  }
  return tidied(text);
}

const HALVES: Readonly<Record<string, string>> = {
  "½": "1/2",
  "¼": "1/4",
  "¾": "3/4",
  "⅛": "1/8",
  "⅜": "3/8",
  "⅝": "5/8",
  "⅞": "7/8",
};

function tidied(text: string): string {
  return (
    text
      // 25½ needs a space, -½ must not get one: its sign would be lost.
      .replace(/(\d?)([½¼¾⅛⅜⅝⅞])/g, (_, before: string, sign: string) => `${before}${before && " "}${HALVES[sign]}`)
      .replace(/[\u2010-\u2015\u2212]/g, "-")
      .replace(/[\u2033\u201c\u201d]|''/g, '"')
      .replace(/\+\s?\/?\s?-/g, "±")
      .replace(/[Ø⌀ø]/g, " dia ")
      .replace(/[×]/g, " x ")
      .replace(/\s+/g, " ")
      .trim()
  );
}
