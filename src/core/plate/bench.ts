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

/** In how many places a wire that lies is too near to the others. */
export function conflictsOn(on: Bench, wire: number): number {
  return lifted(on, wire, (way) => conflictsOf(on.space, on.grid, way)) ?? 0;
}

/** Makes the places dearer at which a wire that lies is in conflict, for all that is looked for later. */
export function rememberOn(on: Bench, wire: number, priceMm: number): void {
  const { grid, space, desk: arrays } = on;
  lifted(on, wire, (way) => {
    way.forEach((node, n) => {
      if (conflictsAt(space, grid, node, passingAt(way, n, grid.columns)) > 0) addTo(arrays.history, node, priceMm);
      const next = way[n + 1];
      if (next !== undefined && conflictsOf(space, grid, [node, next]) > 0) addTo(arrays.history, next, priceMm / 2);
    });
  });
}

/** Asks about the way of a wire that lies, among the others alone. */
function lifted<T>(on: Bench, wire: number, ask: (way: Way) => T): T | undefined {
  const way = on.ways[wire];
  if (!way) return undefined;
  setWay(on, wire, undefined);
  const answer = amongOthers(on, wire, () => ask(way));
  setWay(on, wire, way);
  return answer;
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

/** Wires that lie where one that does not lie would best run, were it alone or nearly so. */
export function inTheWayOf(on: Bench, wire: number, prices: Prices): number[] {
  const way = wayAmongOthers(on, wire, prices);
  if (!way) return [];
  setWay(on, wire, way);
  const blocking = on.ways.flatMap((_, other) => (other !== wire && conflictsOn(on, other) > 0 ? [other] : []));
  setWay(on, wire, undefined);
  return blocking;
}
