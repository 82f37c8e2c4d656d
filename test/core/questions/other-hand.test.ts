import { describe, expect, it } from "vitest";
import { loadJob } from "../../../src/core/index.ts";
import { type Instrument, otherHand } from "../../../src/core/job/index.ts";
import { createLedger } from "../../../src/core/ledger/index.ts";
import { questionsAbout } from "../../../src/core/questions/index.ts";
import type { Verdict } from "../../../src/core/verdict/index.ts";
import { example, figureOf, fixture, type JobData, verdictsOf, withValue } from "./jobs.ts";

/**
 * A stock plate with stepped saddles: those at q > 0 travel 10 to 16, those at q < 0 12 to 18, reserve 0.5. The line at
 * 180, setbacks 1.5, 2.1, 2.4, 2.2, 2.7, 3.3. By hand, P max = min(180 + s - 0.5 - a), P min = max(180 + s + 0.5 - b):
 *   left-handed  (strings 1 to 3 at q < 0): P max = 181.5 - 12.5 = 169.0, P min = 183.3 - 15.5 = 167.8;
 *   right-handed (strings 1 to 3 at q > 0): P max = 182.2 - 12.5 = 169.7, P min = 182.4 - 15.5 = 166.9.
 * A plate that was mirrored with the instrument would give the left hand the right hand's window.
 */
const left = fixture("left-handed-stepped-plate");
const right = withValue(withValue(left, "instrument.bassSide", "y < 0"), "instrument.body.holes.old-lug.y", -23.0);

function assessed(instrument: Instrument): Map<string, Verdict> {
  const { verdicts } = createLedger<Instrument>().ask(questionsAbout(instrument), instrument);
  return new Map(verdicts.map((verdict) => [verdict.id, verdict]));
}

function rangesOf(data: JobData): unknown[] {
  const saddles = loadJob(data).instrument.bridge?.pieces[0]?.saddles ?? [];
  return saddles.map(({ string, q, from, to }) => [
    string,
    ...[q, from, to].map((value) => (value.known ? Number(value.value.toFixed(9)) : Number.NaN)),
  ]);
}

describe("a stepped plate on a left-handed six-string", () => {
  it("gives each string the saddle that stands at its place", () => {
    expect(rangesOf(left)).toEqual([
      [1, -26.25, 12, 18],
      [2, -15.75, 12, 18],
      [3, -5.25, 12, 18],
      [4, 5.25, 10, 16],
      [5, 15.75, 10, 16],
      [6, 26.25, 10, 16],
    ]);
    expect(rangesOf(right)).toEqual([
      [1, 26.25, 10, 16],
      [2, 15.75, 10, 16],
      [3, 5.25, 10, 16],
      [4, -5.25, 12, 18],
      [5, -15.75, 12, 18],
      [6, -26.25, 12, 18],
    ]);
  });

  it("has the window of its own hand", () => {
    const window = verdictsOf(left).get("bridge.window");
    expect(figureOf(window, "minMm")).toBeCloseTo(167.8, 9);
    expect(figureOf(window, "maxMm")).toBeCloseTo(169.0, 9);
    const other = verdictsOf(right).get("bridge.window");
    expect(figureOf(other, "minMm")).toBeCloseTo(166.9, 9);
    expect(figureOf(other, "maxMm")).toBeCloseTo(169.7, 9);
  });

  it("may name its saddles by the strings instead, for the hand it is written for", () => {
    const named = withValue(left, "parts.groyne.saddles", [
      { strings: [4, 5, 6], from: 10, to: 16 },
      { strings: [1, 2, 3], from: 12, to: 18 },
    ]);
    expect(rangesOf(named)).toEqual(rangesOf(left));
  });

  it("refuses saddles with two names or none, and places where no string stands", () => {
    const bad = (row: unknown) => () => loadJob(withValue(left, "parts.groyne.saddles", [row]));
    expect(bad({ from: 10, to: 16 })).toThrow(/^parts\.groyne\.saddles\[0\]: names neither strings nor places across/);
    expect(bad({ strings: [1], q: [5.25], from: 10, to: 16 })).toThrow(/names both strings and places across/);
    expect(bad({ q: [8], from: 10, to: 16 })).toThrow(
      /^parts\.groyne\.saddles\[0\]\.q\[0\]: no string stands within 1 mm of 8/,
    );
  });

  it("is what the other hand of the right-handed instrument is", () => {
    const turned = assessed(otherHand(loadJob(right).instrument));
    for (const [id, verdict] of verdictsOf(left)) {
      expect(turned.get(id)?.status, id).toBe(verdict.status);
      expect(turned.get(id)?.probability, id).toBe(verdict.probability);
      for (const [name, value] of Object.entries(verdict.figures))
        expect(turned.get(id)?.figures[name], `${id} ${name}`).toBeCloseTo(value, 9);
    }
  });

  it("comes back when turned twice", () => {
    const { instrument } = loadJob(right);
    expect(otherHand(otherHand(instrument))).toEqual(instrument);
  });
});

/** Figures that say on which side something stands, and those named by the number of a hole counted across. */
const SIDED = /bassSideSign|[sS]ideMm|yawDegrees|YawDegrees|#\d/;

describe("a job that is the same on both sides", () => {
  it.each([
    ["nine-string-plate", fixture("nine-string-plate")],
    ["ferry", example("ferry")],
    ["bass-channel", fixture("bass-channel")],
  ])("%s has the same numbers for the other hand", (_, data) => {
    const { instrument } = loadJob(data);
    const there = assessed(instrument);
    const here = assessed(otherHand(instrument));
    expect([...here.keys()]).toEqual([...there.keys()]);
    for (const [id, verdict] of there) {
      const mirrored = here.get(id);
      expect(mirrored?.status, id).toBe(verdict.status);
      // Another order of the same draws: 0.3 % is what the ledger promises.
      expect(Math.abs((mirrored?.probability ?? 0) - (verdict.probability ?? 0)), id).toBeLessThan(0.003);
      for (const [name, value] of Object.entries(verdict.figures)) {
        if (/^(p[RT]|probability)/.test(name))
          expect(Math.abs((mirrored?.figures[name] ?? 9) - value), `${id} ${name}`).toBeLessThan(0.003);
        else if (!SIDED.test(name)) expect(mirrored?.figures[name], `${id} ${name}`).toBeCloseTo(value, 6);
      }
    }
  });
});
