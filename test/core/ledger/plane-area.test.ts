import { describe, expect, it } from "vitest";
import { modelOf } from "../../../src/core/ledger/model.ts";
import { normalArea, normalPoint } from "../../../src/core/ledger/normal.ts";
import { planeArea } from "../../../src/core/ledger/plane-area.ts";
import { leaf, term } from "./leaves.ts";

/** Errors of the shapes, their standard uncertainties as slopes. */
const area = (
  errors: readonly (readonly ["normal" | "uniform" | "triangular", number])[],
  margin: number,
): number | undefined => {
  const model = modelOf(
    Object.fromEntries(errors.map(([shape], i) => [`x${i}`, leaf(`x${i}`, 0, [term(`t${i}`, 1, shape)])])),
  );
  return planeArea(
    model.terms,
    errors.map(([, u]) => u),
    margin,
  );
};
const steps = (count: number) => Array.from({ length: count }, (_, i) => (i + 0.5) / count);
const ROOT3 = Math.sqrt(3);

describe("[LG3] a margin on its plane", () => {
  it("over normal errors is Φ(margin / u)", () => {
    expect(
      area(
        [
          ["normal", 3],
          ["normal", 4],
        ],
        5,
      ),
    ).toBeCloseTo(normalArea(1), 14);
  });

  it("over one uniform error alone is its straight piece", () => {
    // Half-width √3 × 2; 1 above the middle of it.
    expect(area([["uniform", 2]], 1)).toBeCloseTo((1 + 2 * ROOT3) / (4 * ROOT3), 5);
    expect(area([["uniform", 2]], 4)).toBe(1);
  });

  it("over one uniform and normal ones is the mean of Φ over the uniform one", () => {
    const mean = steps(4000).reduce((sum, p) => sum + normalArea((1.3 + (2 * p - 1) * ROOT3 * 2) / 0.7) / 4000, 0);
    expect(
      area(
        [
          ["uniform", 2],
          ["normal", 0.7],
        ],
        1.3,
      ),
    ).toBeCloseTo(mean, 6);
  });

  it("over two uniform ones, or a triangular one, is the mean over both", () => {
    const s = 0.4;
    const over = (a: number, b: number, margin: number) =>
      steps(400).reduce(
        (sum, p) =>
          sum +
          steps(400).reduce((row, q) => row + normalArea((margin + (2 * p - 1) * a + (2 * q - 1) * b) / s), 0) / 160000,
        0,
      );
    expect(
      area(
        [
          ["uniform", 2],
          ["uniform", 1.5],
          ["normal", s],
        ],
        3,
      ),
    ).toBeCloseTo(over(2 * ROOT3, 1.5 * ROOT3, 3), 5);
    // A triangular error of standard deviation 2 is the sum of two uniform ones of 2/√2.
    const half = (ROOT3 * 2) / Math.SQRT2;
    expect(
      area(
        [
          ["triangular", 2],
          ["normal", s],
        ],
        3,
      ),
    ).toBeCloseTo(over(half, half, 3), 5);
  });

  it("takes small uniform errors as normal, and leaves three large ones to the draws", () => {
    const many = [...Array.from({ length: 12 }, () => ["uniform", 0.3] as const)];
    expect(Math.abs((area(many, 1) ?? 0) - normalArea(1 / (0.3 * Math.sqrt(12))))).toBeLessThan(0.0005);
    expect(
      area(
        [
          ["uniform", 1],
          ["uniform", 1],
          ["uniform", 1],
        ],
        1,
      ),
    ).toBeUndefined();
  });

  it("is a half at no margin, and turns round with it", () => {
    for (const margin of [0, 0.1, 1, 2, 5]) {
      const errors = [
        ["uniform", 1],
        ["triangular", 0.2],
        ["normal", normalPoint(0.7)],
      ] as const;
      expect((area(errors, margin) ?? 0) + (area(errors, -margin) ?? 0)).toBeCloseTo(1, 12);
    }
  });
});
