import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  freestYaw,
  leastSaddleSpareMm,
  leastSaddleSpareTurnedMm,
  placementAllowed,
  plateWindow,
  poseLimits,
  poseSlice,
  sideRange,
  sideShiftFromPlayMm,
  toBody,
  toPart,
  windowAtYaw,
} from "../../../src/core/bridge/index.ts";
import { ferry, lowtide, saddlesOf } from "./demos.ts";

const SEED = 20240615;
/** Evenly spread; doubles as such crowd about 0. */
const num = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((n) => min + ((max - min) * n) / 1_000_000);
const PLAIN = saddlesOf(lowtide, lowtide.setbacksMm.plainThird);
const WOUND = saddlesOf(lowtide, lowtide.setbacksMm.woundThird);
const BASS = saddlesOf(ferry, ferry.setbacksMm);

describe("[BR10] window of a square plate", () => {
  it("Lowtide, plain third: 173.32…171.49, empty by 1.83, 0.83 without reserve, bound by strings 3 and 4", () => {
    const window = plateWindow({ ...PLAIN, reserveMm: 0.5 });
    expect(window.minMm).toBeCloseTo(lowtide.expected.plainFrom as number, 9);
    expect(window.maxMm).toBeCloseTo(lowtide.expected.plainTo as number, 9);
    expect(window.widthMm).toBeCloseTo(-(lowtide.expected.plainEmptyBy as number), 9);
    expect([window.bindingMinIndex, window.bindingMaxIndex]).toEqual([2, 3]);
    expect(plateWindow({ ...PLAIN, reserveMm: 0 }).widthMm).toBeCloseTo(
      -(lowtide.expected.plainEmptyWithoutReserve as number),
      9,
    );
  });

  it("Lowtide by the model's setbacks: empty by 1.74; wound 170.34…171.42", () => {
    const { plainThird, woundThird } = lowtide.modelSetbacksMm;
    expect(plateWindow({ ...saddlesOf(lowtide, plainThird), reserveMm: 0.5 }).widthMm).toBeCloseTo(
      -(lowtide.expected.plainEmptyByModel as number),
      9,
    );
    const wound = plateWindow({ ...saddlesOf(lowtide, woundThird), reserveMm: 0.5 });
    expect([wound.minMm, wound.maxMm]).toEqual(lowtide.expected.woundByModel.map((x) => expect.closeTo(x, 9)));
  });

  it("Lowtide, wound third: 170.25…171.49; saddle 3 turned round: 170.92…171.49", () => {
    const wound = plateWindow({ ...WOUND, reserveMm: 0.5 });
    expect([wound.minMm, wound.maxMm]).toEqual(lowtide.expected.wound.map((x) => expect.closeTo(x, 9)));
    const turn = (values: readonly number[]) => values.with(2, (values[2] as number) + lowtide.turnedRoundMm);
    const turned = plateWindow({ ...PLAIN, fromMm: turn(PLAIN.fromMm), toMm: turn(PLAIN.toMm), reserveMm: 0.5 });
    expect([turned.minMm, turned.maxMm]).toEqual(lowtide.expected.turned.map((x) => expect.closeTo(x, 9)));
    const model = saddlesOf(lowtide, lowtide.modelSetbacksMm.plainThird);
    const byModel = plateWindow({ ...model, fromMm: turn(model.fromMm), toMm: turn(model.toMm), reserveMm: 0.5 });
    expect([byModel.minMm, byModel.maxMm]).toEqual(lowtide.expected.turnedByModel.map((x) => expect.closeTo(x, 9)));
  });

  it("Ferry: 845.14…857.50; at 848.5 E has 3.86 to the rear and G 9.50 to the front", () => {
    const window = plateWindow({ ...BASS, reserveMm: 0.5 });
    expect([window.minMm, window.maxMm]).toEqual(ferry.expected.window.map((x) => expect.closeTo(x, 9)));
    const check = placementAllowed({ ...BASS, reserveMm: 0.5, pose: { placeMm: 848.5, sideMm: 0, yawDegrees: 0 } });
    expect(check.allowed).toBe(true);
    expect(check.sparesMm[3]?.rearMm).toBeCloseTo(ferry.expected.rearSpareE as number, 9);
    expect(check.sparesMm[0]?.frontMm).toBeCloseTo(ferry.expected.frontSpareG as number, 9);
    expect(check.leastIndex).toBe(3);
  });

  it("refuses lists that do not belong together, and a range that ends before it begins", () => {
    expect(() => plateWindow({ ...BASS, toMm: [24], reserveMm: 0.5 })).toThrow(/as many as the strings, got 4, 4, 1/);
    expect(() => plateWindow({ ...BASS, toMm: [24, 24, 7, 24], reserveMm: 0.5 })).toThrow(
      /^toMm\[2\]: the range ends at 7 mm/,
    );
    expect(() => plateWindow({ ...BASS, targetsMm: [864, Number.NaN, 1, 1], reserveMm: 0.5 })).toThrow(
      /^targetsMm\[1\]/,
    );
  });
});

const set = fc
  .array(
    fc.record({
      target: num(180, 188),
      from: num(8, 14),
      travel: num(3, 16),
      across: num(-30, 30),
    }),
    { minLength: 1, maxLength: 8 },
  )
  .map((list) => ({
    targetsMm: list.map((one) => one.target),
    fromMm: list.map((one) => one.from),
    toMm: list.map((one) => one.from + one.travel),
    acrossMm: list.map((one) => one.across),
  }));
const yaw = num(-20, 20);

describe("[BR11] any pose", () => {
  it("positive yaw carries the y > 0 side toward the neck, and turns u toward y", () => {
    const turned = toBody({ placeMm: 100, sideMm: 1, yawDegrees: 90 }, { pMm: 10, qMm: 0 });
    expect([turned.uMm, turned.yMm]).toEqual([expect.closeTo(100, 9), expect.closeTo(11, 9)]);
    const right = toBody({ placeMm: 100, sideMm: 0, yawDegrees: 2 }, { pMm: 0, qMm: 25 });
    expect(right.uMm).toBeCloseTo(100 - 25 * Math.sin(Math.PI / 90), 9);
  });

  it("there and back between part and body", () => {
    fc.assert(
      fc.property(yaw, num(-50, 50), num(-50, 50), (yawDegrees, pMm, qMm) => {
        const pose = { placeMm: 170.9, sideMm: 0.4, yawDegrees };
        const back = toPart(pose, toBody(pose, { pMm, qMm }));
        expect(back.pMm).toBeCloseTo(pMm, 9);
        expect(back.qMm).toBeCloseTo(qMm, 9);
      }),
      { seed: SEED },
    );
  });

  it("a place is in the window exactly if the direct check allows it, at any yaw", () => {
    fc.assert(
      fc.property(set, yaw, num(150, 190), (saddles, yawDegrees, placeMm) => {
        const window = windowAtYaw({ ...saddles, reserveMm: 0.5, yawDegrees });
        const check = placementAllowed({ ...saddles, reserveMm: 0.5, pose: { placeMm, sideMm: 0, yawDegrees } });
        const near = Math.min(Math.abs(placeMm - window.minMm), Math.abs(placeMm - window.maxMm)) < 1e-9;
        if (!near) expect(check.allowed).toBe(placeMm >= window.minMm && placeMm <= window.maxMm);
        // The saddle really stands over its target there.
        const p = (check.sparesMm[0]?.frontMm as number) + (saddles.fromMm[0] as number);
        const there = toBody({ placeMm, sideMm: 0, yawDegrees }, { pMm: p, qMm: saddles.acrossMm[0] as number });
        expect(there.uMm).toBeCloseTo(saddles.targetsMm[0] as number, 8);
      }),
      { seed: SEED },
    );
  });

  it("the sampler's functions agree with the check", () => {
    fc.assert(
      fc.property(set, yaw, num(150, 190), (saddles, yawDegrees, placeMm) => {
        const { targetsMm, fromMm, toMm, acrossMm } = saddles;
        const check = placementAllowed({ ...saddles, reserveMm: 0, pose: { placeMm, sideMm: 0, yawDegrees } });
        const turned = leastSaddleSpareTurnedMm(
          placeMm,
          (yawDegrees * Math.PI) / 180,
          targetsMm,
          fromMm,
          toMm,
          acrossMm,
        );
        expect(turned).toBeCloseTo(check.leastMm, 9);
        const square = placementAllowed({ ...saddles, reserveMm: 0, pose: { placeMm, sideMm: 0, yawDegrees: 0 } });
        expect(leastSaddleSpareMm(placeMm, targetsMm, fromMm, toMm)).toBeCloseTo(square.leastMm, 9);
      }),
      { seed: SEED },
    );
  });
});

/** Few strings and much travel: windows that are seldom empty. */
const roomy = set.map((saddles) => ({
  targetsMm: saddles.targetsMm.slice(0, 3).map((target) => 184 + (target - 184) / 4),
  fromMm: saddles.fromMm.slice(0, 3).map((from) => 8 + (from - 8) / 4),
  toMm: saddles.toMm.slice(0, 3).map((to) => 14 + to / 4),
  acrossMm: saddles.acrossMm.slice(0, 3),
}));

describe("[BR12] region of poses", () => {
  const bounds = { sideFromMm: -1, sideToMm: 1, yawLimitDegrees: 1 };

  it("slice without yaw is the window, and the slice is empty beyond the side's bounds", () => {
    const limits = poseLimits({ ...WOUND, reserveMm: 0.5, bounds: { ...bounds, yawLimitDegrees: 0 } });
    const corners = poseSlice({ limits, sideMm: 0, aroundMm: 171 }).map((corner) => corner.placeMm);
    expect(Math.min(...corners)).toBeCloseTo(170.25, 9);
    expect(Math.max(...corners)).toBeCloseTo(171.49, 9);
    expect(poseSlice({ limits, sideMm: 1.2, aroundMm: 171 })).toEqual([]);
  });

  it("a little yaw opens Lowtide's plain third only if it turns the right way, and never enough within 1°", () => {
    // Strings 3 (binding toward the tail, q 5.25) and 4 (binding toward the neck, q -5.25): width changes by 10.5 sin f.
    const width = (yawDegrees: number) => windowAtYaw({ ...PLAIN, reserveMm: 0.5, yawDegrees }).widthMm;
    expect(width(-1) - width(0)).toBeCloseTo(10.5 * Math.sin(Math.PI / 180), 2);
    expect(width(1)).toBeLessThan(width(0));
    expect(freestYaw({ ...PLAIN, reserveMm: 0.5, yawLimitDegrees: 1 }).window.widthMm).toBeLessThan(0);
  });

  it("inside and outside of the polygon are what the direct check says, but for a strip of 0.005", () => {
    fc.assert(
      fc.property(roomy, num(-1, 1), num(-0.5, 0.5), fc.boolean(), (saddles, yawDegrees, beyond, rear) => {
        const limits = poseLimits({ ...saddles, reserveMm: 0.5, bounds });
        const window = windowAtYaw({ ...saddles, reserveMm: 0.5, yawDegrees });
        const placeMm = (rear ? window.minMm : window.maxMm) + beyond;
        const spare =
          placementAllowed({ ...saddles, reserveMm: 0.5, pose: { placeMm, sideMm: 0, yawDegrees } }).leastMm - 0.5;
        const f = (yawDegrees * Math.PI) / 180;
        const over = Math.max(...limits.map((limit) => limit.place * placeMm + limit.yaw * f - limit.atMostMm));
        // Largest neglected terms: p (1 - cos f) with p up to 30, q (f - sin f) with q up to 30: 0.0046 at 1°.
        if (Math.abs(spare) > 0.005 && Math.abs(yawDegrees) < 0.999) expect(over <= 0).toBe(spare >= 0);
      }),
      { seed: SEED },
    );
  });

  it("corners of the polygon lie on at least two of its limits and inside all", () => {
    fc.assert(
      fc.property(set, (saddles) => {
        const limits = poseLimits({ ...saddles, reserveMm: 0, bounds });
        for (const { placeMm, yawDegrees } of poseSlice({ limits, sideMm: 0, aroundMm: 175 })) {
          const f = (yawDegrees * Math.PI) / 180;
          const over = limits
            .map((limit) => limit.place * placeMm + limit.yaw * f - limit.atMostMm)
            .filter((_, i) => (limits[i]?.side ?? 1) === 0);
          expect(Math.max(...over)).toBeLessThan(1e-8);
          expect(over.filter((one) => Math.abs(one) < 1e-8).length).toBeGreaterThanOrEqual(2);
        }
      }),
      { seed: SEED },
    );
  });

  it("no yaw of a fine scan is freer than the one found, and no lesser yaw as free", () => {
    fc.assert(
      fc.property(set, (saddles) => {
        const found = freestYaw({ ...saddles, reserveMm: 0.5, yawLimitDegrees: 1 });
        const width = (yawDegrees: number) => windowAtYaw({ ...saddles, reserveMm: 0.5, yawDegrees }).widthMm;
        for (let yawDegrees = -1; yawDegrees <= 1; yawDegrees += 0.05) {
          // 0.005 that a person does not mind, and as much for the terms beyond the straight lines.
          expect(width(yawDegrees)).toBeLessThan(found.window.widthMm + 0.01);
        }
        const less = found.yawDegrees - Math.sign(found.yawDegrees) * 0.01;
        if (Math.abs(found.yawDegrees) > 0.02) expect(width(less)).toBeLessThan(found.window.widthMm);
      }),
      { seed: SEED, numRuns: 60 },
    );
  });
});

describe("[BR13] sideways", () => {
  it("side range keeps the outer strings' margin at the last fret (closed form)", () => {
    // Strings from y 18 at the nut to side + 26.25 at 692; at the last fret, 496: 18·(1 - k) + (side + 26.25) k, k = 496/692.
    const k = 496 / 692;
    const at = 18 * (1 - k) + 26.25 * k;
    const range = sideRange({
      halfWidthAtLastFretMm: 28,
      lastFretXMm: 496,
      marginMm: 3,
      nutYMm: [18, -18],
      acrossMm: [26.25, -26.25],
      contactXMm: [692, 692],
    });
    expect(range.toMm).toBeCloseTo((25 - at) / k, 9);
    expect(range.fromMm).toBeCloseTo(-(25 - at) / k, 9);
  });

  it("0.2 of play over a pocket of 76 is 0.7 at the bridge", () => {
    // Mouth to bridge: 76 of pocket and 182 of body and a little setback.
    expect(Math.abs(sideShiftFromPlayMm({ playMm: 0.2, lengthMm: 76, mouthToBridgeMm: 76 + 184 }) - 0.7)).toBeLessThan(
      0.05,
    );
  });
});
