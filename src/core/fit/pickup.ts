/**
 * Does a pickup drop into its rout, how low can it go, and what must be cut if it does not.
 *
 * Model: body and mounting ears are rectangles that stand in rectangles, centred; the corner of a rout is an arc.
 * Left out: slanted ears, the exit of the cable, ears of unequal length.
 * Source: rectangles compared (derived); clearances common practice. Rules FT1 to FT4 of docs/spec/fit.md.
 */
import { requireNotNegativeMm, requireSizesMm } from "./guard.ts";

const CALLIPER = "Measure it with a calliper";

export interface RectangleInRout {
  /** Across the strings. */
  readonly lengthMm: number;
  readonly widthMm: number;
  readonly routLengthMm: number;
  readonly routWidthMm: number;
  /** Wanted at each side. */
  readonly clearanceMm: number;
}

export interface RectangleFit {
  /** Smaller of the two gaps less the clearance. At or above 0 it drops in with its clearance. */
  readonly marginMm: number;
  readonly gapEndMm: number;
  readonly gapSideMm: number;
  readonly needLengthMm: number;
  readonly needWidthMm: number;
  /** To cut away at each end, 0 if nothing. */
  readonly routEachEndMm: number;
  /** To cut away at each side, 0 if nothing; the rout gets wider by twice this. */
  readonly routEachSideMm: number;
}

/**
 * Gaps of a rectangle in a rout and what is to be cut away.
 *
 * @throws InputError if a size is not above zero
 * @example
 * rectangleInRout({ lengthMm: 89, widthMm: 13.5, routLengthMm: 88, routWidthMm: 12, clearanceMm: 0.5 });
 * // needs 90.0 x 14.5: 1.0 at each end, 1.25 at each side; margin -1.25
 */
export function rectangleInRout(fit: RectangleInRout): RectangleFit {
  const { lengthMm, widthMm, routLengthMm, routWidthMm, clearanceMm } = fit;
  requireSizesMm({ lengthMm, widthMm, routLengthMm, routWidthMm }, CALLIPER);
  requireNotNegativeMm({ clearanceMm }, "Give the gap you want at each side");
  const gapEndMm = gapEachSideMm(lengthMm, routLengthMm);
  const gapSideMm = gapEachSideMm(widthMm, routWidthMm);
  return {
    marginMm: Math.min(gapEndMm, gapSideMm) - clearanceMm,
    gapEndMm,
    gapSideMm,
    needLengthMm: lengthMm + 2 * clearanceMm,
    needWidthMm: widthMm + 2 * clearanceMm,
    routEachEndMm: Math.max(0, clearanceMm - gapEndMm),
    routEachSideMm: Math.max(0, clearanceMm - gapSideMm),
  };
}

/** Gap at each side of a part that stands in the middle of its rout; below 0 it does not go in. Unchecked: for samplers. */
export function gapEachSideMm(partMm: number, routMm: number): number {
  return (routMm - partMm) / 2;
}

export interface DepthFit {
  readonly marginMm: number;
  readonly needMm: number;
  /** Left under the part when its top is level with the body. */
  readonly gapBelowMm: number;
  readonly routDeeperMm: number;
}

/** Depth of a part (or of its ears) against the depth of the rout. */
export function depthInRout(fit: {
  readonly partMm: number;
  readonly routMm: number;
  readonly clearanceMm: number;
}): DepthFit {
  const { partMm, routMm, clearanceMm } = fit;
  requireSizesMm({ partMm, routMm }, CALLIPER);
  requireNotNegativeMm({ clearanceMm }, "Give the room you want below");
  const gapBelowMm = routMm - partMm;
  return {
    marginMm: gapBelowMm - clearanceMm,
    needMm: partMm + clearanceMm,
    gapBelowMm,
    routDeeperMm: Math.max(0, clearanceMm - gapBelowMm),
  };
}

/**
 * Least radius that the part's own corners must have to pass the round corners of the rout.
 *
 * Arcs of radius r (part) and R (rout), centres apart by (R - g - r, R - h - r); they touch on the inside when that
 * distance is R - r, so r = R - g - h - √(2 g h).
 *
 * @returns 0 if square corners pass; undefined if the part does not go in at all (a gap below 0)
 */
export function leastCornerRadiusMm(corner: {
  readonly routRadiusMm: number;
  readonly gapEndMm: number;
  readonly gapSideMm: number;
}): number | undefined {
  const { routRadiusMm, gapEndMm, gapSideMm } = corner;
  requireNotNegativeMm({ routRadiusMm }, "Half the diameter of the router bit that cut it");
  if (gapEndMm < 0 || gapSideMm < 0) return undefined;
  // A gap as wide as the arc puts the corner past it: nothing to foul.
  if (gapEndMm >= routRadiusMm || gapSideMm >= routRadiusMm) return 0;
  return Math.max(0, routRadiusMm - gapEndMm - gapSideMm - Math.sqrt(2 * gapEndMm * gapSideMm));
}

export interface LowestSetting {
  /** Its top above the body top when it is as low as it goes; 0 if it can go level. */
  readonly proudMm: number;
  readonly gapBelowMm: number;
}

/** How low a pickup can be set: under it lie its wires and the squashed spring or foam. */
export function lowestSetting(depth: {
  readonly partMm: number;
  readonly routMm: number;
  /** Wires and squashed spring: 2.0 by common practice. */
  readonly roomBelowMm: number;
}): LowestSetting {
  const { partMm, routMm, roomBelowMm } = depth;
  requireSizesMm({ partMm, routMm }, CALLIPER);
  requireNotNegativeMm({ roomBelowMm }, "Measure the spring squashed flat and the wires under it");
  return { proudMm: Math.max(0, partMm + roomBelowMm - routMm), gapBelowMm: routMm - partMm };
}

export interface PickupGap {
  readonly marginMm: number;
  /** From the string to the pickup's top at its lowest setting. */
  readonly widestGapMm: number;
  readonly routDeeperMm: number;
}

/** Can the pickup be lowered until the wanted gap to the string is there? */
export function pickupGap(gap: {
  readonly stringHeightMm: number;
  readonly proudMm: number;
  readonly wantedMm: number;
}): PickupGap {
  const { stringHeightMm, proudMm, wantedMm } = gap;
  requireSizesMm({ stringHeightMm, wantedMm }, "Measure from the body top, string held at the last fret");
  requireNotNegativeMm({ proudMm }, "0 if it can go level with the top");
  const widestGapMm = stringHeightMm - proudMm;
  return { marginMm: widestGapMm - wantedMm, widestGapMm, routDeeperMm: Math.max(0, wantedMm - widestGapMm) };
}
