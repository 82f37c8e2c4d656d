import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  arcOfSide,
  cardOutline,
  ID1_CARD_MM,
  pointOnArc,
  rectangle,
  type Vertex,
} from "../../../src/core/drawing/index.ts";
import { flatten } from "../../../src/core/drawing/paths.ts";
import { numberOf, referenceCase } from "../../reference/papers/cases.ts";

/** Area by the trapezoid rule round the ring; positive anticlockwise. */
function area(ring: readonly { x: number; y: number }[]): number {
  return ring.reduce((sum, a, index) => {
    const b = ring[(index + 1) % ring.length] ?? a;
    return sum + (a.x * b.y - b.x * a.y) / 2;
  }, 0);
}

describe("arcOfSide", () => {
  it.each(["dxf-bulge-90", "dxf-bulge-180", "dxf-bulge-60"])("turns the published bulge %s into its angle", (id) => {
    const one = referenceCase(id);
    // Bulges are printed to 6 decimals: 4 atan of that is good to 4e-6 rad, 3e-4 degrees.
    const arc = arcOfSide({ x: 0, y: 0, bulge: numberOf(one, "bulge") }, { x: 10, y: 0 });
    expect(arc?.sweepDegrees).toBeCloseTo(numberOf(one, "included_angle_deg"), 3);
  });

  it("gives radius and sagitta of the published chord and bulge", () => {
    const one = referenceCase("dxf-bulge-radius");
    const arc = arcOfSide({ x: 0, y: 0, bulge: numberOf(one, "bulge") }, { x: numberOf(one, "chord"), y: 0 });
    expect(arc).toBeDefined();
    if (arc === undefined) return;
    expect(arc.radiusMm).toBeCloseTo(numberOf(one, "radius"), 5);
    expect(arc.sweepDegrees).toBeCloseTo(numberOf(one, "angle_deg"), 5);
    // An anticlockwise side bulges to the right of its way: below a side that runs along +x.
    expect(pointOnArc(arc, arc.fromDegrees + arc.sweepDegrees / 2).y).toBeCloseTo(-numberOf(one, "sagitta"), 5);
  });

  it("starts and ends where the side does, whichever way it bends", () => {
    const coordinate = fc.double({ min: -300, max: 300, noNaN: true });
    fc.assert(
      fc.property(
        coordinate,
        coordinate,
        coordinate,
        coordinate,
        fc.double({ min: -1.5, max: 1.5, noNaN: true }),
        (x1, y1, x2, y2, bulge) => {
          fc.pre(Math.hypot(x2 - x1, y2 - y1) > 1 && Math.abs(bulge) > 0.01);
          const arc = arcOfSide({ x: x1, y: y1, bulge }, { x: x2, y: y2 });
          if (arc === undefined) throw new Error("no arc");
          const [a, b] = [pointOnArc(arc, arc.fromDegrees), pointOnArc(arc, arc.fromDegrees + arc.sweepDegrees)];
          expect(Math.hypot(a.x - x1, a.y - y1)).toBeLessThan(1e-6);
          expect(Math.hypot(b.x - x2, b.y - y2)).toBeLessThan(1e-6);
        },
      ),
      { seed: 11 },
    );
  });
});

describe("rectangle", () => {
  it.each([0, 17, 90])("has the area of its closed form at a turn of %s degrees", (turnDegrees) => {
    const ring = rectangle({ centre: { x: 3, y: -7 }, alongMm: 40, acrossMm: 60, cornerRadiusMm: 5, turnDegrees });
    // a b - (4 - pi) r²; flattened arcs lie up to 0.02 mm inside over 31 mm of round corners.
    expect(Math.abs(area(flatten(ring, true)) - (40 * 60 - (4 - Math.PI) * 25))).toBeLessThan(0.63);
  });

  it("refuses a plate without a width", () => {
    expect(() => rectangle({ centre: { x: 0, y: 0 }, alongMm: 40, acrossMm: 0 })).toThrow(
      /^acrossMm: must be a number above 0 mm/,
    );
  });
});

describe("reference objects", () => {
  it("knows the card of ISO/IEC 7810", () => {
    const one = referenceCase("id1-card");
    expect(ID1_CARD_MM.width).toBe(numberOf(one, "w_mm"));
    expect(ID1_CARD_MM.height).toBe(numberOf(one, "h_mm"));
    expect(ID1_CARD_MM.thickness).toBe(numberOf(one, "thickness_mm"));
    expect(ID1_CARD_MM.thicknessTolerance).toBe(numberOf(one, "thickness_tol_mm"));
    expect([ID1_CARD_MM.cornerRadius.least, ID1_CARD_MM.cornerRadius.most]).toEqual(one.expected.corner_radius_mm);
  });

  it("outlines it at its size, long side across", () => {
    const ring: readonly Vertex[] = cardOutline({ x: 0, y: 0 });
    const span = (values: readonly number[]) => Math.max(...values) - Math.min(...values);
    expect(span(ring.map((p) => p.y))).toBeCloseTo(85.6, 9);
    expect(span(ring.map((p) => p.x))).toBeCloseTo(53.98, 9);
    // A corner of radius 3.18, the nominal one, keeps (sqrt 2 - 1) r off the square corner at its middle.
    const start = ring.findIndex((p) => (p.bulge ?? 0) > 0);
    const [from, to] = [ring[start], ring[(start + 1) % ring.length]];
    const corner = from && to && arcOfSide(from, to);
    if (!corner) throw new Error("no round corner");
    const middle = pointOnArc(corner, corner.fromDegrees + corner.sweepDegrees / 2);
    expect(Math.hypot(Math.abs(middle.x) - 26.99, Math.abs(middle.y) - 42.8)).toBeCloseTo((Math.SQRT2 - 1) * 3.18, 9);
  });
});

describe("from memory: soft", () => {
  it("has limits for an unused card", () => {
    const one = referenceCase("id1-card-tol");
    expect([ID1_CARD_MM.unusedWidth.least, ID1_CARD_MM.unusedWidth.most]).toEqual(one.expected.w_mm);
    expect([ID1_CARD_MM.unusedHeight.least, ID1_CARD_MM.unusedHeight.most]).toEqual(one.expected.h_mm);
  });
});
