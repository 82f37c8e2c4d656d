/**
 * A model as it will stand after one leaf has been read more sharply.
 *
 * Model: the leaf's error is one direction in the space of the independent errors. A reading shrinks that direction from
 * the present uncertainty u0 to u1 and leaves the others alone (normal conditioning), so what the leaf shares with other
 * leaves is learnt for them too. Where the reading will fall is not known yet: seen from today, the leaf's value will
 * move by √(u0² - u1²) times a standard normal number, and correlated leaves with it.
 * Left out: the shape of the new doubt; shapes are kept as they are.
 * Source: preposterior analysis, H. Raiffa and R. Schlaifer, "Applied Statistical Decision Theory", 1961 (from
 * memory); the conditioning is derived.
 */
import { type ErrorTerm, leafU, loadsOn, type Model } from "./model.ts";

export interface Sharpened {
  /** Values unchanged, doubt shrunk. */
  readonly model: Model;
  /** By how much each leaf moves when the reading falls one standard deviation above the present value. */
  readonly moves: readonly number[];
}

/** Loads smaller than this part of the leaf's doubt are rounding left over from cancelling. */
const NOTHING = 1e-12;

/** Undefined where the reading would not sharpen the leaf. */
export function sharpen(model: Model, leaf: number, u: number): Sharpened | undefined {
  const before = leafU(model, leaf);
  if (!(u >= 0 && u < before)) return undefined;
  const direction = loadsOn(model, leaf).map((load) => load / before);
  const kept = u / before;
  const along = model.leaves.map((_, other) =>
    loadsOn(model, other).reduce((sum, load, term) => sum + load * (direction[term] ?? 0), 0),
  );
  const terms = model.terms.map((term, index): ErrorTerm => {
    const part = direction[index] ?? 0;
    if (part === 0) return term;
    const loads = along.map((amount, other) => {
      const now = term.loads.find((load) => load.leaf === other)?.u ?? 0;
      const next = now - (1 - kept) * amount * part;
      return { leaf: other, u: Math.abs(next) <= NOTHING * Math.max(Math.abs(now), before) ? 0 : next };
    });
    return { ...term, loads: loads.filter((load) => load.u !== 0) };
  });
  const learnt = Math.sqrt(1 - kept * kept);
  return {
    model: { ...model, terms: terms.filter((term) => term.loads.length > 0) },
    moves: along.map((amount) => amount * learnt),
  };
}

/** The same doubt about values that readings have moved by `amounts` of their standard deviations. */
export function moved(
  model: Model,
  by: readonly { readonly moves: readonly number[]; readonly amount: number }[],
): Model {
  const values = model.values.map((value, leaf) =>
    by.reduce((sum, { moves, amount }) => sum + amount * (moves[leaf] ?? 0), value),
  );
  return { ...model, values };
}
