/**
 * Sampling: how often does the smallest of some margins stay at or above 0?
 *
 * Model: the fixed draws of points.ts, mapped through each term's shape, pushed through the plain formulas. Beside
 * them runs a stand-in (control variate): for every draw of the other terms, one term, the pivot, has a range in which
 * all margins hold, whose probability is a closed form, so that how often the stand-in holds is known much better than by
 * counting. What is counted is only how formulas and stand-in differ, P = p - β (q - Q): p and q the counted shares of
 * formulas and stand-in, Q the stand-in's better known one, β by regression.
 * Where the range ends: on the formula's plane, the straight line from differences; for a formula that leaves its plane
 * (planes.ts), one step of Newton's from there, with the other terms as drawn. The pivot's own draw has no part in it,
 * or Q would not be the mean of q. A formula that leaves its plane nowhere is not worked out draw by draw.
 * Number of draws: doubled until P stands still. The draws fall into 8 consecutive blocks, each an even point set of its
 * own; twice the standard error of the block means must come down to 0.25 %. That error is on the safe side, as the blocks
 * fill each other's gaps. A rare outcome must have been met 20 times, or not once in 4096 draws, unless all formulas are
 * their planes, or formulas and stand-in differ so seldom that counting their differences is sure to 0.25 % by itself, or
 * not once in 4096 draws.
 * Left out: turning the draws toward the steepest direction: tried, see docs/spec/ledger.md.
 * Sources: JCGM 101:2008, 7.9 for growing the number of draws until results are stable (from memory);
 * control variates, conditional expectation and block errors of evenly spread draws: A. B. Owen, "Monte Carlo theory,
 * methods and examples", chapters 8 and 17 (from memory).
 */
import { type MarginFormula, Row } from "./formulas.ts";
import type { Model } from "./model.ts";
import { quickNormalArea, triangularArea, uniformArea } from "./normal.ts";
import { type Plane, pivotOf } from "./planes.ts";
import { drawsOf, MOST_DRAWS } from "./points.ts";
import { Tally } from "./tally.ts";

const FEWEST_DRAWS = 1024;
const ENOUGH = 0.0025;
/** Nearer to 0 or 1 than this, a third decimal is shown. */
const NEARLY = 0.01;
const ENOUGH_NEARLY = 0.0002;
const AS_GOOD_AS_SURE = 0.0005;
const FEWEST_ODD = 20;
/** No odd draw in so many: less than 1 in 1000 (19 in 20 sure of it, by the rule of three). */
const DRAWS_WITHOUT_ODD = 4096;
export const AREAS = { normal: quickNormalArea, uniform: uniformArea, triangular: triangularArea } as const;

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

/** One margin to be sampled. */
export interface Sampled {
  readonly formula: MarginFormula;
  /** The margin at the leaf values. */
  readonly start: number;
  readonly plane: Plane;
  /** The formula is its plane. */
  readonly straight: boolean;
}

/**
 * @param model terms in order of importance: the first get the evenest draws
 * @param chanceOnly without the margins' own figures: `parts` is empty
 */
export function sample(
  model: Model,
  all: readonly Sampled[],
  {
    most = MOST_DRAWS,
    chanceOnly = false,
  }: { readonly most?: number | undefined; readonly chanceOnly?: boolean | undefined } = {},
): Sample {
  const planes = all.map(({ plane }) => plane);
  const straight = all.map((one) => one.straight);
  const run: Run = {
    model,
    formulas: all.map(({ formula }) => formula),
    starts: all.map(({ start }) => start),
    planes,
    straight,
    pivot: pivotOf(planes),
    margins: new Float64Array(0),
    whole: new Tally(most),
    parts: !chanceOnly && all.length > 1 ? all.map(() => new Tally(most)) : [],
  };
  const { whole } = run;
  for (let wanted = Math.min(FEWEST_DRAWS, most); ; wanted *= 2) {
    run.margins = grown(run.margins, wanted);
    draw(run, whole.count, wanted);
    if (wanted >= most || stands(whole, !straight.includes(false))) break;
  }
  const { count } = whole;
  const probability = whole.probability();
  if (chanceOnly) return { count, margins: run.margins, probability, parts: [] };
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

function grown(values: Float64Array, length: number): Float64Array {
  const longer = new Float64Array(length);
  longer.set(values);
  return longer;
}

function stands(whole: Tally, closed: boolean): boolean {
  const odd = Math.min(whole.goes, whole.count - whole.goes);
  const probability = whole.probability();
  const enough = enoughFor(probability);
  // Where nothing is shown between "over 0.999" and certain, and no draw went the other way or differed from its plane,
  // the closed form stands alone; where formula and stand-in differ seldom it still carries the answer.
  const alone = odd === 0 && whole.differs === 0 && Math.min(probability, 1 - probability) < AS_GOOD_AS_SURE;
  const never = whole.differs === 0 && whole.count >= DRAWS_WITHOUT_ODD;
  const plain = closed || alone || never || (2 * Math.sqrt(whole.differs + 1)) / whole.count <= enough;
  if (odd === 0 && !plain) return whole.count >= DRAWS_WITHOUT_ODD;
  return (plain || odd >= FEWEST_ODD) && whole.error() * 2 <= enough;
}

/** How small twice the standard error must become. */
export function enoughFor(probability: number): number {
  return Math.min(probability, 1 - probability) < NEARLY ? ENOUGH_NEARLY : ENOUGH;
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
 * The hot loops, block by block: numbers in typed arrays, one row of values for all draws, nothing made inside.
 * Planes and counts stay apart from the formulas, which differ from problem to problem, so that they are compiled once.
 * Every index is below the length of its array, hence the casts.
 */
function draw(run: Run, from: number, to: number): void {
  const columns = run.model.terms.map((term, dimension) => drawsOf(dimension, term.shape, to));
  const moved = run.straight.includes(false) ? movedLeaves(run.model, run.pivot) : undefined;
  const row = new Row(run.model);
  for (let start = from; start < to; start += BLOCK) {
    scratchUsed = 0;
    const block: Block = { columns, from: start, size: Math.min(BLOCK, to - start) };
    const parts = run.formulas.map((_, part) => onPlane(run, block, part));
    if (moved) workOut(run, block, parts, moved, row);
    count(run, block, parts);
  }
}

/** Room for the figures of one block, used again for the next: making it anew cost a tenth of all. */
const scratch: Float64Array[] = [];
let scratchUsed = 0;

/** A stretch of scratch, good until the next block. */
function stretch(size: number): Float64Array {
  scratch[scratchUsed] ??= new Float64Array(BLOCK);
  const whole = scratch[scratchUsed] as Float64Array;
  scratchUsed += 1;
  return size === BLOCK ? whole : whole.subarray(0, size);
}

interface Block {
  readonly columns: readonly Float64Array[];
  readonly from: number;
  readonly size: number;
}

/** One formula's figures in a block, draw by draw. */
interface PartDraws {
  readonly margins: Float64Array;
  /** Where along the pivot its margin is 0: with a slope of 0 or more it holds from there up, else from there down. */
  readonly limits: Float64Array;
}

function onPlane({ starts, planes, pivot }: Run, { columns, from, size }: Block, part: number): PartDraws {
  const { slopes, moving } = planes[part] as Plane;
  const margins = stretch(size).fill(starts[part] as number);
  for (const term of moving) addScaled(margins, columns[term] as Float64Array, from, slopes[term] as number);
  const limits = stretch(size);
  const slope = slopes[pivot] ?? 0;
  const pivots = columns[pivot] as Float64Array;
  for (let index = 0; index < size; index += 1) {
    const at = pivots[from + index] as number;
    limits[index] = crossing(0, (margins[index] as number) - slope * at, slope);
  }
  return { margins, limits };
}

/** Where a straight line of this slope, with this margin at `at`, comes to 0; no number does not hold anywhere. */
function crossing(at: number, margin: number, slope: number): number {
  if (Number.isNaN(margin)) return slope >= 0 ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
  if (slope === 0) return margin >= 0 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  return at - margin / slope;
}

/** No farther out does a formula have to be tried along the pivot; it lies within every shape's reach. */
const FARTHEST_TRIED = 1.7;
/** A plane whose end lies so far out holds everywhere or nowhere, and so does its formula, or the count will tell. */
const OUT_OF_REACH = 8;

/** Puts the formula's own margins and limits in the place of its plane's where it leaves the plane. */
function workOut(
  { formulas, straight, planes, pivot }: Run,
  { columns, from, size }: Block,
  parts: readonly PartDraws[],
  { leaves, values, first, term, u, pivotU }: Moved,
  row: Row,
): void {
  const columnsOf = leaves.map((_, leaf) => {
    const column = stretch(size).fill(values[leaf] as number);
    for (let load = first[leaf] as number; load < (first[leaf + 1] as number); load += 1)
      addScaled(column, columns[term[load] as number] as Float64Array, from, u[load] as number);
    return column;
  });
  const byPivot = [...leaves.keys()].filter((leaf) => pivotU[leaf] !== 0);
  const pivots = columns[pivot] as Float64Array;
  for (let index = 0; index < size; index += 1) {
    for (let leaf = 0; leaf < leaves.length; leaf += 1)
      row.set(leaves[leaf] as number, (columnsOf[leaf] as Float64Array)[index] as number);
    for (let part = 0; part < formulas.length; part += 1) {
      if (!straight[part]) (parts[part] as PartDraws).margins[index] = (formulas[part] as MarginFormula)(row);
    }
    for (let part = 0; part < formulas.length; part += 1) {
      if (straight[part]) continue;
      const { limits } = parts[part] as PartDraws;
      if (Math.abs(limits[index] as number) > OUT_OF_REACH) continue;
      const tried = Math.max(-FARTHEST_TRIED, Math.min(FARTHEST_TRIED, limits[index] as number));
      const by = tried - (pivots[from + index] as number);
      for (const leaf of byPivot)
        row.set(
          leaves[leaf] as number,
          ((columnsOf[leaf] as Float64Array)[index] as number) + by * (pivotU[leaf] as number),
        );
      limits[index] = crossing(tried, (formulas[part] as MarginFormula)(row), planes[part]?.slopes[pivot] ?? 0);
    }
  }
}

function addScaled(sums: Float64Array, column: Float64Array, from: number, scale: number): void {
  for (let index = 0; index < sums.length; index += 1)
    sums[index] = (sums[index] as number) + scale * (column[from + index] as number);
}

/** What is known of a block's draws once every part has been counted. */
interface Together {
  readonly smallest: Float64Array;
  /** Index of the part. */
  readonly binding: Float64Array;
  /** Range of the pivot in which every part holds. */
  readonly low: Float64Array;
  readonly high: Float64Array;
}

function count(
  { model, starts, planes, pivot, margins, whole, parts }: Run,
  block: Block,
  drawn: readonly PartDraws[],
) {
  const { columns, from, size } = block;
  const areaOf = AREAS[model.terms[pivot]?.shape ?? "normal"];
  const together: Together = {
    smallest: stretch(size).fill(Number.POSITIVE_INFINITY),
    binding: stretch(size).fill(0),
    low: stretch(size).fill(Number.NEGATIVE_INFINITY),
    high: stretch(size).fill(Number.POSITIVE_INFINITY),
  };
  const pivots = (columns[pivot] as Float64Array).subarray(from, from + size);
  drawn.forEach((one, part) => {
    const plane = { part, start: starts[part] as number, slope: planes[part]?.slopes[pivot] ?? 0 };
    countPart({ ...one, ...plane }, together, pivots, areaOf, parts[part]);
  });
  const { smallest, binding, low, high } = together;
  margins.set(smallest, from);
  for (let index = 0; index < size; index += 1) {
    const least = parts[binding[index] as number];
    if (least) least.binds += 1;
    const [lowest, highest, at] = [low[index] as number, high[index] as number, pivots[index] as number];
    const area = Math.max(0, areaOf(highest) - areaOf(lowest));
    whole.add(smallest[index] as number, starts[0] as number, at >= lowest && at <= highest, area);
  }
}

interface CountedPart extends PartDraws {
  readonly part: number;
  readonly start: number;
  /** Of the plane along the pivot. */
  readonly slope: number;
}

function countPart(
  { part, start, slope, margins, limits }: CountedPart,
  { smallest, binding, low, high }: Together,
  pivots: Float64Array,
  areaOf: (z: number) => number,
  tally: Tally | undefined,
): void {
  for (let index = 0; index < margins.length; index += 1) {
    const limit = limits[index] as number;
    const at = pivots[index] as number;
    if (slope >= 0) low[index] = Math.max(low[index] as number, limit);
    else high[index] = Math.min(high[index] as number, limit);
    const raw = margins[index] as number;
    // A margin that is no number (a root of less than nothing, far out) counts as one that does not go.
    const margin = Number.isFinite(raw) ? raw : -Math.abs(start) - Number.MIN_VALUE;
    if (tally) {
      if (slope >= 0) tally.add(margin, start, at >= limit, 1 - areaOf(limit));
      else tally.add(margin, start, at <= limit, areaOf(limit));
    }
    if (margin < (smallest[index] as number)) {
      smallest[index] = margin;
      binding[index] = part;
    }
  }
}

interface Moved {
  /** Where each stands in the row. */
  readonly leaves: readonly number[];
  readonly values: Float64Array;
  /** Where each leaf's loads begin; one more at the end. */
  readonly first: Int32Array;
  readonly term: Int32Array;
  readonly u: Float64Array;
  /** What the pivot puts on each leaf. */
  readonly pivotU: Float64Array;
}

/** The leaves that carry doubt, with their loads laid out one after another. */
function movedLeaves(model: Model, pivot: number): Moved {
  const leaves: number[] = [];
  const values: number[] = [];
  const first = [0];
  const term: number[] = [];
  const u: number[] = [];
  const pivotU: number[] = [];
  model.names.forEach((_, leaf) => {
    const before = term.length;
    model.terms.forEach((one, index) => {
      const load = one.loads.find((candidate) => candidate.leaf === leaf);
      if (!load) return;
      term.push(index);
      u.push(load.u);
    });
    if (term.length === before) return;
    leaves.push(leaf);
    values.push(model.values[leaf] ?? 0);
    first.push(term.length);
    pivotU.push(model.terms[pivot]?.loads.find((load) => load.leaf === leaf)?.u ?? 0);
  });
  return {
    leaves,
    values: Float64Array.from(values),
    first: Int32Array.from(first),
    term: Int32Array.from(term),
    u: Float64Array.from(u),
    pivotU: Float64Array.from(pivotU),
  };
}
