import { describe, expect, it } from "vitest";
import { renderAssessment } from "../../src/cli/render-assessment.ts";
import type { Style } from "../../src/cli/render-style.ts";
import { renderSums, shownValue } from "../../src/cli/render-sum.ts";
import { renderVerdict } from "../../src/cli/render-verdict.ts";
import { columns, withoutPaint } from "../../src/cli/text.ts";
import { mm, say } from "../../src/core/quantity/index.ts";
import { EMPTY_WINDOW, reading, verdict } from "../support/verdicts.ts";

const style: Style = { units: "mm", width: 100, colour: false, gate: 0.95 };

const bushing = verdict({
  id: "control.volume.bushing",
  question: "Is the bushing long enough?",
  status: "rework",
  headline: say`Short by ${mm(1.7, 1)}.`,
  stake: 2,
  probability: 0.99,
  work: [{ act: "spot-face", where: "volume", depth: 2, leaves: 5 }],
});

describe("renderAssessment", () => {
  it("reads as a note: the worst in full, what goes folded, the next action last", () => {
    const text = renderAssessment(
      [verdict({ id: "tuners.thickness" }), bushing, EMPTY_WINDOW, verdict({ id: "lever.depth" })],
      style,
    );
    expect(text).toBe(
      [
        "What stands in the way, worst first",
        "",
        "1. no-go: Where must this bridge stand? [bridge.window]",
        "   Nowhere: the window is empty by 1.83 mm, between string 3 and string 6.",
        "     String 3 needs the plate behind 173.32 mm, string 6 before 171.49 mm.",
        "     Chance that it goes: 0.00, practically ruled out. Do not drill or cut on this.",
        "     Ways out",
        "     - String a wound third: the window is then 170.25 mm to 171.49 mm. Then go (0.98, better than",
        "       19 in 20); can be undone.",
        "     Measure next",
        "     - Measure the scale line on the body with a story stick, 10 min: bolt the neck on, pull the",
        "       outer strings tight, mark at fret 12 twice over. It settles where the plate may stand. Chance",
        "       then, if it agrees: 0.02, less than 1 in 20.",
        "",
        "2. rework: Is the bushing long enough? [control.volume.bushing]",
        "   Short by 1.7 mm.",
        "     Chance that it goes, once that is done: 0.99, better than 19 in 20.",
        "     What to do",
        "     - Thin the wood from inside at volume by 2.0 mm; 5.0 mm is left",
        "",
        "2 go: tuners.thickness, lever.depth",
        "",
        "Next: decide on bridge.window. Best way out: string a wound third: the window is then 170.25 mm to",
        "      171.49 mm (can be undone, chance 0.98, better than 19 in 20).",
      ].join("\n"),
    );
  });

  it("gives the fourth and later a line each", () => {
    const bad = ["a", "b", "c", "d"].map((id) => verdict({ id, status: "no-go", headline: say`${id} does not fit.` }));
    const lines = renderAssessment(bad, style).split("\n");
    expect(lines).toContain("Also in the way");
    expect(lines).toContain("  no-go  d  d does not fit.");
  });

  it("follows the switch to inches everywhere", () => {
    const text = renderAssessment([EMPTY_WINDOW, bushing], { ...style, units: "inch" });
    expect(text).toContain("empty by 0.072 in"); // 1.83 / 25.4 = 0.07205
    expect(text).not.toMatch(/\d mm/);
  });

  it.each([40, 72, 120])("keeps within %s columns", (width) => {
    const all = ["a", "b", "c"].map((id) => ({ ...EMPTY_WINDOW, id: `bridge.${id}` }));
    const lines = renderAssessment([...all, bushing], { ...style, width }).split("\n");
    expect(Math.max(...lines.map(columns))).toBeLessThanOrEqual(width);
  });

  it("says the same without colour as with it", () => {
    const painted = renderAssessment([EMPTY_WINDOW, bushing, verdict({ id: "x" })], { ...style, colour: true });
    expect(painted).toContain("\u001b[31mno-go\u001b[39m");
    const plain = renderAssessment([EMPTY_WINDOW, bushing, verdict({ id: "x" })], style);
    expect(withoutPaint(painted)).toBe(plain);
  });

  it("says so when nothing stands in the way", () => {
    expect(renderAssessment([verdict({ id: "x" })], style)).toBe(
      ["Nothing stands in the way.", "", "1 go: x", "", "Next: write the papers and begin."].join("\n"),
    );
  });
});

describe("renderVerdict", () => {
  it("lists what nobody has given", () => {
    const open = verdict({
      id: "saddles",
      status: "measure",
      missing: [reading({ what: "relief", tool: "a feeler gauge", settles: "the height." })],
    });
    const text = renderVerdict(open, style).join("\n");
    expect(text).toContain("  Not known yet\n  - Measure relief with a feeler gauge, 10 min: ");
    expect(text).toContain("It settles the height.");
  });

  it("warns only where a wrong answer cannot be undone", () => {
    const warning = "Do not drill or cut on this.";
    const doubtful = verdict({ id: "x", status: "measure", probability: 0.949, stake: 2 });
    expect(renderVerdict(doubtful, style).join()).toContain(`0.94, about 9 in 10. ${warning}`);
    expect(renderVerdict({ ...doubtful, stake: 1 }, style).join()).not.toContain(warning);
    expect(renderVerdict({ ...doubtful, probability: 0.95 }, style).join()).not.toContain(warning);
  });

  it("prints nothing from a file that could move the cursor", () => {
    const hostile = verdict({
      id: "x\u001b[2J",
      status: "no-go",
      question: "\u001b]0;owned\u0007?",
      headline: ["\u001b[A"],
    });
    const shown = renderVerdict(hostile, style).join("\n");
    expect([shown.includes("\u001b"), shown.includes("\u0007")]).toEqual([false, false]);
  });
});

describe("renderSums", () => {
  it("opens formula, numbers with their origin, result, source and the shares of doubt", () => {
    expect(renderSums(EMPTY_WINDOW, style)).toEqual([
      "",
      "Furthest back that the plate may stand",
      "  P_max = min over the strings of (S + s_i - r - a_i)",
      "  S    182.00 mm (u 0.15)    measured, story stick  scale line on the body",
      "  s_6    4.26 mm (u 0.20)    measured, tuner        setback of string 6",
      "  a_6   13.000 mm (u 0.029)  data sheet             saddle 6 at its front stop",
      "  r      0.5 mm              rule                   reserve at each end of the travel",
      "  = 172.76 mm",
      "  Source: plain geometry (derived)",
      "",
      "Whose doubt it is",
      "  52 %  about half  drilling by hand",
      "  48 %  about half  the scale line on the body",
    ]);
  });

  it("says so when there is none", () => {
    expect(renderSums(verdict({ id: "x" }), style)).toEqual(["x rests on no sum."]);
  });
});

describe("shownValue", () => {
  it.each([
    [{ value: 182, u: 0.15, unit: "mm" }, "182.00 mm (u 0.15)"],
    [{ value: 182, u: 0.46, unit: "mm" }, "182.00 mm (u 0.46)"],
    [{ value: 7.9, u: 12, unit: "kΩ" }, "8 kΩ (u 12)"],
    [{ value: 0.5, u: 0, unit: "mm" }, "0.5 mm"],
    [{ value: 12, u: 0, unit: "" }, "12"],
    [{ value: 1 / 3, u: 0, unit: "" }, "0.3333"],
  ])("shows %j as %s", (row, text) => {
    expect(shownValue(row, "mm")).toBe(text);
  });

  it("turns millimetres to inches with their doubt", () => {
    // 12.7 / 25.4 = 0.5 exactly, 0.254 / 25.4 = 0.01.
    expect(shownValue({ value: 12.7, u: 0.254, unit: "mm" }, "inch")).toBe("0.500 in (u 0.010)");
    expect(shownValue({ value: 12.7, u: 0.254, unit: "Hz" }, "inch")).toBe("12.70 Hz (u 0.25)");
  });
});
