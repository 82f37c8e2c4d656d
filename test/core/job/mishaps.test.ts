import { describe, expect, it } from "vitest";
import { loadJob } from "../../../src/core/index.ts";
import { example, withValue } from "../questions/jobs.ts";

const MISHAP = {
  step: "old-bridge-off",
  what: "screw snapped",
  words: "the middle one",
  at: "2026-05-01T08:00:00.000Z",
};
const withMishaps = (mishaps: Readonly<Record<string, unknown>>) =>
  loadJob(withValue({ ...example("ferry"), record: {} }, "record.mishaps", mishaps));
const many = (count: number) => Object.fromEntries(Array.from({ length: count }, (_, at) => [`mishap-${at}`, MISHAP]));

describe("[PG16] what went wrong, on the record", () => {
  it("is kept with its step, its words and its time", () => {
    expect(withMishaps({ "mishap-a": MISHAP }).parsed.file.record?.mishaps).toEqual({ "mishap-a": MISHAP });
  });

  it("is one of the mishaps that the page has a next act for", () => {
    expect(() => withMishaps({ "mishap-a": { ...MISHAP, what: "it fell" } })).toThrow(
      /^record\.mishaps\.mishap-a\.what/,
    );
  });

  it("is bounded: 200 a job, and no more words than any other sentence of a job", () => {
    expect(Object.keys(withMishaps(many(200)).parsed.file.record?.mishaps ?? {})).toHaveLength(200);
    expect(() => withMishaps(many(201))).toThrow(/at most 200 mishaps a job/);
    expect(() => withMishaps({ "mishap-a": { ...MISHAP, words: "x".repeat(100_000) } })).toThrow(/words/);
    expect(() => withMishaps({ "mishap-a": { ...MISHAP, photo: "../../x" } })).toThrow(/photo/);
  });
});
