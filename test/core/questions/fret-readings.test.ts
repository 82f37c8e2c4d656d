/** Frets read with one placing of the rule, one of them misread. Figures by hand on a scale of 864. */
import { describe, expect, it } from "vitest";
import { loadJob } from "../../../src/core/index.ts";
import { standardUncertainty } from "../../../src/core/quantity/index.ts";
import { askOf, figureOf, fixture, type JobData, text, withValue } from "./jobs.ts";

/** 864 (1 - 2^(-n/12)): 216.7 at fret 5, 350.3 at 9, 432.0 at 12, 521.1 at 16, 591.9 at 20. */
const read = (rows: readonly (readonly [number, number])[]): JobData =>
  withValue(
    fixture("printed-scale"),
    "instrument.neck.fretReadings",
    rows.map(([fret, at]) => ({ fret, at: `${at} mm (rule)` })),
  );

describe("three frets of one placing, fret 20 read as 601.9 where it stands at 591.9", () => {
  // Shares 0.2508, 0.5, 0.6850, mean 0.4786, squares about it 0.0949: the fit gives 885.9 and leaves 1.6, -3.8 and 2.2,
  // a scatter of √(1.6² + 3.8² + 2.2²) = 4.7. One reading of the rule is good to 0.25, so a slip shows from 0.75 on.
  const job = read([
    [5, 216.7],
    [12, 432],
    [20, 601.9],
  ]);

  it("is not a line that goes 22 mm too far back: fret readings are to be taken again", () => {
    const line = askOf(job, "scale.line");
    expect(line.status).toBe("measure");
    expect(text(line.headline)).toMatch(/frets 5, 12 and 20 do not lie on one scale: .* Measure again/);
    expect(askOf(job, "bridge.place").status).toBe("measure");
  });

  it("cannot say which of three is wrong, names all, and the one furthest off first", () => {
    const line = askOf(job, "scale.line");
    expect(line.missing.map(({ what }) => what)).toEqual([
      expect.stringMatching(/^fret 12 again/),
      expect.stringMatching(/^fret 20 again/),
      expect.stringMatching(/^fret 5 again/),
    ]);
  });
});

describe("five frets of one placing, fret 16 read 10 too far", () => {
  it("[BR9] finds the one that the others bear out as wrong", () => {
    const line = askOf(
      read([
        [5, 216.7],
        [9, 350.3],
        [12, 432],
        [16, 531.1],
        [20, 591.9],
      ]),
      "scale.line",
    );
    expect(line.status).toBe("measure");
    expect(line.missing.map(({ what }) => what)).toEqual([expect.stringMatching(/^fret 16 again/)]);
    expect(text(line.headline)).toMatch(/fret 16 /);
  });
});

describe("three frets that scatter a little more than the rule", () => {
  it("doubts the scale by the scatter, not by the rule alone", () => {
    // Fret 12 at 432.4: leaves -0.11, 0.26, -0.15, a scatter of 0.316; u(L) = 0.316/√0.0949 = 1.026, not 0.25/√0.0949.
    const job = read([
      [5, 216.7],
      [12, 432.4],
      [20, 591.9],
    ]);
    const [length] = loadJob(job).instrument.neck.scaleLengths;
    expect(length?.known && standardUncertainty(length)).toBeCloseTo(1.026, 2);
    expect(askOf(job, "scale.line").status).toBe("go");
    expect(figureOf(askOf(job, "scale.line"), "scaleLineMm")).toBeCloseTo(864.259 - 600, 2);
  });
});
