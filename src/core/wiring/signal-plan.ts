/**
 * The signal of a state as a person reads it: blocks of coils between ground and hot, the way from each to the tip over pots
 * and parts, and what hangs on that way to ground. What no series and parallel of these makes is not drawn.
 */
import { type Circuit, type Coil, groupsOf, joinsOf, type StateFacts, type Track } from "../circuit/index.ts";

/** Coils from the ground side up. */
export type CoilTree =
  | { readonly kind: "coil"; readonly coil: Coil; readonly startBelow: boolean }
  | { readonly kind: "series" | "parallel"; readonly parts: readonly CoilTree[] };

/** A part with the nodes that it stands between; a pot has two or three. */
export interface SignalPart {
  readonly id: string;
  readonly kind: "pot" | "resistor" | "capacitor";
  readonly nodes: readonly string[];
  readonly track?: Track;
  /** The node of its wiper, where it has one that is used. */
  readonly wiper?: string;
}

export interface Hop {
  readonly from: string;
  readonly to: string;
  /** Side by side between the two. */
  readonly parts: readonly SignalPart[];
}

export interface SignalRow {
  readonly tree: CoilTree;
  readonly node: string;
  readonly hops: readonly Hop[];
}

export interface SignalPlan {
  readonly rows: readonly SignalRow[];
  readonly ground: string;
  readonly output: string;
  /** Chains to ground at each node, first part at the node. */
  readonly shunts: ReadonlyMap<string, readonly (readonly SignalPart[])[]>;
}

interface Edge {
  readonly a: string;
  readonly b: string;
  readonly tree: CoilTree;
}

/** @returns undefined for a state that is silent, or that series and parallel do not make */
export function signalPlan({ inside, heard }: StateFacts): SignalPlan | undefined {
  const { circuit, state } = inside;
  const { tip, sleeve } = circuit.jack;
  const nodeOf = groupsOf([sleeve, tip, ...circuit.lugs], joinsOf(circuit, state));
  const [ground, output] = [nodeOf(sleeve), nodeOf(tip)];
  if (heard.length === 0 || ground === output) return undefined;
  const parts = partsOf(circuit, nodeOf);
  const kept = new Set([ground, output, ...parts.flatMap(({ nodes }) => nodes)]);
  const blocks = blocksOf(
    heard.map(({ coil }) => coil),
    nodeOf,
    kept,
  ).map((edge) => (edge.a === ground ? edge : turned(edge)));
  if (blocks.some(({ a }) => a !== ground)) return undefined;
  const rows: SignalRow[] = [];
  for (const { b, tree } of blocks) {
    const hops = wayTo(b, output, ground, parts);
    if (!hops) return undefined;
    rows.push({ tree, node: b, hops });
  }
  return { rows, ground, output, shunts: shuntsOf(rows, output, ground, parts) };
}

function partsOf(circuit: Circuit, nodeOf: (lug: string) => string): SignalPart[] {
  const soldered = new Set(circuit.wires.flatMap(({ from, to }) => [from, to]));
  const pots = circuit.tracks.map((track): SignalPart => {
    const lugs = [track.low, track.wiper, track.high].filter((lug) => soldered.has(lug));
    return {
      id: track.id,
      kind: "pot",
      nodes: [...new Set(lugs.map(nodeOf))],
      track,
      ...(soldered.has(track.wiper) ? { wiper: nodeOf(track.wiper) } : {}),
    };
  });
  const fixed = circuit.fixed
    .filter(({ id }) => !id.endsWith(":stray"))
    .map(({ id, kind, a, b }): SignalPart => ({ id, kind, nodes: [...new Set([nodeOf(a), nodeOf(b)])] }));
  return [...pots, ...fixed].filter(({ nodes }) => nodes.length >= 2);
}

function turned({ a, b, tree }: Edge): Edge {
  return { a: b, b: a, tree: turnedTree(tree) };
}

function turnedTree(tree: CoilTree): CoilTree {
  if (tree.kind === "coil") return { ...tree, startBelow: !tree.startBelow };
  const parts = tree.parts.map(turnedTree);
  return { ...tree, parts: tree.kind === "series" ? parts.reverse() : parts };
}

/** Coils taken together until nothing more is in series or in parallel. */
function blocksOf(coils: readonly Coil[], nodeOf: (lug: string) => string, kept: ReadonlySet<string>): Edge[] {
  let edges: Edge[] = coils.map((coil) => ({
    a: nodeOf(coil.start),
    b: nodeOf(coil.finish),
    tree: { kind: "coil", coil, startBelow: true },
  }));
  for (;;) {
    const next = takeParallel(edges) ?? takeSeries(edges, kept);
    if (!next) return edges;
    edges = next;
  }
}

function takeParallel(edges: readonly Edge[]): Edge[] | undefined {
  for (const [at, first] of edges.entries())
    for (const second of edges.slice(at + 1)) {
      const alike = first.a === second.a && first.b === second.b;
      if (!alike && !(first.a === second.b && first.b === second.a)) continue;
      const other = alike ? second : turned(second);
      return [
        ...edges.filter((edge) => edge !== first && edge !== second),
        { ...first, tree: both("parallel", first.tree, other.tree) },
      ];
    }
  return undefined;
}

function takeSeries(edges: readonly Edge[], kept: ReadonlySet<string>): Edge[] | undefined {
  for (const node of new Set(edges.flatMap(({ a, b }) => [a, b]))) {
    const here = edges.filter(({ a, b }) => a === node || b === node);
    const [first, second] = here;
    if (kept.has(node) || here.length !== 2 || !first || !second) continue;
    const lower = first.b === node ? first : turned(first);
    const upper = second.a === node ? second : turned(second);
    return [
      ...edges.filter((edge) => edge !== first && edge !== second),
      { a: lower.a, b: upper.b, tree: both("series", lower.tree, upper.tree) },
    ];
  }
  return undefined;
}

function both(kind: "series" | "parallel", first: CoilTree, second: CoilTree): CoilTree {
  const partsOfTree = (tree: CoilTree) => (tree.kind === kind ? tree.parts : [tree]);
  return { kind, parts: [...partsOfTree(first), ...partsOfTree(second)] };
}

/** The shortest way over parts, ground left out. */
function wayTo(from: string, to: string, ground: string, parts: readonly SignalPart[]): Hop[] | undefined {
  const before = new Map<string, string | undefined>([[from, undefined]]);
  const open = [from];
  for (const node of open)
    for (const next of parts.filter(({ nodes }) => nodes.includes(node)).flatMap(({ nodes }) => nodes)) {
      if (next === ground || before.has(next)) continue;
      before.set(next, node);
      open.push(next);
    }
  if (!before.has(to)) return undefined;
  const nodes: string[] = [];
  for (let node: string | undefined = to; node !== undefined; node = before.get(node)) nodes.unshift(node);
  return nodes.slice(1).map((node, index) => {
    const start = nodes[index] ?? from;
    return {
      from: start,
      to: node,
      parts: parts.filter((part) => part.nodes.includes(start) && part.nodes.includes(node)),
    };
  });
}

function shuntsOf(
  rows: readonly SignalRow[],
  output: string,
  ground: string,
  parts: readonly SignalPart[],
): ReadonlyMap<string, readonly (readonly SignalPart[])[]> {
  const onWay = new Set([output, ...rows.flatMap(({ node, hops }) => [node, ...hops.map(({ to }) => to)])]);
  const used = new Set(rows.flatMap(({ hops }) => hops.flatMap((hop) => hop.parts)));
  const shunts = new Map<string, (readonly SignalPart[])[]>();
  for (const node of onWay)
    for (const part of parts) {
      if (used.has(part) || !part.nodes.includes(node)) continue;
      const chain = chainToGround(part, node, { ground, parts, used, onWay });
      if (chain) shunts.set(node, [...(shunts.get(node) ?? []), chain]);
    }
  return shunts;
}

interface Following {
  readonly ground: string;
  readonly parts: readonly SignalPart[];
  readonly used: Set<SignalPart>;
  readonly onWay: ReadonlySet<string>;
}

function chainToGround(
  first: SignalPart,
  from: string,
  { ground, parts, used, onWay }: Following,
): SignalPart[] | undefined {
  const chain = [first];
  used.add(first);
  let node = first.nodes.find((one) => one !== from) ?? ground;
  if (first.nodes.includes(ground)) node = ground;
  while (node !== ground) {
    const next = parts.find((part) => !used.has(part) && part.nodes.includes(node));
    if (!next || onWay.has(node)) return undefined;
    used.add(next);
    chain.push(next);
    const at = node;
    node = next.nodes.includes(ground) ? ground : (next.nodes.find((one) => one !== at) ?? ground);
  }
  return chain;
}
