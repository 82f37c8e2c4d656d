/**
 * A fit turned round: what a part must measure so that it goes at the gate's probability. For the slip to the shop.
 *
 * Model: each margin is taken as straight in the part's dimension, its doubt as it is now; the dimension is moved until
 * the rule's clearance holds and the part itself goes with the wanted probability, z standard uncertainties clear of 0.
 * The strictest of several margins counts.
 * Source: derived; the guard band z·u after JCGM 106:2012 (from memory).
 */
import { type Numbers, normalPoint } from "../ledger/index.ts";
import { BASE_UNIT, type Known, type Quantity } from "../quantity/index.ts";
import type { PartWant } from "../verdict/index.ts";

interface Weighted {
  readonly margin: number;
  readonly u: number;
}

export interface Turned {
  readonly leaves: Readonly<Record<string, Quantity>>;
  readonly margins: Readonly<Record<string, (x: Numbers) => number>>;
  readonly parts: Readonly<Record<string, Weighted>>;
  /** Margins without the clearance, by the same names, where the rule has them. */
  readonly bare: Readonly<Record<string, Weighted>>;
  readonly gate: number;
}

const STEP = 1e-3;
const FLAT = 1e-6;

export function partWants(given: Turned): PartWant[] {
  const values = Object.fromEntries(
    Object.entries(given.leaves).map(([name, quantity]) => [name, quantity.known ? quantity.value : Number.NaN]),
  );
  return Object.entries(given.leaves).flatMap(([name, leaf]) =>
    leaf.known && /^parts\.(?!.*saddleQ)/.test(leaf.path) && leaf.kind !== "count"
      ? wantsOf(name, leaf, values, given)
      : [],
  );
}

function wantsOf(name: string, leaf: Known, values: Numbers, { margins, parts, bare, gate }: Turned): PartWant[] {
  const z = normalPoint(gate);
  const strictest = new Map<PartWant["bound"], number>();
  for (const [margin, formula] of Object.entries(margins)) {
    const weighed = parts[margin];
    if (!weighed) continue;
    const slope =
      (formula({ ...values, [name]: leaf.value + STEP }) - formula({ ...values, [name]: leaf.value - STEP })) /
      (2 * STEP);
    if (!(Math.abs(slope) > FLAT)) continue;
    const alone = bare[margin];
    const lacking = alone ? Math.max(-weighed.margin, z * alone.u - alone.margin) : z * weighed.u - weighed.margin;
    const value = leaf.value + lacking / slope;
    const bound = slope > 0 ? "at least" : "at most";
    const before = strictest.get(bound);
    if (before === undefined || (bound === "at least" ? value > before : value < before)) strictest.set(bound, value);
  }
  const [, part = "", ...rest] = leaf.path.split(".");
  return [...strictest].map(([bound, value]) => ({
    part,
    dimension: inWords(rest.join(".")),
    bound,
    value,
    unit: BASE_UNIT[leaf.kind],
    probability: gate,
  }));
}

/** "ears.length" and "shafts[0].diameter" as a person says it. */
function inWords(path: string): string {
  return path
    .replace(/\[(\d+)\]/g, (_, index: string) => ` ${Number(index) + 1}`)
    .replace(/\./g, ", ")
    .replace(/([a-z])([A-Z])/g, (_, before: string, letter: string) => `${before} ${letter.toLowerCase()}`);
}
