/**
 * Before the bit turns: holes right through, the edge of the finish.
 *
 * Source: meeting in the middle and the relieved edge are common practice. Rules FT36, FT42.
 */
import { requireSizesMm } from "./guard.ts";

export interface ThroughHole {
  /** From each face. */
  readonly eachMm: number;
  /** The bit must reach this far. */
  readonly reachMm: number;
  readonly marginMm: number;
}

/** A hole right through is drilled from both faces, so that a wandering bit shows on neither. */
export function fromBothFaces(hole: { readonly bodyMm: number; readonly bitReachMm: number }): ThroughHole {
  const { bodyMm, bitReachMm } = hole;
  requireSizesMm({ bodyMm, bitReachMm }, "Measure the free length of the bit");
  const eachMm = bodyMm / 2 + 1;
  return { eachMm, reachMm: eachMm, marginMm: bitReachMm - eachMm };
}

/** A place marked on the top, as it lies when the body is turned over sideways: the sides change, the length stays. */
export function onTheBack(place: { readonly uMm: number; readonly yMm: number }): {
  readonly uMm: number;
  readonly yMm: number;
} {
  return { uMm: place.uMm, yMm: place.yMm === 0 ? 0 : -place.yMm };
}

export interface FinishAdvice {
  readonly bit: "brad point" | "twist bit";
  /** Countersink the finish to this before the screw or bit goes in. */
  readonly relieveToMm: number;
}

/** Above this a twist bit wanders and grabs in wood. */
const BRAD_POINT_ABOVE_MM = 3;

/** Which bit, and how wide to break the edge of the finish so that it does not lift. */
export function finishAdvice(hole: { readonly drillMm: number; readonly threadMm: number }): FinishAdvice {
  const { drillMm, threadMm } = hole;
  requireSizesMm({ drillMm, threadMm }, "Drill size, and the thread that goes in");
  return {
    bit: drillMm > BRAD_POINT_ABOVE_MM ? "brad point" : "twist bit",
    relieveToMm: Math.max(drillMm, threadMm) + 0.5,
  };
}
