import { describe, expect, it } from "vitest";
import { assess, loadJob, markingOut } from "../../../src/core/index.ts";
import {
  alongOf,
  dimensionLine,
  fitTo,
  lookedAt,
  matrixOf,
  panBy,
  sightsOf,
  snap,
  toBody,
  toScreen,
  type View,
  withoutOverlap,
  zoomAt,
} from "../../../src/web/state/marking-view.ts";
import { example } from "../../core/questions/jobs.ts";

const box = { minX: -500, maxX: 300, minY: -60, maxY: 60 };
const desk = fitTo(box, { width: 1200, height: 480 });
const phone = fitTo(box, { width: 380, height: 500 });

describe.each([
  ["across", desk],
  ["down", phone],
] as const)("the view %s", (turn, view: View) => {
  it("shows the whole box", () => {
    expect(view.turn).toBe(turn);
    for (const [x, y] of [
      [box.minX, box.minY],
      [box.maxX, box.maxY],
    ] as const) {
      const { left, top } = toScreen(view, { x, y });
      expect(left).toBeGreaterThan(0);
      expect(left).toBeLessThan(view.width);
      expect(top).toBeGreaterThan(0);
      expect(top).toBeLessThan(view.height);
    }
  });

  it("goes there and back", () => {
    const back = toBody(view, toScreen(view, { x: 123.4, y: -21 }));
    expect(back.x).toBeCloseTo(123.4, 9);
    expect(back.y).toBeCloseTo(-21, 9);
  });

  it("says the same as its matrix", () => {
    const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = (/\((.*)\)/.exec(matrixOf(view))?.[1] ?? "")
      .split(" ")
      .map(Number);
    const { left, top } = toScreen(view, { x: 40, y: 7 });
    expect(a * 40 + c * 7 + e).toBeCloseTo(left, 6);
    expect(b * 40 + d * 7 + f).toBeCloseTo(top, 6);
  });

  it("keeps what lies under the finger when it zooms", () => {
    const at = { left: 31, top: 77 };
    const still = toBody(view, at);
    const nearer = toBody(zoomAt(view, 3, at), at);
    expect(nearer.x).toBeCloseTo(still.x, 9);
    expect(nearer.y).toBeCloseTo(still.y, 9);
  });

  it("moves the sheet with the finger", () => {
    const before = toScreen(view, { x: 0, y: 0 });
    const after = toScreen(panBy(view, 30, -12), { x: 0, y: 0 });
    expect(after.left - before.left).toBeCloseTo(30, 9);
    expect(after.top - before.top).toBeCloseTo(-12, 9);
  });

  it("moves the plate as far as the finger goes along the strings", () => {
    const from = toScreen(view, { x: 0, y: 0 });
    const to = toScreen(view, { x: 2.5, y: 0 });
    expect(alongOf(view, to.left - from.left, to.top - from.top)).toBeCloseTo(2.5, 9);
  });
});

describe("Lowtide under the eye", () => {
  const job = loadJob(example("lowtide"));
  const sheet = markingOut(job, assess(job));
  const sights = sightsOf(sheet);
  const size = { width: 1200, height: 480 };

  it("tells the dimensions of what lies in the middle: the whole, the bridge, a rout, a hole", () => {
    expect(lookedAt(sheet, sights, fitTo(sheet.whole, size))).toBe("whole");
    expect(lookedAt(sheet, sights, fitTo(sheet.bridge, size))).toBe("bridge");
    const rout = sights.routs.find(({ id }) => id === "rout neck");
    expect(rout && lookedAt(sheet, sights, fitTo(rout.box, size))).toBe("rout neck");
    const hole = sights.holes.find(({ id }) => id === "hole old-screws#2");
    expect(hole && lookedAt(sheet, sights, fitTo(hole.box, size))).toBe("hole old-screws#2");
  });

  it("takes hold of a hole's middle before an edge, of an edge before a bare place", () => {
    const view = fitTo(sheet.bridge, size);
    const px = (x: number, y: number) => toScreen(view, { x, y });
    expect(snap(view, sheet.points, sheet.scene, px(201.9, -19.6), 14)).toMatchObject({ x: 201.5, y: -20 });
    const edge = snap(view, sheet.points, sheet.scene, px(185, 41.3), 14);
    expect(edge.y).toBeCloseTo(41, 6);
    expect(snap(view, sheet.points, sheet.scene, px(240, 70), 14).name).toBe("a bare place");
  });

  it("stands a dimension's figure in the part that is seen, and leaves out a line that is not", () => {
    const view = fitTo(sheet.bridge, size);
    const row = sheet.dimensions.find(({ id }) => id === "plate-place");
    const line = row && dimensionLine(view, row);
    expect(line?.middle.left).toBeGreaterThan(0);
    expect(line?.middle.left).toBeLessThan(view.width);
    const nut = sheet.dimensions.find(({ id }) => id === "nut-to-fret-12");
    expect(nut && dimensionLine(zoomAt(view, 4, toScreen(view, { x: 200, y: 0 })), nut)).toBeUndefined();
  });
});

it("letters do not lie on one another", () => {
  const at = (id: string, left: number) => ({ id, text: "12.5 mm", at: { left, top: 100 } });
  const kept = withoutOverlap([at("a", 100), at("b", 120), at("c", 200), at("d", 5000)], desk);
  expect(kept.map(({ id }) => id)).toEqual(["a", "c"]);
});
