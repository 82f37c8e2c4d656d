/**
 * A lever switch: its slot and its two screws in the visible face.
 *
 * Model: new and old screws on one line through the middle of the slot, at plus and minus an offset each.
 * Depth and width of the switch are in bushing.ts (controlDepth, gapToFoil).
 * Source: plain geometry (derived); least wall common practice. Rules FT14 and FT15.
 */
import { requireNotNegativeMm, requireSizesMm } from "./guard.ts";

export interface SlotFit {
  readonly marginMm: number;
  /** In all; half of it at each end. */
  readonly lengthenMm: number;
  readonly eachEndMm: number;
}

export function slotFit(slot: { readonly slotMm: number; readonly needMm: number }): SlotFit {
  const { slotMm, needMm } = slot;
  requireSizesMm({ slotMm, needMm }, "Measure the slot and the lever's travel");
  const lengthenMm = Math.max(0, needMm - slotMm);
  return { marginMm: slotMm - needMm, lengthenMm, eachEndMm: lengthenMm / 2 };
}

export interface ScrewPairFit {
  /** Wall less the least wall; the old holes themselves count as a full wall. */
  readonly marginMm: number;
  readonly apartMm: number;
  /** Below 0 the holes overlap. */
  readonly wallMm: number;
  readonly overlapMm: number;
  /** The new screws stand in the old holes. */
  readonly sameHoles: boolean;
  /** By how much the old holes serve; below 0 two new ones are drilled in the visible face. */
  readonly reuseMm: number;
}

/** Screw places nearer than this to the old ones are the old ones (common practice: the play of a screw in its hole). */
const SAME_PLACE_MM = 0.15;
/** An old clearance hole this much wider still lies under the screw's head (common practice). */
const WIDER_HOLE_MM = 0.5;

/**
 * Wall between the new screw holes and the old ones.
 *
 * @example
 * screwPairFit({ oldOffsetMm: 20.65, newOffsetMm: 23, oldHoleMm: 3.2, newHoleMm: 3.2, leastWallMm: 1.5 });
 * // 2.35 apart: they overlap by 0.85
 */
export function screwPairFit(pair: {
  readonly oldOffsetMm: number;
  readonly newOffsetMm: number;
  readonly oldHoleMm: number;
  readonly newHoleMm: number;
  readonly leastWallMm: number;
}): ScrewPairFit {
  const { oldOffsetMm, newOffsetMm, oldHoleMm, newHoleMm, leastWallMm } = pair;
  requireSizesMm({ oldOffsetMm, newOffsetMm, oldHoleMm, newHoleMm }, "Measure from the middle of the slot");
  requireNotNegativeMm({ leastWallMm }, "1.5 by common practice");
  const apartMm = Math.abs(newOffsetMm - oldOffsetMm);
  const wallMm = apartMm - (oldHoleMm + newHoleMm) / 2;
  const reuseMm = Math.min(SAME_PLACE_MM - apartMm, newHoleMm + WIDER_HOLE_MM - oldHoleMm);
  const sameHoles = reuseMm >= 0;
  return {
    marginMm: sameHoles ? SAME_PLACE_MM - apartMm : wallMm - leastWallMm,
    apartMm,
    wallMm,
    overlapMm: Math.max(0, -wallMm),
    sameHoles,
    reuseMm,
  };
}
