/**
 * Values worked out from other values.
 *
 * Model: first-order propagation, u² = Σ (c u)² over independent terms, where terms of one id are one error and add
 * before they are squared (JCGM 100:2008, 5.1.2 and 5.2.2 with full correlation; published, clause numbers from
 * memory). Left out: curvature; where a formula bends over the doubt, the ledger samples instead.
 */
import type { DoubtTerm, Kind, Known, Origin, Quantity } from "./value.ts";

export interface Input {
  readonly quantity: Known;
  /** Change of the result per unit of this value. */
  readonly sensitivity: number;
}

export function known(quantity: Quantity): quantity is Known {
  return quantity.known;
}

export function valueOr(quantity: Quantity, fallback: number): number {
  return quantity.known ? quantity.value : fallback;
}

/** The same value with all its error terms larger or smaller by one factor. */
export function scaleDoubt(quantity: Known, factor: number): Known {
  return { ...quantity, doubt: quantity.doubt.map((term) => ({ ...term, u: term.u * factor })) };
}

/**
 * A value worked out from others, carrying their error terms.
 *
 * Its origin is that of its weakest input: one assumed value makes the result assumed.
 *
 * @example
 * // the setback as a difference of two readings from one placing: what they share cancels
 * derive("strings.1.setback", "length", b.value - a.value, [
 *   { quantity: b, sensitivity: 1 },
 *   { quantity: a, sensitivity: -1 },
 * ]);
 */
export function derive(path: string, kind: Kind, value: number, from: readonly Input[]): Known {
  const said =
    from.length === 0 ? "worked out" : `worked out from ${from.map(({ quantity }) => quantity.path).join(", ")}`;
  return { known: true, path, kind, value, origin: weakestOrigin(from), doubt: mergedTerms(from), said };
}

function mergedTerms(from: readonly Input[]): DoubtTerm[] {
  const terms = new Map<string, DoubtTerm>();
  for (const { quantity, sensitivity } of from) {
    for (const term of quantity.doubt) {
      const before = terms.get(term.id);
      terms.set(term.id, { ...(before ?? term), u: (before?.u ?? 0) + term.u * sensitivity });
    }
  }
  return [...terms.values()].filter(({ u }) => u !== 0);
}

function weakestOrigin(from: readonly Input[]): Origin {
  const origins = new Set(from.map(({ quantity }) => quantity.origin));
  if (origins.has("assumed") || origins.size === 0) return "assumed";
  return origins.has("data sheet") ? "data sheet" : "measured";
}
