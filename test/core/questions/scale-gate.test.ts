/** Readings of the scale that contradict each other, as far as the drill's gate. */
import { describe, expect, it } from "vitest";
import { assess, gatesOf, loadJob, travellerOf } from "../../../src/core/index.ts";
import { showPhrase } from "../../../src/core/quantity/index.ts";
import { askOf, fixture, type JobData, text, withReading, withValue } from "./jobs.ts";

describe("a line carried over twice at 180.0 against 324 - 150 = 174.0 by the rule", () => {
  const second = withReading(fixture("slanted-pickup"), {
    id: "line-2",
    of: "scaleLine.u",
    value: "180.0 mm (transfer)",
  });
  const job = [
    ["nutToFret12", "324.0 mm (rule)"],
    ["fret12ToHeelEnd", "150.0 mm (rule)"],
    [
      "straightedge",
      [
        { u: "0 ±0 mm", z: "11.0 mm (calliper)" },
        { u: "180 ±0 mm", z: "11.0 mm (calliper)" },
      ],
    ],
  ].reduce<JobData>((data, [key, value]) => withValue(data, `instrument.neck.${key}`, value), second);

  it("is not a place that goes: 6.0 apart, and 2 √(0.15² + 0.25² + 0.25² + 0.3²) = 0.98 allowed", () => {
    expect(text(askOf(job, "scale.line").headline)).toMatch(/180\.0 mm and 174\.0 mm .*Measure again/);
    const place = askOf(job, "bridge.place");
    expect(place.status).toBe("measure");
    expect(text(place.headline)).toMatch(/^Mark nothing yet\. Two ways of measuring disagree/);
    expect(place.next?.path).toBe("scaleLine.u");
  });

  it("[GT2] keeps the drill's gate shut, and says why", () => {
    const loaded = loadJob(job);
    const verdicts = assess(loaded);
    const gate = gatesOf(loaded, verdicts, travellerOf(loaded, verdicts)).get("drill-bridge-screws");
    const shut = gate?.reasons.filter((reason) => !reason.ok) ?? [];
    expect(gate?.state).toBe("shut");
    expect(shut.map((reason) => reason.ref)).toEqual(expect.arrayContaining(["scale.line", "bridge.place"]));
    expect(shut.map((reason) => showPhrase(reason.text)).join("\n")).toMatch(/180\.0 mm and 174\.0 mm/);
  });
});
