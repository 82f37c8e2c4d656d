/**
 * How sure is it that a margin holds?
 *
 * Model: no doubt at all: the margin's sign ("exact"). Margin on a plane over the doubt: P = Φ(margin / u) where the
 * errors add up to a normal one (JCGM 100:2008, 5.1.2, published; JCGM 106:2012, 7.2, from memory), with up to two
 * uniform ones taken exactly (plane-area.ts) ("linear"). Anything else: fixed draws ("sampled").
 * Left out: doubt about the doubts.
 */
import { InputError } from "../errors.ts";
import type { Quantity } from "../quantity/index.ts";
import { closedForm } from "./closed-form.ts";
import { type Effects, effectsOf } from "./effects.ts";
import { narrow, type Side } from "./far.ts";
import { formulasOf, type MarginFormula, Row, smallestOf } from "./formulas.ts";
import { type Leaves, type Model, missingOf, modelOf } from "./model.ts";
import { planeArea } from "./plane-area.ts";
import { isStraight, type Plane, planeOf, uOf } from "./planes.ts";
import { chanceByRanges } from "./ranges.ts";
import { type Sampled, type SamplePart, sample } from "./sampling.ts";
import { linearParts, sampledParts, sharesOf, type TermPart } from "./shares.ts";
import { pointsOf, smallestTrial, stepsOf, trialsOf } from "./trials.ts";
import type { JointProblem, Part, Problem, Weighed, WeighedMany, WeighMethod } from "./types.ts";

/** Rounding of sums of double numbers, as a part of the largest value put in: closer to 0 than this is 0. */
const ROUNDING = 1e-13;

/**
 * Margin, its standard uncertainty, the probability that it is at or above 0, and whose doubt it is.
 *
 * @throws InputError if the formula gives no number at the leaf values
 * @example
 * weigh({ leaves: { wood, thread }, margin: (x) => x.thread - x.wood - 4.2, unit: "mm" }); // P = Φ(margin / u)
 */
export function weigh(problem: Problem): Weighed {
  const model = knownModel(problem.leaves);
  if ("missing" in model) return { known: false, missing: model.missing };
  return { known: true, ...summary(outcomeOf(problem, model)) };
}

/** How sure it is that the margin holds, and nothing more; undefined where a value is missing. */
export function probabilityOf(problem: Problem | JointProblem): number | undefined {
  const model = knownModel(problem.leaves);
  if ("missing" in model) return undefined;
  return (outcomes.get(problem) ?? weighModel(model, formulasOf(problem, model.names), { chanceOnly: true }))
    .probability;
}

/** What was found of a problem, for whoever asks of the same one again: a problem never changes. */
const outcomes = new WeakMap<Problem | JointProblem, Outcome>();

/** @param model of the problem's leaves */
export function outcomeOf(problem: Problem | JointProblem, model: Model): Outcome {
  const known = outcomes.get(problem);
  if (known) return known;
  const outcome = weighModel(model, formulasOf(problem, model.names));
  outcomes.set(problem, outcome);
  return outcome;
}

/**
 * The same for several margins that must all hold: the smallest decides, draw by draw, so that an error they share is
 * not counted twice.
 */
export function weighMany(problem: JointProblem): WeighedMany {
  const model = knownModel(problem.leaves);
  if ("missing" in model) return { known: false, missing: model.missing };
  const names = Object.keys(problem.margins);
  const formulas = formulasOf(problem, model.names);
  if (formulas.length === 0) throw new InputError("margins", "none given", "Name at least one margin");
  const outcome = outcomeOf(problem, model);
  const binding = outcome.starts.indexOf(Math.min(...outcome.starts));
  const parts: Record<string, Part> = {};
  names.forEach((name, index) => {
    const margin = outcome.starts[index] ?? 0;
    const formula = formulas[index];
    if (!formula) return;
    const found = outcome.parts[index] ?? { ...alone(model, formula, margin, outcome.sides[index]), binds: 0 };
    parts[name] = { margin, ...found, ...(outcome.method === "sampled" ? {} : { binds: index === binding ? 1 : 0 }) };
  });
  return { known: true, ...summary(outcome), binding: names[binding] ?? "", parts };
}

/** What one of several margins is by itself. */
function alone(model: Model, formula: MarginFormula, margin: number, side: Side | undefined) {
  if (side === "near" || side === undefined) {
    const { u, probability } = weighModel(model, [formula], { chanceOnly: true });
    return { u, probability };
  }
  const u = Math.max(0, ...stepsOf(model, [orNoNumber(formula)], [margin]).map((steps) => uOf(planeOf(steps))));
  return { u, probability: side === "above" ? 1 : 0 };
}

/** The same problem as one of a single margin, the smallest, where one is asked for; it keeps its parts. */
export function jointly(problem: JointProblem): Problem & JointProblem {
  return { ...problem, margin: smallestOf(Object.values(problem.margins)) };
}

function knownModel(leaves: Leaves): Model | { missing: readonly Quantity[] } {
  const missing = missingOf(leaves);
  return missing.length > 0 ? { missing } : modelOf(leaves);
}

export interface Outcome {
  readonly margin: number;
  readonly u: number;
  readonly probability: number;
  readonly method: WeighMethod;
  readonly effects: Effects;
  /** Worked out when asked for: not every use of a probability wants to know whose doubt it is. */
  readonly termParts: () => readonly TermPart[];
  /** Margins at the leaf values, in the order of the formulas. */
  readonly starts: readonly number[];
  /** Each formula's own figures where it was sampled. */
  readonly parts: readonly (SamplePart | undefined)[];
  /** Formula by formula: whether the doubt can reach its sign. */
  readonly sides: readonly Side[];
}

export interface WeighSettings {
  /** Largest number of draws, where fewer will do for the use. */
  readonly most?: number;
  /** Nothing is wanted but the probability: doubt and shares are then those of the plane, and margins have no own figures. */
  readonly chanceOnly?: boolean;
}

/** So many standard uncertainties off, a straight margin keeps its sign whatever shape its errors have. */
const OUT_OF_REACH = 8;

export function weighModel(model: Model, formulas: readonly MarginFormula[], settings: WeighSettings = {}): Outcome {
  const starts = formulas.map((formula) => startOf(model, formula));
  try {
    return weighFrom(model, formulas, starts, settings);
  } catch (error) {
    // A formula may refuse what a far-off error makes of a value (a length below 0): it gives no number there.
    if (error instanceof InputError) return weighFrom(model, formulas.map(orNoNumber), starts, settings);
    throw error;
  }
}

function weighFrom(
  whole: Model,
  all: readonly MarginFormula[],
  wholeStarts: readonly number[],
  settings: WeighSettings,
): Outcome {
  const margin = Math.min(...wholeStarts);
  const { model, kept, settled, sides } = narrow(whole, all, wholeStarts);
  const formulas = kept.map((index) => all[index] as MarginFormula);
  const starts = kept.map((index) => wholeStarts[index] as number);
  const points = pointsOf(model);
  const trials = settled
    ? stepsOf(model, formulas, starts).map((steps) => ({ ...steps, far: new Float64Array(0) }))
    : trialsOf(model, formulas, starts, points);
  const effects = effectsOf(model, smallestTrial(trials), points);
  const common = { margin, effects, starts: wholeStarts, parts: [], sides };
  const straight = { ...common, u: effects.u, termParts: () => linearParts(effects.slopes), method: "linear" as const };
  if (settled && !effects.still) return { ...straight, probability: margin > 0 ? 1 : 0 };
  if (effects.still) {
    const nothing = ROUNDING * Math.max(...model.values.map(Math.abs), 0);
    return { ...common, u: 0, probability: margin >= -nothing ? 1 : 0, method: "exact", termParts: () => [] };
  }
  if (effects.plane && Math.abs(margin) > OUT_OF_REACH * effects.u)
    return { ...straight, probability: margin > 0 ? 1 : 0 };
  const area = effects.plane ? planeArea(effects.model.terms, effects.slopes, margin) : undefined;
  if (area !== undefined) return { ...straight, probability: area };

  const sampled = trials.map((trial, index): Sampled => {
    const plane = planeOf(trial);
    return {
      formula: formulas[index] as MarginFormula,
      start: trial.start,
      plane: inOrder(plane, effects.order),
      straight: isStraight(trial, plane, points),
    };
  });
  const { apart, ...found } = together(effects, sampled, settings);
  const parts: (SamplePart | undefined)[] = all.map(() => undefined);
  kept.forEach((index, part) => {
    parts[index] = apart[part];
  });
  return { ...common, ...found, parts };
}

type Found = Pick<Outcome, "u" | "probability" | "method" | "termParts"> & {
  /** Each margin's own figures, where there are some. */
  readonly apart: readonly SamplePart[];
};

/** Margins that no closed form of their smallest settles: by Boole's bounds, by ranges, or by drawing. */
function together(effects: Effects, margins: readonly Sampled[], { most, chanceOnly }: WeighSettings): Found {
  const { model } = effects;
  const closed = closedForm(model, margins);
  if (closed) {
    const { plane } = margins.reduce((least, one) => (one.start < least.start ? one : least));
    return { ...closed, u: uOf(plane), method: "linear", termParts: () => linearParts([...plane.slopes]) };
  }
  const straight = { u: effects.u, method: "sampled" as const, termParts: () => linearParts(effects.slopes) };
  const chance = chanceOnly ? chanceByRanges(model, margins, most) : undefined;
  if (chance !== undefined) return { ...straight, probability: chance, apart: [] };
  const { count, margins: drawn, probability, parts: apart } = sample(model, margins, { most, chanceOnly });
  if (effects.plane) return { ...straight, probability, apart };
  const u = spread(drawn, count);
  const termParts = once(() => sampledParts(model, drawn, count, u));
  return { u, probability, method: "sampled", termParts, apart };
}

/** The same plane with its terms in another order. */
function inOrder({ slopes }: Plane, order: readonly number[]): Plane {
  const ordered = Float64Array.from(order, (term) => slopes[term] as number);
  return { slopes: ordered, moving: Int32Array.from([...ordered.keys()].filter((term) => ordered[term] !== 0)) };
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

function summary({ margin, u, probability, method, effects, termParts }: Outcome) {
  return { margin, u, probability, method, shares: sharesOf(effects.model, termParts()) };
}

function orNoNumber(formula: MarginFormula): MarginFormula {
  return (row) => {
    try {
      return formula(row);
    } catch (error) {
      if (error instanceof InputError) return Number.NaN;
      throw error;
    }
  };
}

function startOf(model: Model, formula: MarginFormula): number {
  const start = formula(new Row(model));
  if (Number.isFinite(start)) return start;
  const values = model.names.map((name, index) => `${name} ${model.values[index]}`).join(", ");
  throw new InputError("margin", `the formula gives ${start} at ${values}`, "Check these values");
}

function spread(margins: Float64Array, count: number): number {
  const start = margins[0] ?? 0;
  let sum = 0;
  let squares = 0;
  for (let index = 0; index < count; index += 1) {
    const away = (margins[index] ?? 0) - start;
    sum += away;
    squares += away * away;
  }
  return Math.sqrt(Math.max(0, squares / count - (sum / count) ** 2));
}
