/**
 * One manner of judging for every fit.
 *
 * Status. The margin holds the rule's clearance and decides by its sign; the probability asks whether the part goes at
 * all, which is what the clearance is kept for. Negative margin: `rework` if stated work cures it, else `no-go`. Where
 * the sign itself is in doubt, the work cannot be undone and a better tool exists: `measure` first. What can be undone
 * is tried instead: the verdict stands, says its doubt and names the step.
 */
import {
  jointly,
  type KnownWeight,
  type Numbers,
  nextReading,
  oddsInWords,
  type ReadingOption,
  sumOf,
  weighMany,
} from "../ledger/index.ts";
import { figure, type Phrase, type Quantity, say, valueOr } from "../quantity/index.ts";
import type { Margin, NextReading, Source, Status, Sum } from "../verdict/index.ts";
import { missingReading, sharperReading } from "./how-to-measure.ts";

export type Leaves = Readonly<Record<string, Quantity>>;
export type Margins = Readonly<Record<string, (x: Numbers) => number>>;

export interface Fit {
  readonly leaves: Leaves;
  /** With the rule's clearance. Millimetres unless `unit` says otherwise. */
  readonly margins: Margins;
  /** Without it: does the part go at all? The margins themselves where left out. */
  readonly bare?: Margins | undefined;
  /** Once the stated work is done; left out if no work cures it. */
  readonly after?: Margins | undefined;
  readonly work: "permanent" | "reversible";
  readonly gate: Quantity;
  readonly unit?: string;
}

export interface Judgement {
  readonly known: true;
  readonly status: Status;
  readonly margin: Margin;
  /** Name of the smallest margin. */
  readonly binding: string;
  /** Each margin at the values given. */
  readonly parts: Readonly<Record<string, number>>;
  /** That it goes; for `rework`: after the work. */
  readonly probability: number;
  readonly doubtful: boolean;
  readonly shares: KnownWeight["shares"];
  readonly next?: NextReading;
}

export interface Unjudged {
  readonly known: false;
  readonly missing: readonly Quantity[];
}

/** Sums of binary fractions miss 0 by less than this. */
const NOISE = 1e-9;

export function judge(fit: Fit): Judgement | Unjudged {
  const { leaves, unit = "mm" } = fit;
  const rule = weighMany({ leaves, margins: fit.margins, unit });
  if (!rule.known) return { known: false, missing: rule.missing };
  const bare = fit.bare === undefined ? rule : weighKnown(leaves, fit.bare, unit);
  const margin = Math.abs(rule.margin) < NOISE ? 0 : rule.margin;
  const gate = valueOr(fit.gate, 0.95);
  const holds = margin >= 0;
  const doubtful = holds ? bare.probability < gate : rule.probability > 1 - gate;
  const next = doubtful ? readingFor(fit, holds ? (fit.bare ?? fit.margins) : fit.margins, gate) : undefined;
  const status = statusOf({ holds, doubtful, sharper: next !== undefined, fit });
  const after = status === "rework" && fit.after ? weighKnown(leaves, fit.after, unit) : bare;
  return {
    known: true,
    status,
    margin: { value: margin, unit, u: rule.u },
    binding: rule.binding,
    parts: Object.fromEntries(Object.entries(rule.parts).map(([name, part]) => [name, part.margin])),
    probability: after.probability,
    doubtful,
    shares: after.shares.length > 0 ? after.shares : rule.shares,
    ...(next === undefined ? {} : { next }),
  };
}

function statusOf(seen: { holds: boolean; doubtful: boolean; sharper: boolean; fit: Fit }): Status {
  const { holds, doubtful, sharper, fit } = seen;
  if (holds) return "go";
  if (doubtful && sharper && fit.work === "permanent" && fit.after) return "measure";
  return fit.after ? "rework" : "no-go";
}

function weighKnown(leaves: Leaves, margins: Margins, unit: string): KnownWeight {
  const weighed = weighMany({ leaves, margins, unit });
  // The same leaves were all known a moment ago.
  return weighed as typeof weighed & { readonly known: true };
}

function readingFor(fit: Fit, margins: Margins, gate: number): NextReading | undefined {
  const options = Object.entries(fit.leaves).flatMap(([leaf, quantity]): ReadingOption[] => {
    const sharper = sharperReading(quantity);
    return sharper === undefined ? [] : [{ leaf, ...sharper }];
  });
  if (options.length === 0) return undefined;
  const problem = jointly({ leaves: fit.leaves, margins, unit: fit.unit ?? "mm" });
  return nextReading(problem, options, { probability: gate }).reading;
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
} {
  const { status, margin, probability, shares, next } = judged;
  return { status, margin, probability, shares, ...(next === undefined ? {} : { next }) };
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

/** A default that says it is one. */
export function assumed(path: string, value: number, u: number, what: string): Quantity {
  const doubt = u === 0 ? [] : [{ id: `${path}:assumed`, u, shape: "normal" as const, what }];
  return { known: true, path, kind: "length", value, origin: "assumed", doubt, said: "" };
}

/** A leaf of a formula; the ledger puts in what the problem names. */
export function at(x: Numbers, name: string): number {
  return x[name] ?? Number.NaN;
}
