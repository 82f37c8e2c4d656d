/**
 * Curved boards: how far the surface falls off the middle, and the radius along a board.
 *
 * Model: the board's section is an arc; drop(R, y) = R - sqrt(R² - y²). A compound board's radius is linear in x and
 * goes on past its end. A true cone whose rulings are the strings has R1 = R0 w1 / w0 with w the strings' spread: only
 * then does a straightedge touch along every string.
 * Left out: fall-away at the last frets, worn frets.
 * Source: derived, circle and cone.
 */
import { requireFinite, requirePositive } from "../checks.ts";
import { InputError } from "../errors.ts";

const FLAT_REMEDY = "Read the radius with a gauge, or give the width and the rise to `radiusFromSagittaMm`";

/**
 * How far an arc of radius R falls at the distance y from its crown. Infinity is a flat board.
 *
 * @throws InputError unless the radius is above 0 and at least |y|
 */
export function dropMm(arc: { readonly radiusMm: number; readonly yMm: number }): number {
  const { radiusMm, yMm } = arc;
  requireFinite(yMm, "yMm", "mm", "Measure from the centre line");
  if (radiusMm === Number.POSITIVE_INFINITY) return 0;
  requirePositive(radiusMm, "radiusMm", "mm", FLAT_REMEDY);
  const over = radiusMm * radiusMm - yMm * yMm;
  if (over < 0) {
    throw new InputError(
      "radiusMm",
      `must be at least the distance from the centre line (${Math.abs(yMm)} mm), got ${radiusMm}`,
      FLAT_REMEDY,
    );
  }
  // Written so that a nearly flat board keeps its digits.
  return (yMm * yMm) / (radiusMm + Math.sqrt(over));
}

/** Rise of an arc over a chord of the given width. */
export function sagittaMm(arc: { readonly radiusMm: number; readonly widthMm: number }): number {
  return dropMm({ radiusMm: arc.radiusMm, yMm: arc.widthMm / 2 });
}

/**
 * Radius of an arc from a chord and its rise.
 *
 * @throws InputError unless both are above 0 and the rise is at most half the width
 */
export function radiusFromSagittaMm(arc: { readonly widthMm: number; readonly sagittaMm: number }): number {
  requirePositive(arc.widthMm, "widthMm", "mm", "Measure the straight edge's width over the board");
  requirePositive(
    arc.sagittaMm,
    "sagittaMm",
    "mm",
    "Measure the gap at both edges under a straightedge that rests on the crown",
  );
  if (arc.sagittaMm > arc.widthMm / 2) {
    throw new InputError(
      "sagittaMm",
      `must be at most half the width, got ${arc.sagittaMm} over ${arc.widthMm} mm`,
      "Check which is the width and which the rise",
    );
  }
  return arc.widthMm ** 2 / (8 * arc.sagittaMm) + arc.sagittaMm / 2;
}

/** A board's radius along x; equal ends for one radius throughout. */
export interface BoardRadius {
  readonly atNutMm: number;
  readonly atEndMm: number;
  /** x at which `atEndMm` holds. */
  readonly endXMm: number;
}

/**
 * Radius of a compound board at x, linear and carried on past the board's end.
 *
 * @throws InputError if the radius carried on so far is no longer above 0
 */
export function radiusAtMm(board: BoardRadius, xMm: number): number {
  const { atNutMm, atEndMm, endXMm } = board;
  if (atNutMm === atEndMm) return atNutMm;
  requirePositive(endXMm, "endXMm", "mm", "Give the distance from the nut at which the end radius was read");
  const radiusMm = atNutMm + ((atEndMm - atNutMm) * xMm) / endXMm;
  return radiusMm > 0 ? radiusMm : refuseRadius(radiusMm, xMm);
}

function refuseRadius(radiusMm: number, xMm: number): never {
  throw new InputError(
    "atEndMm",
    `the board's radius would be ${radiusMm} mm at ${xMm} mm from the nut`,
    "Check the two radii and where the second one holds",
  );
}

/** Radius at the far end of a cone whose rulings are the strings. */
export function coneRadiusMm(cone: {
  readonly radiusAtNutMm: number;
  readonly spreadAtNutMm: number;
  readonly spreadThereMm: number;
}): number {
  requirePositive(cone.radiusAtNutMm, "radiusAtNutMm", "mm", FLAT_REMEDY);
  requirePositive(cone.spreadAtNutMm, "spreadAtNutMm", "mm", "Measure between the outer strings at the nut");
  requirePositive(cone.spreadThereMm, "spreadThereMm", "mm", "Measure between the outer strings there");
  return (cone.radiusAtNutMm * cone.spreadThereMm) / cone.spreadAtNutMm;
}

/**
 * Heights of the saddles' contacts above the outer pair, if they are to follow one arc.
 *
 * @param arc `yMm`: each string from the centre of the arc, any order
 * @returns one height a string, in the order given; the lowest is 0
 */
export function saddleArcMm(arc: { readonly radiusMm: number; readonly yMm: readonly number[] }): number[] {
  const drops = arc.yMm.map((yMm) => dropMm({ radiusMm: arc.radiusMm, yMm }));
  const lowest = Math.max(...drops);
  return drops.map((drop) => lowest - drop);
}
