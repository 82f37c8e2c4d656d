import { describe, expect, it } from "vitest";
import { readingU, TOOLS, toolNamed } from "../../../src/core/quantity/index.ts";

describe("TOOLS", () => {
  // Standard uncertainties that the invented jobs state for their readings (common practice, no source).
  it.each([
    ["steel rule", 0.25],
    ["calliper", 0.05],
    ["feeler", 0.02],
    ["transfer", 0.15],
    ["plate laid on", 0.1],
    ["heel pushed home", 0.3],
    ["straightedge", 0.05],
    ["trial reading", 0.5],
  ])("%s: %s", (name, u) => {
    const tool = toolNamed(name);
    expect(tool && readingU(tool, 100)).toBe(u);
  });

  it("takes a meter as good for 0.5 % of the reading", () => {
    const meter = toolNamed("meter");
    expect(meter && readingU(meter, -8000)).toBe(40);
  });

  it("works the tape out: class II at 1 m from the hook (0.7 mm) and ±0.5 mm of reading, both limits", () => {
    const tape = toolNamed("tape");
    expect(tape?.u).toBeCloseTo(Math.sqrt((0.7 ** 2 + 0.5 ** 2) / 3), 12);
  });

  it("works the radius gauge out: 0.025 mm of light on 50 mm of board at radius 250", () => {
    // s = w²/(8R), so dR/R = ds 8R/w² = 0.025 x 2000 / 2500 = 0.02.
    expect(toolNamed("radius gauge")?.u).toBeCloseTo((0.025 * 8 * 250) / 50 ** 2, 12);
  });

  it("has no name twice", () => {
    const names = TOOLS.flatMap(({ name, aliases }) => [name, ...aliases]);
    expect(new Set(names).size).toBe(names.length);
    expect(names.every((name) => name === name.toLowerCase())).toBe(true);
  });

  it.each(TOOLS)("$name has figures a bench can use", (tool) => {
    expect(tool.u).toBeGreaterThan(0);
    expect(tool.minutes).toBeGreaterThan(0);
    expect(tool.placingShare).toBeGreaterThanOrEqual(0);
    expect(tool.placingShare).toBeLessThanOrEqual(1);
    expect(tool.how.endsWith(".")).toBe(false);
    expect(tool.kinds.length).toBeGreaterThan(0);
  });

  it.each(["Rule", " steel  rule ", "CALIPER", "story stick", "multimeter", "trial"])("knows %s", (name) => {
    expect(toolNamed(name)).toBeDefined();
  });

  it.each(["", "laser", "constructor", "__proto__"])("does not know %o", (name) =>
    expect(toolNamed(name)).toBeUndefined(),
  );
});
