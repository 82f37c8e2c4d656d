import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  centsLeft,
  scaleLineFromFret12Mm,
  scaleLineFromHeelChainMm,
  scaleLineFromScaleLengthMm,
  setbackFromCentsMm,
  setbackFromOldSaddleMm,
  shareSaddle,
  stringRuns,
} from "../../../src/core/scale/index.ts";

const SEED = 20240612;
/** Evenly spread; doubles as such crowd about 0. */
const num = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((n) => min + ((max - min) * n) / 1_000_000);
const DEMOS = JSON.parse(readFileSync(new URL("../../reference/bridge/demos.json", import.meta.url), "utf8"));

describe("[BR3] setback from cents", () => {
  // Cents and setbacks as printed for both demos, two decimals.
  const demo = (name: string, scaleLengthMm: number, cents: number[], setbacks: number[]) =>
    cents.map((c, i) => ({ name, string: i + 1, scaleLengthMm, cents: c, setbackMm: setbacks[i] as number }));
  it.each([
    ...demo("Lowtide", 690, DEMOS.lowtide.cents, DEMOS.lowtide.setbacksMm.plainThird),
    ...demo("Ferry", 864, DEMOS.ferry.cents, DEMOS.ferry.setbacksMm),
  ])("$name string $string", ({ scaleLengthMm, cents, setbackMm }) => {
    const found = setbackFromCentsMm({ scaleLengthMm, fret: 12, cents, trialSetbackMm: 0 });
    expect(Math.abs(found - setbackMm)).toBeLessThan(0.006);
  });

  it("1 cent at fret 12 is 0.37 at 648, 0.40 at 690, 0.50 at 864", () => {
    for (const [scaleLengthMm, setback] of [
      [648, 0.37],
      [690, 0.4],
      [864, 0.5],
    ] as const) {
      expect(
        Math.abs(setbackFromCentsMm({ scaleLengthMm, fret: 12, cents: 1, trialSetbackMm: 0 }) - setback),
      ).toBeLessThan(0.005);
    }
  });

  it("agrees with the pitch of two lengths to first order, at any fret", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 24 }), num(-2, 2), num(400, 900), (fret, cents, scaleLengthMm) => {
        const d = setbackFromCentsMm({ scaleLengthMm, fret, cents, trialSetbackMm: 0 });
        const held = scaleLengthMm * 2 ** (-fret / 12);
        // What the move takes off the interval between open and fretted, from the lengths themselves.
        const taken = 1200 * Math.log2((held + d) / held / ((scaleLengthMm + d) / scaleLengthMm));
        // Second order: half the sum of the move's shares of both lengths, and a tenth for the third.
        const second = (Math.abs(d) / held + Math.abs(d) / scaleLengthMm) / 2;
        expect(Math.abs(taken - cents)).toBeLessThan(1.1 * second * Math.abs(cents) + 1e-9);
      }),
      { seed: SEED },
    );
  });

  it("adds the setback of the trial and is undone by centsLeft", () => {
    const d = setbackFromCentsMm({ scaleLengthMm: 648, fret: 7, cents: 4, trialSetbackMm: 0 });
    expect(setbackFromCentsMm({ scaleLengthMm: 648, fret: 7, cents: 4, trialSetbackMm: 1.5 })).toBeCloseTo(d + 1.5, 12);
    expect(centsLeft({ scaleLengthMm: 648, fret: 7, shortMm: d })).toBeCloseTo(4, 12);
  });

  it("refuses the open string", () => {
    expect(() => setbackFromCentsMm({ scaleLengthMm: 648, fret: 0, cents: 4, trialSetbackMm: 0 })).toThrow(/^fret:/);
  });
});

describe("[BR4] setback from the old saddle", () => {
  it("is the difference of two distances from fret 12: the rule's scale error cancels", () => {
    const s = setbackFromOldSaddleMm({ nutToFret12Mm: 324, fret12ToContactMm: 326.4, changeMm: 0.6 });
    expect(s).toBeCloseTo(3.0, 12);
    // A rule 0.1 % long reads both short and changes the setback by 0.1 % only.
    const long = setbackFromOldSaddleMm({
      nutToFret12Mm: 324 / 1.001,
      fret12ToContactMm: 326.4 / 1.001,
      changeMm: 0.6,
    });
    expect(Math.abs(long - s)).toBeLessThan(0.003);
  });
});

describe("[BR5] scale line on the body", () => {
  it("Lowtide: 345, 163 and no gap give u 182, 4.0 behind the old line", () => {
    const u = scaleLineFromHeelChainMm({ nutToFret12Mm: 345, fret12ToHeelEndMm: 163, heelGapMm: 0 });
    const old = scaleLineFromScaleLengthMm({ scaleLengthMm: 648, nutToHeelEndMm: 470, heelGapMm: 0 });
    expect([u, old, u - old]).toEqual([182, 178, 4]);
    expect(scaleLineFromScaleLengthMm({ scaleLengthMm: 690, nutToHeelEndMm: 508, heelGapMm: 0 })).toBe(182);
    // Fret 12 of the bolted neck lies 163 before the end wall.
    expect(scaleLineFromFret12Mm({ fret12UMm: -163, nutToFret12Mm: 345 })).toBe(182);
  });

  it("a gap carries the line toward the neck", () => {
    expect(scaleLineFromHeelChainMm({ nutToFret12Mm: 345, fret12ToHeelEndMm: 163, heelGapMm: 0.4 })).toBeCloseTo(
      181.6,
      12,
    );
  });

  it("doubt of the chain is 0.46, as in both demos", () => {
    // Sensitivities by differences: 1, -1, -1; rule 0.25, 0.25, heel 0.30.
    const at = (n: number, h: number, g: number) =>
      scaleLineFromHeelChainMm({ nutToFret12Mm: n, fret12ToHeelEndMm: h, heelGapMm: g });
    const u = Math.hypot((at(346, 163, 0) - 182) * 0.25, (at(345, 164, 0) - 182) * 0.25, (at(345, 163, 1) - 182) * 0.3);
    expect(Math.abs(u - 0.46)).toBeLessThan(0.005);
  });
});

describe("[BR6] two strings on one saddle", () => {
  it("leaves half the difference on each, one sharp and one flat", () => {
    // Half of 0.64 is 0.32; times 1731.23/690 = 0.80 cents.
    const shared = shareSaddle({ scaleLengthMm: 690, setbacksMm: [3.75, 3.11], apartMm: 10.5 });
    expect(shared.setbackMm).toBeCloseTo(3.43, 12);
    expect(shared.centsLeft[0]).toBeCloseTo((0.32 * 1200) / Math.LN2 / 690, 9);
    expect(shared.centsLeft[1]).toBeCloseTo(-shared.centsLeft[0], 12);
    expect(shared.angleDegrees).toBeCloseTo((Math.atan(0.64 / 10.5) * 180) / Math.PI, 12);
  });

  it("alike strings share without loss", () => {
    expect(shareSaddle({ scaleLengthMm: 690, setbacksMm: [2, 2], apartMm: 10 })).toMatchObject({
      centsLeft: [0, 0],
      angleDegrees: 0,
    });
  });
});

describe("[BR7] multi-scale", () => {
  const neck = {
    scaleLengthsMm: [648, 655, 662, 669, 676, 686],
    nutYMm: [18, 10.8, 3.6, -3.6, -10.8, -18],
    bridgeYMm: [26.25, 15.75, 5.25, -5.25, -15.75, -26.25],
    squareFret: 7,
    measured: "along the centre line" as const,
  };

  it("all strings cross the square fret at one x, and x is 0 where the nut crosses the centre line", () => {
    const runs = stringRuns(neck);
    const share = 1 - 2 ** (-7 / 12);
    const crossings = runs.map((run) => run.nutXMm + run.lengthAlongCentreLineMm * share);
    for (const x of crossings) expect(x).toBeCloseTo(crossings[0] as number, 9);
    // Strings 3 and 4 lie alike on either side of the middle.
    expect(((runs[2]?.nutXMm as number) + (runs[3]?.nutXMm as number)) / 2).toBeCloseTo(0, 9);
    runs.forEach((run, i) => {
      expect(run.scaleEndXMm - run.nutXMm).toBeCloseTo(neck.scaleLengthsMm[i] as number, 9);
    });
  });

  it("yaw is atan((y at the bridge - y at the nut) / L), under 1°, positive toward y > 0", () => {
    const yaw = stringRuns(neck).map((run) => run.yawDegrees);
    expect(yaw[0]).toBeCloseTo((Math.atan(8.25 / 648) * 180) / Math.PI, 9);
    expect(yaw[5]).toBeCloseTo((Math.atan(-8.25 / 686) * 180) / Math.PI, 9);
    expect(Math.max(...yaw.map(Math.abs))).toBeLessThan(1);
  });

  it("lengths along the string end shorter along the centre line by Pythagoras", () => {
    const run = stringRuns({ ...neck, measured: "along the string" })[0];
    expect(run?.lengthAlongCentreLineMm).toBeCloseTo(Math.sqrt(648 ** 2 - 8.25 ** 2), 9);
  });

  it("one length for all is an ordinary neck, whatever the square fret", () => {
    for (const squareFret of [0, 7, 12]) {
      for (const run of stringRuns({ ...neck, scaleLengthsMm: Array(6).fill(648), squareFret })) {
        expect(run.nutXMm).toBeCloseTo(0, 9);
        expect(run.scaleEndXMm).toBeCloseTo(648, 9);
      }
    }
  });

  it("mirrors with the hand: y reversed, yaw reversed, x alike", () => {
    const right = stringRuns(neck);
    const left = stringRuns({ ...neck, nutYMm: neck.nutYMm.map((y) => -y), bridgeYMm: neck.bridgeYMm.map((y) => -y) });
    left.forEach((run, i) => {
      expect(run.nutXMm).toBeCloseTo(right[i]?.nutXMm as number, 9);
      expect(run.yawDegrees).toBeCloseTo(-(right[i]?.yawDegrees as number), 9);
    });
  });

  it("refuses lists of different lengths", () => {
    expect(() => stringRuns({ ...neck, nutYMm: [1] })).toThrow(/as many as the strings, got 6, 1 and 6/);
  });
});
