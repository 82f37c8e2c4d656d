/**
 * Reads a drawing of wires as a person does: which lugs each line joins, from points alone.
 *
 * Model: a line joins the lugs on whose pads its two ends lie. Lines that cross at right angles are not joined. What a
 * person could read in two ways, or not at all, is told as a doubt.
 * Left out: bevelled corners count as corners, and curves are not known.
 */
import { type Crossing, crossings, type Piece, type Polyline, piecesOf } from "./crossings.ts";
import type { Lug, PlatePoint } from "./plate.ts";

/** An end that is this near to a second lug's pad may be meant for that one. */
const NEAR_LUG_MM = 0.5;

/** A corner or an end nearer than this to another line looks as if it were on it. */
const TOUCH_MM = 0.5;

/** Two places nearer than this are one. */
const SAME_MM = 1e-6;

/** Parallel or at right angles, but for rounding: sine or cosine of the angle between. */
const SAME_TURN = 1e-6;

type Pad = Pick<Lug, "id" | "at" | "radiusMm">;

export interface ReadLine {
  /** Place in the list of lines. */
  readonly line: number;
  /** The lugs that it joins, in the order of its points. */
  readonly lugs: readonly [string, string];
}

/**
 * - `open-end`: an end that lies on no lug
 * - `two-lugs`: an end that lies on or near more than one lug
 * - `over-lug`: a line that runs over a lug on which it does not end
 * - `shared-piece`: two lines run on the same stretch
 * - `touch`: a corner or an end of one line on or near another
 * - `aslant`: two lines cross, and not at right angles
 */
export type DoubtKind = "open-end" | "two-lugs" | "over-lug" | "shared-piece" | "touch" | "aslant";

export interface Doubt {
  readonly kind: DoubtKind;
  readonly at: PlatePoint;
  /** Places in the list of lines. */
  readonly lines: readonly number[];
  readonly lugs: readonly string[];
}

export interface ReadDrawing {
  readonly joined: readonly ReadLine[];
  /** Lugs that are one electrically, two or more each; in the order of the lugs given. */
  readonly groups: readonly (readonly string[])[];
  readonly doubts: readonly Doubt[];
}

interface Ending {
  readonly line: number;
  readonly at: PlatePoint;
  /** On whose pads it lies. */
  readonly on: readonly Pad[];
  readonly near: readonly Pad[];
}

/**
 * Which lugs the lines of a drawing join.
 *
 * @param lines n lines of two points or more
 * @returns a line for each of the n whose two ends are sure; `doubts` is empty if all can be read in one way only
 * @example
 * const lugs = [{ id: "a", at: { x: 0, y: 0 }, radiusMm: 1 }, { id: "b", at: { x: 9, y: 0 }, radiusMm: 1 }];
 * readBack([[{ x: 0, y: 0 }, { x: 9, y: 0 }]], lugs).joined; // [{ line: 0, lugs: ["a", "b"] }]
 */
export function readBack(lines: readonly Polyline[], lugs: readonly Pad[]): ReadDrawing {
  const ends = lines.map((line, n) => endsOf(line, n, lugs));
  const joined = ends.flatMap(([first, last], line): ReadLine[] => {
    const [from, to] = [sureLug(first), sureLug(last)];
    return from !== undefined && to !== undefined ? [{ line, lugs: [from, to] }] : [];
  });
  const doubts = [
    ...ends.flat().flatMap(endDoubts),
    ...lines.flatMap((line, n) => lugDoubts(line, { n, ends: ends[n] ?? [] }, lugs)),
    ...pairDoubts(lines, ends),
    ...crossings(lines).flatMap((one) => aslantDoubts(one, lines)),
  ];
  return { joined, groups: groupsOf(joined, lugs), doubts };
}

function endsOf(line: Polyline, n: number, lugs: readonly Pad[]): Ending[] {
  return [line[0], line.length > 1 ? line.at(-1) : undefined].flatMap((at) => {
    if (!at) return [];
    const within = (beyondMm: number): Pad[] =>
      lugs.filter((lug) => distance(at, lug.at) <= lug.radiusMm + beyondMm + SAME_MM);
    return [{ line: n, at, on: within(0), near: within(NEAR_LUG_MM) }];
  });
}

function sureLug(end: Ending | undefined): string | undefined {
  return end?.on.length === 1 && end.near.length === 1 ? end.on[0]?.id : undefined;
}

function endDoubts({ line, at, on, near }: Ending): Doubt[] {
  if (on.length === 0) return [{ kind: "open-end", at, lines: [line], lugs: near.map(({ id }) => id) }];
  return near.length > 1 ? [{ kind: "two-lugs", at, lines: [line], lugs: near.map(({ id }) => id) }] : [];
}

interface LineEnds {
  readonly n: number;
  readonly ends: readonly Ending[];
}

function lugDoubts(line: Polyline, { n, ends }: LineEnds, lugs: readonly Pad[]): Doubt[] {
  const own = new Set(ends.flatMap(({ on }) => on));
  return lugs
    .filter((lug) => !own.has(lug) && piecesOf(line).some((piece) => toPiece(lug.at, piece) < lug.radiusMm + SAME_MM))
    .map((lug) => ({ kind: "over-lug", at: lug.at, lines: [n], lugs: [lug.id] }));
}

function pairDoubts(lines: readonly Polyline[], ends: readonly (readonly Ending[])[]): Doubt[] {
  return lines.flatMap((one, a) =>
    lines.slice(a + 1).flatMap((other, n): Doubt[] => {
      const b = a + 1 + n;
      const pads = commonPads(ends[a] ?? [], ends[b] ?? []);
      const shared = sharedPieces(one, other);
      if (shared.length > 0) return shared.map((at) => ({ kind: "shared-piece", at, lines: [a, b], lugs: [] }));
      return [...touches(one, other, pads), ...touches(other, one, pads)].map((at) => ({
        kind: "touch",
        at,
        lines: [a, b],
        lugs: [],
      }));
    }),
  );
}

function commonPads(one: readonly Ending[], other: readonly Ending[]): Pad[] {
  const theirs = new Set(other.flatMap(({ on }) => on));
  return one.flatMap(({ on }) => on).filter((lug) => theirs.has(lug));
}

/** Where a stretch begins that two lines have in common. */
function sharedPieces(one: Polyline, other: Polyline): PlatePoint[] {
  return piecesOf(one).flatMap((a) =>
    piecesOf(other).flatMap((b) => {
      const at = sharedFrom(a, b);
      return at ? [at] : [];
    }),
  );
}

function sharedFrom([a, b]: Piece, [c, d]: Piece): PlatePoint | undefined {
  const lengthMm = distance(a, b);
  if (lengthMm <= SAME_MM) return undefined;
  const [ux, uy] = [(b.x - a.x) / lengthMm, (b.y - a.y) / lengthMm];
  const aside = (p: PlatePoint): number => Math.abs((p.x - a.x) * uy - (p.y - a.y) * ux);
  if (aside(c) > SAME_MM || aside(d) > SAME_MM) return undefined;
  const along = (p: PlatePoint): number => (p.x - a.x) * ux + (p.y - a.y) * uy;
  const from = Math.max(0, Math.min(along(c), along(d)));
  const to = Math.min(lengthMm, Math.max(along(c), along(d)));
  return to - from > SAME_MM ? { x: a.x + from * ux, y: a.y + from * uy } : undefined;
}

/** Corners and ends of a line that lie on or near another, but for those on a pad on which both end. */
function touches(line: Polyline, other: Polyline, pads: readonly Pad[]): PlatePoint[] {
  return line.filter(
    (p) =>
      !pads.some((lug) => distance(p, lug.at) <= lug.radiusMm + SAME_MM) &&
      piecesOf(other).some((piece) => toPiece(p, piece) < TOUCH_MM),
  );
}

function aslantDoubts({ at, lines: [a, b] }: Crossing, lines: readonly Polyline[]): Doubt[] {
  const through = (line: number): Piece[] =>
    piecesOf(lines[line] ?? []).filter((piece) => toPiece(at, piece) <= SAME_MM);
  const aslant = through(a).some((p) => through(b).some((q) => Math.abs(cosineOf(p, q)) > SAME_TURN));
  return aslant ? [{ kind: "aslant", at, lines: [a, b], lugs: [] }] : [];
}

function cosineOf([a, b]: Piece, [c, d]: Piece): number {
  return ((b.x - a.x) * (d.x - c.x) + (b.y - a.y) * (d.y - c.y)) / (distance(a, b) * distance(c, d));
}

function groupsOf(joined: readonly ReadLine[], lugs: readonly Pad[]): string[][] {
  const groups = new Map(lugs.map(({ id }) => [id, [id]]));
  for (const { lugs: ids } of joined) {
    const [one, other] = [groups.get(ids[0]), groups.get(ids[1])];
    if (!one || !other || one === other) continue;
    one.push(...other);
    for (const id of other) groups.set(id, one);
  }
  const order = new Map(lugs.map(({ id }, n) => [id, n]));
  return [...new Set(groups.values())]
    .filter((group) => group.length > 1)
    .map((group) => group.sort((a, b) => (order.get(a) ?? 0) - (order.get(b) ?? 0)));
}

function distance(p: PlatePoint, q: PlatePoint): number {
  return Math.hypot(p.x - q.x, p.y - q.y);
}

function toPiece(p: PlatePoint, [a, b]: Piece): number {
  const [ux, uy] = [b.x - a.x, b.y - a.y];
  const square = ux * ux + uy * uy;
  const part = square === 0 ? 0 : ((p.x - a.x) * ux + (p.y - a.y) * uy) / square;
  const within = Math.min(1, Math.max(0, part));
  return distance(p, { x: a.x + within * ux, y: a.y + within * uy });
}
