import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CORRECTABLE, type PrintMeasured, printCheck, SKEW_LIMIT, USE_AS_IS } from "../../../src/core/drawing/index.ts";
import { numberOf, referenceCase } from "../../reference/papers/cases.ts";

const A4 = { alongMm: 280, acrossMm: 190 };

/** What a steel rule finds on a print whose axes are scaled and sheared: vectors of the sides, added. */
function printed(scaleAcross: number, scaleDown: number, shearRadians = 0, nominal = A4): PrintMeasured {
  const across = { x: nominal.acrossMm * scaleAcross, y: 0 };
  const along = {
    x: Math.sin(shearRadians) * nominal.alongMm * scaleDown,
    y: Math.cos(shearRadians) * nominal.alongMm * scaleDown,
  };
  return {
    alongMm: Math.hypot(along.x, along.y),
    acrossMm: across.x,
    diagonal1Mm: Math.hypot(across.x + along.x, along.y),
    diagonal2Mm: Math.hypot(across.x - along.x, along.y),
  };
}

describe("printCheck", () => {
  it("[PA8] uses a true sheet as it is", () => {
    expect(printCheck(printed(1, 1), A4)).toEqual({ accept: true });
    // 0.25 mm over 190 mm is what a rule can tell: 0.13 %.
    expect(printCheck(printed(1 + 0.25 / 190, 1), A4)).toEqual({ accept: true });
  });

  it.each(["print-scale-0.97", "print-scale-1.02"])("corrects as the reference case %s says", (id) => {
    const one = referenceCase(id);
    const ratio = numberOf(one, "printed_ratio");
    expect(ratio * numberOf(one, "drawn_mm")).toBeCloseTo(numberOf(one, "measured_mm"), 9);
    const check = printCheck(printed(ratio, ratio), A4);
    if (!("correct" in check)) throw new Error("not corrected");
    expect(Math.abs(check.correct.sx - numberOf(one, "correction"))).toBeLessThan(one.tolerance ?? 0);
    expect(Math.abs(check.correct.sy - numberOf(one, "correction"))).toBeLessThan(one.tolerance ?? 0);
  });

  it("[PA9] refuses fit-to-page shrinkage and says what to change in the print dialogue", () => {
    const check = printCheck(printed(0.94, 0.94), A4);
    expect(check).toMatchObject({
      refuse: expect.stringContaining("94.0 %"),
      remedy: expect.stringMatching(/actual size.*100 %.*fit to page/),
    });
  });

  it("[PA8] corrects each axis by itself, drawn over measured", () => {
    const check = printCheck(printed(0.985, 1.01), A4);
    if (!("correct" in check)) throw new Error("not corrected");
    expect(check.correct.sx).toBeCloseTo(1 / 0.985, 9);
    expect(check.correct.sy).toBeCloseTo(1 / 1.01, 9);
  });

  it("[PA9] refuses a skewed print even if both sides are true", () => {
    expect(printCheck(printed(1, 1, 0.004), A4)).toMatchObject({ refuse: expect.stringMatching(/skewed.*1\.3 mm/) });
  });

  it("[PA9] calls a strong shear a skew and not a slip: the readings do belong together", () => {
    expect(printCheck(printed(1, 1, 0.02), A4)).toMatchObject({ refuse: expect.stringContaining("skewed") });
    expect(printCheck(printed(1, 1, -0.02), A4)).toMatchObject({ refuse: expect.stringContaining("skewed") });
  });

  it("[PA9] refuses readings that break the parallelogram law", () => {
    const slip = { ...printed(1, 1), diagonal1Mm: 342, diagonal2Mm: 341.8 };
    expect(printCheck(slip, A4)).toMatchObject({ refuse: expect.stringContaining("do not belong to one sheet") });
    // 190 read as 180: a slip of a rule by its tens.
    expect(printCheck({ ...printed(1, 1), acrossMm: 180 }, A4)).toHaveProperty("refuse");
  });

  it("[PA10] corrects a corrected print on top of what it was drawn with", () => {
    const check = printCheck(printed(1.002, 1), { ...A4, drawnWith: { sx: 1.03, sy: 1.01 } });
    expect(check).toEqual({ correct: { sx: 1.03 / 1.002, sy: expect.closeTo(1.01, 9) } });
    // A second correction may not carry the sum past the limit: this one would reach 1.03 / 0.98 = 1.051.
    expect(printCheck(printed(0.98, 1), { ...A4, drawnWith: { sx: 1.03, sy: 1 } })).toHaveProperty("refuse");
  });

  it("decides every unsheared print by its two scales alone", () => {
    const scale = fc.double({ min: 0.93, max: 1.07, noNaN: true });
    fc.assert(
      fc.property(scale, scale, (across, down) => {
        const worst = Math.max(Math.abs(across - 1), Math.abs(down - 1));
        fc.pre(Math.abs(worst - USE_AS_IS) > 1e-9 && Math.abs(worst - CORRECTABLE) > 1e-9);
        const check = printCheck(printed(across, down), A4);
        if (worst < USE_AS_IS) expect(check).toEqual({ accept: true });
        else if (worst > CORRECTABLE) expect(check).toHaveProperty("refuse");
        else if ("correct" in check) {
          // The next print, drawn with the factors, is true.
          expect(check.correct.sx * across).toBeCloseTo(1, 9);
          expect(check.correct.sy * down).toBeCloseTo(1, 9);
        } else throw new Error(`expected a correction for ${across}, ${down}`);
      }),
      { seed: 7 },
    );
  });

  it("finds a shear of any size above its limit, by d1² - d2² = 4 a b sin g", () => {
    fc.assert(
      fc.property(fc.double({ min: -0.02, max: 0.02, noNaN: true }), (shear) => {
        const measured = printed(1, 1, shear);
        const share = (measured.diagonal1Mm - measured.diagonal2Mm) / Math.hypot(280, 190);
        fc.pre(Math.abs(Math.abs(share) - SKEW_LIMIT) > 1e-5);
        const expected = (4 * 280 * 190 * Math.sin(shear)) / (measured.diagonal1Mm + measured.diagonal2Mm);
        expect(measured.diagonal1Mm - measured.diagonal2Mm).toBeCloseTo(expected, 9);
        expect("refuse" in printCheck(measured, A4)).toBe(Math.abs(share) > SKEW_LIMIT);
      }),
      { seed: 8 },
    );
  });

  it.each(["alongMm", "acrossMm", "diagonal1Mm", "diagonal2Mm"] as const)("refuses an empty box for %s", (key) => {
    expect(() => printCheck({ ...printed(1, 1), [key]: Number.NaN }, A4)).toThrow(
      new RegExp(`^${key}: must be a number above 0 mm`),
    );
  });
});
