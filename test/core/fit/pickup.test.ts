import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  crossingMm,
  depthInRout,
  leastCornerRadiusMm,
  lowestSetting,
  pickupGap,
  poleFit,
  polePairFit,
  rectangleInRout,
  type StringLine,
} from "../../../src/core/fit/index.ts";

const SEED = 20240501;

/** Evenly spread; doubles drawn by their bits would nearly all lie next to 0. */
function between(min: number, max: number): fc.Arbitrary<number> {
  return fc.integer({ min: 0, max: 1_000_000 }).map((step) => min + ((max - min) * step) / 1_000_000);
}

describe("[FT1] a rectangle in its rout", () => {
  // Demo "Lowtide", bridge pickup: ears 89.0 x 13.5 for 88.0 x 12.0. Need 90.0 x 14.5: 1.0 at each end, 2.5 wider.
  const ears = rectangleInRout({ lengthMm: 89, widthMm: 13.5, routLengthMm: 88, routWidthMm: 12, clearanceMm: 0.5 });
  it("says what the ears need and what to cut", () => {
    expect([ears.needLengthMm, ears.needWidthMm]).toEqual([90, 14.5]);
    expect([ears.routEachEndMm, 2 * ears.routEachSideMm]).toEqual([1, 2.5]);
    expect(ears.marginMm).toBeCloseTo(-1.25, 12);
  });

  // Demo "Ferry": halves 56.0 x 27.5 in 57.5 x 29.0, 0.75 all round.
  it("leaves 0.75 all round", () => {
    const half = rectangleInRout({
      lengthMm: 56,
      widthMm: 27.5,
      routLengthMm: 57.5,
      routWidthMm: 29,
      clearanceMm: 0.5,
    });
    expect([half.gapEndMm, half.gapSideMm, half.marginMm]).toEqual([0.75, 0.75, 0.25]);
    expect([half.routEachEndMm, half.routEachSideMm]).toEqual([0, 0]);
  });

  it("once cut as told, fits with its clearance exactly", () => {
    const size = between(5, 120);
    fc.assert(
      fc.property(size, size, size, size, (lengthMm, widthMm, routLengthMm, routWidthMm) => {
        const before = rectangleInRout({ lengthMm, widthMm, routLengthMm, routWidthMm, clearanceMm: 0.5 });
        const after = rectangleInRout({
          lengthMm,
          widthMm,
          routLengthMm: routLengthMm + 2 * before.routEachEndMm,
          routWidthMm: routWidthMm + 2 * before.routEachSideMm,
          clearanceMm: 0.5,
        });
        expect(after.marginMm).toBeGreaterThanOrEqual(-1e-9);
        if (before.routEachEndMm > 0) expect(after.gapEndMm).toBeCloseTo(0.5, 9);
        if (before.routEachSideMm > 0) expect(after.gapSideMm).toBeCloseTo(0.5, 9);
      }),
      { seed: SEED },
    );
  });

  it.each([0, -1, Number.NaN])("refuses a length of %s", (lengthMm) => {
    const fit = { lengthMm, widthMm: 1, routLengthMm: 1, routWidthMm: 1, clearanceMm: 0 };
    expect(() => rectangleInRout(fit)).toThrow(/^lengthMm: must be a number above 0 mm/);
  });
});

describe("[FT2] depth", () => {
  // Demo "Lowtide": ear bottom 18.5 in 21.0. Demo "Ferry": 18.5 in 20: gap 1.5.
  it("passes both demos", () => {
    expect(depthInRout({ partMm: 18.5, routMm: 21, clearanceMm: 0.5 })).toEqual({
      marginMm: 2,
      needMm: 19,
      gapBelowMm: 2.5,
      routDeeperMm: 0,
    });
    expect(depthInRout({ partMm: 18.5, routMm: 20, clearanceMm: 0.5 })).toMatchObject({ gapBelowMm: 1.5, marginMm: 1 });
  });
  it("says how much deeper", () => {
    expect(depthInRout({ partMm: 20, routMm: 18, clearanceMm: 0.5 })).toMatchObject({
      marginMm: -2.5,
      routDeeperMm: 2.5,
    });
  });
});

describe("[FT3] corners", () => {
  // Closed form for square corners: the gap at the diagonal is R - √2 (R - g), nought at g = R (1 - 1/√2).
  it("lets a square corner pass from g = R (1 - 1/√2)", () => {
    const touching = 6 * (1 - Math.SQRT1_2);
    expect(leastCornerRadiusMm({ routRadiusMm: 6, gapEndMm: touching, gapSideMm: touching })).toBeCloseTo(0, 9);
    expect(
      leastCornerRadiusMm({ routRadiusMm: 6, gapEndMm: touching - 0.1, gapSideMm: touching - 0.1 }),
    ).toBeGreaterThan(0.1);
  });
  it("makes the two arcs touch on the inside", () => {
    const gap = between(0, 3);
    fc.assert(
      fc.property(gap, gap, between(3.1, 15), (g, h, R) => {
        const r = leastCornerRadiusMm({ routRadiusMm: R, gapEndMm: g, gapSideMm: h }) ?? Number.NaN;
        if (r > 0) expect(Math.hypot(R - g - r, R - h - r)).toBeCloseTo(R - r, 6);
      }),
      { seed: SEED },
    );
  });
  it("answers for the ends of the range", () => {
    expect(leastCornerRadiusMm({ routRadiusMm: 2, gapEndMm: 0.1, gapSideMm: 2.5 })).toBe(0);
    expect(leastCornerRadiusMm({ routRadiusMm: 2, gapEndMm: -0.1, gapSideMm: 1 })).toBeUndefined();
    expect(leastCornerRadiusMm({ routRadiusMm: 2, gapEndMm: 0, gapSideMm: 0 })).toBe(2);
  });
});

describe("[FT4] lowest setting", () => {
  // 18.5 + 2.0 in 20 stands 0.5 proud; a string 12 above the top then has 11.5.
  it("stands proud by what the wires and the spring take", () => {
    expect(lowestSetting({ partMm: 18.5, routMm: 20, roomBelowMm: 2 })).toEqual({ proudMm: 0.5, gapBelowMm: 1.5 });
    expect(lowestSetting({ partMm: 15, routMm: 20, roomBelowMm: 2 }).proudMm).toBe(0);
  });
  it("asks for nothing deeper where the gap is there", () => {
    expect(pickupGap({ stringHeightMm: 8, proudMm: 1, wantedMm: 2.4 }).routDeeperMm).toBe(0);
  });
  it("compares with the gap wanted", () => {
    const gap = pickupGap({ stringHeightMm: 5, proudMm: 3.5, wantedMm: 2.4 });
    expect(gap.widestGapMm).toBeCloseTo(1.5, 12);
    expect(gap.routDeeperMm).toBeCloseTo(0.9, 12);
    expect(gap.marginMm).toBeCloseTo(-0.9, 12);
  });
});

function straight(nutYMm: number, contactYMm: number, contactXMm: number): StringLine {
  return { nutXMm: 0, nutYMm, contactXMm, contactYMm };
}

describe("[FT5] outer strings over the poles", () => {
  // Demo "Lowtide": spread 36.0 at the nut, 52.5 at the bridge, L 690, setbacks 2.11 (string 1) and 4.26 (string 6).
  const first = straight(18, 26.25, 692.11);
  const last = straight(-18, -26.25, 694.26);
  it.each([
    { name: "neck", xMm: 530, poleSpreadMm: 50, spread: 48.62, offset: -0.69 },
    { name: "middle", xMm: 596, poleSpreadMm: 50, spread: 50.19, offset: 0.09 },
    { name: "bridge", xMm: 654, poleSpreadMm: 49.2, spread: 51.57, offset: 1.18 },
  ])("$name pickup", ({ xMm, poleSpreadMm, spread, offset }) => {
    const fit = poleFit({ first, last, poles: { xMm, yMm: 0, slantDegrees: 0 }, poleSpreadMm, poleDiameterMm: 4.8 });
    // Printed to 0.01.
    expect(Math.abs(fit.spreadMm - spread)).toBeLessThan(0.0051);
    expect(Math.abs(fit.offsetMm - offset)).toBeLessThan(0.0051);
    expect(fit.marginMm).toBeCloseTo(2.4 - Math.abs(fit.offsetMm), 12);
  });

  it("takes the spread along the slant", () => {
    // Parallel strings 50 apart: along a line slanted by a the spread is 50 / cos a.
    const parallel = {
      first: straight(25, 25, 650),
      last: straight(-25, -25, 650),
      poleSpreadMm: 50,
      poleDiameterMm: 5,
    };
    const fit = poleFit({ ...parallel, poles: { xMm: 500, yMm: 0, slantDegrees: 15 } });
    expect(fit.spreadMm).toBeCloseTo(50 / Math.cos((15 * Math.PI) / 180), 9);
  });

  it("finds the crossing on the string and on the line of the poles", () => {
    const y = between(-30, 30);
    const slant = between(-40, 40);
    fc.assert(
      fc.property(y, y, y, slant, (nutY, bridgeY, poleY, slantDegrees) => {
        const t = crossingMm(straight(nutY, bridgeY, 650), { xMm: 500, yMm: poleY, slantDegrees });
        const angle = (slantDegrees * Math.PI) / 180;
        const x = 500 + t * Math.sin(angle);
        expect(poleY + t * Math.cos(angle)).toBeCloseTo(nutY + ((bridgeY - nutY) * x) / 650, 6);
      }),
      { seed: SEED },
    );
  });

  it("counts a string from its own nut end, and does not mind which string is named first", () => {
    // A multi-scale string: from (-8, 20) to (672, 27). Halfway, at x = 332, it stands at 23.5.
    const own: StringLine = { nutXMm: -8, nutYMm: 20, contactXMm: 672, contactYMm: 27 };
    expect(crossingMm(own, { xMm: 332, yMm: 0, slantDegrees: 0 })).toBeCloseTo(23.5, 9);
    const row = { poles: { xMm: 530, yMm: 0, slantDegrees: 0 }, poleSpreadMm: 50, poleDiameterMm: 4.8 };
    expect(poleFit({ ...row, first: last, last: first }).offsetMm).toBe(poleFit({ ...row, first, last }).offsetMm);
  });

  it("shows a shift to the side apart from the spread", () => {
    const fit = poleFit({
      first,
      last,
      poles: { xMm: 530, yMm: 1, slantDegrees: 0 },
      poleSpreadMm: 50,
      poleDiameterMm: 4.8,
    });
    expect(fit.sideMm).toBeCloseTo(-0.99, 2);
    expect(Math.abs(fit.offsetMm + 0.69)).toBeLessThan(0.0051);
  });

  it("refuses a contact before the nut and a slant of 90", () => {
    expect(() => crossingMm(straight(0, 0, -1), { xMm: 1, yMm: 0, slantDegrees: 0 })).toThrow(/^contactXMm/);
    expect(() => crossingMm(straight(0, 0, 650), { xMm: 1, yMm: 0, slantDegrees: 90.1 })).toThrow(/^slantDegrees/);
  });
});

describe("[FT7] halves of a split pickup", () => {
  // Demo "Ferry", left-handed: nut y 15, 5, -5, -15; bridge 28.5, 9.5, -9.5, -28.5; setbacks G 2.00 D 2.70 A 3.19 E 4.64.
  const e = straight(15, 28.5, 868.64);
  const a = straight(5, 9.5, 867.19);
  const d = straight(-5, -9.5, 866.7);
  const g = straight(-15, -28.5, 866);
  it.each([
    { half: "E/A-1", first: e, last: a, xMm: 640, pairCentresMm: 17, pitch: 16.63 },
    { half: "D/G-1", first: d, last: g, xMm: 667, pairCentresMm: 17, pitch: 16.93 },
    { half: "D/G-2", first: d, last: g, xMm: 718, pairCentresMm: 17.5, pitch: 17.46 },
    { half: "E/A-2", first: e, last: a, xMm: 745, pairCentresMm: 17.5, pitch: 17.71 },
  ])("$half", ({ first, last, xMm, pairCentresMm, pitch }) => {
    const fit = polePairFit({ first, last, poles: { xMm, yMm: 0, slantDegrees: 0 }, pairCentresMm, polePairMm: 9 });
    expect(Math.abs(fit.pitchMm - pitch)).toBeLessThan(0.0051);
    expect(fit.marginMm).toBeCloseTo(4.5 - Math.abs(pitch - pairCentresMm) / 2, 2);
    // Worst of the four: 0.19.
    expect(fit.offsetMm).toBeLessThan(0.195);
  });
  it("does not mind which string is named first", () => {
    const half = { poles: { xMm: 640, yMm: 0, slantDegrees: 0 }, pairCentresMm: 17, polePairMm: 9 };
    expect(polePairFit({ ...half, first: a, last: e })).toEqual(polePairFit({ ...half, first: e, last: a }));
  });
  it("worst offset is that of the E/A half of set 1", () => {
    const fit = polePairFit({
      first: e,
      last: a,
      poles: { xMm: 640, yMm: 0, slantDegrees: 0 },
      pairCentresMm: 17,
      polePairMm: 9,
    });
    expect(Math.abs(fit.offsetMm - 0.19)).toBeLessThan(0.0051);
  });
});
