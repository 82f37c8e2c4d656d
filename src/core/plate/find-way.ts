/**
 * The cheapest way of one wire on the lattice, among the wires that lie there.
 *
 * Model: A* over nodes with the axis on which they were reached; a step costs its length, a bend, a crossing and a
 * conflict cost so many millimetres more. The guess of what is left is the rectilinear distance and the bend that is
 * needed to get there, never too much. A state is twice its node, and one more if the node was reached up or down.
 * Source: Hart, Nilsson, Raphael, IEEE Trans. Syst. Sci. Cybern. 4 (1968), 100-107 (from memory).
 */
import { cell } from "./cells.ts";
import { type Lattice, type LatticeLug, openedTo } from "./lattice.ts";
import type { Occupancy, Way } from "./occupancy.ts";
import { type Queue, queue } from "./queue.ts";

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

/** The most that ends can cost which are no length, bend or crossing. */
export const ENDS_MM = 2 * (BESIDE_MIDDLE_MM + BACKWARD_MM);

/** A step on or beside a body counts its length so many times. */
const OVER_BODY = 2;

const NO_STATE = -1;

const HAIR_MM = 1e-9;

export interface Net {
  readonly from: LatticeLug;
  readonly to: LatticeLug;
  /** Nodes that are not free to all, but to this wire. */
  readonly opened: readonly number[];
}

export function net(grid: Lattice, from: LatticeLug, to: LatticeLug): Net {
  return { from, to, opened: openedTo(grid, from, to) };
}

/** Arrays of the search, made once for many. */
export interface Desk {
  readonly waiting: Queue;
  readonly open: Uint8Array;
  readonly cost: Float64Array;
  readonly before: Int32Array;
  /** What it costs to end at a node of the goal's pad, and one more; 0 at other nodes. */
  readonly ending: Float64Array;
  /** What earlier conflicts make a node dearer by. */
  readonly history: Float64Array;
}

export function desk({ columns, rows }: Lattice): Desk {
  const nodes = columns * rows;
  return {
    waiting: queue(),
    open: new Uint8Array(nodes),
    cost: new Float64Array(2 * nodes + 1).fill(Number.POSITIVE_INFINITY),
    before: new Int32Array(2 * nodes + 1),
    ending: new Float64Array(nodes),
    history: new Float64Array(nodes),
  };
}

export interface Asked {
  readonly prices: Prices;
  readonly desk: Desk;
  /** A way that costs more is as good as none. */
  readonly mostMm: number;
}

interface Search extends Asked {
  readonly grid: Lattice;
  readonly space: Occupancy;
  readonly net: Net;
  readonly waiting: Queue;
  readonly goal: { readonly x: number; readonly y: number; readonly radiusMm: number };
  /** The state of having ended. */
  readonly end: number;
  readonly moves: readonly Move[];
}

interface Move {
  readonly x: number;
  readonly y: number;
  /** To add to a node's number. */
  readonly step: number;
  readonly down: 0 | 1;
}

/** @returns the nodes from pad to pad, or undefined if there is no way at these prices */
export function findWay(grid: Lattice, space: Occupancy, wanted: Net, asked: Asked): Way | undefined {
  const moves: readonly Move[] = [
    { x: 1, y: 0, step: 1, down: 0 },
    { x: -1, y: 0, step: -1, down: 0 },
    { x: 0, y: 1, step: grid.columns, down: 1 },
    { x: 0, y: -1, step: -grid.columns, down: 1 },
  ];
  const end = 2 * grid.columns * grid.rows;
  const goal = { ...wanted.to.lug.at, radiusMm: wanted.to.lug.radiusMm };
  const search: Search = { ...asked, grid, space, net: wanted, waiting: asked.desk.waiting, goal, end, moves };
  const { open, cost, before, ending } = asked.desk;
  open.set(grid.free);
  for (const node of wanted.opened) open[node] = 1;
  search.waiting.clear((state) => {
    cost[state] = Number.POSITIVE_INFINITY;
  });
  for (const [n, node] of wanted.to.pad.entries()) ending[node] = 1 + endCost(search, node, n);
  for (const [n, node] of wanted.from.pad.entries()) start(search, node, endCost(search, node, n));
  run(search);
  for (const node of wanted.to.pad) ending[node] = 0;
  return cell(cost, end) <= asked.mostMm ? traced(before, end) : undefined;
}

function endCost({ space, prices }: Search, node: number, n: number): number {
  return priced(cell(space.wiresNear, node), prices.conflictMm, 0) + (n === 0 ? 0 : BESIDE_MIDDLE_MM);
}

function start(search: Search, node: number, costMm: number): void {
  if (search.desk.open[node] !== 1 || costMm === Number.POSITIVE_INFINITY) return;
  for (const move of search.moves) step(search, node, move, -2 - node, costMm + turnedAway(search.net.from, move, 1));
}

// From here to `throughCost` each function runs some million times for a plate: arguments one by one, arrays read in
// place, nothing made anew.

function run(search: Search): void {
  const { waiting, end, moves } = search;
  const { cost, before } = search.desk;
  for (;;) {
    const state = waiting.pop();
    if (state === NO_STATE || state === end) return;
    const node = state >> 1;
    const down = state & 1;
    const costMm = cost[state] ?? 0;
    if (waiting.weight() > costMm + guess(search, node, down) + HAIR_MM) continue;
    const from = before[state] ?? 0;
    const last = from >= 0 ? from >> 1 : -2 - from;
    const straightMm = costMm + throughCost(search, node, down);
    const cornerMm = costMm + cornerCost(search, node);
    for (let n = 0; n < 4; n++) {
      const move = moves[n];
      if (!move || node + move.step === last) continue;
      const soFarMm = move.down === down ? straightMm : cornerMm;
      if (soFarMm !== Number.POSITIVE_INFINITY) step(search, node, move, state, soFarMm);
    }
  }
}

/** One step from a node whose passing is paid already. */
function step(search: Search, node: number, move: Move, before: number, costMm: number): void {
  const { grid, space, prices, end } = search;
  const { open, ending, cost, history } = search.desk;
  const next = node + move.step;
  if (open[next] !== 1 || (move.down === 0 && wrapped(grid, node, next))) return;
  const runs = move.down === 1 ? space.nearDown : space.nearRight;
  const beside = runs[move.step > 0 ? node : next] ?? 0;
  let total = costMm + stepMm(grid, node, next);
  if (beside > 0) total += beside * prices.conflictMm + (history[next] ?? 0);
  const state = 2 * next + move.down;
  if (!(total < (cost[state] ?? 0))) return;
  reached(search, state, before, total, guess(search, next, move.down));
  const endingMm = ending[next] ?? 0;
  if (endingMm === 0) return;
  const lastMm = endingMm - 1 + turnedAway(search.net.to, move, -1);
  if (total + lastMm < (cost[end] ?? 0)) reached(search, end, state, total + lastMm, 0);
}

function reached(search: Search, state: number, before: number, costMm: number, leftMm: number): void {
  if (costMm + leftMm > search.mostMm) return;
  search.desk.cost[state] = costMm;
  search.desk.before[state] = before;
  search.waiting.push(state, costMm + leftMm);
}

/** What a step to the next node costs on an empty plate. */
export function stepMm({ xMm, yMm, bodyNear }: Lattice, node: number, next: number): number {
  const aside = Math.abs((xMm[next] ?? 0) - (xMm[node] ?? 0));
  const lengthMm = aside > 0 ? aside : Math.abs((yMm[next] ?? 0) - (yMm[node] ?? 0));
  return bodyNear[next] === 0 ? lengthMm : OVER_BODY * lengthMm;
}

/** Distance to the goal's pad, and a bend if the wire runs beside it. */
function guess({ grid, goal, prices }: Search, node: number, down: number): number {
  const x = Math.abs((grid.xMm[node] ?? 0) - goal.x) - goal.radiusMm;
  const y = Math.abs((grid.yMm[node] ?? 0) - goal.y) - goal.radiusMm;
  const aside = down === 1 ? x : y;
  return Math.max(x, 0) + Math.max(y, 0) + (aside > 0 ? prices.bendMm : 0);
}

function throughCost({ grid, space, prices, desk: on }: Search, node: number, down: number): number {
  const crossed = (down === 1 ? space.through.across : space.through.down)[node] ?? 0;
  const corners = space.cornersNear[node] ?? 0;
  if (crossed + corners === 0) return 0;
  const conflicts = corners + (grid.lugsNear[node] === 0 ? 0 : crossed);
  return prices.crossingMm * crossed + priced(conflicts, prices.conflictMm, on.history[node] ?? 0);
}

function cornerCost({ space, prices, desk: on }: Search, node: number): number {
  return prices.bendMm + priced(space.wiresNear[node] ?? 0, prices.conflictMm, on.history[node] ?? 0);
}

function priced(conflicts: number, conflictMm: number, history: number): number {
  return conflicts === 0 ? 0 : conflicts * conflictMm + history;
}

/** A step to the side that came out on the next row. */
function wrapped({ columns }: Lattice, node: number, next: number): boolean {
  return next < node ? node % columns === 0 : next % columns === 0;
}

/** @param sense 1 for a wire that leaves by this move, -1 for one that arrives */
function turnedAway({ lug: { out } }: LatticeLug, { x, y }: Move, sense: 1 | -1): number {
  if (!out) return 0;
  const forward = sense * (out.x * x + out.y * y);
  if (forward > 0.7) return 0;
  return forward > -0.7 ? SIDEWAYS_MM : BACKWARD_MM;
}

function traced(before: Int32Array, end: number): Way {
  const way: number[] = [];
  let state = cell(before, end);
  while (state >= 0) {
    way.push(state >> 1);
    state = cell(before, state);
  }
  way.push(-2 - state);
  return way.reverse();
}
