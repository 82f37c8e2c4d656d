/**
 * Turns of a saddle's height screw, and what a change at the saddle does along the string.
 *
 * Model: height = turns x pitch. With the nut fixed, a saddle's change acts at x in the share x / (L + s): half of it
 * at fret 12.
 * Left out: play in the thread; two screws under one saddle, which both turn.
 * Source: derived; thread pitches are ISO coarse (published) or 25.4 / threads per inch.
 */
import { requireFinite, requirePositive } from "../checks.ts";

const DEGREES_PER_TURN = 360;
const MM_PER_INCH = 25.4;

export interface ScrewTurn {
  /** Positive raises, for a screw that raises when driven in. */
  readonly turns: number;
  readonly degrees: number;
}

/**
 * Turns that change a height.
 *
 * @throws InputError unless the pitch is above 0 and the change a number
 */
export function screwTurn(screw: { readonly changeMm: number; readonly pitchMm: number }): ScrewTurn {
  requireFinite(screw.changeMm, "changeMm", "mm", "Give how far the saddle is to rise");
  requirePositive(screw.pitchMm, "pitchMm", "mm", "Measure ten threads and divide by ten");
  const turns = screw.changeMm / screw.pitchMm;
  return { turns, degrees: turns * DEGREES_PER_TURN };
}

/** Height that a number of turns gives. */
export function heightOfTurnsMm(screw: { readonly turns: number; readonly pitchMm: number }): number {
  requireFinite(screw.turns, "turns", "turns", "Count the turns, a quarter is 0.25");
  requirePositive(screw.pitchMm, "pitchMm", "mm", "Measure ten threads and divide by ten");
  return screw.turns * screw.pitchMm;
}

export function pitchFromThreadsPerInchMm(threadsPerInch: number): number {
  requirePositive(threadsPerInch, "threadsPerInch", "threads per inch", "Count the threads over one inch");
  return MM_PER_INCH / threadsPerInch;
}

/** Change of the string's height at a share of the string's length from the nut (1/2 at fret 12). */
export function heightChangeAlongMm(change: { readonly saddleMm: number; readonly share: number }): number {
  return change.saddleMm * change.share;
}

/** Change at the saddle that changes the action at fret 12 as wanted. */
export function saddleChangeForActionMm(want: {
  readonly actionMm: number;
  readonly scaleLengthMm: number;
  readonly setbackMm: number;
}): number {
  requireFinite(want.actionMm, "actionMm", "mm", "Give the change wanted at fret 12");
  requirePositive(want.scaleLengthMm, "scaleLengthMm", "mm", "Take twice the distance from nut to fret 12");
  requireFinite(want.setbackMm, "setbackMm", "mm", "Give 0 if it is not known");
  return (want.actionMm * (want.scaleLengthMm + want.setbackMm)) / (want.scaleLengthMm / 2);
}
