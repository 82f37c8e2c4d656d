/** Which sound a state gives, found from the graph of its coils by taking series and parallel together. */
import type { Heard } from "./hearing.ts";
import { groupsOf } from "./netlist.ts";
import { flip, join, type Sound } from "./sounds.ts";
import { type InState, trackParts } from "./state.ts";

interface Edge {
  readonly a: string;
  readonly b: string;
  readonly sound: Sound;
}

/**
 * @param heard the coils that are heard; signs that are not known count as +1. A coil is called flipped where it runs
 *   against another that hears the same strings: halves of a split pickup have nothing to run against
 * @returns undefined for silence, or a bridge of coils that no series and parallel make
 */
export function soundOf(inside: InState, heard: readonly Heard[]): Sound | undefined {
  // A knob part of the way down leaves the sound what it is: its track counts as a wire along the signal.
  const merged = groupsOf(
    [inside.ground, inside.output],
    trackParts(inside)
      .filter(({ a, b }) => a !== inside.ground && b !== inside.ground)
      .map(({ a, b }) => [a, b] as const),
  );
  const home = (node: string) => (joinsGround(inside, merged) ? node : merged(node));
  const { coils } = inside.circuit;
  const inOrder = [...heard].sort((first, second) => coils.indexOf(first.coil) - coils.indexOf(second.coil));
  let edges: Edge[] = inOrder.map(({ coil, stringSign }) => ({
    a: home(inside.nodeOf(coil.start)),
    b: home(inside.nodeOf(coil.finish)),
    sound: withSign({ kind: "coil", coil: coil.id, flipped: false }, (stringSign ?? 1) * firstSign(inOrder, coil)),
  }));
  const ends = [home(inside.ground), home(inside.output)];
  for (;;) {
    const next = inParallel(edges) ?? inSeries(edges, ends);
    if (!next) break;
    edges = next;
  }
  const [only] = edges;
  if (edges.length !== 1 || !only || !ends.includes(only.a) || !ends.includes(only.b) || only.a === only.b)
    return undefined;
  return only.sound;
}

/** Sign of the first coil that hears a string of this one. */
function firstSign(heard: readonly Heard[], coil: Heard["coil"]): number {
  const first = heard.find((one) => one.coil.strings.some((string) => coil.strings.includes(string)));
  return first?.stringSign ?? 1;
}

function joinsGround({ ground, output }: InState, merged: (node: string) => string): boolean {
  return merged(ground) === merged(output);
}

function withSign(sound: Sound, sign: number): Sound {
  return sign < 0 ? flip(sound) : sound;
}

function inParallel(edges: readonly Edge[]): Edge[] | undefined {
  for (const [at, first] of edges.entries()) {
    const other = edges.findIndex(
      (second, index) =>
        index > at &&
        ((second.a === first.a && second.b === first.b) || (second.a === first.b && second.b === first.a)),
    );
    const second = edges[other];
    if (!second) continue;
    return [...without(edges, at, other), { ...first, sound: join("with", first.sound, second.sound) }];
  }
  return undefined;
}

function inSeries(edges: readonly Edge[], ends: readonly string[]): Edge[] | undefined {
  const nodes = new Set(edges.flatMap(({ a, b }) => [a, b]));
  for (const node of nodes) {
    if (ends.includes(node)) continue;
    const at = edges.flatMap((edge, index) => (edge.a === node || edge.b === node ? [index] : []));
    const [first, second] = [edges[at[0] ?? -1], edges[at[1] ?? -1]];
    if (at.length !== 2 || !first || !second) continue;
    const far = (edge: Edge) => (edge.a === node ? edge.b : edge.a);
    return [
      ...without(edges, at[0] ?? -1, at[1] ?? -1),
      { a: far(first), b: far(second), sound: join("then", first.sound, second.sound) },
    ];
  }
  return undefined;
}

function without(edges: readonly Edge[], first: number, second: number): Edge[] {
  return edges.filter((_, index) => index !== first && index !== second);
}
