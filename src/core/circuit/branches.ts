/**
 * A netlist made small: chains of sources, inductors and resistors become one branch each, and what hangs in the air is
 * tied to ground at one node (through one tie no current flows, so nothing changes).
 */
import {
  checkNetlist,
  type Element,
  groupsOf,
  isTwoTerminal,
  type Netlist,
  nodesOf,
  type TwoTerminal,
} from "./netlist.ts";

/** v(a) - v(b) = emf - (ohms + s henries) i + couplings, with i the current out of a. */
export interface Branch {
  readonly a: string;
  readonly b: string;
  readonly ohms: number;
  /** Inductors of the chain: name and the sense in which the chain runs through them. */
  readonly inductors: readonly { readonly name: string; readonly henries: number; readonly sense: 1 | -1 }[];
  readonly sources: readonly { readonly name: string; readonly volts: number; readonly sense: 1 | -1 }[];
}

export interface SmallNetlist {
  readonly ground: string;
  readonly branches: readonly Branch[];
  readonly admittances: readonly (TwoTerminal & { readonly kind: "resistor" | "capacitor" })[];
  readonly couplings: readonly Extract<Element, { kind: "coupling" }>[];
  /** Tied to ground because nothing else held them. */
  readonly tied: readonly string[];
  /** The node that stands for a node of the netlist. */
  readonly nodeOf: (node: string) => string;
}

/**
 * @param keep nodes whose voltage is wanted
 * @throws InputError as checkNetlist
 */
export function makeSmall(netlist: Netlist, keep: readonly string[]): SmallNetlist {
  checkNetlist(netlist);
  const { ground } = netlist;
  const elements = withSay(netlist, keep);
  const pieces = elements.filter(isTwoTerminal);
  const nodes = nodesOf({ ground, elements });
  const tied = tieFloating(ground, nodes, pieces);
  const nodeOf = groupsOf(
    [ground, ...nodes],
    tied.map((node) => [ground, node] as const),
  );
  const merged = pieces.map((piece) => ({ ...piece, a: nodeOf(piece.a), b: nodeOf(piece.b) }));
  const fixed = new Set([ground, ...keep.map(nodeOf)]);
  const branches = foldChains(merged, fixed);
  const inChain = new Set(branches.flatMap(({ names }) => names));
  return {
    ground,
    branches: branches.map(({ branch }) => branch),
    admittances: merged.filter(
      (piece): piece is SmallNetlist["admittances"][number] =>
        (piece.kind === "resistor" || piece.kind === "capacitor") && !inChain.has(piece.name),
    ),
    couplings: elements.filter((element) => element.kind === "coupling"),
    tied,
    nodeOf,
  };
}

/**
 * The elements that can have a say in the voltages wanted: what hangs on ground alone, like a pickup that no contact
 * reaches, forms a circuit of its own. Ground itself joins nothing here; couplings do.
 */
function withSay({ ground, elements }: Netlist, keep: readonly string[]): readonly Element[] {
  const homeOf = new Map<string, string>();
  const joins: (readonly [string, string])[] = [];
  for (const element of elements) {
    if (!isTwoTerminal(element)) continue;
    const { a, b, name } = element;
    const home = a === ground ? b : a;
    homeOf.set(name, home);
    if (a !== ground && b !== ground) joins.push([a, b]);
  }
  for (const element of elements) {
    if (isTwoTerminal(element)) continue;
    const [first, second] = element.of.map((name) => homeOf.get(name));
    if (first !== undefined && second !== undefined) joins.push([first, second]);
  }
  const islandOf = groupsOf(keep, joins);
  const wanted = new Set(keep.filter((node) => node !== ground).map(islandOf));
  return elements.filter((element) => {
    const home = isTwoTerminal(element) ? homeOf.get(element.name) : homeOf.get(element.of[0]);
    return home !== undefined && wanted.has(islandOf(home));
  });
}

function tieFloating(ground: string, nodes: readonly string[], pieces: readonly TwoTerminal[]): string[] {
  const islandOf = groupsOf(
    nodes,
    pieces.map(({ a, b }) => [a, b] as const),
  );
  const home = islandOf(ground);
  const first = new Map<string, string>();
  for (const node of nodes) {
    const island = islandOf(node);
    if (island !== home && !first.has(island)) first.set(island, node);
  }
  return [...first.values()];
}

interface Chain {
  readonly branch: Branch;
  readonly names: readonly string[];
}

/** Sources and inductors with their neighbours in series, as long as the node between has no other neighbour. */
function foldChains(pieces: readonly TwoTerminal[], fixed: ReadonlySet<string>): Chain[] {
  const touching = new Map<string, number>();
  for (const { a, b } of pieces) for (const node of [a, b]) touching.set(node, (touching.get(node) ?? 0) + 1);
  const inner = (node: string) => !fixed.has(node) && touching.get(node) === 2;
  const chains: Chain[] = pieces.filter(({ kind }) => kind !== "resistor" && kind !== "capacitor").map(chainOf);
  const resistors = pieces.filter(({ kind }) => kind === "resistor").map(chainOf);
  for (let index = 0; index < chains.length; index += 1) {
    let chain = chains[index] as Chain;
    for (;;) {
      const grown = growOnce(chain, chains, index, resistors, inner);
      if (!grown) break;
      chain = grown;
    }
    chains[index] = chain;
  }
  return chains;
}

function growOnce(
  chain: Chain,
  chains: Chain[],
  index: number,
  resistors: Chain[],
  inner: (node: string) => boolean,
): Chain | undefined {
  const { a, b } = chain.branch;
  // A ring of its own has no inner end.
  if (a === b) return undefined;
  for (const end of [b, a]) {
    if (!inner(end)) continue;
    const later = chains.findIndex((other, at) => at > index && touches(other, end));
    const beside = later >= 0 ? chains : resistors;
    const at = later >= 0 ? later : resistors.findIndex((other) => touches(other, end));
    const next = at >= 0 ? beside[at] : undefined;
    if (!next) continue;
    beside.splice(at, 1);
    return end === b ? joined(chain, runsFrom(next, end)) : joined(runsTo(next, end), chain);
  }
  return undefined;
}

function touches({ branch }: Chain, node: string): boolean {
  return branch.a === node || branch.b === node;
}

function runsFrom(chain: Chain, node: string): Chain {
  return chain.branch.a === node ? chain : turned(chain);
}

function runsTo(chain: Chain, node: string): Chain {
  return chain.branch.b === node ? chain : turned(chain);
}

function turned({ branch, names }: Chain): Chain {
  const turn = <T extends { readonly sense: 1 | -1 }>(list: readonly T[]): T[] =>
    list.map((one) => ({ ...one, sense: one.sense === 1 ? -1 : 1 }));
  return {
    branch: {
      a: branch.b,
      b: branch.a,
      ohms: branch.ohms,
      inductors: turn(branch.inductors),
      sources: turn(branch.sources),
    },
    names,
  };
}

function joined(first: Chain, second: Chain): Chain {
  return {
    branch: {
      a: first.branch.a,
      b: second.branch.b,
      ohms: first.branch.ohms + second.branch.ohms,
      inductors: [...first.branch.inductors, ...second.branch.inductors],
      sources: [...first.branch.sources, ...second.branch.sources],
    },
    names: [...first.names, ...second.names],
  };
}

function chainOf(piece: TwoTerminal): Chain {
  const { a, b, name } = piece;
  return {
    branch: {
      a,
      b,
      ohms: piece.kind === "resistor" ? piece.ohms : 0,
      inductors: piece.kind === "inductor" ? [{ name, henries: piece.henries, sense: 1 }] : [],
      sources: piece.kind === "source" ? [{ name, volts: piece.volts, sense: 1 }] : [],
    },
    names: [name],
  };
}
