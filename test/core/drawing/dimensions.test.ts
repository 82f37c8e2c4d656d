import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dimensionLengthMm, drawDimension, drawRunning, spreadOut } from "../../../src/core/drawing/dimensions.ts";
import { squareLetters } from "./stub.ts";

const context = {
  placing: { view: "front", turn: 90, origin: { right: 0, down: 0 }, scale: 1 },
  units: "mm",
  measure: squareLetters,
} as const;

describe("[PA4] dimensions", () => {
  const shape = { from: { x: 10, y: 5 }, to: { x: 50, y: 8 }, along: "x", lineAt: 20 } as const;

  it("show the length along their axis, without unit, above the line and readable from below", () => {
    const { texts, marks } = drawDimension(shape, context);
    expect(dimensionLengthMm(shape)).toBe(40);
    expect(texts).toHaveLength(1);
    expect(texts[0]).toMatchObject({ text: "40.0", turnDegrees: 0, anchor: "middle" });
    // Frame y 20 is page -20; the figure stands above it.
    expect(texts[0]?.at.right).toBeCloseTo(30, 9);
    expect(texts[0]?.at.down).toBeLessThan(-20);
    // Two witness lines, the dimension line, two arrowheads.
    expect(marks).toHaveLength(5);
  });

  it("start witness lines 1 mm off the feature and carry them 2 mm past the line", () => {
    const [witness] = drawDimension(shape, context).marks;
    if (witness?.kind !== "path") throw new Error("no witness line");
    expect(witness.path).toMatchObject([{ at: { right: 10, down: -6 } }, { at: { right: 10, down: -22 } }]);
  });

  it("turn the figure of an upright dimension to be read from the right", () => {
    const { texts } = drawDimension({ from: { x: 0, y: 0 }, to: { x: 0, y: 30 }, along: "y", lineAt: 12 }, context);
    expect(texts[0]?.turnDegrees).toBeCloseTo(90, 9);
    expect(texts[0]?.at.right).toBeLessThan(12);
  });

  it("put the arrows outside and the figure beside a short length", () => {
    const { texts } = drawDimension({ from: { x: 0, y: 0 }, to: { x: 2, y: 0 }, along: "x", lineAt: 10 }, context);
    expect(texts[0]?.text).toBe("2.0");
    expect(texts[0]?.at.right).toBeGreaterThan(2 + 5);
  });

  it("show inches as inches", () => {
    const { texts } = drawDimension({ ...shape, to: { x: 10 + 25.4, y: 0 } }, { ...context, units: "inch" });
    expect(texts[0]?.text).toBe("1.000");
  });

  it("count running dimensions from one origin, negative ones the other way", () => {
    const { texts, marks } = drawRunning(
      {
        origin: { x: 0, y: 0 },
        points: [
          { x: 12, y: 4 },
          { x: -7.5, y: 3 },
        ],
        along: "x",
        lineAt: -10,
      },
      context,
    );
    expect(texts.map(({ text }) => text)).toEqual(["−7.5", "0.0", "12.0"]);
    expect(marks.filter((mark) => mark.kind === "circle")).toHaveLength(1);
  });
});

describe("spreadOut", () => {
  it("keeps the gap, the order and the mean of a crowd", () => {
    const values = fc.array(fc.double({ min: 0, max: 40, noNaN: true }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(values, (list) => {
        const wanted = [...list].sort((a, b) => a - b);
        const placed = spreadOut(wanted, 4);
        placed.slice(1).forEach((value, index) => {
          expect(value - (placed[index] ?? 0)).toBeGreaterThan(4 - 1e-9);
        });
        const mean = (numbers: readonly number[]) => numbers.reduce((sum, n) => sum + n, 0) / numbers.length;
        // Least squares with a fixed order keeps the mean of all.
        expect(mean(placed)).toBeCloseTo(mean(wanted), 9);
      }),
      { seed: 3 },
    );
    expect(spreadOut([0, 10, 20], 4)).toEqual([0, 10, 20]);
    expect(spreadOut([10, 10], 4)).toEqual([8, 12]);
  });
});
