import { describe, expect, it } from "vitest";
import { loadJob } from "../../../src/core/index.ts";
import { askOf, figureOf, fixture, placementOf, text, verdictsOf, withValue } from "./jobs.ts";

/**
 * Seven single units on a multi-scale neck, every figure by hand.
 * L_n = 648 + 7 (n - 1); at nut and bridge y_n = 7 (4 - n) and 10.5 (4 - n), so string n runs out by 3.5 (4 - n).
 * Along the centre line it is L'_n = √(L_n² - (3.5 (4 - n))²). Fret 7 stands square: x there is the same for all, and
 * string 4 (on the centre line) ends where the line was carried over to, u = 190. So string n ends at
 *   u_n = 190 + (L'_n - 669) 2^(-7/12).
 */
const job = fixture("seven-string-units");
const verdicts = verdictsOf(job);
const STRINGS = [1, 2, 3, 4, 5, 6, 7];
const SETBACKS = [1.6, 2.0, 2.4, 2.2, 2.6, 3.1, 3.9];
const runOutMm = (n: number): number => 3.5 * (4 - n);
const alongMm = (n: number): number => Math.sqrt((648 + 7 * (n - 1)) ** 2 - runOutMm(n) ** 2);
const endMm = (n: number): number => 190 + (alongMm(n) - 669) * 2 ** (-7 / 12);
const yawDegrees = (n: number): number => (Math.atan(runOutMm(n) / alongMm(n)) * 180) / Math.PI;
const targetMm = (n: number): number => endMm(n) + (SETBACKS[n - 1] ?? 0);

const { pieces, model } = placementOf(loadJob(job).instrument);

type Point = readonly [number, number];

/** Corners of a unit 30 long and 9.6 wide, in order round it. */
function cornersOf(n: number): Point[] {
  const pose = pieces[n - 1]?.pose ?? { placeMm: 0, sideMm: 0, yawDegrees: 0 };
  const yaw = (pose.yawDegrees * Math.PI) / 180;
  const corners: Point[] = [
    [0, -4.8],
    [30, -4.8],
    [30, 4.8],
    [0, 4.8],
  ];
  return corners.map(([p, q]) => [
    pose.placeMm + p * Math.cos(yaw) - q * Math.sin(yaw),
    pose.sideMm + q * Math.cos(yaw) + p * Math.sin(yaw),
  ]);
}

/** Between two outlines that do not cross: the least from a corner of one to an edge of the other. */
function airMm(a: readonly Point[], b: readonly Point[]): number {
  const toEdges = (corners: readonly Point[], outline: readonly Point[]): number[] =>
    corners.flatMap(([u, y]) =>
      outline.map(([u0, y0], index) => {
        const [u1, y1] = outline[(index + 1) % outline.length] as Point;
        const share = ((u - u0) * (u1 - u0) + (y - y0) * (y1 - y0)) / ((u1 - u0) ** 2 + (y1 - y0) ** 2);
        const at = Math.min(1, Math.max(0, share));
        return Math.hypot(u - u0 - at * (u1 - u0), y - y0 - at * (y1 - y0));
      }),
    );
  return Math.min(...toEdges(a, b), ...toEdges(b, a));
}

describe("a multi-scale seven-string with single units", () => {
  it.each(STRINGS)("ends string %i where its own scale ends", (n) => {
    const end = model.frame.ends[n - 1];
    expect(end?.value).toBeCloseTo(endMm(n), 6);
  });

  it.each(STRINGS)("turns unit %i along its string, by less than a degree", (n) => {
    const yaw = pieces[n - 1]?.pose?.yawDegrees ?? Number.NaN;
    expect(yaw).toBeCloseTo(yawDegrees(n), 6);
    expect(Math.abs(yaw)).toBeLessThan(1);
    expect(figureOf(verdicts.get("bridge.place"), `piece${n}YawDegrees`)).toBe(yaw);
  });

  it.each(STRINGS)("gives unit %i a window of its own: travel 8 to 16, reserve 0.5 at each end", (n) => {
    const cos = Math.cos((yawDegrees(n) * Math.PI) / 180);
    const window = verdicts.get("bridge.window");
    expect(figureOf(window, `unit${n}MinMm`)).toBeCloseTo(targetMm(n) - 15.5 * cos, 6);
    expect(figureOf(window, `unit${n}MaxMm`)).toBeCloseTo(targetMm(n) - 8.5 * cos, 6);
    expect(window?.status).toBe("go");
  });

  it.each(STRINGS)("stands unit %i in the middle of its window, on its string's line", (n) => {
    const pose = pieces[n - 1]?.pose;
    const cos = Math.cos((yawDegrees(n) * Math.PI) / 180);
    expect(Math.abs((pose?.placeMm ?? 0) - (targetMm(n) - 12 * cos))).toBeLessThanOrEqual(0.0501);
    // 10.5 (4 - n) at the contact, less what the string has still to run out from the front edge to there.
    const runMm = (targetMm(n) - (pose?.placeMm ?? 0)) * (runOutMm(n) / alongMm(n));
    expect(pose?.sideMm).toBeCloseTo(10.5 * (4 - n) - runMm, 6);
  });

  it("has every piece placed, and its holes beside one another", () => {
    expect(pieces.map((piece) => piece.piece.id)).toEqual(STRINGS.map((n) => `unit-${n}`));
    expect(pieces.every((piece) => piece.pose !== undefined && piece.holes.length === 2)).toBe(true);
    expect(verdicts.get("bridge.holes")?.status).toBe("go");
    // Seven times two screws, each once.
    const drilled = verdicts.get("bridge.holes")?.work.flatMap((work) => (work.act === "drill" ? work.holes : []));
    expect(new Set(drilled?.map((hole) => hole.id)).size).toBe(14);
  });

  it("tells the air between neighbours: near pitch 10.5 less width 9.6, by distances from corner to edge", () => {
    for (let n = 1; n < 7; n++) {
      const gap = figureOf(verdicts.get("bridge.place"), `gap${n}To${n + 1}Mm`);
      const air = airMm(cornersOf(n), cornersOf(n + 1));
      expect(gap).toBeCloseTo(air, 6);
      expect(Math.abs(gap - 0.9)).toBeLessThan(0.15);
    }
  });

  it("goes only if all units hold, which is less likely than that one does", () => {
    const coarse = withValue(withValue(job, "settings.drilling", "hand drill"), "parts.piling.saddles.0.to", 10.6);
    const all = askOf(coarse, "bridge.place");
    const one = askOf(withValue(coarse, "fit.setup.strings.1.setback", "1.60 mm (calliper)"), "bridge.place");
    expect(all.probability).toBe(one.probability);
    // Travel 8.0 to 10.6 less two reserves leaves 0.8 to each side of the middle. The line alone (0.15) and one unit by
    // hand (0.45) shift it by 0.474: one unit holds with P(|z| < 0.8/0.477) = 0.91; seven by nearly the seventh power.
    expect(all.probability).toBeLessThan(0.91 ** 5);
    expect(all.probability).toBeGreaterThan(0.91 ** 8);
    expect(all.status).not.toBe("go");
  });

  it("says so when units are too wide to stand beside one another", () => {
    const wide = askOf(withValue(job, "parts.piling.width", 10.6), "bridge.place");
    expect(wide.status).toBe("no-go");
    expect(figureOf(wide, "gap3To4Mm")).toBeLessThan(0);
    expect(text(wide.headline)).toMatch(/overlap/);
  });

  it("covers an old hole under any of its units", () => {
    const hole = (u: number, y: number) => ({
      old: { purpose: "screw", u, y, diameter: 2, depth: 12, tool: "calliper" },
    });
    // Under unit 6 (y -21), between its front edge and its first screw, and one beside all of them.
    const under = askOf(withValue(job, "instrument.body.holes", hole(197.5, -21)), "bridge.cover");
    expect(figureOf(under, "inSight")).toBe(0);
    const beside = askOf(withValue(job, "instrument.body.holes", hole(197.5, 45)), "bridge.cover");
    expect(figureOf(beside, "inSight")).toBe(1);
  });

  it("does not look right face down", () => {
    expect(figureOf(verdicts.get("sheet.side"), "symmetrical")).toBe(0);
  });
});

describe("what belongs to each unit", () => {
  it("reckons the winding to each string's own nut, from the ball in its own unit", () => {
    let strung = withValue(job, "parts.piling.topAnchor", { p: 29, z: 4 });
    strung = withValue(strung, "parts.seven.winding", 712);
    const winding = askOf(strung, "strings.winding");
    // String 7, along the centre line: nut to contact √(690² - 10.5²) + 3.9 = 693.82; the contact 11.96 behind the front
    // edge and 11.45 high, so the ball at 29 and 4 is 17.04 further back and 7.45 lower: 18.60.
    //   712 - 693.82 - 18.60 = -0.42
    // String 1: √(648² - 10.5²) + 1.6 = 649.51; 29 - 12.03 = 16.97 and 10.93 - 4 = 6.93: 18.33.
    //   712 - 649.51 - 18.33 = 44.16
    expect(Math.abs(figureOf(winding, "topLeastMm") + 0.42)).toBeLessThan(0.02);
    expect(Math.abs(figureOf(winding, "topMostMm") - 44.16)).toBeLessThan(0.02);
    expect(winding.status).toBe("no-go");
  });

  it("weighs the walls of every unit, not of the first alone", () => {
    // Behind unit 6's rear screw, which stands at q 0 of its unit: thread 2.5, old hole 3, wall 1.52 by the figures.
    const rear = pieces[5]?.holes[1];
    const old = {
      u: `${(rear?.uMm ?? 0) + 1.25 + 1.5 + 1.52} ±1 mm (rule)`,
      y: [`${rear?.yMm ?? 0} ±0 mm`],
      diameter: "3 ±0 mm",
      depth: 14,
      purpose: "screw",
    };
    const near = withValue(job, "instrument.body.holes", { old });
    const holes = askOf(near, "bridge.holes");
    expect(figureOf(holes, "plugs")).toBe(0);
    // 0.02 to spare of ±1: (1 + 0.02)/2 = 0.51, where the unit keeps its place.
    expect(figureOf(holes, "leastWallMm")).toBeCloseTo(1.52, 6);
    expect(Math.abs((holes.probability ?? Number.NaN) - 0.51)).toBeLessThan(0.02);
    expect(holes.status).toBe("measure");
  });

  it("says that one place given for all units cannot be kept", () => {
    const wished = withValue(job, "fit.bridge.u", 170);
    const words = "Not at the place given: single units stand each where its own string wants it.";
    expect(text(askOf(wished, "bridge.place").headline)).toContain(words);
    expect(text(askOf(wished, "bridge.holes").headline)).toContain(words);
    expect(text(askOf(job, "bridge.place").headline)).not.toContain(words);
  });
});
