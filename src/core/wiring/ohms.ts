/**
 * What the meter is to read, with limits: the sum of what each resistance may be off by, weighted by ∂R/∂R_k.
 *
 * Limits, not standard uncertainties: a coil of a data sheet ±5 %, a pot ±20 % (common practice), a coil that was read
 * before with the same meter ±0.5 % (its repeatability, common practice), else what was stated.
 */
import { type InState, inState, type MeterReading, ohmsBetween, resistorsOf, type State } from "../circuit/index.ts";
import { type Quantity, standardUncertainty } from "../quantity/index.ts";
import type { WiredCircuit } from "./circuit-of.ts";

const POT_LIMIT = 0.2;
const REPEAT_LIMIT = 0.005;
/** A rectangular limit a has u = a/√3. */
const LIMIT_OF_U = Math.sqrt(3);
/** Where nothing is known of a resistance. */
const GUESS_LIMIT = 0.5;

export interface OhmsBand {
  readonly ohms: number;
  readonly low: number;
  readonly high: number;
  /** The share of each coil, track or part in the width of the band, largest first. */
  readonly shares: readonly { readonly part: string; readonly ohms: number }[];
}

/** @param points two lugs; tip and sleeve unless given */
export function ohmsBand(
  wired: WiredCircuit,
  state: State,
  celsius: number,
  points: readonly [string, string] = [wired.circuit.jack.tip, wired.circuit.jack.sleeve],
): OhmsBand {
  const inside = inState(wired.circuit, state);
  return bandOf(wired, inside, celsius, [inside.nodeOf(points[0]), inside.nodeOf(points[1])]);
}

/** No circuit of a guitar reads so much: the meter shows open. Common practice, no source. */
export const OPEN_FROM_OHMS = 10e6;

/** Whether a reading lies in the band; where nothing leads from point to point, whether the meter shows open. */
export function readingAgrees({ ohms, low, high }: OhmsBand, readOhms: number): boolean {
  if (!Number.isFinite(ohms)) return readOhms >= OPEN_FROM_OHMS;
  return readOhms >= low && readOhms <= high;
}

export function bandOf(
  wired: WiredCircuit,
  inside: InState,
  celsius: number,
  [a, b]: readonly [string, string],
): OhmsBand {
  const resistors = resistorsOf(inside, celsius);
  const reading: MeterReading = ohmsBetween(resistors, a, b);
  const parts = new Map<string, number>();
  for (const { name, part, ohms } of resistors) {
    const weight = reading.weights.get(name);
    if (weight === undefined) continue;
    const limit = relativeLimit(
      wired.ohmsOf.get(part),
      wired.circuit.tracks.some(({ id }) => id === part),
    );
    parts.set(part, (parts.get(part) ?? 0) + weight * ohms * limit);
  }
  const shares = [...parts].map(([part, ohms]) => ({ part, ohms })).sort((first, second) => second.ohms - first.ohms);
  const half = shares.reduce((sum, { ohms }) => sum + ohms, 0);
  return { ohms: reading.ohms, low: Math.max(0, reading.ohms - half), high: reading.ohms + half, shares };
}

/** Half width of what a resistance may be, as a part of it. */
function relativeLimit(quantity: Quantity | undefined, pot: boolean): number {
  if (!quantity?.known || quantity.value <= 0) return GUESS_LIMIT;
  const stated = (LIMIT_OF_U * standardUncertainty(quantity)) / quantity.value;
  if (quantity.origin === "measured") return Math.max(REPEAT_LIMIT, quantity.said.includes("±") ? stated : 0);
  if (pot && !quantity.said.includes("±")) return POT_LIMIT;
  return stated;
}
