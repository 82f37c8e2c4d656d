/**
 * The contracts of the ledger. See docs/spec/ledger.md.
 *
 * A question hands the ledger its leaf values (with their error terms) and a plain formula for its margin. The ledger
 * finds sensitivities by differences, samples where a kink makes those unequal, shares the doubt out, and says which
 * reading to take next.
 */
import type { Phrase, Quantity } from "../quantity/index.ts";
import type { NextReading, Share, Source, Sum, SumRow, Verdict } from "../verdict/index.ts";

export type Numbers = Readonly<Record<string, number>>;

/** A margin over leaf values. At or above 0 it goes. */
export interface Problem {
  /** Leaf values by the name the formula uses. Execution doubt is a leaf too: value 0, with its own error term. */
  readonly leaves: Readonly<Record<string, Quantity>>;
  /** Plain formula. It must not keep or change the object it is given. */
  readonly margin: (x: Numbers) => number;
  readonly unit: string;
  /** Names of the leaves that are how well a person works (drilling, cutting), which no reading can sharpen. */
  readonly execution?: readonly string[];
}

/** One set of leaves under several margins that must all hold. */
export interface JointProblem {
  readonly leaves: Readonly<Record<string, Quantity>>;
  /** At least one. All in `unit`, because the smallest decides. */
  readonly margins: Readonly<Record<string, (x: Numbers) => number>>;
  readonly unit: string;
  readonly execution?: readonly string[];
}

export type WeighMethod = "exact" | "linear" | "sampled";

export interface KnownWeight {
  readonly known: true;
  /** Margin at the leaf values. */
  readonly margin: number;
  /** Standard uncertainty of the margin. */
  readonly u: number;
  /** Probability that the margin is at or above 0. */
  readonly probability: number;
  readonly method: WeighMethod;
  /** Largest first; adds up to 1 unless there is no doubt at all (then empty). */
  readonly shares: readonly Share[];
}

export interface UnknownWeight {
  readonly known: false;
  readonly missing: readonly Quantity[];
}

export type Weighed = KnownWeight | UnknownWeight;

/** One margin of several. */
export interface Part {
  readonly margin: number;
  readonly u: number;
  readonly probability: number;
  /** How often this is the smallest of the margins, 0 to 1. */
  readonly binds: number;
}

export type WeighedMany =
  | (KnownWeight & {
      /** Name of the margin that is smallest at the leaf values. */
      readonly binding: string;
      readonly parts: Readonly<Record<string, Part>>;
    })
  | UnknownWeight;

/** A reading that could be taken to sharpen one leaf. */
export interface ReadingOption {
  readonly leaf: string;
  readonly tool: string;
  /** Standard uncertainty of the leaf after the reading, leaf's unit. */
  readonly u: number;
  readonly minutes: number;
  readonly what: string;
  readonly how: string;
}

/** What one reading is worth before it is taken. */
export interface ReadingWorth {
  readonly option: ReadingOption;
  /** Probability that it goes if the reading agrees with the present value. */
  readonly probabilityAfter: number;
  /** Probability that the reading turns the decision over, from shut to open. */
  readonly flips: number;
  /** Expected value of the reading: 1 is what a job that is certain to go is worth, doing nothing is 0. */
  readonly gain: number;
  readonly gainPerMinute: number;
}

export interface ReadingAdvice {
  /** The best reading, if any reading can change the decision. */
  readonly reading?: NextReading;
  /** Why there is none. */
  readonly reason?: string;
  /** What each option is worth, best first. Empty when the matter is decided already. */
  readonly worth: readonly ReadingWorth[];
}

/** How the sum behind a problem is to be shown. */
export interface SumSpec {
  readonly title: string;
  readonly formula: string;
  /** Sign and meaning of each leaf, in the order of the rows. A leaf that is not named follows under its own name. */
  readonly symbols: Readonly<Record<string, { readonly symbol: string; readonly meaning: string }>>;
  /** Constants of the rule, shown after the leaves. */
  readonly constants?: readonly SumRow[];
  readonly result: Phrase;
  readonly source: Source;
}

/** What a question sees while it is being answered: every read of `subject` is noted for the memo. */
export interface Asking<Subject> {
  readonly subject: Subject;
  /** A result that several questions share, computed once; its reads count as reads of whoever uses it. */
  derive<T>(key: string, compute: (asking: Asking<Subject>) => T): T;
}

export interface Question<Subject> {
  /** Names the question and the way it is answered: two questions of one id and the same words must answer alike. */
  readonly id: string;
  /** In a person's words, e.g. "Where must this bridge stand?" */
  readonly question: string;
  answer(asking: Asking<Subject>): Verdict;
}

export interface Ledger<Subject> {
  /** Answers all; a question none of whose reads changed since it was last asked keeps its verdict (same object). */
  ask(
    questions: readonly Question<Subject>[],
    subject: Subject,
  ): { readonly verdicts: readonly Verdict[]; readonly asked: readonly string[] };
}

export type { NextReading, Share, Source, Sum };
