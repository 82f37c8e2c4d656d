import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { loadJob } from "../../../src/core/index.ts";
import { weigh } from "../../../src/core/ledger/index.ts";
import { placeProblem } from "../../../src/core/questions/place-chance.ts";
import { chanceCase } from "../../../src/core/questions/place-walls.ts";
import { askOf, example, fixture, type JobData, placementOf, withoutReading, withReading, withValue } from "./jobs.ts";

/** What the ledger's draws may stray by, both ways. */
const STRAY = 0.006;

/** The chance of the place as the verdict gives it, without the other ways of measuring and drilling. */
function chanceOf(data: JobData): number {
  const { instrument } = loadJob(data);
  const placed = placementOf(instrument);
  const cases = placed.pieces.map((piece) => {
    if (!piece.pose) throw new Error("no place");
    return chanceCase(instrument, placed, piece);
  });
  const weighed = weigh(placeProblem(cases.filter((one) => one.saddles.length > 0)));
  return weighed.known ? weighed.probability : Number.NaN;
}

it.each(["seven-string-units", "six-string-two-posts"])("%s: the chance of the verdict", (name) => {
  expect(chanceOf(fixture(name))).toBe(askOf(fixture(name), "bridge.place").probability);
});

describe("more doubt about the drilling", () => {
  const JOBS: readonly (readonly [string, JobData])[] = [
    ["lowtide", example("lowtide")],
    ["ferry", example("ferry")],
    ["seven-string-units", withValue(fixture("seven-string-units"), "parts.piling.saddles.0.to", 10.6)],
    ["six-string-two-posts", fixture("six-string-two-posts")],
    ["bass-channel", fixture("bass-channel")],
  ];

  // To 0.6: beyond it a bit could leap right over an old hole into sound wood again.
  it.each(JOBS)("%s: never makes the place surer", (_, data) => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 0, max: 60 }), { minLength: 3, maxLength: 3 }), (hundredths) => {
        const chances = hundredths
          .sort((a, b) => a - b)
          .map((u) => chanceOf(withValue(data, "settings.drillingDoubt", `${u / 100} mm`)));
        chances.slice(1).forEach((chance, n) => {
          expect(chance).toBeLessThanOrEqual((chances[n] ?? 1) + STRAY);
        });
      }),
      { seed: 5, numRuns: 2 },
    );
  });

  it("costs by hand what the closed form says, where only the line and the drilling are in doubt", () => {
    // One saddle's worth: travel 0.8 to each side, everything else exact. P = 2 Φ(0.8 / √(0.15² + 0.45²)) - 1 = 0.9083.
    const exactly = (value: number) => `${value} ±0 mm`;
    let data = withValue(fixture("bass-channel"), "instrument.body.channels", undefined);
    data = withValue(withValue(data, "fit.bridge.u", undefined), "settings.drilling", "hand drill");
    data = withValue(data, "parts.breakwater.saddles", [
      { strings: [1, 2, 3, 4], from: exactly(8), to: exactly(10.6) },
    ]);
    for (const n of [1, 2, 3, 4]) data = withValue(data, `fit.setup.strings.${n}.setback`, exactly(2.5));
    // Line 264, setback 2.5: the middle of the travel stands there with the front edge at 257.2, a tenth that can be marked.
    expect(chanceOf(data)).toBeCloseTo(0.9083, 3);
  });
});

describe("one more reading that agrees", () => {
  /** What has been measured, its tool in the file, and tools that read such a thing. */
  const READINGS = [
    { of: "scaleLine.u", value: 182 },
    { of: "body.holes.old-screws.u", value: 201.5 },
    { of: "neck.nutToFret12", value: 345 },
    { of: "neck.fret12ToHeelEnd", value: 163 },
    { of: "neck.heelGap", value: 0 },
    { of: "body.holes.old-screws.y[1]", value: -10 },
    { of: "body.holes.old-screws.diameter", value: 3.2 },
  ];
  const TOOLS = ["rule", "calliper", "transfer", "tape", "plate laid on"];
  const lowtide = example("lowtide");
  const byRule = withoutReading(lowtide, "line-carried", "row-plate");

  it.each([
    ["carried over", lowtide],
    ["by rule alone", byRule],
  ])("never makes the place less sure (%s)", (_, data) => {
    const before = chanceOf(data);
    fc.assert(
      fc.property(fc.constantFrom(...READINGS), fc.constantFrom(...TOOLS), ({ of, value }, tool) => {
        const after = chanceOf(withReading(data, { id: "once-more", of, value: `${value} mm (${tool})` }));
        expect(after).toBeGreaterThanOrEqual(before - STRAY);
      }),
      { seed: 3, numRuns: 6 },
    );
  });

  it("counts beside what is written with its tool: a blunter tool does not take its place", () => {
    const before = askOf(lowtide, "bridge.depth");
    const blunter = askOf(
      withReading(lowtide, { id: "again", of: "body.thickness", value: "44.5 mm (rule)" }),
      "bridge.depth",
    );
    expect(blunter.margin?.u).toBe(before.margin?.u);
    const written = withValue(byRule, "instrument.scaleLine", { u: "182 mm (transfer)" });
    expect(
      chanceOf(withReading(written, { id: "rule", of: "scaleLine.u", value: "182 mm (rule)" })),
    ).toBeGreaterThanOrEqual(chanceOf(written) - STRAY);
  });

  it("makes it surer where it is the sharper one", () => {
    const after = chanceOf(withReading(byRule, { id: "carried", of: "scaleLine.u", value: "182 mm (transfer)" }));
    expect(after).toBeGreaterThan(chanceOf(byRule) + 0.1);
  });
});
