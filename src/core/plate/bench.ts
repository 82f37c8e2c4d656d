/**
 * Wires laid on the lattice one by one, taken up and laid again.
 *
 * A wire is its place in the plate's list. Where it may run depends on what lies there already.
 */

import { addTo } from "./cells.ts";
import { type Desk, desk, findWay, type Net, net, type Prices, stepMm } from "./find-way.ts";
import type { Lattice, LatticeLug } from "./lattice.ts";
import {
  conflictsAt,
  conflictsOf,
  crossingsAt,
  emptyOccupancy,
  excuse,
  lay,
  type Occupancy,
  passingAt,
  type Way,
} from "./occupancy.ts";
import type { Wire } from "./plate.ts";

/** More than any way costs. */
const MOST_MM = 1e9;

export interface Bench {
  readonly grid: Lattice;
  readonly space: Occupancy;
  readonly desk: Desk;
  readonly nets: readonly Net[];
  /** The wires that have a lug in common with a wire, and that lug. */
  readonly mates: readonly (readonly Mate[])[];
  /** The way of each wire that lies; changes. */
  readonly ways: (Way | undefined)[];
}

interface Mate {
  readonly wire: number;
  readonly lug: LatticeLug;
}

export function bench(grid: Lattice, wires: readonly Wire[]): Bench {
  const lugs = new Map(grid.lugs.map((one) => [one.lug.id, one]));
  const nets = wires.flatMap((wire) => {
    const [from, to] = [lugs.get(wire.from), lugs.get(wire.to)];
    return from && to ? [net(grid, from, to)] : [];
  });
  const mates = nets.map(({ from, to }, n) =>
    nets.flatMap((other, wire) => {
      if (wire === n) return [];
      return [from, to].filter((lug) => lug === other.from || lug === other.to).map((lug) => ({ wire, lug }));
    }),
  );
  return { grid, space: emptyOccupancy(grid), desk: desk(grid), nets, mates, ways: nets.map(() => undefined) };
}

/** Lays a way for a wire, in place of the one that lies. */
export function setWay({ grid, space, ways }: Bench, wire: number, way: Way | undefined): void {
  const old = ways[wire];
  if (old === way) return;
  if (old) lay(space, grid, old, -1);
  if (way) lay(space, grid, way, 1);
  ways[wire] = way;
}

/** The cheapest way of a wire among the others; the wire itself must not lie. */
export function wayAmongOthers(on: Bench, wire: number, prices: Prices, mostMm = MOST_MM): Way | undefined {
  const own = on.nets[wire];
  if (!own) return undefined;
  return amongOthers(on, wire, () => findWay(on.grid, on.space, own, { prices, desk: on.desk, mostMm }));
}

/** In how many places a way of a wire would be too near to the others. */
export function conflicts(on: Bench, wire: number, way: Way): number {
  return amongOthers(on, wire, () => conflictsOf(on.space, on.grid, way));
}

/** Makes the places dearer at which a way is in conflict, for all that is looked for later. */
export function remember(on: Bench, wire: number, way: Way, priceMm: number): void {
  const { grid, space } = on;
  amongOthers(on, wire, () => {
    way.forEach((node, n) => {
      if (conflictsAt(space, grid, node, passingAt(way, n, grid.columns)) > 0) addTo(on.desk.history, node, priceMm);
      const next = way[n + 1];
      if (next !== undefined && conflictsOf(space, grid, [node, next]) > 0) addTo(on.desk.history, next, priceMm / 2);
    });
  });
}

function amongOthers<T>({ grid, space, mates, ways }: Bench, wire: number, ask: () => T): T {
  const excused = (mates[wire] ?? []).flatMap((mate) => {
    const way = ways[mate.wire];
    return way ? [{ way, lug: mate.lug }] : [];
  });
  for (const { way, lug } of excused) excuse(space, grid, way, { lug, change: -1 });
  const answer = ask();
  for (const { way, lug } of excused) excuse(space, grid, way, { lug, change: 1 });
  return answer;
}

/** What all that lies costs: length, bends and crossings, in millimetres. */
export function totalCost({ grid, space, ways }: Bench, prices: Prices): number {
  let total = 0;
  for (const way of ways) {
    way?.forEach((node, n) => {
      const next = way[n + 1];
      if (next !== undefined) total += stepMm(grid, node, next);
      const passing = passingAt(way, n, grid.columns);
      if (passing === "corner") total += prices.bendMm;
      if (passing === "across") total += prices.crossingMm * crossingsAt(space, node, passing);
    });
  }
  return total;
}

/** Wires that cross a wire that lies. */
export function crossedBy({ grid, space, ways }: Bench, wire: number): number[] {
  const way = ways[wire];
  if (!way) return [];
  const places = new Set(way.filter((node, n) => crossingsAt(space, node, passingAt(way, n, grid.columns)) > 0));
  if (places.size === 0) return [];
  return ways.flatMap((other, n) => (n !== wire && other?.some((node) => places.has(node)) ? [n] : []));
}
