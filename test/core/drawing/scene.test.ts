import { describe, expect, it } from "vitest";
import {
  drillGroups,
  hole,
  holeTable,
  line,
  makeScene,
  markingOutTable,
  markRuns,
  type Scene,
  sceneHoles,
} from "../../../src/core/drawing/index.ts";

function scene(items: Scene["items"]): Scene {
  return {
    id: "s",
    title: "S",
    view: "front",
    frame: { name: "body", origin: "end wall", axes: ["u", "y"], bassSide: -1 },
    datum: { at: { x: 100, y: 2 }, name: "register line" },
    items,
  };
}
const at = (x: number, y: number, diameterMm = 2.8, depthMm: number | "through" = 26) => ({
  centre: { x, y },
  diameterMm,
  depthMm,
  datum: "body top",
});

describe("makeScene", () => {
  it("numbers holes by role and leaves marks that are given", () => {
    const made = makeScene(
      scene([
        hole("new hole", "a", at(1, 1)),
        hole("old hole", "b", at(2, 2)),
        hole("new hole", "c", at(3, 3), { mark: "H1" }),
        hole("new hole", "d", at(4, 4)),
      ]),
    );
    expect(made.items.map((item) => item.mark)).toEqual(["H2", "X1", "H1", "H3"]);
  });

  it.each([
    [
      [line("note", "a", { x: 0, y: 0 }, { x: 1, y: 1 }), line("note", "a", { x: 0, y: 0 }, { x: 1, y: 1 })],
      /^items\[1\]\.id: "a" is used twice/,
    ],
    [[hole("new hole", "a", at(1, 1, 0))], /^items\[0\]\.diameterMm: must be a number above 0 mm, got 0/],
    [[hole("new hole", "a", at(1, 1, 2, -3))], /^items\[0\]\.depthMm: /],
    [[hole("new hole", "a", at(Number.NaN, 1))], /^items\[0\]\.centre\.x: /],
    [[line("note", "a", { x: 0, y: Infinity }, { x: 1, y: 1 })], /^items\[0\]\.from\.y: /],
  ])("refuses %#", (items, message) => {
    expect(() => makeScene(scene(items))).toThrow(message);
  });
});

describe("what a scene says of its holes", () => {
  const made = makeScene(
    scene([
      hole("new hole", "n1", at(147, -20)),
      hole("new hole", "n2", at(147, 20)),
      hole("new hole", "n3", at(158, 0, 3.2, "through")),
      hole("old hole", "o1", at(150, 0, 3.4, 22)),
      hole("new hole", "n4", at(130, 5)),
    ]),
  );

  it("counts places from the datum", () => {
    expect(sceneHoles(made).map(({ mark, fromDatum }) => [mark, fromDatum.x, fromDatum.y])).toEqual([
      ["H1", 47, -22],
      ["H2", 47, 18],
      ["H3", 58, -2],
      ["H4", 30, 3],
      ["X1", 50, -2],
    ]);
  });

  it("[PA6] groups by drill and stop and leaves old holes out", () => {
    expect(drillGroups(made).map(({ diameterMm, depthMm, marks }) => [diameterMm, depthMm, marks])).toEqual([
      [2.8, 26, ["H1", "H2", "H4"]],
      [3.2, "through", ["H3"]],
    ]);
    expect(markRuns(["H1", "H2", "H4"])).toBe("H1–H2, H4");
    expect(markRuns(["H1", "H2", "H3", "Y9", "Y10"])).toBe("H1–H3, Y9–Y10");
  });

  it("lists marking out in the order in which a rule meets the places", () => {
    expect(markingOutTable(made).rows.map(([mark]) => mark)).toEqual(["H4", "H1", "H2", "H3"]);
    expect(holeTable(made).rows).toHaveLength(5);
  });
});
