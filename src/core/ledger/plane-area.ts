/**
 * How sure a margin on its plane is to be at or above 0.
 *
 * Model: margin m + Σ slope × error. Up to two uniform errors are taken exactly (a triangular one is the sum of two);
 * the others must add up to a normal one of standard deviation s. With Φ and φ of the normal distribution, its area is
 * integrated once for each uniform error, of half-widths a and b:
 *   P = Φ(m/s)
 *   P = s/(2a) [G((m+a)/s) - G((m-a)/s)],                               G(t) = t Φ(t) + φ(t)
 *   P = s²/(4ab) [H((m+a+b)/s) - H((m+a-b)/s) - H((m-a+b)/s) + H((m-a-b)/s)],   H(t) = [(t² + 1) Φ(t) + t φ(t)] / 2
 * Left out: three and more uniform errors that matter; sampling.ts draws those.
 * Source: derived (G' = Φ, H' = G); JCGM 101:2008, 6.4.2 and 6.4.5 for uniform and triangular errors (from memory).
 */
import type { ErrorTerm } from "./model.ts";
import { FARTHEST, normalArea, TRIANGULAR_REACH, UNIFORM_REACH } from "./normal.ts";

/**
 * Excess kurtosis up to which a sum of errors may be taken as normal. The first term that the normal curve leaves out
 * (Edgeworth; Cramér) is excess/24 × (z³ - 3z) φ(z), at most 0.0230 × excess; 0.13 keeps that below 0.3 % (derived).
 */
const MOST_EXCESS = 0.13;
const EXCESS: Readonly<Record<ErrorTerm["shape"], number>> = { normal: 0, uniform: -1.2, triangular: -0.6 };
const MOST_UNIFORM = 2;
/** A uniform error smaller than this part of the rest is as good as normal beside it. */
const WORTH_ITS_OWN = 0.05;

/** Undefined where too many errors of other shapes than normal matter. */
export function planeArea(terms: readonly ErrorTerm[], slopes: ArrayLike<number>, margin: number): number | undefined {
  let total = 0;
  let excess = 0;
  const others: { readonly shape: ErrorTerm["shape"]; readonly slope: number }[] = [];
  terms.forEach(({ shape }, index) => {
    const slope = Math.abs(slopes[index] as number);
    total += slope * slope;
    excess += EXCESS[shape] * slope ** 4;
    if (shape !== "normal" && slope > 0) others.push({ shape, slope });
  });
  if (total === 0) return margin >= 0 ? 1 : 0;
  others.sort((a, b) => b.slope - a.slope);
  const halves: number[] = [];
  let rest = total;
  for (const { shape, slope } of others) {
    const own = shape === "uniform" ? [UNIFORM_REACH * slope] : Array(2).fill((TRIANGULAR_REACH * slope) / 2);
    if (halves.length + own.length > MOST_UNIFORM || slope < WORTH_ITS_OWN * Math.sqrt(rest)) continue;
    halves.push(...own);
    excess -= EXCESS[shape] * slope ** 4;
    rest -= slope * slope;
  }
  if (Math.abs(excess) > MOST_EXCESS * total * total) return undefined;
  return areaWith(halves, margin, Math.sqrt(Math.max(0, rest)));
}

/** A normal error this small beside the uniform ones is what their sums left over. */
const NOTHING = 1e-7;
/** The sums below are good to this. */
const GOOD_TO = 1e-12;

function areaWith(halves: readonly number[], margin: number, normal: number): number {
  const [a, b] = halves;
  if (a === undefined) return normalArea(margin / normal);
  const s = normal < NOTHING * a ? 0 : normal;
  const reach = halves.reduce((sum, half) => sum + half, FARTHEST * s) * (1 - GOOD_TO);
  if (Math.abs(margin) >= reach) return margin > 0 ? 1 : 0;
  const area =
    b === undefined
      ? (once(margin + a, s) - once(margin - a, s)) / (2 * a)
      : (twice(margin + a + b, s) - twice(margin + a - b, s) - twice(margin - a + b, s) + twice(margin - a - b, s)) /
        (4 * a * b);
  return Math.min(1, Math.max(0, Math.round(area / GOOD_TO) * GOOD_TO));
}

function density(t: number): number {
  return Math.exp((-t * t) / 2) / Math.sqrt(2 * Math.PI);
}

/** s G(x/s); without a normal error the corner it rounds off. */
function once(x: number, s: number): number {
  if (s === 0) return Math.max(0, x);
  const t = x / s;
  return s * (t * normalArea(t) + density(t));
}

/** s² H(x/s). */
function twice(x: number, s: number): number {
  if (s === 0) return Math.max(0, x) ** 2 / 2;
  const t = x / s;
  return (s * s * ((t * t + 1) * normalArea(t) + t * density(t))) / 2;
}
