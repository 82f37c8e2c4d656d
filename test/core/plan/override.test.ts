import { describe, expect, it } from "vitest";
import {
  type Circumstances,
  finishOf,
  planTraveller,
  type TakenReading,
  viewReading,
} from "../../../src/core/plan/index.ts";
import { showPhrase } from "../../../src/core/quantity/index.ts";
import { makeInput } from "./fixture.ts";
import { but, DAY_3, DRILL, gate, plan, READY, reading, shut, step } from "./gate-fixture.ts";

describe("override", () => {
  const bad: Partial<Circumstances> = { verdicts: but("bridge.window", { probability: 0.63 }) };

  it("[GT11] opens against the numbers with a written reason, which stays with every reason against it", () => {
    const override = { step: DRILL.id, reason: "customer accepts visible filler", by: "R", at: DAY_3 };
    const found = gate({ ...bad, overrides: [override] });
    expect(found).toMatchObject({ state: "overridden", override });
    expect(shut(found)).toHaveLength(1);
    expect(gate({ overrides: [override] })).toMatchObject({ state: "open" });
    expect(gate({ overrides: [override] }).override).toBeUndefined();
  });

  it("[GT11] refuses a reason that says nothing, and one for another step does not help", () => {
    expect(() => gate({ ...bad, overrides: [{ step: DRILL.id, reason: "   ok     " }] })).toThrow(
      /^overrides\.drill-bridge-screws\.reason: a reason of 2 characters says too little/,
    );
    expect(() => gate({ ...bad, overrides: [{ step: DRILL.id, reason: "123456789" }] })).toThrow(/9 characters/);
    expect(gate({ ...bad, overrides: [{ step: DRILL.id, reason: "1234567890" }] }).state).toBe("overridden");
    expect(gate({ ...bad, overrides: [{ step: "other", reason: "a long enough reason" }] }).state).toBe("shut");
  });
});

describe("readings asked", () => {
  const asked = step("carry-scale-line").readings[0];
  if (!asked) throw new Error("fixture");

  it("[GT12] what is expected stays hidden until both readings are in", () => {
    const view = (...taken: TakenReading[]) => viewReading(asked, taken);
    const [one, other] = [
      reading("scaleLine.u", 182, { placing: "a" }),
      reading("scaleLine.u", 182.2, { placing: "b" }),
    ];
    expect(JSON.stringify(view())).not.toContain("expected");
    expect(JSON.stringify(view(one))).not.toContain("expected");
    expect(showPhrase(view(one).problem ?? [])).toContain("read once, two readings wanted");
    expect(view(one, other)).toMatchObject({ complete: true, expected: { value: 182 }, within: true });
    const far = view(reading("scaleLine.u", 180.9, { placing: "a" }), reading("scaleLine.u", 181, { placing: "b" }));
    expect(far.within).toBe(false);
    expect(showPhrase(far.problem ?? [])).toBe(
      "scale line, back from the pocket's end wall: you read 180.95 mm, the plan was made with 182.00 mm ± 0.67 mm",
    );
  });

  it("[GT12] a step is not ticked off without its readings, or with ones that are not as expected", () => {
    const ohms = planTraveller(
      makeInput({ ohms: [{ state: "3", title: "position 3", ohms: 4870, tolerance: 244 }] }),
    ).steps.find((one) => one.id === "ohms");
    if (!ohms) throw new Error("no ohms");
    const tap = reading("tap.all", 1);
    expect(finishOf(ohms, { ...READY, readings: [tap] }).state).toBe("shut");
    expect(finishOf(ohms, { ...READY, readings: [tap, reading("ohms.3", 4900)] }).state).toBe("open");
    // Demo A, A-T17: position 3 read as 7.87 kΩ is the reading of position 6.
    expect(shut(finishOf(ohms, { ...READY, readings: [tap, reading("ohms.3", 7870)] }))).toEqual([
      "position 3: you read 7870 Ω, the plan was made with 4870 Ω ± 244 Ω",
    ]);
  });

  it("[GT12] every hold point refuses to be ticked off empty-handed", () => {
    for (const one of plan.steps.filter((each) => each.hold !== undefined)) {
      expect(finishOf(one, { ...READY, readings: [] }).state, one.id).toBe("shut");
      expect(finishOf(one, READY).state, one.id).toBe("open");
    }
  });
});
