/** The traveller tells every place from the line that the sheet and the marking-out list count from. */
import { describe, expect, it } from "vitest";
import { showPhrase } from "../../../src/core/quantity/index.ts";
import { fixtureJob, linesOf, stepIn, travellerOn } from "./jobs.ts";

describe("a glued neck, whose places count from the nut", () => {
  const traveller = travellerOn(fixtureJob("glued-neck"), "bridge.holes");

  it("is not told 650.4 from a pocket's end wall that nobody can reach", () => {
    // The row stands 650.4 from the nut; fret 12 at 628 / 2 = 314: 650.4 - 314 = 336.4, as on the sheet and the list.
    const lines = linesOf(stepIn(traveller, "drill-bridge-screws")).join("\n");
    expect(lines).toMatch(/bridge-screws#1: 336\.4\d? mm back from the middle of fret 12/);
    expect(lines).not.toMatch(/end wall|650\.4/);
  });

  it("carries the scale line over from the nut, with nothing said of bolts or of an end wall", () => {
    const step = stepIn(traveller, "carry-scale-line");
    const words = [...linesOf(step), ...step.readings.map(({ what }) => showPhrase(what))].join("\n");
    expect(words).toContain("scale line, back from the nut's face");
    expect(words).not.toMatch(/end wall|bolted/i);
  });
});

describe("a bolted neck", () => {
  it("is told its holes from the same fret as the sheet", () => {
    // Scale 690, scale line 182.0 behind the end wall: the end wall lies 690 - 182 = 508.0 from the nut, fret 12
    // (690 / 2 = 345.0) lies 508 - 345 = 163.0 before it, and a hole at u stands u + 163.0 behind fret 12.
    const traveller = travellerOn(fixtureJob("lowtide"), "bridge.holes");
    const step = stepIn(traveller, "drill-bridge-screws");
    if (step.work?.act !== "drill") throw new Error("no drilling");
    const first = step.work.holes[0];
    const told = Number(/#1: ([\d.]+) mm back from the middle of fret 12/.exec(linesOf(step).join("\n"))?.[1]);
    expect(told).toBeCloseTo((first?.u ?? 0) + 163, 2);
    expect(showPhrase(stepIn(traveller, "carry-scale-line").readings[0]?.what ?? [])).toBe(
      "scale line, back from the pocket's end wall",
    );
  });
});

describe("a fanned neck, whose sheet counts from fret 7", () => {
  const traveller = travellerOn(fixtureJob("seven-string-units"), "bridge.holes");

  it("is not told to lay the sheet on by fret 12, 112 mm off", () => {
    const drills = traveller.steps.filter(({ kind }) => kind === "drill");
    expect(drills).toHaveLength(7);
    for (const step of drills) {
      const lines = linesOf(step).join("\n");
      expect(lines).toContain("the middle of fret 7");
      expect(lines).not.toContain("fret 12");
    }
  });

  it("is not told to mark one square scale line on both sides: it holds on the centre line only", () => {
    const lines = linesOf(stepIn(traveller, "carry-scale-line")).join("\n");
    expect(lines).toContain("on the centre line only");
    expect(lines).not.toContain("both sides");
  });
});
