/**
 * Formulas as the loops want them: over numbers in a row, in the order of the model's leaves.
 *
 * A question writes its margin over leaf names; `over` lets it say which leaves it reads, so that a loop finds them by
 * their place and does not look a name up at every draw. Both forms are one formula.
 */
import type { Model } from "./model.ts";
import type { JointProblem, Numbers, Problem } from "./types.ts";

/** It must not keep or change the row. */
export interface MarginFormula {
  (row: Row): number;
  /** Places of the leaves it reads, where it says so: terms on no other leaf cannot move it. */
  readonly reads?: ReadonlySet<number>;
}

/** Which terms may move a formula. */
export function mayMove(model: Model, { reads }: MarginFormula): boolean[] {
  return model.terms.map(({ loads }) => reads === undefined || loads.some(({ leaf }) => reads.has(leaf)));
}

/** The values of a model's leaves in the order of its names, and by name for those formulas that read by name. */
export class Row {
  readonly values: Float64Array;
  private named: Record<string, number> | undefined;

  constructor(private readonly model: Model) {
    this.values = Float64Array.from(model.values);
  }

  set(leaf: number, value: number): void {
    this.values[leaf] = value;
    if (this.named) this.named[this.model.names[leaf] as string] = value;
  }

  /** Every leaf back to its present value. */
  reset(): void {
    const { values } = this.model;
    for (let leaf = 0; leaf < values.length; leaf += 1) this.set(leaf, values[leaf] as number);
  }

  byName(): Numbers {
    this.named ??= Object.fromEntries(this.model.names.map((name, leaf) => [name, this.values[leaf] as number]));
    return this.named;
  }
}

/** Where each value a formula reads stands in the row. */
export type Places<Name extends string> = Readonly<Record<Name, number>>;

interface Placed extends Placeable {
  (x: Numbers): number;
}

interface Placeable {
  readonly placed: (placeOf: (leaf: string) => number) => MarginFormula;
}

/**
 * A margin that says which leaves it reads.
 *
 * @param reads leaf by the short name the formula gives it
 * @example
 * over({ a: "parts.bridge.holes[0].p", b: "along" }, (x, at) => x[at.a] - x[at.b]);
 */
export function over<Name extends string>(
  reads: Readonly<Record<Name, string>>,
  formula: (x: Float64Array, at: Places<Name>) => number,
): Placed {
  const names = Object.keys(reads) as Name[];
  const placesBy = (placeOf: (name: Name, index: number) => number) =>
    Object.fromEntries(names.map((name, index) => [name, placeOf(name, index)])) as Record<Name, number>;
  const inTurn = placesBy((_, index) => index);
  const plain = (x: Numbers) =>
    formula(
      Float64Array.from(names, (name) => x[reads[name]] ?? Number.NaN),
      inTurn,
    );
  const placed = (placeOf: (leaf: string) => number): MarginFormula => {
    const at = placesBy((name) => placeOf(reads[name]));
    return Object.assign((row: Row) => formula(row.values, at), { reads: new Set<number>(Object.values(at)) });
  };
  return Object.assign(plain, { placed });
}

/** The formulas of either kind of problem, in their order, over the leaves of these names. */
export function formulasOf(problem: Problem | JointProblem, names: readonly string[]): readonly MarginFormula[] {
  const margins = "margins" in problem ? Object.values(problem.margins) : [problem.margin];
  const places = new Map(names.map((name, index) => [name, index]));
  // A leaf nobody names is no number, as it is in a record.
  const placeOf = (leaf: string) => places.get(leaf) ?? names.length;
  return margins.map((margin) =>
    "placed" in margin ? (margin as Placed).placed(placeOf) : (row) => margin(row.byName()),
  );
}

/** The smallest of several margins, as one formula; no number where one of them is none. */
export function smallestOf<Values>(formulas: readonly ((x: Values) => number)[]): (x: Values) => number {
  const [only] = formulas;
  if (formulas.length === 1 && only) return only;
  return (x) => {
    let smallest = Number.POSITIVE_INFINITY;
    for (const formula of formulas) {
      const margin = formula(x);
      // Not Math.min over the list: it makes an array a draw; and a margin that is no number must not be lost.
      if (!(margin >= smallest)) smallest = margin;
      if (Number.isNaN(margin)) return margin;
    }
    return smallest;
  };
}
