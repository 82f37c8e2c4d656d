import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { arc, line, makeScene, outline, rectangle, type Scene } from "../../src/core/drawing/index.ts";
import { installedFonts } from "../../src/papers/font-node.ts";
import { textMeasure, writeDxf } from "../../src/papers/index.ts";
import { numberOf, referenceCase } from "../reference/papers/cases.ts";
import { bridgeScene } from "./demo.ts";
import { parseDxf } from "./dxf-parser.ts";
import { anyScene } from "./random-scenes.ts";
import { recoverDxf } from "./recover-dxf.ts";

const measure = textMeasure(installedFonts());

/** Holes of a scene as the file should hold them. */
function expected(scene: Scene) {
  const side = scene.view === "behind" ? -1 : 1;
  return scene.items.flatMap(({ geometry, id, mark, layer }) =>
    geometry.kind === "hole"
      ? [
          {
            id,
            mark,
            layer,
            x: geometry.centre.x,
            y: side * geometry.centre.y,
            diameterMm: geometry.diameterMm,
            depth: geometry.depthMm,
            datum: geometry.datum,
          },
        ]
      : [],
  );
}

describe("[PA14] writeDxf", () => {
  it("holds every hole to 0.01 mm, with depth and datum, from either side", () => {
    fc.assert(
      fc.property(anyScene, (scene) => {
        const { holes, complaints } = recoverDxf(writeDxf(scene, { measure }));
        expect(complaints).toEqual([]);
        const wanted = expected(scene);
        expect(holes).toHaveLength(wanted.length);
        for (const one of wanted) {
          const found = holes.find(({ id }) => id === one.id);
          if (found === undefined) throw new Error(`${one.id} is missing`);
          expect(found).toMatchObject({ mark: one.mark, layer: one.layer, datum: one.datum });
          for (const key of ["x", "y", "diameterMm"] as const)
            expect(Math.abs(found[key] - one[key])).toBeLessThan(0.01);
          if (typeof one.depth !== "number") expect(found.depth).toBe(one.depth);
          else expect(Math.abs(Number(found.depth) - one.depth)).toBeLessThan(0.01);
          expect(found.text).toContain(typeof one.depth !== "number" ? one.depth : `deep ${one.depth.toFixed(2)}`);
          expect(found.text).toContain(`from ${one.datum}`);
        }
      }),
      { seed: 21, numRuns: 25 },
    );
  });

  it("has millimetres, a bar of 100 mm and the frame in words", () => {
    const { unit, barMm, notes } = recoverDxf(writeDxf(bridgeScene(), { measure }));
    expect(unit).toBe(numberOf(referenceCase("dxf-insunits"), "$INSUNITS"));
    expect(barMm).toBeCloseTo(100, 9);
    expect(notes.join(" ")).toContain(
      "(0, 0) is the end wall of the neck pocket, on the centre line; x here is u, y here is y",
    );
    expect(notes).toContain("seen from the front, head left, bass side up (y > 0)");
  });

  it("notices a planted mirror and a planted 97 %", () => {
    const source = writeDxf(bridgeScene(), { measure });
    expect(
      recoverDxf(rewrite(source, (code, value) => (code >= 20 && code <= 28 ? -value : value))).complaints,
    ).toContain("the drawing is mirrored");
    const small = recoverDxf(
      rewrite(source, (code, value) => ((code >= 10 && code <= 28) || code === 40 ? value * 0.97 : value)),
    );
    expect(small.complaints.join()).toMatch(/the bar is 97/);
  });

  it("keeps round corners as bulges and arcs as arcs", () => {
    const scene = makeScene({
      ...bridgeScene(),
      items: [
        outline(
          "cut line",
          "plate",
          rectangle({ centre: { x: 0, y: 0 }, alongMm: 40, acrossMm: 20, cornerRadiusMm: 5 }),
        ),
        arc("cut line", "slot", { centre: { x: 5, y: 6 }, radiusMm: 15, fromDegrees: 30, sweepDegrees: -100 }),
        line("fold line", "fold", { x: 0, y: 0 }, { x: 7, y: 3 }),
      ],
    });
    const { entities } = parseDxf(writeDxf(scene, { measure }));
    const on = (layer: string, type: string) => entities.filter((one) => one.layer === layer && one.type === type);
    const bulges = on("CUT-LINE", "LWPOLYLINE")[0]
      ?.vertices?.map(({ bulge = 0 }) => bulge)
      .filter((bulge) => bulge !== 0);
    expect(bulges).toHaveLength(4);
    for (const bulge of bulges ?? []) expect(bulge).toBeCloseTo(numberOf(referenceCase("dxf-bulge-90"), "bulge"), 6);
    const slot = on("CUT-LINE", "ARC")[0];
    // DXF arcs run anticlockwise: from 30 - 100 to 30 degrees.
    expect([slot?.radius, slot?.startAngle, slot?.endAngle]).toEqual([
      15,
      expect.closeTo((-70 * Math.PI) / 180, 9),
      expect.closeTo((30 * Math.PI) / 180, 9),
    ]);
    expect(on("FOLD-LINE", "LINE")[0]?.vertices).toMatchObject([
      { x: 0, y: 0 },
      { x: 7, y: 3 },
    ]);
  });

  it("is the same text every time and never lets a name break out of its line", () => {
    expect(writeDxf(bridgeScene(), { measure })).toBe(writeDxf(bridgeScene(), { measure }));
    const [first, ...rest] = bridgeScene().items;
    if (first === undefined) throw new Error("empty scene");
    const nasty = makeScene({ ...bridgeScene(), items: [{ ...first, label: "a\n0\nEOF", layer: 'A:B"C' }, ...rest] });
    const { entities } = parseDxf(writeDxf(nasty, { measure }));
    expect(entities.length).toBeGreaterThan(40);
    expect(entities.some(({ layer }) => layer === "A-B-C")).toBe(true);
  });
});

/** The file with numbers changed inside its entities. */
function rewrite(source: string, change: (code: number, value: number) => number): string {
  const lines = source.split("\n");
  const start = lines.findIndex((text, index) => text.trim() === "ENTITIES" && index % 2 === 1);
  return lines
    .map((text, index) => {
      const code = Number(lines[index - 1]);
      if (index < start || index % 2 === 0 || Number.isNaN(Number(text)) || text.trim() === "") return text;
      const changed = change(code, Number(text));
      return changed === Number(text) ? text : String(changed);
    })
    .join("\n");
}
