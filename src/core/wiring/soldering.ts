/**
 * In which order a wiring is soldered, and the reading that closes each group.
 *
 * Ground on the plate first (cases take the most heat, and everything else is proved against it), then strings and shield,
 * jumpers of each switch, parts on their own leads, links between controls, the jack, and the pickups last: their thin
 * leads are the only ones that cannot be bought again (common practice, no source). A lug with an eye is soldered once,
 * when its last wire has come through: until then a wire is hooked and squeezed, which a meter takes for a joint.
 */
import { type Circuit, groupsOf, heardIn, inState, OPEN_JACK, type State, type Wire } from "../circuit/index.ts";
import type { WiredDevice, Wiring } from "../job/index.ts";
import { circuitOf, type WiredCircuit } from "./circuit-of.ts";
import { type OhmsBand, ohmsBand } from "./ohms.ts";

export type GroupKind = "ground" | "metal" | "switch" | "parts" | "links" | "jack" | "pickup";

/** Joints and wires below this read as one (common practice, no source). */
export const CONTACT_OHMS = 1;

export interface Joint {
  readonly lug: string;
  /** Wires of this group that end there. */
  readonly wires: readonly string[];
  /** "solder": every wire that is to come has come. "hook": more comes in the group named. */
  readonly act: "solder" | "hook";
  readonly until?: string;
}

export interface Proof {
  readonly points: readonly [string, string];
  /** Where switches and knobs are to stand. */
  readonly state?: State;
  readonly stateTitle: string;
  readonly expected: OhmsBand;
  /** What a wrong value means first, likeliest first. */
  readonly wrong: readonly string[];
}

export interface SolderGroup {
  readonly id: string;
  readonly kind: GroupKind;
  readonly title: string;
  readonly wires: readonly Wire[];
  readonly joints: readonly Joint[];
  readonly proofs: readonly Proof[];
}

/** @returns nothing where the job describes no coils or no wires */
export function solderGroups(wiring: Wiring | undefined): readonly SolderGroup[] {
  const wired = circuitOf(wiring);
  if (!wiring || !wired) return [];
  const sorted = sortedWires(wiring, wired.circuit);
  return sorted.map((group, at) => {
    const soFar = sorted.slice(0, at + 1).flatMap(({ wires }) => wires);
    return {
      ...group,
      joints: jointsOf(group.wires, sorted.slice(at + 1)),
      proofs: proofsOf({ wiring, wired, group, wires: soFar }),
    };
  });
}

type Sorted = Omit<SolderGroup, "joints" | "proofs">;

function sortedWires(wiring: Wiring, circuit: Circuit): Sorted[] {
  const deviceOf = new Map(wiring.devices.map((device) => [device.id, device]));
  const ends = ({ from, to }: Wire) =>
    [from, to].map((lug) => deviceOf.get(lug.slice(0, lug.indexOf(".")))) as [WiredDevice?, WiredDevice?];
  const grounded = groupsOf(
    circuit.lugs,
    circuit.wires.map(({ from, to }) => [from, to] as const),
  );
  const atGround = (lug: string) => grounded(lug) === grounded(circuit.jack.sleeve);
  const keyOf = (wire: Wire): { kind: GroupKind; id: string; title: string } => {
    const devices = ends(wire).filter((device) => device !== undefined);
    const ofKind = (...kinds: WiredDevice["kind"][]) => devices.find(({ kind }) => kinds.includes(kind));
    const pickup = ofKind("pickup");
    if (pickup) return { kind: "pickup", id: `pickup-${pickup.id}`, title: `The ${pickup.id} pickup, ${pickup.name}` };
    if (ofKind("metal", "battery")) return { kind: "metal", id: "metal", title: "Strings, shield and battery" };
    if (ofKind("component")) return { kind: "parts", id: "parts", title: "Capacitors and resistors" };
    if (ofKind("jack")) return { kind: "jack", id: "jack", title: "The jack" };
    if (atGround(wire.from) && atGround(wire.to)) return { kind: "ground", id: "ground", title: "Ground on the plate" };
    const [first, second] = devices;
    if (first && first === second && first.kind === "switch")
      return { kind: "switch", id: `switch-${first.id}`, title: `Jumpers of the ${first.id}` };
    return { kind: "links", id: "links", title: "From control to control" };
  };
  const groups = new Map<string, { kind: GroupKind; id: string; title: string; wires: Wire[] }>();
  for (const wire of circuit.wires) {
    const key = keyOf(wire);
    const group = groups.get(key.id) ?? { ...key, wires: [] };
    group.wires.push(wire);
    groups.set(key.id, group);
  }
  const order: readonly GroupKind[] = ["ground", "metal", "switch", "parts", "links", "jack", "pickup"];
  // The ground end of a pickup first, its hot end last.
  const late = (wire: Wire) => (atGround(wire.from) || atGround(wire.to) ? 0 : 1);
  return [...groups.values()]
    .map((group) => ({ ...group, wires: [...group.wires].sort((first, second) => late(first) - late(second)) }))
    .sort((first, second) => order.indexOf(first.kind) - order.indexOf(second.kind));
}

/** A case is soldered on its face: one wire does not shut out the next. */
function hasEye(lug: string): boolean {
  return !lug.endsWith(".case") && !lug.endsWith(".lug");
}

function jointsOf(wires: readonly Wire[], later: readonly Sorted[]): Joint[] {
  const lugs = [...new Set(wires.flatMap(({ from, to }) => [from, to]))];
  return lugs
    .filter((lug) => !isOwnEnd(lug, wires))
    .map((lug): Joint => {
      const mine = wires.filter(({ from, to }) => from === lug || to === lug).map(({ id }) => id);
      const next = hasEye(lug)
        ? later.findLast((group) => group.wires.some(({ from, to }) => from === lug || to === lug))
        : undefined;
      return next ? { lug, wires: mine, act: "hook", until: next.title } : { lug, wires: mine, act: "solder" };
    });
}

/** The end of a conductor or of a part's own lead is no joint of its own: it is what is soldered to the lug. */
function isOwnEnd(lug: string, wires: readonly Wire[]): boolean {
  const wire = wires.find(({ from }) => from === lug);
  return wire !== undefined && (wire.colour === "own lead" || isConductor(wire));
}

function isConductor({ from, colour }: Wire): boolean {
  return colour !== undefined && from.endsWith(`.${colour}`);
}

interface Proving {
  readonly wiring: Wiring;
  readonly wired: WiredCircuit;
  readonly group: Sorted;
  /** Soldered so far, this group among them. */
  readonly wires: readonly Wire[];
}

function proofsOf(proving: Proving): Proof[] {
  switch (proving.group.kind) {
    case "ground":
      return continuity(proving, spanning(proving.group.wires));
    case "metal":
      return continuity(
        proving,
        proving.group.wires.map(({ from, to }) => [from, to] as const),
      );
    case "switch":
      return continuity(proving, spanning(proving.group.wires));
    case "parts":
      return partProofs(proving);
    case "links":
      return linkProof(proving);
    case "jack":
    case "pickup":
      return jackProof(proving);
    default:
      return proving.group.kind satisfies never;
  }
}

/** Of each set of lugs that the wires make one: its first and its last. */
function spanning(wires: readonly Wire[]): (readonly [string, string])[] {
  const lugs = [...new Set(wires.flatMap(({ from, to }) => [from, to]))];
  const setOf = groupsOf(
    lugs,
    wires.map(({ from, to }) => [from, to] as const),
  );
  const sets = new Map<string, string[]>();
  for (const lug of lugs) sets.set(setOf(lug), [...(sets.get(setOf(lug)) ?? []), lug]);
  return [...sets.values()].flatMap((set) => {
    const [first, last] = [set[0], set.at(-1)];
    return first !== undefined && last !== undefined && first !== last ? [[first, last] as const] : [];
  });
}

const CONTACT: OhmsBand = { ohms: 0, low: 0, high: CONTACT_OHMS, shares: [] };

function continuity(_: Proving, pairs: readonly (readonly [string, string])[]): Proof[] {
  return pairs.map((points) => ({
    points,
    stateTitle: "",
    expected: CONTACT,
    wrong: ["open or unsteady: a cold joint between the two; go from lug to lug with one probe to find it"],
  }));
}

/** Knobs at zero: a pot at its stop would short what lies across it. */
function partProofs({ wiring, wired, group, wires }: Proving): Proof[] {
  const partial = withWires(wired, wires);
  const ids = [...new Set(group.wires.map(({ from }) => from.slice(0, from.indexOf("."))))];
  return ids.flatMap((id): Proof[] => {
    const component = wiring.components.find((one) => one.id === id);
    const [base] = wiring.states;
    if (!component || !base) return [];
    const travel = Object.fromEntries(wired.circuit.tracks.map((track) => [track.id, 0]));
    const state: State = { ...base, travel };
    const points = component.leads;
    const expected = ohmsBand(partial, state, 20, points);
    return [
      {
        points,
        state,
        stateTitle: "knobs at zero",
        expected,
        wrong: [
          component.kind === "capacitor"
            ? "0 Ω: the capacitor is shorted, or its leads touch; it may start low and climb while it charges"
            : "open: one of its leads has no joint",
        ],
      },
    ];
  });
}

/** What leads to the tip, against ground: the pots alone. */
function linkProof({ wiring, wired, wires }: Proving): Proof[] {
  const { circuit } = wired;
  const toTip = circuit.wires.find(({ from, to }) => from === circuit.jack.tip || to === circuit.jack.tip);
  const toSleeve = circuit.wires.find(({ from, to }) => from === circuit.jack.sleeve || to === circuit.jack.sleeve);
  const other = (wire: Wire | undefined, end: string) => (wire?.from === end ? wire.to : wire?.from);
  const points = [other(toTip, circuit.jack.tip), other(toSleeve, circuit.jack.sleeve)] as const;
  const [state] = wiring.states;
  if (points[0] === undefined || points[1] === undefined || !state) return [];
  const expected = ohmsBand(withWires(wired, wires), state, 20, [points[0], points[1]]);
  return [
    {
      points: [points[0], points[1]],
      state,
      stateTitle: `${state.title}, knobs as stated`,
      expected,
      wrong: wrongOf(wired, wires, state, [points[0], points[1]], wires, expected),
    },
  ];
}

function jackProof({ wiring, wired, group, wires }: Proving): Proof[] {
  const partial = withWires(wired, wires);
  const { tip, sleeve } = wired.circuit.jack;
  const pickup = group.id.replace(/^pickup-/, "");
  const state = group.kind === "jack" ? wiring.states[0] : plainest(partial, wiring.states, pickup);
  if (!state) return [];
  const expected = ohmsBand(partial, state, 20, [tip, sleeve]);
  return [
    {
      points: [tip, sleeve],
      state,
      stateTitle: state.title,
      expected,
      wrong: wrongOf(wired, wires, state, [tip, sleeve], group.wires, expected),
    },
  ];
}

/** The state that has most of a pickup and least of the others. */
function plainest(
  { circuit }: WiredCircuit,
  states: Wiring["states"],
  pickup: string,
): Wiring["states"][number] | undefined {
  const score = (state: Wiring["states"][number]): number => {
    const heard = heardIn(inState(circuit, state), OPEN_JACK);
    const own = heard.filter(({ coil }) => coil.pickup === pickup).length;
    return own === 0 ? Number.NEGATIVE_INFINITY : 2 * own - (heard.length - own);
  };
  const best = [...states].sort((first, second) => score(second) - score(first))[0];
  return best && score(best) > Number.NEGATIVE_INFINITY ? best : undefined;
}

/** What the meter reads with each wire of the group left off in turn. */
function wrongOf(
  wired: WiredCircuit,
  wires: readonly Wire[],
  state: State,
  points: readonly [string, string],
  group: readonly Wire[],
  expected: OhmsBand,
): string[] {
  const missing = new Map<string, string[]>();
  for (const wire of group) {
    const without = ohmsBand(
      withWires(
        wired,
        wires.filter(({ id }) => id !== wire.id),
      ),
      state,
      20,
      points,
    ).ohms;
    if (without >= expected.low && without <= expected.high) continue;
    const words = Number.isFinite(without) ? `about ${shownOhms(without)}` : "open";
    missing.set(words, [...(missing.get(words) ?? []), wire.id]);
  }
  return [
    ...[...missing].map(([words, ids]) => `${words}: no contact at ${ids.join(" or ")}`),
    ...(expected.low > CONTACT_OHMS ? ["0 Ω: hot lies on ground somewhere on this way"] : []),
  ];
}

function withWires(wired: WiredCircuit, wires: readonly Wire[]): WiredCircuit {
  return { ...wired, circuit: { ...wired.circuit, wires } };
}

/** "12.43 kΩ", "500 kΩ", "open". */
export function shownOhms(ohms: number): string {
  if (!Number.isFinite(ohms)) return "open";
  if (ohms >= 1e6) return `${Number((ohms / 1e6).toFixed(2))} MΩ`;
  if (ohms >= 100e3) return `${(ohms / 1e3).toFixed(0)} kΩ`;
  return ohms >= 1e3 ? `${(ohms / 1e3).toFixed(2)} kΩ` : `${ohms.toFixed(1)} Ω`;
}
