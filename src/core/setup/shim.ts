/**
 * Tapered shim over the whole neck pocket: what it lifts, and which thicknesses bring every saddle into its range.
 *
 * Model: the neck turns as a stiff piece about the edge where the shim is nothing. Thick at the heel's end, it turns
 * about the pocket's mouth and the needed saddle heights rise by thickness (contact - mouth) / pocket length. Thick at
 * the mouth, it turns about the heel's end and they fall by thickness (contact - heel end) / pocket length.
 * Left out: the shift of the scale line by a turn of under 1° (0.02 mm) and compression of the wood.
 * Source: derived, similar triangles. Full length rather than part of the pocket: common practice, a part shim lets
 * the neck's end kink upward.
 */
import { requireFinite, requirePositive } from "../checks.ts";
import { InputError } from "../errors.ts";

const DEGREES_PER_RADIAN = 180 / Math.PI;

/** The pocket and where the neck turns, counted from one start toward the tail. */
export interface Pocket {
  /** The edge toward the nut. */
  readonly mouthMm: number;
  /** The end wall, where the heel ends. */
  readonly heelEndMm: number;
}

export type ThickEnd = "heel end" | "mouth";

/**
 * Change of the needed height at a contact per mm of thickness: above 0 for a shim thick at the heel's end.
 *
 * @throws InputError unless heel end lies behind the mouth and the contact behind the heel end
 */
export function shimGain(pocket: Pocket, contactMm: number, thick: ThickEnd): number {
  const lengthMm = pocket.heelEndMm - pocket.mouthMm;
  requirePositive(
    lengthMm,
    "heelEndMm",
    "mm behind the pocket's mouth",
    "Give mouth and end wall from the same start, the end wall further back",
  );
  if (!(contactMm > pocket.heelEndMm)) {
    throw new InputError(
      "contactMm",
      `must lie behind the heel's end at ${pocket.heelEndMm} mm, got ${contactMm}`,
      "Count the contact from the same start as the pocket",
    );
  }
  return thick === "heel end" ? (contactMm - pocket.mouthMm) / lengthMm : -(contactMm - pocket.heelEndMm) / lengthMm;
}

/** Angle of the wedge. */
export function shimAngleDegrees(shim: { readonly thicknessMm: number; readonly pocketLengthMm: number }): number {
  requireFinite(shim.thicknessMm, "thicknessMm", "mm", "Give the thickness at the thick end");
  requirePositive(shim.pocketLengthMm, "pocketLengthMm", "mm", "Measure the pocket along the centre line");
  return Math.atan(shim.thicknessMm / shim.pocketLengthMm) * DEGREES_PER_RADIAN;
}

/** Thickness at the thick end that lifts a contact by `riseMm`; negative if the rise has the other sense. */
export function shimForRiseMm(want: {
  readonly riseMm: number;
  readonly pocket: Pocket;
  readonly contactMm: number;
  readonly thick: ThickEnd;
}): number {
  requireFinite(want.riseMm, "riseMm", "mm", "Give how far the needed height must rise");
  return want.riseMm / shimGain(want.pocket, want.contactMm, want.thick);
}

/** Needed contact heights with a shim in, in the order given. */
export function heightsWithShimMm(fitted: {
  readonly neededMm: readonly number[];
  readonly contactsMm: readonly number[];
  readonly pocket: Pocket;
  readonly thicknessMm: number;
  readonly thick: ThickEnd;
}): number[] {
  return fitted.neededMm.map(
    (needed, i) =>
      needed + fitted.thicknessMm * shimGain(fitted.pocket, fitted.contactsMm[i] ?? Number.NaN, fitted.thick),
  );
}

export interface ShimWanted {
  /** Height each saddle needs without a shim. */
  readonly neededMm: readonly number[];
  /** Where each contact stands, counted like the pocket. */
  readonly contactsMm: readonly number[];
  /** The saddles' range of height, and what is to stay free at each end of it. */
  readonly lowestMm: number;
  readonly highestMm: number;
  readonly reserveMm: number;
  readonly pocket: Pocket;
  /** Thicknesses come in steps of this; 0.05 unless stated. */
  readonly stepMm?: number;
  /** Taken beyond the least before rounding up, so that a wedge cut by hand still does; 0.05 unless stated. */
  readonly overMm?: number;
}

export interface ShimAnswer {
  /** Without any shim every saddle is inside its range with its reserve. */
  readonly needed: boolean;
  readonly thick: ThickEnd;
  /** Least and greatest thickness that keep every reserve. Empty when `maxMm` is below `minMm`. */
  readonly minMm: number;
  readonly maxMm: number;
  /** Index of the string that asks for the least thickness, and of the one that allows the greatest. */
  readonly minIndex: number;
  readonly maxIndex: number;
  readonly leastAngleDegrees: number;
  /** To take: least plus `overMm`, rounded up to the step; undefined if nothing between least and greatest is left. */
  readonly takeMm: number | undefined;
  readonly takeAngleDegrees: number | undefined;
  /** How far each saddle would be outside its range without a shim and without reserve: above 0 is short of height. */
  readonly shortMm: readonly number[];
}

/**
 * The shims that bring every saddle into its range.
 *
 * @throws InputError if the lists differ in length, the range is empty, or a contact does not lie behind the pocket
 */
export function shimRange(want: ShimWanted): ShimAnswer {
  refuseShim(want);
  const { neededMm, contactsMm, pocket, lowestMm, highestMm, reserveMm } = want;
  const low = lowestMm + reserveMm;
  const high = highestMm - reserveMm;
  const needed = neededMm.some((z) => z < low || z > high);
  // Saddles bottomed: lift. Saddles at the top of their screws, none at the bottom: tilt the other way.
  const thick: ThickEnd = neededMm.some((z) => z < low) || !needed ? "heel end" : "mouth";
  let atLeastMm = Number.NEGATIVE_INFINITY;
  let maxMm = Number.POSITIVE_INFINITY;
  let minIndex = 0;
  let maxIndex = 0;
  neededMm.forEach((z, i) => {
    const gain = shimGain(pocket, contactsMm[i] ?? Number.NaN, thick);
    const least = ((thick === "heel end" ? low : high) - z) / gain;
    const most = ((thick === "heel end" ? high : low) - z) / gain;
    if (least > atLeastMm) {
      atLeastMm = least;
      minIndex = i;
    }
    if (most < maxMm) {
      maxMm = most;
      maxIndex = i;
    }
  });
  const minMm = Math.max(0, atLeastMm);
  const pocketLengthMm = pocket.heelEndMm - pocket.mouthMm;
  const takeMm = needed ? takeThickness(minMm, maxMm, want.stepMm ?? 0.05, want.overMm ?? 0.05) : undefined;
  return {
    needed,
    thick,
    minMm,
    maxMm,
    minIndex,
    maxIndex,
    leastAngleDegrees: shimAngleDegrees({ thicknessMm: minMm, pocketLengthMm }),
    takeMm,
    takeAngleDegrees: takeMm === undefined ? undefined : shimAngleDegrees({ thicknessMm: takeMm, pocketLengthMm }),
    shortMm: neededMm.map((z) => lowestMm - z),
  };
}

/** Rounding must not climb a whole step on the last bit of a sum. */
const ROUNDING = 1e-9;

function takeThickness(minMm: number, maxMm: number, stepMm: number, overMm: number): number | undefined {
  requirePositive(stepMm, "stepMm", "mm", "Give the step in which thickness can be had, 0.05 as a rule");
  const take = Number((Math.ceil((minMm + overMm) / stepMm - ROUNDING) * stepMm).toFixed(6));
  if (take <= maxMm + ROUNDING) return take;
  const exact = Number((Math.ceil(minMm / stepMm - ROUNDING) * stepMm).toFixed(6));
  return exact <= maxMm + ROUNDING ? exact : undefined;
}

function refuseShim(want: ShimWanted): void {
  if (want.neededMm.length === 0 || want.neededMm.length !== want.contactsMm.length) {
    throw new InputError(
      "contactsMm",
      `must be as many as the needed heights, got ${want.contactsMm.length} for ${want.neededMm.length}`,
      "Give one contact for every string",
    );
  }
  want.neededMm.forEach((z, i) => {
    requireFinite(z, `neededMm[${i}]`, "mm", "Work out the needed saddle height first");
  });
  requireFinite(want.reserveMm, "reserveMm", "mm", "Give what is to stay free at each end of the screw, 0.5 as a rule");
  if (!(want.highestMm - want.lowestMm >= 2 * want.reserveMm)) {
    throw new InputError(
      "highestMm",
      `the range ${want.lowestMm} to ${want.highestMm} mm leaves nothing between its reserves`,
      "Check the bridge's height range, or take a smaller reserve",
    );
  }
}
