/**
 * Distances in the plane (and between two segments in space) that the solids are built from.
 *
 * Model: a box is a rectangle turned about its middle; with both halves 0 it is a point. Distances are signed: outside
 * positive, inside the negative of the least push that would part the two.
 * Source: derived: separating axes for two rectangles (the axes of both are all the directions in which the least push
 * can lie), corner to rectangle for parted ones; closest points of two segments by clamping the two parameters.
 */

export interface Box {
  readonly u: number;
  readonly y: number;
  /** Of its turn, right-hand sense about z. */
  readonly cos: number;
  readonly sin: number;
  /** Half sizes along its own first and second axis. */
  readonly halfU: number;
  readonly halfY: number;
}

/** Signed distance from a point to a box. */
export function boxToPoint(box: Box, u: number, y: number): number {
  const du = u - box.u;
  const dy = y - box.y;
  const over = Math.abs(du * box.cos + dy * box.sin) - box.halfU;
  const across = Math.abs(dy * box.cos - du * box.sin) - box.halfY;
  return over > 0 && across > 0 ? Math.sqrt(over * over + across * across) : Math.max(over, across);
}

/** Signed distance between two boxes. */
export function boxToBox(a: Box, b: Box): number {
  if (a.halfU === 0 && a.halfY === 0) return boxToPoint(b, a.u, a.y);
  if (b.halfU === 0 && b.halfY === 0) return boxToPoint(a, b.u, b.y);
  const apart = Math.max(separation(a, b), separation(b, a));
  if (apart <= 0) return apart;
  return Math.min(cornersToBox(a, b), cornersToBox(b, a));
}

/** Greatest gap between the two along the axes of `a`; negative if they overlap on both. */
function separation(a: Box, b: Box): number {
  const du = b.u - a.u;
  const dy = b.y - a.y;
  const cos = Math.abs(a.cos * b.cos + a.sin * b.sin);
  const sin = Math.abs(a.cos * b.sin - a.sin * b.cos);
  const first = Math.abs(du * a.cos + dy * a.sin) - a.halfU - b.halfU * cos - b.halfY * sin;
  const second = Math.abs(dy * a.cos - du * a.sin) - a.halfY - b.halfU * sin - b.halfY * cos;
  return Math.max(first, second);
}

function cornersToBox(from: Box, to: Box): number {
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < 4; k++) {
    const a = k & 1 ? from.halfU : -from.halfU;
    const b = k & 2 ? from.halfY : -from.halfY;
    least = Math.min(least, boxToPoint(to, from.u + a * from.cos - b * from.sin, from.y + a * from.sin + b * from.cos));
  }
  return least;
}

export function pointToSegment(u: number, y: number, u1: number, y1: number, u2: number, y2: number): number {
  const du = u2 - u1;
  const dy = y2 - y1;
  const square = du * du + dy * dy;
  const t = square === 0 ? 0 : clamp(((u - u1) * du + (y - y1) * dy) / square);
  return Math.hypot(u - u1 - t * du, y - y1 - t * dy);
}

/** Distance between two segments of the plane; 0 if they cross. */
export function segmentToSegment2(
  au: number,
  ay: number,
  bu: number,
  by: number,
  cu: number,
  cy: number,
  du: number,
  dy: number,
): number {
  return segmentToSegment3([au, ay, 0], [bu, by, 0], [cu, cy, 0], [du, dy, 0]);
}

type Point3 = readonly [number, number, number];

/** Distance between two segments in space. */
export function segmentToSegment3(a1: Point3, a2: Point3, b1: Point3, b2: Point3): number {
  const d1: Point3 = [a2[0] - a1[0], a2[1] - a1[1], a2[2] - a1[2]];
  const d2: Point3 = [b2[0] - b1[0], b2[1] - b1[1], b2[2] - b1[2]];
  const r: Point3 = [a1[0] - b1[0], a1[1] - b1[1], a1[2] - b1[2]];
  const a = dot(d1, d1);
  const e = dot(d2, d2);
  const f = dot(d2, r);
  const c = dot(d1, r);
  const b = dot(d1, d2);
  let s = 0;
  let t = 0;
  if (a === 0) t = e === 0 ? 0 : clamp(f / e);
  else if (e === 0) s = clamp(-c / a);
  else {
    const denominator = a * e - b * b;
    s = denominator > 1e-12 * a * e ? clamp((b * f - c * e) / denominator) : 0;
    t = (b * s + f) / e;
    if (t < 0) {
      t = 0;
      s = clamp(-c / a);
    } else if (t > 1) {
      t = 1;
      s = clamp((b - c) / a);
    }
  }
  return Math.hypot(r[0] + s * d1[0] - t * d2[0], r[1] + s * d1[1] - t * d2[1], r[2] + s * d1[2] - t * d2[2]);
}

function dot(a: Point3, b: Point3): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

function clamp(t: number): number {
  return Math.min(1, Math.max(0, t));
}
