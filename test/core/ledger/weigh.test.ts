import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type KnownWeight, type Numbers, type Problem, weigh, weighMany } from "../../../src/core/ledger/index.ts";
import type { Known } from "../../../src/core/quantity/index.ts";
import { unknown } from "../../../src/core/quantity/index.ts";
import cases from "../../reference/ledger/cases.json" with { type: "json" };
import { leaf, term } from "./leaves.ts";

function known(problem: Problem): KnownWeight {
  const weighed = weigh(problem);
  if (!weighed.known) throw new Error("a leaf is missing");
  return weighed;
}

function sumOfAll(x: Numbers): number {
  return Object.values(x).reduce((sum, value) => sum + value, 0);
}

function additive(doubts: readonly Known["doubt"][], margin: number): Problem {
  const leaves = Object.fromEntries(doubts.map((doubt, i) => [`x${i}`, leaf(`x${i}`, i === 0 ? margin : 0, doubt)]));
  return { leaves, margin: sumOfAll, unit: "mm" };
}

type Figures = Readonly<Record<string, unknown>>;

function reference(id: string): { inputs: Figures; expected: Figures; tolerance: number } {
  const found = cases.find((one) => one.id === id);
  if (!found) throw new Error(`no case ${id}`);
  return found;
}

function one(figures: Figures, key: string): number {
  const value = figures[key];
  if (typeof value !== "number") throw new Error(`no number ${key}`);
  return value;
}

function list(figures: Figures, key: string): number[] {
  const value = figures[key];
  if (!Array.isArray(value)) throw new Error(`no list ${key}`);
  return value.map(Number);
}

/** P(sum of independent uniform errors of half-widths a <= y): closed form, by inclusion and exclusion of the corners. */
function uniformSumArea(halfWidths: readonly number[], y: number): number {
  const n = halfWidths.length;
  let sum = 0;
  for (let corner = 0; corner < 2 ** n; corner += 1) {
    let place = y;
    let sign = 1;
    halfWidths.forEach((a, i) => {
      const up = (corner >> i) & 1;
      place += up ? a : -a;
      if (!up) sign = -sign;
    });
    if (place > 0) sum += sign * place ** n;
  }
  const factorial = halfWidths.reduce((product, _, i) => product * (i + 1), 1);
  return sum / (factorial * halfWidths.reduce((product, a) => product * 2 * a, 1));
}

describe("weigh against derived and closed forms", () => {
  it.each([
    ["gum-rect", "uniform", Math.sqrt(3)],
    ["gum-tri", "triangular", Math.sqrt(6)],
  ] as const)("[LG1] %s: an error of half-width a reaches exactly a", (id, shape, divisor) => {
    const { inputs, expected, tolerance } = reference(id);
    const a = one(inputs, "half_width");
    const u = one(expected, "u");
    expect(Math.abs(a / divisor - u)).toBeLessThan(tolerance);
    const at = (margin: number) => known(additive([[term("a", u, shape)]], margin)).probability;
    // The half-width is the end of the shape: beyond it nothing falls, within it something does.
    expect(at(a + 0.001)).toBe(1);
    expect(at(a - 0.02)).toBeLessThan(1);
    expect(at(-a - 0.001)).toBe(0);
  });

  it("[LG1] gum-calliper: limit of error and display step", () => {
    const { inputs, expected, tolerance } = reference("gum-calliper");
    const limit = term("limit", one(inputs, "mpe_mm") / Math.sqrt(3), "uniform");
    const step = term("step", one(inputs, "step_mm") / 2 / Math.sqrt(3), "uniform");
    const { u } = known(additive([[limit, step]], 1));
    expect(Math.abs(u - one(expected, "u_mm"))).toBeLessThan(tolerance);
    expect(Math.abs(2 * u - one(expected, "U_k2_mm"))).toBeLessThan(tolerance);
  });

  it("[LG1] gum-product: relative variances add", () => {
    const { inputs, expected, tolerance } = reference("gum-product");
    // The rule is first order: at a hundredth of the case's doubt what it leaves out is a ten-thousandth as large.
    const relative = list(inputs, "rel_u").map((u) => u / 100);
    const leaves = Object.fromEntries(
      ["a", "b", "c"].map((name, i) => [name, leaf(name, 5 + i, (5 + i) * (relative[i] ?? 0))]),
    );
    const { u, margin, method } = known({ leaves, margin: (x) => ((x.a ?? 0) * (x.b ?? 0)) / (x.c ?? 1), unit: "" });
    expect(method).toBe("linear");
    expect(Math.abs((100 * u) / margin - one(expected, "rel_u_Q"))).toBeLessThan(tolerance);
  });

  it("[LG3] mcm-four-normal: 97.5 % at the 95 % endpoint", () => {
    const { inputs, expected, tolerance } = reference("mcm-four-normal");
    const doubts = Array.from({ length: one(inputs, "count") }, (_, i) => [term(`x${i}`, 1)]);
    const { u, probability, method } = known(additive(doubts, 2 * 1.959964));
    expect(method).toBe("linear");
    expect(u).toBeCloseTo(2, 12);
    expect(probability).toBeCloseTo(0.975, 7);
    expect(Math.abs(2 * 1.959964 - one(expected, "endpoint_95"))).toBeLessThan(tolerance);
  });

  it("[LG4] mcm-four-rectangular: 97.5 % at the 95 % endpoint", () => {
    const { inputs, expected, tolerance } = reference("mcm-four-rectangular");
    const doubts = Array.from({ length: one(inputs, "count") }, (_, i) => [term(`x${i}`, 1, "uniform")]);
    const endpoint = 2 * Math.sqrt(3) * (2 - 0.6 ** 0.25);
    expect(Math.abs(endpoint - one(expected, "endpoint_95"))).toBeLessThan(tolerance);
    const { u, probability, method } = known(additive(doubts, endpoint));
    expect(u).toBeCloseTo(2, 12);
    expect(method).toBe("sampled");
    expect(Math.abs(probability - 0.975)).toBeLessThan(0.003);
  });

  // The promise of the sample size: 0.3 % absolute, here against the closed form at many margins.
  it.each([
    { name: "one", u: [1] },
    { name: "two unequal", u: [1, 0.6] },
    { name: "four equal", u: [1, 1, 1, 1] },
    { name: "one dominant", u: [1, 1, 1, 10] },
    { name: "seven", u: [1, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4] },
  ])("[LG4] uniform errors, $name: within 0.3 % of the closed form", ({ u }) => {
    const doubts = u.map((one, i) => [term(`x${i}`, one, "uniform")]);
    const total = Math.hypot(...u);
    for (let t = -2; t <= 2; t += 0.23) {
      const exact = uniformSumArea(
        u.map((one) => one * Math.sqrt(3)),
        t * total,
      );
      expect(Math.abs(known(additive(doubts, t * total)).probability - exact)).toBeLessThan(0.003);
    }
  });

  it("[LG3] many even uniform errors pass for normal, and are within 0.3 %", () => {
    const u = Array.from({ length: 10 }, () => 1);
    for (let t = -2; t <= 2; t += 0.23) {
      const margin = t * Math.sqrt(10);
      const { probability, method } = known(
        additive(
          u.map((one, i) => [term(`x${i}`, one, "uniform")]),
          margin,
        ),
      );
      expect(method).toBe("linear");
      expect(
        Math.abs(
          probability -
            uniformSumArea(
              u.map((one) => one * Math.sqrt(3)),
              margin,
            ),
        ),
      ).toBeLessThan(0.003);
    }
  });
});

describe("weigh against published examples, from memory", () => {
  it("length of a string: 6.4 mm, U = 12.8 mm", () => {
    const { inputs, expected, tolerance } = reference("gum-npl-string");
    const { u, shares } = known(
      additive(
        list(inputs, "components_mm").map((one, i) => [term(`x${i}`, one)]),
        1000,
      ),
    );
    expect(Math.abs(u - one(expected, "u_c_mm"))).toBeLessThan(tolerance);
    expect(u.toFixed(1)).toBe("6.4");
    expect(shares[0]?.path).toBe("x2");
    expect(shares[0]?.share).toBeCloseTo(5.8 ** 2 / (2.5 ** 2 + 0.3 ** 2 + 5.8 ** 2 + 0.7 ** 2), 12);
  });

  const endGauge = (doubtful: readonly string[]): Problem => {
    const { inputs } = reference("gum-h1-model");
    const names = {
      ls: "standard_nm",
      d: "difference_nm",
      da: "expansion_difference_per_K",
      t: "temperature_off_K",
      as: "expansion_per_K",
      dt: "temperature_difference_K",
    };
    const leaves = Object.fromEntries(
      Object.entries(names).map(([name, key]) => {
        const [value = 0, u = 0] = list(inputs, key);
        return [name, leaf(name, value, doubtful.includes(name) ? u : 0)];
      }),
    );
    const margin = ({ ls = 0, d = 0, da = 0, t = 0, as = 0, dt = 0 }: Numbers) => ls + d - ls * (da * t + as * dt);
    return { leaves, margin, unit: "nm" };
  };

  it("end gauge: components 25, 9.7, 2.9, 16.6 nm give 32 nm", () => {
    const { inputs, expected, tolerance } = reference("gum-h1-endgauge");
    const components = list(inputs, "components_nm");
    const { u, shares, method } = known(endGauge(["ls", "d", "da", "dt"]));
    expect(method).toBe("linear");
    expect(Math.abs(u - one(expected, "u_c_nm"))).toBeLessThan(tolerance);
    expect(u.toFixed(0)).toBe("32");
    const parts = ["ls", "d", "da", "dt"].map(
      (path) => u * Math.sqrt(shares.find((one) => one.path === path)?.share ?? 0),
    );
    parts.forEach((part, i) => {
      expect(Math.abs(part - (components[i] ?? 0))).toBeLessThan(0.1);
    });
  });

  it("end gauge with products of doubts: 34 nm, seen although no single step shows them", () => {
    const { expected, tolerance } = reference("gum-h1-model");
    const { u, method } = known(endGauge(["ls", "d", "da", "t", "as", "dt"]));
    expect(method).toBe("sampled");
    expect(Math.abs(u - one(expected, "u_with_second_order_nm"))).toBeLessThan(tolerance);
  });

  it("one dominant rectangular error: 97.5 % at 17.0, where first order says 19.9", () => {
    const { inputs, expected } = reference("mcm-one-dominant");
    const doubts = list(inputs, "u").map((one, i) => [term(`x${i}`, one, "uniform")]);
    const { probability, u } = known(additive(doubts, one(expected, "endpoint_95")));
    expect(Math.abs(probability - 0.975)).toBeLessThan(0.003);
    expect(1.96 * u).toBeCloseTo(one(expected, "endpoint_95_as_normal"), 1);
  });
});

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
        expect(known({ ...problem, leaves: more })).toEqual(known(problem));
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
        expect(other.method).toBe(less.method);
        expect(other.probability).toBeGreaterThanOrEqual(less.probability - (less.method === "linear" ? 0 : 0.003));
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
