import { describe, expect, it } from "vitest";
import { drawsOf, MOST_DRAWS, sobolBits } from "../../../src/core/ledger/points.ts";
import library from "../../reference/ledger/library-points.json" with { type: "json" };

describe("sobolBits", () => {
  it("gives the points of another program in all 40 dimensions", () => {
    const ours = library.points.map((point, index) =>
      point.map((_, dimension) => sobolBits(dimension, index) / 2 ** 32),
    );
    // That program prints 30 bits; its first 32 points have five binary places.
    expect(ours).toEqual(library.points);
  });

  // The defining property of the sequence: any first 2^k points have one in each of 2^k equal parts of every axis.
  it.each([10, 14])("fills each axis evenly with 2^%i points", (power) => {
    const count = 2 ** power;
    for (let dimension = 0; dimension < 40; dimension += 1) {
      const parts = new Set<number>();
      for (let index = 0; index < count; index += 1) parts.add(sobolBits(dimension, index) >>> (32 - power));
      expect(parts.size).toBe(count);
    }
  });
});

describe("drawsOf", () => {
  it.each(["normal", "uniform", "triangular"] as const)("%s draws have mean 0 and standard deviation 1", (shape) => {
    for (const dimension of [0, 5, 39, 40, 60]) {
      const draws = drawsOf(dimension, shape, MOST_DRAWS);
      const mean = draws.reduce((sum, z) => sum + z, 0) / MOST_DRAWS;
      const square = draws.reduce((sum, z) => sum + z * z, 0) / MOST_DRAWS;
      // Even dimensions: far inside. From 40 on scattered: four standard errors of a mean, √(2/n) of a square at most.
      const scattered = dimension >= 40;
      expect(Math.abs(mean)).toBeLessThan(scattered ? 4 / 128 : 0.001);
      expect(Math.abs(square - 1)).toBeLessThan(scattered ? (4 * Math.SQRT2) / 128 : 0.005);
    }
  });

  it("gives the same draws whether asked for few first or for all at once", () => {
    const few = [...drawsOf(7, "triangular", 100).subarray(0, 100)];
    expect([...drawsOf(7, "triangular", MOST_DRAWS).subarray(0, 100)]).toEqual(few);
  });
});
