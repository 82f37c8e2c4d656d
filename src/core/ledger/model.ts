/**
 * A problem as independent error terms that load its leaves.
 *
 * Model: leaf = value + Σ load × z, every z an independent error of standard deviation 1. Terms of one id are one z,
 * whichever leaves carry it; loads of one id on one leaf add, sign included (JCGM 100:2008, 5.2 and F.1.2.3: correlation
 * through a common input; from memory).
 * Left out: correlation that is not stated as a common term.
 */
import { InputError } from "../errors.ts";
import type { DoubtTerm, Known, Quantity } from "../quantity/index.ts";

export interface Load {
  /** Index of the leaf. */
  readonly leaf: number;
  /** Standard uncertainty that this error puts on the leaf, sign included, leaf's unit. */
  readonly u: number;
}

export interface ErrorTerm {
  readonly id: string;
  readonly what: string;
  readonly shape: DoubtTerm["shape"];
  /** None of them 0. */
  readonly loads: readonly Load[];
}

export interface Model {
  readonly names: readonly string[];
  readonly leaves: readonly Known[];
  /** Present values; they differ from the leaves' own where a reading is thought to have moved them. */
  readonly values: readonly number[];
  readonly terms: readonly ErrorTerm[];
}

export type Leaves = Readonly<Record<string, Quantity>>;

/** The leaves nobody has given, each once, in the order of their names. */
export function missingOf(leaves: Leaves): Quantity[] {
  const missing = new Map<string, Quantity>();
  for (const name of Object.keys(leaves).sort()) {
    const leaf = leaves[name];
    if (leaf && !leaf.known && !missing.has(leaf.path)) missing.set(leaf.path, leaf);
  }
  return [...missing.values()];
}

/**
 * The problem's known leaves and error terms, in an order that does not depend on how the leaves were listed.
 *
 * @throws InputError if a value or an error term is not a finite number
 */
export function modelOf(leaves: Leaves): Model {
  const names: string[] = [];
  const known: Known[] = [];
  for (const name of Object.keys(leaves).sort()) {
    const leaf = leaves[name];
    if (!leaf?.known) continue;
    checkLeaf(leaf);
    names.push(name);
    known.push(leaf);
  }
  return { names, leaves: known, values: known.map((leaf) => leaf.value), terms: termsOf(known) };
}

function checkLeaf(leaf: Known): void {
  if (!Number.isFinite(leaf.value)) {
    throw new InputError(leaf.path, `must be a number, got ${leaf.value}`, "Measure it again, or leave it out");
  }
  const wrong = leaf.doubt.find((term) => !Number.isFinite(term.u));
  if (wrong)
    throw new InputError(`${leaf.path}, ${wrong.what}`, `the doubt must be a number, got ${wrong.u}`, "State it");
}

interface Gathering {
  what: string;
  shape: DoubtTerm["shape"];
  /** Largest load so far; what and shape are its. */
  largest: number;
  readonly loads: Map<number, number>;
}

function termsOf(leaves: readonly Known[]): ErrorTerm[] {
  const gathered = new Map<string, Gathering>();
  leaves.forEach((leaf, index) => {
    for (const term of leaf.doubt) {
      const size = Math.abs(term.u);
      if (size === 0) continue;
      const one = gathered.get(term.id) ?? { what: term.what, shape: term.shape, largest: 0, loads: new Map() };
      one.loads.set(index, (one.loads.get(index) ?? 0) + term.u);
      if (size > one.largest) Object.assign(one, { what: term.what, shape: term.shape, largest: size });
      gathered.set(term.id, one);
    }
  });
  const terms: ErrorTerm[] = [];
  for (const id of [...gathered.keys()].sort()) {
    const one = gathered.get(id);
    if (!one) continue;
    const loads = [...one.loads].map(([leaf, u]) => ({ leaf, u })).filter(({ u }) => u !== 0);
    if (loads.length > 0) terms.push({ id, what: one.what, shape: one.shape, loads });
  }
  return terms;
}

/** Standard uncertainty of one leaf. */
export function leafU(model: Model, leaf: number): number {
  return Math.hypot(...loadsOn(model, leaf));
}

/** What each term puts on one leaf, in the order of the terms. */
export function loadsOn(model: Model, leaf: number): number[] {
  return model.terms.map((term) => term.loads.find((load) => load.leaf === leaf)?.u ?? 0);
}
