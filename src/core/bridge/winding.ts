/**
 * Does the string's full winding reach past the nut from where its ball is held?
 *
 * Model: the string runs straight from the nut's face to the saddle's contact, and from there straight to the ball's
 * stop, or over a corner and straight down to it. What the path leaves of the winding length passes the nut.
 * Left out: the string's climb between nut and contact (0.02 mm), its bend round saddle and corner.
 * Source: derived; at least 3 past the nut is common practice.
 */
import { requireFinite, requirePositive } from "../checks.ts";

export interface ContactPlace {
  /** From the nut's face along the string. */
  readonly xMm: number;
  readonly zMm: number;
}

export type Anchor =
  /** Ball stop on the plate. */
  | { readonly kind: "top"; readonly xMm: number; readonly zMm: number }
  /** Over a corner, then straight down by `downMm` to the ball. */
  | { readonly kind: "through"; readonly xMm: number; readonly zMm: number; readonly downMm: number };

/** Length from the ball to the nut's face. */
export function ballToNutMm(string: { readonly contact: ContactPlace; readonly anchor: Anchor }): number {
  const { contact, anchor } = string;
  requirePositive(contact.xMm, "contact.xMm", "mm", "Give scale length plus setback");
  requireFinite(contact.zMm, "contact.zMm", "mm", "Give the saddle's contact height above the top");
  requireFinite(anchor.xMm, "anchor.xMm", "mm", "Give the place of the ball stop, or of the corner, from the nut");
  requireFinite(anchor.zMm, "anchor.zMm", "mm", "Give its height above the top");
  const behind = Math.hypot(anchor.xMm - contact.xMm, anchor.zMm - contact.zMm);
  return contact.xMm + behind + (anchor.kind === "through" ? anchor.downMm : 0);
}

/**
 * How far the full winding passes the nut; negative: it ends inside the sounding length.
 *
 * @throws InputError unless the winding length is above 0
 */
export function windingPastNutMm(string: {
  readonly contact: ContactPlace;
  readonly anchor: Anchor;
  readonly windingLengthMm: number;
}): number {
  requirePositive(
    string.windingLengthMm,
    "windingLengthMm",
    "mm",
    "Take it from the string maker's sheet, or measure from the ball to where the winding thins",
  );
  return string.windingLengthMm - ballToNutMm(string);
}

/** Angle between the string before and behind the saddle: small ones let the string lift or buzz. */
export function breakAngleDegrees(string: {
  readonly contact: ContactPlace;
  readonly anchor: Anchor;
  readonly nutZMm: number;
}): number {
  const { contact, anchor, nutZMm } = string;
  const before = Math.atan2(contact.zMm - nutZMm, contact.xMm);
  const behind = Math.atan2(contact.zMm - anchor.zMm, anchor.xMm - contact.xMm);
  return ((before + behind) * 180) / Math.PI;
}
