import { describe, expect, it } from "vitest";
import { parseJobText } from "../../src/app/job-files.ts";
import { jobText } from "../../src/app/job-text.ts";
import { growJob, STARTERS } from "../../src/core/begin/index.ts";

describe("jobText", () => {
  const { data } = growJob("bridge-place", {
    what: "7 strings, multi-scale, single units",
    "nut-12": "317.5 330",
    travel: "8 20",
    "old-holes": "395.5: 5 at 10",
  });
  const text = jobText(data, "Where must it stand?\nBegun today.");

  it("comes back as the same data", () => {
    expect(parseJobText(text, "job.yaml").data).toEqual(data);
  });

  it.each(STARTERS.map(({ id }) => id))("holds for what %s grows from nothing", (id) => {
    const grown = growJob(id, {}).data;
    expect(parseJobText(jobText(grown, id), "job.yaml").data).toEqual(grown);
  });

  it("reads like a file that a person wrote: sections apart, small things on one line", () => {
    const lines = text.split("\n");
    expect(lines.slice(0, 5)).toEqual([
      "# Where must it stand?",
      "# Begun today.",
      "",
      "fettle: { job: 1, instrument: 1, parts: 1, fit: 1, readings: 1, settings: 1 }",
      "",
    ]);
    expect(text).toContain("\n  bridge: { part: bridge }\n");
    expect(text).toContain("y: [ -20, -10, 0, 10, 20 ]");
    expect(text).toContain(
      "\n  - id: old-holes\n    of: body.holes.old-holes.x\n    value: 719.25 ±0.5 mm (steel rule, k=2)\n",
    );
    expect(text.endsWith("\n")).toBe(true);
  });
});
