/**
 * Points, outlines and the two planes of a drawing.
 *
 * A scene lives in a frame of the job: x toward the tail, y to the right with the head up, seen from the front; so y is
 * a quarter turn anticlockwise from x. A page is measured in millimetres to the right and down from its top left
 * corner. The two kinds of point have different field names so that they cannot be mixed.
 */
import { requireFinite, requirePositive } from "../checks.ts";

/** A place in a scene's frame, mm. */
export interface FramePoint {
  readonly x: number;
  readonly y: number;
}

/** A place on a page, mm from its top left corner. */
export interface PagePoint {
  readonly right: number;
  readonly down: number;
}

/**
 * A corner of an outline. `bulge` bends the side that leaves it: tan(included angle / 4), positive when the side turns
 * anticlockwise (x toward y) about its centre, 1 for a half circle: the convention of DXF polylines.
 */
export interface Vertex extends FramePoint {
  readonly bulge?: number;
}

export interface PageRect {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** An arc in the frame: anticlockwise from `fromDegrees` by `sweepDegrees` (negative: clockwise). */
export interface FrameArc {
  readonly centre: FramePoint;
  readonly radiusMm: number;
  readonly fromDegrees: number;
  readonly sweepDegrees: number;
}

const DEGREES = 180 / Math.PI;

/**
 * The arc of a bent side, or undefined for a straight one.
 *
 * With chord c and bulge b: included angle = 4 atan b, radius = c (1 + b²) / (4 |b|). DXF reference, LWPOLYLINE.
 */
export function arcOfSide(from: Vertex, to: FramePoint): FrameArc | undefined {
  const b = from.bulge ?? 0;
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  const chord = Math.hypot(dx, dy);
  if (b === 0 || chord === 0) return undefined;
  // The centre lies off the chord's middle by c (1 - b²) / (4 b), to the left of the way from `from` to `to`.
  const off = (1 - b * b) / (4 * b);
  const centre = { x: (from.x + to.x) / 2 - dy * off, y: (from.y + to.y) / 2 + dx * off };
  return {
    centre,
    radiusMm: (chord * (1 + b * b)) / (4 * Math.abs(b)),
    fromDegrees: Math.atan2(from.y - centre.y, from.x - centre.x) * DEGREES,
    sweepDegrees: 4 * Math.atan(b) * DEGREES,
  };
}

export function pointOnArc(arc: FrameArc, degrees: number): FramePoint {
  const angle = degrees / DEGREES;
  return { x: arc.centre.x + arc.radiusMm * Math.cos(angle), y: arc.centre.y + arc.radiusMm * Math.sin(angle) };
}

export interface RectangleShape {
  readonly centre: FramePoint;
  /** Size along x. */
  readonly alongMm: number;
  /** Size along y. */
  readonly acrossMm: number;
  /** Radius of the corners, 0 for square ones. */
  readonly cornerRadiusMm?: number;
  /** Turned anticlockwise (x toward y) about the centre. */
  readonly turnDegrees?: number;
}

const QUARTER_BULGE = Math.tan(Math.PI / 8);

/**
 * Outline of a rectangle, with round corners if asked: plates, routs, cards.
 *
 * @throws InputError unless the sizes are above 0 and the radius fits into them
 */
export function rectangle(shape: RectangleShape): Vertex[] {
  const { centre, alongMm, acrossMm, cornerRadiusMm = 0, turnDegrees = 0 } = shape;
  requirePositive(alongMm, "alongMm", "mm", "Give the size along the frame's x");
  requirePositive(acrossMm, "acrossMm", "mm", "Give the size along the frame's y");
  requireFinite(turnDegrees, "turnDegrees", "degrees", "Give the turn, or leave it out");
  const r = Math.min(Math.max(cornerRadiusMm, 0), alongMm / 2, acrossMm / 2);
  const [a, b] = [alongMm / 2, acrossMm / 2];
  const corners: Vertex[] =
    r === 0
      ? [
          { x: -a, y: -b },
          { x: a, y: -b },
          { x: a, y: b },
          { x: -a, y: b },
        ]
      : [
          { x: -a + r, y: -b },
          { x: a - r, y: -b, bulge: QUARTER_BULGE },
          { x: a, y: -b + r },
          { x: a, y: b - r, bulge: QUARTER_BULGE },
          { x: a - r, y: b },
          { x: -a + r, y: b, bulge: QUARTER_BULGE },
          { x: -a, y: b - r },
          { x: -a, y: -b + r, bulge: QUARTER_BULGE },
        ];
  const cos = Math.cos(turnDegrees / DEGREES);
  const sin = Math.sin(turnDegrees / DEGREES);
  return corners.map(({ x, y, bulge }) => {
    const at = { x: centre.x + x * cos - y * sin, y: centre.y + x * sin + y * cos };
    return bulge === undefined ? at : { ...at, bulge };
  });
}

const EMPTY_RECT: PageRect = { left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity };

export function rectOf(left: number, top: number, width: number, height: number): PageRect {
  return { left, top, right: left + width, bottom: top + height };
}

export function rectAround(points: readonly PagePoint[], marginMm = 0): PageRect {
  let { left, top, right, bottom } = EMPTY_RECT;
  for (const point of points) {
    left = Math.min(left, point.right);
    right = Math.max(right, point.right);
    top = Math.min(top, point.down);
    bottom = Math.max(bottom, point.down);
  }
  return { left: left - marginMm, top: top - marginMm, right: right + marginMm, bottom: bottom + marginMm };
}

export function unite(rects: readonly PageRect[]): PageRect {
  return {
    left: Math.min(...rects.map((r) => r.left)),
    top: Math.min(...rects.map((r) => r.top)),
    right: Math.max(...rects.map((r) => r.right)),
    bottom: Math.max(...rects.map((r) => r.bottom)),
  };
}

export function grow(rect: PageRect, byMm: number): PageRect {
  return { left: rect.left - byMm, top: rect.top - byMm, right: rect.right + byMm, bottom: rect.bottom + byMm };
}

export function overlapArea(a: PageRect, b: PageRect): number {
  const width = Math.min(a.right, b.right) - Math.max(a.left, b.left);
  const height = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
  return width > 0 && height > 0 ? width * height : 0;
}

export function widthOf(rect: PageRect): number {
  return rect.right - rect.left;
}

export function heightOf(rect: PageRect): number {
  return rect.bottom - rect.top;
}
