/** What is read on the neck against what is printed of it, each case by hand. */
import { describe, expect, it } from "vitest";
import { askOf, figureOf, fixture, type JobData, text, verdictsOf, wholeText, withReading, withValue } from "./jobs.ts";

/** The slanted job without the line carried over: nut to fret 12 by calliper, heel 144 behind fret 12 and pushed home. */
function readAtFret12(scaleLength: string): JobData {
  const job = { ...fixture("slanted-pickup") };
  job.readings = (job.readings as { id: string }[]).filter(({ id }) => id !== "line-carried");
  return [
    ["scaleLength", scaleLength],
    ["nutToFret12", "326.0 mm (calliper)"],
    ["fret12ToHeelEnd", "144.0 mm (calliper)"],
    ["heelGap", "0 ±0 mm"],
  ].reduce((data, [key, value]) => withValue(data, `instrument.neck.${key}`, value), job as JobData);
}

/** The same neck left on: no heel readings, nothing placed from the end wall, every place from the nut. */
function fromTheNut(scaleLength: string): JobData {
  return [
    ["instrument.neck.fret12ToHeelEnd", undefined],
    ["instrument.neck.heelGap", undefined],
    ["instrument.neck.straightedge", undefined],
    ["instrument.body.cavities", undefined],
    ["fit.pickups", undefined],
    ["instrument.body.endWallX", 0],
  ].reduce((data, [path, value]) => withValue(data, path as string, value), readAtFret12(scaleLength));
}

const twice = (data: JobData): JobData =>
  withReading(withReading(data, { id: "n12-a", of: "neck.nutToFret12", value: "326.0 mm (calliper)" }), {
    id: "n12-b",
    of: "neck.nutToFret12",
    value: "326.1 mm (calliper)",
  });

describe("a printed scale length of 648 on a neck that reads 326 from nut to fret 12", () => {
  it("does not put the bridge 636 from the nut: the end wall is at 326 + 144 = 470, and 470 + 170 = 640", () => {
    // S = 326 - 144 - 0 = 182 behind the end wall; the window's middle is 182 + 2 - 14 = 170.
    const place = askOf(readAtFret12("648.0 mm (data sheet)"), "bridge.place");
    expect(figureOf(place, "placeMm")).toBeCloseTo(170, 6);
    expect(figureOf(place, "xMm")).toBeCloseTo(640, 6);
    expect(wholeText(place)).toMatch(/Mark it 314\.0 mm from the middle of fret 12/);
  });

  it("is 4.0 from twice the reading, more than both doubts: measure, and nothing goes", () => {
    // 2 × 326 = 652 against 648: 4.0 apart, 2 √(0.5² + 0.1²) = 1.02 allowed.
    const verdicts = verdictsOf(readAtFret12("648.0 mm (data sheet)"));
    const line = verdicts.get("scale.line");
    expect(line?.status).toBe("measure");
    expect(text(line?.headline)).toMatch(/648\.0 mm .*652\.0 mm .*Measure again/);
    expect(line?.next?.path).toBe("neck.nutToFret12");
    expect(verdicts.get("bridge.place")?.status).toBe("measure");
    expect(verdicts.get("bridge.place")?.next?.path).toBe("neck.nutToFret12");
  });

  it("[BR8] is outvoted by a second reading of 326, and stays below what is said", () => {
    const line = askOf(twice(readAtFret12("648.0 mm (data sheet)")), "scale.line");
    expect(line.status).toBe("go");
    expect(askOf(twice(readAtFret12("648.0 mm (data sheet)")), "bridge.place").status).toBe("go");
  });

  it("says nothing where both agree within their doubts", () => {
    // 651.5 against 652: 0.5 apart.
    expect(askOf(readAtFret12("651.5 mm (data sheet)"), "scale.line").status).toBe("go");
  });

  it("puts the line at 652 from the nut where only fret 12 is known, 2 × 326", () => {
    const line = askOf(fromTheNut("648.0 mm (data sheet)"), "scale.line");
    expect(figureOf(line, "scaleLineMm")).toBeCloseTo(652, 9);
    expect(line.status).toBe("measure");
    const place = askOf(fromTheNut("648.0 mm (data sheet)"), "bridge.place");
    // 652 + 2 - 14 = 640 from the nut, 640 - 326 = 314 from fret 12.
    expect(text(place.headline)).toMatch(/314\.0 mm from the middle of fret 12 \(640\.0 mm from the nut\)/);
    expect(place.status).toBe("measure");
  });

  it("keeps a scale length that was itself measured, and sees that it disagrees", () => {
    const line = askOf(fromTheNut("648.0 mm (rule)"), "scale.line");
    expect(figureOf(line, "scaleLineMm")).toBeCloseTo(648, 9);
    expect(line.status).toBe("measure");
  });
});
