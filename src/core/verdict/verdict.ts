/**
 * What a question answers: a verdict with its margin, probability, sum, weakest value and next reading.
 *
 * Verdicts use the gauging trade's words: `go`, `rework` (goes after the stated work), `no-go`, `measure`.
 */
import type { Origin, Phrase } from "../quantity/index.ts";
import type { Work } from "./work.ts";

export type Status = "go" | "rework" | "no-go" | "measure";

/** Where a rule comes from. `from memory` and `common practice` are soft and say so on the page. */
export interface Source {
  readonly text: string;
  readonly mark: "published" | "derived" | "common practice" | "from memory";
}

/** One number put into a sum. */
export interface SumRow {
  readonly symbol: string;
  readonly meaning: string;
  readonly value: number;
  readonly unit: string;
  /** Standard uncertainty, same unit; 0 for a constant of the rule. */
  readonly u: number;
  readonly origin: Origin | "rule";
  readonly path?: string;
  readonly tool?: string;
}

/** A sum opened: formula, numbers put in, result, source. */
export interface Sum {
  readonly title: string;
  readonly formula: string;
  readonly rows: readonly SumRow[];
  readonly result: Phrase;
  readonly source: Source;
}

export interface Margin {
  /** At or above 0 it goes. */
  readonly value: number;
  readonly unit: string;
  readonly u: number;
}

/** One value's part in the doubt of the margin; the shares of a verdict add up to 1. */
export interface Share {
  readonly path: string;
  readonly what: string;
  readonly share: number;
  /** Change of the margin per unit of the value. */
  readonly sensitivity: number;
}

/** A reading worth taking. */
export interface NextReading {
  readonly path: string;
  readonly what: string;
  readonly tool: string;
  /** Where to lay the tool and how. */
  readonly how: string;
  readonly minutes: number;
  /** Probability that the verdict goes, expected after the reading agrees with the present value. */
  readonly probabilityAfter?: number;
  /** What the reading would settle, in words. */
  readonly settles: string;
}

/** A way out of a verdict that is not `go`, with its effect. */
export interface Remedy {
  readonly id: string;
  readonly text: Phrase;
  readonly permanence: Permanence;
  /** Status with this remedy taken, where computed. */
  readonly then?: Status;
  readonly probability?: number;
  readonly figures?: Readonly<Record<string, number>>;
}

/** A dimension that a part must have to go: the verdict turned round, for the slip that goes to the shop. */
export interface PartWant {
  /** e.g. "pot, volume" or "bridge". */
  readonly part: string;
  readonly dimension: string;
  readonly bound: "at least" | "at most";
  readonly value: number;
  readonly unit: string;
  /** Probability that a part with exactly this dimension goes. */
  readonly probability: number;
}

export type Permanence = "reversible" | "hidden" | "permanent";

export interface Verdict {
  /** Stable id used on the command line, e.g. "bridge.window", "control.volume.bushing". */
  readonly id: string;
  /** The question in a person's words. */
  readonly question: string;
  readonly status: Status;
  /** One sentence with the number that decides. */
  readonly headline: Phrase;
  /** Further lines, shown when the verdict is shown in full. */
  readonly detail: readonly Phrase[];
  readonly margin?: Margin;
  /** That it goes, after the stated rework if there is one; from the ledger. */
  readonly probability?: number;
  /** What a wrong answer costs: 3 cannot be undone and shows, 2 cannot be undone, 1 can be undone. */
  readonly stake: 1 | 2 | 3;
  readonly remedies: readonly Remedy[];
  /** Work that makes a `rework` verdict go; the planner turns it into operations. */
  readonly work: readonly Work[];
  readonly sums: readonly Sum[];
  readonly shares: readonly Share[];
  /** Values nobody has given, each with how to get it. */
  readonly missing: readonly NextReading[];
  readonly next?: NextReading;
  /** What a part must measure to go at the gate's probability. */
  readonly wants?: readonly PartWant[];
  /** Every number of the answer by name, in base units, for --json and for tests. */
  readonly figures: Readonly<Record<string, number>>;
}
