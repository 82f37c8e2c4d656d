import { describe, expect, it } from "vitest";
import { crossings, type Polyline } from "../../../src/core/plate/index.ts";

const line = (...points: readonly (readonly [number, number])[]): Polyline => points.map(([x, y]) => ({ x, y }));
const flat = line([0, 5], [10, 5]);

describe("crossings", () => {
  it("says where and of which lines", () => {
    expect(crossings([flat, line([3, 0], [3, 9]), line([4, 6], [4, 9])])).toEqual([
      { at: { x: 3, y: 5 }, lines: [0, 1] },
    ]);
  });

  it("counts a line that comes back once for each time", () => {
    expect(crossings([flat, line([3, 0], [3, 9], [6, 9], [6, 0])])).toHaveLength(2);
  });

  // k lines across and n lines down cross k n times.
  it("counts every pair of a grille", () => {
    const across = [1, 2, 3].map((y) => line([0, y], [10, y]));
    const down = [1, 2, 3, 4].map((x) => line([x, 0], [x, 10]));
    expect(crossings([...across, ...down])).toHaveLength(12);
  });

  it.each([
    ["an end on the other line", line([3, 5], [3, 9])],
    ["a corner on the other line", line([3, 9], [3, 5], [4, 9])],
    ["a stretch in common", line([2, 5], [4, 5])],
    ["an end beyond", line([11, 0], [11, 9])],
  ])("does not count %s", (_what, other) => {
    expect(crossings([flat, other])).toEqual([]);
    expect(crossings([other, flat])).toEqual([]);
  });

  it("finds the place of a crossing aslant", () => {
    expect(crossings([line([0, 0], [4, 4]), line([0, 4], [4, 0])])[0]?.at).toEqual({ x: 2, y: 2 });
  });
});
