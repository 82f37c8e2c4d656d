/**
 * What a pot gives at half turn, turned either way.
 *
 * Model: an audio taper is two straight slopes that meet at half turn; "reverse audio" is the same seen from the other
 * end; swapping the outer lugs turns the direction and takes one less the ratio.
 * Left out: loading by the rest of the circuit, tolerance of the track.
 * Source: readings of one pot by its owner (10 k per tenth up to 50 k of 500 k, then 90 k per tenth); the ratio at half
 * turn is 10 to 15 % in most reports. Rule FT13.
 */
import { InputError } from "../errors.ts";

/** Ratio at half turn clockwise of an audio pot, unless it was measured. */
export const AUDIO_AT_HALF = 0.1;

export type Taper = "audio" | "linear" | "reverse audio";

/** Halfway between the three tapers at half turn, 0.1, 0.5 and 0.9. Common practice, no source. */
const LINEAR_FROM = 0.3;
const LINEAR_TO = 0.7;

/**
 * The taper of a pot whose ohms at half turn were read, by the nearest of the three.
 *
 * @returns undefined if the two readings cannot belong together
 * @example
 * taperFromOhms({ atHalfTurnOhms: 60e3, wholeOhms: 500e3 }); // "audio", 0.12
 */
export function taperFromOhms(pot: { readonly atHalfTurnOhms: number; readonly wholeOhms: number }): Taper | undefined {
  const ratio = pot.atHalfTurnOhms / pot.wholeOhms;
  if (!(ratio > 0 && ratio < 1)) return undefined;
  if (ratio < LINEAR_FROM) return "audio";
  return ratio <= LINEAR_TO ? "linear" : "reverse audio";
}

/**
 * Ratio of the pot between its anticlockwise lug and the wiper.
 *
 * @param turn.clockwise 0 at the anticlockwise stop, 1 at the clockwise stop
 * @throws InputError if a fraction lies outside 0 to 1
 */
export function taperRatio(turn: {
  readonly taper: Taper;
  readonly atHalf: number;
  readonly clockwise: number;
}): number {
  const { taper, atHalf, clockwise } = turn;
  requireFraction(clockwise, "clockwise");
  requireFraction(atHalf, "atHalf");
  if (taper === "linear") return clockwise;
  if (taper === "reverse audio") return 1 - twoSlopes(atHalf, 1 - clockwise);
  return twoSlopes(atHalf, clockwise);
}

/**
 * Level after a turn from the quiet end in the direction in which it is to rise; anticlockwise means outer lugs swapped.
 *
 * @example
 * levelAfterTurn({ taper: "audio", atHalf: 0.1, turn: 0.5, rises: "anticlockwise" }); // 0.9
 */
export function levelAfterTurn(turn: {
  readonly taper: Taper;
  readonly atHalf: number;
  readonly turn: number;
  readonly rises: "clockwise" | "anticlockwise";
}): number {
  const { taper, atHalf, rises } = turn;
  if (rises === "clockwise") return taperRatio({ taper, atHalf, clockwise: turn.turn });
  return 1 - taperRatio({ taper, atHalf, clockwise: 1 - turn.turn });
}

function twoSlopes(atHalf: number, turn: number): number {
  return turn <= 0.5 ? 2 * atHalf * turn : atHalf + (1 - atHalf) * (2 * turn - 1);
}

function requireFraction(value: number, where: string): void {
  if (!(value >= 0 && value <= 1))
    throw new InputError(where, `must lie between 0 and 1, got ${value}`, "0.5 is half turn");
}
