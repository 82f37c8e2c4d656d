/**
 * The plate as a lattice of places that wires may pass: tracks across and down, what stands on them, and who may pass
 * there nevertheless.
 *
 * A node is a crossing of a track across with a track down; its number is column + row * columns. A segment has the
 * number of its left or upper node.
 */
import { addTo, cell } from "./cells.ts";
import { depthInBody } from "./outline.ts";
import type { Lug, Plate, Wire } from "./plate.ts";
import { type Passed, type TrackRules, type Tracks, tracks } from "./tracks.ts";

/** From the edge of a foreign lug's pad. */
export const LUG_CLEAR_MM = 0.5;

/** Wires of one lug may run nearer to each other as far from its pad as this. */
export const FAN_MM = 2;

/**
 * From a body's outline. A step is 1.25 spacings at most, and a rectangle is widened to 1.41 times this at its corners,
 * so that none reaches in between two nodes.
 */
const BODY_CLEAR_IN_SPACINGS = 0.47;

/** To either side of the middle of a lug's way out over its body. */
const WAY_OUT_MM = 0.75;

/** A step passes a lug nearer than its nodes where lugs share a track, but by less than this. */
const SLACK_MM = 0.01;

/** A lug on which so many wires end gets tracks beside its middle. */
const SPLIT_FROM = 3;

export interface Lattice {
  readonly across: Tracks;
  readonly down: Tracks;
  readonly columns: number;
  readonly rows: number;
  /** Where each node lies. */
  readonly xMm: Float64Array;
  readonly yMm: Float64Array;
  /** 1 where any wire may pass. */
  readonly free: Uint8Array;
  /** How many lugs want the node clear of others' wires. */
  readonly lugsNear: Uint8Array;
  /** How many bodies the node is on or beside. */
  readonly bodyNear: Uint8Array;
  readonly lugs: readonly LatticeLug[];
}

export interface LatticeLug {
  readonly lug: Lug;
  /** Nodes of its pad, the middle first. */
  readonly pad: readonly number[];
  /** Nodes that others' wires keep clear of. */
  readonly near: ReadonlySet<number>;
  /** Nodes over or beside a body that its wires may pass nevertheless. */
  readonly overBody: ReadonlySet<number>;
}

export function lattice({ bounds, bodies, lugs, wires }: Plate, rules: TrackRules): Lattice {
  const split = lugs.filter((lug) => hasSplitPad(lug, wires, rules));
  const passed = (axis: "x" | "y"): Passed => ({
    lugs: lugs.map(({ at }) => at[axis]),
    beside: split.flatMap(({ at }) => [-1, 1].map((side) => at[axis] + side * (rules.cornerMm + SLACK_MM))),
  });
  const across = tracks(bounds.left, bounds.left + bounds.widthMm, passed("x"), rules);
  const down = tracks(bounds.top, bounds.top + bounds.heightMm, passed("y"), rules);
  const [columns, rows] = [across.atMm.length, down.atMm.length];
  const count = columns * rows;
  const xMm = Float64Array.from({ length: count }, (_, node) => across.atMm[node % columns] ?? 0);
  const yMm = Float64Array.from({ length: count }, (_, node) => down.atMm[Math.floor(node / columns)] ?? 0);
  const places = { across, down, columns, rows, xMm, yMm };
  const clearMm = BODY_CLEAR_IN_SPACINGS * rules.spacingMm;
  const bodyNear = new Uint8Array(count);
  const lugsNear = new Uint8Array(count);
  const bodyNodes = bodies.map(({ shape }) => nodesWhere(places, (x, y) => depthInBody({ x, y }, shape) > -clearMm));
  const lugNodes = lugs.map((lug) => nodesWithin(places, lug, lug.radiusMm + LUG_CLEAR_MM + SLACK_MM));
  for (const node of bodyNodes.flat()) addTo(bodyNear, node, 1);
  for (const node of lugNodes.flat()) addTo(lugsNear, node, 1);
  const free = Uint8Array.from(bodyNear, (near, node) => (near + cell(lugsNear, node) === 0 ? 1 : 0));
  return {
    ...places,
    free,
    bodyNear,
    lugsNear,
    lugs: lugs.map((lug, n) => {
      const pad = nodesWithin(places, lug, lug.radiusMm - SLACK_MM);
      const over = [...pad, ...bodyNodes.flatMap((nodes) => wayOverBody(places, lug, nodes))];
      const overBody = new Set(over.filter((node) => cell(bodyNear, node) > 0));
      return { lug, pad, near: new Set(lugNodes[n]), overBody };
    }),
  };
}

/** Many wires end on it, and side by side they have room on its pad. */
function hasSplitPad({ id, radiusMm }: Lug, wires: readonly Wire[], { cornerMm }: TrackRules): boolean {
  const ends = wires.filter(({ from, to }) => from === id || to === id).length;
  return ends >= SPLIT_FROM && radiusMm >= cornerMm + 2 * SLACK_MM;
}

type Places = Pick<Lattice, "across" | "down" | "columns" | "rows" | "xMm" | "yMm">;

export function xOf({ xMm }: Pick<Lattice, "xMm">, node: number): number {
  return cell(xMm, node);
}

export function yOf({ yMm }: Pick<Lattice, "yMm">, node: number): number {
  return cell(yMm, node);
}

/** Nodes that a wire between two lugs may pass, besides those that are free to all. */
export function openedTo({ bodyNear, lugsNear }: Lattice, one: LatticeLug, other: LatticeLug): number[] {
  const nodes = new Set([one, other].flatMap(({ near, overBody }) => [...near, ...overBody]));
  const isIn = (set: ReadonlySet<number>, node: number): number => (set.has(node) ? 1 : 0);
  return [...nodes].filter((node) => {
    const foreign = cell(lugsNear, node) - isIn(one.near, node) - isIn(other.near, node);
    const overOwn = one.overBody.has(node) || other.overBody.has(node);
    return foreign === 0 && (cell(bodyNear, node) === 0 || overOwn);
  });
}

/** Whether a node lies within a distance of a lug's middle. */
export function isWithin(places: Places, node: number, { at }: Lug, withinMm: number): boolean {
  return Math.hypot(xOf(places, node) - at.x, yOf(places, node) - at.y) <= withinMm;
}

function nodesWhere(places: Places, holds: (x: number, y: number) => boolean): number[] {
  const { across, down, columns } = places;
  return down.atMm.flatMap((y, row) =>
    across.atMm.flatMap((x, column) => (holds(x, y) ? [column + row * columns] : [])),
  );
}

function nodesWithin(places: Places, { at }: Lug, withinMm: number): number[] {
  const { across, down, columns } = places;
  const nearBy = (atMm: readonly number[], middle: number): number[] =>
    atMm.flatMap((place, n) => (Math.abs(place - middle) <= withinMm ? [n] : []));
  const distanceMm = (node: number): number => Math.hypot(xOf(places, node) - at.x, yOf(places, node) - at.y);
  const columnsNear = nearBy(across.atMm, at.x);
  return nearBy(down.atMm, at.y)
    .flatMap((row) => columnsNear.map((column) => column + row * columns))
    .filter((node) => distanceMm(node) <= withinMm)
    .sort((a, b) => distanceMm(a) - distanceMm(b) || a - b);
}

/** Where a lug's wires cross the body that it stands on: straight out, or anywhere if it has no way out. */
function wayOverBody(places: Places, { at, radiusMm, out }: Lug, body: readonly number[]): readonly number[] {
  const standsOn = body.some((node) => Math.hypot(xOf(places, node) - at.x, yOf(places, node) - at.y) <= radiusMm);
  if (!standsOn) return [];
  if (!out) return body;
  return body.filter((node) => {
    const [x, y] = [xOf(places, node) - at.x, yOf(places, node) - at.y];
    const [forward, aside] = [x * out.x + y * out.y, x * out.y - y * out.x];
    return forward > -SLACK_MM && Math.abs(aside) <= Math.max(radiusMm, WAY_OUT_MM);
  });
}
