import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  bodyOutline,
  type Column,
  column,
  drilledHole,
  leastHoleWallMm,
  leastWall,
  rout,
  tailLine,
  wallMm,
  wireChannel,
} from "../../../src/core/bridge/index.ts";

const SEED = 20240622;
/** Evenly spread; doubles as such crowd about 0. */
const num = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((n) => min + ((max - min) * n) / 1_000_000);

describe("[BR20] closed forms", () => {
  it("a hole 10 deep does not meet a cavity 20 below it; abreast of its roof the wall is slanted", () => {
    const cavity = rout({
      id: "control",
      uMm: 0,
      yMm: 0,
      lengthMm: 80,
      widthMm: 60,
      cornerRadiusMm: 8,
      yawDegrees: 0,
      depthMm: 14,
      fromBackOfMm: 44,
    })[0] as Column;
    const above = drilledHole({ id: "screw", uMm: 5, yMm: 3, diameterMm: 3, depthMm: 10 });
    // Roof at 44 - 14 = 30 below the top.
    expect(wallMm(above, cavity)).toBeCloseTo(20, 12);
    const beside = drilledHole({ id: "screw", uMm: 30 + 1.5 + 3, yMm: 0, diameterMm: 3, depthMm: 26 });
    expect(wallMm(beside, cavity)).toBeCloseTo(5, 12);
    const deep = drilledHole({ id: "screw", uMm: 0, yMm: 0, diameterMm: 3, depthMm: 31 });
    expect(wallMm(deep, cavity)).toBeCloseTo(-1, 12);
  });

  it("ears are a second prism, deeper and narrower", () => {
    const cavity = rout({
      id: "bridge",
      uMm: 146,
      yMm: 0,
      lengthMm: 72,
      widthMm: 41,
      cornerRadiusMm: 3,
      yawDegrees: 0,
      depthMm: 19,
      ears: { lengthMm: 88, widthMm: 12, depthMm: 21 },
    });
    const beyondEnd = drilledHole({ id: "h", uMm: 146, yMm: 44 + 2 + 1.5, diameterMm: 3, depthMm: 10 });
    const { least } = leastWall([beyondEnd], cavity);
    expect(least?.wallMm).toBeCloseTo(2, 12);
    // Abreast of the ear's long side, 3 from it, and 40 - 36 - 1.5 = 2.5 from the cavity's own end.
    const besideEar = drilledHole({ id: "h", uMm: 146 + 6 + 3 + 1.5, yMm: 40, diameterMm: 3, depthMm: 10 });
    expect(leastWall([besideEar], cavity).pairs.map((pair) => pair.wallMm)).toEqual([
      expect.closeTo(2.5, 9),
      expect.closeTo(3, 9),
    ]);
  });

  it("a rout turned by yaw: a hole on its own long axis, which leans toward the neck on the y > 0 side", () => {
    const lean = 20;
    const slanted = rout({
      id: "slant",
      uMm: 0,
      yMm: 0,
      lengthMm: 80,
      widthMm: 20,
      cornerRadiusMm: 2,
      yawDegrees: lean,
      depthMm: 19,
    })[0] as Column;
    const angle = (lean * Math.PI) / 180;
    const onAxis = drilledHole({
      id: "h",
      uMm: -50 * Math.sin(angle),
      yMm: 50 * Math.cos(angle),
      diameterMm: 4,
      depthMm: 5,
    });
    expect(wallMm(onAxis, slanted)).toBeCloseTo(50 - 40 - 2, 9);
  });

  it("body's edge: tail line and closed outline", () => {
    const near = drilledHole({ id: "h", uMm: 95, yMm: 0, diameterMm: 4, depthMm: 10 });
    expect(wallMm(near, tailLine({ id: "tail", uMm: 100 }))).toBeCloseTo(3, 12);
    const square = bodyOutline({
      id: "edge",
      points: [
        [0, -50],
        [100, -50],
        [100, 50],
        [0, 50],
      ],
    });
    expect(wallMm(near, square)).toBeCloseTo(3, 12);
    expect(wallMm(drilledHole({ id: "h", uMm: 103, yMm: 0, diameterMm: 4, depthMm: 10 }), square)).toBeCloseTo(-5, 12);
    const across = rout({
      id: "r",
      uMm: 90,
      yMm: 0,
      lengthMm: 10,
      widthMm: 10,
      cornerRadiusMm: 1,
      yawDegrees: 45,
      depthMm: 5,
    })[0] as Column;
    // Turned by 45° its corner reaches 4 √2 + 1 along u.
    expect(wallMm(across, square)).toBeCloseTo(10 - 4 * Math.SQRT2 - 1, 9);
  });

  it("an inclined wire channel under a screw hole: nearest at the hole's rim at its bottom", () => {
    const channel = wireChannel({
      id: "wire",
      from: { uMm: -20, yMm: 0, depthMm: 30 },
      to: { uMm: 20, yMm: 0, depthMm: 30 },
      diameterMm: 4,
    });
    const screw = drilledHole({ id: "screw", uMm: 0, yMm: 6, diameterMm: 3, depthMm: 24 });
    expect(wallMm(channel, screw)).toBeCloseTo(Math.hypot(4.5, 6) - 2, 6);
  });

  it("least wall of arrays is the least of the pairs, and follows the shift", () => {
    const at = (u: number, y: number, d: number) =>
      drilledHole({ id: "h", uMm: u, yMm: y, diameterMm: d, depthMm: 20 });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(num(0, 30), num(0, 30)), { minLength: 1, maxLength: 5 }),
        fc.array(fc.tuple(num(0, 30), num(0, 30)), { minLength: 1, maxLength: 6 }),
        num(-2, 2),
        (fresh, old, shift) => {
          const least = leastWall(
            fresh.map(([u, y]) => at(u + shift, y - shift, 3)),
            old.map(([u, y]) => at(u, y, 3.2)),
          ).least?.wallMm;
          const flat = leastHoleWallMm(
            fresh.map(([u]) => u),
            fresh.map(([, y]) => y),
            fresh.map(() => 1.5),
            old.map(([u]) => u),
            old.map(([, y]) => y),
            old.map(() => 1.6),
            shift,
            -shift,
          );
          expect(flat).toBeCloseTo(least as number, 9);
        },
      ),
      { seed: SEED },
    );
  });

  it("refuses a hole of no depth", () => {
    expect(() => drilledHole({ id: "h", uMm: 0, yMm: 0, diameterMm: 3, depthMm: 0 })).toThrow(/^h\.depthMm:/);
    expect(() =>
      column({
        id: "c",
        uMm: 0,
        yMm: Number.NaN,
        alongMm: 1,
        acrossMm: 1,
        cornerRadiusMm: 0,
        yawDegrees: 0,
        topZMm: 0,
        bottomZMm: -1,
      }),
    ).toThrow(/^c\.yMm:/);
  });
});
