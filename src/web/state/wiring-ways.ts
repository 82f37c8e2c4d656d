/** Where a lug goes: the way of each coil to tip and sleeve, and what a lug is joined to in every state. */
import { inState, wayBetween } from "../../core/circuit/index.ts";
import type { WiringReport } from "../../core/index.ts";

export interface CoilWay {
  readonly id: string;
  readonly name: string;
  readonly stringSign: string;
  readonly humSign: string;
  /** Lug by lug; none where it runs through another coil or a knob. */
  readonly toTip: readonly string[];
  readonly toSleeve: readonly string[];
  readonly hot: string;
  readonly cold: string;
}

/** The coils that a state lets be heard, loudest first. */
export function coilWays(report: WiringReport, id: string): CoilWay[] {
  const facts = report.facts.states.find(({ inside }) => inside.state.id === id);
  if (!facts) return [];
  const { circuit, state } = facts.inside;
  const { tip, sleeve } = circuit.jack;
  return facts.heard.map(({ coil, way, stringSign, humSign }) => {
    const [cold, hot] = way === 1 ? [coil.start, coil.finish] : [coil.finish, coil.start];
    return {
      id: coil.id,
      name: coil.name,
      stringSign: signInWords(stringSign),
      humSign: signInWords(humSign),
      toTip: wayBetween(circuit, state, hot, tip),
      toSleeve: wayBetween(circuit, state, cold, sleeve),
      hot,
      cold,
    };
  });
}

function signInWords(sign: number | undefined): string {
  if (sign === undefined) return "not known";
  return sign > 0 ? "+" : sign < 0 ? "−" : "none";
}

export interface LugInState {
  readonly id: string;
  readonly title: string;
  /** What the lug is there, where it is one of the two ends of everything. */
  readonly at: "ground" | "tip" | undefined;
  /** Joined by wires, closed contacts and wipers at their stop. */
  readonly joined: readonly string[];
}

/** Where a lug goes in every state. */
export function lugInStates(report: WiringReport, lug: string): LugInState[] {
  const { circuit } = report.facts;
  return report.states.map(({ id, title }, index) => {
    const state = report.facts.states[index]?.inside.state;
    const { nodeOf, ground, output } = inState(circuit, state ?? { id, switches: {}, travel: {} });
    const node = nodeOf(lug);
    const joined = circuit.lugs.filter((other) => other !== lug && nodeOf(other) === node);
    return { id, title, at: node === ground ? "ground" : node === output ? "tip" : undefined, joined };
  });
}

/** Soldered to it: wires and own leads of parts. */
export function wiresOn({ facts }: Pick<WiringReport, "facts">, lug: string): { id: string; other: string }[] {
  return facts.circuit.wires.flatMap(({ id, from, to }) =>
    from === lug ? [{ id, other: to }] : to === lug ? [{ id, other: from }] : [],
  );
}

export interface DeviceLugs {
  readonly device: string;
  readonly lugs: readonly string[];
}

/** All lugs by device, for choosing one. */
export function lugsByDevice({ facts }: Pick<WiringReport, "facts">): DeviceLugs[] {
  const devices = new Map<string, string[]>();
  for (const lug of facts.circuit.lugs) {
    const device = lug.slice(0, lug.indexOf("."));
    devices.set(device, [...(devices.get(device) ?? []), lug]);
  }
  return [...devices].map(([device, lugs]) => ({ device, lugs }));
}
