/**
 * How high each saddle's contact must stand above the body top.
 *
 * Model: the string is straight over nut, fret 12 and saddle:
 *   z_s = z_n + (z_12 - z_n) (L + s) / (L/2),
 *   z_n = plane(0) + e(0) - drop(R_0, y_0) + nut height,
 *   z_12 = plane(x_12) + e(x_12) - drop(R_12, y_12) + action,
 * each y and R where the string crosses that place; nut height and action are taken over the fret tops' surface.
 * Left out: the string's own sag and the 0.02 mm between the run along the string and along the centre line.
 * Source: derived, similar triangles. z = plane + 2 action - nut height is only a first guess: relief and the drops
 * move it by up to 1 mm.
 */
import { requireFinite, requirePositive } from "../checks.ts";
import { type FretPlane, planeHeightMm, reliefRiseMm } from "./fret-plane.ts";
import { type BoardRadius, dropMm, radiusAtMm } from "./radius.ts";

export interface StringLine {
  readonly scaleLengthMm: number;
  /** Contact behind the scale line. */
  readonly setbackMm: number;
  /** Places counted from the nut's face. */
  readonly plane: FretPlane;
  readonly reliefMm: number;
  readonly freeLengthMm: number;
  readonly board: BoardRadius;
  readonly nutYMm: number;
  readonly contactYMm: number;
  /** Underside of the string over the fret plane's surface at the nut. */
  readonly nutHeightMm: number;
  /** Underside of the string over the top of fret 12. */
  readonly actionMm: number;
}

export interface SaddleHeight {
  /** Contact above the body top. */
  readonly zMm: number;
  readonly zNutMm: number;
  readonly zFret12Mm: number;
}

/**
 * Height of one saddle's contact.
 *
 * @throws InputError if a field is not a number, a length not above 0, or the radius smaller than y
 */
export function saddleHeight(string: StringLine): SaddleHeight {
  refuseUnknown(string);
  const { scaleLengthMm, setbackMm, plane, board, nutYMm, contactYMm } = string;
  const fret12Mm = scaleLengthMm / 2;
  const contactMm = scaleLengthMm + setbackMm;
  const fret12YMm = nutYMm + ((contactYMm - nutYMm) * fret12Mm) / contactMm;
  const zNutMm = boardHeightMm(string, plane, board, 0, nutYMm) + string.nutHeightMm;
  const zFret12Mm = boardHeightMm(string, plane, board, fret12Mm, fret12YMm) + string.actionMm;
  return { zMm: zNutMm + ((zFret12Mm - zNutMm) * contactMm) / fret12Mm, zNutMm, zFret12Mm };
}

/** The height alone, for a sampler. */
export function saddleHeightMm(string: StringLine): number {
  return saddleHeight(string).zMm;
}

/**
 * Action at fret 12 that a saddle of the given height gives: the inverse of `saddleHeight`.
 *
 * @param saddle the string as above; its `actionMm` is not used
 */
export function actionFromSaddleMm(saddle: { readonly string: StringLine; readonly zMm: number }): number {
  const { string, zMm } = saddle;
  const { scaleLengthMm, setbackMm } = string;
  const fret12Mm = scaleLengthMm / 2;
  const over = saddleHeight({ ...string, actionMm: 0 });
  const zString12Mm = over.zNutMm + ((zMm - over.zNutMm) * fret12Mm) / (scaleLengthMm + setbackMm);
  return zString12Mm - over.zFret12Mm;
}

function boardHeightMm(string: StringLine, plane: FretPlane, board: BoardRadius, xMm: number, yMm: number): number {
  return planeHeightMm(plane, xMm) + reliefRiseMm(string, xMm) - dropMm({ radiusMm: radiusAtMm(board, xMm), yMm });
}

function refuseUnknown(string: StringLine): void {
  requirePositive(string.scaleLengthMm, "scaleLengthMm", "mm", "Take twice the distance from nut to fret 12");
  requireFinite(string.setbackMm, "setbackMm", "mm", "Work out the setback first");
  requireFinite(string.reliefMm, "reliefMm", "mm", "Read the relief with a feeler; 0 for a straight neck");
  requireFinite(string.nutHeightMm, "nutHeightMm", "mm", "Read the string's height over the fret plane at the nut");
  requireFinite(string.actionMm, "actionMm", "mm", "Choose the action wanted at fret 12");
}
