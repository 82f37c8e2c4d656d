/** A rout that has to go deeper: is there wood for it? */
import { describe, expect, it } from "vitest";
import { askOf, example, type JobData, text, wholeText, withValue } from "./jobs.ts";

const lowtide = example("lowtide");
const deep = (depth: string, data: JobData = lowtide): JobData => withValue(data, "parts.reef.depth", depth);

describe("[FT2] a deeper rout", () => {
  it("was certain in a body of unknown thickness: now the body is asked for", () => {
    const unmeasured = withValue(lowtide, "instrument.body.thickness", undefined);
    const verdict = askOf(deep("46 mm (calliper)", unmeasured), "pickup.bridge.drop-in");
    expect(verdict.status).toBe("measure");
    expect(verdict.missing.map(({ path }) => path)).toEqual(["body.thickness"]);
    expect(verdict.work).toEqual([]);
    // Nothing has to go deeper for the pickup as it is: its answer needs no thickness.
    expect(askOf(unmeasured, "pickup.bridge.drop-in").status).toBe("rework");
  });

  it("exactly the least wood left, by a rule: as likely too thin as not", () => {
    const thin = withValue(lowtide, "instrument.body.thickness", "30 mm (rule)");
    const verdict = askOf(deep("26.5 mm (calliper)", thin), "pickup.bridge.drop-in");
    // Rout to 26.5 + 0.5 = 27.0; 30.0 - 27.0 = 3.0, exactly what must stay: P about one half. It was 0.998.
    expect(verdict.status).toBe("rework");
    expect(verdict.probability).toBeCloseTo(0.5, 1);
    expect(verdict.figures.woodUnderBody).toBeCloseTo(3, 9);
    expect(wholeText(verdict)).toContain(
      "A rout 8.00 mm deeper leaves 3.0 mm of wood under the body, at least 3.0 mm wanted",
    );
    expect(verdict.shares.map(({ path }) => path)).toContain("body.thickness");
  });

  it("wood in plenty costs no certainty", () => {
    // 44.5 - 27.0 = 17.5 left, 14.5 to spare.
    const verdict = askOf(deep("26.5 mm (calliper)"), "pickup.bridge.drop-in");
    expect(verdict.status).toBe("rework");
    expect(verdict.probability).toBeGreaterThan(0.99);
    expect(verdict.sums.map(({ title }) => title)).toContain("Wood under the body");
  });

  it("too little wood stays a no, with the depth that it would take", () => {
    const verdict = askOf(deep("43 mm (calliper)"), "pickup.bridge.drop-in");
    expect([verdict.status, verdict.work]).toEqual(["no-go", []]);
    expect(text(verdict.headline)).toContain("would go through the body");
  });
});
