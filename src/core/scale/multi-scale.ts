/**
 * Where each string of a multi-scale (fan fret) neck starts and ends, and how it runs.
 *
 * Model: every string has its own scale length; at one fret, the square fret, all strings have the same x. Nut and
 * scale ends follow from it. x = 0 is where the nut crosses the centre line, found between the two strings on either
 * side of it. Yaw is the string's run against the centre line: atan((y at the bridge - y at the nut) / length along
 * the centre line), positive when the string runs toward y > 0 on its way to the bridge, which is the right-hand sense
 * about z of the body frame.
 * Left out: frets that are not straight.
 * Source: derived; practitioners' rule of one window and one yaw a string.
 */
import { requireFinite, requirePositive } from "../checks.ts";
import { InputError } from "../errors.ts";
import { fretShare } from "./frets.ts";

const DEGREES_PER_RADIAN = 180 / Math.PI;

export interface MultiScale {
  /** String 1 first. */
  readonly scaleLengthsMm: readonly number[];
  /** y of each string at the nut and where it ends, string 1 first. */
  readonly nutYMm: readonly number[];
  readonly bridgeYMm: readonly number[];
  /** The fret that stands square to the centre line; 0 is the nut, fractions are allowed. */
  readonly squareFret: number;
  /** How the scale lengths were measured. Along the string they come out shorter along the centre line. */
  readonly measured: "along the string" | "along the centre line";
}

export interface StringRun {
  /** x of the string at the nut, positive toward the bridge. */
  readonly nutXMm: number;
  /** x where its own scale ends. */
  readonly scaleEndXMm: number;
  readonly lengthAlongCentreLineMm: number;
  readonly yawDegrees: number;
}

/**
 * Start, end and yaw of every string.
 *
 * @returns one run a string, in the order given
 * @throws InputError if the lists differ in length or a length is not above 0
 */
export function stringRuns(neck: MultiScale): StringRun[] {
  const { scaleLengthsMm, nutYMm, bridgeYMm, squareFret } = neck;
  const count = scaleLengthsMm.length;
  if (count === 0 || nutYMm.length !== count || bridgeYMm.length !== count) {
    throw new InputError(
      "nutYMm",
      `scale lengths, nut and bridge places must be as many as the strings, got ${count}, ${nutYMm.length} and ${bridgeYMm.length}`,
      "Give one of each for every string, string 1 first",
    );
  }
  requireFinite(squareFret, "squareFret", "frets from the nut", "Name the fret that stands square to the centre line");
  const alongMm = scaleLengthsMm.map((length, i) => {
    requirePositive(length, `scaleLengthsMm[${i}]`, "mm", "Take twice the distance from nut to fret 12 on that string");
    return alongCentreLine(length, (bridgeYMm[i] ?? 0) - (nutYMm[i] ?? 0), neck.measured, i);
  });
  const share = fretShare(squareFret);
  const beforeSquareMm = alongMm.map((length) => length * share);
  const squareXMm = valueAtCentre(nutYMm, beforeSquareMm);
  return alongMm.map((length, i) => {
    const nutXMm = squareXMm - length * share;
    const acrossMm = (bridgeYMm[i] ?? 0) - (nutYMm[i] ?? 0);
    return {
      nutXMm,
      scaleEndXMm: nutXMm + length,
      lengthAlongCentreLineMm: length,
      yawDegrees: Math.atan2(acrossMm, length) * DEGREES_PER_RADIAN,
    };
  });
}

function alongCentreLine(lengthMm: number, acrossMm: number, measured: MultiScale["measured"], index: number): number {
  if (measured === "along the centre line") return lengthMm;
  if (Math.abs(acrossMm) >= lengthMm) {
    throw new InputError(
      `bridgeYMm[${index}]`,
      `the string goes ${acrossMm} mm sideways over a scale of ${lengthMm} mm`,
      "Check the sign of y: bass side and treble side must not be swapped between nut and bridge",
    );
  }
  return Math.sqrt(lengthMm * lengthMm - acrossMm * acrossMm);
}

/** Value on the centre line: between the nearest strings on either side of it, or of the nearest one. */
function valueAtCentre(y: readonly number[], values: readonly number[]): number {
  let below = -1;
  let above = -1;
  y.forEach((at, i) => {
    if (at <= 0 && (below < 0 || at > (y[below] ?? 0))) below = i;
    if (at >= 0 && (above < 0 || at < (y[above] ?? 0))) above = i;
  });
  const low = below < 0 ? above : below;
  const high = above < 0 ? below : above;
  const yLow = y[low] ?? 0;
  const yHigh = y[high] ?? 0;
  const share = yHigh === yLow ? 0 : -yLow / (yHigh - yLow);
  return (values[low] ?? 0) + share * ((values[high] ?? 0) - (values[low] ?? 0));
}
