/**
 * How far behind the scale line a saddle's contact point belongs.
 *
 * Model: moving the contact back by d lengthens the open string by d and the string held at fret n by d too, so the
 * fretted note falls against the open one by (1200 / ln 2) d (2^(n/12) - 1) / L cents, to first order in d / L.
 * Left out: the second order (1 % of the setback at 17 cents), and that the new contact changes the stretch a little.
 * Source: derived from the string's length; 1200 / ln 2 = 1731.23 cents is the size of a ratio of e.
 */
import { requireFinite, requirePositive } from "../checks.ts";
import { InputError } from "../errors.ts";

/** Cents of a ratio of e. */
const CENTS_PER_NEPER = 1200 / Math.LN2;
const FRETS_PER_OCTAVE = 12;
const DEGREES_PER_RADIAN = 180 / Math.PI;

export interface TrialReading {
  readonly scaleLengthMm: number;
  /** Fret at which the note was compared with the open string. */
  readonly fret: number;
  /** Fretted note against the tempered interval above the open string; positive is sharp. */
  readonly cents: number;
  /** Where the contact stood behind the scale line during the trial; 0 if it stood on it. */
  readonly trialSetbackMm: number;
}

/**
 * Setback from a pitch reading: sharp means further back.
 *
 * @throws InputError for a fret at or behind the nut or a scale length not above 0
 * @example
 * setbackFromCentsMm({ scaleLengthMm: 690, fret: 12, cents: 5.3, trialSetbackMm: 0 }); // 2.11…
 */
export function setbackFromCentsMm(trial: TrialReading): number {
  const { scaleLengthMm, fret, cents, trialSetbackMm } = trial;
  requirePositive(scaleLengthMm, "scaleLengthMm", "mm", "Take twice the distance from nut to fret 12");
  requirePositive(fret, "fret", "frets from the nut", "Compare the open string with a fretted note, best at fret 12");
  requireFinite(cents, "cents", "cents", "Read the fretted note against the open one, sharp positive");
  requireFinite(trialSetbackMm, "trialSetbackMm", "mm", "Give 0 if the contact stood on the scale line");
  return trialSetbackMm + (cents * scaleLengthMm) / (CENTS_PER_NEPER * (2 ** (fret / FRETS_PER_OCTAVE) - 1));
}

/** Cents sharp at a fret that a contact standing `shortMm` too far forward leaves: the inverse of the reading above. */
export function centsLeft(place: {
  readonly scaleLengthMm: number;
  readonly fret: number;
  readonly shortMm: number;
}): number {
  requirePositive(place.scaleLengthMm, "scaleLengthMm", "mm", "Take twice the distance from nut to fret 12");
  requirePositive(place.fret, "fret", "frets from the nut", "Name the fret at which it is heard, 12 as a rule");
  return (place.shortMm * CENTS_PER_NEPER * (2 ** (place.fret / FRETS_PER_OCTAVE) - 1)) / place.scaleLengthMm;
}

/**
 * Setback from the old saddle as it was intonated: how much further the contact stood from fret 12 than the nut does,
 * plus the change that the new string asks for. Both distances from one rule: its scale error cancels.
 *
 * @throws InputError unless both distances are above 0
 */
export function setbackFromOldSaddleMm(reading: {
  readonly nutToFret12Mm: number;
  readonly fret12ToContactMm: number;
  /** New string against old one, positive is further back. */
  readonly changeMm: number;
}): number {
  requirePositive(reading.nutToFret12Mm, "nutToFret12Mm", "mm", "Measure from the nut's face to the crown of fret 12");
  requirePositive(
    reading.fret12ToContactMm,
    "fret12ToContactMm",
    "mm",
    "Measure from the crown of fret 12 to the saddle's contact",
  );
  requireFinite(reading.changeMm, "changeMm", "mm", "Give 0 if the strings stay the same");
  return reading.fret12ToContactMm - reading.nutToFret12Mm + reading.changeMm;
}

export interface SharedSaddle {
  /** Setback halfway between the two wanted. */
  readonly setbackMm: number;
  /** What is left at fret 12 on each string, sharp positive, in the order given. */
  readonly centsLeft: readonly [number, number];
  /**
   * Turn of the saddle's crown that would serve both, in degrees from square; positive carries the first string's
   * contact toward the tail.
   */
  readonly angleDegrees: number;
}

/**
 * Two strings on one saddle: the fairest place and the error that stays on each.
 *
 * @throws InputError unless the strings are apart and the scale length is above 0
 */
export function shareSaddle(pair: {
  readonly scaleLengthMm: number;
  readonly setbacksMm: readonly [number, number];
  /** Distance between the two strings at the saddle. */
  readonly apartMm: number;
}): SharedSaddle {
  const [first, second] = pair.setbacksMm;
  requireFinite(first, "setbacksMm[0]", "mm", "Give the setback wanted by the first string");
  requireFinite(second, "setbacksMm[1]", "mm", "Give the setback wanted by the second string");
  if (!(pair.apartMm > 0)) {
    throw new InputError(
      "apartMm",
      `must be a number above 0 mm, got ${pair.apartMm}`,
      "Measure between the two strings at the saddle",
    );
  }
  const setbackMm = (first + second) / 2;
  const left = (wantedMm: number): number =>
    centsLeft({ scaleLengthMm: pair.scaleLengthMm, fret: FRETS_PER_OCTAVE, shortMm: wantedMm - setbackMm });
  return {
    setbackMm,
    centsLeft: [left(first), left(second)],
    angleDegrees: Math.atan((first - second) / pair.apartMm) * DEGREES_PER_RADIAN,
  };
}
