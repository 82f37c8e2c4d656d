/** Where lines of a plate's drawing cross: each in its middle, neither at a corner nor at an end. */
import type { PlatePoint } from "./plate.ts";

/** Nearer than this two places are one. */
const SAME_MM = 1e-6;

/** A line of the drawing, corner by corner. */
export type Polyline = readonly PlatePoint[];

export interface Crossing {
  readonly at: PlatePoint;
  /** Places of the two lines in the list, the lower first. */
  readonly lines: readonly [number, number];
}

/**
 * Proper crossings of lines with one another.
 *
 * @param lines n lines of two points or more; a line's crossings with itself are not looked for
 * @returns one for each place and pair of lines, in the order of the lines
 * @example
 * crossings([[{ x: 0, y: 1 }, { x: 2, y: 1 }], [{ x: 1, y: 0 }, { x: 1, y: 2 }]]); // [{ at: { x: 1, y: 1 }, lines: [0, 1] }]
 */
export function crossings(lines: readonly Polyline[]): Crossing[] {
  const found: Crossing[] = [];
  lines.forEach((one, first) => {
    for (let second = first + 1; second < lines.length; second++) {
      for (const p of piecesOf(one)) {
        for (const q of piecesOf(lines[second] ?? [])) {
          const at = crossingOf(p, q);
          if (at) found.push({ at, lines: [first, second] });
        }
      }
    }
  });
  return found;
}

export type Piece = readonly [PlatePoint, PlatePoint];

/** The straight pieces of a line. */
export function piecesOf(line: Polyline): Piece[] {
  return line.slice(1).map((to, n) => [line[n] ?? to, to]);
}

/** Where two pieces cross, each between its ends. */
export function crossingOf([a, b]: Piece, [c, d]: Piece): PlatePoint | undefined {
  const [ux, uy, vx, vy] = [b.x - a.x, b.y - a.y, d.x - c.x, d.y - c.y];
  const area = ux * vy - uy * vx;
  const [uMm, vMm] = [Math.hypot(ux, uy), Math.hypot(vx, vy)];
  if (Math.abs(area) <= SAME_MM * uMm * vMm) return undefined;
  const s = ((c.x - a.x) * vy - (c.y - a.y) * vx) / area;
  const t = ((c.x - a.x) * uy - (c.y - a.y) * ux) / area;
  const between = (part: number, lengthMm: number): boolean =>
    part * lengthMm > SAME_MM && (1 - part) * lengthMm > SAME_MM;
  return between(s, uMm) && between(t, vMm) ? { x: a.x + s * ux, y: a.y + s * uy } : undefined;
}
