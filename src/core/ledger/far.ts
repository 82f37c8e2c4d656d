/**
 * Margins that the doubt cannot reach, and terms that move none of the others: neither has to be sampled.
 *
 * Model: every term alone is put off by four standard uncertainties, both ways. A margin whose distance from 0 is more
 * than twice the root of the sum of squares of what that does, and more than three quarters of its plain sum, is taken
 * to keep its sign: for a straight margin that is eight standard uncertainties of its own. Steps of four see a border
 * that lies inside them.
 * Left out: what several terms do together beyond the sum of what each does alone.
 * Source: derived.
 */
import { type MarginFormula, mayMove, Row } from "./formulas.ts";
import type { Model } from "./model.ts";
import { putBack, shift } from "./trials.ts";

const STEP = 4;
const ROOTS = 2;
const SUMS = 0.75;

/** On which side of 0, out of the doubt's reach; "near" is within it. */
export type Side = "above" | "below" | "near";

interface Reach {
  readonly side: Side;
  /** Whether each term of the model moves the margin. */
  readonly moves: readonly boolean[];
}

function reachesOf(model: Model, formulas: readonly MarginFormula[], starts: readonly number[]): Reach[] {
  const row = new Row(model);
  /** Formula by formula, the most that each term does. */
  const most = formulas.map(() => new Float64Array(model.terms.length));
  const moving = formulas.map((formula) => mayMove(model, formula));
  model.terms.forEach((term, index) => {
    for (const z of [STEP, -STEP]) {
      shift(row, term, z);
      for (let part = 0; part < formulas.length; part += 1) {
        if (!moving[part]?.[index]) continue;
        const off = Math.abs((formulas[part] as MarginFormula)(row) - (starts[part] as number));
        const ofPart = most[part] as Float64Array;
        // A step that gives no number may hide anything.
        ofPart[index] = Number.isNaN(off) ? Number.POSITIVE_INFINITY : Math.max(ofPart[index] as number, off);
      }
      putBack(model, row, term);
    }
  });
  return most.map((offs, part) => {
    const start = starts[part] as number;
    const sum = offs.reduce((total, off) => total + off, 0);
    const squares = offs.reduce((total, off) => total + off * off, 0);
    const size = Math.abs(start);
    const far = sum > 0 && size > ROOTS * Math.sqrt(squares) && size > SUMS * sum;
    return { side: far ? (start > 0 ? "above" : "below") : "near", moves: Array.from(offs, (off) => off > 0) };
  });
}

export interface Narrowed {
  readonly model: Model;
  /** Indexes of the formulas that may decide; never empty. */
  readonly kept: readonly number[];
  /** No formula's sign is in doubt. */
  readonly settled: boolean;
  /** Formula by formula: whether the doubt can reach its sign. */
  readonly sides: readonly Side[];
}

/**
 * The formulas that may decide (the smallest always among them), and the terms that move them. A single formula may hide
 * a smallest of its own, which no step of one term shows: it is left as it is.
 */
export function narrow(model: Model, formulas: readonly MarginFormula[], starts: readonly number[]): Narrowed {
  if (formulas.length === 1) return { model, kept: [0], settled: false, sides: ["near"] };
  const smallest = starts.indexOf(Math.min(...starts));
  const reaches = reachesOf(model, formulas, starts);
  const below = reaches.findIndex(({ side }) => side === "below");
  const near = reaches.flatMap(({ side }, index) => (side === "near" ? [index] : []));
  const settled = near.length === 0 || below >= 0;
  const kept = settled
    ? [below >= 0 ? below : smallest]
    : near.includes(smallest)
      ? near
      : [...near, smallest].sort((a, b) => a - b);
  const terms = model.terms.filter((_, term) => kept.some((index) => reaches[index]?.moves[term]));
  return { model: { ...model, terms }, kept, settled, sides: reaches.map(({ side }) => side) };
}
