import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  actionFromSaddleMm,
  coneRadiusMm,
  countPlaneFrom,
  dropMm,
  fretPlaneFromHeel,
  fretPlaneFromStraightedge,
  planeHeightMm,
  radiusAtMm,
  radiusFromSagittaMm,
  reliefRiseMm,
  type StringLine,
  saddleArcMm,
  saddleHeight,
  saddleHeightMm,
  sagittaMm,
} from "../../../src/core/setup/index.ts";

const SEED = 20240613;
/** Evenly spread; doubles as such crowd about 0. */
const num = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((n) => min + ((max - min) * n) / 1_000_000);
const DEMOS = JSON.parse(readFileSync(new URL("../../reference/bridge/demos.json", import.meta.url), "utf8"));

/** Baritone demo, wound third; places counted from the nut. */
const LOWTIDE = [
  [1.8, 0.45, 2.11],
  [1.88, 0.48, 3.75],
  [1.96, 0.51, 2.11],
  [2.04, 0.54, 2.99],
  [2.12, 0.57, 3.27],
  [2.2, 0.6, 4.26],
].map(
  ([actionMm, nutHeightMm, setbackMm], i): StringLine => ({
    scaleLengthMm: 690,
    setbackMm: setbackMm as number,
    plane: countPlaneFrom(fretPlaneFromHeel({ heelThicknessMm: 24.6, pocketDepthMm: 16, fretHeightMm: 1.2 }), 508),
    reliefMm: 0.2,
    freeLengthMm: 440,
    board: { atNutMm: 356, atEndMm: 356, endXMm: 500 },
    nutYMm: 18 - 7.2 * i,
    contactYMm: 26.25 - 10.5 * i,
    nutHeightMm: nutHeightMm as number,
    actionMm: actionMm as number,
  }),
);

/** Bass demo, left-handed: string 1 at y < 0. */
const FERRY = [
  [1.9, 0.5, 2.0],
  [2.03, 0.53, 2.7],
  [2.17, 0.57, 3.19],
  [2.3, 0.6, 4.64],
].map(
  ([actionMm, nutHeightMm, setbackMm], i): StringLine => ({
    scaleLengthMm: 864,
    setbackMm: setbackMm as number,
    plane: fretPlaneFromHeel({ heelThicknessMm: 25, pocketDepthMm: 17.5, fretHeightMm: 1.3 }),
    reliefMm: 0.3,
    freeLengthMm: 505,
    board: { atNutMm: 241, atEndMm: 241, endXMm: 600 },
    nutYMm: -15 + 10 * i,
    contactYMm: -28.5 + 19 * i,
    nutHeightMm: nutHeightMm as number,
    actionMm: actionMm as number,
  }),
);

const plain: StringLine = {
  ...(LOWTIDE[0] as StringLine),
  setbackMm: 0,
  plane: { zMm: 9.8, atMm: 0, slope: 0 },
  reliefMm: 0,
  board: { atNutMm: Number.POSITIVE_INFINITY, atEndMm: Number.POSITIVE_INFINITY, endXMm: 500 },
};

describe("[SU4] saddle height", () => {
  it.each([
    { name: "Lowtide, wound third", strings: LOWTIDE, needed: DEMOS.lowtide.expected.neededZ as number[] },
    { name: "Ferry", strings: FERRY, needed: DEMOS.ferry.expected.neededZ as number[] },
  ])("$name: the needed heights to their two printed decimals", ({ strings, needed }) => {
    strings.forEach((string, i) => {
      expect(Math.abs(saddleHeightMm(string) - (needed[i] as number))).toBeLessThan(0.00501);
    });
  });

  it("flat board, no relief: similar triangles, 2 action - nut height above the plane", () => {
    expect(saddleHeightMm(plain)).toBeCloseTo(9.8 + 2 * plain.actionMm - plain.nutHeightMm, 12);
  });

  it("relief lowers the need: it lifts the nut by 4 r and fret 12 by 4 r (1 - x/l)²", () => {
    // z_s = 2 z_12 - z_n at no setback, so relief changes it by 8 r (1 - 345/440)² - 4 r.
    const change = saddleHeightMm({ ...plain, reliefMm: 0.2 }) - saddleHeightMm(plain);
    expect(change).toBeCloseTo(8 * 0.2 * (1 - 345 / 440) ** 2 - 4 * 0.2, 12);
  });

  it("follows a plane that climbs: z at the saddle rises by the slope times the place", () => {
    const tilted = saddleHeightMm({ ...plain, setbackMm: 3, plane: { zMm: 9.8, atMm: 0, slope: 0.005 } });
    expect(tilted - saddleHeightMm({ ...plain, setbackMm: 3 })).toBeCloseTo(0.005 * 693, 10);
  });

  it("a straightedge along each string touches the board only if the cone runs through the strings", () => {
    // R1 = R0 w1/w0 at the saddle: with action and nut height 0 the string lies on the board all the way.
    const onBoard = (y: number, share: number): StringLine => {
      const end = coneRadiusMm({ radiusAtNutMm: 254, spreadAtNutMm: 36, spreadThereMm: 52 });
      return {
        ...plain,
        board: { atNutMm: 254, atEndMm: end, endXMm: plain.scaleLengthMm },
        nutYMm: (y * 36) / 2,
        contactYMm: (y * 52) / 2,
        nutHeightMm: 0,
        actionMm: share,
      };
    };
    for (const y of [-1, -0.4, 0, 0.7, 1]) {
      const board = (x: number, string: StringLine) =>
        9.8 -
        dropMm({
          radiusMm: radiusAtMm(string.board, x),
          yMm: string.nutYMm + ((string.contactYMm - string.nutYMm) * x) / 690,
        });
      const string = onBoard(y, 0);
      expect(saddleHeightMm(string)).toBeCloseTo(board(690, string), 10);
      for (const x of [100, 300, 500]) {
        const onChord = board(0, string) + ((board(690, string) - board(0, string)) * x) / 690;
        expect(board(x, string)).toBeCloseTo(onChord, 10);
      }
      // Any other radius at the end leaves a gap for the outer strings.
      const other = { ...string, board: { ...string.board, atEndMm: 406.4 } };
      const gap = board(300, other) - (board(0, other) + ((board(690, other) - board(0, other)) * 300) / 690);
      if (Math.abs(y) === 1) expect(Math.abs(gap)).toBeGreaterThan(0.001);
    }
  });

  it("says the heights at nut and fret 12, in line with the saddle", () => {
    for (const string of [...LOWTIDE, ...FERRY]) {
      const { zMm, zNutMm, zFret12Mm } = saddleHeight(string);
      const slope = (zMm - zNutMm) / (string.scaleLengthMm + string.setbackMm);
      expect(zNutMm + slope * (string.scaleLengthMm / 2)).toBeCloseTo(zFret12Mm, 10);
    }
  });

  it("there and back: the action that a saddle gives is the one it was worked out for", () => {
    fc.assert(
      fc.property(fc.constantFrom(...LOWTIDE, ...FERRY), num(0.5, 4), (string, actionMm) => {
        const zMm = saddleHeightMm({ ...string, actionMm });
        expect(actionFromSaddleMm({ string, zMm })).toBeCloseTo(actionMm, 9);
      }),
      { seed: SEED },
    );
  });

  it("does not know left from right", () => {
    for (const string of LOWTIDE) {
      expect(saddleHeightMm({ ...string, nutYMm: -string.nutYMm, contactYMm: -string.contactYMm })).toBeCloseTo(
        saddleHeightMm(string),
        12,
      );
    }
  });

  it("refuses a radius narrower than the string's place", () => {
    expect(() => saddleHeightMm({ ...plain, board: { atNutMm: 10, atEndMm: 10, endXMm: 500 } })).toThrow(/^radiusMm:/);
  });
});

describe("[SU1] plane of the frets", () => {
  it("heel chains of both demos: 9.8 and 8.8", () => {
    expect(fretPlaneFromHeel({ heelThicknessMm: 24.6, pocketDepthMm: 16, fretHeightMm: 1.2 }).zMm).toBeCloseTo(9.8, 12);
    expect(fretPlaneFromHeel({ heelThicknessMm: 25, pocketDepthMm: 17.5, fretHeightMm: 1.3 }).zMm).toBeCloseTo(8.8, 12);
  });

  it("straightedge: two places give the line through them", () => {
    const plane = fretPlaneFromStraightedge([
      { atMm: 0, zMm: 9.8 },
      { atMm: 182, zMm: 11.62 },
    ]);
    expect(plane.slope).toBeCloseTo(0.01, 12);
    expect(planeHeightMm(plane, 0)).toBeCloseTo(9.8, 12);
    expect(planeHeightMm(plane, 364)).toBeCloseTo(13.44, 12);
    expect(planeHeightMm(countPlaneFrom(plane, 508), 508)).toBeCloseTo(9.8, 12);
  });

  it("straightedge: three places share the error (closed form of equal steps: slope from the outer two)", () => {
    const plane = fretPlaneFromStraightedge([
      { atMm: 0, zMm: 9 },
      { atMm: 100, zMm: 9.3 },
      { atMm: 200, zMm: 9.4 },
    ]);
    expect(plane.slope).toBeCloseTo(0.002, 12);
    expect(planeHeightMm(plane, 100)).toBeCloseTo((9 + 9.3 + 9.4) / 3, 12);
  });

  it("refuses one place", () => {
    const once = { atMm: 10, zMm: 9 };
    expect(() => fretPlaneFromStraightedge([once, once])).toThrow(/at least 2 different places, got 1/);
  });
});

describe("[SU2] relief", () => {
  it("lies r under the chord in the middle of the free length", () => {
    const neck = { reliefMm: 0.3, freeLengthMm: 505 };
    const chord = (reliefRiseMm(neck, 0) + reliefRiseMm(neck, 505)) / 2;
    expect(chord - reliefRiseMm(neck, 252.5)).toBeCloseTo(0.3, 12);
    expect(reliefRiseMm(neck, 505)).toBe(0);
    expect(reliefRiseMm(neck, 700)).toBe(0);
    expect(reliefRiseMm({ reliefMm: 0, freeLengthMm: 0 }, 0)).toBe(0);
  });
});

interface Case {
  readonly id: string;
  readonly topic: string;
  readonly inputs: Readonly<Record<string, number>>;
  readonly expected: Readonly<Record<string, number | readonly number[]>>;
  readonly tolerance: number | Readonly<Record<string, number>>;
}
const CASES: readonly Case[] = JSON.parse(
  readFileSync(new URL("../../reference/setup/cases.json", import.meta.url), "utf8"),
);
const of = (topic: string) => CASES.filter((one) => one.topic === topic);

describe("[SU3] radius: reference cases", () => {
  it("has them all", () => {
    expect([of("sagitta").length, of("saddle arc").length, of("compound radius").length]).toEqual([20, 3, 5]);
  });

  it.each(of("sagitta"))("$id", ({ id, inputs, expected, tolerance }) => {
    const { radius_mm: radiusMm = 0, width_mm: widthMm = 0 } = inputs;
    if (id === "sagitta-inverse") {
      const found = radiusFromSagittaMm({ widthMm, sagittaMm: inputs.sagitta_mm as number });
      expect(Math.abs(found - (expected.radius_mm as number))).toBeLessThan(tolerance as number);
    } else if (id === "sagitta-approx-error") {
      const exact = sagittaMm({ radiusMm, widthMm });
      expect(Math.abs(exact - (expected.exact_mm as number))).toBeLessThan(0.001);
      // The parabola w²/(8R) is this much low: the program must not use it.
      expect(Math.abs(1 - widthMm ** 2 / (8 * radiusMm) / exact - (expected.relative_error as number))).toBeLessThan(
        1e-4,
      );
    } else {
      // Printed to four decimals: half of the last.
      expect(Math.abs(sagittaMm({ radiusMm, widthMm }) - (expected.sagitta_mm as number))).toBeLessThanOrEqual(
        0.00005 + 1e-9,
      );
    }
  });

  it.each(of("saddle arc"))("$id", ({ inputs, expected }) => {
    const { radius_mm: radiusMm = 0, spread_mm: spread = 0, strings = 0 } = inputs;
    const yMm = Array.from({ length: strings }, (_, i) => spread / 2 - (spread * i) / (strings - 1));
    const heights = saddleArcMm({ radiusMm, yMm });
    (expected.height_above_outer_mm as readonly number[]).forEach((height, i) => {
      expect(Math.abs((heights[i] as number) - height)).toBeLessThanOrEqual(0.00005 + 1e-9);
    });
  });

  it.each(of("compound radius"))("$id", ({ id, inputs, expected }) => {
    if (id === "cone-natural") {
      const {
        R_nut_mm: radiusAtNutMm = 0,
        string_spread_nut_mm: spreadAtNutMm = 0,
        string_spread_bridge_mm: spreadThereMm = 0,
      } = inputs;
      expect(
        Math.abs(coneRadiusMm({ radiusAtNutMm, spreadAtNutMm, spreadThereMm }) - (expected.R_bridge_mm as number)),
      ).toBeLessThan(0.0001);
      return;
    }
    const { R_nut_mm: atNutMm = 0, R_end_mm: atEndMm = 0, board_length_mm: endXMm = 0, x_mm: x = 0 } = inputs;
    expect(Math.abs(radiusAtMm({ atNutMm, atEndMm, endXMm }, x) - (expected.R_mm as number))).toBeLessThan(0.0001);
  });

  it("a flat board drops nowhere, and a nearly flat one keeps its digits", () => {
    expect(dropMm({ radiusMm: Number.POSITIVE_INFINITY, yMm: 26 })).toBe(0);
    // R = 10^9: y²/(2R) to the last digits; R - √(R² - y²) would give 0 or rubbish.
    expect(dropMm({ radiusMm: 1e9, yMm: 26 }) / (26 ** 2 / 2e9)).toBeCloseTo(1, 9);
  });

  it("there and back between radius and rise", () => {
    fc.assert(
      fc.property(num(100, 1000), num(20, 90), (radiusMm, widthMm) => {
        expect(radiusFromSagittaMm({ widthMm, sagittaMm: sagittaMm({ radiusMm, widthMm }) })).toBeCloseTo(radiusMm, 6);
      }),
      { seed: SEED },
    );
  });
});
