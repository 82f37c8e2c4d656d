import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  engagementMm,
  findThread,
  holdInHole,
  lateralLead,
  leadHole,
  nearestBitMm,
  pullOut,
  rootMm,
  threadGeometry,
  threadsTogether,
  whichThreads,
  woodScrew,
} from "../../../src/core/fit/index.ts";

const SEED = 20240503;

/** Evenly spread; doubles drawn by their bits would nearly all lie next to 0. */
function between(min: number, max: number): fc.Arbitrary<number> {
  return fc.integer({ min: 0, max: 1_000_000 }).map((step) => min + ((max - min) * step) / 1_000_000);
}

describe("[FT23] three roots", () => {
  it("are stated apart: for a #6 they differ by a fifth", () => {
    const { shankMm } = woodScrew(6);
    const roots = (["two thirds", "chart", "nds"] as const).map((rule) => rootMm({ shankMm, rule }));
    // 2/3 of 0.138 in, 0.106 in, 0.113 in.
    [2.337, 2.692, 2.87].forEach((expected, index) => {
      expect(Math.abs((roots[index] ?? Number.NaN) - expected)).toBeLessThan(0.001);
    });
  });
  it("takes a ratio in between for a shank in between, and the nearest beyond the table", () => {
    // Halfway from #4 (0.084/0.112 = 0.75) to #5 (0.095/0.125 = 0.76): 0.755 of 0.1185 in.
    expect(rootMm({ shankMm: 0.1185 * 25.4, rule: "chart" })).toBeCloseTo(0.755 * 0.1185 * 25.4, 9);
    expect(rootMm({ shankMm: 6, rule: "chart" })).toBeCloseTo((6 * 0.131) / 0.164, 9);
    expect(rootMm({ shankMm: 1, rule: "chart" })).toBeCloseTo(0.062 / 0.086, 9);
  });
  it("refuses a number that is not in the table", () => {
    expect(() => woodScrew(9)).toThrow(/^gauge: no wood screw #9 in the table\. Take one of 2, 3, 4/);
  });
});

describe("[FT24] [FT25] lead holes", () => {
  it("always asks for one in body wood, also where the rule asks for none", () => {
    const alder = leadHole({ rootMm: 2, gravity: 0.41 });
    expect(alder.required).toBe(false);
    expect(alder.ruleFraction).toBeUndefined();
    expect(alder.leadMm).toBeCloseTo(1.4, 12);
  });
  it("never above the root", () => {
    const gravity = between(0.2, 1.2);
    const root = between(0.5, 6);
    fc.assert(
      fc.property(gravity, root, (g, r) => {
        const hole = leadHole({ rootMm: r, gravity: g });
        expect(hole.leadMm).toBeLessThanOrEqual(hole.notAboveMm);
        expect(hole.notAboveMm).toBe(r);
      }),
      { seed: SEED },
    );
  });
});

describe("[FT24] sideways load", () => {
  it("dense wood: shank and root; lighter: 7/8 of each", () => {
    expect(lateralLead({ shankMm: 4, rootMm: 2.8, gravity: 0.6 })).toEqual({
      shankHoleMm: 4,
      threadHoleMm: 2.8,
      fraction: 1,
    });
    const light = lateralLead({ shankMm: 4, rootMm: 2.8, gravity: 0.59 });
    expect([light.shankHoleMm, light.threadHoleMm]).toEqual([3.5, expect.closeTo(2.45, 9)]);
  });
});

describe("[FT26] nearest own bit", () => {
  const bitsMm = [2.5, 1.5, 2, 3];
  it("is nearest, but never above the root", () => {
    expect(nearestBitMm({ wantedMm: 1.9, notAboveMm: 2.1, bitsMm })).toBe(2);
    // 2.5 would be nearer to 2.3, but it is above the root of 2.4.
    expect(nearestBitMm({ wantedMm: 2.3, notAboveMm: 2.4, bitsMm })).toBe(2);
    expect(nearestBitMm({ wantedMm: 2.6, notAboveMm: 3, bitsMm: [1, 2.5] })).toBe(2.5);
    expect(nearestBitMm({ wantedMm: 1.1, notAboveMm: 3, bitsMm: [1, 2.5] })).toBe(1);
    expect(nearestBitMm({ wantedMm: 1.75, notAboveMm: 2.1, bitsMm })).toBe(1.5);
    expect(nearestBitMm({ wantedMm: 1, notAboveMm: 1.2, bitsMm })).toBeUndefined();
  });
  it("a 1.0 bit is no bit for a 4.5 screw: it must lie within 15 % under the lead hole", () => {
    // 0.85 x 2.97 = 2.52: 1.0 is far under it, 5 above the core.
    expect(nearestBitMm({ wantedMm: 2.97, notAboveMm: 3, bitsMm: [1, 5] })).toBeUndefined();
    expect(nearestBitMm({ wantedMm: 2.97, notAboveMm: 3, bitsMm: [2.5, 5] })).toBeUndefined();
    expect(nearestBitMm({ wantedMm: 2.97, notAboveMm: 3, bitsMm: [2.6, 5] })).toBe(2.6);
  });
});

describe("[FT27] pull-out", () => {
  it("grows with the square of the density and with diameter and depth", () => {
    const one = pullOut({ gravity: 0.3, shankMm: 2, heldMm: 10 }).ultimateN;
    expect(pullOut({ gravity: 0.6, shankMm: 2, heldMm: 10 }).ultimateN / one).toBeCloseTo(4, 9);
    expect(pullOut({ gravity: 0.3, shankMm: 4, heldMm: 10 }).ultimateN / one).toBeCloseTo(2, 9);
    expect(pullOut({ gravity: 0.3, shankMm: 2, heldMm: 5 }).ultimateN / one).toBeCloseTo(0.5, 9);
  });
});

describe("[FT30] engagement (common practice)", () => {
  it.each([
    ["steel", 3],
    ["brass", 4.5],
    ["aluminium", 6],
    ["zinc", 6],
    ["wood", 18],
  ] as const)("M3 into %s: %s", (into, length) => {
    expect(engagementMm({ diameterMm: 3, into })).toBe(length);
  });
});

describe("[FT33] posts and their bushings", () => {
  it("tells metric from inch posts", () => {
    const metric = findThread("M8");
    const inch = findThread("5/16-24 UNF");
    if (!metric || !inch) throw new Error("not in the table");
    const mixed = threadsTogether({ post: inch, bushing: metric });
    expect(mixed.goes).toBe(false);
    // Diameters 0.0625 apart would pass; pitches 1.25 and 1.0583 do not: 1.917 over ten turns.
    expect(mixed.diameterDifferenceMm).toBeCloseTo(0.0625, 9);
    expect(mixed.slipOverTenTurnsMm).toBeCloseTo(12.5 - 254 / 24, 9);
    expect(threadsTogether({ post: metric, bushing: metric })).toMatchObject({ goes: true, diameterDifferenceMm: 0 });
  });
  it("asks for diameters within 0.1 and pitches within 1 %", () => {
    const bushing = { majorMm: 8, pitchMm: 1.25 };
    const margin = (majorMm: number, pitchMm: number) =>
      threadsTogether({ post: { majorMm, pitchMm }, bushing }).marginMm;
    expect(margin(8.09, 1.25)).toBeCloseTo(0.01, 9);
    expect(margin(7.89, 1.25)).toBeCloseTo(-0.01, 9);
    // 1 % of 1.25 is 0.0125.
    expect(margin(8, 1.262)).toBeCloseTo(0.0005, 9);
    expect(margin(8, 1.237)).toBeCloseTo(-0.0005, 9);
  });
  it("gives the usual tap drill", () => {
    // Trade rule: major less pitch: 2.5 for M3, 3.3 for M4.
    expect(threadGeometry({ majorMm: 3, pitchMm: 0.5 }).tapDrillMm).toBeCloseTo(2.5, 9);
    expect(threadGeometry({ majorMm: 4, pitchMm: 0.7 }).tapDrillMm).toBeCloseTo(3.3, 9);
  });
  it("puts the nearest thread first and takes worn crests, not fat ones", () => {
    expect(whichThreads({ majorMm: 9.45, pitchMm: 0.79375 }).map((thread) => thread.name)).toEqual(["3/8-32 UNEF"]);
    // #10-32 and #8-32 share their pitch: 4.6 is #10-32 worn by 0.226, and 0.43 too fat for #8-32.
    expect(whichThreads({ majorMm: 4.6, pitchMm: 0.794 }).map((thread) => thread.name)).toEqual(["#10-32"]);
    expect(whichThreads({ majorMm: 7.71, pitchMm: 1.25 }).map((thread) => thread.name)).toEqual(["M8"]);
    expect(whichThreads({ majorMm: 7.68, pitchMm: 1.25 })).toEqual([]);
    expect(whichThreads({ majorMm: 8.045, pitchMm: 1.25 }).map((thread) => thread.name)).toEqual(["M8"]);
    expect(whichThreads({ majorMm: 8.055, pitchMm: 1.25 })).toEqual([]);
    expect(whichThreads({ majorMm: 8, pitchMm: 1.273 }).map((thread) => thread.name)).toEqual(["M8"]);
    expect(whichThreads({ majorMm: 8, pitchMm: 1.278 })).toEqual([]);
  });
  it("names a measured thread", () => {
    expect(whichThreads({ majorMm: 7.9, pitchMm: 1.25 }).map((thread) => thread.name)).toEqual(["M8"]);
    expect(whichThreads({ majorMm: 7.85, pitchMm: 1.06 }).map((thread) => thread.name)).toEqual(["5/16-24 UNF"]);
    expect(whichThreads({ majorMm: 5.5, pitchMm: 2 })).toEqual([]);
  });
});

describe("[FT34] a screw in an old hole", () => {
  it("holds with half its thread in wood", () => {
    // Thread 4.0, core 3.0: widest 3.5.
    expect(holdInHole({ holeMm: 3.5, threadMm: 4, rootMm: 3 })).toEqual({ marginMm: 0, hold: 0.5, widestMm: 3.5 });
    expect(holdInHole({ holeMm: 4.2, threadMm: 4, rootMm: 3 })).toMatchObject({ hold: 0 });
    expect(holdInHole({ holeMm: 0, threadMm: 4, rootMm: 3 })).toMatchObject({ hold: 1 });
    expect(holdInHole({ holeMm: 3.5, threadMm: 4, rootMm: 2 })).toMatchObject({ hold: 0.25, marginMm: -0.5 });
  });
  it("refuses a core as thick as the thread", () => {
    expect(() => holdInHole({ holeMm: 1, threadMm: 3, rootMm: 3 })).toThrow(/^rootMm/);
  });
});
