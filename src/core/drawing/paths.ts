/** Outlines and arcs of the frame as page paths. Arcs become cubic curves of at most an eighth turn: 4e-6 of the radius. */
import { arcOfSide, type FrameArc, type FramePoint, type PagePoint, pointOnArc, type Vertex } from "./geometry.ts";
import type { Segment } from "./marks.ts";
import { type Placing, toPage } from "./placing.ts";

const EIGHTH_TURN = 45;

/** Path of an outline with bent sides. */
export function outlinePath(corners: readonly Vertex[], closed: boolean, placing: Placing): Segment[] {
  const [start] = corners;
  if (start === undefined) return [];
  const path: Segment[] = [{ to: "move", at: toPage(placing, start) }];
  const sides = closed ? corners.length : corners.length - 1;
  for (let index = 0; index < sides; index += 1) {
    const [from, to] = [corners[index], corners[(index + 1) % corners.length]];
    if (from === undefined || to === undefined) continue;
    const arc = arcOfSide(from, to);
    if (arc) path.push(...arcCurves(arc, placing));
    else if (!(closed && index === sides - 1)) path.push({ to: "line", at: toPage(placing, to) });
  }
  return closed ? [...path, { to: "close" }] : path;
}

export function arcPath(arc: FrameArc, placing: Placing): Segment[] {
  return [{ to: "move", at: toPage(placing, pointOnArc(arc, arc.fromDegrees)) }, ...arcCurves(arc, placing)];
}

function arcCurves(arc: FrameArc, placing: Placing): Segment[] {
  const count = Math.max(1, Math.ceil(Math.abs(arc.sweepDegrees) / EIGHTH_TURN - 1e-9));
  const step = arc.sweepDegrees / count;
  const pull = (4 / 3) * Math.tan((step * Math.PI) / 180 / 4) * arc.radiusMm;
  return Array.from({ length: count }, (_, index): Segment => {
    const [a, b] = [arc.fromDegrees + index * step, arc.fromDegrees + (index + 1) * step];
    return {
      to: "curve",
      first: toPage(placing, alongTangent(arc, a, pull)),
      second: toPage(placing, alongTangent(arc, b, -pull)),
      at: toPage(placing, pointOnArc(arc, b)),
    };
  });
}

function alongTangent(arc: FrameArc, degrees: number, distance: number): FramePoint {
  const at = pointOnArc(arc, degrees);
  const angle = (degrees * Math.PI) / 180;
  return { x: at.x - Math.sin(angle) * distance, y: at.y + Math.cos(angle) * distance };
}

/** Points along an outline, close enough for hatching and for keeping labels clear (0.02 mm off the true edge). */
export function flatten(corners: readonly Vertex[], closed: boolean): FramePoint[] {
  const out: FramePoint[] = [];
  const sides = closed ? corners.length : corners.length - 1;
  for (let index = 0; index < sides; index += 1) {
    const [from, to] = [corners[index], corners[(index + 1) % corners.length]];
    if (from === undefined || to === undefined) continue;
    const arc = arcOfSide(from, to);
    out.push(...(arc ? arcPoints(arc).slice(0, -1) : [from]));
  }
  const last = corners.at(-1);
  if (!closed && last) out.push(last);
  return out;
}

export function arcPoints(arc: FrameArc): FramePoint[] {
  const step = 2 * Math.acos(Math.max(0, 1 - 0.02 / Math.max(arc.radiusMm, 0.03))) * (180 / Math.PI);
  const count = Math.max(2, Math.ceil(Math.abs(arc.sweepDegrees) / step));
  return Array.from({ length: count + 1 }, (_, i) => pointOnArc(arc, arc.fromDegrees + (arc.sweepDegrees * i) / count));
}

/** The straight pieces that a path is seen as, for keeping text clear of it. */
export function pagePieces(points: readonly PagePoint[]): [PagePoint, PagePoint][] {
  return points.slice(1).map((to, index) => [points[index] ?? to, to]);
}
