/**
 * Where the frets of equal temperament stand, and where the scale line is.
 *
 * Model: fret n stands L (1 - 2^(-n/12)) from the nut's end of the scale; the scale line stands L from it.
 * Left out: compensated nuts and shifted frets, which are readings (`fitScale`), not a rule.
 * Source: published; formula as in Byers' intonation research and in Anderson and Beausoleil, J. Acoust. Soc. Am.
 * 156(1) 683 (2024).
 */
import { requireFinite, requirePositive } from "../checks.ts";

const FRETS_PER_OCTAVE = 12;

/**
 * Share of the scale length that lies between the nut and a fret: 0 at the nut, 1/2 at fret 12.
 *
 * @throws InputError unless `fret` is a finite number
 */
export function fretShare(fret: number): number {
  requireFinite(fret, "fret", "frets from the nut", "Count the frets from the nut: 12 is the octave");
  return -Math.expm1((-fret * Math.LN2) / FRETS_PER_OCTAVE);
}

/**
 * Distance of one fret from the nut.
 *
 * @throws InputError unless the scale length is above 0
 * @example
 * fretPositionMm({ scaleLengthMm: 650, fret: 1 }); // 36.48…
 */
export function fretPositionMm(place: { readonly scaleLengthMm: number; readonly fret: number }): number {
  requirePositive(place.scaleLengthMm, "scaleLengthMm", "mm", "Take twice the distance from nut to fret 12");
  return place.scaleLengthMm * fretShare(place.fret);
}

/** Distance from a fret to the scale line, along the string: the sounding length when it is held there. */
export function fretToScaleLineMm(place: { readonly scaleLengthMm: number; readonly fret: number }): number {
  return place.scaleLengthMm - fretPositionMm(place);
}
