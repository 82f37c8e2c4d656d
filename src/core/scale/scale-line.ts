/**
 * Where the scale line falls on the body: u from the end wall of the neck pocket, toward the tail.
 *
 * Model: fret 12 halves the scale, so the scale line stands as far beyond fret 12 as the nut stands before it. With
 * the heel's end at u = -gap, that is u = (2 nutToFret12) - (nutToFret12 + fret12ToHeelEnd) - gap.
 * Left out: a neck that is tilted or turned in its pocket (see `sideShiftFromPlayMm` of the bridge area), and the
 * 0.01 mm by which a shim's tilt shortens the run.
 * Source: derived. A line carried over from the bolted neck ("transfer") beats the chain: the gap drops out.
 */
import { requireFinite, requirePositive } from "../checks.ts";

export interface HeelChain {
  /** Nut's face to the crown of fret 12. */
  readonly nutToFret12Mm: number;
  /** Crown of fret 12 to the end of the heel. */
  readonly fret12ToHeelEndMm: number;
  /** Between the heel's end and the pocket's end wall, with the neck bolted. */
  readonly heelGapMm: number;
}

/**
 * u of the scale line from the neck's own lengths. May be negative on a neck that reaches far into the body.
 *
 * @throws InputError unless both lengths are above 0 and the gap is a number
 * @example
 * scaleLineFromHeelChainMm({ nutToFret12Mm: 345, fret12ToHeelEndMm: 163, heelGapMm: 0 }); // 182
 */
export function scaleLineFromHeelChainMm(chain: HeelChain): number {
  requirePositive(chain.nutToFret12Mm, "nutToFret12Mm", "mm", "Measure from the nut's face to the crown of fret 12");
  requirePositive(
    chain.fret12ToHeelEndMm,
    "fret12ToHeelEndMm",
    "mm",
    "Measure from the crown of fret 12 to the heel's end",
  );
  requireFinite(chain.heelGapMm, "heelGapMm", "mm", "Give 0 if the heel touches the end wall");
  return chain.nutToFret12Mm - chain.fret12ToHeelEndMm - chain.heelGapMm;
}

/** u of the scale line from a printed or fitted scale length and the whole neck: L - nut to heel end - gap. */
export function scaleLineFromScaleLengthMm(neck: {
  readonly scaleLengthMm: number;
  readonly nutToHeelEndMm: number;
  readonly heelGapMm: number;
}): number {
  requirePositive(neck.scaleLengthMm, "scaleLengthMm", "mm", "Take twice the distance from nut to fret 12");
  requirePositive(neck.nutToHeelEndMm, "nutToHeelEndMm", "mm", "Measure from the nut's face to the heel's end");
  requireFinite(neck.heelGapMm, "heelGapMm", "mm", "Give 0 if the heel touches the end wall");
  return neck.scaleLengthMm - neck.nutToHeelEndMm - neck.heelGapMm;
}

/**
 * u of the scale line marked on the body from fret 12 of the bolted neck: fret 12's place plus nut to fret 12.
 *
 * @param mark `fret12UMm`: u of fret 12, which is negative (fret 12 lies before the end wall) on nearly every neck
 */
export function scaleLineFromFret12Mm(mark: { readonly fret12UMm: number; readonly nutToFret12Mm: number }): number {
  requireFinite(
    mark.fret12UMm,
    "fret12UMm",
    "mm",
    "Measure from the pocket's end wall to fret 12, toward the nut negative",
  );
  requirePositive(mark.nutToFret12Mm, "nutToFret12Mm", "mm", "Measure from the nut's face to the crown of fret 12");
  return mark.fret12UMm + mark.nutToFret12Mm;
}
