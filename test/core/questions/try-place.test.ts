import { describe, expect, it } from "vitest";
import { loadJob, tryPlace } from "../../../src/core/index.ts";
import { showPhrase } from "../../../src/core/quantity/index.ts";
import { bindingWords, nameOfHole, type PlaceTrial, wallWords } from "../../../src/core/questions/index.ts";
import { askOf, example, figureOf, fixture, type JobData } from "./jobs.ts";

function tried(data: JobData, placeMm: number, sideMm?: number): PlaceTrial {
  const trial = tryPlace(loadJob(data), { placeMm, ...(sideMm === undefined ? {} : { sideMm }) });
  if (!trial) throw new Error("no plate to move");
  return trial;
}

describe("tryPlace agrees with bridge.place at the place found there", () => {
  const jobs = [
    ["lowtide", example("lowtide")],
    ["ferry", example("ferry")],
    ["bass-channel", fixture("bass-channel")],
  ] as const;
  it.each(jobs)("%s", (_, data) => {
    const verdict = askOf(data, "bridge.place");
    const trial = tried(data, figureOf(verdict, "placeMm"));
    expect(trial.probability).toBe(verdict.probability);
    expect(trial.leastMm).toBeCloseTo(verdict.margin?.value ?? Number.NaN, 9);
    expect(trial.xMm).toBeCloseTo(figureOf(verdict, "xMm"), 9);
    expect(trial.plugs.length).toBe(figureOf(verdict, "plugs"));
    expect(trial.thinnest?.wallMm).toBeCloseTo(figureOf(verdict, "leastWallMm"), 9);
    expect(trial).toMatchObject({ insideWindow: true, beyondMm: 0, refused: undefined });
  });
});

describe("tryPlace says what binds and where", () => {
  it("a saddle of Lowtide, with the travel that the place's verdict leaves it", () => {
    const data = example("lowtide");
    const verdict = askOf(data, "bridge.place");
    const { binds } = tried(data, figureOf(verdict, "placeMm"));
    if (binds?.kind !== "saddle") throw new Error("a saddle was expected");
    const side = binds.stop === "front" ? "Front" : "Rear";
    expect(binds.spareMm).toBeCloseTo(figureOf(verdict, `spare${side}${binds.string}Mm`), 9);
    // String 4 stands half a pitch of 10.5 to the bass side of the centre line.
    expect(binds).toMatchObject({ string: 4, at: { yMm: expect.closeTo(-5.25, 9) } });
    expect(showPhrase(bindingWords(binds))).toBe("string 4: 1.09 mm to its saddle's front stop, 0.50 mm wanted");
  });

  it("a wall of Ferry: new hole of 3.5 and old hole of 3.4 on the centre line", () => {
    // Front edge 848.5 from the nut, holes 47 behind it at 895.5, old row at 901: 5.5 - 1.75 - 1.7.
    const { binds, thinnest } = tried(example("ferry"), 248.5);
    expect(binds).toMatchObject({
      kind: "wall",
      wallMm: expect.closeTo(2.05, 9),
      from: { uMm: expect.closeTo(297.25, 9), yMm: 0 },
      to: { uMm: expect.closeTo(299.3, 9), yMm: 0 },
    });
    expect(thinnest && showPhrase(wallWords(thinnest))).toBe("2.05 mm of wood, new screw hole 2 and old screws 3");
  });

  it("a channel under the new screws", () => {
    const { refused } = tried(fixture("bass-channel"), 251.2);
    expect(refused && showPhrase(refused)).toContain("the wire channel ground");
  });

  it("a plate turned sideways: the holes go with it, the saddles' ends stay", () => {
    const straight = tried(example("ferry"), 248.5);
    const aside = tried(example("ferry"), 248.5, 0.4);
    expect(aside.sideMm).toBe(0.4);
    expect(aside.thinnest?.wallMm).toBeCloseTo(Math.hypot(5.5, 0.4) - 1.75 - 1.7, 9);
    expect(straight.sideMm).toBe(0);
  });
});

describe("tryPlace outside the window", () => {
  it.each(["lowtide", "ferry"] as const)("%s: says by how much, and no chance is left far out", (name) => {
    const data = example(name);
    const verdict = askOf(data, "bridge.place");
    const max = figureOf(verdict, "windowMaxMm");
    expect(tried(data, max)).toMatchObject({ insideWindow: true, beyondMm: 0 });
    const out = tried(data, max + 2);
    expect(out).toMatchObject({ insideWindow: false, beyondMm: expect.closeTo(2, 9) });
    // Every saddle's stop is met with 2 mm less than the reserve.
    expect(out.leastMm).toBeLessThanOrEqual(-2 + 1e-9);
    expect(out.probability).toBeLessThan(0.01);
    expect(tried(data, figureOf(verdict, "windowMinMm") - 3).beyondMm).toBeCloseTo(3, 9);
  });

  it("says that a saddle would have to stand beyond its stop", () => {
    const { binds } = tried(example("lowtide"), figureOf(askOf(example("lowtide"), "bridge.place"), "windowMaxMm") + 2);
    expect(binds && showPhrase(bindingWords(binds))).toMatch(/beyond its front stop$/);
  });
});

describe("where no whole plate can be moved", () => {
  it("single units stand each on its own string", () => {
    expect(tryPlace(loadJob(fixture("seven-string-units")), { placeMm: 180 })).toBeUndefined();
  });

  it("too little is known", () => {
    expect(tryPlace(loadJob(fixture("nearly-nothing")), { placeMm: 180 })).toBeUndefined();
  });

  it("a bar on posts takes its tailpiece along", () => {
    const data = fixture("six-string-two-posts");
    const trial = tried(data, figureOf(askOf(data, "bridge.place"), "placeMm"));
    expect(trial.probability).toBeCloseTo(askOf(data, "bridge.place").probability ?? Number.NaN, 9);
  });
});

it.each([
  ["bridge-screws#2", "new screw hole 2"],
  ["bridge-strings#6", "new string hole 6"],
  ["tailpiece-posts#1", "post 1 of tailpiece"],
  ["unit-3-screws#1", "new screw hole 1 of unit 3"],
  ["old-screws#3", "old screws 3"],
  ["the neck cavity", "the neck cavity"],
])("%s is called %s", (id, name) => {
  expect(nameOfHole(id)).toBe(name);
});
