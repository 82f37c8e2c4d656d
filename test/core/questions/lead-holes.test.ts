/** Lead holes of the bridge's screws and of strap buttons: own bits, and screws of several sizes. */
import { describe, expect, it } from "vitest";
import { exact } from "../../../src/core/quantity/index.ts";
import { ask, demo, length } from "./demo.ts";
import { askOf, example, type JobData, text, wholeText, withValue } from "./jobs.ts";

const lowtide = example("lowtide");

function screwed(rows: readonly object[], bits?: readonly string[]): JobData {
  const data = withValue(lowtide, "parts.groyne.screws", rows);
  return bits === undefined ? data : withValue(data, "settings.bits", bits);
}

describe("[FT26] own bits", () => {
  const thick = [{ p: 34, q: [-21, 0, 21], thread: 4.5, pilot: 4.3, depth: 24 }];

  it("a 1.0 bit was told for a 4.5 screw in ash: the rule's 3.0 stands, and that bit is to be bought", () => {
    const verdict = askOf(screwed(thick, ["1.0 mm", "5 mm"]), "fasteners.bridge");
    // Least core by the three rules: 2/3 x 4.5 = 3.00. White ash, G 0.60: 0.9 of the middle core, about 2.97.
    expect(verdict.figures.rootLeast).toBeCloseTo(3, 9);
    expect(verdict.figures.take).toBeCloseTo(3, 9);
    expect(verdict.figures.ownBit).toBeUndefined();
    expect(text(verdict.headline)).toContain("gives 3.0 mm.");
    expect(wholeText(verdict)).toContain("None of your bits suits");
    expect(wholeText(verdict)).toContain("Buy or borrow one of 3.0 mm.");
    expect(verdict.remedies.map((remedy) => text(remedy.text))).toEqual([
      "Take 3.0 mm instead, after trying it in scrap.",
    ]);
  });

  it("a bit near the lead hole is named beside the rule's figure, not in place of it", () => {
    const verdict = askOf(screwed(thick, ["1.0 mm", "2.8 mm", "5 mm"]), "fasteners.bridge");
    expect(text(verdict.headline)).toContain("gives 3.0 mm.");
    expect(verdict.figures.take).toBeCloseTo(2.8, 9);
    expect(wholeText(verdict)).toContain("Your nearest bit not above the core: 2.80 mm.");
  });

  it("no bits listed: nothing is said of them", () => {
    expect(wholeText(askOf(screwed(thick), "fasteners.bridge"))).not.toMatch(/your (nearest )?bit/i);
  });

  it("a strap button's screw is not led by a bit far too thin either", () => {
    const instrument = demo("lowtide");
    const strapButtons = [
      {
        id: "upper",
        holeDiameter: length(4),
        screwGauge: exact(8, "gauge", "count"),
        screwLength: length(32),
        at: { u: length(0), y: length(0) },
      },
    ];
    const workshop = { ...instrument.workshop, bits: [length(1), length(5)] };
    const verdict = ask({ ...instrument, strapButtons, workshop }, "strap.upper");
    // #8: 0.9 x 2.777 = 2.50; 85 % of it is 2.12, so 1.0 is far too thin.
    expect(verdict.figures.ownBit).toBeUndefined();
    expect(wholeText(verdict)).toContain("Buy or borrow one of 2.5 mm.");
  });
});
