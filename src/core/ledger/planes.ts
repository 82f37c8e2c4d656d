/**
 * The straight-line stand-in of a margin: what each error term does to it when it is off by one standard uncertainty.
 *
 * Model: central differences with each term's own standard uncertainty as the step (JCGM 100:2008, 5.1.3 note 2;
 * from memory).
 */
import { type ErrorTerm, type Model, recordOf } from "./model.ts";
import { drawsOf } from "./points.ts";
import type { MarginFormula } from "./sampling.ts";

export interface Plane {
  /** Change of the margin per term, in the order of the model's terms. */
  readonly slopes: Float64Array;
  /** Indexes of the terms whose slope is not 0. */
  readonly moving: Int32Array;
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
  return { slopes, moving: Int32Array.from([...slopes.keys()].filter((term) => slopes[term] !== 0)) };
}

/** Off the plane by more than this part of the largest value is more than rounding. */
const ROUNDING = 1e-11;
/** Fixed points of double doubt; the same as many as the test for a plane takes (effects.ts). */
const POINTS = 64;
const FAR = 2;

/**
 * Whether the formula is its plane, to rounding, at every step of one term and at fixed points with every term off at
 * once at double doubt.
 */
export function isStraight(model: Model, formula: MarginFormula, start: number, { slopes, moving }: Plane): boolean {
  const x = recordOf(model);
  const largest = Math.max(Math.abs(start), ...model.values.map(Math.abs));
  const allowed = ROUNDING * largest;
  for (const [index, term] of model.terms.entries()) {
    const slope = slopes[index] ?? 0;
    if (!(Math.abs(at(model, x, term, FAR, formula) - start - FAR * slope) <= allowed)) return false;
    if (!(Math.abs(at(model, x, term, -FAR, formula) - start + FAR * slope) <= allowed)) return false;
  }
  const columns = model.terms.map((_, dimension) => drawsOf(dimension, "normal", POINTS));
  for (let point = 0; point < POINTS; point += 1) {
    restore(model, x);
    let plane = start;
    for (const [index, term] of model.terms.entries()) shift(model, x, term, FAR * (columns[index]?.[point] ?? 0));
    for (const index of moving) plane += (slopes[index] ?? 0) * FAR * (columns[index]?.[point] ?? 0);
    if (!(Math.abs(formula(x) - plane) <= allowed)) return false;
  }
  return true;
}

/** Puts every leaf back to its present value. */
export function restore(model: Model, x: Record<string, number>): void {
  for (let leaf = 0; leaf < model.names.length; leaf += 1) x[model.names[leaf] ?? ""] = model.values[leaf] ?? 0;
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
