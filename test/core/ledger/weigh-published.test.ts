import { describe, expect, it } from "vitest";
import type { Numbers, Problem } from "../../../src/core/ledger/index.ts";
import type { Known } from "../../../src/core/quantity/index.ts";
import cases from "../../reference/ledger/cases.json" with { type: "json" };
import { known, leaf, sumOfAll, term } from "./leaves.ts";

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
