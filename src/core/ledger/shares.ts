/**
 * Whose doubt it is.
 *
 * Model. Linear: (slope)² of each term over their sum. Sampled: the part of the variance that goes with one term alone,
 * Var(E[w | term]) (first-order index), over 16 classes of equal size of that term's draws, w being the margin cut off
 * one standard uncertainty above and below 0. Cut off, because how far a draw stands from the limit does not matter; not
 * cut down to go or no-go, which leaves nothing to see where nearly all draws go. A term that hurts in both directions
 * is seen, where a straight regression sees nothing. What only several terms together do is left out, and the rest made
 * to add up to 1. Compared with three other guides in docs/spec/ledger.md.
 * A term on one leaf counts for that leaf; a term on several leaves stands alone under its own name.
 * Sources: JCGM 100:2008, 5.1.3 and H.1.7 for budgets of variance; A. Saltelli and others, "Global Sensitivity Analysis:
 * The Primer", 2008, for first-order indices (from memory).
 */
import type { Share } from "../verdict/index.ts";
import type { ErrorTerm, Model } from "./model.ts";
import { drawsOf } from "./points.ts";

const CLASSES = 16;
/** Enough for shares of a per cent. */
const MOST_FOR_SHARES = 4096;

export interface TermPart {
  /** Part of the variance, any scale. */
  readonly part: number;
  /** Change of the margin when the term is off by one standard uncertainty. */
  readonly slope: number;
}

export function linearParts(slopes: readonly number[]): TermPart[] {
  return slopes.map((slope) => ({ part: slope * slope, slope }));
}

/**
 * @param margins of the draws, in their order, `count` of them filled
 * @param u their standard deviation
 */
export function sampledParts(model: Model, margins: Float64Array, count: number, u: number): TermPart[] {
  const used = Math.min(count, MOST_FOR_SHARES);
  const whole = centred(margins.subarray(0, used));
  const cut = centred(margins.subarray(0, used).map((margin) => Math.max(-u, Math.min(u, margin))));
  const guide = cut.variance > 0 ? cut : whole;
  const parts = model.terms.map((term, dimension) => ({
    part: betweenClasses(guide, drawsOf(dimension, "area", used)),
    slope: meanProduct(whole.away, drawsOf(dimension, term.shape, used)),
  }));
  // Nothing that one term does alone: they matter together or not at all, so they share alike.
  return parts.some(({ part }) => part > 0) ? parts : parts.map(({ slope }) => ({ part: 1, slope }));
}

interface Centred {
  readonly away: Float64Array;
  readonly variance: number;
}

function centred(values: Float64Array): Centred {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const away = values.map((value) => value - mean);
  return { away, variance: meanProduct(away, away) };
}

function meanProduct(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let index = 0; index < a.length; index += 1) sum += (a[index] ?? 0) * (b[index] ?? 0);
  return sum / a.length;
}

/** Variance of the class means, less what a term that does nothing would show by chance. */
function betweenClasses({ away, variance }: Centred, area: Float64Array): number {
  const counts = new Float64Array(CLASSES);
  const sums = new Float64Array(CLASSES);
  for (let index = 0; index < away.length; index += 1) {
    const one = ((area[index] ?? 0) * CLASSES) | 0;
    counts[one] = (counts[one] ?? 0) + 1;
    sums[one] = (sums[one] ?? 0) + (away[index] ?? 0);
  }
  let between = 0;
  for (let one = 0; one < CLASSES; one += 1) between += (sums[one] ?? 0) ** 2 / Math.max(1, counts[one] ?? 0);
  between /= away.length;
  const chance = ((CLASSES - 1) / away.length) * Math.max(0, variance - between);
  return Math.max(0, between - chance);
}

interface Group {
  path: string;
  what: string[];
  part: number;
  /** Σ slope × u and Σ u² over the group's terms: their quotient is the change per unit of the value. */
  slopeU: number;
  squares: number;
}

/** Shares by leaf, largest first, adding up to 1; empty where nothing has a part. */
export function sharesOf(model: Model, parts: readonly TermPart[]): Share[] {
  const total = parts.reduce((sum, { part }) => sum + part, 0);
  if (!(total > 0)) return [];
  const groups = new Map<string, Group>();
  model.terms.forEach((term, index) => {
    const { part, slope } = parts[index] ?? { part: 0, slope: 0 };
    const { path, u, shared } = homeOf(model, term);
    const key = shared ? `term ${term.id}` : `leaf ${path}`;
    const group = groups.get(key) ?? { path, what: [], part: 0, slopeU: 0, squares: 0 };
    if (!group.what.includes(term.what)) group.what.push(term.what);
    group.part += part;
    group.slopeU += slope * u;
    group.squares += u * u;
    groups.set(key, group);
  });
  return [...groups.values()]
    .map(({ path, what, part, slopeU, squares }) => ({
      path,
      what: what.join(" and "),
      share: part / total,
      sensitivity: slopeU / squares,
    }))
    .sort((a, b) => b.share - a.share || (a.path < b.path ? -1 : 1));
}

/** The value a term belongs to: of several, the one it loads most. */
function homeOf(model: Model, term: ErrorTerm): { path: string; u: number; shared: boolean } {
  const pathOf = (leaf: number) => model.leaves[leaf]?.path ?? "";
  const most = term.loads.reduce((best, load) => (Math.abs(load.u) > Math.abs(best.u) ? load : best));
  const shared = term.loads.some(({ leaf }) => pathOf(leaf) !== pathOf(most.leaf));
  return { path: pathOf(most.leaf), u: most.u, shared };
}
