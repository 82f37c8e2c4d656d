/**
 * Which ground lugs are joined to which, so that all are one and the wire is short.
 *
 * Model: minimum spanning tree by the rectilinear distance, since the drawing's wires run so, with at most a few joints
 * a lug: shortest pairs first, then one pair is exchanged for a shorter one until none is.
 * Left out: bodies in the way, and points where wires meet that are no lugs.
 * Source: the greedy rule is Kruskal's, Proc. Amer. Math. Soc. 7 (1956), 48-50 (from memory); the exchange is common
 * practice and does not promise the least tree under a limit of joints.
 */
import { InputError } from "../errors.ts";
import type { Lug, PlatePoint, Wire } from "./plate.ts";

/** A lug with this many wires can be soldered in one go and read on the drawing. */
const MOST_JOINTS = 3;

type GroundLug = Pick<Lug, "id" | "at">;

interface Pair {
  readonly a: number;
  readonly b: number;
  readonly lengthMm: number;
}

/**
 * Wires that make one tree of the ground lugs.
 *
 * @param lugs n lugs, in any order
 * @param mostJoints wires that may end on one lug, 2 or more
 * @returns n - 1 wires of kind "ground", or none for fewer than two lugs; an id is "ground:<from>:<to>"
 * @throws InputError if `mostJoints` is no whole number of 2 or more
 * @example
 * groundTree([{ id: "a", at: { x: 0, y: 0 } }, { id: "b", at: { x: 5, y: 0 } }]);
 * // [{ id: "ground:a:b", from: "a", to: "b", kind: "ground" }]
 */
export function groundTree(lugs: readonly GroundLug[], mostJoints = MOST_JOINTS): Wire[] {
  if (!(Number.isInteger(mostJoints) && mostJoints >= 2))
    throw new InputError("mostJoints", `must be a whole number of 2 or more, got ${mostJoints}`, "Leave it out for 3");
  const pairs = pairsByLength(lugs);
  const tree = exchanged(greedyTree(pairs, lugs.length, mostJoints), pairs, lugs.length, mostJoints);
  return tree.flatMap(({ a, b }) => {
    const [from, to] = [lugs[a]?.id, lugs[b]?.id];
    return from !== undefined && to !== undefined ? [{ id: `ground:${from}:${to}`, from, to, kind: "ground" }] : [];
  });
}

function pairsByLength(lugs: readonly GroundLug[]): Pair[] {
  const pairs = lugs.flatMap((one, b) =>
    lugs.slice(0, b).map((other, a) => ({ a, b, lengthMm: rectilinearMm(one.at, other.at) })),
  );
  return pairs.sort((p, q) => p.lengthMm - q.lengthMm || p.a - q.a || p.b - q.b);
}

function rectilinearMm(p: PlatePoint, q: PlatePoint): number {
  return Math.abs(p.x - q.x) + Math.abs(p.y - q.y);
}

/** A tree of n lugs has n - 1 wires, so that one with a joint to spare is always left on either side of a pair. */
function greedyTree(pairs: readonly Pair[], count: number, mostJoints: number): Pair[] {
  const group = Array.from({ length: count }, (_, n) => n);
  const joints = new Array<number>(count).fill(0);
  const tree: Pair[] = [];
  for (const pair of pairs) {
    const { a, b } = pair;
    const [mine = a, theirs = b] = [group[a], group[b]];
    if (mine === theirs || !hasRoom(joints, pair, mostJoints)) continue;
    tree.push(pair);
    joints[a] = (joints[a] ?? 0) + 1;
    joints[b] = (joints[b] ?? 0) + 1;
    group.forEach((one, n) => {
      if (one === theirs) group[n] = mine;
    });
  }
  return tree;
}

function hasRoom(joints: readonly number[], { a, b }: Pair, mostJoints: number): boolean {
  return (joints[a] ?? 0) < mostJoints && (joints[b] ?? 0) < mostJoints;
}

/** Takes one wire out and puts the shortest that joins the two halves again in its place, as long as that helps. */
function exchanged(tree: readonly Pair[], pairs: readonly Pair[], count: number, mostJoints: number): Pair[] {
  let best = [...tree];
  for (let helped = true; helped; ) {
    helped = false;
    for (const out of [...best].reverse()) {
      const rest = best.filter((pair) => pair !== out);
      const shorter = shortestBetweenHalves(rest, pairs, { count, mostJoints, from: out.a });
      if (!shorter || shorter.lengthMm >= out.lengthMm) continue;
      best = [...rest, shorter];
      helped = true;
      break;
    }
  }
  return best;
}

interface Halves {
  readonly count: number;
  readonly mostJoints: number;
  /** A lug of the one half. */
  readonly from: number;
}

function shortestBetweenHalves(rest: readonly Pair[], pairs: readonly Pair[], halves: Halves): Pair | undefined {
  const joints = new Array<number>(halves.count).fill(0);
  for (const { a, b } of rest) {
    joints[a] = (joints[a] ?? 0) + 1;
    joints[b] = (joints[b] ?? 0) + 1;
  }
  const half = new Set([halves.from]);
  for (let before = 0; before < half.size; ) {
    before = half.size;
    for (const { a, b } of rest) {
      if (half.has(a)) half.add(b);
      else if (half.has(b)) half.add(a);
    }
  }
  return pairs.find((pair) => half.has(pair.a) !== half.has(pair.b) && hasRoom(joints, pair, halves.mostJoints));
}
