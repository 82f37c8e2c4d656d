import type { ResistanceReading } from "../../../src/core/circuit/coil-network.ts";
import type { CompassReading, Kick, KickReading, Sign } from "../../../src/core/circuit/coil-signs.ts";
import { type CoilSearch, type CoilsFound, findCoils } from "../../../src/core/circuit/find-coils.ts";

/** A coil as it is, by its winding and magnet. The sign of a kick is w m with red on the finish. */
export interface TrueCoil {
  readonly start: string;
  readonly finish: string;
  readonly ohms: number;
  readonly row?: string;
  readonly w?: Sign;
  readonly m?: Sign;
}

export interface TruePickup {
  /** Names that are one with another, pair by pair. */
  readonly joints?: readonly (readonly [string, string])[];
  readonly coils: readonly TrueCoil[];
}

const LEADS_OHMS = 0.3;

/** What the meter reads: the sum along the way over joints and coils, which hang together like a tree. */
export function ohmsBetween({ joints = [], coils }: TruePickup, a: string, b: string): number | "open" {
  const links = [
    ...joints.map(([x, y]) => ({ x, y, ohms: 0 })),
    ...coils.map(({ start, finish, ohms }) => ({ x: start, y: finish, ohms })),
  ];
  const reached = new Map([[a, LEADS_OHMS]]);
  for (const [name, ohms] of reached) {
    for (const link of links) {
      const beyond = link.x === name ? link.y : link.y === name ? link.x : undefined;
      if (beyond !== undefined && !reached.has(beyond)) reached.set(beyond, ohms + link.ohms);
    }
  }
  return reached.get(b) ?? "open";
}

export function kickOf(pickup: TruePickup, red: string, black: string, row: string): Kick {
  const touches = (probe: string, end: string) => {
    const ohms = ohmsBetween(pickup, probe, end);
    return ohms !== "open" && ohms < 1;
  };
  for (const { start, finish, w = 1, m = 1, row: own } of pickup.coils) {
    if (own !== row) continue;
    if (touches(red, finish) && touches(black, start)) return w * m > 0 ? "+" : "-";
    if (touches(red, start) && touches(black, finish)) return w * m > 0 ? "-" : "+";
  }
  return "none";
}

/** Does everything that is asked for, and counts. */
export function workThrough(pickup: TruePickup, names: Omit<CoilSearch, "resistances" | "kicks" | "compass">) {
  const resistances: ResistanceReading[] = [];
  const kicks: KickReading[] = [];
  const compass: CompassReading[] = [];
  const look = () => findCoils({ ...names, resistances, kicks, compass });
  let found: CoilsFound = look();
  const first = found.mostReadingsLeft;
  for (let count = 0; found.needs[0]; count += 1) {
    if (count > 200) throw new Error("it goes on asking");
    const [need] = found.needs;
    const left = found.mostReadingsLeft;
    if (need.kind === "resistance") {
      const { a, b } = need;
      resistances.push({ a, b, ohms: ohmsBetween(pickup, a, b) });
    } else if (need.kind === "kick") {
      const { red, black, row } = need;
      kicks.push({ red, black, row, kick: kickOf(pickup, red, black, row) });
    } else {
      const { m } = pickup.coils.find(({ row }) => row === need.row) ?? {};
      // The end that is drawn names the opposite pole; m is +1 for north up.
      compass.push({ row: need.row, drawn: m === 1 ? "south" : "north" });
    }
    found = look();
    if (need.kind === "resistance" && found.mostReadingsLeft >= left) throw new Error(`idle: ${need.a} to ${need.b}`);
  }
  return { found, first, resistances, kicks, compass };
}

/** Every order of a list. */
export function ordersOf<Item>(items: readonly Item[]): Item[][] {
  if (items.length < 2) return [[...items]];
  return items.flatMap((one, at) => ordersOf(items.filter((_, index) => index !== at)).map((rest) => [one, ...rest]));
}
