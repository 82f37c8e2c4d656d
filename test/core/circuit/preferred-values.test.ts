import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  isPreferred,
  nearestPreferred,
  type PreferredSeries,
  preferredDecade,
} from "../../../src/core/circuit/preferred-values.ts";
import { caseNamed } from "./reference-cases.ts";

const SERIES: readonly PreferredSeries[] = ["E3", "E6", "E12", "E24"];

describe("preferred values", () => {
  it.each(SERIES)("lists %s as IEC 60063", (series) => {
    expect(preferredDecade(series)).toEqual(caseNamed(series.toLowerCase()).expected.values);
  });

  it("has the eight values that are not the rounded geometric series", () => {
    const off = preferredDecade("E24").filter((value, index) => value !== Math.round(10 * 10 ** (index / 24)));
    expect(off).toEqual(caseNamed("e24").expected.offFormula);
  });
});

describe("nearestPreferred", () => {
  // By hand: 23/22 = 1.045, 33/23 = 1.435.
  it("finds the neighbours of a value between two", () => {
    expect(nearestPreferred(23e-9, "E6")).toEqual({
      value: 22e-9,
      off: expect.closeTo(22 / 23 - 1, 12),
      below: 22e-9,
      above: 33e-9,
    });
  });

  // By ratio the middle of 47 and 100 is 68.6, by difference 73.5.
  it("goes by ratio, over the end of a decade", () => {
    expect(nearestPreferred(70, "E3").value).toBe(100);
    expect(nearestPreferred(68, "E3").value).toBe(47);
    expect(nearestPreferred(0.95, "E12").value).toBe(1);
  });

  it("knows its own values in every decade, exactly", () => {
    for (const series of SERIES) {
      for (const mantissa of preferredDecade(series)) {
        for (let power = -13; power <= 6; power += 1) {
          const value = Number(`${mantissa}e${power}`);
          expect(nearestPreferred(value, series)).toEqual({ value, off: 0, below: value, above: value });
        }
      }
    }
    expect(isPreferred(47e3 * 1.001, "E24")).toBe(false);
  });

  it("is never further off than half a step of the series", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-12, max: 1e7, noNaN: true }), (wanted) => {
        const { value, below, above } = nearestPreferred(wanted, "E12");
        expect(below).toBeLessThanOrEqual(wanted * (1 + 1e-9));
        expect(above).toBeGreaterThanOrEqual(wanted * (1 - 1e-9));
        expect([below, above]).toContain(value);
        expect(Math.abs(Math.log(value / wanted))).toBeLessThanOrEqual(Math.log(above / below) / 2 + 1e-9);
      }),
      { seed: 63, numRuns: 500 },
    );
  });

  it.each([0, -1, Number.NaN])("refuses %s", (wanted) => {
    expect(() => nearestPreferred(wanted, "E6")).toThrow(/^wanted: must be a number above 0/);
  });
});
