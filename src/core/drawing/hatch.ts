/**
 * Hatching: parallel thin lines clipped to an outline, by the even-odd rule, worked out here so that a printer, a
 * screen and a milling program all get the same plain lines.
 */
import type { PagePoint } from "./geometry.ts";
import { lineMark, type Mark, thin } from "./marks.ts";
import type { Hatch } from "./roles.ts";

const HATCH_WIDTH_MM = 0.18;

interface Strokes {
  readonly degrees: readonly number[];
  readonly spacingMm: number;
}

/** Lines of each hatch: wide areas get wider spacing than holes, where a few lines must do. */
function strokesOf(hatch: Hatch, small: boolean): Strokes {
  switch (hatch) {
    case "none":
      return { degrees: [], spacingMm: 1 };
    case "single":
      return { degrees: [45], spacingMm: small ? 0.8 : 2 };
    case "cross":
      return { degrees: [45, -45], spacingMm: small ? 0.9 : 2 };
    case "sparse cross":
      return { degrees: [45, -45], spacingMm: small ? 1.5 : 5 };
    default:
      return hatch satisfies never;
  }
}

/** An area narrower than this is hatched as closely as a hole: few lines of the wide spacing would meet it. */
const NARROW_MM = 3;

/** Hatch of the area inside the outlines (outer edge and islands alike). */
export function hatchOutlines(outlines: readonly (readonly PagePoint[])[], hatch: Hatch): Mark[] {
  const { degrees, spacingMm } = strokesOf(hatch, narrowestMm(outlines) < NARROW_MM);
  return degrees.flatMap((angle) => hatchAt(outlines, angle, spacingMm));
}

/** Least width of the first outline, square to any of its own sides. */
function narrowestMm([outer = []]: readonly (readonly PagePoint[])[]): number {
  let least = Number.POSITIVE_INFINITY;
  outer.forEach((a, index) => {
    const b = outer[(index + 1) % outer.length];
    const length = b === undefined ? 0 : Math.hypot(b.right - a.right, b.down - a.down);
    if (b === undefined || length === 0) return;
    const [right, down] = [-(b.down - a.down) / length, (b.right - a.right) / length];
    const across = outer.map((p) => p.right * right + p.down * down);
    least = Math.min(least, Math.max(...across) - Math.min(...across));
  });
  return least;
}

/** Hatch of a hole. */
export function hatchCircle(centre: PagePoint, radiusMm: number, hatch: Hatch): Mark[] {
  const { degrees, spacingMm } = strokesOf(hatch, true);
  const spacing = Math.min(spacingMm, radiusMm / 1.5);
  const out: Mark[] = [];
  for (const angle of degrees) {
    const { cos, sin } = direction(angle);
    const count = Math.floor((radiusMm - 1e-9) / spacing);
    for (let step = -count; step <= count; step += 1) {
      const off = step * spacing;
      const half = Math.sqrt(radiusMm * radiusMm - off * off);
      out.push(chord(centre, { cos, sin }, off, -half, half));
    }
  }
  return out;
}

function hatchAt(outlines: readonly (readonly PagePoint[])[], degrees: number, spacingMm: number): Mark[] {
  const { cos, sin } = direction(degrees);
  const along = (p: PagePoint) => p.right * cos + p.down * sin;
  const off = (p: PagePoint) => -p.right * sin + p.down * cos;
  const all = outlines.flat().map(off);
  const first = Math.ceil(Math.min(...all) / spacingMm);
  const last = Math.floor(Math.max(...all) / spacingMm);
  const out: Mark[] = [];
  for (let step = first; step <= last; step += 1) {
    const level = step * spacingMm;
    const cuts = outlines.flatMap((ring) => crossings(ring, level, along, off)).sort((a, b) => a - b);
    for (let i = 0; i + 1 < cuts.length; i += 2) {
      const [from, to] = [cuts[i] ?? 0, cuts[i + 1] ?? 0];
      if (to - from > 0.05) out.push(chord({ right: 0, down: 0 }, { cos, sin }, level, from, to));
    }
  }
  return out;
}

/** Places along the level line at which it crosses the ring; a corner on the line counts once. */
function crossings(
  ring: readonly PagePoint[],
  level: number,
  along: (p: PagePoint) => number,
  off: (p: PagePoint) => number,
): number[] {
  const out: number[] = [];
  ring.forEach((a, index) => {
    const b = ring[(index + 1) % ring.length];
    if (b === undefined) return;
    const [oa, ob] = [off(a), off(b)];
    if (oa < level === ob < level) return;
    const t = (level - oa) / (ob - oa);
    out.push(along(a) + t * (along(b) - along(a)));
  });
  return out;
}

function chord(origin: PagePoint, way: { cos: number; sin: number }, off: number, from: number, to: number): Mark {
  const at = (t: number): PagePoint => ({
    right: origin.right + t * way.cos - off * way.sin,
    down: origin.down + t * way.sin + off * way.cos,
  });
  return lineMark(at(from), at(to), thin(HATCH_WIDTH_MM));
}

function direction(degrees: number): { cos: number; sin: number } {
  const angle = (degrees * Math.PI) / 180;
  return { cos: Math.cos(angle), sin: Math.sin(angle) };
}
