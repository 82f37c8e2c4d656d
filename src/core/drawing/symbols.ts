/** Fixed symbols of the drawings: holes, arrowheads, the datum mark, registration crosses. All in page millimetres. */
import type { PagePoint } from "./geometry.ts";
import { hatchCircle } from "./hatch.ts";
import { lineMark, type Mark, polygonMark, type Stroke, thin } from "./marks.ts";
import { dashPattern, type RoleStyle, THIN_MM } from "./roles.ts";

/** How far the centre cross of a hole stands out beyond its edge: long enough to find again under a rule. */
export const CROSS_BEYOND_MM = 2.5;
const CENTRE_DOT_RADIUS_MM = 0.35;

/** Arms of the datum mark, unequal so that a mirrored sheet shows. */
export const DATUM_ARM_X_MM = 20;
export const DATUM_ARM_Y_MM = 12;
const DATUM_CIRCLES_MM = [3, 6] as const;

export const ARROW_LENGTH_MM = 2.5;
const ARROW_HALF_WIDTH_MM = 0.45;

export function offset(point: PagePoint, way: PagePoint, distance: number): PagePoint {
  return { right: point.right + way.right * distance, down: point.down + way.down * distance };
}

/** Unit step from a to b; to the right if they are the same point. */
export function wayFrom(a: PagePoint, b: PagePoint): PagePoint {
  const [dr, dd] = [b.right - a.right, b.down - a.down];
  const length = Math.hypot(dr, dd);
  return length === 0 ? { right: 1, down: 0 } : { right: dr / length, down: dd / length };
}

/** Filled arrowhead with its tip at `tip`, pointing along `way`. */
export function arrowhead(tip: PagePoint, way: PagePoint): Mark {
  const side = { right: -way.down, down: way.right };
  const tail = offset(tip, way, -ARROW_LENGTH_MM);
  return polygonMark([tip, offset(tail, side, ARROW_HALF_WIDTH_MM), offset(tail, side, -ARROW_HALF_WIDTH_MM)], {
    fill: "ink",
  });
}

/** Triangles at the ends of a register line, tips on the ends: what tells it from a string in black and white. */
export function registerEnds(a: PagePoint, b: PagePoint): Mark[] {
  return [arrowhead(a, wayFrom(a, b)), arrowhead(b, wayFrom(b, a))];
}

export function cross(centre: PagePoint, armMm: number, stroke: Stroke = thin()): Mark[] {
  const { right, down } = centre;
  return [
    lineMark({ right: right - armMm, down }, { right: right + armMm, down }, stroke),
    lineMark({ right, down: down - armMm }, { right, down: down + armMm }, stroke),
  ];
}

/** A dash pattern fitted to the circle, so that at least six dashes show and none is cut. */
export function circleStroke(style: RoleStyle, radiusMm: number): Stroke {
  const pattern = dashPattern(style.line, style.widthMm);
  if (pattern.length === 0) return { widthMm: style.widthMm, dashMm: [] };
  const round = 2 * Math.PI * radiusMm;
  const period = pattern.reduce((sum, part) => sum + part, 0);
  const scale = round / Math.max(6, Math.round(round / period)) / period;
  // A short dash needs a wider share of gap to be seen as dashed.
  const fitted =
    scale < 1 && pattern.length === 2
      ? [0.66 * period * scale, 0.34 * period * scale]
      : pattern.map((part) => part * scale);
  return { widthMm: style.widthMm, dashMm: fitted };
}

/** The hole as its role shows it. The circle with the role's own line is the true edge; everything else is added. */
export function holeMarks(centre: PagePoint, radiusMm: number, style: RoleStyle, beyondMm = CROSS_BEYOND_MM): Mark[] {
  const edge: Mark = { kind: "circle", centre, radiusMm, stroke: circleStroke(style, radiusMm) };
  const dot: Mark = { kind: "circle", centre, radiusMm: Math.min(CENTRE_DOT_RADIUS_MM, radiusMm / 3), fill: "ink" };
  const ring = (r: number): Mark => ({ kind: "circle", centre, radiusMm: r, stroke: thin(THIN_MM) });
  switch (style.hole) {
    case "drill here":
      return [...cross(centre, radiusMm + beyondMm), edge, dot];
    case "string through":
      return [...cross(centre, radiusMm + beyondMm), ring(radiusMm + 0.9), edge, dot];
    case "post":
      return [...cross(centre, radiusMm + beyondMm), ring(radiusMm * 0.55), edge, dot];
    case "filled old":
    case "plugged":
      return [...hatchCircle(centre, radiusMm, style.hatch), edge];
    case "keeps":
      return [...cross(centre, radiusMm * 0.6), edge];
    default:
      return style.hole satisfies never;
  }
}

/**
 * The datum: two rings and two unequal arms, the long one along +x and the short one along +y of the frame.
 *
 * @param axes page directions of the frame's axes
 */
export function datumMarks(at: PagePoint, axes: { readonly x: PagePoint; readonly y: PagePoint }): Mark[] {
  const stroke = thin(0.35);
  const rings = DATUM_CIRCLES_MM.map(
    (diameter): Mark => ({ kind: "circle", centre: at, radiusMm: diameter / 2, stroke }),
  );
  const ends = [offset(at, axes.x, DATUM_ARM_X_MM), offset(at, axes.y, DATUM_ARM_Y_MM)] as const;
  return [
    ...rings,
    lineMark(at, ends[0], stroke),
    lineMark(at, ends[1], stroke),
    arrowhead(ends[0], axes.x),
    arrowhead(ends[1], axes.y),
  ];
}

/** Registration cross of two tiles: a thin cross in a ring. */
export function registrationMarks(at: PagePoint): Mark[] {
  return [...cross(at, 5), { kind: "circle", centre: at, radiusMm: 2, stroke: thin() }];
}
