/** A pickup that stands to one side of its strings. */
import { describe, expect, it } from "vitest";
import { askOf, example, figureOf, text, wholeText, withValue } from "./jobs.ts";

const lowtide = example("lowtide");
const ferry = example("ferry");

describe("[FT5b] a pickup to one side", () => {
  it("12 mm to one side was still over the poles: now it is a no, and the shift is said", () => {
    const verdict = askOf(
      withValue(lowtide, "instrument.body.cavities.bridge.y", "12 mm (calliper)"),
      "pickup.bridge.poles",
    );
    // Strings' middle 0.01 from the centre line, the pickup at y 12: shift -11.99. Spread 1.18 more: 13.17 off, radius 2.4.
    expect(verdict.status).toBe("no-go");
    expect(figureOf(verdict, "side")).toBeCloseTo(-11.99, 2);
    expect(figureOf(verdict, "farthest")).toBeCloseTo(13.17, 2);
    expect(verdict.margin?.value).toBeCloseTo(2.4 - 13.17, 2);
    // The bass side of this instrument is y < 0.
    expect(text(verdict.headline)).toContain("the strings stand 11.99 mm to the bass side of the pickup's middle");
    expect(verdict.remedies.map(({ id }) => id)).toEqual(["other-spread", "move"]);
    expect(verdict.sums.map(({ title }) => title)).toContain("Shift of the strings");
  });

  it("a small shift is added to the one string and taken from the other", () => {
    const verdict = askOf(
      withValue(lowtide, "instrument.body.cavities.bridge.y", "0.8 mm (calliper)"),
      "pickup.bridge.poles",
    );
    // 1.18 + 0.79 = 1.97 of 2.4: still over the pole, and it shows.
    expect(verdict.status).toBe("go");
    expect(figureOf(verdict, "farthest")).toBeCloseTo(1.18 + 0.79, 1);
    expect(text(verdict.headline)).toMatch(
      /by their spread 1\.18 mm outside the pole centres, and the strings stand 0\.79/,
    );
  });

  it("nobody measured where it stands across: only the spread is judged", () => {
    const verdict = askOf(lowtide, "pickup.bridge.poles");
    expect(Object.keys(verdict.figures)).not.toContain("farthest");
    expect(wholeText(verdict)).not.toContain("to the bass side");
  });

  it("a half under the wrong pair of strings no longer goes", () => {
    const verdict = askOf(
      withValue(ferry, "instrument.body.cavities.p1-low.y", "-13 mm (calliper)"),
      "pickup.set-1-low.poles",
    );
    // Strings 3 and 4 at x 640 of 869: 5 + 4.5 x 0.7365 = 8.31 and 15 + 13.5 x 0.7365 = 24.94, middle 16.63; the half
    // stands at -13: 29.63 off.
    expect(verdict.status).toBe("no-go");
    expect(figureOf(verdict, "sideMm")).toBeCloseTo(29.63, 1);
    expect(text(verdict.headline)).toContain("The strings pass outside their pole pairs");
  });

  it("a half some way to one side says what that leaves", () => {
    const verdict = askOf(
      withValue(ferry, "instrument.body.cavities.p1-low.y", "13 mm (calliper)"),
      "pickup.set-1-low.poles",
    );
    // Middle 16.63 against y 13: 3.63, and 0.19 by the pitch: 3.82 of the 5 to a pole, 1.18 to spare.
    expect(verdict.status).toBe("go");
    expect(figureOf(verdict, "farthest")).toBeCloseTo(3.63 + 0.19, 1);
    expect(verdict.margin?.value).toBeCloseTo(5 - 3.82, 1);
    expect(figureOf(verdict, "offset")).toBeCloseTo(0.187, 3);
  });
});
