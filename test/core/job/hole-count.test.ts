import { describe, expect, it } from "vitest";
import { loadJob } from "../../../src/core/index.ts";
import { example, type JobData, withoutReading, withValue } from "../questions/jobs.ts";

/** The Lowtide job with so many more rows of holes on its body. */
function withRows(rows: number, each: number): JobData {
  const row = (index: number) => ({
    u: 300 + index,
    y: Array.from({ length: each }, (_, at) => at * 2 - each),
    diameter: 2,
    depth: 10,
  });
  return withValue(
    withoutReading(example("lowtide"), "row-rule", "row-plate"),
    "instrument.body.holes",
    Object.fromEntries(Array.from({ length: rows }, (_, index) => [`row-${index}`, row(index)])),
  );
}

describe("200 rows of 64 holes took three minutes to answer", () => {
  it("are refused, with how many there are and how many may be", () => {
    // 200 × 64 = 12800 in the body, and the plate's 5 screws and 6 string holes.
    expect(() => loadJob(withRows(200, 64))).toThrow(
      /^instrument\.body\.holes: the job has 12811 holes, 12800 of them here; 400 are the most/,
    );
  });

  it("389 and the plate's 11 make 400 and are taken; one more is not", () => {
    expect(loadJob(withRows(389, 1)).instrument.body.holes).toHaveLength(389);
    expect(() => loadJob(withRows(390, 1))).toThrow(/401 holes/);
  });

  it("holes that operations drill count too", () => {
    const holes = Array.from({ length: 380 }, (_, index) => ({
      id: `n${index}`,
      u: 300,
      y: index,
      diameter: 2,
      depth: 5,
    }));
    const data = {
      ...example("lowtide"),
      fettle: { ...(example("lowtide").fettle as object), operations: 1 },
      operations: [{ id: "r1", work: { act: "drill", group: "other", holes } }],
    };
    // 5 old screws, 6 old string holes, 11 of the plate, 380 drilled.
    expect(() => loadJob(data)).toThrow(/^operations: the job has 402 holes, 380 of them here/);
  });
});
