/**
 * What part of a pot's track lies between the anticlockwise lug and the wiper.
 *
 * Model: audio is two straight slopes that meet at half rotation; reverse audio is the same from the other end.
 * Left out: end resistance, steps at the joint, tolerance of the track, loading by the circuit.
 * Source: readings of one pot by its owner (10 k a tenth up to 50 k of 500 k, then 90 k a tenth); 10 to 15 % at half
 * rotation in most reports. No-load and blend: common practice, no source.
 */
import { InputError } from "../errors.ts";

/** A letter on the pot does not tell the taper: its meaning differs from region to region. Read it at half rotation. */
export type Taper =
  | { readonly kind: "linear" }
  /** `atHalf`: share at half rotation, 0.1 to 0.15 in most reports; of a reverse audio pot, 1 less its share. */
  | { readonly kind: "audio" | "reverse audio"; readonly atHalf: number };

/**
 * Share of the track between the anticlockwise lug and the wiper.
 *
 * @param rotation 0 at the anticlockwise stop, 1 at the clockwise stop
 * @returns 0 to 1; times the whole track it is ohms
 * @throws InputError if a fraction lies outside 0 to 1
 * @example
 * trackShare({ kind: "audio", atHalf: 0.1 }, 0.25); // 0.05
 */
export function trackShare(taper: Taper, rotation: number): number {
  requireFraction(rotation, "rotation");
  if (taper.kind === "linear") return rotation;
  requireFraction(taper.atHalf, "atHalf");
  return taper.kind === "audio" ? twoSlopes(taper.atHalf, rotation) : 1 - twoSlopes(taper.atHalf, 1 - rotation);
}

/**
 * A pot whose wiper leaves the track shortly before the clockwise stop.
 *
 * @param pot.leavesAt rotation from which the wiper touches nothing
 * @returns the share as of `trackShare`, or "open" where the wiper is off the track
 * @throws InputError if a fraction lies outside 0 to 1
 */
export function noLoadShare(pot: {
  readonly taper: Taper;
  readonly leavesAt: number;
  readonly rotation: number;
}): number | "open" {
  requireFraction(pot.leavesAt, "leavesAt");
  const share = trackShare(pot.taper, pot.rotation);
  return pot.rotation >= pot.leavesAt ? "open" : share;
}

/**
 * The two tracks of a blend pot: each is full from its own end to the middle detent and falls to nothing at the other.
 *
 * @returns shares of the track between the dead end and the wiper: of the track that is full anticlockwise, and of the
 * one that is full clockwise
 * @throws InputError if the rotation lies outside 0 to 1
 * @example
 * blendShares(0.75); // { anticlockwise: 0.5, clockwise: 1 }
 */
export function blendShares(rotation: number): { readonly anticlockwise: number; readonly clockwise: number } {
  requireFraction(rotation, "rotation");
  return { anticlockwise: Math.min(1, 2 * (1 - rotation)), clockwise: Math.min(1, 2 * rotation) };
}

function twoSlopes(atHalf: number, rotation: number): number {
  return rotation <= 0.5 ? 2 * atHalf * rotation : atHalf + (1 - atHalf) * (2 * rotation - 1);
}

function requireFraction(value: number, where: string): void {
  if (value >= 0 && value <= 1) return;
  throw new InputError(where, `must lie between 0 and 1, got ${value}`, "0.5 is half rotation");
}
