/** The shortest way from lug to lug over wires, closed contacts, pots at their stops and joins inside devices. */
import type { Circuit, State } from "../physical.ts";
import { joinsOf, stopsOf } from "../state.ts";

/** @returns the lugs of the way, both ends among them; empty where there is none */
export function wayBetween(circuit: Circuit, state: State, from: string, to: string): string[] {
  const neighbours = new Map<string, string[]>();
  const join = (a: string, b: string) => neighbours.set(a, [...(neighbours.get(a) ?? []), b]);
  for (const [a, b] of [...joinsOf(circuit, state), ...stopsOf(circuit, state)]) {
    join(a, b);
    join(b, a);
  }
  const before = new Map<string, string | undefined>([[from, undefined]]);
  const open = [from];
  for (const lug of open) {
    if (lug === to) break;
    for (const next of neighbours.get(lug) ?? []) {
      if (before.has(next)) continue;
      before.set(next, lug);
      open.push(next);
    }
  }
  if (!before.has(to)) return from === to ? [from] : [];
  const way: string[] = [];
  for (let lug: string | undefined = to; lug !== undefined; lug = before.get(lug)) way.unshift(lug);
  return way;
}
