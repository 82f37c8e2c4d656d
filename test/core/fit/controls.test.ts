import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  AUDIO_AT_HALF,
  bushingFit,
  controlDepth,
  freeDepthMm,
  gapToFoil,
  holeForThread,
  knobFit,
  levelAfterTurn,
  openingTool,
  screwPairFit,
  slotFit,
  spotFace,
  taperRatio,
} from "../../../src/core/fit/index.ts";

const SEED = 20240502;

/** Evenly spread; doubles drawn by their bits would nearly all lie next to 0. */
function between(min: number, max: number): fc.Arbitrary<number> {
  return fc.integer({ min: 0, max: 1_000_000 }).map((step) => min + ((max - min) * step) / 1_000_000);
}
// Foil 0.1, lock washer 0.9, washer 0.8, nut 2.4: 4.2 in all (demos).
const STACK = { foilMm: 0.1, lockWasherMm: 0.9, washerMm: 0.8, nutMm: 2.4 };

describe("[FT8] bushing through the wood", () => {
  // Demos "Lowtide" (thread 9.5, long version 19.0) and "Ferry" (thread 7.5).
  it.each([
    { woodMm: 7, threadMm: 9.5, need: 11.2, short: 1.7, face: 2, leaves: 5, proudLong: 7.8 },
    { woodMm: 6, threadMm: 9.5, need: 10.2, short: 0.7, face: 1, leaves: 5, proudLong: 8.8 },
    { woodMm: 6.5, threadMm: 9.5, need: 10.7, short: 1.2, face: 1.5, leaves: 5, proudLong: 8.3 },
    { woodMm: 6, threadMm: 7.5, need: 10.2, short: 2.7, face: 3, leaves: 3, proudLong: 8.8 },
  ])("wood $woodMm, thread $threadMm", ({ woodMm, threadMm, need, short, face, leaves, proudLong }) => {
    const fit = bushingFit({ woodMm, threadMm, ...STACK });
    expect(fit.needMm).toBeCloseTo(need, 9);
    expect(fit.shortMm).toBeCloseTo(short, 9);
    expect(fit.marginMm).toBeCloseTo(-short, 9);
    const thin = spotFace({ byMm: fit.shortMm, woodMm, leastWoodMm: 3 });
    expect(thin).toMatchObject({ depthMm: face, leavesMm: leaves, goes: true });
    expect(bushingFit({ woodMm, threadMm: 19, ...STACK }).proudMm).toBeCloseTo(proudLong, 9);
  });

  it("names nothing short where it reaches, and nothing proud where it does not", () => {
    expect(bushingFit({ woodMm: 4, threadMm: 9.5, ...STACK })).toMatchObject({
      shortMm: 0,
      proudMm: expect.closeTo(1.3, 9),
    });
    expect(bushingFit({ woodMm: 7, threadMm: 9.5, ...STACK }).proudMm).toBe(0);
  });

  it("[FT9] never thins further than told, and never less than needed", () => {
    const by = between(0, 10);
    fc.assert(
      fc.property(by, (byMm) => {
        const thin = spotFace({ byMm, woodMm: 20, leastWoodMm: 3 });
        expect(thin.depthMm).toBeGreaterThanOrEqual(byMm - 1e-6);
        expect(thin.depthMm).toBeLessThan(byMm + 0.5 + 1e-9);
        expect((thin.depthMm * 2) % 1).toBe(0);
      }),
      { seed: SEED },
    );
  });

  it("[FT9] says no when too little wood would be left", () => {
    expect(spotFace({ byMm: 2.7, woodMm: 5.9, leastWoodMm: 3 }).goes).toBe(false);
    // 0.7 from 11.2 - 10.5 in binary is a hair over 0.7; half a unit more is not asked for.
    expect(spotFace({ byMm: 0.1 + 0.2 + 0.2, woodMm: 6, leastWoodMm: 3 }).depthMm).toBe(0.5);
  });
});

describe("[FT10] room below", () => {
  // Demo "Ferry": 38.0 - 6.0 - 2.5 = 29.5 for 28.5 + 2.0. Demo "Lowtide": lever 27.5 + 2 in 33.0.
  it("is short by 1.0, and 2.0 to spare once the wood is thinned by 3.0", () => {
    const free = freeDepthMm({ bodyMm: 38, topMm: 6, coverMm: 2.5 });
    expect(free).toBe(29.5);
    expect(controlDepth({ partMm: 28.5, lugsMm: 2, freeDepthMm: free })).toEqual({
      marginMm: -1,
      needMm: 30.5,
      shortMm: 1,
    });
    expect(controlDepth({ partMm: 28.5, lugsMm: 2, freeDepthMm: free + 3 }).marginMm).toBe(2);
  });
  it("passes the lever", () => {
    expect(controlDepth({ partMm: 27.5, lugsMm: 2, freeDepthMm: 33 })).toEqual({
      marginMm: 3.5,
      needMm: 29.5,
      shortMm: 0,
    });
  });
});

describe("[FT11] hole", () => {
  it("ream 8.0 to 9.6 for a 9.5 thread", () => {
    const hole = holeForThread({ holeMm: 8, threadMm: 9.5, clearanceMm: 0.1 });
    expect(hole.targetMm).toBeCloseTo(9.6, 12);
    expect(hole.reamByMm).toBeCloseTo(1.6, 12);
    expect(hole.tooWideByMm).toBe(0);
  });
  it("leaves a 9.6 hole alone", () => {
    expect(holeForThread({ holeMm: 9.6, threadMm: 9.5, clearanceMm: 0.1 }).reamByMm).toBeCloseTo(0, 9);
    expect(holeForThread({ holeMm: 12.7, threadMm: 9.5, clearanceMm: 0.1 }).tooWideByMm).toBeCloseTo(3.1, 9);
  });
  it("never sends a twist bit into a hole that is there", () => {
    expect(openingTool({ fromMm: 8, toMm: 9.6, reamersMm: [] })).toEqual({ tool: "taper reamer" });
    expect(openingTool({ fromMm: 8, toMm: 9.6, reamersMm: [8, 9.62, 10] })).toEqual({
      tool: "own reamer",
      ownMm: 9.62,
    });
    // Not nearer than 0.05, on either side; more than 2 to take off is for a step bit.
    expect(openingTool({ fromMm: 8, toMm: 9.6, reamersMm: [9.65 + 0.005, 3] })).toEqual({ tool: "taper reamer" });
    expect(openingTool({ fromMm: 8, toMm: 9.6, reamersMm: [9.65 - 0.001, 3] }).tool).toBe("own reamer");
    expect(openingTool({ fromMm: 7.5, toMm: 9.6, reamersMm: [] })).toEqual({ tool: "step bit" });
    expect(openingTool({ fromMm: 8, toMm: 9.6, reamersMm: [2] })).toEqual({ tool: "taper reamer" });
    expect(openingTool({ fromMm: 6.35, toMm: 9.6, reamersMm: [10] })).toEqual({ tool: "step bit" });
  });
});

describe("[FT12] knob and shaft", () => {
  const plain = { shaftKind: "solid", knobKind: "set screw" } as const;
  it("[Ferry] bore 6.35 on a 6.0 shaft wobbles by 0.35: sleeve", () => {
    const fit = knobFit({ shaftMm: 6, boreMm: 6.35, ...plain });
    expect(fit.wobbleMm).toBeCloseTo(0.35, 9);
    expect(fit.marginMm).toBeCloseTo(-0.2, 9);
    expect(fit.answer).toBe("sleeve");
    expect(fit.sleeveWallMm).toBeCloseTo(0.175, 9);
  });
  it("[Lowtide] bore 6.0 on 6.0 fits", () => {
    expect(knobFit({ shaftMm: 6, boreMm: 6, ...plain })).toMatchObject({
      answer: "fits",
      wobbleMm: 0,
      sleeveWallMm: 0,
    });
  });
  it("is not forced on", () => {
    const fit = knobFit({ shaftMm: 6.35, boreMm: 6, ...plain });
    expect(fit.answer).toBe("too tight");
    expect(fit.marginMm).toBeLessThan(0);
  });
  // Trade article: coarse 6 mm shaft, 8 teeth a half, 18-mark knob; fine 5.95, 10 a half, 24-mark knob.
  it.each([
    { shaftSplines: 16, knobSplines: 18, answer: "fits" },
    { shaftSplines: 20, knobSplines: 24, answer: "fits" },
    { shaftSplines: 16, knobSplines: 24, answer: "other splines" },
    { shaftSplines: 24, knobSplines: 18, answer: "other splines" },
  ])("$shaftSplines teeth in a knob of $knobSplines: $answer", ({ shaftSplines, knobSplines, answer }) => {
    const knob = { shaftMm: 6, boreMm: 6, shaftKind: "split", knobKind: "push-on", shaftSplines, knobSplines } as const;
    expect(knobFit(knob).answer).toBe(answer);
  });
  it("a splined knob has nothing to grip on a solid shaft", () => {
    const knob = { shaftMm: 6, boreMm: 6, shaftKind: "solid", knobKind: "push-on" } as const;
    expect(knobFit(knob).answer).toBe("splined knob on a solid shaft");
  });
});

describe("[FT13] taper, either hand", () => {
  it("[Ferry] an audio pot with its outer lugs swapped gives 90 % at half turn", () => {
    const half = { taper: "audio", atHalf: 0.1, turn: 0.5 } as const;
    expect(levelAfterTurn({ ...half, rises: "clockwise" })).toBeCloseTo(0.1, 12);
    expect(levelAfterTurn({ ...half, rises: "anticlockwise" })).toBeCloseTo(0.9, 12);
  });
  it("a reverse audio pot is the audio pot of the other hand", () => {
    const fraction = between(0, 1);
    fc.assert(
      fc.property(fraction, fraction, (turn, atHalf) => {
        const left = levelAfterTurn({ taper: "reverse audio", atHalf, turn, rises: "anticlockwise" });
        const right = levelAfterTurn({ taper: "audio", atHalf, turn, rises: "clockwise" });
        expect(left).toBeCloseTo(right, 9);
      }),
      { seed: SEED },
    );
  });
  it("the usual audio pot gives 10 % at half turn (owner's reading) and rises in two straight slopes", () => {
    expect(AUDIO_AT_HALF).toBe(0.1);
    const at = (clockwise: number) => taperRatio({ taper: "audio", atHalf: 0.1, clockwise });
    // 50 k at half and 90 k for each tenth above it, of 500 k.
    expect(at(0.55)).toBeCloseTo(0.19, 9);
    expect(at(0.45)).toBeCloseTo(0.09, 9);
  });
  it("linear does not care", () => {
    expect(levelAfterTurn({ taper: "linear", atHalf: 0.1, turn: 0.3, rises: "anticlockwise" })).toBeCloseTo(0.3, 12);
  });
  it("refuses a turn outside the track", () => {
    expect(() => taperRatio({ taper: "audio", atHalf: 0.1, clockwise: 1.1 })).toThrow(/^clockwise/);
  });
});

describe("[FT14] [FT15] [FT16] lever", () => {
  // Demo "Lowtide": slot 26.0 to 30.5, screws ±20.65 to ±23.0, holes 3.2; cavity 24.0 wide, switch 21.0.
  it("slot", () => {
    expect(slotFit({ slotMm: 26, needMm: 30.5 })).toEqual({ marginMm: -4.5, lengthenMm: 4.5, eachEndMm: 2.25 });
    expect(slotFit({ slotMm: 31, needMm: 30.5 }).lengthenMm).toBe(0);
  });
  it("screws 2.35 apart overlap by 0.85", () => {
    const pair = screwPairFit({
      oldOffsetMm: 20.65,
      newOffsetMm: 23,
      oldHoleMm: 3.2,
      newHoleMm: 3.2,
      leastWallMm: 1.5,
    });
    expect(pair.apartMm).toBeCloseTo(2.35, 9);
    expect(pair.overlapMm).toBeCloseTo(0.85, 9);
    expect(pair.marginMm).toBeCloseTo(-2.35, 9);
    expect(pair.sameHoles).toBe(false);
  });
  it("the same pattern uses the old holes", () => {
    const pair = screwPairFit({
      oldOffsetMm: 20.65,
      newOffsetMm: 20.6,
      oldHoleMm: 3.2,
      newHoleMm: 3.2,
      leastWallMm: 1.5,
    });
    expect(pair.sameHoles).toBe(true);
    expect(pair.marginMm).toBeGreaterThan(0);
  });
  it("does not mind which pair stands wider; the play left in old holes is 0.15 less the shift", () => {
    const pair = { oldHoleMm: 3.2, newHoleMm: 3.2, leastWallMm: 1.5 };
    const inward = screwPairFit({ ...pair, oldOffsetMm: 23, newOffsetMm: 20.65 });
    expect(inward.apartMm).toBeCloseTo(2.35, 9);
    const apart = screwPairFit({ ...pair, oldOffsetMm: 20, newOffsetMm: 26 });
    expect(apart.overlapMm).toBe(0);
    expect(apart.marginMm).toBeCloseTo(6 - 3.2 - 1.5, 9);
    expect(screwPairFit({ ...pair, oldOffsetMm: 20, newOffsetMm: 20.1 }).marginMm).toBeCloseTo(0.05, 9);
    expect(screwPairFit({ ...pair, oldOffsetMm: 20, newOffsetMm: 20.16 }).sameHoles).toBe(false);
    // A hole more than 0.5 wider than the screw wants is no hole for it.
    expect(screwPairFit({ ...pair, oldOffsetMm: 20, newOffsetMm: 20, newHoleMm: 2.75 }).sameHoles).toBe(true);
    expect(screwPairFit({ ...pair, oldOffsetMm: 20, newOffsetMm: 20, newHoleMm: 2.65 }).sameHoles).toBe(false);
  });
  it("width to the foil 1.4, under 2.0", () => {
    const gap = gapToFoil({ freeWidthMm: 24, partMm: 21, foilMm: 0.1, leastMm: 2 });
    expect(gap.gapMm).toBeCloseTo(1.4, 9);
    expect(gap.marginMm).toBeCloseTo(-0.6, 9);
  });
});
