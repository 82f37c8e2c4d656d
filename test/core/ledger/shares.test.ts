import { describe, expect, it } from "vitest";
import { type JointProblem, type KnownWeight, type Problem, weigh, weighMany } from "../../../src/core/ledger/index.ts";
import { ferry, lowtide } from "./bridge-problems.ts";
import { leaf, term } from "./leaves.ts";

function known(problem: Problem | JointProblem): KnownWeight {
  const weighed = "margin" in problem ? weigh(problem) : weighMany(problem);
  if (!weighed.known) throw new Error("a leaf is missing");
  return weighed;
}

function shareOf(weighed: KnownWeight, path: string): number {
  return weighed.shares.find((one) => one.path === path)?.share ?? 0;
}

describe("linear shares", () => {
  it("[LG5] go by leaf, with every term of the leaf and the change per unit of its value", () => {
    // 3 a - 4 b: (3 × 0.3)² + (3 × 0.4)² = 2.25 for a, (4 × 0.5)² = 4 for b.
    const leaves = { a: leaf("a", 1, [term("reading", 0.3), term("placing", 0.4)]), b: leaf("b", 0, 0.5) };
    const { shares, u } = known({ leaves, margin: (x) => 3 * (x.a ?? 0) - 4 * (x.b ?? 0), unit: "mm" });
    expect(u).toBeCloseTo(2.5, 12);
    expect(shares.map(({ path, what }) => [path, what])).toEqual([
      ["b", "b"],
      ["a", "placing and reading"],
    ]);
    expect(shares[0]?.share).toBeCloseTo(4 / 6.25, 12);
    expect(shares[0]?.sensitivity).toBeCloseTo(-4, 10);
    expect(shares[1]?.share).toBeCloseTo(2.25 / 6.25, 12);
    expect(shares[1]?.sensitivity).toBeCloseTo(3, 10);
  });

  it("[LG5] an error shared by several values stands alone under its own name", () => {
    const placing = term("one placing", 0.3, "normal", "rule laid once");
    const leaves = { a: leaf("a", 1, [placing, term("ra", 0.4)]), b: leaf("b", 0, [{ ...placing, u: 0.6 }]) };
    const { shares } = known({ leaves, margin: (x) => (x.a ?? 0) + (x.b ?? 0), unit: "mm" });
    // (0.3 + 0.6)² = 0.81 shared, 0.16 of a alone; per unit of b, which carries most of it: 0.9 / 0.6.
    expect(shares.map(({ path, what }) => [path, what])).toEqual([
      ["b", "rule laid once"],
      ["a", "ra"],
    ]);
    expect(shares[0]?.share).toBeCloseTo(0.81 / 0.97, 12);
    expect(shares[0]?.sensitivity).toBeCloseTo(1.5, 10);
  });

  it("[LG5] one value under two names counts once", () => {
    const wood = leaf("control.wood", 7, 0.1);
    const { shares } = known({
      leaves: { near: wood, far: wood },
      margin: (x) => (x.near ?? 0) + (x.far ?? 0) - 14,
      unit: "mm",
    });
    expect(shares).toHaveLength(1);
    expect(shares[0]?.share).toBe(1);
  });
});

describe("sampled shares", () => {
  it("[LG5] are the linear ones where the margin is nearly straight", () => {
    const leaves = { a: leaf("a", 0, 0.6), b: leaf("b", 0, 0.8) };
    const bent = known({ leaves, margin: (x) => 0.4 + (x.a ?? 0) + (x.b ?? 0) + 0.04 * (x.a ?? 0) ** 2, unit: "mm" });
    expect(bent.method).toBe("sampled");
    expect(Math.abs(shareOf(bent, "b") - 0.64)).toBeLessThan(0.03);
    expect(bent.shares[0]?.sensitivity).toBeCloseTo(1, 2);
  });

  // The guide a person needs: whose doubt, if it went, would raise the odds most? Each value is made exact in turn.
  const rule = { scaleLineU: 0.46, setbackU: 0.2, drillingU: 0.45, oldRowU: 0.25 };
  const window: Problem = {
    leaves: { along: leaf("along", 0, 0.8), height: leaf("height", 0, 0.3) },
    margin: (x) => Math.min(1 + (x.along ?? 0), 1 - (x.along ?? 0)) + (x.height ?? 0),
    unit: "mm",
  };
  const capped: Problem = {
    leaves: { big: leaf("big", 0, 4), near: leaf("near", 0, 1) },
    margin: (x) => Math.min(5 + (x.big ?? 0), 1 + (x.near ?? 0)),
    unit: "mm",
  };
  const wall: Problem = {
    leaves: { along: leaf("along", 0, 1), across: leaf("across", 0, 1), bit: leaf("bit", 0, 0.5) },
    margin: (x) => Math.hypot(4 + (x.along ?? 0), 2 + (x.across ?? 0)) - 3 + (x.bit ?? 0),
    unit: "mm",
  };
  it.each([
    { name: "a window between two sides", problem: window },
    { name: "a large doubt that seldom binds", problem: capped },
    { name: "a wall between round holes", problem: wall },
    { name: "six strings on a plate", problem: lowtide(rule) },
    { name: "a plate between old holes", problem: ferry(rule) },
  ])("[LG5] the first share is the value whose doubt costs most: $name", ({ problem }) => {
    const now = known(problem);
    expect(now.method).toBe("sampled");
    const gains = Object.entries(problem.leaves).map(([name, quantity]) => {
      const without = { ...quantity, doubt: [] };
      return {
        path: quantity.path,
        gain: known({ ...problem, leaves: { ...problem.leaves, [name]: without } }).probability,
      };
    });
    gains.sort((a, b) => b.gain - a.gain);
    expect(now.shares[0]?.path).toBe(gains[0]?.path);
  });

  it("[LG5] sees a doubt that hurts in both directions", () => {
    const weighed = known(window);
    expect(shareOf(weighed, "along")).toBeGreaterThan(0.7);
    // A straight line through the draws would say 0: the slope is nothing.
    expect(Math.abs(weighed.shares[0]?.sensitivity ?? 1)).toBeLessThan(0.02);
  });
});
