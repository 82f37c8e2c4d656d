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

describe("a lead hole of 2.0 for a screw whose core may be 1.67", () => {
  const units = printed(fixtureJob("seven-string-units"));
  const drill = stepIn(units.traveller, "drill-unit-1-screws");

  it("does not let the drilling begin: its gate names the answer about the bit", () => {
    expect(drill.restsOn).toContain("fasteners.bridge");
    const reason = units.gates.get(drill.id)?.reasons.find(({ ref, ok }) => ref === "fasteners.bridge" && !ok);
    expect(showPhrase(reason?.text ?? [])).toMatch(/^bit not settled: .*1\.67 mm to 2\.05 mm/);
    expect(showPhrase(reason?.opens ?? [])).toContain("1.3 mm");
  });

  it("is printed on no paper as a bit to take", () => {
    expect(units.callouts).toMatch(/DRILL not settled/);
    expect(units.notes).toMatch(/Do not drill on this yet: .*1\.67 mm to 2\.05 mm/);
    expect(units.list).toMatch(/\| not settled \| 14\.0/);
    const lines = linesOf(drill).join("\n");
    expect(lines).toMatch(/drill bit not settled/);
    expect(lines).toMatch(/unit-1-screws#1: [^\n]*bit not settled/);
    expect(lines).not.toMatch(/2\.0 mm/);
  });

  it("is printed once the pilot is 1.3: not above the core by any rule", () => {
    // Two thirds of 2.5 is 1.67, the least of the three rules: 1.3 leaves 0.37.
    const thin = printed(
      fixtureJob(
        "seven-string-units",
        ["q: 0, thread: 2.5, pilot: 2.0", "q: 0, thread: 2.5, pilot: 1.3"],
        ["q: 0, thread: 2.5, pilot: 2.0", "q: 0, thread: 2.5, pilot: 1.3"],
      ),
    );
    expect(thin.callouts).toMatch(/DRILL 1\.3 mm STOP 14\.0/);
    expect(thin.notes).not.toMatch(/lead hole/);
    const step = stepIn(thin.traveller, "drill-unit-1-screws");
    expect(linesOf(step).join("\n")).toMatch(/drill bit 1\.3 mm/);
    expect(thin.gates.get(step.id)?.reasons.some(({ ref, ok }) => ref === "fasteners.bridge" && !ok)).toBe(false);
  });
});
