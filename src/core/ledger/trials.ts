/**
 * What formulas give when errors are put off: every test of what a formula does with its doubt reads from here, so that
 * no formula is worked out twice at one place, and the row of values is filled once for all of them.
 *
 * Model: each term alone off by its own standard uncertainty, both ways (JCGM 100:2008, 5.1.3 note 2; from memory); and
 * 64 fixed points with every term off at once, at double doubt, none beyond its shape's end or 4 standard uncertainties. A straight line is believed
 * where
 *   1. forward and backward steps agree for every term,
 *   2. the points lie on the plane of those steps.
 * Steps of one term alone would miss a kink that several must reach together, and a product of two doubtful values.
 * Left out: a kink so far out that none of the 64 points meets it; at double doubt a border at three standard
 * uncertainties is one and a half away, and 1 point in 15 lies beyond.
 */
import { type MarginFormula, mayMove, Row } from "./formulas.ts";
import type { ErrorTerm, Model } from "./model.ts";
import { TRIANGULAR_REACH, UNIFORM_REACH } from "./normal.ts";
import { drawsOf } from "./points.ts";

/** What one formula gives. */
export interface Steps {
  /** At the leaf values. */
  readonly start: number;
  /** With each term alone off by plus and minus its standard uncertainty, in the order of the model's terms. */
  readonly forward: Float64Array;
  readonly backward: Float64Array;
}

export interface Trial extends Steps {
  /** At the points. */
  readonly far: Float64Array;
}

/** How far each term is off at the points, point by point. */
export type Points = readonly Float64Array[];

const POINTS = 64;
const FAR = 2;
/** No error is thought farther off than its shape goes, and none farther than 4 standard uncertainties. */
const REACH: Readonly<Record<ErrorTerm["shape"], number>> = {
  normal: 4,
  uniform: UNIFORM_REACH,
  triangular: TRIANGULAR_REACH,
};

/** Worked out once and kept: nobody can tell but by the clock. */
const columns = new Map<string, Float64Array>();

export function pointsOf(model: Model): Points {
  return model.terms.map(({ shape }, term) => {
    const key = `${shape} ${term}`;
    const known = columns.get(key);
    if (known) return known;
    const reach = REACH[shape];
    const column = drawsOf(term, "normal", POINTS)
      .subarray(0, POINTS)
      .map((draw) => Math.min(reach, Math.max(-reach, FAR * draw)));
    columns.set(key, column);
    return column;
  });
}

/** @param starts what the formulas give at the leaf values */
export function trialsOf(
  model: Model,
  formulas: readonly MarginFormula[],
  starts: readonly number[],
  points: Points,
): Trial[] {
  const trials = stepsOf(model, formulas, starts).map((steps) => ({ ...steps, far: new Float64Array(POINTS) }));
  // Without a term every point is the leaf values themselves.
  if (model.terms.length === 0) for (const { far, start } of trials) far.fill(start);
  const row = new Row(model);
  for (let point = 0; point < POINTS && model.terms.length > 0; point += 1) {
    row.reset();
    for (let index = 0; index < model.terms.length; index += 1)
      shift(row, model.terms[index] as ErrorTerm, (points[index] as Float64Array)[point] as number);
    for (let part = 0; part < formulas.length; part += 1)
      (trials[part] as Trial).far[point] = (formulas[part] as MarginFormula)(row);
  }
  return trials;
}

export function stepsOf(model: Model, formulas: readonly MarginFormula[], starts: readonly number[]): Steps[] {
  const steps = starts.map((start) => ({
    start,
    forward: new Float64Array(model.terms.length),
    backward: new Float64Array(model.terms.length),
  }));
  const row = new Row(model);
  const moving = formulas.map((formula) => mayMove(model, formula));
  model.terms.forEach((term, index) => {
    for (const way of [1, -1] as const) {
      shift(row, term, way);
      for (let part = 0; part < formulas.length; part += 1) {
        const { start, forward, backward } = steps[part] as Steps;
        (way === 1 ? forward : backward)[index] = moving[part]?.[index]
          ? (formulas[part] as MarginFormula)(row)
          : start;
      }
      putBack(model, row, term);
    }
  });
  return steps;
}

/** The trial of the smallest of several formulas; no number where one of them gives none. */
export function smallestTrial(trials: readonly Trial[]): Trial {
  const [only] = trials;
  if (trials.length === 1 && only) return only;
  const least = (of: (trial: Trial) => Float64Array): Float64Array => {
    const smallest = Float64Array.from(of(only as Trial));
    for (const trial of trials) {
      const values = of(trial);
      for (let index = 0; index < smallest.length; index += 1)
        smallest[index] = Math.min(smallest[index] as number, values[index] as number);
    }
    return smallest;
  };
  return {
    start: Math.min(...trials.map(({ start }) => start)),
    forward: least(({ forward }) => forward),
    backward: least(({ backward }) => backward),
    far: least(({ far }) => far),
  };
}

/** Puts the leaves of one term back to their present values. */
export function putBack(model: Model, row: Row, term: ErrorTerm): void {
  for (const { leaf } of term.loads) row.set(leaf, model.values[leaf] as number);
}

/** Moves the leaves of one term in the row. */
export function shift(row: Row, term: ErrorTerm, z: number): void {
  for (const { leaf, u } of term.loads) row.set(leaf, (row.values[leaf] as number) + u * z);
}
