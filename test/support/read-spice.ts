/** Reads the few lines of SPICE that the reference netlists use. Knows nothing of the program's own writer. */
import type { Netlist } from "../../src/core/circuit/index.ts";

type Element = Netlist["elements"][number];

const SUFFIX: Readonly<Record<string, number>> = { k: 1e3, meg: 1e6, m: 1e-3, u: 1e-6, n: 1e-9, p: 1e-12 };

function numberOf(text: string): number {
  const found = /^([-+0-9.e]+?)(meg|k|m|u|n|p)?$/i.exec(text);
  if (!found?.[1]) throw new Error(`cannot read ${text}`);
  return Number(found[1]) * (SUFFIX[found[2]?.toLowerCase() ?? ""] ?? 1);
}

/** @param text the netlist; its first line is the title */
export function readSpice(text: string): Netlist {
  const henries = new Map<string, number>();
  const elements: Element[] = [];
  for (const line of text.split("\n").slice(1)) {
    const [name = "", a = "", b = "", ...rest] = line.trim().split(/\s+/);
    const value = rest[0] ?? "";
    switch (name[0]?.toLowerCase()) {
      case "r":
        elements.push({ kind: "resistor", name, a, b, ohms: numberOf(value) });
        break;
      case "c":
        elements.push({ kind: "capacitor", name, a, b, farads: numberOf(value) });
        break;
      case "l":
        henries.set(name, numberOf(value));
        elements.push({ kind: "inductor", name, a, b, henries: numberOf(value) });
        break;
      case "v": {
        const ac = rest.indexOf("ac");
        const volts = ac < 0 ? 0 : Number(rest[ac + 1]) * (rest[ac + 2] === "180" ? -1 : 1);
        elements.push({ kind: "source", name, a, b, volts });
        break;
      }
      case "k": {
        const product = (henries.get(a) ?? 0) * (henries.get(b) ?? 0);
        elements.push({ kind: "coupling", name, of: [a, b], henries: numberOf(value) * Math.sqrt(product) });
        break;
      }
      default:
    }
  }
  return { ground: "0", elements };
}
