import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { loadJob, wiringOf } from "../../../src/core/index.ts";
import type { Json } from "../../../src/core/log/index.ts";
import {
  curveMaker,
  curvePath,
  INPUT_OHMS,
  INPUT_STEPS,
  inputAtStep,
  labelHeights,
  loadPlayed,
  stepOfInput,
  turnsShown,
  WIDE_PLOT,
  xOf,
  yOf,
} from "../../../src/web/state/wiring-curves.ts";

function reportOf(name: string) {
  const data = parse(readFileSync(`examples/${name}.yaml`, "utf8")) as Readonly<Record<string, Json>>;
  const report = wiringOf(loadJob(data));
  if (!report) throw new Error(`${name} has no wiring`);
  return report;
}
const lowtide = reportOf("lowtide");

describe("[PG18] curves that are played with", () => {
  it("are those of the report while nothing has been moved", () => {
    const line = curveMaker(lowtide)("1", { turns: {} }, 1);
    const [strings] = lowtide.states[0]?.strings ?? [];
    expect(line?.curve.peak?.frequencyHz).toBeCloseTo(strings?.peak?.frequencyHz ?? 0, 6);
    // 502 Hz, the first point at or above 500 Hz: flat there to a tenth of a dB.
    expect(Math.abs((line?.levelDb ?? 0) - (strings?.levelDb ?? 0))).toBeLessThan(0.1);
  });

  it("follow a shaft, and leave the state's own curve as it was", () => {
    const make = curveMaker(lowtide);
    const full = make("1", { turns: {} }, 1);
    const half = make("1", { turns: { volume: 5 } }, 1);
    expect((full?.levelDb ?? 0) - (half?.levelDb ?? 0)).toBeGreaterThan(6);
    expect(make("1", { turns: {} }, 1)?.levelDb).toBe(full?.levelDb);
  });

  it("peak lower with more cable, and less with a lower input", () => {
    const make = curveMaker(lowtide);
    const peak = (played: object) => make("4", { turns: {}, ...played }, 1)?.curve.peak;
    expect(peak({ cablePf: 1500 })?.frequencyHz).toBeLessThan(peak({ cablePf: 100 })?.frequencyHz ?? 0);
    expect(peak({ inputOhms: 100e3 })?.dB).toBeLessThan(peak({ inputOhms: 10e6 })?.dB ?? 0);
  });

  it("are not worked out anew where a move has changed nothing", () => {
    const make = curveMaker(lowtide);
    expect(make("2", { turns: { volume: 7 } }, 1)).toBe(make("2", { turns: { volume: 7 } }, 1));
  });

  it("have none of a state that there is not", () => {
    expect(curveMaker(lowtide)("99", { turns: {} }, 1)).toBeUndefined();
  });

  it("begin where the state says that a knob stands", () => {
    const ferry = reportOf("ferry");
    const turns = (states: string[], played = {}) => turnsShown(ferry, { turns: played }, "two-upper", states);
    expect(turns(["set-1"])).toEqual([0]);
    expect(turns(["both", "set-1", "set-2"])).toEqual([10, 0]);
    expect(turns([])).toEqual([10]);
    expect(turns(["both", "set-1"], { "two-upper": 3 })).toEqual([3]);
  });
});

describe("the slider of the input", () => {
  it("goes by ratios from end to end, there and back", () => {
    expect(inputAtStep(0)).toBe(INPUT_OHMS.least);
    expect(inputAtStep(INPUT_STEPS)).toBeCloseTo(INPUT_OHMS.most, 3);
    for (let step = 0; step <= INPUT_STEPS; step += 1) expect(stepOfInput(inputAtStep(step))).toBe(step);
    expect(stepOfInput(Number.POSITIVE_INFINITY)).toBe(INPUT_STEPS);
  });

  it("stands for what is plugged in until it is moved", () => {
    expect(loadPlayed(lowtide, { turns: {} })).toEqual(lowtide.load);
    expect(loadPlayed(lowtide, { turns: {}, cablePf: 300 }).cableFarads).toBeCloseTo(300e-12, 18);
  });
});

describe("a drawing of curves", () => {
  it("has a decade in a third of its width, and its floor at its foot", () => {
    const { left, right, width, height, bottom } = WIDE_PLOT;
    expect(xOf(WIDE_PLOT, 20)).toBe(left);
    expect(xOf(WIDE_PLOT, 200)).toBeCloseTo(left + (width - left - right) / 3, 9);
    expect(yOf(WIDE_PLOT, -60)).toBe(height - bottom);
  });

  it("breaks a line where it lies below, and ends where it was last seen", () => {
    const frequenciesHz = [20, 200, 2000, 20_000];
    const { path, end } = curvePath(WIDE_PLOT, { frequenciesHz, dB: Float64Array.of(0, -80, -10, -90) });
    expect(path.match(/M/g)).toHaveLength(2);
    expect(end?.x).toBeCloseTo(xOf(WIDE_PLOT, 2000), 9);
    expect(curvePath(WIDE_PLOT, { frequenciesHz, dB: new Float64Array(4).fill(-200) })).toEqual({ path: "" });
  });

  it("keeps labels apart and inside", () => {
    const placed = labelHeights([100, 101, 102, 300], 17, 300);
    expect(placed).toEqual([100, 117, 134, 300]);
    expect(labelHeights([300, 300, 290], 17, 300)).toEqual([283, 300, 266]);
  });
});
