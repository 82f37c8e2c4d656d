import { describe, expect, it } from "vitest";
import { askOf, example, type JobData, withReading, withValue } from "./jobs.ts";

describe("a pot whose taper nobody named", () => {
  const job = withValue(example("lowtide"), "parts.pot", { kind: "pot", shafts: [{ diameter: 6 }] });
  const plain = withValue(job, "fit.controls", { volume: { part: "pot", rises: "anticlockwise" } });
  const whole = withReading(plain, { id: "whole", of: "parts.pot.ohms", value: "500 kΩ (meter)" });

  function half(value: string): JobData {
    return withReading(whole, { id: "half", of: "parts.pot.ohmsAtHalfTurn", value });
  }

  it("was asked for its taper as a reading, which is a word: its ohms are asked for", () => {
    const asked = askOf(plain, "control.volume.taper");
    expect(asked.missing.map(({ path, tool }) => [path, tool])).toEqual([
      ["parts.pot.ohmsAtHalfTurn", "meter"],
      ["parts.pot.ohms", "meter"],
    ]);
    expect(askOf(whole, "control.volume.taper").missing.map(({ path }) => path)).toEqual(["parts.pot.ohmsAtHalfTurn"]);
  });

  it.each([
    // 60/500 = 0.12: audio, which turned round gives 0.9 at half turn; 255/500 = 0.51; 430/500 = 0.86.
    ["60 kΩ (meter)", 0.9, "rework"],
    ["255 kΩ (meter)", 0.5, "go"],
    ["430 kΩ (meter)", 0.1, "go"],
  ])("%s of 500 kΩ at half turn gives %d", (value, halfTurn, status) => {
    const verdict = askOf(half(value), "control.volume.taper");
    expect(verdict.figures.halfTurn).toBeCloseTo(halfTurn, 9);
    expect(verdict.status).toBe(status);
  });

  it("asks for both again where they cannot belong together", () => {
    const verdict = askOf(half("60 MΩ (meter)"), "control.volume.taper");
    expect(verdict.status).toBe("measure");
    expect(verdict.missing).toHaveLength(2);
  });
});
