import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fitScale, fretPositionMm, fretShare, fretToScaleLineMm } from "../../../src/core/scale/index.ts";

const SEED = 20240611;
/** Evenly spread; doubles as such crowd about 0. */
const num = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((n) => min + ((max - min) * n) / 1_000_000);

interface FretCase {
  readonly id: string;
  readonly inputs: { readonly scale_in?: number; readonly scale_mm?: number; readonly fret?: number };
  readonly expected: Readonly<Record<string, number | readonly number[]>>;
  readonly tolerance: Readonly<Record<string, number>>;
  readonly read: string;
}

const CASES: readonly FretCase[] = JSON.parse(
  readFileSync(new URL("../../reference/scale/cases.json", import.meta.url), "utf8"),
);
const TABLES = CASES.filter((one) => one.id.startsWith("frets-") && /\d(in|mm)$/.test(one.id));

describe("[BR1] fret positions", () => {
  it("has the tables", () => {
    expect(TABLES).toHaveLength(5);
  });

  it.each(TABLES)("$id ($read)", ({ inputs, expected, tolerance }) => {
    const unit = inputs.scale_in === undefined ? "mm" : "in";
    const places = expected[`nut_to_fret_1_to_24_${unit}`] as readonly number[];
    expect(places).toHaveLength(24);
    places.forEach((place, index) => {
      const at = fretPositionMm({ scaleLengthMm: (inputs.scale_in ?? inputs.scale_mm) as number, fret: index + 1 });
      // Printed to a unit of the tolerance, hence half of it and a hair for the printing.
      expect(Math.abs(at - place)).toBeLessThanOrEqual((tolerance[unit] as number) / 2 + 1e-9);
    });
  });

  it("first fret's divisor is the published 17.817 (to the digits of the case)", () => {
    const known = CASES.find((one) => one.id === "frets-first-divisor");
    expect(Math.abs(1 / fretShare(1) - (known?.expected.divisor as number))).toBeLessThan(1e-6);
    expect(Math.abs(1 - fretShare(1) - (known?.expected.inverse_ratio as number))).toBeLessThan(1e-10);
  });

  it("fret 1 to the saddle at 650 mm is the published 613.52", () => {
    // Estrada, research page on guitar fretting, worked value, two decimals.
    expect(Math.abs(fretToScaleLineMm({ scaleLengthMm: 650, fret: 1 }) - 613.52)).toBeLessThan(0.005);
  });

  it("refuses a scale of no length", () => {
    expect(() => fretPositionMm({ scaleLengthMm: 0, fret: 12 })).toThrow(/^scaleLengthMm: must be a number above 0 mm/);
  });
});

const length = num(300, 1000);
const start = num(-50, 50);
const frets = fc.uniqueArray(fc.integer({ min: 0, max: 24 }), { minLength: 3, maxLength: 10 });

describe("[BR2] scale length from frets read with one placing", () => {
  it("finds L and the start again from exact readings", () => {
    fc.assert(
      fc.property(length, start, frets, (scaleLengthMm, startMm, list) => {
        const readings = list.map((fret) => ({ fret, atMm: startMm + fretPositionMm({ scaleLengthMm, fret }) }));
        const fit = fitScale({ readings });
        // The narrowest draw (three frets above 20) loses some five digits of the double's sixteen.
        expect(fit.scaleLengthMm).toBeCloseTo(scaleLengthMm, 6);
        expect(fit.startMm).toBeCloseTo(startMm, 6);
        expect(Math.max(...fit.residualsMm.map(Math.abs))).toBeLessThan(1e-8);
      }),
      { seed: SEED },
    );
  });

  it("closed form: three readings at shares 0, 1/2 and 3/4 with one error", () => {
    // x = share: mean 5/12, sum of squares about it 7/24. A reading 0.6 too great at fret 12 only moves the slope by
    // 0.6 (1/2 - 5/12) / (7/24) = 6/35 and the start by 0.6/3 - (6/35)(5/12) = 9/70.
    const fit = fitScale({
      readings: [
        { fret: 0, atMm: 0 },
        { fret: 12, atMm: 324.6 },
        { fret: 24, atMm: 486 },
      ],
      readingDoubtMm: 0.25,
    });
    expect(fit.scaleLengthMm).toBeCloseTo(648 + 6 / 35, 9);
    expect(fit.startMm).toBeCloseTo(9 / 70, 9);
    expect(fit.worstIndex).toBe(1);
    // Errors: u/√S for the slope, u √(1/3 + (1 - 5/12)²/S) at the scale line, S = 7/24.
    expect(fit.scaleLengthErrorMm).toBeCloseTo(0.25 / Math.sqrt(7 / 24), 9);
    expect(fit.scaleLineErrorMm).toBeCloseTo(0.25 * Math.sqrt(1 / 3 + (7 / 12) ** 2 / (7 / 24)), 9);
    expect(fit.startErrorMm).toBeCloseTo(0.25 * Math.sqrt(1 / 3 + (5 / 12) ** 2 / (7 / 24)), 9);
    // Residuals: 0.6 less what the line takes up; with one degree of freedom the scatter is their root sum of squares.
    const residuals = [0 - 9 / 70, 0.6 - 9 / 70 - 3 / 35, 0 - 9 / 70 - (6 / 35) * 0.75];
    residuals.forEach((r, i) => {
      expect(fit.residualsMm[i]).toBeCloseTo(r, 9);
    });
    expect(fit.scatterMm).toBeCloseTo(Math.hypot(...residuals), 9);
  });

  it("spread of many fits agrees with the standard error it states", () => {
    const list = [1, 5, 9, 12, 17, 22];
    const lengths: number[] = [];
    let stated = 0;
    // Twelve uniform numbers less six: nearly normal, variance 1; a fixed sequence so that the test always sees the same.
    let state = 12345;
    const uniform = (): number => {
      state = (1103515245 * state + 12345) % 2147483648;
      return state / 2147483648;
    };
    const normal = (): number => Array.from({ length: 12 }, uniform).reduce((sum, u) => sum + u, -6);
    for (let n = 0; n < 4000; n++) {
      const readings = list.map((fret) => ({
        fret,
        atMm: fretPositionMm({ scaleLengthMm: 648, fret }) + 0.25 * normal(),
      }));
      const fit = fitScale({ readings, readingDoubtMm: 0.25 });
      lengths.push(fit.scaleLengthMm);
      stated = fit.scaleLengthErrorMm;
    }
    const mean = lengths.reduce((sum, l) => sum + l, 0) / lengths.length;
    const spread = Math.sqrt(lengths.reduce((sum, l) => sum + (l - mean) ** 2, 0) / (lengths.length - 1));
    // A standard deviation from 4000 draws is good to 1/√8000 = 1.1 %; four times that.
    expect(Math.abs(spread / stated - 1)).toBeLessThan(0.045);
  });

  it("refuses fewer than three different frets", () => {
    const two = [
      { fret: 1, atMm: 36 },
      { fret: 12, atMm: 324 },
    ];
    expect(() => fitScale({ readings: two })).toThrow(/^readings: must hold at least 3 different frets/);
    expect(() => fitScale({ readings: [...two, { fret: 12, atMm: 324.1 }] })).toThrow(/got 2/);
    expect(() => fitScale({ readings: [...two, { fret: 5, atMm: Number.NaN }] })).toThrow(/^readings\[2\]\.atMm/);
  });
});
