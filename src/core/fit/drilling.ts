/**
 * Before the bit turns: depth stop, holes right through, the edge of the finish.
 *
 * Source: least wood under the tip, meeting in the middle and the relieved edge are common practice; the length of a
 * drill's point follows from its angle. Rules FT35, FT36, FT42.
 */
import { InputError } from "../errors.ts";
import { requireNotNegativeMm, requireSizesMm } from "./guard.ts";

/** Length of the point of a bit: half the diameter over the tangent of half the point's angle. */
export function tipLengthMm(bit: { readonly diameterMm: number; readonly pointDegrees: number }): number {
  const { diameterMm, pointDegrees } = bit;
  requireSizesMm({ diameterMm }, "Read it off the shank");
  if (!(pointDegrees > 0 && pointDegrees <= 180)) {
    throw new InputError(
      "pointDegrees",
      `must lie between 0 and 180, got ${pointDegrees}`,
      "118 for a usual twist bit",
    );
  }
  return diameterMm / 2 / Math.tan((pointDegrees * Math.PI) / 360);
}

export interface DepthStop {
  readonly marginMm: number;
  /** Wood left under the tip. */
  readonly leftMm: number;
  /** Deepest setting of the stop (full diameter) that leaves the least wood. */
  readonly deepestMm: number;
}

/** Wood left under the tip of the bit at the thinnest place below the hole. */
export function depthStop(hole: {
  /** Body, or down to the cavity that lies below. */
  readonly woodMm: number;
  /** At full diameter. */
  readonly depthMm: number;
  readonly tipMm: number;
  /** 4 by common practice. */
  readonly leastMm: number;
}): DepthStop {
  const { woodMm, depthMm, tipMm, leastMm } = hole;
  requireSizesMm({ woodMm, depthMm }, "Measure the body where the hole goes");
  requireNotNegativeMm({ tipMm, leastMm }, "Length of the point of the bit");
  const leftMm = woodMm - depthMm - tipMm;
  return { marginMm: leftMm - leastMm, leftMm, deepestMm: woodMm - tipMm - leastMm };
}

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
