import { describe, expect, it } from "vitest";
import { type JointProblem, jointly, weigh, weighMany } from "../../../src/core/ledger/index.ts";
import { ferry, ferryByDraws, lowtide, lowtideByDraws, type Method } from "./bridge-problems.ts";

// "Doubt" tables of the two demo jobs: probability from 10⁶ plain draws, printed to two or three digits.
const RULE_A: Method = { scaleLineU: 0.46, setbackU: 0.2, drillingU: 0.45, oldRowU: 0 };
const TRANSFER_A: Method = { scaleLineU: 0.15, setbackU: 0.2, drillingU: 0.1, oldRowU: 0 };
const RULE_B: Method = { scaleLineU: 0.46, setbackU: 0.25, drillingU: 0.45, oldRowU: 0.25 };
const TRANSFER_B: Method = { scaleLineU: 0.15, setbackU: 0.25, drillingU: 0.15, oldRowU: 0.1 };
const DRAWS = 1_000_000;

const TABLE = [
  {
    name: "Lowtide, steel rule and hand drill",
    problem: lowtide(RULE_A),
    printed: 0.63,
    digits: 2,
    draws: () => lowtideByDraws(RULE_A, DRAWS),
  },
  {
    name: "Lowtide, transfer and self-centring bit",
    problem: lowtide(TRANSFER_A),
    printed: 0.98,
    digits: 2,
    draws: () => lowtideByDraws(TRANSFER_A, DRAWS),
  },
  {
    name: "Ferry, steel rule and hand drill",
    problem: ferry(RULE_B),
    printed: 0.74,
    digits: 2,
    draws: () => ferryByDraws(RULE_B, DRAWS),
  },
  {
    name: "Ferry, transfer and drill press",
    problem: ferry(TRANSFER_B),
    printed: 0.999,
    digits: 3,
    draws: () => ferryByDraws(TRANSFER_B, DRAWS),
  },
];

function probability(problem: JointProblem): number {
  const weighed = weighMany(problem);
  return weighed.known ? weighed.probability : Number.NaN;
}

describe.each(TABLE)("$name", ({ problem, printed, digits, draws }) => {
  it("[LG4] prints the figure of the job's table", () => {
    expect(probability(problem).toFixed(digits)).toBe(printed.toFixed(digits));
  });

  it("[LG4] agrees with a million plain draws", () => {
    // The promise is 0.3 %; a million draws stray by 0.05 % at most (one standard error at one half).
    expect(Math.abs(probability(problem) - draws())).toBeLessThan(0.004);
  });
});

describe("weighMany", () => {
  it("[LG7] names the side that binds, and each part's own chance is no less than that of all", () => {
    const weighed = weighMany(lowtide(RULE_A));
    if (!weighed.known) throw new Error("known");
    // Contact of string 4 at 182 + 2.99 - 170.9 = 14.09, its range with reserve from 13.5: 0.59 is the least of twelve.
    expect(weighed.binding).toBe("string 4 front");
    expect(weighed.margin).toBeCloseTo(0.59, 10);
    expect(weighed.parts["string 2 rear"]?.margin).toBeCloseTo(0.65, 10);
    for (const part of Object.values(weighed.parts))
      expect(part.probability).toBeGreaterThanOrEqual(weighed.probability);
    const binds = Object.values(weighed.parts).reduce((sum, part) => sum + part.binds, 0);
    expect(binds).toBeCloseTo(1, 12);
    // One side alone is linear: u = √(0.46² + 0.45² + 0.20²), P = Φ(0.59 / 0.674) = 0.809 (tables).
    expect(weighed.parts["string 4 front"]?.u).toBeCloseTo(Math.hypot(0.46, 0.45, 0.2), 2);
    expect(Math.abs((weighed.parts["string 4 front"]?.probability ?? 0) - 0.8094)).toBeLessThan(0.004);
  });

  it("[LG7] is the same as weighing the smallest margin, but for the 0.3 % of sampling", () => {
    const problem = lowtide(RULE_A);
    const margins = Object.values(problem.margins);
    const one = weigh({ ...problem, margin: (x) => Math.min(...margins.map((margin) => margin(x))) });
    const many = weighMany(problem);
    if (!one.known || !many.known) throw new Error("known");
    const { binding: _, parts: __, ...joint } = many;
    expect(weigh(jointly(problem))).toEqual(joint);
    expect(one.margin).toBe(many.margin);
    expect(Math.abs(one.probability - many.probability)).toBeLessThan(0.004);
    expect(Math.abs(one.u / many.u - 1)).toBeLessThan(0.01);
  });

  it("[LG7] margins far apart: the least decides, on a straight line, and the others are judged alone", () => {
    const { leaves } = lowtide(RULE_A);
    const near = (x: Readonly<Record<string, number>>) => (x.scaleLine ?? 0) - 181.5;
    const weighed = weighMany({ leaves, margins: { far: (x) => (x.setback0 ?? 0) + 50, near }, unit: "mm" });
    if (!weighed.known) throw new Error("known");
    expect([weighed.method, weighed.binding]).toEqual(["linear", "near"]);
    expect(weighed.parts.near).toMatchObject({ probability: weighed.probability, binds: 1 });
    expect(weighed.parts.far).toMatchObject({ probability: 1, binds: 0 });
    expect(weighed.parts.far?.u).toBeCloseTo(0.2, 12);
  });

  it("[LG7] a value nobody has given is missing here too", () => {
    const problem = lowtide(RULE_A);
    const leaves = {
      ...problem.leaves,
      scaleLine: { known: false as const, path: "scaleLine", kind: "length" as const },
    };
    expect(weighMany({ ...problem, leaves })).toEqual({ known: false, missing: [leaves.scaleLine] });
  });
});
