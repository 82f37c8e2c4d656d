/**
 * One manner of judging for every fit.
 *
 * Status. The margin holds the rule's clearance and decides by its sign; the probability asks whether the part goes at
 * all, which is what the clearance is kept for. Negative margin: `rework` if stated work cures it, else `no-go`. Where
 * the sign itself is in doubt, the work cannot be undone and a better tool exists: `measure` first. What can be undone
 * is tried instead: the verdict stands, says its doubt and names the step.
 */
import { InputError } from "../errors.ts";
import {
  type KnownWeight,
  type Numbers,
  nextReading,
  oddsInWords,
  type ReadingOption,
  sumOf,
  type WeighedMany,
  weighMany,
} from "../ledger/index.ts";
import { figure, type Phrase, type Quantity, say, standardUncertainty, valueOr } from "../quantity/index.ts";
import type { Margin, NextReading, PartWant, Source, Status, Sum, Verdict } from "../verdict/index.ts";
import { missingReading, sharperReading } from "./how-to-measure.ts";
import { type InstrumentQuestion, makeVerdict } from "./make-verdict.ts";
import { partWants } from "./part-wants.ts";

export type Leaves = Readonly<Record<string, Quantity>>;
export type Margins = Readonly<Record<string, (x: Numbers) => number>>;

export interface Fit {
  readonly leaves: Leaves;
  /** With the rule's clearance, mm. */
  readonly margins: Margins;
  /** Without it: does the part go at all? The margins themselves where left out. */
  readonly bare?: Margins | undefined;
  /** Once the stated work is done; left out if no work cures it. */
  readonly after?: Margins | undefined;
  readonly work: "permanent" | "reversible";
  readonly gate: Quantity;
}

export interface Judgement {
  readonly known: true;
  readonly status: Status;
  readonly margin: Margin;
  /** Each margin at the values given. */
  readonly parts: Readonly<Record<string, number>>;
  /** That it goes; for `rework`: after the work. */
  readonly probability: number;
  readonly doubtful: boolean;
  readonly shares: KnownWeight["shares"];
  readonly next?: NextReading;
  readonly wants: readonly PartWant[];
}

export interface Unjudged {
  readonly known: false;
  readonly missing: readonly Quantity[];
}

/** Sums of binary fractions miss 0 by less than this. */
const NOISE = 1e-9;

/** @throws InputError for a size that is no size (0 or less), which `answered` turns into a verdict */
export function judge(fit: Fit): Judgement | Unjudged {
  const { leaves } = fit;
  const rule = weighSizes(leaves, fit.margins);
  if (!rule.known) return { known: false, missing: rule.missing };
  const margin = Math.abs(rule.margin) < NOISE ? 0 : rule.margin;
  const gate = valueOr(fit.gate, 0.95);
  const holds = margin >= 0;
  const bare = fit.bare === undefined ? undefined : weighKnown(leaves, fit.bare);
  const asked = holds ? (fit.bare ?? fit.margins) : fit.margins;
  const now = holds && bare ? bare : rule;
  const doubtful = holds ? now.probability < gate : now.probability > 1 - gate;
  const next = doubtful ? readingFor(leaves, asked, gate) : undefined;
  const status = statusOf({ holds, doubtful, sharper: next !== undefined, fit });
  const then = status === "rework" ? fit.after : status === "go" ? undefined : fit.bare;
  const after = then === undefined ? now : then === fit.bare && bare ? bare : weighKnown(leaves, then);
  return {
    known: true,
    status,
    margin: { value: margin, unit: "mm", u: rule.u },
    parts: Object.fromEntries(Object.entries(rule.parts).map(([name, part]) => [name, part.margin])),
    probability: after.probability,
    doubtful,
    shares: after.shares.length > 0 ? after.shares : rule.shares,
    ...(next === undefined ? {} : { next }),
    wants: partWants({ leaves, margins: fit.margins, parts: rule.parts, bare: bare?.parts ?? {}, gate }),
  };
}

function statusOf(seen: { holds: boolean; doubtful: boolean; sharper: boolean; fit: Fit }): Status {
  const { holds, doubtful, sharper, fit } = seen;
  if (holds) return "go";
  if (doubtful && sharper && fit.work === "permanent" && fit.after) return "measure";
  return fit.after ? "rework" : "no-go";
}

function weighSizes(leaves: Leaves, margins: Margins): WeighedMany {
  return weighMany({ leaves, margins: keepingSizes(leaves, margins), unit: "mm" });
}

function weighKnown(leaves: Leaves, margins: Margins): Extract<WeighedMany, { readonly known: true }> {
  // The same leaves were all known a moment ago.
  return weighSizes(leaves, margins) as Extract<WeighedMany, { readonly known: true }>;
}

/** So many standard uncertainties a draw may stray. */
const FARTHEST_DRAW = 6;
const LEAST_SIZE_MM = 1e-3;

/** A size so doubtful that a draw could make it negative is kept above 0: there is no part of less than nothing. */
function keepingSizes(leaves: Leaves, margins: Margins): Margins {
  const risky = Object.entries(leaves).flatMap(([name, leaf]) =>
    leaf.known && leaf.value > 0 && leaf.value <= FARTHEST_DRAW * standardUncertainty(leaf) ? [name] : [],
  );
  if (risky.length === 0) return margins;
  const kept = (x: Numbers): Numbers => {
    if (!risky.some((name) => at(x, name) < LEAST_SIZE_MM)) return x;
    const sizes: Record<string, number> = { ...x };
    for (const name of risky) sizes[name] = Math.max(LEAST_SIZE_MM, at(x, name));
    return sizes;
  };
  return Object.fromEntries(Object.entries(margins).map(([name, formula]) => [name, (x: Numbers) => formula(kept(x))]));
}

function readingFor(leaves: Leaves, margins: Margins, gate: number): NextReading | undefined {
  const options = Object.entries(leaves).flatMap(([leaf, quantity]): ReadingOption[] => {
    const sharper = sharperReading(quantity);
    return sharper === undefined ? [] : [{ leaf, ...sharper }];
  });
  if (options.length === 0) return undefined;
  const problem = { leaves, margins: keepingSizes(leaves, margins), unit: "mm" };
  return nextReading(problem, options, { probability: gate }).reading;
}

/**
 * A question whose answer never fails on a value that makes no sense: it says which, and asks for it anew. One wrong
 * entry must not take every other answer with it.
 */
export function answered(question: InstrumentQuestion): InstrumentQuestion {
  const { id, question: words } = question;
  return {
    id,
    question: words,
    answer: (asking) => {
      try {
        return question.answer(asking);
      } catch (error) {
        if (error instanceof InputError) return refused(id, words, error);
        throw error;
      }
    },
  };
}

function refused(id: string, question: string, { where, problem, remedy }: InputError): Verdict {
  const reading = {
    path: where,
    what: `${where}, which ${problem}`,
    tool: "eye",
    how: remedy,
    minutes: 2,
    settles: "this question",
  };
  const headline = say`Cannot be worked out: ${where} ${problem}. ${remedy}.`;
  return makeVerdict({ id, question, status: "measure", stake: 2, headline, missing: [reading], next: reading });
}

/** The line that says a doubt and the step that settles it without harm; none if there is no doubt. */
export function doubtLine(judged: Judgement, tryIt: string): readonly Phrase[] {
  if (!judged.doubtful) return [];
  const odds = oddsInWords(judged.probability);
  const after = judged.status === "rework" ? " after this work" : "";
  return [say`Close: P ${figure(judged.probability, "", 2)} that it goes${after}, ${odds}. ${tryIt}`];
}

/** Parts of a verdict that every judgement gives. */
export function judgedParts(judged: Judgement): {
  readonly status: Status;
  readonly margin: Margin;
  readonly probability: number;
  readonly shares: Judgement["shares"];
  readonly next?: NextReading;
  readonly wants?: readonly PartWant[];
} {
  const { status, margin, probability, shares, next, wants } = judged;
  return {
    status,
    margin,
    probability,
    shares,
    ...(next === undefined ? {} : { next }),
    ...(wants.length === 0 ? {} : { wants }),
  };
}

/** Values that would sharpen the answer but do not hold it up. */
export function wanted(quantities: readonly Quantity[], settles: string): NextReading[] {
  const unknown = quantities.filter((quantity) => !quantity.known);
  return [...new Map(unknown.map((quantity) => [quantity.path, missingReading(quantity, settles)])).values()];
}

/** Opens a rule to its sum. `rows`: leaf, symbol as in the formula, meaning. */
export function ruleSum(sum: {
  readonly title: string;
  readonly rule: { readonly formula: string; readonly source: Source };
  readonly leaves: Leaves;
  readonly rows: readonly (readonly [leaf: string, symbol: string, meaning: string])[];
  readonly result: Phrase;
}): Sum {
  const { title, rule, leaves, rows, result } = sum;
  const used = Object.fromEntries(rows.flatMap(([leaf]) => (leaves[leaf] ? [[leaf, leaves[leaf]] as const] : [])));
  const symbols = Object.fromEntries(rows.map(([leaf, symbol, meaning]) => [leaf, { symbol, meaning }]));
  return sumOf({ leaves: used }, { title, formula: rule.formula, symbols, result, source: rule.source });
}

/** A verdict whose figures carry no binary dust, for people who read them as data. */
export function fitVerdict(given: Parameters<typeof makeVerdict>[0]): Verdict {
  const figures = Object.entries(given.figures ?? {}).map(([name, value]) => [name, clean(value)] as const);
  return makeVerdict({ ...given, figures: Object.fromEntries(figures) });
}

/** Binary dust off a figure that goes on a list of work. */
export function clean(value: number): number {
  const rounded = Math.round(value * 1e6) / 1e6;
  return rounded === 0 ? 0 : rounded;
}

/** A default that says it is one. */
export function assumed(path: string, value: number, u: number, what: string): Quantity {
  const doubt = u === 0 ? [] : [{ id: `${path}:assumed`, u, shape: "normal" as const, what }];
  return { known: true, path, kind: "length", value, origin: "assumed", doubt, said: "" };
}

/** The values as they stand, for a formula's answer beside its doubt. */
export function valuesOf(leaves: Leaves): Numbers {
  return Object.fromEntries(Object.entries(leaves).map(([name, leaf]) => [name, valueOr(leaf, Number.NaN)]));
}

/** A leaf of a formula; the ledger puts in what the problem names. */
export function at(x: Numbers, name: string): number {
  return x[name] ?? Number.NaN;
}
