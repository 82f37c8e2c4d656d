/** A knob for two shafts, of which one bore is not known. */
import { describe, expect, it } from "vitest";
import { askOf, example, text, withValue } from "./jobs.ts";

const ferry = example("ferry");

describe("[FT12] two shafts, one bore", () => {
  it("the outer shaft was passed over with a go: its bore is asked for", () => {
    // Inner 6.1 on 6.0: 0.10 of wobble, under 0.15; of the outer shaft, 8.0, nothing is known.
    const verdict = askOf(withValue(ferry, "parts.phenolic.bores", [6.1]), "control.one.knob");
    expect(verdict.status).toBe("measure");
    expect(verdict.missing.map(({ path }) => path)).toEqual(["parts.phenolic.bores[1]"]);
    expect(text(verdict.headline)).toContain("bore");
  });

  it("both bores given: both are judged", () => {
    const verdict = askOf(withValue(ferry, "parts.phenolic.bores", [6.1, 8.0]), "control.one.knob");
    expect(verdict.status).toBe("go");
    expect(verdict.detail.map((line) => text(line)).join(" ")).toContain("Outer shaft");
  });

  it("a knob that is named without any bore is asked about, not passed over", () => {
    const verdict = askOf(withValue(ferry, "parts.phenolic.bores", undefined), "control.one.knob");
    expect([verdict.status, verdict.missing.length > 0]).toEqual(["measure", true]);
  });
});
