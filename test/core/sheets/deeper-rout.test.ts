/** A rout that goes deeper: the whole floor is cut, and its depth stands on the paper. */
import { describe, expect, it } from "vitest";
import { ask, drawings, type Job, travellerOf } from "../../../src/core/index.ts";
import { showPhrase } from "../../../src/core/quantity/index.ts";
import { fixtureJob, linesOf, stepIn } from "./jobs.ts";

function routSheet(job: Job, pickup: string) {
  const verdicts = [ask(job, `pickup.${pickup}.drop-in`)];
  const sheet = drawings(job, verdicts, { paper: "A4", date: "2026-03-14", version: "1" }).find(
    ({ id }) => id === `rout-${pickup}`,
  );
  if (!sheet) throw new Error("no sheet");
  const notes = (sheet.notes ?? []).map((words) => (typeof words === "string" ? words : showPhrase(words))).join("\n");
  const hatched = sheet.scene.items.filter(({ role }) => role === "rework area").map(({ id }) => id);
  return { notes, hatched, traveller: travellerOf(job, verdicts) };
}

describe("a pickup of 22 over a cavity of 19", () => {
  const job = fixtureJob("slanted-pickup", ["depth: 14.0\n    ears", "depth: 22.0\n    ears"]);
  const { notes, hatched, traveller } = routSheet(job, "slanted");

  it("has its whole floor hatched, and the depth it is to have", () => {
    // 22 and 0.5 of air: 22.5 from the top, 3.5 more than now.
    expect(hatched).toEqual(["rework-body-floor"]);
    expect(notes).toMatch(/from the top: .*body to 22\.5 mm/);
    expect(notes).not.toMatch(/[Oo]nly the hatched strips/);
    expect(linesOf(stepIn(traveller, "rout-slanted")).join("\n")).toMatch(/3\.5 mm deeper, to 22\.5 mm from the top/);
  });
});

describe("a pickup whose ears and whose body want depth", () => {
  const job = fixtureJob(
    "slanted-pickup",
    ["depth: 14.0\n    ears", "depth: 20.0\n    ears"],
    ["bottom: 12.0", "bottom: 25.0"],
    ["width: 10.0, depth: 19.0 }", "width: 10.0, depth: 21.0 }"],
  );
  const { notes, hatched } = routSheet(job, "slanted");

  it("is told two depths for two zones, not one new depth", () => {
    // Ears 25 + 0.5 = 25.5, body 20 + 0.5 = 20.5.
    expect(notes).toMatch(/body to 20\.5 mm/);
    expect(notes).toMatch(/ears to 25\.5 mm/);
    expect(hatched).toEqual(["rework-body-floor", "rework-ear-floor-1", "rework-ear-floor1"]);
  });
});

describe("a cavity that only grows", () => {
  it("is cut in its strips, at the depth it has", () => {
    const { notes, hatched } = routSheet(fixtureJob("lowtide"), "bridge");
    expect(notes).toMatch(/Cut only the hatched strips/);
    expect(hatched.some((id) => id.includes("floor"))).toBe(false);
  });
});
