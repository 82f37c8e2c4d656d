/**
 * What each error term does to the margin, and whether a straight line describes it.
 *
 * Model: differences as in planes.ts. The margin counts as linear when
 *   1. forward and backward differences agree for every term,
 *   2. 64 fixed points with every term off at once, at double doubt, lie on the plane of those differences,
 *   3. the errors are normal, or so many and even that their sum is.
 * Steps of one term alone would miss a kink that several must reach together, and a product of two doubtful values.
 * Left out: a kink so far out that none of the 64 points meets it; at double doubt a border at three standard
 * uncertainties is one and a half away, and 1 point in 15 lies beyond.
 */
import { type ErrorTerm, type Model, recordOf } from "./model.ts";
import { TRIANGULAR_REACH, UNIFORM_REACH } from "./normal.ts";
import { OFF_PLANE, OFF_PLANE_FAR, restore, shift, stepsOf } from "./planes.ts";
import { drawsOf } from "./points.ts";
import type { MarginFormula } from "./sampling.ts";

const FAR = 2;
const FAR_POINTS = 64;

/**
 * Excess kurtosis up to which a sum of errors may be taken as normal. The first term that the normal curve leaves out
 * (Edgeworth; Cramér) is excess/24 × (z³ - 3z) φ(z), at most 0.0230 × excess; 0.13 keeps that below 0.3 % (derived).
 */
const MOST_EXCESS = 0.13;
const EXCESS: Readonly<Record<ErrorTerm["shape"], number>> = { normal: 0, uniform: -1.2, triangular: -0.6 };
const REACH: Readonly<Record<ErrorTerm["shape"], number>> = {
  normal: Number.POSITIVE_INFINITY,
  uniform: UNIFORM_REACH,
  triangular: TRIANGULAR_REACH,
};

export interface Effects {
  /** The model with its terms in order of importance. */
  readonly model: Model;
  /** Change of the margin when a term is off by one standard uncertainty, in the order of `model.terms`. */
  readonly slopes: readonly number[];
  /** Root of the sum of squares of the slopes. */
  readonly u: number;
  /** The margin lies on a plane over the doubt. */
  readonly plane: boolean;
  /** The errors together are as good as normal. */
  readonly normal: boolean;
  /** Nothing tried moved the margin. */
  readonly still: boolean;
}

export function effectsOf(model: Model, margin: MarginFormula, start: number): Effects {
  const steps = stepsOf(model, margin, start);
  const tried = model.terms.map((term, index) => {
    const { forward, backward } = steps[index] ?? { forward: 0, backward: 0 };
    const importance = Math.max(Math.abs(forward), Math.abs(backward));
    return { term, forward, backward, slope: (forward - backward) / 2, importance };
  });
  // A step that gives no number matters most of all.
  const weight = (importance: number) => (Number.isNaN(importance) ? Number.POSITIVE_INFINITY : importance);
  tried.sort((a, b) => compare(weight(b.importance), weight(a.importance)) || (a.term.id < b.term.id ? -1 : 1));

  const slopes = tried.map(({ slope }) => slope);
  const squares = slopes.map((slope) => slope * slope);
  const total = squares.reduce((sum, square) => sum + square, 0);
  const u = Math.sqrt(total);
  const even = tried.every(({ forward, backward }) => Math.abs(forward + backward) / 2 <= OFF_PLANE * u);
  const ordered: Model = { ...model, terms: tried.map(({ term }) => term) };
  const farthest = farthestOff(ordered, slopes, margin, start);
  const excess = tried.reduce(
    (sum, { term }, i) => sum + EXCESS[term.shape] * ((squares[i] ?? 0) / (total || 1)) ** 2,
    0,
  );
  return {
    model: ordered,
    slopes,
    u,
    plane: even && farthest <= OFF_PLANE_FAR * u,
    normal: Math.abs(excess) <= MOST_EXCESS,
    still: tried.every(({ importance }) => importance === 0) && farthest === 0,
  };
}

function compare(a: number, b: number): number {
  return a === b ? 0 : a - b;
}

/** How far the margin leaves the plane of the slopes at points with every term off at once; no number: infinitely. */
function farthestOff(model: Model, slopes: readonly number[], margin: MarginFormula, start: number): number {
  if (model.terms.length === 0) return 0;
  const columns = model.terms.map((_, dimension) => drawsOf(dimension, "normal", FAR_POINTS));
  const x = recordOf(model);
  let farthest = 0;
  for (let point = 0; point < FAR_POINTS; point += 1) {
    restore(model, x);
    let plane = start;
    model.terms.forEach((term, index) => {
      const reach = REACH[term.shape];
      const z = Math.min(reach, Math.max(-reach, FAR * (columns[index]?.[point] ?? 0)));
      shift(model, x, term, z);
      plane += (slopes[index] ?? 0) * z;
    });
    const off = Math.abs(margin(x) - plane);
    farthest = Number.isNaN(off) ? Number.POSITIVE_INFINITY : Math.max(farthest, off);
  }
  return farthest;
}
