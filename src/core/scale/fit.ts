/**
 * Scale length and start of the scale from frets read with one placing of the rule.
 *
 * Model: reading = x0 + L (1 - 2^(-n/12)) + error, errors alike and independent; ordinary least squares in x0 and L.
 * The rule's own start falls into x0, so it need not lie against the nut, and a nut that is set forward or back does
 * not spoil L.
 * Left out: frets that were moved on purpose, and an error that grows along the rule (it looks like a longer L).
 * Source: derived; ordinary least squares of a straight line.
 */
import { requireFinite, requirePositive } from "../checks.ts";
import { InputError } from "../errors.ts";
import { fretShare } from "./frets.ts";

const FEWEST_READINGS = 3;
const PARAMETERS = 2;

export interface FretReading {
  /** Frets from the nut, 12 = octave. */
  readonly fret: number;
  /** What the rule shows over the fret's crown. */
  readonly atMm: number;
}

export interface ScaleFit {
  readonly scaleLengthMm: number;
  /** Where the scale starts on the rule. */
  readonly startMm: number;
  /** Where the scale line falls on the rule: start plus scale length. */
  readonly scaleLineMm: number;
  /** Standard errors, from `readingDoubtMm` if it was given, else from the scatter of the readings. */
  readonly scaleLengthErrorMm: number;
  readonly startErrorMm: number;
  readonly scaleLineErrorMm: number;
  /** Reading minus fit, in the order given. */
  readonly residualsMm: readonly number[];
  /** Standard deviation of one reading as the scatter shows it (n - 2 degrees of freedom). */
  readonly scatterMm: number;
  /** Index of the reading that lies furthest off the fit. */
  readonly worstIndex: number;
}

/**
 * Fits L and x0 to three or more frets read from one placing.
 *
 * @param input `readingDoubtMm`: standard uncertainty of one reading, if it is known; three readings alone leave one
 *   degree of freedom, so their scatter says little
 * @throws InputError for fewer than three readings or fewer than three different frets
 * @example
 * fitScale({ readings: [{ fret: 1, atMm: 36.4 }, { fret: 12, atMm: 325 }, { fret: 20, atMm: 445.3 }] }).scaleLengthMm;
 */
export function fitScale(input: {
  readonly readings: readonly FretReading[];
  readonly readingDoubtMm?: number;
}): ScaleFit {
  const { readings, readingDoubtMm } = input;
  refuseTooFew(readings);
  if (readingDoubtMm !== undefined) {
    requirePositive(readingDoubtMm, "readingDoubtMm", "mm", "Leave it out to take the scatter of the readings instead");
  }
  const shares = readings.map((reading) => fretShare(reading.fret));
  const count = readings.length;
  const meanShare = shares.reduce((sum, share) => sum + share, 0) / count;
  const meanAt = readings.reduce((sum, reading) => sum + reading.atMm, 0) / count;
  let spread = 0;
  let product = 0;
  readings.forEach((reading, index) => {
    const off = (shares[index] ?? 0) - meanShare;
    spread += off * off;
    product += off * (reading.atMm - meanAt);
  });
  const scaleLengthMm = product / spread;
  const startMm = meanAt - scaleLengthMm * meanShare;
  const residualsMm = readings.map((reading, index) => reading.atMm - startMm - scaleLengthMm * (shares[index] ?? 0));
  const scatterMm = Math.sqrt(residualsMm.reduce((sum, r) => sum + r * r, 0) / (count - PARAMETERS));
  const one = readingDoubtMm ?? scatterMm;
  /** Standard error of the fitted line where the share of the scale length is `share`: 0 the nut, 1 the scale line. */
  const errorAt = (share: number): number => one * Math.sqrt(1 / count + (share - meanShare) ** 2 / spread);
  return {
    scaleLengthMm,
    startMm,
    scaleLineMm: startMm + scaleLengthMm,
    scaleLengthErrorMm: one / Math.sqrt(spread),
    startErrorMm: errorAt(0),
    scaleLineErrorMm: errorAt(1),
    residualsMm,
    scatterMm,
    worstIndex: residualsMm.reduce((worst, r, i) => (Math.abs(r) > Math.abs(residualsMm[worst] ?? 0) ? i : worst), 0),
  };
}

/** A reading this many of its own doubts off the fit is a slip, not scatter (common practice: three). */
const SLIP = 3;

/**
 * Readings that may be slips, the one furthest off the fit first; empty if all lie on one scale.
 *
 * Suspect is a reading without which the others agree. Of three readings that can be any: two always fit.
 *
 * @throws InputError as `fitScale`
 */
export function suspectReadings(given: {
  readonly readings: readonly FretReading[];
  readonly readingDoubtMm: number;
}): number[] {
  const { readings, readingDoubtMm } = given;
  const { residualsMm } = fitScale(given);
  if (agree(readings, readingDoubtMm)) return [];
  const all = readings.map((_, index) => index);
  const freed = all.filter((index) =>
    agree([...readings.slice(0, index), ...readings.slice(index + 1)], readingDoubtMm),
  );
  const off = (index: number): number => Math.abs(residualsMm[index] ?? 0);
  return (freed.length > 0 ? freed : all).sort((a, b) => off(b) - off(a));
}

function agree(readings: readonly FretReading[], doubtMm: number): boolean {
  if (new Set(readings.map((reading) => reading.fret)).size < FEWEST_READINGS) return true;
  const { residualsMm, scatterMm } = fitScale({ readings });
  return Math.max(scatterMm, ...residualsMm.map(Math.abs)) <= SLIP * doubtMm;
}

function refuseTooFew(readings: readonly FretReading[]): void {
  readings.forEach((reading, index) => {
    requireFinite(reading.fret, `readings[${index}].fret`, "frets from the nut", "Count the frets from the nut");
    requireFinite(reading.atMm, `readings[${index}].atMm`, "mm", "Read the rule over the fret's crown");
  });
  const different = new Set(readings.map((reading) => reading.fret)).size;
  if (different < FEWEST_READINGS) {
    throw new InputError(
      "readings",
      `must hold at least ${FEWEST_READINGS} different frets read from one placing, got ${different}`,
      "Read one more fret without moving the rule, far from the others",
    );
  }
}
