/**
 * What each error term does to the margin, and whether a straight line describes it.
 *
 * Model: differences; the margin lies on a plane or it does not (planes.ts).
 */
import type { ErrorTerm, Model } from "./model.ts";
import { isStraight, type Plane } from "./planes.ts";
import type { Points, Trial } from "./trials.ts";

export interface Effects {
  /** The model with its terms in order of importance. */
  readonly model: Model;
  /** Where each of those terms stands in the model they came from. */
  readonly order: readonly number[];
  /** Change of the margin when a term is off by one standard uncertainty, in the order of `model.terms`. */
  readonly slopes: readonly number[];
  /** Root of the sum of squares of the slopes. */
  readonly u: number;
  /** The margin lies on a plane over the doubt. */
  readonly plane: boolean;
  /** Nothing tried moved the margin. */
  readonly still: boolean;
}

export function effectsOf(model: Model, trial: Trial, points: Points): Effects {
  const { start, forward, backward, far } = trial;
  const importance = forward.map((there, term) =>
    // A step that gives no number matters most of all.
    weight(Math.max(Math.abs(there - start), Math.abs((backward[term] as number) - start))),
  );
  const idOf = (term: number) => model.terms[term]?.id ?? "";
  const order = [...forward.keys()].sort(
    (a, b) => (importance[b] as number) - (importance[a] as number) || (idOf(a) < idOf(b) ? -1 : 1),
  );
  const raw = forward.map((there, term) => (there - (backward[term] as number)) / 2);
  const slopes = order.map((term) => raw[term] as number);
  const total = slopes.reduce((sum, slope) => sum + slope * slope, 0);
  const terms = order.map((term) => model.terms[term] as ErrorTerm);
  const plane: Plane = { slopes: raw, moving: Int32Array.from(raw.keys()) };
  return {
    model: { ...model, terms },
    order,
    slopes,
    u: Math.sqrt(total),
    plane: isStraight(trial, plane, points),
    still: importance.every((one) => one === 0) && far.every((value) => value === start),
  };
}

/** Far above every margin, and still a number to sort by. */
const MOST_OF_ALL = Number.MAX_VALUE;

function weight(importance: number): number {
  return Number.isNaN(importance) ? MOST_OF_ALL : Math.min(importance, MOST_OF_ALL);
}
