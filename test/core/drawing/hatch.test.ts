import { describe, expect, it } from "vitest";
import { hatchCircle, hatchOutlines } from "../../../src/core/drawing/hatch.ts";
import type { Mark } from "../../../src/core/drawing/index.ts";
import { lengthInside } from "../../../src/core/drawing/labels.ts";

function pieces(marks: readonly Mark[]) {
  return marks.map((mark) => {
    if (mark.kind !== "path") throw new Error("not a line");
    const [a, b] = mark.path.map((segment) => (segment.to === "close" ? { right: 0, down: 0 } : segment.at));
    if (!a || !b) throw new Error("not a line");
    return [a, b] as const;
  });
}

const length = (list: ReturnType<typeof pieces>) =>
  list.reduce((sum, [a, b]) => sum + Math.hypot(b.right - a.right, b.down - a.down), 0);

describe("hatch", () => {
  const square = [
    { right: 10, down: 10 },
    { right: 50, down: 10 },
    { right: 50, down: 50 },
    { right: 10, down: 50 },
  ];
  const island = square.map(({ right, down }) => ({ right: 30 + (right - 30) / 2, down: 30 + (down - 30) / 2 }));

  it("fills a strip under 3 mm as closely as a hole, at any turn", () => {
    // 40 × 1 mm at 0.8 mm spacing: 50 mm of line; at 2 mm it would be 20. The corners are good to one line's length.
    const turned = ({ right, down }: { right: number; down: number }) => ({
      right: right * Math.cos(0.3) - down * Math.sin(0.3),
      down: right * Math.sin(0.3) + down * Math.cos(0.3),
    });
    const strip = [square[0], square[1], { right: 50, down: 11 }, { right: 10, down: 11 }].flatMap((p) => p ?? []);
    for (const outline of [strip, strip.map(turned)])
      expect(Math.abs(length(pieces(hatchOutlines([outline], "single"))) - 50)).toBeLessThan(3);
  });

  it("is as long as the area over the spacing, and stays inside", () => {
    // Area 1600 at 2 mm spacing: 800 mm of line; the ends of the sum are good to one spacing times the perimeter.
    const lines = pieces(hatchOutlines([square], "single"));
    expect(Math.abs(length(lines) - 800)).toBeLessThan(20);
    for (const [a, b] of lines)
      expect(lengthInside(a, b, { left: 10, top: 10, right: 50, bottom: 50 })).toBeCloseTo(
        Math.hypot(b.right - a.right, b.down - a.down),
        6,
      );
  });

  it("leaves islands free", () => {
    const lines = pieces(hatchOutlines([square, island], "single"));
    expect(Math.abs(length(lines) - 600)).toBeLessThan(20);
    for (const [a, b] of lines)
      expect(lengthInside(a, b, { left: 20.01, top: 20.01, right: 39.99, bottom: 39.99 })).toBe(0);
  });

  it("goes both ways for a cross hatch, and fills a hole to its edge", () => {
    const lines = pieces(hatchCircle({ right: 0, down: 0 }, 3, "cross"));
    for (const [a, b] of lines) for (const end of [a, b]) expect(Math.hypot(end.right, end.down)).toBeCloseTo(3, 9);
    // Two directions, area pi 9 = 28.3 at 0.9 mm: 31 mm each way.
    expect(Math.abs(length(lines) - (2 * Math.PI * 9) / 0.9)).toBeLessThan(4);
  });
});
