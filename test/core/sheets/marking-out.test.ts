import { describe, expect, it } from "vitest";
import { assess, loadJob, markingOut } from "../../../src/core/index.ts";
import type { MarkingOut } from "../../../src/core/sheets/index.ts";
import { measureBetween } from "../../../src/core/sheets/index.ts";
import { example, fixture, type JobData } from "../questions/jobs.ts";

function drawn(data: JobData): MarkingOut {
  const job = loadJob(data);
  return markingOut(job, assess(job));
}

function point({ points }: MarkingOut, id: string) {
  const found = points.find((one) => one.id === id);
  if (!found) throw new Error(`no point ${id}; there are ${points.map((one) => one.id).join(", ")}`);
  return found;
}

function dimensionOf({ dimensions }: MarkingOut, id: string) {
  const found = dimensions.find((one) => one.id === id);
  if (!found) throw new Error(`no dimension ${id}; there are ${dimensions.map((one) => one.id).join(", ")}`);
  return found;
}

describe("markingOut of Lowtide", () => {
  const sheet = drawn(example("lowtide"));
  const ids = sheet.scene.items.map(({ id }) => id);

  it("draws the instrument from nut to scale line", () => {
    expect(ids).toEqual(
      expect.arrayContaining([
        ...["nut", "fret-1", "fret-22", "string-1", "string-6", "centre", "scale", "pocket", "window", "ground-wire"],
        ...["cavity-neck", "cavity-neck-ears", "old-screws#1", "plug-old-screws#1", "bridge-screws#5"],
        ...["outline-bridge", "pickup-neck-body", "pickup-neck-pole-6"],
      ]),
    );
    expect(ids).not.toContain("fret-23");
    expect(sheet.left).toEqual(["the tail edge"]);
  });

  it("stands true to scale: nut 508 before the end wall, fret 12 half way to the scale line at 182", () => {
    expect(point(sheet, "nut").x).toBeCloseTo(-508, 9);
    expect(point(sheet, "fret-12").x).toBeCloseTo(-508 + 345, 9);
    expect(point(sheet, "scale")).toMatchObject({ x: 182, y: 0 });
  });

  it("puts string 1 on the treble side, and its pole under it", () => {
    expect(point(sheet, "string-1-nut").y).toBeCloseTo(18, 9);
    expect(point(sheet, "pickup-neck-pole-1").y).toBeCloseTo(25, 9);
  });

  it("lets the plate be moved in its window, with everything that hangs on it", () => {
    expect(sheet.plate?.itemIds).toEqual(expect.arrayContaining(["outline-bridge", "bridge-screws#1"]));
    expect(sheet.plate?.placeMm).toBeGreaterThan(sheet.plate?.window.minMm ?? Number.NaN);
  });

  it("measured dimensions ask for a reading of their own subject, the plate's place is a decision", () => {
    expect(dimensionOf(sheet, "nut-to-fret-12")).toMatchObject({
      valueMm: 345,
      edit: { by: "reading", reading: { path: "neck.nutToFret12", tool: "steel rule" } },
    });
    expect(dimensionOf(sheet, "old-screws-row")).toMatchObject({
      valueMm: 201.5,
      edit: { by: "reading", reading: { path: "body.holes.old-screws.u" } },
    });
    expect(dimensionOf(sheet, "plate-place").edit).toEqual({ by: "decision", path: "/fit/bridge/u" });
  });

  it("gives every dimension a line as long as its figure", () => {
    for (const { id, from, to, along, valueMm } of sheet.dimensions)
      expect([id, Math.abs(along === "x" ? to.x - from.x : to.y - from.y)]).toEqual([
        id,
        expect.closeTo(Math.abs(valueMm), 6),
      ]);
  });
});

describe("markingOut of Ferry", () => {
  const sheet = drawn(example("ferry"));

  it("counts places from the nut, as the file does", () => {
    expect(dimensionOf(sheet, "old-screws-row")).toMatchObject({
      valueMm: 901,
      edit: { by: "reading", reading: { path: "body.holes.old-screws.x" } },
    });
    expect(dimensionOf(sheet, "plate-place").edit).toEqual({ by: "decision", path: "/fit/bridge/x" });
    expect(dimensionOf(sheet, "scale-line")).toMatchObject({
      valueMm: 864,
      edit: { reading: { path: "scaleLine.x" } },
    });
  });

  it("is left-handed: string 1 on the left", () => {
    expect(point(sheet, "string-1-nut").y).toBeCloseTo(-15, 9);
  });

  it("shows the place first thought of beside the one that the papers go by", () => {
    expect(sheet.plate).toMatchObject({ wishedMm: 252, placeMm: 248.5 });
    expect(sheet.scene.items.map(({ id }) => id)).toContain("wish");
  });
});

describe("markingOut of other instruments", () => {
  it("fans the frets of a multi-scale neck, square at fret 7", () => {
    const sheet = drawn(fixture("seven-string-units"));
    const fret = (n: number) => {
      const item = sheet.scene.items.find(({ id }) => id === `fret-${n}`);
      if (item?.geometry.kind !== "line") throw new Error(`no fret ${n}`);
      return item.geometry;
    };
    expect(fret(7).from.x).toBeCloseTo(fret(7).to.x, 6);
    const lean = (n: number) => fret(n).to.x - fret(n).from.x;
    expect(Math.sign(lean(1))).toBe(-Math.sign(lean(24)));
    expect(sheet.plate).toBeUndefined();
    expect(sheet.scene.items.filter(({ id }) => id.startsWith("outline-unit-"))).toHaveLength(7);
  });

  it.each(["nearly-nothing", "six-string-two-posts", "glued-neck", "printed-scale", "slanted-pickup", "bass-channel"])(
    "draws what is known of %s",
    (name) => {
      const sheet = drawn(fixture(name));
      expect(sheet.whole.maxX).toBeGreaterThan(sheet.whole.minX);
      for (const { x, y } of sheet.points) expect(Number.isFinite(x + y)).toBe(true);
    },
  );

  it("[PA20] says what could not be drawn", () => {
    expect(drawn(fixture("nearly-nothing")).left).toEqual(
      expect.arrayContaining(["the neck", "the bridge", "old screws", "neck rout", "wire channel ground"]),
    );
  });
});

describe("measureBetween", () => {
  const term = (id: string, u: number) => ({ id, u, shape: "normal" as const, what: id });

  it("[PA21] tells straight, along and across: 3, 4, 5", () => {
    expect(measureBetween({ x: 1, y: 2 }, { x: 4, y: -2 })).toEqual({ straightMm: 5, alongMm: 3, acrossMm: 4 });
  });

  it("does not blame two holes of one row for where the row lies", () => {
    const row = term("row", 0.5);
    const a = { x: 0, y: 0, doubt: { along: [row], across: [term("a", 0.03)] } };
    const b = { x: 0, y: 10, doubt: { along: [row], across: [term("b", 0.04)] } };
    expect(measureBetween(a, b).u).toEqual({
      alongMm: 0,
      acrossMm: expect.closeTo(0.05, 12),
      straightMm: expect.closeTo(0.05, 12),
    });
  });

  it("shares out a slanted distance's doubt by its direction", () => {
    const at = (x: number, y: number, name: string) => ({
      x,
      y,
      doubt: { along: [term(`${name}u`, 0.1)], across: [term(`${name}y`, 0.1)] },
    });
    expect(measureBetween(at(0, 0, "a"), at(30, 40, "b")).u?.straightMm).toBeCloseTo(0.1 * Math.SQRT2, 12);
  });

  it("tells no doubt where a point is only drawn", () => {
    const sheet = drawn(example("lowtide"));
    const between = measureBetween(point(sheet, "old-screws#1"), point(sheet, "cavity-neck"));
    expect(between.u).toBeUndefined();
    expect(measureBetween(point(sheet, "old-screws#1"), point(sheet, "bridge-screws#1")).u?.alongMm).toBeGreaterThan(
      0.4,
    );
  });
});
