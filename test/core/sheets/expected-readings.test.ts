/** What the bench steps expect of a reading is what the answers worked out: true readings must not shut the drilling. */
import { describe, expect, it } from "vitest";
import type { Job } from "../../../src/core/index.ts";
import { fixtureJob, stepIn, travellerOn } from "./jobs.ts";

function expectedIn(job: Job, id: string) {
  return stepIn(travellerOn(job, "bridge.holes"), id).readings.map(({ expected }) => expected);
}

describe("single units, each with a saddle on its own middle line", () => {
  const board: readonly [string, string] = [
    "nutWidth: 49.0 mm (calliper)",
    "nutWidth: 49.0 mm (calliper)\n    boardWidthAtLastFret: 64 mm (calliper)",
  ];

  it("expect 3.1 to the board's edge, not 26.75: the unit's own place counts", () => {
    // Half the board 32. The string runs from 21 at the nut to 31.5 at the unit, fret 24 at 3/4 of the scale:
    // 32 - (21 + 10.5 × 0.75) = 3.13; the setback lengthens the way and leaves a hair more.
    const [treble, bass] = expectedIn(fixtureJob("seven-string-units", board), "lay-strings");
    expect(treble?.value).toBeCloseTo(3.13, 1);
    expect(bass?.value).toBeCloseTo(3.13, 1);
  });
});

describe("a heel that stands off its end wall by 1.5", () => {
  it("moves the scale line that is expected with it, by its own doubt", () => {
    // Lowtide: nut to fret 12 345, fret 12 to the heel's end 163: 345 - 163 = 182.0; less the gap of 1.5: 180.5.
    const job = fixtureJob("lowtide", ["value: 0.0 mm (heel pushed home)", "value: 1.5 mm (feeler)"]);
    const [expected] = expectedIn(job, "carry-scale-line");
    expect(expected?.value).toBeCloseTo(180.5, 9);
    // Rule 0.25 twice (the heel chain) and the transfer's 0.15; the feeler adds next to nothing:
    // 2 × √(0.25² + 0.25² + 0.15²) = 0.77.
    expect(expected?.tolerance).toBeCloseTo(0.77, 1);
  });

  it("as pushed home leaves the demo's 182.0", () => {
    expect(expectedIn(fixtureJob("lowtide"), "carry-scale-line")[0]?.value).toBeCloseTo(182, 9);
  });
});
