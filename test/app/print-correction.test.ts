import { describe, expect, it } from "vitest";
import { printCorrection } from "../../src/app/print-correction.ts";

// An A4 sheet upright has rules of 280 and 190 (297 and 210 less margins of at least 8, in steps of 5), so diagonals of
// √(280² + 190²) = 338.38.
const correction = (printed: string) => printCorrection(printed, "--printed", "A4");

describe("printCorrection", () => {
  it("leaves a true print alone", () => {
    expect(correction("280, 190, 338.4, 338.4")).toBeUndefined();
  });

  it("undoes what the printer did, each axis by itself", () => {
    // Drawn / measured: 280 / 277.2 down the sheet, 190 / 190 across; diagonals √(277.2² + 190²) = 336.06.
    const factors = correction("277.2, 190, 336.1, 336.1");
    expect(factors?.sy).toBeCloseTo(280 / 277.2, 9);
    expect(factors?.sx).toBeCloseTo(1, 9);
  });

  it("reads inches, and decimal commas between semicolons", () => {
    // 11.0236 in = 280.0 mm, 7.4803 in = 190.0 mm, 13.322 in = 338.38 mm.
    expect(correction("11.0236 in, 7.4803 in, 13.322 in, 13.322 in")).toBeUndefined();
    expect(correction("280,0; 190,0; 338,4; 338,4")).toBeUndefined();
  });

  it.each([
    ["280, 190", /^--printed: needs four lengths, got "280, 190"\. Give four lengths with commas between/],
    ["280, 190, , 338", /needs four lengths/],
    ["280, 190, x, 338", /^--printed, top left to bottom right: /],
    ["266, 180.5, 321.5, 321.5", /too far off to correct/],
    ["280, 190, 341, 335.7", /skewed/],
  ])("refuses %s", (printed, message) => {
    expect(() => correction(printed)).toThrow(message);
  });
});

it("a sheet that lies on its side tells of the printer's other axis", () => {
  // Landscape A4: 280 across, 190 down. Across the sheet at 97 %: that is down the paper as it runs through the printer.
  const across = 280 * 0.97;
  const diagonal = Math.hypot(across, 190);
  const correction = printCorrection(`190, ${across}, ${diagonal}, ${diagonal}, A4-L`, "--printed", "A4");
  expect(correction?.sy).toBeCloseTo(1 / 0.97, 6);
  expect(correction?.sx).toBeCloseTo(1, 6);
});
