/** Shapes of a scene as path data in its own mm; the page's matrix turns and sizes them. */
import { arcOfSide, type Geometry, type Vertex } from "../../core/drawing/index.ts";

export function pathOf(geometry: Geometry): string {
  switch (geometry.kind) {
    case "line":
      return `M${geometry.from.x} ${geometry.from.y}L${geometry.to.x} ${geometry.to.y}`;
    case "outline":
      return outlinePath(geometry.corners, geometry.closed);
    case "circle":
    case "hole":
      return circlePath(geometry.centre.x, geometry.centre.y, geometry.diameterMm / 2);
    default:
      return "";
  }
}

export function circlePath(x: number, y: number, r: number): string {
  return `M${x - r} ${y}A${r} ${r} 0 1 1 ${x + r} ${y}A${r} ${r} 0 1 1 ${x - r} ${y}Z`;
}

function outlinePath(corners: readonly Vertex[], closed: boolean): string {
  const [first] = corners;
  if (!first) return "";
  const sides = closed ? corners : corners.slice(0, -1);
  const steps = sides.map((corner, index) => {
    const next = corners[(index + 1) % corners.length] ?? first;
    const arc = arcOfSide(corner, next);
    if (!arc) return `L${next.x} ${next.y}`;
    const large = Math.abs(arc.sweepDegrees) > 180 ? 1 : 0;
    return `A${arc.radiusMm} ${arc.radiusMm} 0 ${large} ${arc.sweepDegrees > 0 ? 1 : 0} ${next.x} ${next.y}`;
  });
  return `M${first.x} ${first.y}${steps.join("")}${closed ? "Z" : ""}`;
}

/** What tells holes apart without colour, as on the papers: a cross to drill by, a filled half, a cross turned. */
export function holeSign(role: string, x: number, y: number, r: number): string {
  const beyond = r * 1.7;
  const turned = r * Math.SQRT1_2;
  switch (role) {
    case "new hole":
      return `M${x - beyond} ${y}H${x + beyond}M${x} ${y - beyond}V${y + beyond}`;
    case "string hole":
      return `${circlePath(x, y, r * 0.45)}M${x - beyond} ${y}H${x + beyond}M${x} ${y - beyond}V${y + beyond}`;
    case "post":
      return `${circlePath(x, y, r * 0.7)}M${x - beyond} ${y}H${x + beyond}M${x} ${y - beyond}V${y + beyond}`;
    case "plug":
      return `M${x - turned} ${y - turned}L${x + turned} ${y + turned}M${x - turned} ${y + turned}L${x + turned} ${y - turned}`;
    case "screw":
      return `M${x - turned} ${y}H${x + turned}`;
    default:
      return "";
  }
}
