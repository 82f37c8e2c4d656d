/**
 * A circuit as the solver sees it: two-terminal elements between named nodes, and couplings between inductors.
 *
 * Left out: everything that is not linear. Passive guitar circuits have nothing else; an active source is an emf behind
 * a resistance.
 */
import { InputError } from "../errors.ts";

export type Element =
  | { readonly kind: "resistor"; readonly name: string; readonly a: string; readonly b: string; readonly ohms: number }
  | {
      readonly kind: "capacitor";
      readonly name: string;
      readonly a: string;
      readonly b: string;
      readonly farads: number;
    }
  | {
      readonly kind: "inductor";
      readonly name: string;
      readonly a: string;
      readonly b: string;
      readonly henries: number;
    }
  /** Ideal emf; node a is positive against node b. */
  | { readonly kind: "source"; readonly name: string; readonly a: string; readonly b: string; readonly volts: number }
  /** Mutual inductance of two named inductors, both counted from their node a to their node b; may be negative. */
  | {
      readonly kind: "coupling";
      readonly name: string;
      readonly of: readonly [string, string];
      readonly henries: number;
    };

export type TwoTerminal = Exclude<Element, { kind: "coupling" }>;

export interface Netlist {
  /** The node that voltages count from. */
  readonly ground: string;
  readonly elements: readonly Element[];
}

export function isTwoTerminal(element: Element): element is TwoTerminal {
  return element.kind !== "coupling";
}

/** All nodes, ground first, then in the order met. */
export function nodesOf({ ground, elements }: Netlist): string[] {
  const nodes = new Set([ground]);
  for (const element of elements) if (isTwoTerminal(element)) nodes.add(element.a).add(element.b);
  return [...nodes];
}

/**
 * @throws InputError for a name used twice, a value that is not a finite number (or not above 0 where it must be), a
 *   coupling of unknown inductors, or one stronger than its inductors allow (M² < L₁ L₂)
 */
export function checkNetlist({ elements }: Netlist): void {
  const names = new Set<string>();
  const inductors = new Map<string, number>();
  for (const element of elements) {
    if (names.has(element.name))
      throw new InputError(element.name, "is the name of two elements", "Give each element a name of its own");
    names.add(element.name);
    checkValue(element);
    if (element.kind === "inductor") inductors.set(element.name, element.henries);
  }
  for (const element of elements) {
    if (element.kind !== "coupling") continue;
    const [first, second] = element.of.map((name) => inductors.get(name));
    if (first === undefined || second === undefined)
      throw new InputError(element.name, `couples ${element.of.join(" and ")}`, "Name two inductors of the circuit");
    if (element.henries ** 2 >= first * second)
      throw new InputError(
        element.name,
        `a mutual inductance of ${element.henries} H is more than coils of ${first} H and ${second} H can share`,
        "Measure the two in series again: L₁ + L₂ ± 2M",
      );
  }
}

const UNIT = { resistor: "Ω", capacitor: "F", inductor: "H", source: "V", coupling: "H" } as const;

function checkValue(element: Element): void {
  const value = figureOf(element);
  const signed = element.kind === "source" || element.kind === "coupling";
  const fine = Number.isFinite(value) && (signed || value > 0);
  if (!fine)
    throw new InputError(
      element.name,
      `must be a ${signed ? "finite number" : "number above 0"} ${UNIT[element.kind]}, got ${value}`,
      element.kind === "resistor" ? "Join its two nodes where there is no resistance" : "Give its value",
    );
}

function figureOf(element: Element): number {
  switch (element.kind) {
    case "resistor":
      return element.ohms;
    case "capacitor":
      return element.farads;
    case "source":
      return element.volts;
    default:
      return element.henries;
  }
}

/** Which nodes hang together through elements of the wanted kinds; answers with one node of each group. */
export function groupsOf(
  nodes: Iterable<string>,
  joins: Iterable<readonly [string, string]>,
): (node: string) => string {
  const parent = new Map<string, string>();
  for (const node of nodes) parent.set(node, node);
  const find = (node: string): string => {
    let root = node;
    for (;;) {
      const next = parent.get(root);
      if (next === undefined || next === root) break;
      root = next;
    }
    let walk = node;
    while (walk !== root) {
      const next = parent.get(walk) ?? root;
      parent.set(walk, root);
      walk = next;
    }
    return root;
  };
  for (const [a, b] of joins) {
    const [rootA, rootB] = [find(a), find(b)];
    if (!parent.has(rootA)) parent.set(rootA, rootA);
    // The group keeps the name that was there first, so that ground stays ground.
    if (rootA !== rootB) parent.set(rootB, rootA);
  }
  return find;
}
