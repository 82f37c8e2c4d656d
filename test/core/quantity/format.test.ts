import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  BASE_UNIT,
  type DoubtTerm,
  exact,
  formatLength,
  formatQuantity,
  inchesFromMm,
  type Kind,
  type Known,
  mmFromInches,
  type Origin,
  parseQuantity,
  standardUncertainty,
  TOOLS,
  unknown,
} from "../../../src/core/quantity/index.ts";

const RUNS = { seed: 648, numRuns: 3000 };

describe("inches", () => {
  it("there and back is the same length to 1e-12", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), (lengthMm) => {
        expect(Math.abs(mmFromInches(inchesFromMm(lengthMm)) - lengthMm)).toBeLessThanOrEqual(
          1e-12 * Math.abs(lengthMm),
        );
      }),
      RUNS,
    );
  });

  it("an inch is 25.4 mm", () => expect(mmFromInches(10)).toBe(254));
});

describe("formatLength", () => {
  it.each([
    [647.7, { units: "mm", digits: 1 }, "647.7 mm"],
    [647.7, { units: "inch", digits: 2 }, "25.500 in"],
    [647.7, { units: "fraction", digits: 1 }, "25 1/2″"],
    [9.525, { units: "fraction", digits: 1 }, "3/8″"],
    [-28.575, { units: "fraction", digits: 1 }, "-1 1/8″"],
    [25.4, { units: "fraction", digits: 1 }, "1″"],
    [25.3, { units: "fraction", digits: 1 }, "1″"],
    [0.1, { units: "fraction", digits: 1 }, "0″"],
    [25.4 / 64, { units: "fraction", digits: 1 }, "1/64″"],
    [-0.001, { units: "mm", digits: 2 }, "0.00 mm"],
  ] as const)("shows %s with %o as %s", (value, style, expected) => {
    expect(formatLength(value, style)).toBe(expected);
  });

  // JCGM 100:2008, 7.2.6: 10.05762 with u = 0.027 is given as 10.058; 28.05 as doubt is rounded to 28, so whole units.
  it.each([
    [10.05762, 0.027, "10.058 mm"],
    [1234.567, 28.05, "1235 mm"],
  ])("gives %s with u %s to the digits of the guide's examples: %s", (value, u, expected) => {
    expect(formatLength(value, { units: "mm", digits: 6, u })).toBe(expected);
  });

  // Two digits below 3.55, one above, 10 from 9.95 on: worked by hand.
  it.each([
    [44.5031, 0.05, "44.50 mm"],
    [201.46, 0.25, "201.46 mm"],
    [201.46, 0.354, "201.46 mm"],
    [201.46, 0.36, "201.5 mm"],
    [201.456, 0.0999, "201.46 mm"],
    [1234.5, 47, "1230 mm"],
    [1234.5, 470, "1200 mm"],
    [648, 0, "648.0 mm"],
  ])("gives %s with u %s as %s", (value, u, expected) => {
    expect(formatLength(value, { units: "mm", digits: 1, u })).toBe(expected);
  });
});

describe("formatQuantity", () => {
  it.each<[string, Kind, "mm" | "inch" | "fraction", string]>([
    ["44.5 mm (calliper)", "length", "mm", "44.50 ±0.10 mm (calliper, k=2)"],
    ["44.5 mm", "length", "mm", "44.50 ±0.05 mm (data sheet)"],
    ["1 in (calliper)", "length", "inch", "1.000 ±0.004 in (calliper, k=2)"],
    ["25 1/2 in (rule)", "length", "fraction", "25 1/2″ ±0.020 in (steel rule, k=2)"],
    ["7.9 kΩ ±1%", "resistance", "mm", "7.90 ±0.08 kΩ (data sheet)"],
    ["22n ±5%", "capacitance", "mm", "22.0 ±1.1 nF (data sheet)"],
    ["0.5° ±0.1", "angle", "mm", "0.50 ±0.10° (data sheet)"],
    ["22", "count", "mm", "22 (data sheet)"],
    ["648 mm (exact)", "length", "mm", "648 mm (data sheet, exact)"],
    ["68 °F ±2", "temperature", "mm", "20.0 ±1.1 °C (data sheet)"],
  ])("shows %s (%s, %s) as %s", (text, kind, units, expected) => {
    expect(formatQuantity(parseQuantity(text, { path: "a", kind }), units)).toBe(expected);
  });

  it("says when nobody has said", () => expect(formatQuantity(unknown("a", "length"), "mm")).toBe("not known"));

  it("calls a constant of a rule exact", () =>
    expect(formatQuantity(exact(4.2, "a"), "mm")).toBe("4.2 mm (assumed, exact)"));
});

describe("parse after format", () => {
  const KINDS = Object.keys(BASE_UNIT) as Kind[];
  const SIZES: Readonly<Partial<Record<Kind, number>>> = { capacitance: 1e-8, resistance: 1e4 };
  const quantity: fc.Arbitrary<Known> = fc
    .record({
      kind: fc.constantFrom(...KINDS),
      size: fc.oneof(
        fc.constant(0),
        fc.double({ min: 1e-6, max: 1000, noNaN: true }),
        fc.double({ min: -1000, max: -1e-6, noNaN: true }),
      ),
      part: fc.oneof(fc.constant(0), fc.double({ min: 1e-4, max: 0.3, noNaN: true })),
      shape: fc.constantFrom<DoubtTerm["shape"]>("uniform", "normal", "triangular"),
      origin: fc.constantFrom<Origin>("measured", "data sheet", "assumed"),
      byTool: fc.boolean(),
      terms: fc.integer({ min: 1, max: 3 }),
    })
    .map(({ kind, size, part, shape, origin, byTool, terms }) => {
      const counted = kind === "count" || kind === "money";
      const value = size * (SIZES[kind] ?? 1);
      const u = counted ? 0 : (part * Math.abs(value)) / Math.sqrt(terms);
      const doubt = Array.from({ length: u === 0 ? 0 : terms }, (_, index) => ({
        id: `a:${index}`,
        u,
        shape,
        what: "made up",
      }));
      const tool = byTool ? TOOLS.find(({ kinds }) => kinds.includes(kind)) : undefined;
      const known = { known: true, path: "a", kind, value, doubt, said: "" } as const;
      return tool ? { ...known, origin: "measured", tool: tool.name } : { ...known, origin };
    });

  it("gives the same value and doubt within the digits printed, the same origin and tool", () => {
    fc.assert(
      fc.property(quantity, fc.constantFrom("mm", "inch", "fraction"), (q, units) => {
        const back = parseQuantity(formatQuantity(q, units), { path: "a", kind: q.kind });
        const u = standardUncertainty(q);
        const sixtyFourth = units === "fraction" && q.kind === "length" ? 25.4 / 128 : 0;
        // The value stands to the place of the doubt's last digit: off by at most half of that, and with at most two
        // digits from 10 (or one from 3.55) half a place is 1/7 of what is printed, which is at most 2 u.
        const allowed =
          Math.max(sixtyFourth, u === 0 ? 1e-11 * Math.abs(q.value) : (2 * u) / 7) + 1e-12 * Math.abs(q.value);
        expect(Math.abs(back.value - q.value)).toBeLessThanOrEqual(allowed);
        expect(Math.abs(standardUncertainty(back) - u)).toBeLessThanOrEqual(u / 7);
        expect({ origin: back.origin, tool: back.tool }).toEqual({ origin: q.origin, tool: q.tool });
      }),
      RUNS,
    );
  });

  it("lengths come back within half of the last digit", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -2000, max: 2000, noNaN: true }),
        fc.integer({ min: 0, max: 6 }),
        (value, digits) => {
          const back = (units: "mm" | "inch" | "fraction") =>
            parseQuantity(formatLength(value, { units, digits }), { path: "a", kind: "length" }).value;
          // 1e-12: the double nearest to the printed decimal.
          expect(Math.abs(back("mm") - value)).toBeLessThanOrEqual(0.5 * 10 ** -digits + 1e-12 * Math.abs(value));
          expect(Math.abs(back("inch") - value)).toBeLessThanOrEqual(
            0.5 * 25.4 * 10 ** -(digits + 1) + 1e-12 * Math.abs(value),
          );
          expect(Math.abs(back("fraction") - value)).toBeLessThanOrEqual(25.4 / 128 + 1e-12 * Math.abs(value));
        },
      ),
      RUNS,
    );
  });
});
