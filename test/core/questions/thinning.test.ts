/** Thinning the wood so that a control has room below: will the wood bear it? */
import { describe, expect, it } from "vitest";
import type { Verdict } from "../../../src/core/verdict/index.ts";
import { askOf, example, type JobData, text, withValue } from "./jobs.ts";

/** The volume pot of the demo: 30 deep with 2.0 for lugs in 29 of free depth, short by 3.0. */
function room(wood: string, freeDepth = "29 mm (calliper)"): Verdict {
  const changes: readonly (readonly [string, unknown])[] = [
    ["instrument.controls.volume.wood", wood],
    ["instrument.controls.volume.freeDepth", freeDepth],
    ["parts.cog-volume.depth", "30 mm (calliper)"],
    ["parts.cog-volume.threadLength", "19 mm (calliper)"],
  ];
  const data = changes.reduce<JobData>((job, [path, value]) => withValue(job, path, value), example("lowtide"));
  return askOf(data, "control.volume.depth");
}

describe("[FT10] thinning for room", () => {
  it("asked of the depth alone: 3.0 of 6.0 by a rule comes off, and 3.0 has to stay", () => {
    const verdict = room("6.0 mm (rule)");
    // Short 30 + 2 - 29 = 3.0; 6.0 - 3.0 - 3.0 = 0.0 to spare: one half, and of the room itself one half besides.
    expect(verdict.status).toBe("rework");
    expect(verdict.probability).toBeLessThan(0.6);
    expect(verdict.shares.map(({ path }) => path)).toContain("controls.volume.wood");
    expect(verdict.sums.map(({ title }) => title)).toEqual(["Room below", "Wood left"]);
    expect(verdict.detail.map((line) => text(line)).join(" ")).toContain("limit of 3.0 mm");
  });

  it("wood in plenty costs no certainty; wood that is just enough does", () => {
    // Short 30 + 2 - 28.99 = 3.01, cut 3.5: 0.49 of room to spare, of which the lugs' 0.3 leave about Φ(1.6) = 0.95.
    const thick = room("12 mm (calliper)", "28.99 mm (calliper)");
    expect([thick.status, thick.probability]).toEqual(["rework", expect.closeTo(0.95, 1)]);
    // 6.5 - 3.01 - 3.0 = 0.49 of wood to spare as well, and a rule's doubt in it.
    const thin = room("6.5 mm (rule)", "28.99 mm (calliper)");
    expect(thin.status).toBe("rework");
    expect(thin.probability).toBeLessThan((thick.probability ?? 0) - 0.02);
    // Rounded up to 3.5 deep, 6.2 would be left with 2.7: that is no cure.
    expect(room("6.2 mm (rule)", "28.99 mm (calliper)").status).toBe("no-go");
  });
});
