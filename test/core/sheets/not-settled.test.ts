/** What no answer has settled is not printed as a figure to work by, and every paper says so. */
import { describe, expect, it } from "vitest";
import { calloutLines } from "../../../src/core/drawing/panels.ts";
import { assess, drawings, gatesOf, type Job, papers, travellerOf } from "../../../src/core/index.ts";
import { showPhrase } from "../../../src/core/quantity/index.ts";
import { fixtureJob, linesOf, listOf, stepIn } from "./jobs.ts";

const OPTIONS = { paper: "A4", date: "2026-03-14", version: "1" } as const;

function printed(job: Job) {
  const verdicts = assess(job);
  const traveller = travellerOf(job, verdicts);
  const sheet = drawings(job, verdicts, OPTIONS).find(({ id }) => id === "bridge-template");
  if (!sheet) throw new Error("no sheet");
  return {
    traveller,
    gates: gatesOf(job, verdicts, traveller),
    notes: (sheet.notes ?? []).map((words) => (typeof words === "string" ? words : showPhrase(words))).join("\n"),
    callouts: calloutLines(sheet.scene)
      .map((words) => showPhrase(words))
      .join("\n"),
    list: listOf(papers(job, verdicts, OPTIONS)),
  };
}

describe("a body of 22 mm under holes of 24", () => {
  // 22 less the 4 to be left under the tip: no deeper than 18.0, and 24.0 comes out at the back.
  const thin = printed(
    fixtureJob("left-handed-stepped-plate", ["thickness: 44.5 mm (calliper)", "thickness: 22.0 mm (calliper)"]),
  );

  it("is warned of on the sheet and on the list", () => {
    for (const words of [thin.notes, thin.list])
      expect(words).toMatch(/Do not drill on this yet: .*drill no deeper than 18\.0 mm/);
  });

  it("gets no stop of 24.0 on sheet, list or traveller", () => {
    expect(thin.callouts).toMatch(/STOP not settled/);
    const lines = linesOf(stepIn(thin.traveller, "drill-bridge-screws")).join("\n");
    expect(lines).toMatch(/stop not settled/);
    for (const words of [thin.callouts, lines]) expect(words).not.toContain("24.0");
    // The caution names the 24.0 that is too much; the rows to work by do not.
    expect(thin.list).not.toMatch(/\| 24\.0/);
    expect(thin.list).toMatch(/\| not settled/);
  });
});

describe("saddles that bottom out by 3", () => {
  it("are warned of on the sheet and the list of the glued neck", () => {
    const glued = printed(fixtureJob("glued-neck"));
    for (const words of [glued.notes, glued.list])
      expect(words).toMatch(/Do not drill on this yet: The saddles bottom out/);
  });

  it("are told of no bolts, on sheet or list: the neck is glued", () => {
    const glued = printed(fixtureJob("glued-neck"));
    for (const words of [glued.notes, glued.list]) expect(words).not.toMatch(/bolted/i);
  });
});
