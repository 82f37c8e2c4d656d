/**
 * The cheapest way of one wire on the lattice, among the wires that lie there.
 *
 * Model: A* over nodes with the axis on which they were reached; a step costs its length, a bend, a crossing and a
 * conflict cost so many millimetres more. The guess of what is left is the rectilinear distance, never too much.
 * Source: Hart, Nilsson, Raphael, IEEE Trans. Syst. Sci. Cybern. 4 (1968), 100-107 (from memory).
 */
import { cell } from "./cells.ts";
import { type Lattice, type LatticeLug, openedTo, xOf, yOf } from "./lattice.ts";
import { conflictsAt, crossingsAt, type Occupancy, type Passing, type Way } from "./occupancy.ts";
import { queue } from "./queue.ts";

export interface Prices {
  readonly bendMm: number;
  readonly crossingMm: number;
  /** Of one conflict at a node, or of a step beside another wire. Infinity where there must be none. */
  readonly conflictMm: number;
}

/** Beside the middle of a pad; a way out to the side of a lug; a way out backward. */
const BESIDE_MIDDLE_MM = 2;
const SIDEWAYS_MM = 3;
const BACKWARD_MM = 8;

/** Each step over a body counts this much of its length more. */
const OVER_BODY = 1;

export interface Net {
  readonly from: LatticeLug;
  readonly to: LatticeLug;
  readonly opened: readonly number[];
}

export function net(grid: Lattice, from: LatticeLug, to: LatticeLug): Net {
  return { from, to, opened: openedTo(grid, from, to) };
}

/** Arrays of the search, made once for many. */
export interface Desk {
  readonly open: Uint8Array;
  readonly cost: Float64Array;
  readonly before: Int32Array;
  readonly done: Uint8Array;
  /** What earlier conflicts make a node dearer by. */
  readonly history: Float64Array;
}

export function desk({ columns, rows }: Lattice): Desk {
  const states = 2 * columns * rows + 1;
  return {
    open: new Uint8Array(columns * rows),
    cost: new Float64Array(states),
    before: new Int32Array(states),
    done: new Uint8Array(states),
    history: new Float64Array(columns * rows),
  };
}

/** @returns the nodes from pad to pad, or undefined if there is no way at these prices */
export function findWay(grid: Lattice, space: Occupancy, { from, to, opened }: Net, at: Search): Way | undefined {
  const { prices, desk: d } = at;
  const { columns, rows } = grid;
  const end = 2 * columns * rows;
  d.open.set(grid.free);
  for (const node of opened) d.open[node] = 1;
  d.cost.fill(Number.POSITIVE_INFINITY);
  d.before.fill(-1);
  d.done.fill(0);
  const waiting = queue();
  const goal = to.lug.at;
  const goals = new Map(to.pad.map((node, n) => [node, n === 0 ? 0 : BESIDE_MIDDLE_MM]));
  const reach = Math.min(to.lug.radiusMm, 1e6);
  const guess = (node: number): number =>
    Math.max(0, Math.abs(xOf(grid, node) - goal.x) + Math.abs(yOf(grid, node) - goal.y) - 2 * reach);

  function reached(state: number, before: number, cost: number, left: number): void {
    if (!(cost < cell(d.cost, state))) return;
    d.cost[state] = cost;
    d.before[state] = before;
    waiting.push(state, cost + left);
  }

  /** One step from a node whose passing is paid already. */
  function step(node: number, n: number, before: number, cost: number): void {
    const move = MOVES[n];
    if (!move) return;
    const next = neighbour(grid, node, move);
    if (next < 0 || cell(d.open, next) === 0) return;
    const down = move.y !== 0;
    const lengthMm = Math.abs(xOf(grid, next) - xOf(grid, node) + yOf(grid, next) - yOf(grid, node));
    const beside = cell(down ? space.nearDown : space.nearRight, Math.min(node, next));
    const overBody = cell(grid.bodyNear, next) > 0 ? OVER_BODY * lengthMm : 0;
    const total = cost + lengthMm + overBody + priced(beside, prices.conflictMm, cell(d.history, next));
    if (total === Number.POSITIVE_INFINITY) return;
    reached(2 * next + (down ? 1 : 0), before, total, guess(next));
    const besideMiddle = goals.get(next);
    if (besideMiddle === undefined) return;
    const ending = priced(conflictsAt(space, grid, next, "corner"), prices.conflictMm, 0);
    const arriving = turnedAway(to, { x: -move.x, y: -move.y });
    endStep(2 * next + (down ? 1 : 0), total + ending + arriving + besideMiddle);
  }

  let lastState = -1;
  function endStep(state: number, cost: number): void {
    if (!(cost < cell(d.cost, end))) return;
    lastState = state;
    reached(end, state, cost, 0);
  }

  from.pad.forEach((node, n) => {
    if (cell(d.open, node) === 0) return;
    const starting = priced(conflictsAt(space, grid, node, "corner"), prices.conflictMm, 0);
    const cost = starting + (n === 0 ? 0 : BESIDE_MIDDLE_MM);
    MOVES.forEach((move, m) => {
      step(node, m, -2 - node, cost + turnedAway(from, move));
    });
  });

  while (waiting.size() > 0) {
    const state = waiting.pop();
    if (state === end) return traced(d.before, lastState);
    if (cell(d.done, state) === 1) continue;
    d.done[state] = 1;
    const node = state >> 1;
    const wasDown = (state & 1) === 1;
    const cost = cell(d.cost, state);
    for (let n = 0; n < 4; n++) {
      const down = n >= 2;
      const passing: Passing = down !== wasDown ? "corner" : down ? "down" : "across";
      const conflicts = conflictsAt(space, grid, node, passing);
      const here =
        (passing === "corner" ? prices.bendMm : prices.crossingMm * crossingsAt(space, node, passing)) +
        priced(conflicts, prices.conflictMm, cell(d.history, node));
      if (here !== Number.POSITIVE_INFINITY) step(node, n, state, cost + here);
    }
  }
  return undefined;
}

export interface Search {
  readonly prices: Prices;
  readonly desk: Desk;
}

const MOVES = [
  { x: 1, y: 0 },
  { x: -1, y: 0 },
  { x: 0, y: 1 },
  { x: 0, y: -1 },
] as const;

function priced(conflicts: number, conflictMm: number, history: number): number {
  return conflicts === 0 ? 0 : conflicts * conflictMm + history;
}

function neighbour({ columns, rows }: Lattice, node: number, { x, y }: { x: number; y: number }): number {
  const column = (node % columns) + x;
  if (column < 0 || column >= columns) return -1;
  const next = node + x + y * columns;
  return next < 0 || next >= columns * rows ? -1 : next;
}

function turnedAway({ lug }: LatticeLug, move: { x: number; y: number }): number {
  if (!lug.out) return 0;
  const forward = lug.out.x * move.x + lug.out.y * move.y;
  if (forward > 0.7) return 0;
  return forward > -0.7 ? SIDEWAYS_MM : BACKWARD_MM;
}

function traced(before: Int32Array, last: number): Way {
  const way: number[] = [];
  let state = last;
  while (state >= 0) {
    way.push(state >> 1);
    state = before[state] ?? -1;
  }
  way.push(-2 - state);
  return way.reverse();
}
