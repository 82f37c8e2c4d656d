/** Short ways to write leaves in tests. */
import { type KnownWeight, type Numbers, type Problem, weigh } from "../../../src/core/ledger/index.ts";
import type { DoubtTerm, Known } from "../../../src/core/quantity/index.ts";

export function term(id: string, u: number, shape: DoubtTerm["shape"] = "normal", what = id): DoubtTerm {
  return { id, u, shape, what };
}

/** A measured value whose only doubt, if any, is its own. */
export function leaf(path: string, value: number, doubt: number | readonly DoubtTerm[] = 0): Known {
  const terms = typeof doubt === "number" ? (doubt === 0 ? [] : [term(path, doubt)]) : doubt;
  return { known: true, path, kind: "length", value, origin: "measured", doubt: terms, said: `${value}` };
}

/** For problems with every leaf given. */
export function known(problem: Problem): KnownWeight {
  const weighed = weigh(problem);
  if (!weighed.known) throw new Error("a leaf is missing");
  return weighed;
}

export function sumOfAll(x: Numbers): number {
  return Object.values(x).reduce((sum, value) => sum + value, 0);
}
