/** A first way for each wire: conflicts are allowed at a rising price, until there are none. */
import { type Bench, conflictsOn, rememberOn, setWay, wayAmongOthers } from "./bench.ts";
import type { Prices } from "./find-way.ts";
import { xOf, yOf } from "./lattice.ts";
import { shuffled } from "./random.ts";

const ROUNDS = 14;
const FIRST_PRICE_MM = 2;
const RISE = 1.5;
const HISTORY_MM = 1.5;

/** Lays the bench's wires; those that cannot be laid without conflict are left out. */
export function negotiate(on: Bench, prices: Prices, draw: () => number): void {
  const wires = on.nets.map((_, wire) => wire).sort((a, b) => spanMm(on, a) - spanMm(on, b));
  let left = wires;
  for (let round = 0; round < ROUNDS && left.length > 0; round++) {
    const conflictMm = FIRST_PRICE_MM * RISE ** round;
    for (const wire of left) {
      setWay(on, wire, undefined);
      setWay(on, wire, wayAmongOthers(on, wire, { ...prices, conflictMm }));
    }
    left = shuffled(
      wires.filter((wire) => conflictsOn(on, wire) > 0),
      draw,
    );
    for (const wire of left) rememberOn(on, wire, HISTORY_MM);
  }
  keepOnlyClear(on, wires);
  on.desk.history.fill(0);
  for (const wire of wires) {
    if (!on.ways[wire]) setWay(on, wire, wayAmongOthers(on, wire, prices));
  }
}

function spanMm({ grid, nets }: Bench, wire: number): number {
  const [from, to] = [nets[wire]?.from.pad[0] ?? 0, nets[wire]?.to.pad[0] ?? 0];
  return Math.abs(xOf(grid, from) - xOf(grid, to)) + Math.abs(yOf(grid, from) - yOf(grid, to));
}

/** Takes up the wire with the most conflicts, until none has one. */
function keepOnlyClear(on: Bench, wires: readonly number[]): void {
  for (;;) {
    const worst = wires
      .map((wire) => ({ wire, count: conflictsOn(on, wire) }))
      .reduce((one, other) => (other.count > one.count ? other : one), { wire: -1, count: 0 });
    if (worst.count === 0) return;
    setWay(on, worst.wire, undefined);
  }
}
