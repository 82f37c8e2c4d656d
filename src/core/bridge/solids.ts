/**
 * Holes, plugs, routs, wire channels and the body's edge as solids, and the wood left between two of them.
 *
 * Model: a column is a round or rounded-rectangular outline swept straight down between two heights; whatever is open
 * at the top goes on upward without end (so "lifting it out" is no way round an overlap), likewise at the back. A
 * channel is a capsule: all points within its radius of a line. The body's edge is a tail line or a closed outline and
 * bounds the wood at every height. The wall is the least distance between surfaces; negative is an overlap by so much
 * (the least push that would part them).
 * A rounded rectangle is the set of points within its corner radius of a smaller rectangle, its core; core distances
 * less the radii are exact outside and inside. Columns part in plan or in height or both: root of the sum of squares.
 * Left out: the cone under a drill's shoulder (give the depth to the tip), taper, the flat ends of a wire channel.
 * Source: derived.
 */
import { requireFinite, requirePositive } from "../checks.ts";
import { InputError } from "../errors.ts";
import { RADIANS_PER_DEGREE } from "./frame.ts";
import { type Box, boxToBox, boxToPoint, pointToSegment, segmentToSegment2, segmentToSegment3 } from "./planar.ts";

export interface Column extends Box {
  readonly kind: "column";
  readonly id: string;
  /** Added all round the box; the whole radius of a round hole. */
  readonly radiusMm: number;
  /** Heights above the body top, negative inside the wood. */
  readonly topZMm: number;
  readonly bottomZMm: number;
}

export interface Channel {
  readonly kind: "channel";
  readonly id: string;
  /** u, y, z of both ends of its middle line. */
  readonly from: readonly [number, number, number];
  readonly to: readonly [number, number, number];
  readonly radiusMm: number;
}

export type BodyEdge =
  | { readonly kind: "tail line"; readonly id: string; readonly uMm: number }
  | { readonly kind: "outline"; readonly id: string; readonly points: readonly (readonly [number, number])[] };

export type Solid = Column | Channel | BodyEdge;

/** A column from its outline's overall sizes. */
export function column(outline: {
  readonly id: string;
  readonly uMm: number;
  readonly yMm: number;
  /** Overall sizes along u and along y before turning. */
  readonly alongMm: number;
  readonly acrossMm: number;
  readonly cornerRadiusMm: number;
  readonly yawDegrees: number;
  readonly topZMm: number;
  readonly bottomZMm: number;
}): Column {
  const { id, uMm, yMm, alongMm, acrossMm, yawDegrees, topZMm, bottomZMm } = outline;
  requireFinite(uMm, `${id}.uMm`, "mm", "Measure from the pocket's end wall");
  requireFinite(yMm, `${id}.yMm`, "mm", "Measure from the centre line");
  requirePositive(alongMm, `${id}.alongMm`, "mm", "Measure it along the centre line");
  requirePositive(acrossMm, `${id}.acrossMm`, "mm", "Measure it across the centre line");
  const radiusMm = Math.min(Math.max(0, outline.cornerRadiusMm), alongMm / 2, acrossMm / 2);
  return {
    kind: "column",
    id,
    u: uMm,
    y: yMm,
    cos: Math.cos(yawDegrees * RADIANS_PER_DEGREE),
    sin: Math.sin(yawDegrees * RADIANS_PER_DEGREE),
    halfU: alongMm / 2 - radiusMm,
    halfY: acrossMm / 2 - radiusMm,
    radiusMm,
    topZMm,
    bottomZMm,
  };
}

export interface DrilledHole {
  readonly id: string;
  readonly uMm: number;
  readonly yMm: number;
  readonly diameterMm: number;
  /** From the face it was drilled from to the tip. */
  readonly depthMm: number | "through";
  /** From the back: give the body's thickness too. Left out: from the top. */
  readonly fromBackOfMm?: number;
}

/**
 * A round hole square to the top.
 *
 * @throws InputError unless diameter and depth are above 0
 */
export function drilledHole(hole: DrilledHole): Column {
  requirePositive(hole.diameterMm, `${hole.id}.diameterMm`, "mm", "Measure the hole, torn edge included");
  const { topZMm, bottomZMm } = heights(hole.id, hole.depthMm, hole.fromBackOfMm);
  const { id, uMm, yMm, diameterMm } = hole;
  return column({
    id,
    uMm,
    yMm,
    alongMm: diameterMm,
    acrossMm: diameterMm,
    cornerRadiusMm: diameterMm / 2,
    yawDegrees: 0,
    topZMm,
    bottomZMm,
  });
}

export interface Rout {
  readonly id: string;
  readonly uMm: number;
  readonly yMm: number;
  /** Overall size across the centre line and along it, before turning. */
  readonly lengthMm: number;
  readonly widthMm: number;
  readonly cornerRadiusMm: number;
  /** Right-hand sense about z: the negative of `Cavity.angle` and `Pickup.slant`. */
  readonly yawDegrees: number;
  readonly depthMm: number | "through";
  readonly fromBackOfMm?: number;
  readonly ears?: {
    readonly lengthMm: number;
    readonly widthMm: number;
    readonly depthMm: number;
    readonly cornerRadiusMm?: number;
  };
}

/** A cavity and, if it has them, its ears: one or two solids with the same id. */
export function rout(cavity: Rout): Column[] {
  const { id, uMm, yMm, yawDegrees, fromBackOfMm, ears } = cavity;
  const main = heights(id, cavity.depthMm, fromBackOfMm);
  const out = [
    column({
      id,
      uMm,
      yMm,
      yawDegrees,
      alongMm: cavity.widthMm,
      acrossMm: cavity.lengthMm,
      cornerRadiusMm: cavity.cornerRadiusMm,
      ...main,
    }),
  ];
  if (ears) {
    const deep = heights(id, ears.depthMm, fromBackOfMm);
    out.push(
      column({
        id,
        uMm,
        yMm,
        yawDegrees,
        alongMm: ears.widthMm,
        acrossMm: ears.lengthMm,
        cornerRadiusMm: ears.cornerRadiusMm ?? cavity.cornerRadiusMm,
        ...deep,
      }),
    );
  }
  return out;
}

/** A drilled way for a wire, between two points given by their depth below the top. */
export function wireChannel(way: {
  readonly id: string;
  readonly from: { readonly uMm: number; readonly yMm: number; readonly depthMm: number };
  readonly to: { readonly uMm: number; readonly yMm: number; readonly depthMm: number };
  readonly diameterMm: number;
}): Channel {
  requirePositive(way.diameterMm, `${way.id}.diameterMm`, "mm", "Measure the channel's bore");
  for (const [end, name] of [
    [way.from, "from"],
    [way.to, "to"],
  ] as const) {
    requireFinite(end.uMm, `${way.id}.${name}.uMm`, "mm", "Measure where the channel opens");
    requireFinite(end.yMm, `${way.id}.${name}.yMm`, "mm", "Measure where the channel opens");
    requireFinite(end.depthMm, `${way.id}.${name}.depthMm`, "mm", "Measure the opening's depth below the top");
  }
  return {
    kind: "channel",
    id: way.id,
    from: [way.from.uMm, way.from.yMm, -way.from.depthMm],
    to: [way.to.uMm, way.to.yMm, -way.to.depthMm],
    radiusMm: way.diameterMm / 2,
  };
}

/** The body's end: wood lies at u below it. */
export function tailLine(line: { readonly id: string; readonly uMm: number }): BodyEdge {
  requireFinite(line.uMm, `${line.id}.uMm`, "mm", "Measure from the pocket's end wall to the tail edge");
  return { kind: "tail line", ...line };
}

/** The body's outline, closed from the last point to the first: wood lies inside. */
export function bodyOutline(outline: {
  readonly id: string;
  readonly points: readonly (readonly [number, number])[];
}): BodyEdge {
  if (outline.points.length < 3) {
    throw new InputError(
      `${outline.id}.points`,
      `must hold at least 3 points, got ${outline.points.length}`,
      "Give the outline as points (u, y) round the body",
    );
  }
  return { kind: "outline", ...outline };
}

function heights(
  id: string,
  depthMm: number | "through",
  fromBackOfMm: number | undefined,
): { topZMm: number; bottomZMm: number } {
  if (depthMm === "through") return { topZMm: Number.POSITIVE_INFINITY, bottomZMm: Number.NEGATIVE_INFINITY };
  requirePositive(depthMm, `${id}.depthMm`, "mm", "Measure the depth, or say that it goes through");
  if (fromBackOfMm === undefined) return { topZMm: Number.POSITIVE_INFINITY, bottomZMm: -depthMm };
  requirePositive(fromBackOfMm, `${id}.fromBackOfMm`, "mm", "Give the body's thickness there");
  return { topZMm: depthMm - fromBackOfMm, bottomZMm: Number.NEGATIVE_INFINITY };
}

/**
 * Wood between two solids; negative is an overlap. Between a solid and the body's edge: wood left to the outside.
 * Two edges have no wall: Infinity.
 */
export function wallMm(a: Solid, b: Solid): number {
  if (a.kind === "tail line" || a.kind === "outline")
    return b.kind === "tail line" || b.kind === "outline" ? Number.POSITIVE_INFINITY : toEdge(b, a);
  if (b.kind === "tail line" || b.kind === "outline") return toEdge(a, b);
  if (a.kind === "column") return b.kind === "column" ? columnToColumn(a, b) : columnToChannel(a, b);
  return b.kind === "column"
    ? columnToChannel(b, a)
    : segmentToSegment3(a.from, a.to, b.from, b.to) - a.radiusMm - b.radiusMm;
}

/** Parted in plan and in height: root of the sum of squares; else the one that parts them, or the lesser overlap. */
function combine(planMm: number, heightMm: number): number {
  return planMm > 0 && heightMm > 0 ? Math.sqrt(planMm * planMm + heightMm * heightMm) : Math.max(planMm, heightMm);
}

function columnToColumn(a: Column, b: Column): number {
  const planMm = boxToBox(a, b) - a.radiusMm - b.radiusMm;
  return combine(planMm, Math.max(a.bottomZMm, b.bottomZMm) - Math.min(a.topZMm, b.topZMm));
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** 0.618^50 of the channel's length: far below a micrometre. */
const GOLDEN_STEPS = 50;

/** The signed distance to a convex solid is convex along a line: golden section finds the nearest point of the line. */
function columnToChannel(hole: Column, way: Channel): number {
  const [u0, y0, z0] = way.from;
  const du = way.to[0] - u0;
  const dy = way.to[1] - y0;
  const dz = way.to[2] - z0;
  const away = (t: number): number => {
    const z = z0 + t * dz;
    const planMm = boxToPoint(hole, u0 + t * du, y0 + t * dy) - hole.radiusMm;
    return combine(planMm, Math.max(z - hole.topZMm, hole.bottomZMm - z));
  };
  let low = 0;
  let high = 1;
  let left = 1 - GOLDEN;
  let right = GOLDEN;
  let atLeft = away(left);
  let atRight = away(right);
  let least = Math.min(away(0), away(1), atLeft, atRight);
  for (let step = 0; step < GOLDEN_STEPS; step++) {
    if (atLeft <= atRight) {
      high = right;
      right = left;
      atRight = atLeft;
      left = high - GOLDEN * (high - low);
      atLeft = away(left);
      least = Math.min(least, atLeft);
    } else {
      low = left;
      left = right;
      atLeft = atRight;
      right = low + GOLDEN * (high - low);
      atRight = away(right);
      least = Math.min(least, atRight);
    }
  }
  return least - way.radiusMm;
}

function toEdge(solid: Column | Channel, edge: BodyEdge): number {
  const corners: (readonly [number, number])[] =
    solid.kind === "column"
      ? boxCorners(solid)
      : [
          [solid.from[0], solid.from[1]],
          [solid.to[0], solid.to[1]],
        ];
  if (edge.kind === "tail line") return edge.uMm - Math.max(...corners.map(([u]) => u)) - solid.radiusMm;
  const outside = corners.filter(([u, y]) => !inside(edge.points, u, y));
  let least = Number.POSITIVE_INFINITY;
  let furthestOut = 0;
  edge.points.forEach(([u, y], i) => {
    const [un, yn] = edge.points[(i + 1) % edge.points.length] as readonly [number, number];
    corners.forEach(([cu, cy], k) => {
      const [du, dy] = corners[(k + 1) % corners.length] as readonly [number, number];
      least = Math.min(least, segmentToSegment2(cu, cy, du, dy, u, y, un, yn));
    });
  });
  for (const [cu, cy] of outside) {
    let away = Number.POSITIVE_INFINITY;
    edge.points.forEach(([u, y], i) => {
      const [un, yn] = edge.points[(i + 1) % edge.points.length] as readonly [number, number];
      away = Math.min(away, pointToSegment(cu, cy, u, y, un, yn));
    });
    furthestOut = Math.max(furthestOut, away);
  }
  return (outside.length > 0 ? -furthestOut : least) - solid.radiusMm;
}

function boxCorners(box: Box): [number, number][] {
  const { u, y, cos, sin, halfU, halfY } = box;
  if (halfU === 0 && halfY === 0) return [[u, y]];
  return (
    [
      [1, 1],
      [-1, 1],
      [-1, -1],
      [1, -1],
    ] as const
  ).map(([a, b]) => [u + a * halfU * cos - b * halfY * sin, y + a * halfU * sin + b * halfY * cos]);
}

/** Even-odd rule. */
function inside(points: readonly (readonly [number, number])[], u: number, y: number): boolean {
  let odd = false;
  points.forEach(([u1, y1], i) => {
    const [u2, y2] = points[(i + 1) % points.length] as readonly [number, number];
    if (y1 > y !== y2 > y && u < u1 + ((y - y1) / (y2 - y1)) * (u2 - u1)) odd = !odd;
  });
  return odd;
}
