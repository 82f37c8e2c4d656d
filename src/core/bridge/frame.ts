/**
 * Part places on the body.
 *
 * Frame: u along the centre line from the pocket's end wall toward the tail, y to the right with the head up, z up
 * from the top: right-handed. A part counts p from its front (neck-side) edge toward the tail and q across from its
 * own middle, like y; parts are turned and moved, never mirrored.
 * A pose puts the middle of the part's front edge at (place, side) and turns the part by `yaw` in the right-hand sense
 * about z: the u axis toward the y axis, anticlockwise as seen from the front. A positive yaw therefore carries the
 * part's y > 0 side toward the neck. (`Cavity.angle` and `Pickup.slant` of the instrument count the other way round.)
 * Source: derived, plane rotation.
 */

export const RADIANS_PER_DEGREE = Math.PI / 180;

/** A sum that misses its limit by less than this has reached it: 4.6 - 1.5 - 1.6 is a wall of 1.5. */
export const ROUNDING_MM = 1e-9;

export interface Pose {
  /** u of the middle of the front edge. */
  readonly placeMm: number;
  /** y of the middle of the front edge. */
  readonly sideMm: number;
  readonly yawDegrees: number;
}

export interface PartPoint {
  readonly pMm: number;
  readonly qMm: number;
}

export interface BodyPoint {
  readonly uMm: number;
  readonly yMm: number;
}

/** Where a point of the part stands on the body. */
export function toBody(pose: Pose, at: PartPoint): BodyPoint {
  const yaw = pose.yawDegrees * RADIANS_PER_DEGREE;
  const cos = Math.cos(yaw);
  const sin = Math.sin(yaw);
  return {
    uMm: pose.placeMm + at.pMm * cos - at.qMm * sin,
    yMm: pose.sideMm + at.qMm * cos + at.pMm * sin,
  };
}

/** Which point of the part stands over a place of the body. */
export function toPart(pose: Pose, at: BodyPoint): PartPoint {
  const yaw = pose.yawDegrees * RADIANS_PER_DEGREE;
  const cos = Math.cos(yaw);
  const sin = Math.sin(yaw);
  const du = at.uMm - pose.placeMm;
  const dy = at.yMm - pose.sideMm;
  return { pMm: du * cos + dy * sin, qMm: dy * cos - du * sin };
}
