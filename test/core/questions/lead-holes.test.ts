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

describe("screws of two sizes", () => {
  const thin = { p: 34, q: [-21, 0, 21], thread: 3, pilot: 1.7, depth: 24 };
  const thick = { p: 40, q: [-10, 10], thread: 4.5, pilot: 4.3, depth: 24 };

  it("only the thinnest was judged: a 4.3 hole, in which a 4.5 screw does not hold, went through", () => {
    const verdict = askOf(screwed([thin, thick]), "fasteners.bridge");
    // Core of the 4.5 screw: 2/3 x 4.5 = 3.00 up to about 3.6; 4.3 is above it by every rule. 1.7 is under 2/3 x 3 = 2.
    expect(verdict.status).toBe("rework");
    expect(verdict.margin?.value).toBeLessThan(-0.5);
    expect(verdict.figures).toMatchObject({ thread: 4.5, declared: 4.3, thread2: 3, declared2: 1.7 });
    expect(text(verdict.headline)).toContain("The 4.3 mm lead hole on the sheet for the 4.5 mm screws is wider than");
    expect(wholeText(verdict)).toContain("The 3.0 mm screws: 1.7 mm on the sheet, core 2.00 mm to 2.46 mm");
    expect(verdict.work).toEqual([
      {
        act: "choose",
        what: "measure the core of one 4.5 mm bridge screw, then take a bit not above it (3.0 mm by the rules), and try it in scrap",
      },
    ]);
    expect(verdict.next?.what).toBe("the core of one 4.5 mm bridge screw");
  });

  it("the order of the rows changes nothing but the names of the values", () => {
    const [a, b] = [screwed([thin, thick]), screwed([thick, thin])].map((data) => askOf(data, "fasteners.bridge"));
    expect([a?.status, a?.margin, a?.figures, text(a?.headline)]).toEqual([
      b?.status,
      b?.margin,
      b?.figures,
      text(b?.headline),
    ]);
    expect(a?.probability).toBeCloseTo(b?.probability ?? Number.NaN, 3);
  });

  it("both right: each size is named", () => {
    const verdict = askOf(screwed([thin, { ...thick, pilot: 2.9 }]), "fasteners.bridge");
    expect([verdict.status, verdict.work]).toEqual(["go", []]);
    expect(text(verdict.headline)).toBe("None of the lead holes on the sheet is above its screw's core.");
    expect(wholeText(verdict)).toContain("The 4.5 mm screws: 2.9 mm on the sheet");
  });

  it("without lead holes on the sheet each size gets its own bit", () => {
    const instrument = demo("lowtide");
    if (!instrument.bridge) throw new Error("no bridge");
    const none = { known: false, path: "x", kind: "length" } as const;
    const pieces = instrument.bridge.pieces.map((piece) => ({
      ...piece,
      screws: piece.screws.map((screw, index) => ({ ...screw, thread: length(index < 2 ? 4.5 : 3), pilot: none })),
    }));
    const verdict = ask({ ...instrument, bridge: { ...instrument.bridge, pieces } }, "fasteners.bridge");
    // 3.0 screw: least core 2.00, 0.9 of the middle core is above that, so 2.0; 4.5 screw: 3.0 in the same way.
    expect(text(verdict.headline)).toBe(
      "Take 2.0 mm for the 3.0 mm screws and 3.0 mm for the 4.5 mm screws for the lead holes in white ash, G 0.60.",
    );
  });

  it("a screw whose thread nobody gave is asked for, not passed over", () => {
    const verdict = askOf(screwed([thin, { p: 40, q: [-10, 10], pilot: 4.3, depth: 24 }]), "fasteners.bridge");
    expect(verdict.status).toBe("measure");
    expect(verdict.missing.map(({ path }) => path)).toEqual(["parts.groyne.screws[1].thread"]);
  });
});
