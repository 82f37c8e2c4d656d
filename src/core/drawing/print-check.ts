/**
 * Is a printed sheet true? The sheet is a known rectangle; the owner measures its two sides and both diagonals.
 *
 * Model: the printer scales the two axes each by its own factor and may shear the sheet. Sides a (down), b (across) and
 * diagonals d1, d2 of any parallelogram obey d1² + d2² = 2 (a² + b²) (parallelogram law), whatever the shear: readings
 * that break it contain a slip. The shear angle g follows from d1² - d2² = 4 a b sin g.
 * Left out: bent axes (paper slipping in the feed), and paper that swells with the weather after the reading.
 * Limits are our own: 0.15 % is what a steel rule read to 0.25 mm can tell over 190 mm; 4 % is more than engines and
 * copiers are off (2 % to 3 % and 1.6 % reported) and less than the usual "fit to page" (94 to 97 %, weak source).
 */
import { requirePositive } from "../checks.ts";

export interface PrintMeasured {
  /** Down the sheet, end to end of the long rule on the left edge. */
  readonly alongMm: number;
  /** Across the sheet, end to end of the rule on the top edge. */
  readonly acrossMm: number;
  /** From the top left cross to the bottom right one. */
  readonly diagonal1Mm: number;
  /** From the top right cross to the bottom left one. */
  readonly diagonal2Mm: number;
}

/** The rectangle as it should be, and the factors with which the measured sheet was drawn. */
export interface PrintNominal {
  readonly alongMm: number;
  readonly acrossMm: number;
  /** Of the sheet that was measured; 1 and 1 unless it said that it was corrected. */
  readonly drawnWith?: PrintFactors;
}

/** Drawn / true: sx across the sheet, sy down it. */
export interface PrintFactors {
  readonly sx: number;
  readonly sy: number;
}

export type PrintCheck =
  | { readonly accept: true }
  | { readonly correct: PrintFactors }
  | { readonly refuse: string; readonly remedy: string };

export const USE_AS_IS = 0.0015;
export const CORRECTABLE = 0.04;
/** Diagonals may differ by this share of their mean: 2 mrad of shear, 0.2 mm over 80 mm. */
export const SKEW_LIMIT = 0.002;
/** How far the four readings may disagree with one another, as a share of the diagonal. */
export const SLIP_LIMIT = 0.004;

const REMEDY_SCALE =
  'In the print dialogue choose "actual size" or 100 %, switch off "fit to page", choose the same paper as in the printer, and print again';
const REMEDY_SKEW =
  "Square the paper against the guides of the tray, feed single sheets from one tray, and print again";
const REMEDY_READ = "Measure all four again with a steel rule, cross to cross, and enter them anew";

/**
 * Whether to use the sheet, print it again with a correction, or refuse it.
 *
 * @throws InputError if a reading or a nominal length is not a number above 0
 * @example
 * printCheck({ alongMm: 271.6, acrossMm: 184.3, diagonal1Mm: 328.2, diagonal2Mm: 328.2 }, { alongMm: 280, acrossMm: 190 });
 * // { correct: { sx: 1.0309…, sy: 1.0309… } }
 */
export function printCheck(measured: PrintMeasured, nominal: PrintNominal): PrintCheck {
  for (const key of ["alongMm", "acrossMm", "diagonal1Mm", "diagonal2Mm"] as const) {
    requirePositive(measured[key], key, "mm", "Measure it with a steel rule and enter it");
  }
  requirePositive(nominal.alongMm, "nominal.alongMm", "mm", "Give the length printed beside the rule");
  requirePositive(nominal.acrossMm, "nominal.acrossMm", "mm", "Give the length printed beside the rule");
  const { alongMm, acrossMm, diagonal1Mm, diagonal2Mm } = measured;

  const meanDiagonal = Math.sqrt((diagonal1Mm ** 2 + diagonal2Mm ** 2) / 2);
  const slip = meanDiagonal / Math.hypot(alongMm, acrossMm) - 1;
  if (Math.abs(slip) > SLIP_LIMIT) {
    return {
      refuse: `the four readings do not belong to one sheet: the diagonals are ${percent(slip)} off what the sides make`,
      remedy: REMEDY_READ,
    };
  }
  const skew = (diagonal1Mm - diagonal2Mm) / meanDiagonal;
  if (Math.abs(skew) > SKEW_LIMIT) {
    return {
      refuse: `the print is skewed: the diagonals differ by ${Math.abs(diagonal1Mm - diagonal2Mm).toFixed(1)} mm`,
      remedy: REMEDY_SKEW,
    };
  }
  const along = alongMm / nominal.alongMm;
  const across = acrossMm / nominal.acrossMm;
  if (Math.max(Math.abs(along - 1), Math.abs(across - 1)) > CORRECTABLE) {
    return {
      refuse: `the print is at ${(along * 100).toFixed(1)} % down and ${(across * 100).toFixed(1)} % across the sheet: too far off to correct`,
      remedy: REMEDY_SCALE,
    };
  }
  if (Math.max(Math.abs(along - 1), Math.abs(across - 1)) <= USE_AS_IS) return { accept: true };
  const { sx, sy } = nominal.drawnWith ?? { sx: 1, sy: 1 };
  const correct = { sx: sx / across, sy: sy / along };
  // Corrections on top of one another must stay small too: a printer that wanders cannot be corrected.
  if (Math.max(Math.abs(correct.sx - 1), Math.abs(correct.sy - 1)) > CORRECTABLE / (1 - CORRECTABLE) + 1e-9) {
    return {
      refuse: "the correction has grown past 4 %: this printer does not print the same twice",
      remedy: REMEDY_SCALE,
    };
  }
  return { correct };
}

function percent(share: number): string {
  return `${(share * 100).toFixed(2)} %`;
}
