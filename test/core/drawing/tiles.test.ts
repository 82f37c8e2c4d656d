import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { tile } from "../../../src/core/drawing/index.ts";

describe("[PA11] tile", () => {
  const size = fc.double({ min: 20, max: 900, noNaN: true });

  it("covers the drawing, overlaps by 10 mm or more, and shows each joining cross on two tiles", () => {
    fc.assert(
      fc.property(
        size,
        size,
        fc.array(
          fc.record({
            right: fc.double({ min: 0, max: 900, noNaN: true }),
            down: fc.double({ min: 0, max: 900, noNaN: true }),
          }),
          { maxLength: 8 },
        ),
        (width, height, keepClear) => {
          const content = { left: 5, top: -3, right: 5 + width, bottom: -3 + height };
          const { tiles, columns, rows } = tile({ content, widthMm: 180, heightMm: 220, keepClear });
          expect(tiles).toHaveLength(columns * rows);
          expect(Math.min(...tiles.map((one) => one.window.left))).toBeLessThanOrEqual(content.left + 1e-9);
          expect(Math.max(...tiles.map((one) => one.window.right))).toBeGreaterThanOrEqual(content.right - 1e-9);
          expect(Math.min(...tiles.map((one) => one.window.top))).toBeLessThanOrEqual(content.top + 1e-9);
          expect(Math.max(...tiles.map((one) => one.window.bottom))).toBeGreaterThanOrEqual(content.bottom - 1e-9);
          for (const one of tiles) {
            const next = tiles.find((other) => other.name === one.neighbours.right);
            if (next) expect(one.window.right - next.window.left).toBeGreaterThanOrEqual(10);
            const below = tiles.find((other) => other.name === one.neighbours.down);
            if (below) expect(one.window.bottom - below.window.top).toBeGreaterThanOrEqual(10);
            if (tiles.length > 1) expect(one.crosses.length).toBeGreaterThanOrEqual(2);
          }
          const shown = new Map<string, number>();
          for (const { crosses } of tiles) for (const { name } of crosses) shown.set(name, (shown.get(name) ?? 0) + 1);
          for (const count of shown.values()) expect(count).toBeGreaterThanOrEqual(2);
          for (const name of shown.keys()) expect(name).toMatch(/^[a-hjkmnp-z]+$/);
        },
      ),
      { seed: 5, numRuns: 60 },
    );
  });

  it("uses one tile, centred, for what fits", () => {
    const { tiles } = tile({ content: { left: 0, top: 0, right: 100, bottom: 100 }, widthMm: 180, heightMm: 220 });
    expect(tiles.map(({ name, window }) => [name, window])).toEqual([
      ["A1", { left: -40, top: -60, right: 140, bottom: 160 }],
    ]);
  });

  it("moves its seams off holes", () => {
    const content = { left: 0, top: 0, right: 300, bottom: 100 };
    // Centred windows would start at -24 and 144, their seam at 150: through the hole.
    const seam = (keepClear: { right: number; down: number }[]) =>
      (tile({ content, widthMm: 180, heightMm: 220, keepClear }).tiles[1]?.window.left ?? 0) + 6;
    expect(seam([])).toBeCloseTo(150, 9);
    expect(Math.abs(seam([{ right: 150, down: 50 }]) - 150)).toBeGreaterThanOrEqual(8);
  });
});
