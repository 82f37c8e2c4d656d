import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  heightChangeAlongMm,
  heightOfTurnsMm,
  heightsWithShimMm,
  pitchFromThreadsPerInchMm,
  saddleChangeForActionMm,
  screwTurn,
  shimAngleDegrees,
  shimForRiseMm,
  shimRange,
} from "../../../src/core/setup/index.ts";

const SEED = 20240614;
/** Evenly spread; doubles as such crowd about 0. */
const num = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((n) => min + ((max - min) * n) / 1_000_000);
const { ferry } = JSON.parse(readFileSync(new URL("../../reference/bridge/demos.json", import.meta.url), "utf8"));
const expected = ferry.expected;

/** Bass demo: range 12 to 17, reserve 0.5, pocket from x 505 to 600. */
const POCKET = { mouthMm: 505, heelEndMm: 600 };
const WANTED = {
  neededMm: [9.452, 11.016, 11.257, 10.157],
  contactsMm: [866, 866.7, 867.19, 868.64],
  lowestMm: 12,
  highestMm: 17,
  reserveMm: 0.5,
  pocket: POCKET,
};

describe("[SU5] shim", () => {
  it("Ferry: short 2.55 and 1.84; least 0.80 at 0.48°, bound by G", () => {
    const shim = shimRange(WANTED);
    expect(shim.needed).toBe(true);
    expect(shim.thick).toBe("heel end");
    expect(Math.abs((shim.shortMm[0] as number) - expected.shortG)).toBeLessThan(0.005);
    expect(Math.abs((shim.shortMm[3] as number) - expected.shortE)).toBeLessThan(0.005);
    expect(Math.abs(shim.minMm - expected.shimLeast)).toBeLessThan(0.005);
    expect(Math.abs(shim.leastAngleDegrees - expected.shimAngle)).toBeLessThan(0.005);
    expect(shim.minIndex).toBe(0);
    // Greatest: the A string's 11.26 may come up to 16.5, (16.5 - 11.257)·95/362.19.
    expect(shim.maxIndex).toBe(2);
    expect(shim.maxMm).toBeCloseTo(((16.5 - 11.257) * 95) / 362.19, 9);
  });

  it("Ferry: takes 0.90 at 0.54°, and the contacts then stand at the printed heights", () => {
    const shim = shimRange(WANTED);
    expect(shim.takeMm).toBe(expected.shimTaken);
    expect(Math.abs((shim.takeAngleDegrees as number) - expected.takenAngle)).toBeLessThan(0.005);
    const heights = heightsWithShimMm({ ...WANTED, thicknessMm: 0.9, thick: "heel end" });
    (expected.contactsWithShim as number[]).forEach((z, i) => {
      expect(Math.abs((heights[i] as number) - z)).toBeLessThan(0.006);
    });
  });

  it("rise of 3.05 at 866 over a pocket of 95 from 505 is 0.80", () => {
    const thickness = shimForRiseMm({ riseMm: expected.rise, pocket: POCKET, contactMm: 866, thick: "heel end" });
    expect(thickness).toBeCloseTo((3.05 * 95) / 361, 12);
    expect(shimAngleDegrees({ thicknessMm: 0.9, pocketLengthMm: 95 })).toBeCloseTo(
      (Math.atan(0.9 / 95) * 180) / Math.PI,
      12,
    );
  });

  it("needs none where all saddles have room", () => {
    const shim = shimRange({ ...WANTED, neededMm: [13, 14, 14, 13] });
    expect(shim).toMatchObject({ needed: false, minMm: 0, takeMm: undefined });
  });

  it("saddles too high: thick at the mouth, turning about the heel's end", () => {
    // 17.5 must come down by 1.0 at 866, which lies 266 behind the heel's end: 1.0·95/266.
    const shim = shimRange({ ...WANTED, neededMm: [17.5, 16, 16, 16] });
    expect(shim.thick).toBe("mouth");
    expect(shim.minMm).toBeCloseTo(95 / 266, 9);
    const heights = heightsWithShimMm({
      ...WANTED,
      neededMm: [17.5, 16, 16, 16],
      thicknessMm: shim.minMm,
      thick: "mouth",
    });
    expect(heights[0]).toBeCloseTo(16.5, 9);
  });

  it("says when nothing will do: one saddle at the floor, one at the top", () => {
    const shim = shimRange({ ...WANTED, neededMm: [9, 16.4, 16.4, 16.4] });
    expect(shim.maxMm).toBeLessThan(shim.minMm);
    expect(shim.takeMm).toBeUndefined();
  });

  it("any thickness between least and greatest, and none outside, keeps every reserve", () => {
    const z = num(8, 18);
    fc.assert(
      fc.property(fc.tuple(z, z, z, z), num(0, 3), (neededMm, thicknessMm) => {
        const want = { ...WANTED, neededMm };
        const shim = shimRange(want);
        const heights = heightsWithShimMm({ ...want, thicknessMm, thick: shim.thick });
        const inside = heights.every((height) => height >= 12.5 && height <= 16.5);
        const near = Math.min(Math.abs(thicknessMm - shim.minMm), Math.abs(thicknessMm - shim.maxMm)) < 1e-9;
        if (!near) expect(inside).toBe(thicknessMm >= shim.minMm && thicknessMm <= shim.maxMm);
      }),
      { seed: SEED },
    );
  });

  it("refuses a range smaller than its reserves", () => {
    expect(() => shimRange({ ...WANTED, highestMm: 12.5 })).toThrow(/^highestMm:/);
    expect(() => shimRange({ ...WANTED, contactsMm: [590, 866, 867, 868] })).toThrow(/behind the heel's end at 600 mm/);
  });
});

interface Case {
  readonly id: string;
  readonly topic: string;
  readonly inputs: Readonly<Record<string, number | string>>;
  readonly expected: Readonly<Record<string, number>>;
  readonly tolerance: number;
}
const CASES: readonly Case[] = JSON.parse(
  readFileSync(new URL("../../reference/setup/cases.json", import.meta.url), "utf8"),
);

/** ISO coarse pitches (ISO 261); numbered inch threads by threads per inch. */
const PITCH: Readonly<Record<string, number>> = {
  M2: 0.4,
  "M2.5": 0.45,
  M3: 0.5,
  M4: 0.7,
  "#4-40": pitchFromThreadsPerInchMm(40),
  "#8-32": pitchFromThreadsPerInchMm(32),
};

describe("[SU6] screw: reference cases", () => {
  const screws = CASES.filter((one) => one.topic === "thread height");
  it("has them", () => {
    expect(screws.length).toBeGreaterThanOrEqual(6);
  });

  it.each(screws)("$id", ({ inputs, expected: want, tolerance }) => {
    const pitchMm = PITCH[inputs.thread as string] as number;
    if (want.height_mm !== undefined) {
      expect(
        Math.abs(heightOfTurnsMm({ turns: inputs.turns as number, pitchMm }) - want.height_mm),
      ).toBeLessThanOrEqual(tolerance);
    } else if (want.action_change_at_12th_mm !== undefined) {
      const saddleMm = heightOfTurnsMm({ turns: inputs.bridge_turns as number, pitchMm });
      expect(
        Math.abs(
          heightChangeAlongMm({ saddleMm, share: inputs.position_ratio as number }) - want.action_change_at_12th_mm,
        ),
      ).toBeLessThanOrEqual(tolerance);
    } else {
      const turn = screwTurn({ changeMm: inputs.height_mm as number, pitchMm });
      expect(Math.abs(turn.turns - (want.turns as number))).toBeLessThanOrEqual(tolerance);
      expect(Math.abs(turn.degrees - (want.degrees as number))).toBeLessThanOrEqual(tolerance);
    }
  });

  it("a tilt that is 0.5 high at fret 12 is 0.25085 high at fret 5 (published equation, 650 mm)", () => {
    const tilt = CASES.find((one) => one.id === "relief-tilt");
    // The same triangle: 0.5 at the half is 1.0 at the saddle.
    const share = 1 - 2 ** (-5 / 12);
    expect(
      Math.abs(heightChangeAlongMm({ saddleMm: 1, share }) - Object.values(tilt?.expected ?? {})[0]!),
    ).toBeLessThan(0.0001);
  });

  it("a change at fret 12 costs double at the saddle, and the setback a little more", () => {
    expect(saddleChangeForActionMm({ actionMm: 0.25, scaleLengthMm: 648, setbackMm: 0 })).toBeCloseTo(0.5, 12);
    expect(saddleChangeForActionMm({ actionMm: 0.25, scaleLengthMm: 648, setbackMm: 3.24 })).toBeCloseTo(
      0.5 * 1.005,
      12,
    );
  });
});
