/** Fewer crossings and shorter wires: wires are taken up and laid again, and what is no better is put back. */
import { type Bench, crossedBy, inTheWayOf, setWay, totalCost, wayAmongOthers } from "./bench.ts";
import { ENDS_MM, type Prices } from "./find-way.ts";
import type { Way } from "./occupancy.ts";
import { shuffled } from "./random.ts";

/** Groups laid again for each wire of the plate, at effort 1. */
const GROUPS_PER_WIRE = 2;
const LARGEST_GROUP = 4;
const MOST_SWEEPS = 4;

/** Of the groups, while there are wires that lie nowhere. */
const SHARE_OF_LOST = 0.7;

/** A wire that lies nowhere is led past others at a price between 0 and this, to see which are in its way. */
const DEAREST_CONFLICT_MM = 40;

export interface Pains {
  readonly draw: () => number;
  readonly effort: number;
}

/** @returns what all that lies costs in the end, in millimetres */
export function improve(on: Bench, prices: Prices, { draw, effort }: Pains): number {
  let cost = sweep(on, prices, draw);
  const rounds = Math.round(GROUPS_PER_WIRE * effort * on.nets.length);
  for (let round = 0; round < rounds; round++) {
    const group = groupOf(on, prices, draw);
    if (group.length === 0) break;
    cost = laidAgain(on, prices, { group, cost });
  }
  return sweep(on, prices, draw);
}

/** Lays each wire again by itself, until none gets better. */
function sweep(on: Bench, prices: Prices, draw: () => number): number {
  let cost = totalCost(on, prices);
  for (let round = 0; round < MOST_SWEEPS; round++) {
    const before = cost;
    for (const wire of shuffled([...on.nets.keys()], draw)) cost = laidAgain(on, prices, { group: [wire], cost });
    if (cost > before - 1e-6) break;
  }
  return cost;
}

/** A wire that crosses others, with some of those; or one that lies nowhere, with those in its way. */
function groupOf(on: Bench, prices: Prices, draw: () => number): number[] {
  const wires = [...on.nets.keys()];
  const lost = wires.filter((wire) => !on.ways[wire]);
  const [first] = shuffled(lost.length > 0 && draw() < SHARE_OF_LOST ? lost : wires, draw);
  if (first === undefined) return [];
  if (on.ways[first]) {
    const others = shuffled(crossedBy(on, first), draw).slice(0, 1 + Math.floor(draw() * (LARGEST_GROUP - 1)));
    return shuffled([first, ...others], draw);
  }
  const conflictMm = DEAREST_CONFLICT_MM * draw() ** 2;
  const others = shuffled(inTheWayOf(on, first, { ...prices, conflictMm }), draw).slice(0, 2 * LARGEST_GROUP);
  return draw() < 0.5 ? [first, ...others] : shuffled([first, ...others], draw);
}

interface Group {
  readonly group: readonly number[];
  readonly cost: number;
}

function laidAgain(on: Bench, prices: Prices, { group, cost }: Group): number {
  const before: (Way | undefined)[] = group.map((wire) => on.ways[wire]);
  const lying = (): number => group.filter((wire) => on.ways[wire]).length;
  const lyingBefore = lying();
  for (const wire of group) setWay(on, wire, undefined);
  for (const wire of group) {
    const mostMm = lyingBefore < group.length ? undefined : cost - totalCost(on, prices) + ENDS_MM;
    setWay(on, wire, wayAmongOthers(on, wire, prices, mostMm));
    if (!on.ways[wire] && lyingBefore === group.length) break;
  }
  const after = totalCost(on, prices);
  if (lying() > lyingBefore || (lying() === lyingBefore && after <= cost + 1e-9)) return after;
  for (const wire of group) setWay(on, wire, undefined);
  group.forEach((wire, n) => {
    setWay(on, wire, before[n]);
  });
  return cost;
}
