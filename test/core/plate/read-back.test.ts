import { describe, expect, it } from "vitest";
import { type Polyline, type RoutedWire, readBack, routePlate } from "../../../src/core/plate/index.ts";
import { examplePlate } from "./example.ts";

const line = (...points: readonly (readonly [number, number])[]): Polyline => points.map(([x, y]) => ({ x, y }));
const lug = (id: string, x: number, y: number) => ({ id, at: { x, y }, radiusMm: 1 });
const FOUR = [lug("left", 0, 10), lug("right", 20, 10), lug("top", 10, 0), lug("bottom", 10, 20)];
const ACROSS = line([0, 10], [20, 10]);
const DOWN = line([10, 0], [10, 20]);

const kinds = (lines: readonly Polyline[]): string[] => readBack(lines, FOUR).doubts.map(({ kind }) => kind);

describe("readBack of a few lines", () => {
  it("does not join lines that cross", () => {
    const { joined, groups, doubts } = readBack([ACROSS, DOWN], FOUR);
    expect(joined).toEqual([
      { line: 0, lugs: ["left", "right"] },
      { line: 1, lugs: ["top", "bottom"] },
    ]);
    expect(groups).toEqual([
      ["left", "right"],
      ["top", "bottom"],
    ]);
    expect(doubts).toEqual([]);
  });

  it("joins lines that end on one lug", () => {
    const { groups, doubts } = readBack([ACROSS, line([0, 10], [0, 0], [10, 0])], FOUR);
    expect(groups).toEqual([["left", "right", "top"]]);
    expect(doubts).toEqual([]);
  });

  it("says where an end lies on nothing, and does not guess", () => {
    const { joined, doubts } = readBack([line([0, 10], [18, 10])], FOUR);
    expect(joined).toEqual([]);
    expect(doubts).toEqual([{ kind: "open-end", at: { x: 18, y: 10 }, lines: [0], lugs: [] }]);
  });

  it("says where an end lies near two lugs", () => {
    const { joined, doubts } = readBack([ACROSS], [...FOUR, lug("next", 22.2, 10)]);
    expect(joined).toHaveLength(1);
    expect(doubts).toEqual([]);
    const close = readBack([line([0, 10], [20.8, 10])], [...FOUR, lug("next", 22.2, 10)]);
    expect(close.joined).toEqual([]);
    expect(close.doubts).toMatchObject([{ kind: "two-lugs", lugs: ["right", "next"] }]);
  });

  it.each([
    ["a stretch in common", [ACROSS, line([10, 0], [10, 10], [20, 10])], ["shared-piece"]],
    [
      "a corner on another line",
      [ACROSS, line([10, 0], [10, 10], [9, 10], [9, 18], [10, 18], [10, 20])],
      ["shared-piece"],
    ],
    ["a corner beside another line", [ACROSS, line([10, 0], [10, 9.7], [0, 9.7])], ["touch"]],
    ["a crossing aslant", [ACROSS, line([10, 0], [8, 0], [12, 20], [10, 20])], ["aslant"]],
    [
      "a lug passed over",
      [line([10, 0], [10, 10], [20, 10]), line([0, 10], [0, 0.5], [20, 0.5], [20, 10])],
      ["over-lug"],
    ],
  ])("doubts %s", (_what, lines, expected) => {
    expect(new Set(kinds(lines))).toEqual(new Set(expected));
  });
});

describe("readBack of the example", () => {
  const plate = examplePlate();
  const { wires } = routePlate(plate);
  const read = (lines: readonly Polyline[]) => readBack(lines, plate.lugs);
  const lines = wires.map(({ points }) => points);
  const withLine = (n: number, points: Polyline): Polyline[] => lines.map((one, m) => (m === n ? points : one));

  it("gives the wire list back", () => {
    const { joined, doubts } = read(lines);
    expect(doubts).toEqual([]);
    expect(joined.map(({ lugs }) => lugs)).toEqual(plate.wires.map(({ from, to }) => [from, to]));
  });

  it("gives the same from lines in another order and the other way round", () => {
    const { groups, doubts } = read(lines.map((points) => [...points].reverse()).reverse());
    expect(doubts).toEqual([]);
    expect(groups).toEqual(read(lines).groups);
  });

  it("finds each wire that is laid on another", () => {
    for (const n of lines.keys()) {
      const onto = lines[(n + 1) % lines.length]!;
      const [first, second] = [onto[0]!, onto[1]!];
      const detour = [lines[n]![0]!, first, second, ...lines[n]!.slice(1)];
      expect(read(withLine(n, detour)).doubts).toContainEqual(expect.objectContaining({ kind: "shared-piece" }));
    }
  });

  it("finds each end that is cut short", () => {
    for (const [n, wire] of wires.entries()) {
      const { joined, doubts } = read(withLine(n, cutShort(wire)));
      expect(doubts.map(({ kind }) => kind)).toContain("open-end");
      expect(joined.map((one) => one.line)).not.toContain(n);
    }
  });

  it("finds each foreign lug that a wire is led over", () => {
    for (const [n, wire] of wires.entries()) {
      const foreign = plate.lugs.find(({ id }) => id !== wire.from && id !== wire.to)!;
      const { x, y } = wire.points[0]!;
      const led = [wire.points[0]!, { x: foreign.at.x, y }, foreign.at, { x, y: foreign.at.y }, ...wire.points];
      expect(read(withLine(n, led)).doubts).toContainEqual(
        expect.objectContaining({ kind: "over-lug", lines: [n], lugs: expect.arrayContaining([foreign.id]) }),
      );
    }
  });
});

/** The first half of its length. */
function cutShort({ points, lengthMm }: RoutedWire): Polyline {
  let leftMm = lengthMm / 2;
  for (const [n, q] of points.slice(1).entries()) {
    const p = points[n]!;
    const pieceMm = Math.hypot(q.x - p.x, q.y - p.y);
    if (pieceMm >= leftMm) {
      const part = leftMm / pieceMm;
      return [...points.slice(0, n + 1), { x: p.x + part * (q.x - p.x), y: p.y + part * (q.y - p.y) }];
    }
    leftMm -= pieceMm;
  }
  return points;
}
