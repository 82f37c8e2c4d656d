/** How far a place lies inside a body's outline. */
import type { BodyShape, PlatePoint } from "./plate.ts";

const RADIANS_PER_DEGREE = Math.PI / 180;

/**
 * @returns millimetres inside the outline; below 0 outside, where beyond a rectangle's corner it is the greater of the
 *   distances from its two sides
 */
export function depthInBody({ x, y }: PlatePoint, shape: BodyShape): number {
  const [dx, dy] = [x - shape.centre.x, y - shape.centre.y];
  if (shape.kind === "circle") return shape.radiusMm - Math.hypot(dx, dy);
  const [cos, sin] = [
    Math.cos(shape.angleDegrees * RADIANS_PER_DEGREE),
    Math.sin(shape.angleDegrees * RADIANS_PER_DEGREE),
  ];
  const [along, aside] = [dx * cos + dy * sin, dy * cos - dx * sin];
  return Math.min(shape.widthMm / 2 - Math.abs(along), shape.heightMm / 2 - Math.abs(aside));
}
