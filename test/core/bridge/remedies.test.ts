import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { normalCdf } from "../../../src/core/bridge/chance.ts";
import {
  ballToNutMm,
  breakAngleDegrees,
  drillGuide,
  drillTipMm,
  neededTravelMm,
  plateWindow,
  requiredRanges,
  reserveProbability,
  windingPastNutMm,
  windowRemedies,
} from "../../../src/core/bridge/index.ts";
import { ferry, lowtide, saddlesOf } from "./demos.ts";

const SEED = 20240620;
/** Evenly spread; doubles as such crowd about 0. */
const num = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((n) => min + ((max - min) * n) / 1_000_000);
const PLAIN = saddlesOf(lowtide, lowtide.setbacksMm.plainThird);

describe("[BR30] remedies for Lowtide's plain third", () => {
  const remedies = windowRemedies({
    ...PLAIN,
    reserveMm: 0.5,
    turnedRoundMm: lowtide.turnedRoundMm,
    spares: [{ index: 2, targetMm: 182 + 2.11 }],
    reservesMm: [0.3],
  });

  it("the wound third opens it to 170.25…171.49, widest of all that open", () => {
    expect(remedies[0]).toMatchObject({
      kind: "another string",
      index: 2,
      opens: true,
      window: { minMm: expect.closeTo(170.25, 9), maxMm: expect.closeTo(171.49, 9) },
    });
  });

  it("saddle 3 turned round opens it to 170.92…171.49", () => {
    const turned = remedies.find((remedy) => remedy.kind === "turned saddle" && remedy.opens);
    expect(turned).toMatchObject({
      indexes: [2],
      window: { minMm: expect.closeTo(170.92, 9), maxMm: expect.closeTo(171.49, 9) },
    });
  });

  it("no reserve at all is still short by 0.83", () => {
    const none = remedies.find((remedy) => remedy.kind === "smaller reserve" && remedy.reserveMm === 0);
    expect(none?.opens).toBe(false);
    expect(none?.window.widthMm).toBeCloseTo(-0.83, 9);
  });

  it("each remedy is judged by the window itself, those that open first", () => {
    const opens = remedies.map((remedy) => remedy.opens);
    expect(opens).toEqual([...opens].sort((a, b) => Number(b) - Number(a)));
    const longer = remedies.find((remedy) => remedy.kind === "longer travel");
    expect(longer).toMatchObject({ atFrontMm: expect.closeTo(0.915, 9), opens: true });
  });
});

describe("[BR31] to buy by numbers", () => {
  it("a bridge with the required ranges stands anywhere in the stretch and nowhere beyond it", () => {
    fc.assert(
      fc.property(
        fc.array(num(180, 190), { minLength: 1, maxLength: 8 }),
        num(165, 172),
        num(0, 3),
        num(0, 1),
        (targetsMm, placeFromMm, stretch, reserveMm) => {
          const ranges = requiredRanges({ targetsMm, reserveMm, placeFromMm, placeToMm: placeFromMm + stretch });
          const window = plateWindow({
            targetsMm,
            fromMm: ranges.map((one) => one.fromMm),
            toMm: ranges.map((one) => one.toMm),
            reserveMm,
          });
          expect(window.minMm).toBeCloseTo(placeFromMm, 9);
          expect(window.maxMm).toBeCloseTo(placeFromMm + stretch, 9);
        },
      ),
      { seed: SEED },
    );
  });

  it("without doubt the travel is spread + 2 reserves: 4.71 + 1.0 for Lowtide's plain third", () => {
    const want = neededTravelMm({ targetsMm: PLAIN.targetsMm, reserveMm: 0.5, doubt: { sharedMm: 0, stringMm: 0 } });
    expect(want.spreadMm).toBeCloseTo(6.82 - 2.11, 9);
    expect(want.travelMm).toBeCloseTo(5.71, 9);
  });

  it("a shared doubt alone adds 1.96 u at each end for 0.95 (two-sided normal)", () => {
    const want = neededTravelMm({ targetsMm: [184, 186], reserveMm: 0.5, doubt: { sharedMm: 0.18, stringMm: 0 } });
    // One end binds to each side, so P is that of one normal inside ±k u: k = 1.959964.
    expect(want.forDoubtMm).toBeCloseTo(1.959964 * 0.18, 5);
    expect(want.travelMm).toBeCloseTo(2 + 1 + 2 * 1.959964 * 0.18, 5);
  });

  it("keeps the probability asked for, string errors included", () => {
    const doubt = { sharedMm: 0.18, stringMm: 0.2 };
    const want = neededTravelMm({ targetsMm: PLAIN.targetsMm, reserveMm: 0.5, doubt, probability: 0.95 });
    const middle = (Math.min(...PLAIN.targetsMm) + Math.max(...PLAIN.targetsMm)) / 2;
    const probability = reserveProbability({
      targetsMm: PLAIN.targetsMm,
      fromMm: PLAIN.targetsMm.map(() => middle - want.travelMm / 2),
      toMm: PLAIN.targetsMm.map(() => middle + want.travelMm / 2),
      placeMm: 0,
      reserveMm: 0.5,
      doubt,
    });
    expect(probability).toBeCloseTo(0.95, 6);
  });
});

describe("[BR32] probability that all reserves hold", () => {
  it("Lowtide at 170.9, wound third: 0.63 by rule and hand drill, 0.98 by transfer and self-centring bit", () => {
    const wound = saddlesOf(lowtide, lowtide.setbacksMm.woundThird);
    const at = (scaleLine: number, drilling: number) =>
      reserveProbability({
        ...wound,
        placeMm: 170.9,
        reserveMm: 0.5,
        doubt: { sharedMm: Math.hypot(scaleLine, drilling), stringMm: 0.2 },
      });
    expect(Math.abs(at(0.46, 0.45) - (lowtide.expected.probabilityRule as number))).toBeLessThan(0.005);
    expect(Math.abs(at(0.15, 0.1) - (lowtide.expected.probabilityTransfer as number))).toBeLessThan(0.005);
  });

  it("agrees with plain sampling", () => {
    const wound = saddlesOf(lowtide, lowtide.setbacksMm.woundThird);
    let state = 7;
    const uniform = () => {
      state = (1664525 * state + 1013904223) % 4294967296;
      return (state + 0.5) / 4294967296;
    };
    const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
    const placeMm = 171.2;
    let inside = 0;
    const draws = 40_000;
    for (let n = 0; n < draws; n++) {
      const shift = 0.3 * normal();
      let all = true;
      wound.targetsMm.forEach((target, i) => {
        const p = target + 0.25 * normal() - placeMm - shift;
        if (p < (wound.fromMm[i] as number) + 0.5 || p > (wound.toMm[i] as number) - 0.5) all = false;
      });
      if (all) inside++;
    }
    const exact = reserveProbability({ ...wound, placeMm, reserveMm: 0.5, doubt: { sharedMm: 0.3, stringMm: 0.25 } });
    // Four standard errors of a share near a half.
    expect(Math.abs(inside / draws - exact)).toBeLessThan((4 * 0.5) / Math.sqrt(draws));
  });

  it("normal distribution function at tabulated points", () => {
    // Standard table, ten digits: Φ(1) = 0.8413447461, Φ(1.96) = 0.9750021049, Φ(3) = 0.9986501020, Φ(-4) = 3.167124183e-5.
    expect(normalCdf(1)).toBeCloseTo(0.8413447461, 10);
    expect(normalCdf(1.96)).toBeCloseTo(0.9750021049, 10);
    expect(normalCdf(3)).toBeCloseTo(0.998650102, 10);
    expect(normalCdf(-4) / 3.167124183e-5).toBeCloseTo(1, 8);
    expect([normalCdf(0), normalCdf(50), normalCdf(-50)]).toEqual([0.5, 1, 0]);
    expect(normalCdf(2.9999999)).toBeCloseTo(normalCdf(3.0000001), 8);
  });

  it("limits: no doubt is yes or no; string doubt of 0 is the limit of a small one", () => {
    const one = { targetsMm: [200], fromMm: [10], toMm: [14], reserveMm: 0.5 };
    expect(reserveProbability({ ...one, placeMm: 188, doubt: { sharedMm: 0, stringMm: 0 } })).toBe(1);
    expect(reserveProbability({ ...one, placeMm: 186, doubt: { sharedMm: 0, stringMm: 0 } })).toBe(0);
    const exact = reserveProbability({ ...one, placeMm: 186.5, doubt: { sharedMm: 0.3, stringMm: 0 } });
    const small = reserveProbability({ ...one, placeMm: 186.5, doubt: { sharedMm: 0.3, stringMm: 0.001 } });
    expect(exact).toBeCloseTo(0.5, 9);
    expect(small).toBeCloseTo(exact, 4);
  });
});

describe("[BR33] winding length of the bass (B-T9)", () => {
  const contacts = [
    [866, 12.87],
    [866.7, 14.44],
    [867.19, 14.69],
    [868.64, 13.6],
  ] as const;
  const past = (anchor: Parameters<typeof ballToNutMm>[0]["anchor"]) =>
    contacts.map(([xMm, zMm]) => windingPastNutMm({ contact: { xMm, zMm }, anchor, windingLengthMm: 920 }));

  it("from the top: passes the nut by 6.7 on the worst string", () => {
    const found = past({ kind: "top", xMm: 848.5 + 64, zMm: 6 });
    expect(Math.abs(Math.min(...found) - ferry.expected.topPastNut)).toBeLessThan(0.05);
  });

  it("through the body: ends 3.3 to 4.8 short of it", () => {
    const found = past({ kind: "through", xMm: 848.5 + 30, zMm: 4, downMm: 42 });
    const [worst, best] = ferry.expected.throughPastNut as readonly [number, number];
    expect(Math.abs(Math.min(...found) - worst)).toBeLessThan(0.05);
    expect(Math.abs(Math.max(...found) - best)).toBeLessThan(0.05);
  });

  it("closed form: a 3-4-5 triangle behind the saddle; break angle of a level string", () => {
    const string = { contact: { xMm: 600, zMm: 14 }, anchor: { kind: "top", xMm: 604, zMm: 11 } as const };
    expect(ballToNutMm(string)).toBeCloseTo(605, 12);
    // A string that climbs 6 over 600 toward the saddle adds that slope.
    const climbs = (Math.atan(3 / 4) + Math.atan(6 / 600)) * (180 / Math.PI);
    expect(breakAngleDegrees({ ...string, nutZMm: 8 })).toBeCloseTo(climbs, 9);
    expect(breakAngleDegrees({ ...string, nutZMm: 14 })).toBeCloseTo((Math.atan(3 / 4) * 180) / Math.PI, 9);
  });
});

describe("[BR34] drilling depth", () => {
  it("tip of a 118° drill: d / (2 tan 59°), 0.30 d; 90° is d/2, 180° none", () => {
    // tan 59° = 1.6642795 (table).
    expect(drillTipMm({ diameterMm: 3 })).toBeCloseTo(3 / (2 * 1.6642795), 6);
    expect(drillTipMm({ diameterMm: 3, pointAngleDegrees: 90 })).toBeCloseTo(1.5, 12);
    expect(drillTipMm({ diameterMm: 3, pointAngleDegrees: 180 })).toBe(0);
    expect(() => drillTipMm({ diameterMm: 3, pointAngleDegrees: 0 })).toThrow(/^pointAngleDegrees:/);
  });

  it("stop and wood left, through the plate or not", () => {
    const hole = {
      diameterMm: 2.5,
      depthMm: 24,
      depthTo: "full diameter",
      woodMm: 44.5,
      throughPlateMm: 0,
      leaveMm: 4,
    } as const;
    const tip = 2.5 / (2 * 1.6642795);
    const plain = drillGuide(hole);
    expect(plain.stopMm).toBeCloseTo(24 + tip, 6);
    expect(plain.woodLeftMm).toBeCloseTo(44.5 - 24 - tip, 6);
    expect(drillGuide({ ...hole, throughPlateMm: 3 }).stopMm).toBeCloseTo(27 + tip, 6);
    expect(drillGuide({ ...hole, depthTo: "tip" }).stopMm).toBe(24);
    // Drilled as deep as is said to be the most, just the wood wanted is left.
    expect(drillGuide({ ...hole, depthMm: plain.deepestMm }).marginMm).toBeCloseTo(0, 12);
    expect(drillGuide({ ...hole, depthMm: 42 }).marginMm).toBeLessThan(0);
  });
});
