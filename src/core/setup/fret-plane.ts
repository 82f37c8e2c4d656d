/**
 * The plane of the fret tops at the neck's stiff end, on the centre line, and the relief above it.
 *
 * Model: plane(x) = z + slope (x - at), z up from the body top. Two ways to it: the heel chain
 * (heel - pocket + fret height, slope unknown and taken as 0) or a straightedge laid on the frets of the stiff end and
 * read down to the top at two or more places, which also gives the slope. Relief: e(x) = 4 r (1 - x/l)² for x < l, so
 * that the middle of the free length lies r below the chord from the nut to l.
 * Left out: a kinked neck end, twist across the board, finish thickness under the heel.
 * Source: derived; the straightedge beats the chain because heel and pocket errors add up (common practice).
 */
import { requireFinite, requirePositive } from "../checks.ts";
import { InputError } from "../errors.ts";

const FEWEST_PLACES = 2;

export interface FretPlane {
  /** Height above the top at `atMm`. */
  readonly zMm: number;
  readonly atMm: number;
  /** Rise per mm toward the tail; positive when the board climbs toward the bridge. */
  readonly slope: number;
}

/** Height of the plane at a place counted like `plane.atMm`. */
export function planeHeightMm(plane: FretPlane, placeMm: number): number {
  return plane.zMm + plane.slope * (placeMm - plane.atMm);
}

/**
 * From heel, pocket and fret. Parallel to the top until a straightedge says otherwise.
 *
 * @throws InputError if a dimension is not a number or the heel or pocket not above 0
 * @example
 * fretPlaneFromHeel({ heelThicknessMm: 24.6, pocketDepthMm: 16, fretHeightMm: 1.2 }).zMm; // 9.8
 */
export function fretPlaneFromHeel(chain: {
  /** Back of the heel to the board's crown, at the stiff end. */
  readonly heelThicknessMm: number;
  readonly pocketDepthMm: number;
  readonly fretHeightMm: number;
}): FretPlane {
  requirePositive(
    chain.heelThicknessMm,
    "heelThicknessMm",
    "mm",
    "Measure from the back of the heel to the board's crown",
  );
  requirePositive(chain.pocketDepthMm, "pocketDepthMm", "mm", "Measure from the body top to the pocket's floor");
  requireFinite(chain.fretHeightMm, "fretHeightMm", "mm", "Measure the crown over the board; 0 on a fretless board");
  return { zMm: chain.heelThicknessMm - chain.pocketDepthMm + chain.fretHeightMm, atMm: 0, slope: 0 };
}

/**
 * From a straightedge on the frets, read down to the top at two or more places (least squares for more than two).
 *
 * @throws InputError for fewer than two different places
 */
export function fretPlaneFromStraightedge(
  readings: readonly { readonly atMm: number; readonly zMm: number }[],
): FretPlane {
  readings.forEach((reading, i) => {
    requireFinite(reading.atMm, `readings[${i}].atMm`, "mm", "Say where along the body the straightedge was read");
    requireFinite(reading.zMm, `readings[${i}].zMm`, "mm", "Measure from the top up to the straightedge's lower edge");
  });
  const places = new Set(readings.map((reading) => reading.atMm)).size;
  if (places < FEWEST_PLACES) {
    throw new InputError(
      "readings",
      `must hold at least ${FEWEST_PLACES} different places, got ${places}`,
      "Read once near the pocket and once near the bridge",
    );
  }
  const atMm = readings.reduce((sum, reading) => sum + reading.atMm, 0) / readings.length;
  const zMm = readings.reduce((sum, reading) => sum + reading.zMm, 0) / readings.length;
  let spread = 0;
  let product = 0;
  for (const reading of readings) {
    spread += (reading.atMm - atMm) ** 2;
    product += (reading.atMm - atMm) * (reading.zMm - zMm);
  }
  return { zMm, atMm, slope: product / spread };
}

/** The same plane with places counted from another start: new place = old place + `byMm`. */
export function countPlaneFrom(plane: FretPlane, byMm: number): FretPlane {
  return { ...plane, atMm: plane.atMm + byMm };
}

/** How far the frets stand above the stiff end's plane because of relief. */
export function reliefRiseMm(neck: { readonly reliefMm: number; readonly freeLengthMm: number }, xMm: number): number {
  if (neck.reliefMm === 0 || xMm >= neck.freeLengthMm) return 0;
  requirePositive(
    neck.freeLengthMm,
    "freeLengthMm",
    "mm",
    "Measure from the nut to where the neck becomes stiff, about the pocket's mouth",
  );
  const share = 1 - xMm / neck.freeLengthMm;
  return 4 * neck.reliefMm * share * share;
}
