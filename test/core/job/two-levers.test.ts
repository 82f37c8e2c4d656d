import { describe, expect, it } from "vitest";
import { loadJob } from "../../../src/core/index.ts";
import { example, type JobData, withValue } from "../questions/jobs.ts";

/** The Lowtide job with a second lever switch, too tall for its place, before or after the first. */
function twoLevers(order: "before" | "after"): JobData {
  const data = example("lowtide");
  const { lever, ...controls } = (data.fit as { controls: Record<string, object> }).controls;
  const second = { part: "tiller" };
  const room = withValue(data, "instrument.controls.lever2", {
    slot: "26 mm (calliper)",
    freeDepth: "5 mm (calliper)",
  });
  return withValue(
    room,
    "fit.controls",
    order === "before" ? { lever2: second, ...controls, lever } : { ...controls, lever, lever2: second },
  );
}

describe("two lever switches", () => {
  it.each([
    ["before", /^fit\.controls\.lever: .*"lever2" is a lever switch too/],
    ["after", /^fit\.controls\.lever2: .*"lever" is a lever switch too/],
  ] as const)("a second one listed %s the first is not passed over: both are named", (order, message) => {
    expect(() => loadJob(twoLevers(order))).toThrow(message);
  });

  it("one alone is asked about as ever", () => {
    expect(loadJob(example("lowtide")).instrument.lever?.name).toBe("Wrackline Tiller");
  });
});
