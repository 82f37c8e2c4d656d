/**
 * Which reading to take next, and when to stop measuring.
 *
 * Decision. A permanent step may start when P >= goal. That is the same as saying that a step which goes is worth 1, a
 * step not taken 0, and a step that fails costs goal / (1 - goal): starting is worth (P - goal) / (1 - goal).
 * Reading. Seen from today its outcome is a normal number; for each outcome the probability P' afterwards follows. The
 * mean of P' is P, so a reading promises no better odds; it is worth taking because it may open a gate that is shut:
 * gain = mean of max(0, (P' - goal) / (1 - goal)) per minute of work, as a shut gate is worth 0. A reading that opens it in
 * less than 1 of 100 outcomes is not worth taking.
 * Stop. Decided already (P >= goal or P <= 1 - goal); or no single reading, and not all of them together, can open it.
 * Left out: costs other than minutes; readings chosen one after another according to what the earlier ones said.
 * Sources: H. Raiffa and R. Schlaifer, "Applied Statistical Decision Theory", 1961, for the expected value of sample
 * information (from memory); goal 0.95 as a decision rule: JCGM 106:2012, 8 (from memory).
 */
import type { NextReading } from "../verdict/index.ts";
import { formulasOf, type MarginFormula, Row, smallestOf } from "./formulas.ts";
import { type Model, missingOf, modelOf } from "./model.ts";
import { normalArea, normalPoint } from "./normal.ts";
import { drawsOf } from "./points.ts";
import { sharesOf } from "./shares.ts";
import { moved, type Sharpened, sharpen } from "./sharpen.ts";
import type { JointProblem, Problem, ReadingAdvice, ReadingOption, ReadingWorth } from "./types.ts";
import { type Outcome, outcomeOf, weighModel } from "./weigh.ts";
import { oddsInWords } from "./words.ts";

const GOAL = 0.95;
/** Outcomes of a reading: so far to either side, in standard deviations, and in how many steps. */
const FARTHEST = 2.6;
const STEPS_LINEAR = 80;
const STEPS_SAMPLED = 14;
/** Enough for an average over outcomes. */
const FEW = { most: 512, chanceOnly: true };
const OUTCOME_CLASSES = 200;
const OUTCOMES_TOGETHER = 32;
const SELDOM = 0.01;
/** Nearer to certainty than this is certain. */
const SURE = 1e-5;
const SHORTEST_MINUTES = 0.1;

interface Candidate {
  readonly option: ReadingOption;
  readonly leaf: number;
  readonly sharpened: Sharpened;
}

/**
 * The best reading in `settles` words, or why there is none; for one margin or for several that must all hold.
 *
 * Options whose leaf is missing, or which would not sharpen it, are passed over.
 *
 * @throws InputError as `weigh` does
 */
export function nextReading(
  problem: Problem | JointProblem,
  options: readonly ReadingOption[],
  { probability: goal }: { readonly probability: number } = { probability: GOAL },
): ReadingAdvice {
  if (missingOf(problem.leaves).length > 0) {
    return { reason: "A value is missing: measure that first.", worth: [] };
  }
  const model = modelOf(problem.leaves);
  const formulas = formulasOf(problem, model.names);
  const now = outcomeOf(problem, model);
  const decided = decidedAlready(now.probability, goal);
  if (decided) return { reason: decided, worth: [] };

  const candidates = options.flatMap((option): Candidate[] => {
    const leaf = model.names.indexOf(option.leaf);
    const sharpened = leaf < 0 ? undefined : sharpen(model, leaf, option.u);
    return sharpened ? [{ option, leaf, sharpened }] : [];
  });
  const weighed = candidates
    .map((candidate) => ({ candidate, worth: worthOf(formulas, now, candidate, goal) }))
    .sort(
      (a, b) => b.worth.gainPerMinute - a.worth.gainPerMinute || b.worth.probabilityAfter - a.worth.probabilityAfter,
    );
  const worth = weighed.map((one) => one.worth);
  const best = worth.find(({ flips, gain }) => gain > 0 && flips >= SELDOM);
  if (best) return { reading: readingOf(model, best, settlesAlone(now, best)), worth };

  const together = allTogether(formulas, model, now, candidates, goal);
  if (!together.opens) return { reason: whyNone(problem, together.outcome, goal), worth };
  const first = [...worth].sort((a, b) => progress(b, now) - progress(a, now))[0];
  if (!first) return { reason: whyNone(problem, together.outcome, goal), worth };
  return { reading: readingOf(model, first, settlesTogether(now, together.outcome)), worth };
}

function decidedAlready(probability: number, goal: number): string | undefined {
  if (probability >= goal) return `No more measuring needed: ${oddsInWords(probability)} that it goes.`;
  if (probability <= 1 - goal)
    return `No more measuring needed: ${oddsInWords(probability)} that it goes. Change the plan.`;
  return undefined;
}

/** What a probability is worth: starting if that pays, else 0. */
function worthOfStarting(probability: number, goal: number): number {
  return goal >= 1 ? 0 : Math.max(0, (probability - goal) / (1 - goal));
}

function worthOf(
  formulas: readonly MarginFormula[],
  now: Outcome,
  { option, sharpened }: Candidate,
  goal: number,
): ReadingWorth {
  const { model, moves } = sharpened;
  const after = weighModel(model, formulas, { chanceOnly: true });
  const smallest = smallestOf(formulas);
  const steps = now.method === "linear" ? STEPS_LINEAR : STEPS_SAMPLED;
  const curve = Array.from({ length: steps + 1 }, (_, step) => {
    const amount = FARTHEST * ((2 * step) / steps - 1);
    const there = moved(model, [{ moves, amount }]);
    if (now.method === "linear" && after.u > 0) return smallest(new Row(there)) / after.u;
    return pointOf(weighModel(there, formulas, FEW).probability);
  });
  let gain = 0;
  let flips = 0;
  for (let one = 0; one < OUTCOME_CLASSES; one += 1) {
    const probability = along(curve, normalPoint((one + 0.5) / OUTCOME_CLASSES));
    gain += worthOfStarting(probability, goal) / OUTCOME_CLASSES;
    if (probability >= goal) flips += 1 / OUTCOME_CLASSES;
  }
  const gainPerMinute = gain / Math.max(SHORTEST_MINUTES, option.minutes);
  return { option, probabilityAfter: after.probability, flips, gain, gainPerMinute };
}

/** Normal point of a probability, with an end put to certainty. */
function pointOf(probability: number): number {
  return normalPoint(Math.min(1 - SURE, Math.max(SURE, probability)));
}

/** The curve at `z`: straight between its steps on the scale of normal points, where such curves bend least. */
function along(curve: readonly number[], z: number): number {
  const place = Math.min(1, Math.max(0, (z / FARTHEST + 1) / 2)) * (curve.length - 1);
  const left = Math.min(curve.length - 2, Math.floor(place));
  const [a = 0, b = 0] = [curve[left], curve[left + 1]];
  return normalArea(a + (b - a) * (place - left));
}

/** All candidates read one after the other: does any of a few outcomes open the gate? */
function allTogether(
  formulas: readonly MarginFormula[],
  model: Model,
  now: Outcome,
  candidates: readonly Candidate[],
  goal: number,
): { readonly outcome: Outcome; readonly opens: boolean } {
  let last = model;
  const steps: (readonly number[])[] = [];
  for (const { leaf, option } of candidates) {
    const next = sharpen(last, leaf, option.u);
    if (!next) continue;
    last = next.model;
    steps.push(next.moves);
  }
  if (steps.length === 0) return { outcome: now, opens: false };
  const outcome = weighModel(last, formulas);
  let opens = outcome.probability >= goal;
  for (let draw = 0; steps.length > 1 && !opens && draw < OUTCOMES_TOGETHER; draw += 1) {
    const by = steps.map((moves, dimension) => ({
      moves,
      amount: drawsOf(dimension, "normal", OUTCOMES_TOGETHER)[draw] ?? 0,
    }));
    opens = weighModel(moved(last, by), formulas, FEW).probability >= goal;
  }
  return { outcome, opens };
}

function progress({ probabilityAfter, option }: ReadingWorth, now: Outcome): number {
  return (probabilityAfter - now.probability) / Math.max(SHORTEST_MINUTES, option.minutes);
}

function readingOf(model: Model, worth: ReadingWorth, settles: string): NextReading {
  const { leaf, what, tool, how, minutes } = worth.option;
  const path = model.leaves[model.names.indexOf(leaf)]?.path ?? leaf;
  return { path, what, tool, how, minutes, probabilityAfter: worth.probabilityAfter, settles };
}

function settlesAlone(now: Outcome, { probabilityAfter, flips }: ReadingWorth): string {
  const agrees = `If the reading agrees with the present value: ${oddsInWords(probabilityAfter)}.`;
  return `Now ${oddsInWords(now.probability)} that it goes. ${agrees} Chance that this reading opens the gate: ${oddsInWords(flips)}.`;
}

function settlesTogether(now: Outcome, all: Outcome): string {
  const agree = `with all the readings listed, if they agree with the present values, ${oddsInWords(all.probability)}`;
  return `Now ${oddsInWords(now.probability)} that it goes. This reading alone does not open the gate; ${agree}.`;
}

function whyNone(problem: Problem | JointProblem, sharpest: Outcome, goal: number): string {
  if (sharpest.probability <= 1 - goal) return "More measuring will only confirm that it does not go.";
  const names = problem.execution ?? [];
  const paths = new Set(names.map((name) => problem.leaves[name]?.path));
  const shares = sharesOf(sharpest.effects.model, sharpest.termParts());
  const execution = shares.filter(({ path }) => paths.has(path)).reduce((sum, { share }) => sum + share, 0);
  const rest = execution >= 0.5 ? "how you drill" : (shares[0]?.what ?? "not doubt, but the margin itself");
  return `More measuring will not settle this: the rest is ${rest}.`;
}
