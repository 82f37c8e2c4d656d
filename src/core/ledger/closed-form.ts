/**
 * Several margins that must all hold, each on its plane: no formula has to be worked out draw by draw.
 *
 * Model: `closedForm` draws nothing. Together the margins hold no surer than the least sure of them, and no less sure
 * than if each failed alone (Boole's inequality); errors of other shapes than normal go no farther than normal ones do
 * (a uniform or triangular error is sub-Gaussian with its own variance), so that a margin m fails with at most
 * exp(-m²/2u²). Where all that leaves nothing to choose, it is the answer.
 * `chanceOnPlanes` is what sampling.ts comes to when every formula is its plane: formulas and stand-in never differ, and
 * the answer is the mean of the pivot's range over the draws of the other terms.
 * Sources: G. Boole; W. Hoeffding, "Probability inequalities for sums of bounded random variables", 1963 (from memory).
 */
import { addUpToNormal } from "./effects.ts";
import type { Model } from "./model.ts";
import { normalArea } from "./normal.ts";
import { pivotOf, uOf } from "./planes.ts";
import { drawsOf, MOST_DRAWS } from "./points.ts";
import { AREAS, enoughFor, FEWEST_DRAWS, type Sampled, type SamplePart } from "./sampling.ts";
import { errorOfBlocks, GRAIN } from "./tally.ts";

/** A probability is wanted no nearer than this. */
const NEAR_ENOUGH = 1e-4;

/** Undefined where the margins are not planes, or where what they share decides. */
export function closedForm(
  model: Model,
  margins: readonly Sampled[],
): { readonly probability: number; readonly apart: readonly SamplePart[] } | undefined {
  const least = Math.min(...margins.map(({ start }) => start));
  const binding = margins.findIndex(({ start }) => start === least);
  const apart: SamplePart[] = [];
  let failing = 0;
  for (const [index, margin] of margins.entries()) {
    const range = margin.straight ? rangeOf(model, margin) : undefined;
    if (!range) return undefined;
    const [low, high] = range;
    failing += 1 - low;
    apart.push({ u: uOf(margin.plane), probability: high, binds: index === binding ? 1 : 0 });
  }
  const most = Math.min(...apart.map(({ probability }) => probability));
  return most - Math.max(0, 1 - failing) <= NEAR_ENOUGH ? { probability: most, apart } : undefined;
}

/** Least and most probability of one margin; undefined where they lie too far apart to be of use. */
function rangeOf({ terms }: Model, { start, plane }: Sampled): readonly [number, number] | undefined {
  const u = uOf(plane);
  if (u === 0) return start >= 0 ? [1, 1] : [0, 0];
  if (addUpToNormal(terms, plane.slopes)) {
    const probability = normalArea(start / u);
    return [probability, probability];
  }
  const beyond = Math.exp(-((start / u) ** 2) / 2);
  if (beyond > NEAR_ENOUGH) return undefined;
  return start > 0 ? [1 - beyond, 1] : [0, beyond];
}

/** One end of the pivot's range: a straight line over the other terms. */
interface Limit {
  readonly start: number;
  readonly terms: readonly { readonly index: number; readonly slope: number }[];
}

/** @param margins all on their planes */
export function chanceOnPlanes(model: Model, margins: readonly Sampled[], most = MOST_DRAWS): number {
  const pivot = pivotOf(margins.map(({ plane }) => plane));
  const limits: Record<"lows" | "highs" | "always", Limit[]> = { lows: [], highs: [], always: [] };
  for (const { start, plane } of margins) {
    const slope = plane.slopes[pivot] as number;
    const others = [...plane.moving].filter((index) => index !== pivot);
    const by = slope === 0 ? 1 : -slope;
    const terms = others.map((index) => ({ index, slope: (plane.slopes[index] as number) / by }));
    limits[slope === 0 ? "always" : slope > 0 ? "lows" : "highs"].push({ start: start / by, terms });
  }
  const area = AREAS[model.terms[pivot]?.shape ?? "normal"];
  const sums = new Float64Array(most / GRAIN);
  let total = 0;
  let count = 0;
  for (let wanted = Math.min(FEWEST_DRAWS, most); ; wanted *= 2) {
    const columns = model.terms.map(({ shape }, term) => drawsOf(term, shape, wanted));
    for (; count < wanted; count += GRAIN) {
      const sum = areaOf(limits, columns, count, area);
      sums[count / GRAIN] = sum;
      total += sum;
    }
    const probability = total / count;
    if (wanted >= most || 2 * errorOfBlocks(sums, count) <= enoughFor(probability)) return probability;
  }
}

const line = new Float64Array(GRAIN);
const low = new Float64Array(GRAIN);
const high = new Float64Array(GRAIN);

/** Sum of the pivot's probabilities over one grain of draws. */
function areaOf(
  { lows, highs, always }: Readonly<Record<"lows" | "highs" | "always", readonly Limit[]>>,
  columns: readonly Float64Array[],
  from: number,
  area: (z: number) => number,
): number {
  low.fill(Number.NEGATIVE_INFINITY);
  high.fill(Number.POSITIVE_INFINITY);
  for (const limit of lows) {
    putLine(limit, columns, from);
    for (let index = 0; index < GRAIN; index += 1) low[index] = Math.max(low[index] as number, line[index] as number);
  }
  for (const limit of highs) {
    putLine(limit, columns, from);
    for (let index = 0; index < GRAIN; index += 1) high[index] = Math.min(high[index] as number, line[index] as number);
  }
  for (const limit of always) {
    putLine(limit, columns, from);
    for (let index = 0; index < GRAIN; index += 1)
      if (!((line[index] as number) >= 0)) low[index] = Number.POSITIVE_INFINITY;
  }
  let sum = 0;
  for (let index = 0; index < GRAIN; index += 1)
    sum += Math.max(0, area(high[index] as number) - area(low[index] as number));
  return sum;
}

function putLine({ start, terms }: Limit, columns: readonly Float64Array[], from: number): void {
  line.fill(start);
  for (const { index: term, slope } of terms) {
    const draws = columns[term] as Float64Array;
    for (let index = 0; index < GRAIN; index += 1)
      line[index] = (line[index] as number) + slope * (draws[from + index] as number);
  }
}
