import fc from "fast-check";
import { erf } from "mathjs";
import { describe, expect, it } from "vitest";
import { type Numbers, weigh, weighMany } from "../../../src/core/ledger/index.ts";
import { unknown } from "../../../src/core/quantity/index.ts";
import { known, leaf, sumOfAll, term } from "./leaves.ts";
import { plainDraws } from "./plain-draws.ts";

describe("laws", () => {
  const doubts = fc.array(fc.double({ min: 0.01, max: 2, noNaN: true }), { minLength: 2, maxLength: 7 });
  const values = fc.array(fc.double({ min: -2, max: 3, noNaN: true }), { minLength: 7, maxLength: 7 });
  const kinds = ["sum", "least", "product"] as const;
  // Formulas name their leaves, so that they are blind to the order of the leaves and to leaves that are not theirs.
  const names = ["x0", "x1", "x2", "x3", "x4", "x5", "x6"];
  const total = (x: Numbers) => names.reduce((sum, name) => sum + (x[name] ?? 0), 0);
  const formulas: Record<(typeof kinds)[number], (x: Numbers) => number> = {
    sum: total,
    least: (x) => names.reduce((least, name) => Math.min(least, (x[name] ?? 9) + 1), (x.x0 ?? 0) + (x.x1 ?? 0)),
    product: (x) => 1 + (x.x0 ?? 0) * (x.x1 ?? 0) + total(x) / 4,
  };
  const shapes = ["normal", "uniform", "triangular"] as const;
  const problems = fc.record({ doubts, values, kind: fc.constantFrom(...kinds), turn: fc.nat(2) }).map((made) => ({
    ...made,
    leaves: Object.fromEntries(
      made.doubts.map((u, i) => [
        `x${i}`,
        leaf(`x${i}`, made.values[i] ?? 0, [term(`t${i}`, u, shapes[(i + made.turn) % 3])]),
      ]),
    ),
    margin: formulas[made.kind],
    unit: "mm",
  }));
  const runs = { numRuns: 40, seed: 4711 };

  it("[LG2] the order of the leaves does not matter", () => {
    fc.assert(
      fc.property(problems, (problem) => {
        const turned = Object.fromEntries(Object.entries(problem.leaves).reverse());
        expect(known({ ...problem, leaves: turned })).toEqual(known(problem));
      }),
      runs,
    );
  });

  it("[LG2] a leaf without doubt, or a term of doubt 0, changes nothing", () => {
    fc.assert(
      fc.property(problems, (problem) => {
        const more = { ...problem.leaves, zz: leaf("zz", 7), zy: leaf("zy", 3, [term("none", 0)]) };
        const { probability, ...rest } = known({ ...problem, leaves: more });
        const { probability: before, ...restBefore } = known(problem);
        // What counts as rounding is judged by the largest value, so the last bit may differ.
        expect(probability).toBeCloseTo(before, 12);
        expect(rest).toEqual(restBefore);
      }),
      runs,
    );
  });

  it("[LG2] another unit gives the same probability and shares", () => {
    fc.assert(
      fc.property(problems, fc.constantFrom(0.25, 8, 1024), (problem, scale) => {
        const one = known(problem);
        const other = known({ ...problem, margin: (x) => scale * problem.margin(x) });
        expect(other.probability).toBe(one.probability);
        expect(other.u).toBe(scale * one.u);
        expect(other.shares.map(({ share }) => share)).toEqual(one.shares.map(({ share }) => share));
      }),
      runs,
    );
  });

  it("[LG4] more margin is never less sure, but for the 0.3 % of sampling", () => {
    fc.assert(
      fc.property(problems, fc.double({ min: 0.01, max: 1, noNaN: true }), (problem, more) => {
        const less = known(problem);
        const other = known({ ...problem, margin: (x) => problem.margin(x) + more });
        const straight = less.method === "linear" && other.method === "linear";
        expect(other.probability).toBeGreaterThanOrEqual(less.probability - (straight ? 0 : 0.003));
      }),
      runs,
    );
  });

  it("[LG5] shares add up to 1, largest first", () => {
    fc.assert(
      fc.property(problems, (problem) => {
        const shares = known(problem).shares.map(({ share }) => share);
        expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
        expect(shares).toEqual([...shares].sort((a, b) => b - a));
      }),
      runs,
    );
  });

  it("[LG1] an error that two leaves share cancels in their difference and doubles in their sum", () => {
    const shared = [term("one placing of the rule", 0.25)];
    const leaves = { a: leaf("a", 345, shared), b: leaf("b", 348, shared) };
    const difference = known({ leaves, margin: (x) => (x.b ?? 0) - (x.a ?? 0) - 2, unit: "mm" });
    expect(difference).toEqual({ known: true, margin: 1, u: 0, probability: 1, method: "exact", shares: [] });
    const sum = known({ leaves, margin: (x) => (x.b ?? 0) + (x.a ?? 0) - 693.5, unit: "mm" });
    expect(sum.u).toBeCloseTo(0.5, 12);
    expect(sum.probability).toBeCloseTo(0.158655, 6); // Φ(-1), tables
    const against = { a: leaf("a", 345, shared), b: leaf("b", 348, [term("one placing of the rule", -0.25)]) };
    const opposed = known({ leaves: against, margin: (x) => (x.b ?? 0) - (x.a ?? 0) - 2, unit: "mm" });
    expect(opposed.u).toBeCloseTo(0.5, 12);
  });

  it("[LG1] an error that enters one value twice counts as one", () => {
    const twice = leaf("a", 3, [term("rule laid once", 0.3), term("rule laid once", -0.1)]);
    const { u } = known({ leaves: { a: twice }, margin: (x) => x.a ?? 0, unit: "mm" });
    expect(u).toBeCloseTo(0.2, 12);
  });

  it("[LG3] a bend near the present value is found, however flat it is further out", () => {
    const leaves = { a: leaf("a", 0, 1), b: leaf("b", 0, 1) };
    const margin = (x: Numbers) => 1 + (x.a ?? 0) + 0.025 * Math.min(1, Math.abs(x.b ?? 0));
    expect(known({ leaves, margin, unit: "mm" }).method).toBe("sampled");
  });

  it("[LG4] the least of several sums: within 0.3 % of the product of their chances, 19 times in 20", () => {
    // Sums of different errors are independent, so that P = Π Φ(offset / u), by an independent error function.
    const chance = plainDraws(5);
    const off = Array.from({ length: 60 }, () => {
      const sides = 2 + Math.floor(4 * chance.area());
      const offsets = Array.from({ length: sides }, () => 3 * chance.area() - 0.3);
      const doubts = Array.from({ length: sides + Math.floor(6 * chance.area()) }, () => 0.1 + chance.area());
      const side = doubts.map((_, i) => (i < sides ? i : Math.floor(sides * chance.area())));
      const names = doubts.map((_, i) => `x${i}`);
      const leaves = Object.fromEntries(names.map((name, i) => [name, leaf(name, 0, doubts[i])]));
      const margin = (x: Numbers) => {
        const sums = [...offsets];
        names.forEach((name, i) => {
          sums[side[i] ?? 0] = (sums[side[i] ?? 0] ?? 0) + (x[name] ?? 0);
        });
        return Math.min(...sums);
      };
      const exact = offsets.reduce((product, offset, one) => {
        const u = Math.hypot(...doubts.filter((_, i) => side[i] === one));
        return (product * (1 + erf(offset / u / Math.SQRT2))) / 2;
      }, 1);
      return Math.abs(known({ leaves, margin, unit: "mm" }).probability - exact);
    });
    expect(off.filter((one) => one > 0.003).length).toBeLessThanOrEqual(3);
    expect(Math.max(...off)).toBeLessThan(0.006);
  });

  it("[LG3] a border that only several errors together can reach is found", () => {
    // m = min(1.2 + z0, 2 + (z1 + z2 + z3 + z4)/2): the second side is 2 standard uncertainties off, no single error
    // crosses it within 3. Φ(1.2) Φ(2) = 0.884930 × 0.977250 (tables).
    const leaves = Object.fromEntries([0, 1, 2, 3, 4].map((i) => [`z${i}`, leaf(`z${i}`, 0, i === 0 ? 1 : 0.5)]));
    const { probability, method } = known({
      leaves,
      margin: (x) => Math.min(1.2 + (x.z0 ?? 0), 2 + (x.z1 ?? 0) + (x.z2 ?? 0) + (x.z3 ?? 0) + (x.z4 ?? 0)),
      unit: "mm",
    });
    expect(method).toBe("sampled");
    expect(Math.abs(probability - 0.88493 * 0.97725)).toBeLessThan(0.003);
  });

  it("[LG4] more error terms than even dimensions: still within 1 %", () => {
    const leaves = Object.fromEntries(Array.from({ length: 60 }, (_, i) => [`z${i}`, leaf(`z${i}`, 0, 0.05 + i / 40)]));
    const side = (x: Numbers) => Math.min(8 + sumOfAll(x), 8 - sumOfAll(x));
    const total = Math.hypot(...Array.from({ length: 60 }, (_, i) => 0.05 + i / 40));
    const { probability } = known({ leaves, margin: side, unit: "mm" });
    // Φ(z) - Φ(-z) at z = 8 / 6.961 = 1.1492 is 0.7495 (tables).
    expect(total).toBeCloseTo(6.961, 3);
    expect(Math.abs(probability - 0.7495)).toBeLessThan(0.01);
  });
});

describe("what cannot be weighed", () => {
  it("[LG6] names the values nobody has given", () => {
    const leaves = { a: leaf("a", 1), z: unknown("body.thickness", "length"), b: unknown("lever.depth", "length") };
    expect(weigh({ leaves, margin: (x) => x.a ?? 0, unit: "mm" })).toEqual({
      known: false,
      missing: [unknown("lever.depth", "length"), unknown("body.thickness", "length")],
    });
  });

  it("[LG2] no doubt at all: the sign decides, rounding does not", () => {
    const at = (thread: number) =>
      known({
        leaves: { thread: leaf("thread", thread) },
        margin: (x) => (x.thread ?? 0) - 9.5 - 0.1,
        unit: "mm",
      });
    expect(9.6 - 9.5 - 0.1).toBeLessThan(0);
    expect(at(9.6)).toMatchObject({ probability: 1, method: "exact", shares: [], u: 0 });
    expect(at(9.59)).toMatchObject({ probability: 0, method: "exact" });
  });

  it("refuses a formula that gives no number, and a doubt that is none", () => {
    expect(() => weigh({ leaves: { r: leaf("r", -1) }, margin: (x) => Math.sqrt(x.r ?? 0), unit: "mm" })).toThrow(
      /^margin: the formula gives NaN at r -1/,
    );
    const leaves = { a: leaf("a", 1, [term("t", Number.NaN, "normal", "steel rule")]) };
    expect(() => weigh({ leaves, margin: (x) => x.a ?? 0, unit: "mm" })).toThrow(/^a, steel rule: the doubt must be/);
    expect(() => weighMany({ leaves: {}, margins: {}, unit: "mm" })).toThrow(/^margins: none given/);
  });

  it("[LG4] a draw at which the formula gives no number does not go", () => {
    // √(1 + z) - 0.5: no number below z = -1, below 0 under z = -0.75. Φ(0.75) = 0.773373 (tables).
    const { probability } = known({
      leaves: { z: leaf("z", 0, 1) },
      margin: (x) => Math.sqrt(1 + (x.z ?? 0)) - 0.5,
      unit: "",
    });
    expect(Math.abs(probability - 0.773373)).toBeLessThan(0.003);
  });
});
