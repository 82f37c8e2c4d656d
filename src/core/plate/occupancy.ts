/**
 * Which wires run where on the lattice, and what a further wire would come into conflict with.
 *
 * A conflict is a segment that runs beside another wire nearer than the spacing, or a corner or an end nearer to another
 * wire than the corner's clearance. A crossing of two straight runs is none. Wires of one lug may run close to each other
 * round that lug, so their share is taken out while one of them is looked for.
 */
import { addTo, type Cells, cell } from "./cells.ts";
import { FAN_MM, isWithin, type Lattice, type LatticeLug } from "./lattice.ts";

/** Nodes from lug to lug, each next to the one before. */
export type Way = readonly number[];

export interface Occupancy {
  /** Runs near a segment to the right of the node, counted with those on it. */
  readonly nearRight: Int32Array;
  /** Runs near a segment down from the node. */
  readonly nearDown: Int32Array;
  /** Straight runs through the node. */
  readonly through: { readonly across: Int32Array; readonly down: Int32Array };
  /** Corners and ends so near that nothing else may pass. */
  readonly cornersNear: Int32Array;
  /** Wires so near that nothing else may turn or end. */
  readonly wiresNear: Int32Array;
}

export function emptyOccupancy({ columns, rows }: Lattice): Occupancy {
  const cells = (): Int32Array => new Int32Array(columns * rows);
  return {
    nearRight: cells(),
    nearDown: cells(),
    through: { across: cells(), down: cells() },
    cornersNear: cells(),
    wiresNear: cells(),
  };
}

/** What a way does at its nth node. */
export type Passing = "across" | "down" | "corner";

export function passingAt(way: Way, n: number, columns: number): Passing {
  const [before, here, after] = [way[n - 1], way[n] ?? 0, way[n + 1]];
  if (before === undefined || after === undefined) return "corner";
  const [first, second] = [isDown(before, here, columns), isDown(here, after, columns)];
  if (first !== second) return "corner";
  return first ? "down" : "across";
}

export function isDown(from: number, to: number, columns: number): boolean {
  return Math.abs(to - from) === columns && columns > 1;
}

/** Lays a way (`change` 1) or takes it up (-1). */
export function lay(space: Occupancy, grid: Lattice, way: Way, change: 1 | -1): void {
  way.forEach((node, n) => {
    const passing = passingAt(way, n, grid.columns);
    if (passing !== "corner") addTo(space.through[passing], node, change);
    for (const near of nodesAtCorner(grid, node)) {
      addTo(space.wiresNear, near, change);
      if (passing === "corner") addTo(space.cornersNear, near, change);
    }
    const next = way[n + 1];
    if (next === undefined) return;
    const cells = isDown(node, next, grid.columns) ? space.nearDown : space.nearRight;
    for (const near of segmentsBeside(grid, node, next)) addTo(cells, near, change);
  });
}

/** Takes out (`change` -1) or puts back (1) what a way of a common lug may come near to round that lug. */
export function excuse(space: Occupancy, grid: Lattice, way: Way, { lug, change }: Excuse): void {
  const inFan = (node: number): boolean => isWithin(grid, node, lug.lug, lug.lug.radiusMm + FAN_MM);
  const inPad = (node: number): boolean => isWithin(grid, node, lug.lug, lug.lug.radiusMm);
  way.forEach((node, n) => {
    if (!inFan(node)) return;
    if (inPad(node)) {
      const isCorner = passingAt(way, n, grid.columns) === "corner";
      for (const near of nodesAtCorner(grid, node)) {
        if (!inPad(near)) continue;
        addTo(space.wiresNear, near, change);
        if (isCorner) addTo(space.cornersNear, near, change);
      }
    }
    const next = way[n + 1];
    if (next === undefined || !inFan(next)) return;
    const down = isDown(node, next, grid.columns);
    const own = Math.min(node, next);
    const step = down ? grid.columns : 1;
    for (const near of segmentsBeside(grid, node, next)) {
      if (near !== own && inFan(near) && inFan(near + step))
        addTo(down ? space.nearDown : space.nearRight, near, change);
    }
  });
}

interface Excuse {
  readonly lug: LatticeLug;
  readonly change: 1 | -1;
}

/** What a way, that is not laid itself, comes into conflict with. */
export function conflictsOf(space: Occupancy, grid: Lattice, way: Way): number {
  let count = 0;
  way.forEach((node, n) => {
    count += conflictsAt(space, grid, node, passingAt(way, n, grid.columns));
    const next = way[n + 1];
    if (next === undefined) return;
    count += cell(isDown(node, next, grid.columns) ? space.nearDown : space.nearRight, Math.min(node, next));
  });
  return count;
}

export function conflictsAt(space: Occupancy, grid: Lattice, node: number, passing: Passing): number {
  if (passing === "corner") return cell(space.wiresNear, node);
  const crossed = cell(grid.lugsNear, node) > 0 ? crossingsAt(space, node, passing) : 0;
  return crossed + cell(space.cornersNear, node);
}

export function crossingsAt({ through }: Occupancy, node: number, passing: Passing): number {
  if (passing === "corner") return 0;
  const other: Cells = passing === "across" ? through.down : through.across;
  return cell(other, node);
}

function segmentsBeside({ across, down, columns }: Lattice, from: number, to: number): number[] {
  const own = Math.min(from, to);
  const column = own % columns;
  if (isDown(from, to, columns)) {
    const [first, last] = across.near[column] ?? [column, column];
    return Array.from({ length: last - first + 1 }, (_, n) => own - column + first + n);
  }
  const row = (own - column) / columns;
  const [first, last] = down.near[row] ?? [row, row];
  return Array.from({ length: last - first + 1 }, (_, n) => column + (first + n) * columns);
}

function nodesAtCorner({ across, down, columns }: Lattice, node: number): number[] {
  const column = node % columns;
  const row = (node - column) / columns;
  const [left, right] = across.atCorner[column] ?? [column, column];
  const [top, bottom] = down.atCorner[row] ?? [row, row];
  if (left === right && top === bottom) return [node];
  const nodes: number[] = [];
  for (let r = top; r <= bottom; r++) for (let c = left; c <= right; c++) nodes.push(c + r * columns);
  return nodes;
}
