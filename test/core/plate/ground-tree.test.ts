import { describe, expect, it } from "vitest";
import { groundTree } from "../../../src/core/plate/index.ts";
import { generator } from "../../reference/scenarios/draws.ts";

const lug = (id: string, x: number, y: number) => ({ id, at: { x, y } });

describe("groundTree", () => {
  it("joins a row one to the next", () => {
    const ids = groundTree([lug("a", 0, 0), lug("c", 20, 0), lug("b", 10, 0)]).map(({ id }) => id);
    expect(ids.sort()).toEqual(["ground:a:b", "ground:c:b"]);
  });

  it("needs no wire for one lug or none", () => {
    expect(groundTree([])).toEqual([]);
    expect(groundTree([lug("a", 0, 0)])).toEqual([]);
  });

  it("puts at most three joints on the middle of a star of eight", () => {
    const star = [lug("middle", 0, 0), ...Array.from({ length: 8 }, (_, n) => onCircle(`ray${n}`, n / 8))];
    expect(most(groundTree(star))).toBeLessThanOrEqual(3);
    expect(most(groundTree(star, 2))).toBe(2);
  });

  it.each([0, 1, 2.5, Number.NaN])("refuses a limit of %s joints", (limit) => {
    expect(() => groundTree([], limit)).toThrow(/^mostJoints: must be a whole number of 2 or more/);
  });

  // Over every tree of up to six lugs (Prüfer's numbering of trees), the least length under the limit.
  it("is as short as the shortest of all trees within the limit, or at most 5 % longer", () => {
    const random = generator(7);
    for (let round = 0; round < 40; round++) {
      const lugs = Array.from({ length: 6 }, (_, n) => lug(`${n}`, 100 * random(), 60 * random()));
      const tree = groundTree(lugs).map(({ from, to }): [number, number] => [Number(from), Number(to)]);
      expect(tree).toHaveLength(5);
      const least = Math.min(...allTrees(6).map((one) => lengthOf(one, lugs)));
      expect(lengthOf(tree, lugs)).toBeGreaterThanOrEqual(least - 1e-9);
      expect(lengthOf(tree, lugs)).toBeLessThanOrEqual(1.05 * least);
    }
  });
});

function onCircle(id: string, turn: number) {
  return lug(id, 10 * Math.cos(2 * Math.PI * turn), 10 * Math.sin(2 * Math.PI * turn));
}

function most(wires: readonly { from: string; to: string }[]): number {
  const ends = wires.flatMap(({ from, to }) => [from, to]);
  return Math.max(...ends.map((id) => ends.filter((other) => other === id).length));
}

function lengthOf(tree: readonly [number, number][], lugs: readonly ReturnType<typeof lug>[]): number {
  return tree.reduce((sum, [a, b]) => {
    const [p, q] = [lugs[a]!.at, lugs[b]!.at];
    return sum + Math.abs(p.x - q.x) + Math.abs(p.y - q.y);
  }, 0);
}

/** All trees of n lugs in which none has more than three joints. */
function allTrees(n: number): [number, number][][] {
  const codes = Array.from({ length: n ** (n - 2) }, (_, code) =>
    Array.from({ length: n - 2 }, (_, place) => Math.floor(code / n ** place) % n),
  );
  return codes
    .filter((code) => code.every((one) => code.filter((other) => other === one).length <= 2))
    .map((code) => treeOf(code, n));
}

function treeOf(code: readonly number[], n: number): [number, number][] {
  const joints = Array.from({ length: n }, (_, one) => 1 + code.filter((other) => other === one).length);
  const tree = code.map((one): [number, number] => {
    const leaf = joints.indexOf(1);
    joints[leaf]!--;
    joints[one]!--;
    return [leaf, one];
  });
  const [a, b] = joints.flatMap((left, one) => (left === 1 ? [one] : []));
  return [...tree, [a!, b!]];
}
