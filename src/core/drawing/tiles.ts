/**
 * Cutting a drawing that is larger than its sheet into overlapping tiles.
 *
 * The drawing is laid out once on an endless page; tiles are windows on it. Crosses stand in the middle of each
 * overlap, so the same cross is printed on both tiles and lies over itself when they are joined.
 */
import { heightOf, type PagePoint, type PageRect, widthOf } from "./geometry.ts";

export const OVERLAP_MM = 12;
const ENOUGH_CLEARANCE_MM = 8;

export interface TileCross {
  /** The same letter on every tile that shows it. */
  readonly name: string;
  readonly at: PagePoint;
}

export interface Tile {
  /** "A1": row letter, column number. */
  readonly name: string;
  readonly row: number;
  readonly column: number;
  /** What the tile shows of the endless page. */
  readonly window: PageRect;
  readonly crosses: readonly TileCross[];
  readonly neighbours: {
    readonly left?: string;
    readonly right?: string;
    readonly up?: string;
    readonly down?: string;
  };
}

export interface Tiling {
  readonly rows: number;
  readonly columns: number;
  readonly tiles: readonly Tile[];
}

export interface TileShape {
  readonly content: PageRect;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Places that should not lie on a seam: centres of holes. */
  readonly keepClear?: readonly PagePoint[];
}

/** Windows of `widthMm` × `heightMm` that cover `content`. */
export function tile({ content, widthMm, heightMm, keepClear = [] }: TileShape): Tiling {
  const lefts = starts(
    content.left,
    widthOf(content),
    widthMm,
    keepClear.map((p) => p.right),
  );
  const tops = starts(
    content.top,
    heightOf(content),
    heightMm,
    keepClear.map((p) => p.down),
  );
  const crosses = crossesBetween(lefts, tops, widthMm, heightMm);
  const name = (row: number, column: number) => `${String.fromCharCode(65 + row)}${column + 1}`;
  const tiles = tops.flatMap((top, row) =>
    lefts.map((left, column): Tile => {
      const window = { left, top, right: left + widthMm, bottom: top + heightMm };
      return {
        name: name(row, column),
        row,
        column,
        window,
        crosses: crosses.filter(
          ({ at }) => at.right > left && at.right < window.right && at.down > top && at.down < window.bottom,
        ),
        neighbours: {
          ...(column > 0 ? { left: name(row, column - 1) } : {}),
          ...(column < lefts.length - 1 ? { right: name(row, column + 1) } : {}),
          ...(row > 0 ? { up: name(row - 1, column) } : {}),
          ...(row < tops.length - 1 ? { down: name(row + 1, column) } : {}),
        },
      };
    }),
  );
  return { rows: tops.length, columns: lefts.length, tiles };
}

/**
 * Starts of windows along one axis, each overlapping the one before. The row is centred on its content unless a seam
 * would then run through a hole: then it moves, by whole millimetres within what it has to spare.
 */
function starts(from: number, length: number, window: number, keepClear: readonly number[]): number[] {
  const step = window - OVERLAP_MM;
  const count = Math.max(1, Math.ceil((length - OVERLAP_MM) / step - 1e-9));
  const spare = window + (count - 1) * step - length;
  const rowAt = (shift: number) => Array.from({ length: count }, (_, index) => from - spare / 2 + shift + index * step);
  const clearance = (row: readonly number[]) => {
    const seams = row.slice(1).map((start) => start + OVERLAP_MM / 2);
    return Math.min(ENOUGH_CLEARANCE_MM, ...seams.flatMap((seam) => keepClear.map((place) => Math.abs(place - seam))));
  };
  let best = rowAt(0);
  for (let shift = 1; shift <= spare / 2; shift += 1) {
    for (const row of [rowAt(shift), rowAt(-shift)]) if (clearance(row) > clearance(best) + 1e-9) best = row;
  }
  return best;
}

/** Crosses in the middle of each overlap strip, two for each tile along it. */
function crossesBetween(
  lefts: readonly number[],
  tops: readonly number[],
  widthMm: number,
  heightMm: number,
): TileCross[] {
  const middles = (list: readonly number[], size: number) =>
    list.slice(1).map((start, index) => (start + (list[index] ?? start) + size) / 2);
  // Away from the tile's own edges and from the strips that run the other way.
  const along = (list: readonly number[], size: number) =>
    list.flatMap((start) => [start + size * 0.22, start + size * 0.78]);
  const places: PagePoint[] = [
    ...middles(lefts, widthMm).flatMap((right) => along(tops, heightMm).map((down) => ({ right, down }))),
    ...middles(tops, heightMm).flatMap((down) => along(lefts, widthMm).map((right) => ({ right, down }))),
  ];
  return places.map((at, index) => ({ name: crossName(index), at }));
}

/** a … z without i, l and o, then aa, ab …: codes that cannot be misread. */
function crossName(index: number): string {
  const letters = "abcdefghjkmnpqrstuvwxyz";
  const last = letters.charAt(index % letters.length);
  return index < letters.length ? last : crossName(Math.floor(index / letters.length) - 1) + last;
}
