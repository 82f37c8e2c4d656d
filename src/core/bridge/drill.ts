/**
 * Where to set the stop, and how much wood stays under the tip.
 *
 * Model: a twist drill's tip is a cone of point angle a and length d / (2 tan(a/2)); for the usual 118° that is
 * 0.30 d. The stop is set from the tip; drilling through the plate adds the plate.
 * Left out: brad points (their spur is shorter), wander, a stop that slips.
 * Source: derived, cone. At least 4 left under the tip: common practice.
 */
import { requireFinite, requirePositive } from "../checks.ts";
import { InputError } from "../errors.ts";

const USUAL_POINT_DEGREES = 118;

export function drillTipMm(drill: { readonly diameterMm: number; readonly pointAngleDegrees?: number }): number {
  const angle = drill.pointAngleDegrees ?? USUAL_POINT_DEGREES;
  requirePositive(drill.diameterMm, "diameterMm", "mm", "Measure the drill over its flutes");
  if (!(angle > 0 && angle <= 180))
    throw new InputError(
      "pointAngleDegrees",
      `must lie above 0° and up to 180°, got ${angle}`,
      "The usual twist drill has 118°",
    );
  return angle === 180 ? 0 : drill.diameterMm / (2 * Math.tan((angle * Math.PI) / 360));
}

export interface DrillGuide {
  readonly tipMm: number;
  /** From the body's surface to the tip. */
  readonly tipDepthMm: number;
  /** Free drill between its tip and the stop. */
  readonly stopMm: number;
  readonly woodLeftMm: number;
  /** Wood left less what is to be left; below 0: do not drill so deep. */
  readonly marginMm: number;
  /** Greatest depth, counted like the depth asked for, that leaves the wood wanted. */
  readonly deepestMm: number;
}

/**
 * Stop and wood left for one hole.
 *
 * @throws InputError for a size that is not above 0
 */
export function drillGuide(hole: {
  readonly diameterMm: number;
  readonly depthMm: number;
  /** What `depthMm` reaches to: the end of the full diameter, or the tip. */
  readonly depthTo: "full diameter" | "tip";
  readonly woodMm: number;
  /** Plate that is drilled through; 0 if it is off. */
  readonly throughPlateMm: number;
  readonly leaveMm: number;
  readonly pointAngleDegrees?: number;
}): DrillGuide {
  requirePositive(hole.depthMm, "depthMm", "mm", "Give the depth of the hole");
  requirePositive(
    hole.woodMm,
    "woodMm",
    "mm",
    "Give the wood there: the body's thickness, or down to the cavity's roof",
  );
  requireFinite(hole.throughPlateMm, "throughPlateMm", "mm", "Give 0 if the plate is off");
  requireFinite(hole.leaveMm, "leaveMm", "mm", "Give the wood to leave under the tip");
  const tipMm = drillTipMm(hole);
  const beyond = hole.depthTo === "tip" ? 0 : tipMm;
  const tipDepthMm = hole.depthMm + beyond;
  const woodLeftMm = hole.woodMm - tipDepthMm;
  return {
    tipMm,
    tipDepthMm,
    stopMm: tipDepthMm + hole.throughPlateMm,
    woodLeftMm,
    marginMm: woodLeftMm - hole.leaveMm,
    deepestMm: hole.woodMm - hole.leaveMm - beyond,
  };
}
