/** The lever's two screws in the visible face: old holes used again, or new ones drilled. */
import { describe, expect, it } from "vitest";
import { assess, loadJob } from "../../../src/core/index.ts";
import { everythingToFit, gateOf, planTraveller } from "../../../src/core/plan/index.ts";
import { askOf, example, type JobData, text, withValue } from "./jobs.ts";

const lowtide = example("lowtide");
const tiller = (slot: number, screws: number): JobData =>
  withValue(withValue(lowtide, "parts.tiller.slot", slot), "parts.tiller.screws", screws);

/** The step that cuts the lever's slot or drills its screws, with everything before it done. */
function slotStep(data: JobData) {
  const job = loadJob(data);
  const verdicts = assess(job);
  const { steps } = planTraveller({
    instrument: job.instrument,
    verdicts,
    toFit: everythingToFit({ instrument: job.instrument }),
  });
  const step = steps.find(({ id }) => id === "slot-lever");
  if (!step) throw new Error("no step for the slot");
  const done = steps.map(({ id }) => ({ step: id, at: "2026-03-01T10:00Z" }));
  return { step, gate: gateOf(step, { steps, verdicts, readings: [], done, at: "2026-03-05T10:00Z" }) };
}

describe("[FT15] holes drilled in the visible face", () => {
  it("were passed over with a go when the wood between was thick enough", () => {
    const verdict = askOf(tiller(25, 26), "lever.slot");
    // Old screws at 20.65, new at 26.0: 5.35 apart, less 1.6 and 1.6: 2.15 of wood, above 1.5. Yet two holes are drilled.
    expect(verdict.status).toBe("rework");
    expect(text(verdict.headline)).toBe(
      "Drill two screw holes 26.00 mm each side of the slot's middle; the old ones stay open in sight, 2.15 mm of wood between.",
    );
    expect(verdict.work).toEqual([{ act: "slot", where: "lever", from: 26, to: 26, screwOffset: 26, cover: "" }]);
    expect([verdict.stake, verdict.remedies[0]?.permanence]).toEqual([3, "permanent"]);
    expect(verdict.probability).toBeGreaterThan(0.95);
  });

  it("a longer slot and screws elsewhere, with wood enough between, are both said", () => {
    expect(text(askOf(tiller(30.5, 26), "lever.slot").headline)).toBe(
      "Lengthen the slot from 26.0 mm to 30.5 mm and drill two screw holes 26.00 mm each side of the slot's middle; the old ones stay open in sight, 2.15 mm of wood between.",
    );
  });

  it("wood between that is just enough by a doubtful reading is not certain", () => {
    // 20.65 + 3.2 + 1.5 = 25.35: exactly the least wall.
    const verdict = askOf(tiller(25, 25.35), "lever.slot");
    expect(verdict.status).toBe("rework");
    expect(verdict.probability).toBeCloseTo(0.5, 0);
    expect(verdict.probability).toBeLessThan(0.8);
  });

  it("the old holes used again: nothing to drill", () => {
    expect(askOf(tiller(25, 20.65), "lever.slot")).toMatchObject({ status: "go", work: [] });
  });

  it("the traveller has a permanent step for the holes, shut until it may start", () => {
    const { step, gate } = slotStep(tiller(25, 26));
    expect(step.permanence).toBe("permanent");
    expect(text(step.title)).toBe("Drill the screw holes of lever, 26.00 mm each way from the slot's middle");
    expect(gate.state).toBe("shut");
    const tools = step.tools.map((tool) => text(tool.text)).join("; ");
    expect(tools).toContain("screw holes 26.00 mm each way from the middle");
    expect(tools).not.toContain("files");
  });

  it("a slot that will do is not lengthened from 26.0 to 26.0", () => {
    expect(text(slotStep(tiller(25, 23)).step.title)).toBe(
      "Drill the screw holes of lever, 23.00 mm each way from the slot's middle",
    );
  });
});
