/**
 * Wood under the tip where something was routed from the back. Body 44.5 thick, five holes 24 deep in one row 34 behind
 * the front edge at 168, that is at u = 202; 4 mm are wanted under the tip.
 */
import { describe, expect, it } from "vitest";
import { askOf, figureOf, fixture, type JobData, text, wholeText, withValue } from "./jobs.ts";

const job = fixture("slanted-pickup");
const withSpring = (change: Record<string, unknown> = {}, data: JobData = job): JobData =>
  withValue(data, "instrument.body.cavities.spring", {
    u: 200,
    y: 0,
    length: 60,
    width: 90,
    depth: 18,
    face: "back",
    tool: "calliper",
    ...change,
  });

describe("a rout of 18 from the back under the bridge screws", () => {
  const verdict = askOf(withSpring(), "bridge.depth");

  it("leaves 44.5 - 18 - 24 = 2.5, not 20.5: no deeper than 44.5 - 18 - 4 = 22.5", () => {
    expect(figureOf(verdict, "woodLeftMm")).toBeCloseTo(2.5, 9);
    expect(verdict.status).toBe("no-go");
    expect(text(verdict.headline)).toMatch(/over the spring cavity.* only 2\.5 mm .*no deeper than 22\.5 mm/);
    expect(verdict.sums[0]?.rows.map(({ meaning }) => meaning)).toContain("depth of the spring cavity, from the back");
  });

  it("goes with holes 22 deep, 4.5 left", () => {
    const shallow = askOf(withSpring({}, withValue(job, "parts.groyne.screws.0.depth", 22)), "bridge.depth");
    expect(figureOf(shallow, "woodLeftMm")).toBeCloseTo(4.5, 9);
    expect(shallow.status).toBe("go");
  });

  it("does not count where no hole stands over it: it ends at u = 155 + 30 = 185", () => {
    const away = askOf(withSpring({ u: 155, length: 90, width: 60, y: 0 }), "bridge.depth");
    expect(figureOf(away, "woodLeftMm")).toBeCloseTo(20.5, 9);
    expect(away.status).toBe("go");
  });

  it("follows its turn: 20 wide and 90 long, askew by 60°, it reaches the outer screw only when turned", () => {
    // Middle at u 170: square, it ends at 180. Turned by 60°, the screw at (202, 21) stands 32 sin 60° + 21 cos 60° = 38.2
    // along it, of 45, and 32 cos 60° - 21 sin 60° = -2.2 across it, of 10.
    const slim = { u: 170, length: 90, width: 20 };
    expect(figureOf(askOf(withSpring(slim), "bridge.depth"), "woodLeftMm")).toBeCloseTo(20.5, 9);
    expect(figureOf(askOf(withSpring({ ...slim, angle: "60°" }), "bridge.depth"), "woodLeftMm")).toBeCloseTo(2.5, 9);
  });

  it("counts the deeper ears of it where a hole stands over them", () => {
    // 18.5 deep under all five: 44.5 - 18.5 - 24 = 2.0.
    const eared = withSpring({ ears: { length: 60, width: 40, depth: 18.5 } });
    expect(figureOf(askOf(eared, "bridge.depth"), "woodLeftMm")).toBeCloseTo(2, 9);
  });

  it("says the other stop where deeper holes stand beside it", () => {
    // A second row, 31 deep at 41 behind the front edge, past a rout that ends at u = 203: 44.5 - 31 = 13.5 there; the row
    // of 22 over it leaves 4.5, which is less.
    const rows = [
      { p: 30, q: [-21, 0, 21], thread: 3, pilot: 2.5, depth: 22 },
      { p: 41, q: [-10, 10], thread: 3, pilot: 2.5, depth: 31 },
    ];
    const verdict = askOf(
      withSpring({ u: 173, width: 60 }, withValue(job, "parts.groyne.screws", rows)),
      "bridge.depth",
    );
    expect(verdict.status).toBe("go");
    expect(text(verdict.headline)).toMatch(/Set the stop at 22\.0 mm: 4\.5 mm .* over the spring cavity/);
    expect(wholeText(verdict)).toMatch(/deepest go to 31\.0 mm, and 13\.5 mm is left there/);
  });

  it("asks for its depth where that was not measured", () => {
    const unknown = askOf(withSpring({ depth: undefined }), "bridge.depth");
    expect(unknown.status).toBe("measure");
    expect(unknown.missing.map(({ path }) => path)).toEqual(["body.cavities.spring.depth"]);
  });

  it("names a rout from the back whose place is not known", () => {
    expect(wholeText(askOf(withSpring({ u: undefined }), "bridge.depth"))).toMatch(
      /Not reckoned with, because not fully measured: the spring cavity/,
    );
  });
});

describe("a body of 28.3 by the rule under holes 24.0 deep", () => {
  const byRule = withValue(job, "instrument.body.thickness", "28.3 mm (rule)");

  it("does not say that only 4.3 is left where 4 is wanted, and allow 24.3: it asks for a better reading", () => {
    // 0.3 to spare with u = 0.25: P = Φ(1.2) = 0.885, 0.95 wanted.
    const verdict = askOf(byRule, "bridge.depth");
    expect(verdict.probability).toBeCloseTo(0.885, 2);
    expect(verdict.status).toBe("measure");
    expect(verdict.next?.path).toBe("body.thickness");
    expect(text(verdict.headline)).not.toMatch(/only 4\.3|24\.3/);
    // At 23.5 deep 0.8 to spare: Φ(3.2) = 0.999.
    expect(text(verdict.headline)).toMatch(/4\.3 mm .*drill no deeper than 23\.5 mm/);
  });

  it("goes once the calliper says the same", () => {
    expect(askOf(withValue(job, "instrument.body.thickness", "28.3 mm (calliper)"), "bridge.depth").status).toBe("go");
  });

  it("keeps to the limit of the job's gates", () => {
    expect(askOf(withValue(byRule, "settings.gateProbability", 0.8), "bridge.depth").status).toBe("go");
  });
});
