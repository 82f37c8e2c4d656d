import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError, loadJob } from "../../../src/core/index.ts";
import type { Instrument } from "../../../src/core/job/index.ts";
import { createLedger } from "../../../src/core/ledger/index.ts";
import { questionsAbout } from "../../../src/core/questions/index.ts";
import { example, fixture, type JobData, withValue } from "./jobs.ts";

/** Paths of all values that are known, from the instrument down. */
function leafPaths(node: unknown, path: readonly string[] = []): string[] {
  if (typeof node !== "object" || node === null) return [];
  if ("known" in node) return node.known === true ? [path.join(".")] : [];
  return Object.entries(node).flatMap(([key, item]) => (key === "evidence" ? [] : leafPaths(item, [...path, key])));
}

/** A copy with one value moved a little; everything beside the way to it stays the same object. */
function moved<T>(node: T, [key, ...rest]: readonly string[], by: number): T {
  if (key === undefined) return { ...node, value: (node as { value: number }).value + by };
  const next = moved((node as Record<string, unknown>)[key], rest, by);
  if (Array.isArray(node)) return node.map((item, index) => (String(index) === key ? next : item)) as T;
  return { ...node, [key]: next };
}

const lowtide = loadJob(example("lowtide")).instrument;

const bench = createLedger<Instrument>();

/** Ids asked anew when one value of the demo job is edited. */
function askedAfter(path: string): readonly string[] {
  bench.ask(questionsAbout(lowtide), lowtide);
  const after = moved(lowtide, path.split("."), 0.03);
  return bench.ask(questionsAbout(after), after).asked;
}

// The questions whose answer rests on the place. They read it through one shared result and fall with it together.
const PLACED = [
  "bridge.window",
  "bridge.place",
  "bridge.holes",
  "bridge.string-holes",
  "bridge.depth",
  "bridge.height",
  "bridge.cover",
  "sheet.side",
];

describe("an edit asks anew only the questions that read it", () => {
  it.each([
    ["tuners.headstockThickness", ["tuners.thickness"]],
    ["oldNeck.scaleLength", ["scale.line"]],
    ["neck.relief", ["bridge.height"]],
    ["neck.radiusAtNut", ["bridge.height"]],
    ["bridge.lowest", ["bridge.height"]],
    ["bridge.pieces.0.length", [...PLACED, "strings.change"]],
    ["neck.nutSlots.2", ["nut.slots"]],
    ["lever.width", ["lever.width"]],
    ["body.groundWire.y", []],
    ["body.holes.0.diameter", PLACED],
    ["workshop.drillingDoubt", PLACED],
  ])("%s", (path, expected) => {
    expect([...askedAfter(path)].sort()).toEqual([...expected].sort());
  });

  it("the body's thickness: how deep holes may go, not where they stand", () => {
    const asked = askedAfter("body.thickness");
    expect(asked).toContain("bridge.depth");
    expect(asked).not.toContain("bridge.place");
    expect(asked).not.toContain("bridge.holes");
  });

  it("a trial's cents: everything about the place, nothing about controls and tuners", () => {
    const asked = askedAfter("strings.1.setback.cents");
    expect(asked).toEqual(expect.arrayContaining(PLACED));
    expect(asked.filter((id) => /^(control|lever|tuners|nut|scale)/.test(id))).toEqual([]);
  });

  it("nothing, where nothing was edited", () => {
    const ledger = createLedger<Instrument>();
    const first = ledger.ask(questionsAbout(lowtide), lowtide);
    const again = structuredClone(lowtide);
    const second = ledger.ask(questionsAbout(again), again);
    expect(second.asked).toEqual([]);
    second.verdicts.forEach((verdict, index) => {
      expect(verdict).toBe(first.verdicts[index]);
    });
  });
});

describe("what is kept is what would be answered anew", () => {
  const JOBS: readonly (readonly [string, JobData])[] = [
    ["lowtide", example("lowtide")],
    ["ferry", example("ferry")],
    ["seven-string-units", fixture("seven-string-units")],
  ];

  it.each(JOBS)("%s, whatever values are edited", (_, data) => {
    const { instrument } = loadJob(data);
    const ledger = createLedger<Instrument>();
    ledger.ask(questionsAbout(instrument), instrument);
    let now = instrument;
    const edit = fc.tuple(fc.constantFrom(...leafPaths(instrument)), fc.integer({ min: -5, max: 5 }));
    fc.assert(
      fc.property(fc.array(edit, { minLength: 6, maxLength: 6 }), (edits) => {
        // One edit after another on the same ledger, as at the bench; whatever went stale on the way shows at the end.
        for (const [path, hundredths] of edits) {
          now = moved(now, path.split("."), hundredths / 100);
          ledger.ask(questionsAbout(now), now);
        }
        const kept = ledger.ask(questionsAbout(now), now);
        expect(kept.asked).toEqual([]);
        expect(kept.verdicts).toEqual(createLedger<Instrument>().ask(questionsAbout(now), now).verdicts);
      }),
      { seed: 17, numRuns: 3, endOnFailure: true },
    );
  });
});

/** Paths of everything that a job's file says of its parts and of the instrument. */
function filePaths(node: unknown, path: readonly string[] = []): string[] {
  const here = path.length > 2 ? [path.join(".")] : [];
  if (typeof node !== "object" || node === null) return here;
  return [...here, ...Object.entries(node).flatMap(([key, item]) => filePaths(item, [...path, key]))];
}

function loaded(data: JobData): Instrument | undefined {
  try {
    return loadJob(data).instrument;
  } catch (error) {
    // Taking out what others name is refused, which is right and of no interest here.
    if (error instanceof InputError) return undefined;
    throw error;
  }
}

describe("what the file no longer says", () => {
  it("a pickup without its name is asked about by its id, on the same ledger too", () => {
    const before = loadJob(example("lowtide")).instrument;
    const after = loadJob(withValue(example("lowtide"), "parts.reef.name", undefined)).instrument;
    const ledger = createLedger<Instrument>();
    ledger.ask(questionsAbout(before), before);
    const { verdicts } = ledger.ask(questionsAbout(after), after);
    const poles = verdicts.find(({ id }) => id === "pickup.bridge.poles");
    expect(poles?.question).not.toContain("Reef");
    expect(verdicts).toEqual(createLedger<Instrument>().ask(questionsAbout(after), after).verdicts);
  });

  it.each(["lowtide", "ferry"] as const)("%s, whatever is taken out of the file: kept as if asked anew", (name) => {
    const data = example(name);
    const names = filePaths({ parts: data.parts }).filter((path) => path.endsWith(".name"));
    const others = filePaths({ instrument: data.instrument, parts: data.parts, fit: data.fit });
    const path = fc.oneof(fc.constantFrom(...names), fc.constantFrom(...others));
    const ledger = createLedger<Instrument>();
    fc.assert(
      fc.property(path, (taken) => {
        const instrument = loaded(withValue(data, taken, undefined));
        if (!instrument) return;
        const kept = ledger.ask(questionsAbout(instrument), instrument).verdicts;
        expect(kept).toEqual(createLedger<Instrument>().ask(questionsAbout(instrument), instrument).verdicts);
      }),
      { seed: 23, numRuns: 40, endOnFailure: true },
    );
  });
});
