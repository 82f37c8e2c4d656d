/** A wiring in one state: which lugs are one node, and what stands between the nodes. */
import type { ContactMap } from "./contact-map.ts";
import type { Resistor } from "./dc.ts";
import { type Element, groupsOf, type Netlist } from "./netlist.ts";
import { type Circuit, type Coil, type Load, type State, type Track, turnOf } from "./physical.ts";
import { trackShare } from "./taper.ts";

/** Copper: R(T) = R20 (1 + 0.00393 (T - 20)), IEC 60028. */
const COPPER_PER_KELVIN = 0.00393;
const REFERENCE_CELSIUS = 20;

export interface InState {
  readonly circuit: Circuit;
  readonly state: State;
  /** The node of a lug: the name of one of its lugs, the jack's sleeve where it belongs to that. */
  readonly nodeOf: (lug: string) => string;
  readonly ground: string;
  readonly output: string;
}

/** Joins of a state without its pots: soldered, inside devices, closed contacts. */
export function joinsOf(circuit: Circuit, state: State): (readonly [string, string])[] {
  const joins: (readonly [string, string])[] = [...circuit.inside];
  for (const { from, to } of circuit.wires) joins.push([from, to]);
  for (const { id, map } of circuit.switches)
    for (const group of groupsIn(map, state.switches[id]))
      for (const lug of group.slice(1)) joins.push([`${id}.${group[0]}`, `${id}.${lug}`]);
  return joins;
}

function offTrack({ noLoad }: Track, turn: number): boolean {
  return noLoad && turn >= 1;
}

/** A wiper at its stop lies on the lug: no resistance, one node. */
export function stopsOf(circuit: Circuit, state: State): (readonly [string, string])[] {
  return circuit.tracks.flatMap((track): (readonly [string, string])[] => {
    const turn = turnOf(track, state);
    if (offTrack(track, turn)) return [];
    const share = trackShare(track.taper, turn);
    return [
      ...(share <= 0 ? [[track.low, track.wiper] as const] : []),
      ...(share >= 1 ? [[track.high, track.wiper] as const] : []),
    ];
  });
}

/** A switch of which nothing is said joins nothing. */
function groupsIn(map: ContactMap, position: string | undefined): readonly (readonly string[])[] {
  return map.positions.find(({ name }) => name === position)?.joined ?? [];
}

/** @param extra further joins, e.g. of a plug in the jack */
export function inState(circuit: Circuit, state: State, extra: readonly (readonly [string, string])[] = []): InState {
  const joins = [...joinsOf(circuit, state), ...stopsOf(circuit, state)];
  const { sleeve, tip } = circuit.jack;
  const nodeOf = groupsOf([sleeve, tip, ...circuit.lugs], [...joins, ...extra]);
  return { circuit, state, nodeOf, ground: nodeOf(sleeve), output: nodeOf(tip) };
}

interface TrackPart {
  readonly name: string;
  readonly a: string;
  readonly b: string;
  readonly share: number;
  readonly track: Track;
}

/** The pieces of track that stand between two different nodes. */
export function trackParts({ circuit, state, nodeOf }: InState): TrackPart[] {
  return circuit.tracks.flatMap((track) => {
    const turn = turnOf(track, state);
    const [low, wiper, high] = [nodeOf(track.low), nodeOf(track.wiper), nodeOf(track.high)];
    if (offTrack(track, turn))
      return low === high ? [] : [{ name: `${track.id}:track`, a: low, b: high, share: 1, track }];
    const share = trackShare(track.taper, turn);
    return [
      { name: `${track.id}:below`, a: low, b: wiper, share, track },
      { name: `${track.id}:above`, a: wiper, b: high, share: 1 - share, track },
    ].filter((part) => part.share > 0 && part.a !== part.b);
  });
}

export function copperFactor(celsius: number): number {
  return 1 + COPPER_PER_KELVIN * (celsius - REFERENCE_CELSIUS);
}

/** What a meter meets; named after the coil, the track or the part, so that doubts find their way back. */
export function resistorsOf(inside: InState, celsius = REFERENCE_CELSIUS): (Resistor & { readonly part: string })[] {
  const { circuit, nodeOf } = inside;
  return [
    ...circuit.coils.map((coil) => ({
      name: coil.id,
      part: coil.id,
      a: nodeOf(coil.start),
      b: nodeOf(coil.finish),
      ohms: coil.ohms * copperFactor(celsius),
    })),
    ...trackParts(inside).map(({ name, a, b, share, track }) => ({
      name,
      part: track.id,
      a,
      b,
      ohms: share * track.ohms,
    })),
    ...circuit.fixed
      .filter(({ kind }) => kind === "resistor")
      .map(({ id, a, b, value }) => ({ name: id, part: id, a: nodeOf(a), b: nodeOf(b), ohms: value })),
  ];
}

/** The source of a coil in its netlist. */
export function sourceOf(coil: Pick<Coil, "id">): string {
  return `${coil.id}:emf`;
}

/** The circuit with what hangs on its jack, every coil with an emf of 1 V from start to finish. */
export function netlistOf(inside: InState, load: Load, celsius = REFERENCE_CELSIUS): Netlist {
  const { circuit, nodeOf, ground, output } = inside;
  const elements: Element[] = [];
  for (const coil of circuit.coils) elements.push(...coilElements(coil, nodeOf, celsius));
  for (const { coils, henries, arrangement } of circuit.pairings) {
    const sign = mutualSign(circuit, coils, arrangement);
    if (sign !== 0 && henries > 0)
      elements.push({
        kind: "coupling",
        name: `${coils.join("&")}:mutual`,
        of: [`${coils[0]}:henries`, `${coils[1]}:henries`],
        henries: sign * henries,
      });
  }
  for (const { name, a, b, share, track } of trackParts(inside))
    elements.push({ kind: "resistor", name, a, b, ohms: share * track.ohms });
  for (const { id, kind, a, b, value } of circuit.fixed)
    elements.push(
      kind === "resistor"
        ? { kind, name: id, a: nodeOf(a), b: nodeOf(b), ohms: value }
        : { kind, name: id, a: nodeOf(a), b: nodeOf(b), farads: value },
    );
  if (load.cableFarads > 0)
    elements.push({ kind: "capacitor", name: "cable", a: output, b: ground, farads: load.cableFarads });
  if (Number.isFinite(load.inputOhms))
    elements.push({ kind: "resistor", name: "input", a: output, b: ground, ohms: load.inputOhms });
  return { ground, elements };
}

function coilElements(coil: Coil, nodeOf: (lug: string) => string, celsius: number): Element[] {
  const { id } = coil;
  const [start, finish] = [nodeOf(coil.start), nodeOf(coil.finish)];
  const [inner, beyond] = [`${id}:1`, `${id}:2`];
  const elements: Element[] = [
    { kind: "source", name: sourceOf(coil), a: inner, b: start, volts: 1 },
    { kind: "inductor", name: `${id}:henries`, a: inner, b: beyond, henries: coil.henries },
    { kind: "resistor", name: `${id}:ohms`, a: beyond, b: finish, ohms: coil.ohms * copperFactor(celsius) },
  ];
  if (coil.farads > 0)
    elements.push({ kind: "capacitor", name: `${id}:farads`, a: start, b: finish, farads: coil.farads });
  if (coil.eddyOhms !== undefined)
    elements.push({ kind: "resistor", name: `${id}:eddy`, a: start, b: finish, ohms: coil.eddyOhms });
  return elements;
}

/**
 * Mutual inductance counted from start to finish: side by side, a pair whose windings run against each other in one field
 * shares its flux when joined so that hum cancels: sign -w w; stacked, +w w. Without windings known it is left out.
 */
function mutualSign(
  circuit: Circuit,
  [first, second]: readonly [string, string],
  arrangement: "side by side" | "stacked",
): number {
  const windingOf = (id: string) => circuit.coils.find((coil) => coil.id === id)?.winding ?? 0;
  const product = windingOf(first) * windingOf(second);
  return arrangement === "stacked" ? product : -product;
}
