import { describe, expect, it } from "vitest";
import { dashPattern, ROLES, type Role, styleOf } from "../../../src/core/drawing/index.ts";
import { circleStroke, holeMarks } from "../../../src/core/drawing/symbols.ts";

/** Everything of a hole's look that a black-and-white print keeps. */
function look(role: Role): string {
  const marks = holeMarks({ right: 0, down: 0 }, 2, styleOf(role));
  const strokes = marks.map((mark) =>
    mark.kind === "text"
      ? "text"
      : [
          mark.kind,
          mark.fill ?? "",
          mark.stroke?.widthMm ?? "",
          mark.kind === "circle" ? mark.radiusMm : "",
          (mark.stroke?.dashMm.length ?? 0) > 0 ? "dashed" : "",
        ].join(" "),
  );
  return strokes.join("; ");
}

describe("[PA1] line kinds", () => {
  it("tells every kind of hole apart without colour", () => {
    const kinds: Role[] = ["new hole", "old hole", "plug", "string hole", "post", "screw"];
    expect(new Set(kinds.map(look)).size).toBe(kinds.length);
  });

  it("marks a hole to drill by a bold edge, a cross beyond it and a small solid centre", () => {
    const marks = holeMarks({ right: 0, down: 0 }, 1.4, styleOf("new hole"));
    expect(marks).toContainEqual(
      expect.objectContaining({ kind: "circle", radiusMm: 1.4, stroke: { widthMm: 0.5, dashMm: [] } }),
    );
    expect(marks).toContainEqual(expect.objectContaining({ kind: "circle", radiusMm: 0.35, fill: "ink" }));
    expect(marks.filter((mark) => mark.kind === "path")).toHaveLength(2);
  });

  it("tells cuts, keep-outs, old and new outlines apart without colour", () => {
    const areas: Role[] = [
      "rework area",
      "keep-out",
      "cavity outline",
      "plate outline",
      "old outline",
      "hidden outline",
      "body edge",
    ];
    const looks = areas.map((role) => `${styleOf(role).line} ${styleOf(role).widthMm} ${styleOf(role).hatch}`);
    // A new plate and an existing rout share the wide visible line; their labels and the key tell them apart.
    expect(new Set(looks).size).toBe(areas.length - 1);
  });

  it("gives every role a layer of its own, in letters that DXF allows", () => {
    const layers = ROLES.map((role) => styleOf(role).layer);
    expect(new Set(layers).size).toBe(ROLES.length);
    for (const layer of layers) expect(layer).toMatch(/^[A-Z][A-Z-]+$/);
  });

  it("never numbers holes with a letter that reads as a figure", () => {
    for (const role of ROLES) expect(styleOf(role).letter).toMatch(/^[A-HJ-NP-Z]$/);
  });

  it("shows at least six whole dashes on the smallest dashed circle", () => {
    for (const radius of [0.5, 1, 1.7, 5, 20]) {
      const { dashMm } = circleStroke(styleOf("old hole"), radius);
      const period = dashMm.reduce((sum, part) => sum + part, 0);
      const count = (2 * Math.PI * radius) / period;
      expect(count).toBeGreaterThan(5.999);
      expect(Math.abs(count - Math.round(count))).toBeLessThan(1e-9);
    }
  });
});

describe("from memory of ISO 128: soft", () => {
  it("draws the wide line at twice the thin one and chains in 24-3-0.5-3 widths", () => {
    expect(styleOf("plate outline").widthMm / styleOf("centre line").widthMm).toBe(2);
    expect(dashPattern("long-dashed dotted", 0.25)).toEqual([6, 0.75, 0.125, 0.75]);
    expect(dashPattern("dashed", 0.5)).toEqual([6, 1.5]);
  });
});
