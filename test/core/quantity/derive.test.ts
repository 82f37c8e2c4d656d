import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  derive,
  exact,
  type Known,
  known,
  parseQuantity,
  scaleDoubt,
  standardUncertainty,
  unknown,
  valueOr,
} from "../../../src/core/quantity/index.ts";

const RUNS = { seed: 648, numRuns: 1000 };

function reading(text: string, path: string, placing?: string): Known {
  return parseQuantity(text, { path, kind: "length", placing });
}

describe("derive", () => {
  it("adds independent errors as squares (JCGM 100:2008, 5.1.2)", () => {
    const a = reading("345 mm (rule)", "a");
    const b = reading("163 mm (rule)", "b");
    const sum = derive("c", "length", a.value + b.value, [
      { quantity: a, sensitivity: 1 },
      { quantity: b, sensitivity: 1 },
    ]);
    expect(standardUncertainty(sum)).toBeCloseTo(Math.hypot(0.25, 0.25), 12);
  });

  it("agrees with the jobs' scale line: two rule readings and the heel make 0.46", () => {
    // 0.25, 0.25 and 0.30 in squares: 0.464, printed as 0.46.
    const parts = [
      reading("345 mm (rule)", "a"),
      reading("163 mm (rule)", "b"),
      reading("0 mm (heel pushed home)", "c"),
    ];
    const line = derive(
      "d",
      "length",
      0,
      parts.map((quantity) => ({ quantity, sensitivity: 1 })),
    );
    expect(standardUncertainty(line)).toBeCloseTo(0.464, 3);
  });

  it("lets what two readings of one placing share cancel in their difference", () => {
    const a = reading("345 mm (rule)", "a", "p");
    const b = reading("692 mm (rule)", "b", "p");
    const difference = derive("c", "length", b.value - a.value, [
      { quantity: b, sensitivity: 1 },
      { quantity: a, sensitivity: -1 },
    ]);
    // Half of the variance is shared: what is left is two independent halves, as much as one reading has.
    expect(standardUncertainty(difference)).toBeCloseTo(0.25, 12);
    expect(difference.doubt.map(({ id }) => id).sort()).toEqual(["a:steel rule", "b:steel rule"]);
  });

  it("adds shared errors before squaring where they act the same way", () => {
    const a = reading("182 mm (transfer)", "a", "stick");
    const b = reading("183 mm (transfer)", "b", "stick");
    const sum = derive("c", "length", a.value + b.value, [
      { quantity: a, sensitivity: 1 },
      { quantity: b, sensitivity: 1 },
    ]);
    expect(standardUncertainty(sum)).toBeCloseTo(0.3, 12);
  });

  it("is as weak as its weakest input", () => {
    const measured = reading("12 mm (rule)", "a");
    const printed = reading("12 mm", "b");
    const assumed = reading("12 mm (assumed)", "c");
    const of = (...list: Known[]) =>
      derive(
        "d",
        "length",
        1,
        list.map((quantity) => ({ quantity, sensitivity: 1 })),
      ).origin;
    expect([of(measured), of(measured, printed), of(measured, printed, assumed), of()]).toEqual([
      "measured",
      "data sheet",
      "assumed",
      "assumed",
    ]);
  });

  it("of one value times a factor is the value with its doubt scaled", () => {
    const a = reading("12 ±0.3 mm", "a");
    fc.assert(
      fc.property(fc.double({ min: -50, max: 50, noNaN: true }), (factor) => {
        const one = derive("b", "length", a.value * factor, [{ quantity: a, sensitivity: factor }]);
        expect(standardUncertainty(one)).toBeCloseTo(Math.abs(factor) * standardUncertainty(a), 12);
        expect(standardUncertainty(one)).toBeCloseTo(standardUncertainty(scaleDoubt(a, factor)), 12);
      }),
      RUNS,
    );
  });

  it("does not care in which order its inputs come", () => {
    const inputs = [
      { quantity: reading("12 mm (rule)", "a", "p"), sensitivity: 2 },
      { quantity: reading("15 mm (rule)", "b", "p"), sensitivity: -0.5 },
      { quantity: reading("15 mm", "c"), sensitivity: 1 },
    ];
    const forward = standardUncertainty(derive("d", "length", 0, inputs));
    expect(standardUncertainty(derive("d", "length", 0, [...inputs].reverse()))).toBeCloseTo(forward, 12);
  });

  it("names what it came from", () => {
    expect(derive("d", "length", 1, [{ quantity: exact(1, "a"), sensitivity: 1 }]).said).toBe("worked out from a");
  });
});

describe("known and valueOr", () => {
  it("tell given values from those that nobody has said", () => {
    expect(known(exact(3, "a"))).toBe(true);
    expect(known(unknown("a", "length"))).toBe(false);
    expect(valueOr(exact(3, "a"), 7)).toBe(3);
    expect(valueOr(unknown("a", "length"), 7)).toBe(7);
  });
});
