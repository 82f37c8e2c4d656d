/**
 * How sure is it that a margin holds?
 *
 * Model: no doubt at all: the margin's sign ("exact"). Margin on a plane over the doubt and errors that add up to a
 * normal one: P = Φ(margin / u) ("linear"; JCGM 100:2008, 5.1.2, published; JCGM 106:2012, 7.2, from memory). Anything
 * else: fixed draws ("sampled").
 * Left out: doubt about the doubts.
 */
import { InputError } from "../errors.ts";
import type { Quantity } from "../quantity/index.ts";
import { type Effects, effectsOf } from "./effects.ts";
import { narrow } from "./far.ts";
import { type Leaves, type Model, missingOf, modelOf, recordOf } from "./model.ts";
import { normalArea } from "./normal.ts";
import { type MarginFormula, type SamplePart, sample } from "./sampling.ts";
import { linearParts, sampledParts, sharesOf, type TermPart } from "./shares.ts";
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

/** What was found of a problem, for whoever asks of the same one again: a problem never changes. */
const outcomes = new WeakMap<Problem | JointProblem, Outcome>();

/** @param model of the problem's leaves */
export function outcomeOf(problem: Problem | JointProblem, model: Model): Outcome {
  const known = outcomes.get(problem);
  if (known) return known;
  const outcome = weighModel(model, formulasOf(problem));
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
  const formulas = formulasOf(problem);
  if (formulas.length === 0) throw new InputError("margins", "none given", "Name at least one margin");
  const outcome = outcomeOf(problem, model);
  const binding = outcome.starts.indexOf(Math.min(...outcome.starts));
  const parts: Record<string, Part> = {};
  names.forEach((name, index) => {
    const margin = outcome.starts[index] ?? 0;
    const formula = formulas[index];
    const drawn = outcome.parts[index];
    if (drawn) parts[name] = { margin, ...drawn };
    else if (formula) {
      const { u, probability } = summary(weighModel(model, [formula]));
      parts[name] = { margin, u, probability, binds: index === binding ? 1 : 0 };
    }
  });
  return { known: true, ...summary(outcome), binding: names[binding] ?? "", parts };
}

/** The same problem as one of a single margin, the smallest, where one is asked for; it keeps its parts. */
export function jointly(problem: JointProblem): Problem & JointProblem {
  return { ...problem, margin: smallestOf(Object.values(problem.margins)) };
}

/** The formulas of either kind of problem, in their order. */
export function formulasOf(problem: Problem | JointProblem): readonly MarginFormula[] {
  return "margins" in problem ? Object.values(problem.margins) : [problem.margin];
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
  readonly termParts: readonly TermPart[];
  /** Margins at the leaf values, in the order of the formulas. */
  readonly starts: readonly number[];
  /** Each formula's own figures where it was sampled. */
  readonly parts: readonly (SamplePart | undefined)[];
}

/** So many standard uncertainties off, a straight margin keeps its sign whatever shape its errors have. */
const OUT_OF_REACH = 8;

/** @param most largest number of draws, where fewer will do for the use */
export function weighModel(whole: Model, all: readonly MarginFormula[], most?: number): Outcome {
  const wholeStarts = all.map((formula) => startOf(whole, formula));
  const margin = Math.min(...wholeStarts);
  const { model, kept, settled } = narrow(whole, all, wholeStarts);
  const formulas = kept.map((index) => all[index] as MarginFormula);
  const starts = kept.map((index) => wholeStarts[index] as number);
  const joint = smallestOf(formulas);
  const effects = effectsOf(model, joint, Math.min(...starts));
  const common = { margin, effects, starts: wholeStarts };
  if (settled && !effects.still) {
    return {
      ...common,
      u: effects.u,
      termParts: linearParts(effects.slopes),
      probability: margin > 0 ? 1 : 0,
      method: "linear",
      parts: [],
    };
  }
  if (effects.still) {
    const nothing = ROUNDING * Math.max(...model.values.map(Math.abs), 0);
    return { ...common, u: 0, probability: margin >= -nothing ? 1 : 0, method: "exact", termParts: [], parts: [] };
  }
  const straight = { u: effects.u, termParts: linearParts(effects.slopes) };
  if (effects.plane && Math.abs(margin) > OUT_OF_REACH * effects.u) {
    return { ...common, ...straight, probability: margin > 0 ? 1 : 0, method: "linear", parts: [] };
  }
  if (effects.plane && effects.normal) {
    return { ...common, ...straight, probability: normalArea(margin / effects.u), method: "linear", parts: [] };
  }
  const { count, margins, probability, parts: drawn } = sample(effects.model, formulas, starts, most);
  const parts: (SamplePart | undefined)[] = all.map(() => undefined);
  kept.forEach((index, part) => {
    parts[index] = drawn[part];
  });
  const sampled = { ...common, probability, method: "sampled" as const, parts };
  if (effects.plane) return { ...sampled, ...straight };
  const u = spread(margins, count);
  return { ...sampled, u, termParts: sampledParts(effects.model, margins, count, u) };
}

function summary({ margin, u, probability, method, effects, termParts }: Outcome) {
  return { margin, u, probability, method, shares: sharesOf(effects.model, termParts) };
}

function startOf(model: Model, formula: MarginFormula): number {
  const start = formula(recordOf(model));
  if (Number.isFinite(start)) return start;
  const values = model.names.map((name, index) => `${name} ${model.values[index]}`).join(", ");
  throw new InputError("margin", `the formula gives ${start} at ${values}`, "Check these values");
}

/** The smallest of several margins, as one formula. */
export function smallestOf(formulas: readonly MarginFormula[]): MarginFormula {
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
