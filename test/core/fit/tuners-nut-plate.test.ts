import { describe, expect, it } from "vitest";
import {
  balanceChange,
  boxFit,
  faceDown,
  finishAdvice,
  fromBothFaces,
  headstockFit,
  holeForThread,
  inchDrawing,
  nutFile,
  nutSlotFit,
  onTheBack,
  postSlotFit,
  RULES,
  stringGround,
  tunerAdapter,
  tunerScrewWall,
} from "../../../src/core/fit/index.ts";

describe("[FT17] [FT18] [FT19] tuners", () => {
  // Demo "Lowtide": hole 8.8, needs 10.0; headstock 14.2 in 12.5 to 16.0; post slot 1.8 for 1.575.
  it("hole 8.8 to 10.0", () => {
    expect(holeForThread({ holeMm: 8.8, threadMm: 10, clearanceMm: 0 })).toMatchObject({ targetMm: 10 });
  });
  it("headstock passes with 1.7 one way and 1.8 the other", () => {
    const fit = headstockFit({ thicknessMm: 14.2, thinnestMm: 12.5, thickestMm: 16 });
    expect(fit.marginMm).toBeCloseTo(1.7, 9);
    expect([fit.tooThinByMm, fit.tooThickByMm]).toEqual([0, 0]);
    expect(headstockFit({ thicknessMm: 17, thinnestMm: 12.5, thickestMm: 16 }).tooThickByMm).toBe(1);
    expect(headstockFit({ thicknessMm: 12, thinnestMm: 12.5, thickestMm: 16 }).marginMm).toBe(-0.5);
  });
  it("post slot passes", () => {
    expect(postSlotFit({ slotMm: 1.8, thickestStringMm: 1.575 }).marginMm).toBeCloseTo(0.225, 9);
  });
});

describe("[FT20] tuner screws", () => {
  const fresh = { distanceMm: 9.5, angleDegrees: 45, diameterMm: 2 };
  it("at a right angle the distance is the hypotenuse", () => {
    const wall = tunerScrewWall({
      fresh,
      old: { distanceMm: 9.5, angleDegrees: -45, diameterMm: 2 },
      leastWallMm: 1.5,
    });
    expect(wall.apartMm).toBeCloseTo(9.5 * Math.SQRT2, 9);
    expect(wall.wallMm).toBeCloseTo(9.5 * Math.SQRT2 - 2, 9);
  });
  it("in line the distance is the difference", () => {
    const wall = tunerScrewWall({
      fresh,
      old: { distanceMm: 12, angleDegrees: 45, diameterMm: 2.4 },
      leastWallMm: 1.5,
    });
    expect(wall.apartMm).toBeCloseTo(2.5, 6);
    expect(wall.marginMm).toBeCloseTo(2.5 - 2.2 - 1.5, 6);
  });
});

describe("[FT21] hole wider than the bushing", () => {
  it.each([
    { holeMm: 10, bushingMm: 8.8, answer: "adapter", wall: 0.6 },
    { holeMm: 9.2, bushingMm: 8.8, answer: "plug", wall: 0.2 },
    { holeMm: 9.9, bushingMm: 8.8, answer: "adapter", wall: 0.55 },
    { holeMm: 9.78, bushingMm: 8.8, answer: "plug", wall: 0.49 },
    { holeMm: 8.84, bushingMm: 8.8, answer: "holds", wall: 0.02 },
    { holeMm: 8.856, bushingMm: 8.8, answer: "plug", wall: 0.028 },
    { holeMm: 8.8, bushingMm: 8.8, answer: "holds", wall: 0 },
  ])("$holeMm for $bushingMm: $answer", ({ holeMm, bushingMm, answer, wall }) => {
    const fit = tunerAdapter({ holeMm, bushingMm });
    expect(fit.answer).toBe(answer);
    expect(fit.wallMm).toBeCloseTo(wall, 9);
    expect(fit.marginMm >= 0).toBe(answer === "holds");
  });
});

describe("[FT22] nut slots", () => {
  // Demo "Lowtide", strings 1 to 6 (plain third), and the wound third; needs printed to 0.01.
  it.each([
    { slotMm: 0.28, gaugeMm: 0.33, need: 0.38 },
    { slotMm: 0.36, gaugeMm: 0.457, need: 0.51 },
    { slotMm: 0.46, gaugeMm: 0.61, need: 0.66 },
    { slotMm: 0.46, gaugeMm: 0.66, need: 0.71 },
    { slotMm: 0.7, gaugeMm: 0.914, need: 0.96 },
    { slotMm: 0.95, gaugeMm: 1.219, need: 1.27 },
    { slotMm: 1.2, gaugeMm: 1.575, need: 1.63 },
  ])("gauge $gaugeMm needs $need", ({ slotMm, gaugeMm, need }) => {
    const fit = nutSlotFit({ slotMm, gaugeMm, clearanceMm: 0.05 });
    expect(Math.abs(fit.needMm - need)).toBeLessThanOrEqual(0.0051);
    expect(fit.widenByMm).toBeCloseTo(gaugeMm + 0.05 - slotMm, 9);
    expect(fit.loose).toBe(false);
  });
  it("takes the widest own file that does not overshoot, and says what to roll", () => {
    expect(nutFile({ needMm: 0.66, filesMm: [0.3, 0.6, 0.7] })).toEqual({
      fileMm: 0.6,
      rollMm: expect.closeTo(0.06, 9),
    });
    expect(nutFile({ needMm: 0.61 + 0.05, filesMm: [0.66] })?.fileMm).toBe(0.66);
    expect(nutFile({ needMm: 0.38, filesMm: [0.5] })).toBeUndefined();
  });
  it("names a loose slot", () => {
    expect(nutSlotFit({ slotMm: 0.6, gaugeMm: 0.254, clearanceMm: 0.05 }).loose).toBe(true);
    expect(nutSlotFit({ slotMm: 0.46, gaugeMm: 0.25, clearanceMm: 0.05 }).loose).toBe(true);
    expect(nutSlotFit({ slotMm: 0.44, gaugeMm: 0.25, clearanceMm: 0.05 }).loose).toBe(false);
  });
});

describe("[FT36] [FT42] drilling", () => {
  it("meets in the middle", () => {
    expect(fromBothFaces({ bodyMm: 44, bitReachMm: 30 })).toEqual({ eachMm: 23, reachMm: 23, marginMm: 7 });
    expect(onTheBack({ uMm: 193, yMm: 5.2 })).toEqual({ uMm: 193, yMm: -5.2 });
    expect(onTheBack({ uMm: 193, yMm: 0 })).toEqual({ uMm: 193, yMm: 0 });
  });
  it("relieves the finish wider than the thread", () => {
    expect(finishAdvice({ drillMm: 2.5, threadMm: 3 })).toEqual({ bit: "twist bit", relieveToMm: 3.5 });
    expect(finishAdvice({ drillMm: 3.2, threadMm: 3.5 }).bit).toBe("brad point");
    expect(finishAdvice({ drillMm: 8, threadMm: 3 })).toEqual({ bit: "brad point", relieveToMm: 8.5 });
  });
});

describe("[FT37] battery", () => {
  const part = { lengthMm: 48.5, widthMm: 26.5, depthMm: 17.5 };
  it("turns it round to fit", () => {
    const fit = boxFit({ room: { lengthMm: 28, widthMm: 50, depthMm: 20 }, part, clearanceMm: 0.5 });
    expect(fit.lies).toEqual({ lengthMm: 26.5, widthMm: 48.5, depthMm: 17.5 });
    expect(fit.marginMm).toBeCloseTo(1, 9);
  });
  it("says by how much it fails", () => {
    expect(boxFit({ room: { lengthMm: 48, widthMm: 30, depthMm: 20 }, part, clearanceMm: 0.5 }).marginMm).toBeCloseTo(
      -1,
      9,
    );
  });
});

describe("[FT38] balance", () => {
  it("tuners 10 g heavier each pull the head down, a bridge lifts it", () => {
    // Six at x = -80, strap button at x = 420: 6 x 10 x 500 = 30 000 g mm.
    const tuners = { xMm: -80, offG: 150, onG: 210 };
    const head = balanceChange({ strapButtonXMm: 420, moved: [tuners] });
    expect(head).toEqual({ headwardGMm: 30000, atNutG: expect.closeTo(71.43, 2), massG: 60 });
    // 100 g at 720 pull the other way by 100 x 300.
    const both = balanceChange({ strapButtonXMm: 420, moved: [tuners, { xMm: 720, offG: 0, onG: 100 }] });
    expect(both.headwardGMm).toBe(0);
  });
});

describe("[FT39] inch drawing", () => {
  // Demo "Ferry": 1.850 and 2.283 in against 47.0 and 58.0.
  it.each([
    { declaredMm: 47, drawnInch: 1.85, drawn: 46.99 },
    { declaredMm: 58, drawnInch: 2.283, drawn: 57.99 },
  ])("$drawnInch in is rounding alone", ({ declaredMm, drawnInch, drawn }) => {
    const line = inchDrawing({ declaredMm, drawnInch, decimals: 3 });
    expect(Math.abs(line.drawnMm - drawn)).toBeLessThan(0.0051);
    expect(line.marginMm).toBeGreaterThan(0);
    expect(line.roundingMm).toBeCloseTo(0.0127, 9);
    expect(line.converted).toBe("once");
  });
  it("sees a figure that was converted twice, or never", () => {
    expect(inchDrawing({ declaredMm: 46.99 * 25.4, drawnInch: 1.85, decimals: 3 }).converted).toBe("twice");
    expect(inchDrawing({ declaredMm: 1.85, drawnInch: 1.85, decimals: 3 }).converted).toBe("not at all");
    expect(inchDrawing({ declaredMm: 47.1, drawnInch: 1.85, decimals: 3 }).marginMm).toBeLessThan(0);
    // Below as well as above.
    expect(inchDrawing({ declaredMm: 46.9, drawnInch: 1.85, decimals: 3 }).marginMm).toBeCloseTo(0.0127 - 0.09, 9);
    expect(() => inchDrawing({ declaredMm: 47, drawnInch: 1.85, decimals: 7 })).toThrow(/^decimals/);
  });
});

describe("[FT40] face down", () => {
  // Demo "Ferry": p 47.0 at -20, 0, 20 and p 58.0 at ±10: symmetrical, so a sheet laid face down would look right.
  const ferry = [-20, 0, 20].map((qMm) => ({ pMm: 47, qMm })).concat([-10, 10].map((qMm) => ({ pMm: 58, qMm })));
  it("warns of a symmetrical pattern", () => {
    expect(faceDown({ holes: ferry, withinMm: 1 })).toEqual({ looksRightFaceDown: true, worstMm: 0 });
  });
  it("trusts one that is not", () => {
    const odd = faceDown({ holes: [...ferry, { pMm: 60, qMm: 25 }], withinMm: 1 });
    expect(odd.looksRightFaceDown).toBe(false);
    // Mirrored to (60, -25): the nearest hole is (47, -20), √(13² + 5²) away.
    expect(odd.worstMm).toBeCloseTo(Math.hypot(13, 5), 9);
  });
});

describe("[FT41] string ground", () => {
  it("a coated plate needs a bare spot", () => {
    expect(stringGround({ coated: true, wireFound: true })).toBe("make bare");
    expect(stringGround({ coated: false, wireFound: true })).toBe("bare");
    expect(stringGround({ coated: false, wireFound: false })).toBe("meter first");
  });
});

it("every rule has its own id, a formula and a source", () => {
  const rules = Object.values(RULES);
  expect(new Set(rules.map((rule) => rule.id)).size).toBe(rules.length);
  for (const rule of rules) {
    expect(rule.formula).not.toBe("");
    expect(rule.source.text).not.toBe("");
  }
});
