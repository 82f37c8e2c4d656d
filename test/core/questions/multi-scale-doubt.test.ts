/** A multi-scale neck whose line comes from its lengths: what is doubtful about each string's own length, by hand. */
import { describe, expect, it } from "vitest";
import { loadJob } from "../../../src/core/index.ts";
import { standardUncertainty } from "../../../src/core/quantity/index.ts";
import { askOf, figureOf, fixture, type JobData, placementOf, withoutReading, withValue } from "./jobs.ts";

/** 635 to 660, fret 8 square, six saddles that follow the slant by 2.9 a string; every place from the nut. */
function fanned(doubt: string, line?: string): JobData {
  const saddles = [1, 2, 3, 4, 5, 6].map((string) => ({
    strings: [string],
    from: 9 + 2.9 * (string - 1),
    to: 19 + 2.9 * (string - 1),
  }));
  const changes: [string, unknown][] = [
    ["instrument.neck.straightedge", undefined],
    ["instrument.body.cavities", undefined],
    ["fit.pickups", undefined],
    ["instrument.body.endWallX", 0],
    ["instrument.neck.squareFret", 8],
    ["instrument.neck.scaleLength", { string1: `635 ${doubt}(rule)`, lastString: `660 ${doubt}(rule)` }],
    ["parts.groyne.saddles", saddles],
    ...(line === undefined
      ? []
      : ([["readings", [{ id: "line", of: "scaleLine.u", value: line }]]] as [string, unknown][])),
  ];
  return changes.reduce(
    (data, [path, value]) => withValue(data, path, value),
    withoutReading(fixture("slanted-pickup"), "line-carried", "relief"),
  );
}

/** Behind the square fret a string keeps 2^(-8/12) of its own length. */
const BEHIND = 2 ** (-8 / 12);

describe("lengths of 635 and 660, each read apart", () => {
  it.each([
    ["±1 mm ", 1 / Math.sqrt(3)],
    ["mm ", 0.25],
  ])("%s: the window's doubt holds 2^(-8/12) √2 u(L), not the saddles' 0.08 alone", (doubt, u) => {
    const window = askOf(fanned(doubt), "bridge.window");
    // Width 10 - 2 × 0.5 - (25 × 2^(-8/12) - 5 × 2.9) = 7.75; strings run out sideways by 8.25, so 0.01 allowed.
    expect(Math.abs(figureOf(window, "widthMm") - (9 - (25 * BEHIND - 14.5)))).toBeLessThan(0.01);
    // Setbacks by calliper 0.05 and travels as printed 0.05/√3, two of each.
    const rest = Math.sqrt(2 * (0.05 ** 2 + 0.05 ** 2 / 3));
    expect(window.margin?.u).toBeCloseTo(Math.hypot(BEHIND * Math.SQRT2 * u, rest), 2);
  });

  it("does not let a window of 7.75 go as certain when the lengths are good to ±12", () => {
    // The ends lie d further apart than read, d triangular within 24 × 2^(-8/12) = 15.12. The window, 9 less what the
    // slants differ by, stays open for d from -10.25 to 7.75: P = 1 - (1 - 7.75/15.12)²/2 - (1 - 10.25/15.12)²/2 = 0.83.
    expect(askOf(fanned("±12 mm "), "bridge.window").probability).toBeCloseTo(0.829, 2);
  });

  it("ends string 1 as surely as its own length and the middle one are known", () => {
    // x1 = (L1 + L6)/4 marked from fret 12 + 2^(-8/12) (L1 - L6)/2: sensitivities 1/4 + 0.315 and 1/4 - 0.315.
    const { model } = placementOf(loadJob(fanned("mm ")).instrument);
    const u = Math.hypot(0.25 * (0.25 + BEHIND / 2), 0.25 * (0.25 - BEHIND / 2), 0.25);
    const [first] = model.frame.ends;
    expect(first && standardUncertainty(first)).toBeCloseTo(u, 6);
  });

  it("counts what a string's length differs from the middle with a line carried over too", () => {
    // Transfer 0.15, and 2^(-8/12) (L1 - L6)/2.
    const { model } = placementOf(loadJob(fanned("mm ", "647.5 mm (transfer)")).instrument);
    const [first] = model.frame.ends;
    expect(first && standardUncertainty(first)).toBeCloseTo(Math.hypot(0.15, (BEHIND / 2) * Math.SQRT2 * 0.25), 6);
  });
});
