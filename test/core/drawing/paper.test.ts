import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { nextPrint, nominalOf, PAPER_MM, sheetPaper } from "../../../src/core/drawing/index.ts";
import { factorsFor } from "../../../src/core/drawing/paper.ts";
import { numberOf, referenceCase } from "../../reference/papers/cases.ts";

describe("[PA5] paper", () => {
  it("has the sizes of ISO 216", () => {
    const one = referenceCase("a4");
    expect(PAPER_MM.A4).toEqual({ width: numberOf(one, "w_mm"), height: numberOf(one, "h_mm") });
  });

  it("carries the longest rules in steps of 5 mm that leave 8 mm to every edge", () => {
    // 210 - 16 = 194, 297 - 16 = 281; 215.9 - 16 = 199.9, 279.4 - 16 = 263.4.
    expect(nominalOf(sheetPaper("A4", "portrait").frame)).toEqual({
      acrossMm: 190,
      alongMm: 280,
      diagonalMm: Math.hypot(190, 280),
    });
    expect(nominalOf(sheetPaper("A4", "landscape").frame)).toMatchObject({ acrossMm: 280, alongMm: 190 });
    expect(nominalOf(sheetPaper("Letter", "portrait").frame)).toMatchObject({
      acrossMm: 195,
      alongMm: 260,
      diagonalMm: 325,
    });
  });

  it("[PA10] stays on the paper whatever the factors, with 8 mm true margins", () => {
    const factor = fc.double({ min: 0.962, max: 1.042, noNaN: true });
    fc.assert(
      fc.property(
        factor,
        factor,
        fc.constantFrom("A4", "Letter"),
        fc.constantFrom("portrait", "landscape"),
        (sx, sy, name, orientation) => {
          const paper = sheetPaper(name as "A4", orientation as "portrait", { sx, sy });
          // What the file says, in paper millimetres.
          const { left, top, right, bottom } = paper.frame;
          for (const drawn of [left * sx, top * sy, paper.widthMm - right * sx, paper.heightMm - bottom * sy])
            expect(drawn).toBeGreaterThan(8 * 0.96 - 1e-9);
          expect((right - left) / 5).toBeCloseTo(Math.round((right - left) / 5), 9);
        },
      ),
      { seed: 2 },
    );
  });

  it("[PA10] takes the factors of an upright sheet the other way round where it lies on its side", () => {
    const upright = { sx: 1, sy: 1.03 };
    const lying = sheetPaper("A4", "landscape", factorsFor("landscape", upright));
    expect(lying.factors).toEqual({ across: 1.03, down: 1 });
    expect(sheetPaper("A4", "portrait", factorsFor("portrait", upright)).factors).toEqual({ across: 1, down: 1.03 });
    // What is measured on it, true but for those 3 %, gives the same factors back.
    const nominal = nominalOf(sheetPaper("A4", "landscape").frame);
    const measured = { alongMm: nominal.alongMm, acrossMm: nominal.acrossMm / 1.03 };
    const diagonal = Math.hypot(measured.alongMm, measured.acrossMm);
    const next = nextPrint({ ...measured, diagonal1Mm: diagonal, diagonal2Mm: diagonal }, "A4-L", "A4", "print");
    expect(next.factors?.sy).toBeCloseTo(1.03, 9);
    expect(next.factors?.sx).toBeCloseTo(1, 9);
  });

  it("refuses factors that no print check gives", () => {
    expect(() => sheetPaper("A4", "portrait", { sx: 1.2, sy: 1 })).toThrow(/^factors\.sx: must lie between/);
  });
});

describe("from memory: soft", () => {
  it("has Letter at 8 1/2 by 11 inches", () => {
    const one = referenceCase("letter");
    expect(PAPER_MM.Letter.width).toBeCloseTo(numberOf(one, "w_mm"), 9);
    expect(PAPER_MM.Letter.height).toBeCloseTo(numberOf(one, "h_mm"), 9);
  });
});
