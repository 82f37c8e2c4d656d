/** New tuner screws in and beside the holes of the old ones. */
import { describe, expect, it } from "vitest";
import type { Verdict } from "../../../src/core/verdict/index.ts";
import { askOf, example, text, withValue } from "./jobs.ts";

/** The demo's new screw: 1.8 across, 9.5 from the post at 45 degrees. */
function against(...screws: object[]): Verdict {
  return askOf(withValue(example("lowtide"), "instrument.headstock.screws", screws), "tuners.screws");
}
const old = (distance: number, angle: number, diameter: string) => ({ distance, angle: `${angle}°`, diameter });

describe("[FT20b] a new screw in an old hole", () => {
  it("a 1.8 screw would have fallen through an old hole of 3.5: plug first", () => {
    const verdict = against(old(9.5, 45, "3.5 mm"));
    // Core 2/3 x 1.8 = 1.2; widest hole that holds (1.8 + 1.2)/2 = 1.5; 1.5 - 3.5 = -2.0.
    expect(verdict.status).toBe("rework");
    expect(verdict.margin?.value).toBeCloseTo(-2, 9);
    expect(verdict.work).toMatchObject([{ act: "choose", what: expect.stringContaining("plug the old tuner screw") }]);
    expect(text(verdict.headline)).toBe(
      "The new screws would stand in old holes of 3.5 mm, too wide to hold a screw of 1.8 mm: plug those first.",
    );
    expect(verdict.sums.map(({ title }) => title)).toEqual(["New screw in the old hole"]);
  });

  it("an old hole of 1.2 is used; its doubt is kept", () => {
    const sure = against(old(9.5, 45, "1.2 mm (calliper)"));
    expect([sure.status, sure.work, text(sure.headline)]).toEqual(["go", [], "The new screws use the old holes."]);
    // 1.5 - 1.2 = 0.3 to spare.
    expect(sure.margin?.value).toBeCloseTo(0.3, 9);
    // 1.5 - 1.45 = 0.05 against a rule's doubt: as good as nothing.
    const unsure = against(old(9.5, 45, "1.45 mm (rule)"));
    expect(unsure.probability).toBeLessThan(0.9);
  });

  it("the other old holes are not forgotten", () => {
    const verdict = against(old(9.5, 45, "1.2 mm (calliper)"), old(11.5, 45, "1.8 mm"));
    // 11.5 - 9.5 = 2.0 apart, less 0.9 and 0.9: 0.2 of wall, 1.3 short of the 1.5 wanted.
    expect(verdict.status).toBe("rework");
    expect(verdict.margin?.value).toBeCloseTo(-1.3, 9);
    expect(text(verdict.headline)).toBe("The new screws leave only 0.20 mm to the old holes: plug those first.");
  });

  it("opens the sum of the hole that decides", () => {
    const verdict = against(old(9.5, 225, "1.8 mm"), old(11.5, 45, "1.8 mm"));
    const sum = verdict.sums.find(({ title }) => title === "New screw against the nearest old hole");
    expect(sum?.rows.map(({ symbol, value }) => [symbol, value])).toEqual([
      ["a", 9.5],
      ["angle", 45],
      ["b", 11.5],
      ["angle", 45],
      ["Ø new", 1.8],
      ["Ø old", 1.8],
      ["least", 1.5],
    ]);
    expect(text(sum?.result)).toBe("0.20 mm");
  });
});
