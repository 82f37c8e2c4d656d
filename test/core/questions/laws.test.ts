import fc from "fast-check";
import Fraction from "fraction.js";
import { describe, expect, it } from "vitest";
import type { Verdict } from "../../../src/core/verdict/index.ts";
import { example, fixture, type JobData, verdictsOf, withValue } from "./jobs.ts";

type Plain = unknown;

/** A copy with every value changed that stands under a key; `change` gets the nearest key that is a name. */
function mapValues(value: Plain, key: string, change: (value: Plain, key: string) => Plain): Plain {
  if (Array.isArray(value)) return value.map((item) => mapValues(item, key, change));
  if (typeof value !== "object" || value === null) return change(value, key);
  return Object.fromEntries(Object.entries(value).map(([name, item]) => [name, mapValues(item, name, change)]));
}

// Bare numbers that are no lengths.
const COUNTS = new Set([
  "fettle",
  "job",
  "instrument",
  "parts",
  "fit",
  "readings",
  "settings",
  "strings",
  "frets",
  "squareFret",
  "gateProbability",
  "wiring",
  "winding",
  "turnArea",
  "poles",
  "throws",
  "one-upper",
  "two-upper",
]);

/** 44.5 becomes "445/254 in": the same length to the last digit. */
function inInches(text: string | number): string {
  const inches = new Fraction(String(text)).div("25.4");
  return `${inches.toFraction()} in`;
}

function spelledInInches(data: JobData): JobData {
  return mapValues(data, "", (value, key) => {
    if (typeof value === "number") return COUNTS.has(key) ? value : inInches(value);
    const match = typeof value === "string" ? /^(-?[\d.]+)(?: ±([\d.]+))? mm(.*)$/.exec(value) : null;
    if (!match) return value;
    const [, amount = "", doubt, rest = ""] = match;
    return `${inInches(amount)}${doubt === undefined ? "" : ` ±${inInches(doubt)}`}${rest}`;
  }) as JobData;
}

/** Same status, chance and figures; `shiftOf` tells by how much a figure may differ by rights. */
function expectSame(
  actual: Map<string, Verdict>,
  expected: Map<string, Verdict>,
  shiftOf: (name: string) => number = () => 0,
): void {
  expect([...actual.keys()]).toEqual([...expected.keys()]);
  for (const [id, verdict] of expected) {
    const other = actual.get(id);
    expect(other?.status, id).toBe(verdict.status);
    expect(other?.probability ?? -1, id).toBeCloseTo(verdict.probability ?? -1, 6);
    expect(Object.keys(other?.figures ?? {}), id).toEqual(Object.keys(verdict.figures));
    for (const [name, value] of Object.entries(verdict.figures)) {
      expect(other?.figures[name], `${id} ${name}`).toBeCloseTo(value + shiftOf(name), 6);
    }
  }
}

const JOBS: readonly (readonly [string, JobData])[] = [
  ["lowtide", example("lowtide")],
  ["ferry", example("ferry")],
  ["seven-string-units", fixture("seven-string-units")],
  ["six-string-two-posts", fixture("six-string-two-posts")],
  ["slanted-pickup", fixture("slanted-pickup")],
];

describe("a length is the same however it is spelled", () => {
  it.each(JOBS)("%s: every amount in inches gives the same verdicts", (_, data) => {
    const inches = spelledInInches(data);
    expect(JSON.stringify(inches)).not.toMatch(/"-?[\d.]+ mm/);
    expectSame(verdictsOf(inches), verdictsOf(data));
  });

  it("bare numbers in a job that is kept in inches", () => {
    const data = example("lowtide");
    const bare = mapValues(spelledInInches(data), "", (value) => {
      const match = typeof value === "string" ? /^([\d/ -]+) in$/.exec(value) : null;
      return match?.[1] ?? value;
    }) as JobData;
    expectSame(verdictsOf(withValue(bare, "job.units", "inch")), verdictsOf(data));
  });
});

/** All places counted from the end wall moved by `by`, and the scale line with them: the same guitar, another datum. */
function movedAlong(data: JobData, by: number): JobData {
  const add = (value: Plain, sign = 1): Plain => {
    if (typeof value === "number") return Number((value + sign * by).toFixed(6));
    const match = /^(-?[\d.]+)(.*)$/.exec(String(value));
    return match ? `${Number((Number(match[1]) + sign * by).toFixed(6))}${match[2]}` : value;
  };
  const moved = mapValues(data, "", (value, key) => {
    if (key === "u" || key === "tailEdge") return add(value);
    // The heel's end is the datum: it moves the other way, seen from the nut.
    return key === "nutToHeelEnd" ? add(value, -1) : value;
  }) as JobData;
  const readings = (data.readings as { of: string; value: string }[]).map((reading) => {
    if (/\.u$/.test(reading.of)) return { ...reading, value: add(reading.value) };
    return reading.of === "neck.fret12ToHeelEnd" ? { ...reading, value: add(reading.value, -1) } : reading;
  });
  return { ...moved, readings };
}

/** Figures that count from the end wall. */
const FROM_END_WALL =
  /^(scaleLineMm|oldScaleLineMm|minMm|maxMm|placeMm|window(Min|Max)Mm|footing(Min|Max)Mm|runnerUpMm|piece\dPlaceMm|unit\d(Min|Max)Mm)$/;

describe("where places are counted from changes nothing but the places", () => {
  it.each(JOBS.filter(([name]) => name !== "ferry"))("%s", (name, data) => {
    const before = verdictsOf(data);
    fc.assert(
      fc.property(fc.integer({ min: -200, max: 400 }), (tenths) => {
        const by = tenths / 10;
        const after = verdictsOf(movedAlong(data, by));
        expectSame(after, before, (figure) => (FROM_END_WALL.test(figure) ? by : 0));
        const drills = (verdicts: Map<string, Verdict>) =>
          (verdicts.get("bridge.holes")?.work ?? []).flatMap((work) => (work.act === "drill" ? work.holes : []));
        const moved = drills(after).map((hole) => hole.u - by);
        expect(moved.length, name).toBeGreaterThan(0);
        expect(moved).toEqual(drills(before).map((hole) => expect.closeTo(hole.u, 6)));
      }),
      { seed: 11, numRuns: 2 },
    );
  });
});
