import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  calliperLimitMm,
  combineIndependent,
  type RuleClass,
  rectangularU,
  ruleIntervalLimitMm,
  ruleLimitMm,
  triangularU,
} from "../../../src/core/quantity/index.ts";

interface Case {
  readonly id: string;
  readonly topic: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly expected: Readonly<Record<string, number>>;
  readonly tolerance: number;
  readonly source: string;
  readonly read: string;
}

// The file is ours and its shape is fixed by its README.
const CASES = JSON.parse(
  readFileSync(new URL("../../reference/quantity/cases.json", import.meta.url), "utf8"),
) as Case[];
const HARD = CASES.filter(({ read }) => read === "read" || read === "derived");
const SOFT = CASES.filter(({ read }) => read !== "read" && read !== "derived");

/** Every expected figure of a case, computed from its inputs. */
function answers({ topic, inputs }: Case): Record<string, number> {
  if (topic === "rule accuracy") {
    const accuracyClass = inputs.class as RuleClass;
    if (typeof inputs.interval_mm === "number")
      return { mpe_mm: ruleIntervalLimitMm({ accuracyClass, intervalMm: inputs.interval_mm }) };
    const lengthMm = Number(inputs.length_m) * 1000;
    return {
      mpe_mm: ruleLimitMm({ accuracyClass, lengthMm }),
      mpe_from_end_mm: ruleLimitMm({ accuracyClass, lengthMm, fromEndFace: true }),
    };
  }
  if (topic === "calliper accuracy")
    return { mpe_mm: calliperLimitMm({ stepMm: Number(inputs.scale_value_mm), lengthMm: Number(inputs.length_mm) }) };
  if (typeof inputs.half_width === "number")
    return {
      u: inputs.distribution === "triangular" ? triangularU(inputs.half_width) : rectangularU(inputs.half_width),
    };
  if (typeof inputs.mpe_mm === "number") {
    // A display shows the nearest step: an error of at most half a step.
    const u = combineIndependent([rectangularU(inputs.mpe_mm), rectangularU(Number(inputs.step_mm) / 2)]);
    return { u_mm: u, U_k2_mm: 2 * u };
  }
  const terms = (inputs.components_mm ?? inputs.components_nm ?? inputs.rel_u) as number[];
  const u = combineIndependent(terms);
  return { u_c_mm: u, U_k2_mm: 2 * u, u_c_nm: u, rel_u_Q: u };
}

function check(one: Case): void {
  const found = answers(one);
  for (const [name, expected] of Object.entries(one.expected)) {
    expect(Math.abs((found[name] ?? Number.NaN) - expected), name).toBeLessThanOrEqual(one.tolerance + 1e-12);
  }
}

describe("limits and budgets, as published or derived", () => {
  it("has all its cases", () => expect([HARD.length, SOFT.length]).toEqual([15, 2]));
  it.each(HARD)("$id ($read)", (one) => check(one));
});

describe("limits and budgets, from memory", () => {
  it.each(SOFT)("$id ($read)", (one) => check(one));
});

describe("ruleLimitMm", () => {
  it("counts a metre begun as a whole one", () => {
    // Class II, 0.3 + 0.2 L: 0.5 up to and with 1 m, 0.7 just above.
    expect(ruleLimitMm({ accuracyClass: "II", lengthMm: 1000 })).toBeCloseTo(0.5, 12);
    expect(ruleLimitMm({ accuracyClass: "II", lengthMm: 1000.1 })).toBeCloseTo(0.7, 12);
  });

  it("allows twice as much between marks up to 10 mm apart (table 2 of the schedule)", () => {
    expect(ruleIntervalLimitMm({ accuracyClass: "II", intervalMm: 10 })).toBe(0.4);
    expect(() => ruleIntervalLimitMm({ accuracyClass: "II", intervalMm: 11 })).toThrow(/at most 10 mm, got 11/);
  });

  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])("refuses a length of %s mm", (lengthMm) => {
    expect(() => ruleLimitMm({ accuracyClass: "I", lengthMm })).toThrow(/^lengthMm: must be a number above 0 mm/);
  });
});

describe("calliperLimitMm", () => {
  it.each([
    [0.01, 100, "outside", 0.02],
    [0.01, 400, "outside", 0.03],
    [0.05, 400, "outside", 0.06],
    [0.02, 1000, "outside", 0.04],
    [0.1, 1000, "outside", 0.12],
    [0.01, 100, "inside", 0.04],
    [0.05, 100, "depth", 0.07],
  ] as const)("step %s at %s mm, %s: %s (extract of DIN 862)", (stepMm, lengthMm, face, expected) => {
    expect(calliperLimitMm({ stepMm, lengthMm, face })).toBeCloseTo(expected, 12);
  });

  it("refuses what callipers do not have", () => {
    expect(() => calliperLimitMm({ stepMm: 0.03, lengthMm: 100 })).toThrow(
      /^stepMm: must be 0\.01, 0\.02, 0\.05 or 0\.1 mm, got 0\.03/,
    );
    expect(() => calliperLimitMm({ stepMm: 0.01, lengthMm: 1001 })).toThrow(/^lengthMm: must be at most 1000 mm/);
  });
});
