import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/errors.ts";
import { readNumber, tidy, toDouble } from "../../../src/core/quantity/number.ts";

const RUNS = { seed: 648, numRuns: 2000 };

function read(text: string): number | undefined {
  const number = readNumber(tidy(text), "x");
  return number && toDouble(number.value);
}

describe("readNumber", () => {
  // Expected values are the written fractions worked by hand.
  it.each([
    ["648", 648],
    ["12,5", 12.5],
    ["0,022", 0.022],
    [".010", 0.01],
    ["5.", 5],
    ["-3.2", -3.2],
    ["\u22123.2", -3.2],
    ["+4", 4],
    ["25 1/2", 25.5],
    ["25½", 25.5],
    ["25 ½", 25.5],
    ["25-½", 25.5],
    ["25\u20441/2", undefined],
    ["25 1\u20442", 25.5],
    ["1-1/8", 1.125],
    ["-1-1/8", -1.125],
    ["-1 1/8", -1.125],
    ["3/8", 0.375],
    ["⅞", 0.875],
    ["1 / 64", 1 / 64],
    ["2.2e-8", 2.2e-8],
    ["1e3", 1000],
    ["10\u00b2", 10],
    ["½5", undefined],
    ["1/½", undefined],
    ["25.½", undefined],
    ["1 2", undefined],
    ["1.2.3", undefined],
    ["1 - 1/8", undefined],
    ["--1", undefined],
    ["", undefined],
    ["mm", undefined],
  ] as const)("reads %s as %s", (text, expected) => {
    expect(read(text)).toBe(expected);
  });

  it("leaves a raised figure to the unit, which then refuses it", () => {
    expect(readNumber(tidy("10²"), "x")?.rest).toBe("²");
  });

  it.each([
    ["1/0", /^x: 1\/0 divides by zero/],
    ["1 1/0", /divides by zero/],
    ["1 9/8", /fraction of one or more behind a whole number/],
    ["1,000", /^x: 1,000 could be 1000 or 1\.000\. Write 1000 or 1\.000\.$/],
    ["25,400", /could be 25400 or 25\.400/],
  ])("asks about %s", (text, message) => {
    expect(() => read(text)).toThrow(message);
    expect(() => read(text)).toThrow(InputError);
  });

  it("keeps fractions exact: numerator and denominator come back in lowest terms", () => {
    const whole = fc.integer({ min: 0, max: 400 });
    const under = fc.integer({ min: 2, max: 128 });
    fc.assert(
      fc.property(whole, under, fc.nat(), fc.constantFrom(" ", "-", "  "), (w, d, raw, gap) => {
        const n = raw % d;
        const value = readNumber(`${w}${gap}${n}/${d}`, "x")?.value;
        // Cross-multiplied in whole numbers, so that no rounding can hide a difference.
        expect(value && value.n * BigInt(d)).toBe(BigInt(w * d + n) * (value?.d ?? 0n));
      }),
      RUNS,
    );
  });

  it("rounds up what lies above the middle between two doubles by less than it keeps of the quotient", () => {
    // 2^53 + 1 is the middle between two doubles and would go to the even one, 2^53; the least bit more goes up.
    expect(read("9007199254740993")).toBe(9007199254740992);
    expect(read("9007199254740993.0000000000000000000001")).toBe(9007199254740994);
  });

  it("reads any decimal as the language itself does: correctly rounded, once", () => {
    const digits = fc.stringMatching(/^\d{1,35}$/);
    fc.assert(
      fc.property(digits, digits, fc.integer({ min: -30, max: 30 }), (before, after, power) => {
        const text = `${before}.${after}e${power}`;
        expect(read(text)).toBe(Number(text));
      }),
      RUNS,
    );
  });
});
