/**
 * Sampling: how often does the smallest of some margins stay at or above 0?
 *
 * Model: the fixed draws of points.ts, mapped through each term's shape, pushed through the plain formulas. Beside every
 * formula runs its plane, the straight-line stand-in from differences (control variate): how often the planes hold is
 * known much better than by counting, since for every draw of the other terms one term, the pivot, has a whole range in which
 * they hold, whose probability is a closed form. What is counted is only how formulas and planes differ,
 * P = p - β (q - Q): p and q the counted shares of formulas and planes, Q the planes' better known one, β by regression.
 * A formula that leaves its plane nowhere (planes.ts) is not worked out draw by draw: its plane is the formula.
 * Number of draws: doubled until P stands still. The draws fall into 8 consecutive blocks, each an even point set of its
 * own; twice the standard error of the block means must come down to 0.25 %. That error is on the safe side, as the blocks
 * fill each other's gaps. A rare outcome must have been met 20 times, or not once in 4096 draws, unless formulas and
 * planes differ so seldom that counting their differences is sure to 0.25 % by itself.
 * Left out: turning the draws toward the steepest direction: tried, see docs/spec/ledger.md.
 * Sources: JCGM 101:2008, 7.9 for growing the number of draws until results are stable (from memory);
 * control variates, conditional expectation and block errors of evenly spread draws: A. B. Owen, "Monte Carlo theory,
 * methods and examples", chapters 8 and 17 (from memory).
 */
import { type Model, recordOf } from "./model.ts";
import { quickNormalArea, triangularArea, uniformArea } from "./normal.ts";
import { isStraight, type Plane, planeOf } from "./planes.ts";
import { drawsOf, MOST_DRAWS } from "./points.ts";
import { Tally } from "./tally.ts";
import type { Numbers } from "./types.ts";

export type MarginFormula = (x: Numbers) => number;

const FEWEST_DRAWS = 1024;
const ENOUGH = 0.0025;
/** Nearer to 0 or 1 than this, a third decimal is shown. */
const NEARLY = 0.01;
const ENOUGH_NEARLY = 0.0002;
const AS_GOOD_AS_SURE = 0.0005;
const FEWEST_ODD = 20;
/** No odd draw in so many: less than 1 in 1000 (19 in 20 sure of it, by the rule of three). */
const DRAWS_WITHOUT_ODD = 4096;
const AREAS = { normal: quickNormalArea, uniform: uniformArea, triangular: triangularArea } as const;

export interface Sample {
  readonly count: number;
  /** Smallest margin of each draw, the first `count` of them filled. */
  readonly margins: Float64Array;
  readonly probability: number;
  readonly parts: readonly SamplePart[];
}

export interface SamplePart {
  readonly u: number;
  readonly probability: number;
  readonly binds: number;
}

/**
 * @param model terms in order of importance: the first get the evenest draws
 * @param starts margins at the leaf values, one a formula
 */
export function sample(
  model: Model,
  formulas: readonly MarginFormula[],
  starts: readonly number[],
  most = MOST_DRAWS,
): Sample {
  const planes = formulas.map((formula, part) => planeOf(model, formula, starts[part] ?? 0));
  // For a few draws it would cost more to find out than it saves.
  const straight = planes.map(
    (plane, part) =>
      most >= FEWEST_DRAWS && isStraight(model, formulas[part] as MarginFormula, starts[part] ?? 0, plane),
  );
  const run: Run = {
    model,
    formulas,
    starts,
    planes,
    straight,
    pivot: pivotOf(planes),
    margins: new Float64Array(0),
    whole: new Tally(most),
    parts: formulas.length > 1 ? formulas.map(() => new Tally(most)) : [],
  };
  const { whole } = run;
  for (let wanted = Math.min(FEWEST_DRAWS, most); ; wanted *= 2) {
    run.margins = grown(run.margins, wanted);
    draw(run, whole.count, wanted);
    if (wanted >= most || stands(whole)) break;
  }
  const { count } = whole;
  const probability = whole.probability();
  if (run.parts.length === 0) {
    return { count, margins: run.margins, probability, parts: [{ u: whole.spread(), probability, binds: 1 }] };
  }
  const parts = run.parts.map((tally) => ({
    u: tally.spread(),
    // All together cannot be surer than one of them; counted apart they may seem so by a hair.
    probability: Math.max(probability, tally.probability()),
    binds: tally.binds / count,
  }));
  return { count, margins: run.margins, probability, parts };
}

/** The term with the largest part in the planes' variances: its range smooths most. */
function pivotOf(planes: readonly Plane[]): number {
  const parts = new Float64Array(planes[0]?.slopes.length ?? 0);
  for (const { slopes } of planes) {
    const total = slopes.reduce((sum, slope) => sum + slope * slope, 0);
    if (total > 0)
      for (let term = 0; term < parts.length; term += 1)
        parts[term] = (parts[term] ?? 0) + (slopes[term] ?? 0) ** 2 / total;
  }
  return Math.max(0, parts.indexOf(Math.max(...parts)));
}

function grown(values: Float64Array, length: number): Float64Array {
  const longer = new Float64Array(length);
  longer.set(values);
  return longer;
}

function stands(whole: Tally): boolean {
  const odd = Math.min(whole.goes, whole.count - whole.goes);
  const probability = whole.probability();
  const enough = Math.min(probability, 1 - probability) < NEARLY ? ENOUGH_NEARLY : ENOUGH;
  // Where nothing is shown between "over 0.999" and certain, and no draw went the other way or differed from its plane,
  // the closed form stands alone; where formula and plane differ seldom it still carries the answer.
  const alone = odd === 0 && whole.differs === 0 && Math.min(probability, 1 - probability) < AS_GOOD_AS_SURE;
  const plain = alone || (2 * Math.sqrt(whole.differs + 1)) / whole.count <= enough;
  if (odd === 0 && !plain) return whole.count >= DRAWS_WITHOUT_ODD;
  return (plain || odd >= FEWEST_ODD) && whole.error() * 2 <= enough;
}

interface Run {
  readonly model: Model;
  readonly formulas: readonly MarginFormula[];
  readonly starts: readonly number[];
  readonly planes: readonly Plane[];
  /** Formulas that are their planes. */
  readonly straight: readonly boolean[];
  readonly pivot: number;
  margins: Float64Array;
  readonly whole: Tally;
  readonly parts: readonly Tally[];
}

/** Draws worked out together. */
const BLOCK = 1024;

/**
 * The hot loops, block by block: numbers in typed arrays, one record for all draws, nothing made inside. Planes and
 * counts never touch the record, whose shape differs from problem to problem, so that they are compiled once for all.
 * Every index is below the length of its array, hence the casts.
 */
function draw(run: Run, from: number, to: number): void {
  const columns = run.model.terms.map((term, dimension) => drawsOf(dimension, term.shape, to));
  const moved = run.straight.includes(false) ? movedLeaves(run.model) : undefined;
  const x = recordOf(run.model);
  for (let start = from; start < to; start += BLOCK) {
    const block: Block = { columns, from: start, size: Math.min(BLOCK, to - start) };
    const worked = moved ? workOut(run, block, moved, x) : [];
    count(run, block, worked);
  }
}

interface Block {
  readonly columns: readonly Float64Array[];
  readonly from: number;
  readonly size: number;
}

/** Margins of the formulas that are not their planes; nothing for the others. */
function workOut(
  { formulas, straight }: Run,
  { columns, from, size }: Block,
  { names, values, first, term, u }: Moved,
  x: Record<string, number>,
): (Float64Array | undefined)[] {
  const leaves = names.map((_, leaf) => {
    const column = new Float64Array(size).fill(values[leaf] as number);
    for (let load = first[leaf] as number; load < (first[leaf + 1] as number); load += 1)
      addScaled(column, columns[term[load] as number] as Float64Array, from, u[load] as number);
    return column;
  });
  const out = formulas.map((_, part) => (straight[part] ? undefined : new Float64Array(size)));
  for (let index = 0; index < size; index += 1) {
    for (let leaf = 0; leaf < names.length; leaf += 1)
      x[names[leaf] as string] = (leaves[leaf] as Float64Array)[index] as number;
    for (let part = 0; part < formulas.length; part += 1) {
      const margins = out[part];
      if (margins) margins[index] = (formulas[part] as MarginFormula)(x);
    }
  }
  return out;
}

function addScaled(sums: Float64Array, column: Float64Array, from: number, scale: number): void {
  for (let index = 0; index < sums.length; index += 1)
    sums[index] = (sums[index] as number) + scale * (column[from + index] as number);
}

/** What is known of a block's draws once every part has been counted. */
interface Together {
  readonly smallest: Float64Array;
  readonly binding: Int32Array;
  /** 1 while every plane holds. */
  readonly hold: Uint8Array;
  /** Range of the pivot in which every plane holds. */
  readonly low: Float64Array;
  readonly high: Float64Array;
}

function count(run: Run, block: Block, worked: readonly (Float64Array | undefined)[]): void {
  const { model, formulas, starts, planes, pivot, margins, whole, parts } = run;
  const { columns, from, size } = block;
  const areaOf = AREAS[model.terms[pivot]?.shape ?? "normal"];
  const together: Together = {
    smallest: new Float64Array(size).fill(Number.POSITIVE_INFINITY),
    binding: new Int32Array(size),
    hold: new Uint8Array(size).fill(1),
    low: new Float64Array(size).fill(Number.NEGATIVE_INFINITY),
    high: new Float64Array(size).fill(Number.POSITIVE_INFINITY),
  };
  const pivots = columns[pivot] as Float64Array;
  for (let part = 0; part < formulas.length; part += 1) {
    const { slopes, moving } = planes[part] as Plane;
    const sums = new Float64Array(size).fill(starts[part] as number);
    for (const term of moving) addScaled(sums, columns[term] as Float64Array, from, slopes[term] as number);
    const one = { part, start: starts[part] as number, slope: slopes[pivot] ?? 0, sums, worked: worked[part] ?? sums };
    countPart(one, together, pivots, from, areaOf, parts[part]);
  }
  const { smallest, binding, hold, low, high } = together;
  margins.set(smallest, from);
  for (let index = 0; index < size; index += 1) {
    const least = parts[binding[index] as number];
    if (least) least.binds += 1;
    const area = Math.max(0, areaOf(high[index] as number) - areaOf(low[index] as number));
    whole.add(smallest[index] as number, starts[0] as number, hold[index] === 1, area);
  }
}

interface PartDraws {
  readonly part: number;
  readonly start: number;
  /** Of the plane along the pivot. */
  readonly slope: number;
  readonly sums: Float64Array;
  readonly worked: Float64Array;
}

function countPart(
  { part, start, slope, sums, worked }: PartDraws,
  { smallest, binding, hold, low, high }: Together,
  pivots: Float64Array,
  from: number,
  areaOf: (z: number) => number,
  tally: Tally | undefined,
): void {
  for (let index = 0; index < sums.length; index += 1) {
    const sum = sums[index] as number;
    const plane = sum >= 0;
    if (!plane) hold[index] = 0;
    const rest = sum - slope * (pivots[from + index] as number);
    // The range of the pivot in which this plane holds.
    const limit = slope === 0 ? (rest >= 0 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY) : -rest / slope;
    if (slope >= 0) low[index] = Math.max(low[index] as number, limit);
    else high[index] = Math.min(high[index] as number, limit);
    const raw = worked[index] as number;
    // A margin that is no number (a root of less than nothing, far out) counts as one that does not go.
    const margin = Number.isFinite(raw) ? raw : -Math.abs(start) - Number.MIN_VALUE;
    if (tally) tally.add(margin, start, plane, slope >= 0 ? 1 - areaOf(limit) : areaOf(limit));
    if (margin < (smallest[index] as number)) {
      smallest[index] = margin;
      binding[index] = part;
    }
  }
}

interface Moved {
  readonly names: readonly string[];
  readonly values: Float64Array;
  /** Where each leaf's loads begin; one more at the end. */
  readonly first: Int32Array;
  readonly term: Int32Array;
  readonly u: Float64Array;
}

/** The leaves that carry doubt, with their loads laid out one after another. */
function movedLeaves(model: Model): Moved {
  const names: string[] = [];
  const values: number[] = [];
  const first = [0];
  const term: number[] = [];
  const u: number[] = [];
  model.names.forEach((name, leaf) => {
    const before = term.length;
    model.terms.forEach((one, index) => {
      const load = one.loads.find((candidate) => candidate.leaf === leaf);
      if (!load) return;
      term.push(index);
      u.push(load.u);
    });
    if (term.length === before) return;
    names.push(name);
    values.push(model.values[leaf] ?? 0);
    first.push(term.length);
  });
  return {
    names,
    values: Float64Array.from(values),
    first: Int32Array.from(first),
    term: Int32Array.from(term),
    u: Float64Array.from(u),
  };
}
