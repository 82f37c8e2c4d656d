/** The plug that the walls were judged with is the plug that is drawn, drilled for and glued in. */
import { describe, expect, it } from "vitest";
import { ask, drawings, travellerOf } from "../../../src/core/index.ts";
import { showPhrase } from "../../../src/core/quantity/index.ts";
import { fixtureJob, linesOf, stepIn } from "./jobs.ts";

const OLD_LUG = "old-lug: { purpose: screw, u: 214.0, y: 23.0, diameter: 3.0, depth: 15, tool: calliper }";
const OPTIONS = { paper: "A4", date: "2026-03-14", version: "1" } as const;

/** Old holes of 3.0 and 7.0 beside the new row at 172 + 34 = 206. */
function twoSizes() {
  const rows = `a: { purpose: screw, u: 206, y: 11.5, diameter: 3.0, depth: 15, tool: calliper }
      b: { purpose: screw, u: 206, y: -11.5, diameter: 7.0, depth: 30, tool: calliper }
      c: { purpose: screw, u: 206, y: -22, diameter: 3.0, depth: 15, tool: calliper }`;
  const job = fixtureJob(
    "left-handed-stepped-plate",
    [OLD_LUG, rows],
    ["bridge: { part: groyne }", "bridge: { part: groyne, u: 172 }"],
  );
  const verdict = ask(job, "bridge.holes");
  return { job, verdict, traveller: travellerOf(job, [verdict]) };
}

describe("old holes of 3.0 and 7.0", () => {
  const { job, verdict, traveller } = twoSizes();

  it("get plugs of 6.0 and 10.0: no 10 mm hole is bored where the walls were judged with 6.0", () => {
    // The least plug is 6.0. For 7.0: 1.5 more a side, 7 + 2 × 1.5 = 10.0.
    expect(showPhrase(stepIn(traveller, "plug-a").title)).toBe("Plug 1 hole of a with Ø 6.0 mm");
    expect(showPhrase(stepIn(traveller, "plug-b").title)).toBe("Plug 1 hole of b with Ø 10.0 mm");
    expect(linesOf(stepIn(traveller, "plug-a")).join("\n")).not.toContain("10.0");
  });

  it("get on the traveller the plugs that the sheet draws", () => {
    const sheet = drawings(job, [verdict], OPTIONS).find(({ id }) => id === "bridge-template");
    const drawn = (sheet?.scene.items ?? []).flatMap(({ role, geometry }) =>
      role === "plug" && geometry.kind === "hole" ? [geometry.diameterMm] : [],
    );
    const glued = traveller.steps.flatMap(({ work }) =>
      work?.act === "plug" ? work.holes.map(() => work.diameter) : [],
    );
    expect(drawn).toEqual([6, 10]);
    expect(glued).toEqual([6, 10]);
  });
});
