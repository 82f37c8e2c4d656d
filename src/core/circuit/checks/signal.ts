/** Checks of the way from the coils to the tip: shorts, silence, coils that hang, sounds that are others than wanted. */
import type { StateFacts } from "../facts.ts";
import { heardIn } from "../hearing.ts";
import { groupsOf } from "../netlist.ts";
import { type Circuit, type Coil, OPEN_JACK, type State } from "../physical.ts";
import { asksForReversal, coilsOf as coilsOfSound, soundInWords, unsignedKey } from "../sounds.ts";
import { inState, joinsOf } from "../state.ts";
import type { Check, Checked, Finding } from "./finding.ts";
import { phaseRemedy } from "./phase-remedy.ts";
import { wayBetween } from "./way.ts";

export const hotShorted: Check = ({ facts }) =>
  facts.states.flatMap(({ inside }): Finding[] => {
    if (inside.output !== inside.ground) return [];
    const { circuit, state } = inside;
    const way = wayBetween(circuit, state, circuit.jack.tip, circuit.jack.sleeve);
    return [
      {
        kind: "hot shorted",
        grade: "fault",
        states: [state.id],
        lugs: way,
        what: `The tip is joined to the sleeve: ${way.join(" – ")}`,
        why: "Nothing is heard, and the meter reads 0 Ω",
        remedy: shortRemedy(circuit, state, way),
      },
    ];
  });

/** The wires of the way without which a coil is heard again. */
function shortRemedy(circuit: Circuit, state: State, way: readonly string[]): string {
  const along = circuit.wires.filter(({ from, to }) =>
    way.some((lug, at) => {
      const next = way[at + 1];
      return (lug === from && next === to) || (lug === to && next === from);
    }),
  );
  const cures = along.filter((wire) => {
    const without = { ...circuit, wires: circuit.wires.filter(({ id }) => id !== wire.id) };
    const inside = inState(without, state);
    return inside.output !== inside.ground && heardIn(inside, OPEN_JACK).length > 0;
  });
  if (cures.length === 0) return "Part hot from ground along this way, wire by wire";
  return `Take off ${cures.map(({ id, from, to }) => `${id} (${from} – ${to})`).join(", or ")}`;
}

export const silent: Check = ({ facts, wanted, titleOf }) =>
  facts.states.flatMap(({ inside, heard, ohms }): Finding[] => {
    if (heard.length > 0 || inside.output === inside.ground) return [];
    const { state, circuit } = inside;
    const open = openThrows(inside.circuit, state);
    const names = wanted.get(state.id)?.sounds?.[0];
    const missing = names ? coilsOfSound(names).map((id) => circuit.coils.find((coil) => coil.id === id)?.name) : [];
    return [
      {
        kind: "silent",
        grade: "fault",
        states: [state.id],
        lugs: open.length > 0 ? open : [circuit.jack.tip],
        what: `${titleOf(state.id)} is silent: no coil reaches the tip${Number.isFinite(ohms) ? "" : ", the meter reads open"}`,
        why:
          open.length > 0
            ? `Closed there, with no wire on it: ${open.join(", ")}`
            : "No way leads from a coil to the tip",
        remedy:
          missing.length > 0 ? `Bring ${missing.join(" and ")} to it` : "Follow the way back from the tip, lug by lug",
      },
    ];
  });

/** Throws that the state closes and to which nothing is soldered. */
function openThrows(circuit: Checked["facts"]["circuit"], state: StateFacts["inside"]["state"]): string[] {
  const soldered = new Set(circuit.wires.flatMap(({ from, to }) => [from, to]));
  return circuit.switches.flatMap(({ id, map }) =>
    (map.positions.find(({ name }) => name === state.switches[id])?.joined ?? [])
      .map((group) => group.map((lug) => `${id}.${lug}`))
      .filter((group) => group.some((lug) => soldered.has(lug)))
      .flatMap((group) => group.filter((lug) => !soldered.has(lug))),
  );
}

/** A coil whose ends one wiring joins: intended where the other coil of its pickup is split off and heard. */
export const coilShorted: Check = ({ facts, wanted }) =>
  facts.states.flatMap(({ inside, heard }): Finding[] => {
    const { circuit, state } = inside;
    // With the tip on ground every coil is shorted: that is told by a finding of its own.
    if (inside.output === inside.ground) return [];
    const soldered = groupsOf(circuit.lugs, joinsOf(circuit, state));
    return circuit.coils.flatMap((coil): Finding[] => {
      if (soldered(coil.start) !== soldered(coil.finish)) return [];
      const want = wanted.get(state.id)?.sounds;
      const named = want?.every((sound) => coilsOfSound(sound).includes(coil.id)) ?? false;
      const split = heard.some((one) => one.coil.pickup === coil.pickup);
      if (!named && (split || want !== undefined)) return [];
      const way = wayBetween(circuit, state, coil.start, coil.finish);
      return [
        {
          kind: "coil shorted",
          grade: "fault",
          states: [state.id],
          lugs: way,
          what: `${coil.name} is shorted: ${way.join(" – ")}`,
          why: "It is silent, and its damping stays on the coils that it shares its field with",
          remedy: "Part its start from its finish",
        },
      ];
    });
  });

/** A silent coil with one end on the hot side and nothing on the other. */
export const hangsFromHot: Check = ({ facts }) =>
  facts.states.flatMap(({ inside, heard }): Finding[] => {
    const { circuit, nodeOf, ground, output, state } = inside;
    if (output === ground) return [];
    const busy = busyNodes(inside);
    return circuit.coils.flatMap((coil): Finding[] => {
      if (heard.some((one) => one.coil.id === coil.id)) return [];
      const [start, finish] = [nodeOf(coil.start), nodeOf(coil.finish)];
      if (start === finish) return [];
      const hot = new Set(
        hotNodes(
          inside,
          heard.map((one) => one.coil),
        ),
      );
      for (const [held, loose, lug] of [
        [start, finish, coil.start],
        [finish, start, coil.finish],
      ] as const) {
        if (!hot.has(held) || held === ground || loose === ground || hot.has(loose) || busy(loose, coil)) continue;
        return [
          {
            kind: "coil hangs from hot",
            grade: "caution",
            states: [state.id],
            lugs: [lug],
            what: `${coil.name} hangs from the hot side by ${lug}, its other end open`,
            why: "It gives no sound, but it is a length of wire on hot: it picks up noise when it is touched or near a lamp",
            remedy: "Switch its hot end instead, or short it: let it hang from ground",
          },
        ];
      }
      return [];
    });
  });

/** Whether anything but this coil reaches a node. */
function busyNodes({ circuit, nodeOf }: StateFacts["inside"]): (node: string, but: Coil) => boolean {
  return (node, but) =>
    circuit.coils.some((coil) => coil.id !== but.id && [coil.start, coil.finish].some((lug) => nodeOf(lug) === node)) ||
    circuit.tracks.some((track) => [track.low, track.wiper, track.high].some((lug) => nodeOf(lug) === node));
}

/** Nodes on the hot side: the tip, what the pots join to it, and the ends of the coils heard that are not ground. */
function hotNodes({ circuit, nodeOf, ground, output }: StateFacts["inside"], heard: readonly Coil[]): string[] {
  const nodes = [output];
  for (const coil of heard) nodes.push(nodeOf(coil.start), nodeOf(coil.finish));
  for (const track of circuit.tracks) {
    const ends = [track.low, track.wiper, track.high].map(nodeOf);
    if (ends.some((node) => nodes.includes(node) && node !== ground)) nodes.push(...ends);
  }
  return nodes.filter((node) => node !== ground);
}

export const outOfPhase: Check = ({ facts, wanted, titleOf }) =>
  facts.states.flatMap(({ inside, phases }): Finding[] => {
    const { id } = inside.state;
    const wish = wanted.get(id)?.sounds;
    // Whoever asks for a reversed coil knows that it is thin.
    if (wish?.some(asksForReversal)) return [];
    return phases.flatMap((phase): Finding[] => {
      if (phase.inPhase !== false) return [];
      const first = phase.heard[0];
      const against = phase.heard.filter(({ stringSign }) => stringSign !== first?.stringSign);
      const lugs = against.flatMap(({ coil }) => [coil.start, coil.finish]);
      const which = inside.circuit.coils.some((coil) => !coil.strings.includes(phase.strings[0] ?? 0))
        ? `, strings ${phase.strings.join(" and ")}`
        : "";
      return [
        {
          kind: "out of phase",
          grade: "fault",
          states: [id],
          lugs,
          what: `${titleOf(id)}${which}: ${against.map(({ coil }) => coil.name).join(" and ")} against ${phase.heard
            .filter(({ stringSign }) => stringSign === first?.stringSign)
            .map(({ coil }) => coil.name)
            .join(" and ")}: out of phase`,
          why: "The strings' signals cancel: thin and weak. Ohms cannot show it; the direction test does",
          remedy: phaseRemedy(
            { facts, wanted, titleOf },
            against.map(({ coil }) => coil),
            phase.heard.filter((one) => !against.includes(one)).map(({ coil }) => coil),
          ),
        },
      ];
    });
  });

export const otherSound: Check = ({ facts, wanted, titleOf }) =>
  facts.states.flatMap(({ inside, heard, sound }): Finding[] => {
    const { id } = inside.state;
    const wish = wanted.get(id)?.sounds;
    if (!wish || heard.length === 0) return [];
    const nameOf = (coil: string) => inside.circuit.coils.find((one) => one.id === coil)?.name ?? coil;
    // Phase is told by a finding of its own.
    if (sound && wish.some((one) => unsignedKey(one) === unsignedKey(sound))) return [];
    const given = sound ? soundInWords(sound, nameOf) : `${heard.map(({ coil }) => coil.name).join(", ")}, bridged`;
    return [
      {
        kind: "other sound",
        grade: "fault",
        states: [id],
        lugs: [],
        what: `${titleOf(id)} gives ${given}`,
        why: `Wanted is ${wish.map((one) => soundInWords(one, nameOf)).join(", or ")}`,
        remedy: "Follow the signal of this state on the drawing, and change the wires of the coils that differ",
      },
    ];
  });

export const neverHeard: Check = ({ facts }) =>
  facts.circuit.coils.flatMap((coil): Finding[] => {
    // What a short silences is not left out by design.
    if (facts.states.length === 0 || facts.states.some(({ inside }) => inside.output === inside.ground)) return [];
    if (facts.states.some(({ heard }) => heard.some((one) => one.coil.id === coil.id))) return [];
    return [
      {
        kind: "coil never heard",
        grade: "caution",
        states: [],
        lugs: [coil.start, coil.finish],
        what: `${coil.name} is heard in no state`,
        why: "A coil that is paid for and mounted gives nothing",
        remedy: "Bring its hot end to a throw, or leave it out of the job",
      },
    ];
  });

/** With make before break, the neighbours of a throw are joined for a moment. */
export const shortWhileSwitching: Check = ({ facts }) =>
  facts.circuit.switches.flatMap(({ id, map }): Finding[] => {
    if (map.timing !== "make before break") return [];
    return map.positions.flatMap(({ name }, index): Finding[] => {
      const next = map.positions[index + 1];
      if (!next) return [];
      const base = facts.states.find(({ inside }) => inside.state.switches[id] === name);
      if (!base || base.inside.output === base.inside.ground) return [];
      const both = inState(
        facts.circuit,
        base.inside.state,
        next.joined.flatMap(([first, ...rest]) => rest.map((lug) => [`${id}.${first}`, `${id}.${lug}`] as const)),
      );
      const after = facts.states.find(({ inside }) => inside.state.switches[id] === next.name);
      if (both.output !== both.ground || (after && after.inside.output === after.inside.ground)) return [];
      return [
        {
          kind: "short while switching",
          grade: "caution",
          states: [],
          lugs: [],
          what: `Between position ${name} and position ${next.name} of ${id} the tip is joined to ground for a moment`,
          why: "The switch makes before it breaks: it is heard as a gap or a thump",
          remedy: "Take a switch that breaks before it makes, or put the two positions apart",
        },
      ];
    });
  });
