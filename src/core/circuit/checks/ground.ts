/** Checks of ground: metal that floats or is live, a forgotten string ground, one wire that carries it all, batteries. */
import { groupsOf } from "../netlist.ts";
import type { Circuit, Metal } from "../physical.ts";
import { inState } from "../state.ts";
import type { Check, Finding } from "./finding.ts";

export const metalNotGrounded: Check = ({ facts }) =>
  facts.circuit.metal.flatMap((metal): Finding[] => {
    const states = facts.states.filter(({ inside }) => {
      const node = inside.nodeOf(metal.lug);
      return node !== inside.ground && !liveIn(inside, metal);
    });
    if (states.length === 0) return [];
    return [
      {
        kind: "metal not grounded",
        grade: "fault",
        states: states.length === facts.states.length ? [] : states.map(({ inside }) => inside.state.id),
        lugs: [metal.lug],
        what: `${metal.name} has no way to the sleeve`,
        why:
          metal.what === "string ground"
            ? "Strings and bridge float: it hums until they are touched, and then too"
            : "Metal that floats takes up the field of the mains and hands it to what it stands beside",
        remedy: `Run a wire from ${metal.lug} to ground; a pot's case is the usual place`,
      },
    ];
  });

function liveIn(inside: ReturnType<typeof inState>, metal: Metal): boolean {
  const node = inside.nodeOf(metal.lug);
  if (node === inside.ground) return false;
  const { circuit, nodeOf, output } = inside;
  if (node === output) return true;
  return circuit.coils.some(
    ({ start, finish }) => nodeOf(start) !== nodeOf(finish) && [nodeOf(start), nodeOf(finish)].includes(node),
  );
}

export const metalLive: Check = ({ facts }) => {
  const { circuit, states } = facts;
  const live = circuit.metal.flatMap((metal) => {
    const where = states.filter(({ inside }) => liveIn(inside, metal));
    return where.length === 0 ? [] : [{ metal, where }];
  });
  const cases = live.filter(({ metal }) => metal.what === "case" || metal.what === "string ground");
  const swapped =
    cases.length > 0 &&
    states.every(({ inside }) => cases.every(({ metal }) => inside.nodeOf(metal.lug) === inside.output)) &&
    cases.length === circuit.metal.filter(({ what }) => what === "case" || what === "string ground").length;
  if (swapped)
    return [
      {
        kind: "tip and sleeve swapped",
        grade: "fault",
        states: [],
        lugs: [circuit.jack.tip, circuit.jack.sleeve],
        what: "Tip and sleeve are swapped: cases and strings stand at the tip",
        why: "It hums loudly, and louder when metal is touched",
        remedy: "Swap the two wires at the jack: plug in, and find tip and sleeve by the meter on the plug",
      },
    ];
  return live.map(({ metal, where }) =>
    liveFinding(
      circuit,
      metal,
      where.map(({ inside }) => inside.state.id),
      states.length,
    ),
  );
};

function liveFinding(circuit: Circuit, metal: Metal, where: readonly string[], all: number): Finding {
  const coil = circuit.coils.find(({ start, finish }) => [start, finish].includes(metal.lug));
  return {
    kind: "metal live",
    grade: "fault",
    states: where.length === all ? [] : where,
    lugs: [metal.lug],
    what: `${metal.name} is live: ${metal.lug} is not at ground`,
    why: "It works as an aerial, and hums when it is touched",
    remedy: coil
      ? `Cut the jumper from it to ${metal.lug} and give it a wire of its own to ground; or turn the other pickup round, not this one`
      : `Take ${metal.lug} off the hot side and join it to ground`,
  };
}

export const stringGroundMissing: Check = ({ facts }) =>
  facts.circuit.metal.some(({ what }) => what === "string ground")
    ? []
    : [
        {
          kind: "string ground missing",
          grade: "fault",
          states: [],
          lugs: [],
          what: "No wire goes to the strings: the wiring has no string ground",
          why: "Strings and bridge float: it hums until they are touched, and then too",
          remedy: "Run a wire from bare metal of the bridge to ground, before plate or posts go on",
        },
      ];

/** A wire, not the jack's own, without which the ground of two pickups or more is gone. */
export const groundThroughOneWire: Check = ({ facts }) => {
  const { circuit } = facts;
  const { sleeve } = circuit.jack;
  const pickups = new Map<string, string[]>();
  const whole = grounded(circuit);
  for (const { pickup, start, finish } of circuit.coils)
    for (const lug of [start, finish])
      if (whole(lug) === whole(sleeve)) pickups.set(pickup, [...(pickups.get(pickup) ?? []), lug]);
  return circuit.wires.flatMap((wire): Finding[] => {
    if (wire.from === sleeve || wire.to === sleeve || whole(wire.from) !== whole(sleeve)) return [];
    const without = grounded({ ...circuit, wires: circuit.wires.filter(({ id }) => id !== wire.id) });
    const lost = [...pickups].filter(([, lugs]) => lugs.every((lug) => without(lug) !== without(sleeve)));
    if (lost.length < 2) return [];
    return [
      {
        kind: "ground through one wire",
        grade: "caution",
        states: [],
        lugs: [wire.from, wire.to],
        what: `The ground of ${lost.map(([id]) => id).join(" and ")} goes through one wire: ${wire.from} – ${wire.to}`,
        why: "One cold joint there takes the ground from all of them",
        remedy: "Run a second wire to ground; a ring of ground wires does no harm",
      },
    ];
  });
};

/** Ground by wires alone, no contact closed. */
function grounded(circuit: Circuit): (lug: string) => string {
  return groupsOf(circuit.lugs, [...circuit.wires.map(({ from, to }) => [from, to] as const), ...circuit.inside]);
}

export const battery: Check = ({ facts }) => {
  const { circuit, states } = facts;
  const [first] = states;
  if (!first) return [];
  return circuit.batteries.flatMap((one): Finding[] => {
    const out = first.inside;
    const { ring, sleeve } = circuit.jack;
    if (out.nodeOf(one.minus) === out.ground)
      return [
        {
          kind: "battery not cut off",
          grade: "fault",
          states: [],
          lugs: [one.minus],
          what: `${one.id} minus is at ground without a plug`,
          why: "It runs flat in its case",
          remedy: ring
            ? `Take ${one.minus} to ${ring}`
            : "Take a stereo jack, and bring the battery's minus to its ring",
        },
      ];
    const plugged = ring ? inState(circuit, out.state, [[ring, sleeve]]) : out;
    if (plugged.nodeOf(one.minus) === plugged.ground) return [];
    return [
      {
        kind: "battery never on",
        grade: "fault",
        states: [],
        lugs: [one.minus],
        what: `${one.id} minus does not reach ground with the plug in`,
        why: "Nothing that needs the battery works",
        remedy: ring
          ? `Take ${one.minus} to ${ring}; a mono plug joins ring and sleeve`
          : "Bring it to the ring of a stereo jack",
      },
    ];
  });
};
