/**
 * Where nothing is wanted but the probability that all margins hold, and every margin has one border along the pivot.
 *
 * Model: the pivot is the term that matters most. For every draw of the other terms each margin holds from its border
 * up, or from there down; P is the mean, over the draws, of the probability of the range left between the borders
 * (conditional expectation). A margin's border is that of its plane; of one that leaves its plane (planes.ts), one step
 * of Newton's from there, on the formula itself, or two where one is not enough.
 * What makes it fit to be believed is tried on the first 64 draws: the formula at the draw itself must say what the
 * border says, and one more step must move the border so little that P would not notice. Else there is no answer here,
 * and sampling.ts counts. Number of draws: as there, doubled until P stands still.
 * Sources: conditional expectation, A. B. Owen, "Monte Carlo theory, methods and examples", chapter 8 (from memory);
 * the test derived.
 */
import { type MarginFormula, Row } from "./formulas.ts";
import type { Model } from "./model.ts";
import { pivotOf } from "./planes.ts";
import { drawsOf, MOST_DRAWS } from "./points.ts";
import { AREAS, enoughFor, type Sampled } from "./sampling.ts";
import { errorOfBlocks, GRAIN } from "./tally.ts";

/** Fewer than where draws are counted: the mean of ranges is steadier than a count. */
const FEWEST_DRAWS = 512;
/** A border this many standard uncertainties off leaves 2 in a thousand million beyond it. */
const OUT_OF_REACH = 6;
/** How far along the pivot a formula is asked: within the reach of its shape. */
const FARTHEST_ASKED = { normal: 4, uniform: 1.7, triangular: 2.4 } as const;
/** How much P may owe to what a second step would still move. */
const UNNOTICED = 2e-4;

/** Undefined where a margin does not have one border that is found in a step. */
export function chanceByRanges(model: Model, margins: readonly Sampled[], most = MOST_DRAWS): number | undefined {
  const pivot = pivotOf(margins.map(({ plane }) => plane));
  const borders = margins.map((margin) => borderOf(margin, pivot));
  const curved = borders.filter((border) => border.curved);
  if (curved.some(({ slope }) => slope === 0)) return undefined;
  const shape = model.terms[pivot]?.shape ?? "normal";
  const leaves = leavesOf(model, pivot);
  const byPivot = leaves.filter((leaf) => leaf.byPivot !== 0);
  const work = { borders, curved, pivot, leaves, byPivot, row: new Row(model), shape };
  return (
    meanOf({ ...work, steps: 1 }, model, most) ??
    (curved.length > 0 ? meanOf({ ...work, steps: 2 }, model, most) : undefined)
  );
}

function meanOf(work: Work, model: Model, most: number): number | undefined {
  const sums = new Float64Array(most / GRAIN);
  let total = 0;
  let count = 0;
  for (let wanted = Math.min(FEWEST_DRAWS, most); ; wanted *= 2) {
    const columns = model.terms.map((term, index) => drawsOf(index, term.shape, wanted));
    for (; count < wanted; count += GRAIN) {
      const sum = areaOf(work, columns, count);
      if (sum === undefined) return undefined;
      sums[count / GRAIN] = sum;
      total += sum;
    }
    const probability = total / count;
    if (wanted >= most || 2 * errorOfBlocks(sums, count) <= enoughFor(probability)) return probability;
  }
}

/** A margin's border along the pivot, as a straight line over the other terms; with no slope, the margin itself. */
interface Border {
  readonly start: number;
  readonly terms: readonly { readonly index: number; readonly slope: number }[];
  /** Of the margin along the pivot. */
  readonly slope: number;
  /** The formula of a margin that leaves its plane. */
  readonly curved: MarginFormula | undefined;
  /** Where it lies, draw by draw. */
  readonly line: Float64Array;
}

function borderOf({ formula, start, plane, straight }: Sampled, pivot: number): Border {
  const slope = plane.slopes[pivot] as number;
  const by = slope === 0 ? 1 : -slope;
  const others = [...plane.moving].filter((index) => index !== pivot);
  const terms = others.map((index) => ({ index, slope: (plane.slopes[index] as number) / by }));
  return { start: start / by, terms, slope, curved: straight ? undefined : formula, line: new Float64Array(GRAIN) };
}

/** A leaf that carries doubt: what each term puts on it, the pivot's part by itself. */
interface DoubtfulLeaf {
  readonly leaf: number;
  readonly value: number;
  readonly loads: readonly { readonly index: number; readonly slope: number }[];
  readonly byPivot: number;
  /** Without the pivot's part, draw by draw. */
  readonly column: Float64Array;
}

function leavesOf({ terms, values }: Model, pivot: number): DoubtfulLeaf[] {
  const found = new Map<number, { loads: { index: number; slope: number }[]; byPivot: number }>();
  terms.forEach(({ loads }, index) => {
    for (const { leaf, u } of loads) {
      const one = found.get(leaf) ?? { loads: [], byPivot: 0 };
      if (index === pivot) one.byPivot += u;
      else one.loads.push({ index, slope: u });
      found.set(leaf, one);
    }
  });
  return [...found].map(([leaf, { loads, byPivot }]) => {
    return { leaf, value: values[leaf] as number, loads, byPivot, column: new Float64Array(GRAIN) };
  });
}

interface Work {
  readonly borders: readonly Border[];
  /** Those of margins that leave their planes. */
  readonly curved: readonly Border[];
  readonly pivot: number;
  readonly leaves: readonly DoubtfulLeaf[];
  /** Those that the pivot moves. */
  readonly byPivot: readonly DoubtfulLeaf[];
  readonly row: Row;
  /** Newton's, from a plane's border to the formula's. */
  readonly steps: 1 | 2;
  readonly shape: keyof typeof AREAS;
}

const low = new Float64Array(GRAIN);
const high = new Float64Array(GRAIN);

/** Sum of the pivot's probabilities over one grain of draws. */
function areaOf(work: Work, columns: readonly Float64Array[], from: number): number | undefined {
  for (const { line, start, terms } of work.borders) putLine(line, start, terms, columns, from);
  if (work.curved.length > 0) {
    for (const { column, value, loads } of work.leaves) putLine(column, value, loads, columns, from);
    const tried = from === 0 ? (columns[work.pivot] as Float64Array) : undefined;
    if (!putBorders(work, tried)) return undefined;
  }
  low.fill(Number.NEGATIVE_INFINITY);
  high.fill(Number.POSITIVE_INFINITY);
  for (const border of work.borders) cutOff(border);
  const area = AREAS[work.shape];
  let sum = 0;
  for (let index = 0; index < GRAIN; index += 1)
    sum += Math.max(0, area(high[index] as number) - area(low[index] as number));
  return sum;
}

/** Cuts the ranges off at a border. */
function cutOff({ slope, line }: Border): void {
  for (let index = 0; index < GRAIN; index += 1) {
    const at = line[index] as number;
    if (slope > 0) low[index] = Math.max(low[index] as number, at);
    else if (slope < 0) high[index] = Math.min(high[index] as number, at);
    else if (!(at >= 0)) low[index] = Number.POSITIVE_INFINITY;
  }
}

function putLine(
  to: Float64Array,
  start: number,
  terms: readonly { readonly index: number; readonly slope: number }[],
  columns: readonly Float64Array[],
  from: number,
): void {
  to.fill(start);
  for (const { index: term, slope } of terms) {
    const draws = columns[term] as Float64Array;
    for (let index = 0; index < GRAIN; index += 1)
      to[index] = (to[index] as number) + slope * (draws[from + index] as number);
  }
}

/**
 * Moves the planes' borders to the formulas' own.
 *
 * @param tried the pivot's draws, where the borders are to be tried on them
 * @returns false where a formula has no such border
 */
function putBorders(work: Work, tried: Float64Array | undefined): boolean {
  const { curved, leaves, row, steps } = work;
  let owed = 0;
  for (let index = 0; index < GRAIN; index += 1) {
    let filled = false;
    for (const border of curved) {
      const { line } = border;
      const planes = line[index] as number;
      const near = Math.abs(planes) <= OUT_OF_REACH;
      if (!near && !tried) continue;
      if (!filled) for (const { leaf, column } of leaves) row.set(leaf, column[index] as number);
      filled = true;
      let own = planes;
      for (let step = 0; near && step < steps; step += 1) own = stepFrom(own, border, work, index);
      if (Number.isNaN(own)) return false;
      line[index] = own;
      if (!tried) continue;
      const again = near ? stepFrom(own, border, work, index) : own;
      owed += Math.abs(again - own) * Math.exp((-own * own) / 2);
      const at = tried[index] as number;
      if (marginAt(at, border, work, index) >= 0 !== (border.slope > 0 ? at >= again : at <= again)) return false;
    }
  }
  return owed / GRAIN <= UNNOTICED * Math.sqrt(2 * Math.PI);
}

/** One step of Newton's toward where the formula comes to 0 along the pivot. */
function stepFrom(at: number, border: Border, work: Work, index: number): number {
  const farthest = FARTHEST_ASKED[work.shape];
  const asked = Math.max(-farthest, Math.min(farthest, at));
  return asked - marginAt(asked, border, work, index) / border.slope;
}

/** The formula with the pivot at a place of its own, all else as drawn. */
function marginAt(at: number, { curved }: Border, { byPivot, row }: Work, index: number): number {
  for (const { leaf, column, byPivot: by } of byPivot) row.set(leaf, (column[index] as number) + at * by);
  return (curved as MarginFormula)(row);
}
