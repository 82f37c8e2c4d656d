/**
 * The straight-line stand-in of a margin: what each error term does to it when it is off by one standard uncertainty.
 *
 * Model: central differences with each term's own standard uncertainty as the step (JCGM 100:2008, 5.1.3 note 2;
 * from memory).
 */
import { type ErrorTerm, type Model, recordOf } from "./model.ts";
import type { MarginFormula } from "./sampling.ts";

export interface Plane {
  /** Change of the margin per term, in the order of the model's terms. */
  readonly slopes: Float64Array;
}

export interface Step {
  /** Change of the margin with the term off by plus and minus its standard uncertainty. */
  readonly forward: number;
  readonly backward: number;
}

export function stepsOf(model: Model, formula: MarginFormula, start: number): Step[] {
  const x = recordOf(model);
  return model.terms.map((term) => ({
    forward: at(model, x, term, 1, formula) - start,
    backward: at(model, x, term, -1, formula) - start,
  }));
}

/** A term whose steps give no number is left flat. */
export function planeOf(model: Model, formula: MarginFormula, start: number): Plane {
  const slopes = Float64Array.from(stepsOf(model, formula, start), ({ forward, backward }) => {
    const slope = (forward - backward) / 2;
    return Number.isFinite(slope) ? slope : 0;
  });
  return { slopes };
}

/** Margin with one term off by `z` standard uncertainties. Leaves the record as it was. */
function at(model: Model, x: Record<string, number>, term: ErrorTerm, z: number, formula: MarginFormula): number {
  shift(model, x, term, z);
  const value = formula(x);
  for (const { leaf } of term.loads) x[model.names[leaf] ?? ""] = model.values[leaf] ?? 0;
  return value;
}

/** Moves the leaves of one term in the record. */
export function shift(model: Model, x: Record<string, number>, term: ErrorTerm, z: number): void {
  for (const { leaf, u } of term.loads) {
    const name = model.names[leaf] ?? "";
    x[name] = (x[name] ?? 0) + u * z;
  }
}
