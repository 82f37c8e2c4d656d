/** Laws of the fold, over random logs. fast-check prints the seed of a failing run. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/errors.ts";
import { foldInstrument } from "../../../src/core/job/fold.ts";
import type { Instrument } from "../../../src/core/job/instrument.ts";
import type { LogEntry } from "../../../src/core/job/operation.ts";
import type { Work } from "../../../src/core/verdict/index.ts";
import { makeInstrument } from "./fixture.ts";

const SEED = 20260301;
const found = makeInstrument();
const through = (id: string) => id.startsWith("old-through");

const work: fc.Arbitrary<Work> = fc.oneof(
  fc.constantFrom(...found.body.holes.map((hole) => hole.id)).map(
    (id): Work => ({
      act: "plug",
      holes: [{ id, u: 0, y: 0, diameter: 3, depth: 20 }],
      diameter: through(id) ? 8 : 6,
      cause: "",
    }),
  ),
  fc
    .record({
      number: fc.integer({ min: 1, max: 4 }),
      u: fc.double({ min: 185, max: 215, noNaN: true }),
      y: fc.double({ min: -24, max: 24, noNaN: true }),
      intoPlugs: fc.boolean(),
    })
    .map(
      ({ number, u, y, intoPlugs }): Work => ({
        act: "drill",
        group: "bridge-screws",
        holes: [{ id: `bridge-screws#${number}`, u, y, diameter: 2.5, thread: 3, depth: 24 }],
        intoPlugs,
      }),
    ),
  fc.integer({ min: 1, max: 4 }).map(
    (number): Work => ({
      act: "plug",
      holes: [{ id: `bridge-screws#${number}`, u: 0, y: 0, diameter: 3, depth: 20 }],
      diameter: 6,
      cause: "",
    }),
  ),
  fc.constantFrom("volume", "treble-cut").map((where): Work => ({ act: "spot-face", where, depth: 1, leaves: 0 })),
  fc.constantFrom(8.3, 8.6).map((to): Work => ({ act: "ream", where: "volume", count: 1, from: to - 0.3, to })),
  fc
    .double({ min: 0, max: 2, noNaN: true })
    .map((thickness): Work => ({ act: "shim", thickness, length: 76, angleDegrees: 0 })),
  fc
    .constantFrom("neck", "bridge")
    .chain((part) => fc.constantFrom<Work>({ act: "take off", part }, { act: "fit", part })),
  fc
    .constantFrom("neck", "middle")
    .map((cavity): Work => ({ act: "rout", cavity, what: "ears", lengthBy: 1, widthBy: 0.5, depthBy: 0 })),
);

/** Random works turned into a log that holds: a work that is refused where it stands is left out. */
const log: fc.Arbitrary<LogEntry[]> = fc.array(work, { minLength: 1, maxLength: 12 }).map((works) => {
  let kept: LogEntry[] = [];
  works.forEach((one, index) => {
    const longer = [...kept, { id: `op-${index}`, work: one }];
    if (holds(longer)) kept = longer;
  });
  return kept;
});

function holds(entries: readonly LogEntry[]): boolean {
  try {
    foldInstrument(found, entries);
    return true;
  } catch (error) {
    if (error instanceof InputError) return false;
    throw error;
  }
}

describe("laws of the fold", () => {
  it("[ST5] undoing the last operation is the log without it", () => {
    fc.assert(
      fc.property(log, (entries) => {
        const last = entries.at(-1);
        fc.pre(last !== undefined);
        const undone = foldInstrument(found, [...entries, { id: "undo", undoes: last?.id ?? "" }]);
        expect(undone).toEqual(foldInstrument(found, entries.slice(0, -1)));
      }),
      { seed: SEED, numRuns: 150 },
    );
  });

  it("[ST5] an undo that is not refused is the log without that operation, and one that is refused names both", () => {
    let taken = 0;
    let refused = 0;
    fc.assert(
      fc.property(log, fc.nat(), (entries, pick) => {
        fc.pre(entries.length > 1);
        const target = entries[pick % (entries.length - 1)];
        const id = target?.id ?? "";
        const without = entries.filter((entry) => entry !== target);
        try {
          const undone = foldInstrument(found, [...entries, { id: "undo", undoes: id }]);
          expect(undone).toEqual(foldInstrument(found, without));
          taken += 1;
        } catch (error) {
          if (!(error instanceof InputError)) throw error;
          expect(error.problem).toMatch(new RegExp(`"op-\\d+" stands on what "${id}" made`));
          refused += 1;
        }
      }),
      { seed: SEED, numRuns: 300 },
    );
    // Both happen, or the law says nothing.
    expect(taken).toBeGreaterThan(20);
    expect(refused).toBeGreaterThan(20);
  });

  it("[ST1] the fold leaves its inputs as they were", () => {
    const before = structuredClone(found);
    fc.assert(
      fc.property(log, (entries) => {
        const copy = structuredClone(entries);
        foldInstrument(found, entries);
        expect(entries).toEqual(copy);
      }),
      { seed: SEED, numRuns: 30 },
    );
    expect(found).toEqual(before);
  });

  it("[ST1] a fold can be taken up where it stopped", () => {
    fc.assert(
      fc.property(log, fc.nat(), (entries, cut) => {
        const at = cut % (entries.length + 1);
        const half = foldInstrument(found, entries.slice(0, at)).instrument;
        const rest = entries.slice(at);
        const whole = foldInstrument(found, entries).instrument;
        expect(holeSet(foldInstrument(half, rest).instrument)).toEqual(holeSet(whole));
      }),
      { seed: SEED, numRuns: 100 },
    );
  });

  it("[ST9] independent acts give the same instrument in any order", () => {
    const acts: LogEntry[] = [
      {
        id: "plug-1",
        work: {
          act: "plug",
          holes: [{ id: "old-screws#1", u: 0, y: 0, diameter: 3, depth: 20 }],
          diameter: 6,
          cause: "",
        },
      },
      {
        id: "plug-2",
        work: {
          act: "plug",
          holes: [{ id: "old-screws#2", u: 0, y: 0, diameter: 3, depth: 20 }],
          diameter: 6,
          cause: "",
        },
      },
      {
        id: "ground",
        work: {
          act: "drill",
          group: "wire",
          holes: [{ id: "wire", u: 230, y: -10, diameter: 3, thread: 0, depth: 30 }],
          intoPlugs: false,
        },
      },
      {
        id: "posts",
        work: {
          act: "drill",
          group: "posts",
          holes: [{ id: "post#1", u: 225, y: 30, diameter: 8, thread: 0, depth: 20 }],
          intoPlugs: false,
        },
      },
      { id: "ears", work: { act: "rout", cavity: "bridge", what: "ears", lengthBy: 2, widthBy: 2.5, depthBy: 0 } },
      { id: "face", work: { act: "spot-face", where: "volume", depth: 2, leaves: 5 } },
      { id: "ream", work: { act: "ream", where: "volume", count: 1, from: 8, to: 9.6 } },
      { id: "nut", work: { act: "nut slots", widths: [{ string: 1, from: 0.28, to: 0.38 }] } },
      { id: "shim", work: { act: "shim", thickness: 0.9, length: 76, angleDegrees: 0.5 } },
      { id: "wall", work: { act: "insulate", where: "lever wall" } },
      { id: "spot", work: { act: "bare contact", where: "under the plate" } },
    ];
    const { state: _, ...straight } = foldInstrument(found, acts).instrument;
    fc.assert(
      fc.property(fc.shuffledSubarray(acts, { minLength: acts.length }), (shuffled) => {
        const { state: _state, ...instrument } = foldInstrument(found, shuffled).instrument;
        expect(instrument).toEqual(straight);
      }),
      { seed: SEED, numRuns: 60 },
    );
  });
});

/** Holes without their order: a fold taken up again counts the holes drilled before as found. */
function holeSet(instrument: Instrument): unknown {
  return {
    ...instrument,
    body: { ...instrument.body, holes: Object.fromEntries(instrument.body.holes.map((hole) => [hole.id, hole])) },
  };
}
