/**
 * A rigid part and its drawing: symmetry, inches printed short, coated metal.
 *
 * Parts are never mirrored. A pattern of holes that is symmetrical hides a sheet laid face down.
 * Source: derived; coated metal common practice. Rules FT39 to FT41.
 */
import { InputError } from "../errors.ts";
import { requirePlacesMm, requireSizesMm } from "./guard.ts";

const MM_PER_INCH = 25.4;

export interface PlatePoint {
  readonly pMm: number;
  readonly qMm: number;
}

export interface Symmetry {
  /** A sheet laid face down would look right. */
  readonly looksRightFaceDown: boolean;
  /** Largest distance from a mirrored hole to the nearest hole of the pattern. */
  readonly worstMm: number;
}

/** Does the pattern of holes look the same with its sides changed? */
export function faceDown(pattern: { readonly holes: readonly PlatePoint[]; readonly withinMm: number }): Symmetry {
  const { holes, withinMm } = pattern;
  requireSizesMm({ withinMm }, "1 mm is as much as an eye sees");
  let worstMm = 0;
  holes.forEach((hole, index) => {
    requirePlacesMm({ [`holes[${index}].pMm`]: hole.pMm, [`holes[${index}].qMm`]: hole.qMm }, "Measure on the plate");
    let nearest = Number.POSITIVE_INFINITY;
    for (const other of holes) nearest = Math.min(nearest, Math.hypot(hole.pMm - other.pMm, -hole.qMm - other.qMm));
    worstMm = Math.max(worstMm, nearest);
  });
  return { looksRightFaceDown: worstMm <= withinMm, worstMm };
}

export interface InchDrawing {
  /** Rounding of the last digit less the difference. */
  readonly marginMm: number;
  readonly drawnMm: number;
  readonly differenceMm: number;
  /** Half of the last digit printed. */
  readonly roundingMm: number;
  /** The declared figure looks as if it had been turned from inches twice, or not at all. */
  readonly converted: "once" | "twice" | "not at all";
}

/**
 * A dimension declared in millimetres against the inches printed on the drawing.
 *
 * @example
 * inchDrawing({ declaredMm: 47, drawnInch: 1.85, decimals: 3 }); // 46.99: 0.01 apart, rounding alone
 */
export function inchDrawing(line: {
  readonly declaredMm: number;
  readonly drawnInch: number;
  /** Places after the point on the drawing. */
  readonly decimals: number;
}): InchDrawing {
  const { declaredMm, drawnInch, decimals } = line;
  requireSizesMm({ declaredMm }, "Give the figure used");
  requireSizesMm({ drawnInch }, "Give the inches as printed");
  if (!(Number.isInteger(decimals) && decimals >= 0 && decimals <= 6)) {
    throw new InputError(
      "decimals",
      `must be a whole number from 0 to 6, got ${decimals}`,
      "Count the digits after the point",
    );
  }
  const drawnMm = drawnInch * MM_PER_INCH;
  const differenceMm = Math.abs(declaredMm - drawnMm);
  const roundingMm = 0.5 * 10 ** -decimals * MM_PER_INCH;
  const ratio = declaredMm / drawnMm;
  const converted = near(ratio, MM_PER_INCH) ? "twice" : near(ratio, 1 / MM_PER_INCH) ? "not at all" : "once";
  return { marginMm: roundingMm - differenceMm, drawnMm, differenceMm, roundingMm, converted };
}

/** Within a hundredth: no two dimensions of one part differ by a factor of 25.4 by chance and that closely. */
function near(ratio: number, factor: number): boolean {
  return Math.abs(ratio / factor - 1) < 0.01;
}

export type StringGround = "bare" | "make bare" | "meter first";

/** Does the ground wire under the plate touch metal? A coat insulates; without word of a coat the meter says. */
export function stringGround(plate: { readonly coated: boolean; readonly wireFound: boolean }): StringGround {
  if (!plate.wireFound) return "meter first";
  return plate.coated ? "make bare" : "bare";
}
