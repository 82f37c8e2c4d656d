import { describe, expect, it } from "vitest";
import { loadJob } from "../../../src/core/index.ts";
import { standardUncertainty } from "../../../src/core/quantity/index.ts";
import type { SaddleCase } from "../../../src/core/questions/bridge-model.ts";
import { contactAt } from "../../../src/core/questions/placement.ts";
import { askOf, figureOf, fixture, placementOf, text, verdictsOf, wholeText, withValue } from "./jobs.ts";

/**
 * A bar on two posts, by hand. Setbacks 1.5 to 4.5 in steps of 0.6, saddles 10.4 apart (q 26 to -26), travel 3.5 to 6.5
 * less 0.5 at each end: 2.0 to be used, 3.0 asked for. Square, the window is empty by 1.0. Turned by f with
 * 52 sin f = 3.0, all saddles stand in the middle of their travel, and the window is 2.0 cos f wide.
 */
const job = fixture("six-string-two-posts");
const verdicts = verdictsOf(job);
const SQUARE_SPREAD = 3.0;
const BEST_YAW = (Math.asin(SQUARE_SPREAD / 52) * 180) / Math.PI;
const OLD_STUDS = { purpose: "post", u: 163.0, y: [-37, 37], diameter: 11.0, depth: 20, tool: "calliper" };

describe("a bar on two posts", () => {
  const placed = placementOf(loadJob(job).instrument);
  const [bar, tail] = placed.pieces;

  it("takes each setback as a difference of two readings of one placing", () => {
    const setbacks = bar?.saddles.map((saddle) => saddle.setback) ?? [];
    expect(setbacks.map((setback) => setback.value)).toEqual(
      [1.5, 2.1, 2.7, 3.3, 3.9, 4.5].map((s) => expect.closeTo(s)),
    );
    // Half of the variance of 0.25² is the placing's and cancels: √(0.25²/2 · 2) = 0.25, not 0.35.
    for (const setback of setbacks) expect(standardUncertainty(setback)).toBeCloseTo(0.25, 9);
  });

  it("has a window only with the posts askew, the y > 0 post nearer the neck", () => {
    const window = verdicts.get("bridge.window");
    expect(window?.status).toBe("go");
    const yaw = figureOf(window, "yawDegrees");
    // Looked for in tenths of a degree.
    expect(Math.abs(yaw - BEST_YAW)).toBeLessThan(0.05);
    const sin = Math.sin((yaw * Math.PI) / 180);
    const cos = Math.cos((yaw * Math.PI) / 180);
    // What the tenth of a degree leaves of the spread is taken from the width.
    expect(figureOf(window, "widthMm")).toBeCloseTo(2 * cos - Math.abs(SQUARE_SPREAD - 52 * sin), 6);
    expect(wholeText(window)).toMatch(/posts askew by 3\.3°, the y > 0 one nearer the neck/);
    expect(window?.probability).toBeGreaterThan(0.99);
  });

  it("stands where every saddle reaches, near the middle of its travel", () => {
    const pose = bar?.pose ?? { placeMm: 0, sideMm: 0, yawDegrees: 0 };
    expect(Math.abs(pose.yawDegrees - BEST_YAW)).toBeLessThan(0.1);
    for (let n = 1; n <= 6; n++) {
      const front = figureOf(verdicts.get("bridge.place"), `spareFront${n}Mm`);
      const rear = figureOf(verdicts.get("bridge.place"), `spareRear${n}Mm`);
      expect(front + rear).toBeCloseTo(3, 9);
      expect(Math.min(front, rear)).toBeGreaterThan(1.4);
    }
    expect(verdicts.get("bridge.place")?.status).toBe("go");
  });

  it("tells where each post is drilled, and the tailpiece 45 behind, square", () => {
    const pose = bar?.pose ?? { placeMm: 0, sideMm: 0, yawDegrees: 0 };
    const sin = Math.sin((pose.yawDegrees * Math.PI) / 180);
    const cos = Math.cos((pose.yawDegrees * Math.PI) / 180);
    const [left, right] = bar?.holes ?? [];
    expect(left?.uMm).toBeCloseTo(pose.placeMm + 5 * cos + 37 * sin, 9);
    expect(right?.uMm).toBeCloseTo(pose.placeMm + 5 * cos - 37 * sin, 9);
    // Turned about the saddles' middle, 5 behind the front edge as the posts are: neither side gains on the other.
    expect(pose.sideMm).toBeCloseTo(-5 * sin, 9);
    expect(right?.yMm).toBeCloseTo(37 * cos, 9);
    expect(left?.yMm).toBeCloseTo(-37 * cos, 9);
    expect(tail?.pose).toEqual({ placeMm: pose.placeMm + 45, sideMm: 0, yawDegrees: 0 });
    expect(tail?.holes.map((hole) => [hole.uMm, hole.yMm])).toEqual([
      [pose.placeMm + 55, -41],
      [pose.placeMm + 55, 41],
    ]);
  });

  it("leaves 48 - 25 under the deepest hole, the tailpiece's", () => {
    expect(figureOf(verdicts.get("bridge.depth"), "depthMm")).toBe(25);
    expect(figureOf(verdicts.get("bridge.depth"), "woodLeftMm")).toBeCloseTo(23, 9);
    expect(verdicts.get("bridge.depth")?.status).toBe("go");
    const deep = askOf(withValue(job, "parts.bollard.screws.0.depth", 45), "bridge.depth");
    expect(deep.status).toBe("no-go");
    expect(figureOf(deep, "woodLeftMm")).toBeCloseTo(3, 9);
  });

  it("keeps the owner's place at the yaw its saddles want", () => {
    const wish = verdictsOf(withValue(job, "fit.bridge.u", 157.6));
    const place = wish.get("bridge.place");
    expect(figureOf(place, "placeMm")).toBe(157.6);
    expect(Math.abs(figureOf(place, "yawDegrees") - BEST_YAW)).toBeLessThan(0.1);
    const spares = [1, 2, 3, 4, 5, 6].flatMap((n) => [
      figureOf(place, `spareFront${n}Mm`),
      figureOf(place, `spareRear${n}Mm`),
    ]);
    expect(figureOf(place, "saddleSpareMm")).toBeCloseTo(Math.min(...spares), 9);
  });

  it("asks for what is unknown of the tailpiece", () => {
    const place = askOf(withValue(job, "parts.bollard.tailpiece.distance", undefined), "bridge.place");
    expect(place.status).toBe("measure");
    expect(place.missing.map((reading) => reading.path)).toEqual(["parts.bollard.tailpiece.distance"]);
    const hole = askOf(withValue(job, "parts.bollard.tailpiece.screws.0.depth", undefined), "bridge.holes");
    expect(hole.status).toBe("measure");
  });
});

describe("a wide bar turned by six degrees", () => {
  // Saddles in the middle of the bar, 25 behind its front edge: 23.5 to 26.5, posts at p 25. Setbacks 1.0 to 6.5.
  const setbacks = [1.0, 2.1, 3.2, 4.3, 5.4, 6.5];
  let wide = withValue(fixture("six-string-two-posts"), "parts.bollard.length", 30.0);
  wide = withValue(wide, "parts.bollard.saddles.0.from", 23.5);
  wide = withValue(wide, "parts.bollard.saddles.0.to", 26.5);
  wide = withValue(wide, "parts.bollard.screws.0.p", 25.0);
  wide = withValue(wide, "instrument.neck.boardWidthAtLastFret", "56.5 mm (calliper)");
  setbacks.forEach((setback, index) => {
    wide = withValue(wide, `readings.s${index + 1}-c.value`, `${314 + setback} mm (rule)`);
  });
  const placed = placementOf(loadJob(wide).instrument);
  const pose = placed.pieces[0]?.pose ?? { placeMm: 0, sideMm: 0, yawDegrees: 0 };
  const sin = Math.sin((pose.yawDegrees * Math.PI) / 180);
  const cos = Math.cos((pose.yawDegrees * Math.PI) / 180);

  it("has its posts alike to both sides of the centre line: 36.8 each, not 34.2 and 39.4", () => {
    // 52 sin f = 5.5, so f = 6.07 degrees, and 37 cos f = 36.79.
    expect(placed.pieces[0]?.holes.map((hole) => hole.yMm)).toEqual([
      expect.closeTo(-37 * cos, 9),
      expect.closeTo(37 * cos, 9),
    ]);
    expect(37 * cos).toBeCloseTo(36.79, 1);
    expect(pose.sideMm).toBeCloseTo(-25 * sin, 9);
    // 25 sin f = 2.6, and the place is told of the front edge's middle.
    expect(text(askOf(wide, "bridge.place").headline)).toContain("its middle 2.6 mm to the left of the centre line");
  });

  it("leaves the outer strings alike to both edges of the board", () => {
    const sums = askOf(wide, "bridge.side").sums.map((sum) => text(sum.result));
    // Contact at 26 cos f either way, up to half a millimetre of travel times sin f; last fret 22 at k of the way.
    //   k = (1 - 2^(-22/12)) 628 / (628 + s): 0.71823 for s = 1, 0.71197 for s = 6.5
    //   y = 18 (1 - k) + 25.85 k = 23.64 and 23.59;  margin = 28.25 - 2.5 - y = 2.11 and 2.16
    const margins = sums.map((sum) => Number(/margin ([\d.]+)/.exec(sum)?.[1]));
    expect(Math.abs(Math.min(...margins) - 2.11)).toBeLessThan(0.06);
    expect(Math.abs(Math.max(...margins) - 2.16)).toBeLessThan(0.06);
  });

  it("reckons the turn into side and height where a bar is off the line", () => {
    const instrument = loadJob(wide).instrument;
    const bar = placementOf(instrument).pieces[0];
    // By hand, string 1 at q 26: y = side + 26 cos f + p sin f, with p where the string wants its contact.
    const first = bar?.saddles[0];
    const p = ((first?.end.value ?? 0) + (first?.setback.value ?? 0) - pose.placeMm + 26 * sin) / cos;
    expect(contactAt(first as SaddleCase, pose).yMm).toBeCloseTo(pose.sideMm + 26 * cos + p * sin, 9);
    expect(contactAt(first as SaddleCase, { ...pose, sideMm: 0 }).yMm).toBeCloseTo(28.49, 1);
  });
});

describe("old stud holes in the way", () => {
  // The old pair stood square at u 163; the new posts want u 165.1 and 160.8, the same width apart.
  const blocked = verdictsOf(withValue(job, "instrument.body.holes", { "old-studs": OLD_STUDS }));

  it("is no place for posts: a plug does not cure, as only a screw may stand in one", () => {
    const place = blocked.get("bridge.place");
    expect(place?.status).toBe("no-go");
    expect(place?.probability).toBe(0);
    expect(text(place?.headline)).toMatch(/comes too near something that cannot be moved/);
    expect(text(place?.headline)).not.toMatch(/window is empty/);
  });

  it("names what is in the way, and offers no plug", () => {
    const holes = blocked.get("bridge.holes");
    expect(holes?.status).toBe("no-go");
    expect(text(holes?.headline)).toMatch(/too near old-studs#1 and old-studs#2/);
    expect(wholeText(holes)).toMatch(/a plug would not cure/);
    expect(holes?.work).toEqual([]);
    // Apart by 2.2 and 11 across: they overlap by nearly the whole diameter.
    expect(figureOf(holes, "leastWallMm")).toBeLessThan(-8);
  });

  it("still answers the questions that do not need the place", () => {
    expect(blocked.get("bridge.window")?.status).toBe("go");
    expect(blocked.get("bridge.depth")?.status).toBe("go");
  });

  it("does not mind them where the wall is wide enough: 15 ahead", () => {
    const away = verdictsOf(withValue(job, "instrument.body.holes", { "old-studs": { ...OLD_STUDS, u: 147 } }));
    expect(away.get("bridge.place")?.status).toBe("go");
    expect(away.get("bridge.holes")?.status).toBe("go");
  });
});
