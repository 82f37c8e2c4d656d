/**
 * Several margins that must all hold, each on its plane, where no draw is needed to say how sure that is.
 *
 * Model: together the margins hold no surer than the least sure of them, and no less sure
 * than if each failed alone (Boole's inequality); errors of other shapes than normal go no farther than normal ones do
 * (a uniform or triangular error is sub-Gaussian with its own variance), so that a margin m fails with at most
 * exp(-m²/2u²). Where all that leaves nothing to choose, it is the answer.
 * Sources: G. Boole; W. Hoeffding, "Probability inequalities for sums of bounded random variables", 1963 (from memory).
 */
import type { Model } from "./model.ts";
import { planeArea } from "./plane-area.ts";
import { uOf } from "./planes.ts";
import type { Sampled, SamplePart } from "./sampling.ts";

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
  const area = planeArea(terms, plane.slopes, start);
  if (area !== undefined) return [area, area];
  const beyond = Math.exp(-((start / u) ** 2) / 2);
  if (beyond > NEAR_ENOUGH) return undefined;
  return start > 0 ? [1 - beyond, 1] : [0, beyond];
}
