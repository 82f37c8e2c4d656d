/**
 * A netlist as text for a SPICE simulator: title first, names unique and in small letters, a reversed source as a phase of
 * 180 degrees (the magnitude must be positive), coupling as k = M/√(L₁L₂).
 */
import type { Element, Netlist } from "./netlist.ts";

export interface SpiceText {
  readonly text: string;
  /** The name in the text of a node of the netlist; ground is "0". */
  readonly nodeNames: ReadonlyMap<string, string>;
}

export interface SpiceOptions {
  readonly title: string;
  readonly output: string;
  /** Emf of each source; that of the netlist unless given. */
  readonly volts?: ReadonlyMap<string, number>;
  readonly pointsPerDecade?: number;
}

/** @returns the netlist with an AC analysis from 20 Hz to 20 kHz */
export function spiceText(netlist: Netlist, { title, output, volts, pointsPerDecade = 50 }: SpiceOptions): SpiceText {
  const nodes = namer("n");
  nodes.names.set(netlist.ground, "0");
  if (output !== netlist.ground) nodes.names.set(output, "out");
  const parts = namer("");
  const henries = new Map(
    netlist.elements.flatMap((element) =>
      element.kind === "inductor" ? [[element.name, element.henries] as const] : [],
    ),
  );
  const lines = netlist.elements.map((element) => lineOf(element, nodes.of, parts.of, henries, volts));
  return {
    text: [
      title.replaceAll(/\s+/g, " "),
      `* output node: ${nodes.of(output)}`,
      ...lines,
      `.ac dec ${pointsPerDecade} 20 20k`,
      ".end",
      "",
    ].join("\n"),
    nodeNames: nodes.names,
  };
}

function lineOf(
  element: Element,
  node: (name: string) => string,
  part: (name: string) => string,
  henries: ReadonlyMap<string, number>,
  volts: ReadonlyMap<string, number> | undefined,
): string {
  const { name } = element;
  switch (element.kind) {
    case "resistor":
      return `r${part(name)} ${node(element.a)} ${node(element.b)} ${element.ohms}`;
    case "capacitor":
      return `c${part(name)} ${node(element.a)} ${node(element.b)} ${element.farads}`;
    case "inductor":
      return `l${part(name)} ${node(element.a)} ${node(element.b)} ${element.henries}`;
    case "source": {
      const emf = volts ? (volts.get(name) ?? 0) : element.volts;
      return `v${part(name)} ${node(element.a)} ${node(element.b)} dc 0 ac ${Math.abs(emf)} ${emf < 0 ? 180 : 0}`;
    }
    case "coupling": {
      const [first, second] = element.of;
      const k = element.henries / Math.sqrt((henries.get(first) ?? 1) * (henries.get(second) ?? 1));
      return `k${part(name)} l${part(first)} l${part(second)} ${k}`;
    }
    default:
      return element satisfies never;
  }
}

/** Short names of small letters and digits, each used once. */
function namer(prefix: string): { readonly of: (name: string) => string; readonly names: Map<string, string> } {
  const names = new Map<string, string>();
  const used = new Set<string>(["0", "out"]);
  return {
    names,
    of(name) {
      const known = names.get(name);
      if (known !== undefined) return known;
      const plain = `${prefix}${name.toLowerCase().replaceAll(/[^a-z0-9]+/g, "_")}`;
      let chosen = plain;
      for (let number = 2; used.has(chosen); number += 1) chosen = `${plain}_${number}`;
      used.add(chosen);
      names.set(name, chosen);
      return chosen;
    },
  };
}
