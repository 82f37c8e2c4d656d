/** What a job can be begun with: a question, and the few readings that bring it to a first answer. */
import type { Phrase } from "../quantity/index.ts";

/** What is typed: words, one length, several lengths in one line, or rows of holes. */
export type EntryKind = "words" | "length" | "lengths" | "holes";

/** One reading that a person makes, whatever the number of figures in it. */
export interface Entry {
  readonly id: string;
  /** The question in a person's words. */
  readonly prompt: string;
  /** Which tool, and where to lay it: one sentence. */
  readonly lay: string;
  readonly kind: EntryKind;
  readonly example: string;
  /** Further ways to write it, shown on request. */
  readonly more: string;
  /** Tool taken for granted where none is written; empty for words. */
  readonly tool: string;
  /** What "don't know" leads to. */
  readonly unknown: string;
}

export interface Starter {
  readonly id: string;
  readonly title: string;
  readonly entries: readonly Entry[];
  /** Ids of the questions that answer it, the deciding one first; those that the grown job does not have are passed over. */
  readonly questions: readonly string[];
}

/** What was typed, by entry. An entry that is left out is not known. */
export type Answers = Readonly<Record<string, string>>;

export interface GrownJob {
  /** A job document as plain data, as `loadJob` takes it. */
  readonly data: Record<string, unknown>;
  /** What was taken for granted, in words. */
  readonly notes: readonly Phrase[];
  /** How each known entry was read, by entry, so that a slip is seen at once. */
  readonly reads: Readonly<Record<string, Phrase>>;
}
