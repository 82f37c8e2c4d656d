import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type Channel,
  type Column,
  drilledHole,
  rout,
  type Solid,
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
      fc.property(pocket, pocket, (a, b) => compare(a, b, 0.5)),
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

  it("the stated overlap is the least push that parts two routs (plan, by their outlines' points)", () => {
    let met = 0;
    fc.assert(
      fc.property(pocket, pocket, (first, second) => {
        const through = { topZMm: Number.POSITIVE_INFINITY, bottomZMm: Number.NEGATIVE_INFINITY };
        const a: Column = { ...first, ...through };
        const b: Column = { ...second, ...through };
        const overlap = -wallMm(a, b);
        if (overlap < 0.3) return;
        met++;
        const own = outline(a, 0.2);
        const other = outline(b, 0.2);
        const apart = (by: number, angle: number): boolean => {
          const du = by * Math.cos(angle);
          const dy = by * Math.sin(angle);
          const moved: Column = { ...b, u: b.u + du, y: b.y + dy };
          return !own.some(([u, y]) => holds(moved, u, y, 0)) && !other.some(([u, y]) => holds(a, u + du, y + dy, 0));
        };
        const directions = Array.from({ length: 360 }, (_, k) => (k * Math.PI) / 180);
        // Points stand 0.2 apart: a push short by 0.1 never hides the overlap, a degree off the best one costs 0.1.
        expect(directions.some((angle) => apart(overlap - 0.1, angle))).toBe(false);
        expect(directions.some((angle) => apart(overlap + 0.1, angle))).toBe(true);
      }),
      { seed: SEED, numRuns: 70, endOnFailure: true },
    );
    expect(met).toBeGreaterThan(15);
  });
});
