import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  bodyOutline,
  type Channel,
  type Column,
  column,
  drilledHole,
  leastHoleWallMm,
  leastWall,
  rout,
  type Solid,
  tailLine,
  wallMm,
  wireChannel,
} from "../../../src/core/bridge/index.ts";

const SEED = 20240616;
/** Evenly spread; doubles as such crowd about 0. */
const num = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((n) => min + ((max - min) * n) / 1_000_000);

/** Is a point inside the solid? Written from the definition, apart from the distances under test. */
function holds(solid: Solid, u: number, y: number, z: number): boolean {
  if (solid.kind === "channel") return distanceToSegment(solid, u, y, z) <= solid.radiusMm;
  if (solid.kind !== "column") throw new Error("an edge holds nothing");
  const du = u - solid.u;
  const dy = y - solid.y;
  const along = Math.max(0, Math.abs(du * solid.cos + dy * solid.sin) - solid.halfU);
  const across = Math.max(0, Math.abs(-du * solid.sin + dy * solid.cos) - solid.halfY);
  return along ** 2 + across ** 2 <= solid.radiusMm ** 2 + 1e-12 && z <= solid.topZMm && z >= solid.bottomZMm;
}

function distanceToSegment({ from, to }: Channel, u: number, y: number, z: number): number {
  const d = [to[0] - from[0], to[1] - from[1], to[2] - from[2]] as const;
  const r = [u - from[0], y - from[1], z - from[2]] as const;
  const square = d[0] ** 2 + d[1] ** 2 + d[2] ** 2;
  const t = Math.min(1, Math.max(0, (r[0] * d[0] + r[1] * d[1] + r[2] * d[2]) / square));
  return Math.hypot(r[0] - t * d[0], r[1] - t * d[1], r[2] - t * d[2]);
}

/** A point, as a column without size. */
function pointAt(u: number, y: number, z: number): Column {
  return {
    kind: "column",
    id: "point",
    u,
    y,
    cos: 1,
    sin: 0,
    halfU: 0,
    halfY: 0,
    radiusMm: 0,
    topZMm: z,
    bottomZMm: z,
  };
}

const DEEP = -40;
const HIGH = 0;

/** Points all over a solid's surface and middle, ends cut to the wood between 0 and -40. */
function cloud(solid: Solid, step: number): [number, number, number][] {
  const points: [number, number, number][] = [];
  if (solid.kind === "channel") {
    const n = 40;
    for (let k = 0; k <= n; k++) {
      const c = [0, 1, 2].map(
        (i) => (solid.from[i] as number) + ((solid.to[i] as number) - (solid.from[i] as number)) * (k / n),
      );
      for (let a = 0; a < 16; a++) {
        for (let b = -4; b <= 4; b++) {
          const lat = (b / 4) * (Math.PI / 2);
          const r = solid.radiusMm;
          points.push([
            (c[0] as number) + r * Math.cos(lat) * Math.cos((a * Math.PI) / 8),
            (c[1] as number) + r * Math.cos(lat) * Math.sin((a * Math.PI) / 8),
            (c[2] as number) + r * Math.sin(lat),
          ]);
        }
      }
    }
    return points;
  }
  if (solid.kind !== "column") return points;
  const top = Math.min(HIGH, solid.topZMm);
  const bottom = Math.max(DEEP, solid.bottomZMm);
  const ring = outline(solid, step);
  for (let k = 0; k <= 20; k++) for (const [u, y] of ring) points.push([u, y, bottom + ((top - bottom) * k) / 20]);
  // End faces: rings drawn in toward the middle.
  for (let k = 0; k < 10; k++)
    for (const [u, y] of ring)
      for (const z of [top, bottom])
        points.push([solid.u + ((u - solid.u) * k) / 10, solid.y + ((y - solid.y) * k) / 10, z]);
  return points;
}

function outline(solid: Column, step: number): [number, number][] {
  const ring: [number, number][] = [];
  const corners = [
    [1, 1],
    [-1, 1],
    [-1, -1],
    [1, -1],
  ] as const;
  corners.forEach(([a, b], i) => {
    const [an, bn] = corners[(i + 1) % 4] as readonly [number, number];
    const start = (i * Math.PI) / 2;
    const place = (pu: number, py: number) =>
      ring.push([solid.u + pu * solid.cos - py * solid.sin, solid.y + pu * solid.sin + py * solid.cos]);
    for (let k = 0; k <= 24; k++) {
      const angle = start + (k / 24) * (Math.PI / 2);
      place(a * solid.halfU + solid.radiusMm * Math.cos(angle), b * solid.halfY + solid.radiusMm * Math.sin(angle));
    }
    const end = start + Math.PI / 2;
    const length = Math.hypot((an - a) * solid.halfU, (bn - b) * solid.halfY);
    const n = Math.ceil(length / step);
    for (let k = 1; k < n; k++) {
      const t = k / n;
      place(
        (a + t * (an - a)) * solid.halfU + solid.radiusMm * Math.cos(end),
        (b + t * (bn - b)) * solid.halfY + solid.radiusMm * Math.sin(end),
      );
    }
  });
  return ring;
}

const hole = fc
  .record({
    u: num(-8, 8),
    y: num(-8, 8),
    d: num(1, 8),
    depth: fc.oneof(num(2, 38), fc.constant("through" as const)),
    back: fc.boolean(),
  })
  .map(({ u, y, d, depth, back }) =>
    drilledHole({ id: "hole", uMm: u, yMm: y, diameterMm: d, depthMm: depth, ...(back ? { fromBackOfMm: 40 } : {}) }),
  );
const pocket = fc
  .record({
    u: num(-12, 12),
    y: num(-12, 12),
    l: num(4, 20),
    w: num(4, 20),
    r: num(0, 4),
    yaw: num(-90, 90),
    depth: num(2, 30),
    back: fc.boolean(),
  })
  .map(
    ({ u, y, l, w, r, yaw, depth, back }) =>
      rout({
        id: "rout",
        uMm: u,
        yMm: y,
        lengthMm: l,
        widthMm: w,
        cornerRadiusMm: r,
        yawDegrees: yaw,
        depthMm: depth,
        ...(back ? { fromBackOfMm: 40 } : {}),
      })[0] as Column,
  );
const wire = fc
  .record({
    a: fc.tuple(num(-15, 15), num(-15, 15), num(2, 38)),
    b: fc.tuple(num(-15, 15), num(-15, 15), num(2, 38)),
    d: num(1, 6),
  })
  .filter(({ a, b }) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]) > 3)
  .map(({ a, b, d }) =>
    wireChannel({
      id: "wire",
      from: { uMm: a[0], yMm: a[1], depthMm: a[2] },
      to: { uMm: b[0], yMm: b[1], depthMm: b[2] },
      diameterMm: d,
    }),
  );

/**
 * Holds the wall to a cloud of points. Parted: the nearest point of a's surface to b must be as far as stated, up to the
 * cloud's mesh. Overlapping: some point of a lies in b.
 */
function compare(a: Solid, b: Solid, mesh: number): void {
  const wall = wallMm(a, b);
  expect(wallMm(b, a)).toBeCloseTo(wall, 9);
  let nearest = Number.POSITIVE_INFINITY;
  let met = false;
  for (const [u, y, z] of cloud(a, mesh)) {
    if (holds(b, u, y, z)) met = true;
    nearest = Math.min(
      nearest,
      b.kind === "channel" ? distanceToSegment(b, u, y, z) - b.radiusMm : wallMm(pointAt(u, y, z), b),
    );
  }
  if (Math.abs(wall) < 1e-9) return;
  if (wall > 0) {
    expect(met).toBe(false);
    expect(nearest).toBeGreaterThan(wall - 1e-5);
    // Half a mesh aside of the nearest point, the distance has grown by no more than that.
    expect(nearest).toBeLessThan(wall + mesh);
  } else {
    expect(nearest).toBeLessThan(mesh);
    const holdsOneOf = cloud(b, mesh).some(([u, y, z]) => holds(a, u, y, z));
    if (wall < -mesh) expect(met || holdsOneOf).toBe(true);
  }
}

describe("[BR20] walls in space against a cloud of points", () => {
  const runs = { seed: SEED, numRuns: 60, endOnFailure: true };
  it("hole and hole", () => {
    fc.assert(
      fc.property(hole, hole, (a, b) => compare(a, b, 0.6)),
      runs,
    );
  });
  it("hole and rout", () => {
    fc.assert(
      fc.property(hole, pocket, (a, b) => compare(a, b, 0.6)),
      runs,
    );
  });
  it("rout and rout", () => {
    fc.assert(
      fc.property(pocket, pocket, (a, b) => compare(a, b, 1.6)),
      runs,
    );
  });
  it("wire channel and hole", () => {
    fc.assert(
      fc.property(wire, hole, (a, b) => compare(a, b, 0.8)),
      runs,
    );
  });
  it("wire channel and rout", () => {
    fc.assert(
      fc.property(wire, pocket, (a, b) => compare(a, b, 0.8)),
      runs,
    );
  });
  it("wire channel and wire channel", () => {
    fc.assert(
      fc.property(wire, wire, (a, b) => compare(a, b, 0.8)),
      runs,
    );
  });

  it("a point is judged by the definition of its distance (what the cloud rests on)", () => {
    // The point function against a dense march: the nearest of many points known to lie in the solid.
    fc.assert(
      fc.property(fc.oneof(hole, pocket), fc.tuple(num(-15, 15), num(-15, 15), num(1, 39)), (solid, [u, y, depth]) => {
        const point = wireChannel({
          id: "point",
          from: { uMm: u, yMm: y, depthMm: depth },
          to: { uMm: u, yMm: y, depthMm: depth },
          diameterMm: 1e-9,
        });
        const wall = wallMm(point, solid);
        expect(wall <= 0).toBe(holds(solid, u, y, -depth));
        if (wall <= 0) return;
        const nearest = Math.min(...cloud(solid, 0.4).map(([pu, py, pz]) => Math.hypot(pu - u, py - y, pz + depth)));
        expect(nearest).toBeGreaterThan(wall - 1e-6);
        // The cloud's rings are up to 2 apart in height on the tallest column, and 1 across an end face of 20.
        expect(nearest).toBeLessThan(wall + 1.1);
      }),
      { seed: SEED, numRuns: 60 },
    );
  });

  it("moving an overlapping pair apart by the stated overlap parts it, and by less does not (plan only)", () => {
    fc.assert(
      fc.property(pocket, pocket, (a, b) => {
        const through = (solid: Column): Column => ({
          ...solid,
          topZMm: Number.POSITIVE_INFINITY,
          bottomZMm: Number.NEGATIVE_INFINITY,
        });
        const wall = wallMm(through(a), through(b));
        if (wall >= 0) return;
        let best = Number.POSITIVE_INFINITY;
        for (let k = 0; k < 360; k++) {
          const angle = (k * Math.PI) / 180;
          const shifted = (by: number): Column => ({
            ...through(b),
            u: b.u + by * Math.cos(angle),
            y: b.y + by * Math.sin(angle),
          });
          // Nothing less than the overlap may part them.
          expect(wallMm(through(a), shifted(-wall * 0.999 - 1e-9))).toBeLessThan(1e-6);
          best = Math.min(best, Math.abs(wallMm(through(a), shifted(-wall))));
        }
        // Some direction does it: the nearest of 360 is within half a degree of the right one.
        expect(best).toBeLessThan(0.05);
      }),
      { seed: SEED, numRuns: 25 },
    );
  });
});

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
