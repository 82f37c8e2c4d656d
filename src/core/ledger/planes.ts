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
/**
 * How far a margin may leave its plane and still count as lying on it, in its own standard uncertainties: a border
 * shifted by this moves the probability by at most 0.4 × 0.0075 = 0.3 %, 0.4 being the normal curve's height (derived).
 */
export const OFF_PLANE = 0.0075;
/** At double doubt a curvature stands four times as far off. */
export const OFF_PLANE_FAR = 4 * OFF_PLANE;
/** Fixed points of double doubt; the same as many as the test for a plane takes (effects.ts). */
const POINTS = 64;
const FAR = 2;

/**
 * Which formulas lie on their planes at every step of one term and at fixed points with every term off at once, at
 * double doubt. All formulas are tried at the same points, so that the record is filled once for all.
 */
export function straightOf(
  model: Model,
  formulas: readonly MarginFormula[],
  starts: readonly number[],
  planes: readonly Plane[],
): boolean[] {
  const x = recordOf(model);
  const values = model.values.reduce((largest, value) => Math.max(largest, Math.abs(value)), 0);
  const allowed = starts.map((start, part) =>
    Math.max(ROUNDING * Math.max(Math.abs(start), values), OFF_PLANE_FAR * Math.hypot(...(planes[part]?.slopes ?? []))),
  );
  const straight = formulas.map(() => true);
  const tryHere = (planeAt: (plane: Plane) => number): void => {
    for (let part = 0; part < formulas.length; part += 1) {
      if (!straight[part]) continue;
      const plane = (starts[part] ?? 0) + planeAt(planes[part] as Plane);
      straight[part] = Math.abs((formulas[part] as MarginFormula)(x) - plane) <= (allowed[part] ?? 0);
    }
  };
  for (const [index, term] of model.terms.entries()) {
    for (const z of [FAR, -FAR]) {
      shift(model, x, term, z);
      tryHere(({ slopes }) => z * (slopes[index] ?? 0));
      putBack(model, x, term);
    }
  }
  const columns = model.terms.map((_, dimension) => drawsOf(dimension, "normal", POINTS));
  for (let point = 0; point < POINTS && straight.includes(true); point += 1) {
    restore(model, x);
    for (const [index, term] of model.terms.entries()) shift(model, x, term, FAR * (columns[index]?.[point] ?? 0));
    tryHere(({ slopes, moving }) => {
      let sum = 0;
      for (const index of moving) sum += (slopes[index] ?? 0) * FAR * (columns[index]?.[point] ?? 0);
      return sum;
    });
  }
  return straight;
}

/** Puts every leaf back to its present value. */
export function restore(model: Model, x: Record<string, number>): void {
  for (let leaf = 0; leaf < model.names.length; leaf += 1) x[model.names[leaf] ?? ""] = model.values[leaf] ?? 0;
}

/** Margin with one term off by `z` standard uncertainties. Leaves the record as it was. */
function at(model: Model, x: Record<string, number>, term: ErrorTerm, z: number, formula: MarginFormula): number {
  shift(model, x, term, z);
  const value = formula(x);
  putBack(model, x, term);
  return value;
}

/** Puts the leaves of one term back to their present values. */
export function putBack(model: Model, x: Record<string, number>, term: ErrorTerm): void {
  for (const { leaf } of term.loads) x[model.names[leaf] ?? ""] = model.values[leaf] ?? 0;
}

/** Moves the leaves of one term in the record. */
export function shift(model: Model, x: Record<string, number>, term: ErrorTerm, z: number): void {
  for (const { leaf, u } of term.loads) {
    const name = model.names[leaf] ?? "";
    x[name] = (x[name] ?? 0) + u * z;
  }
}
