import { erf } from "mathjs";
import { describe, expect, it } from "vitest";
import { normalArea, normalPoint, triangularPoint, uniformPoint } from "../../../src/core/ledger/normal.ts";
import library from "../../reference/ledger/library-points.json" with { type: "json" };

describe("normalArea", () => {
  it.each(library.normalAreas)("at %f is what another program gives", (z = 0, area = 0) => {
    expect(Math.abs(normalArea(z) - area)).toBeLessThan(2e-15);
  });

  it("agrees with an independent error function", () => {
    for (let z = -6; z <= 6; z += 0.0625) expect(normalArea(z)).toBeCloseTo((1 + erf(z / Math.SQRT2)) / 2, 13);
  });

  it("stays between 0 and 1 however far out", () => {
    for (const z of [-40, -8.4, -8.2, 8.2, 8.4, 40]) {
      expect(normalArea(z)).toBeGreaterThanOrEqual(0);
      expect(normalArea(z)).toBeLessThanOrEqual(1);
    }
  });
});

describe("normalPoint", () => {
  it.each(library.normalPoints)("for an area of %f is what another program gives", (area = 0, z = 0) => {
    expect(Math.abs(normalPoint(area) - z)).toBeLessThanOrEqual(1e-14 * Math.max(1, Math.abs(z)));
  });

  it("goes there and back", () => {
    for (let area = 0.001; area < 1; area += 0.0037) expect(normalArea(normalPoint(area))).toBeCloseTo(area, 13);
  });
});

describe("points of the other shapes", () => {
  // Closed forms: a uniform error of standard deviation 1 reaches √3, a triangular one √6; quartiles at half the reach
  // and at (1 - √½) of the reach.
  it("reach as far as their divisors say", () => {
    expect(uniformPoint(1)).toBeCloseTo(Math.sqrt(3), 14);
    expect(uniformPoint(0.25)).toBeCloseTo(-Math.sqrt(3) / 2, 14);
    expect(triangularPoint(0)).toBeCloseTo(-Math.sqrt(6), 14);
    expect(triangularPoint(0.75)).toBeCloseTo(Math.sqrt(6) * (1 - Math.SQRT1_2), 14);
  });
});
