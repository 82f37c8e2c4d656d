import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { foldInstrument, voidOf } from "../../../src/core/job/fold.ts";
import { agreementOf, gateOf, independent, planTraveller, type TakenReading } from "../../../src/core/plan/index.ts";
import { say, showPhrase } from "../../../src/core/quantity/index.ts";
import type { Verdict } from "../../../src/core/verdict/index.ts";
import { makeInstrument, none } from "../job/fixture.ts";
import { makeInput, WORKS } from "./fixture.ts";
import {
  but,
  DAY_1,
  DRILL,
  gate,
  opens,
  READINGS,
  READY,
  share,
  shut,
  step,
  sure,
  verdicts,
  without,
} from "./gate-fixture.ts";

describe("a permanent step", () => {
  it("[GT1] opens when everything holds, and shows every reason", () => {
    expect(shut(gate())).toEqual([]);
    expect(gate().state).toBe("open");
    expect(gate().reasons.map((reason) => reason.ref)).toEqual(
      expect.arrayContaining([
        "record",
        "lay-strings",
        "trim-old-screws",
        "bridge.holes",
        "bridge.window",
        "scaleLine.u",
        "workshop.drilling",
        "bridge-sheet",
      ]),
    );
  });

  it("[GT2] is shut below the wanted probability, and says what would open it (demo A: 0.63 to 0.98)", () => {
    const next = {
      path: "scaleLine.u",
      what: "carry the scale line over",
      tool: "transfer",
      how: "Neck bolted, outer strings tight",
      minutes: 10,
      probabilityAfter: 0.98,
      settles: "",
    };
    const found = gate({ verdicts: but("bridge.window", { probability: 0.63, next }) });
    expect(found.state).toBe("shut");
    expect(shut(found)).toEqual(["Does bridge.window hold? P 0.63, wanted 0.95: spare 0.50 mm"]);
    expect(opens(found)).toEqual([
      "carry the scale line over, transfer. Neck bolted, outer strings tight: P 0.63 → 0.98",
    ]);
    expect(gate({ verdicts: but("bridge.window", { probability: 0.95 }) }).state).toBe("open");
    // Not "P 0.95, wanted 0.95".
    expect(shut(gate({ verdicts: but("bridge.window", { probability: 0.949 }) }))[0]).toContain("P 0.949, wanted 0.95");
  });

  it("[GT2] names a way out where no reading helps", () => {
    const remedies = [
      { id: "press", text: say`use a drill press`, permanence: "reversible" as const, probability: 0.97 },
    ];
    expect(opens(gate({ verdicts: but("bridge.window", { probability: 0.63, remedies }) }))).toEqual([
      "use a drill press: P 0.63 → 0.97",
    ]);
  });

  it("[GT2] names what brings most, reading or way out", () => {
    const next = { path: "", what: "read it again", tool: "rule", how: "Lay it anew", minutes: 2, settles: "" };
    const remedies = [
      { id: "press", text: say`use a drill press`, permanence: "reversible" as const, probability: 0.97 },
    ];
    const best = (probabilityAfter: number) =>
      opens(
        gate({ verdicts: but("bridge.window", { probability: 0.63, next: { ...next, probabilityAfter }, remedies }) }),
      );
    expect(best(0.9)).toEqual(["use a drill press: P 0.63 → 0.97"]);
    expect(best(0.98)).toEqual(["read it again, rule. Lay it anew: P 0.63 → 0.98"]);
  });

  it.each<[string, Partial<Verdict>, RegExp]>([
    ["no-go", { status: "no-go", probability: 0.01 }, /No: spare/],
    ["measure", { status: "measure" }, /Not known yet/],
  ])("[GT2] is shut by a verdict that says %s", (_, change, text) => {
    expect(shut(gate({ verdicts: but("bridge.holes", change) }))[0]).toMatch(text);
  });

  it("[GT2] is shut where nobody worked out the odds, unless there is no doubt at all", () => {
    const { probability: _, ...unsure } = sure("bridge.window");
    const ruleOnly = { ...unsure, shares: [] };
    const replace = (verdict: Verdict): readonly Verdict[] =>
      verdicts.map((one) => (one.id === verdict.id ? verdict : one));
    expect(shut(gate({ verdicts: replace(unsure) }))).toEqual([
      "Does bridge.window hold? Nobody has worked out how sure it is.",
    ]);
    expect(gate({ verdicts: replace({ ...unsure, margin: { value: 0.2, unit: "mm", u: 0 } }) }).state).toBe("open");
    expect(gate({ verdicts: verdicts.filter((one) => one.id !== "bridge.window") }).state).toBe("shut");
    // A rule that weighed nothing counts by its status beside odds, never alone.
    const { margin: _margin, ...noMargin } = ruleOnly;
    expect(gate({ verdicts: replace(noMargin) }).state).toBe("open");
    const noOdds = verdicts.map(({ probability: _p, margin: _m, ...rest }) => ({ ...rest, shares: [] }));
    expect(shut(gate({ verdicts: noOdds })).filter((text) => text.includes("Nobody has worked out"))).toHaveLength(3);
  });

  it("[GT2] the limit is the job's own setting", () => {
    const base = makeInstrument();
    const strict = planTraveller(
      makeInput({
        verdicts,
        instrument: {
          ...base,
          limits: { ...base.limits, gateProbability: { ...base.limits.gateProbability, value: 0.99 } as never },
        },
      }),
    );
    const drill = strict.steps.find((one) => one.id === DRILL.id);
    expect(drill && gateOf(drill, { ...READY, steps: strict.steps }).state).toBe("shut");
  });
});

describe("readings that decide", () => {
  const first = READINGS[0] as TakenReading;
  const scale = (...taken: readonly Partial<TakenReading>[]) => {
    const others = without("scaleLine.u");
    return gate({ readings: [...others, ...taken.map((change, index) => ({ ...first, id: `r${index}`, ...change }))] });
  };

  it.each<[string, readonly Partial<TakenReading>[], RegExp | undefined]>([
    ["none", [], /where the scale line falls on the body: it decides and has not been read/],
    ["one", [{}], /read once; two independent readings are wanted/],
    ["two from one placing", [{}, { value: 182.1 }], /not independent/],
    ["two placings", [{}, { value: 182.1, placing: "second" }], undefined],
    ["two tools", [{ placing: undefined as never }, { placing: undefined as never, tool: "steel rule" }], undefined],
    [
      "ten minutes apart",
      [
        { placing: undefined as never, at: DAY_1 },
        { placing: undefined as never, at: "2026-03-01T10:10Z" },
      ],
      undefined,
    ],
    [
      "a minute apart",
      [
        { placing: undefined as never, at: DAY_1 },
        { placing: undefined as never, at: "2026-03-01T10:01Z" },
      ],
      /not independent/,
    ],
    // u 0.15 each: 2 · √(0.15² + 0.15²) = 0.424.
    ["0.42 apart", [{}, { value: 182.42, placing: "second" }], undefined],
    ["0.43 apart", [{}, { value: 182.43, placing: "second" }], /differ by more than their doubt allows/],
    ["two against one", [{}, { value: 182.1, placing: "second" }, { value: 184, placing: "third" }], undefined],
    [
      "two against two",
      [{}, { value: 182.1, placing: "second" }, { value: 184, placing: "third" }, { value: 184, placing: "fourth" }],
      /differ by more/,
    ],
  ])("[GT3] %s", (_, taken, expected) => {
    const found = scale(...taken);
    if (expected === undefined) expect(shut(found)).toEqual([]);
    else expect(shut(found).join("; ")).toMatch(expected);
  });

  it("[GT3] values with a small share, and the drilling, are not asked for twice", () => {
    expect(gate().reasons.map((reason) => reason.ref)).not.toContain("strings.1.setback");
    expect(gate().reasons.map((reason) => reason.ref)).not.toContain("settings.drillingDoubt");
  });

  it("[GT3] is asked for where a slip of ten times its doubt would eat the margin, and where a mistake shows for good", () => {
    const decided = (change: Partial<Verdict>): string[] =>
      gate({ verdicts: but("bridge.window", { shares: [share("neck.heelGap", 0.5)], ...change }) })
        .reasons.map((reason) => reason.text)
        .map((text) => showPhrase(text))
        .filter((text) => text.startsWith("the gap between heel and end wall"));
    // √0.5 · 10 · 0.2 = 1.414.
    expect(decided({ margin: { value: 1.41, unit: "mm", u: 0.2 } })).toHaveLength(1);
    expect(decided({ margin: { value: 1.42, unit: "mm", u: 0.2 } })).toHaveLength(0);
    expect(decided({ margin: { value: 1.41, unit: "mm", u: 0.2 }, stake: 2 })).toHaveLength(0);
  });

  it("[GT3] agreement does not hang on the order of the readings", () => {
    const taken = fc.record({
      value: fc.double({ min: 0, max: 2, noNaN: true }),
      u: fc.double({ min: 0.05, max: 0.4, noNaN: true }),
      placing: fc.constantFrom("a", "b", "c"),
    });
    fc.assert(
      fc.property(fc.array(taken, { minLength: 1, maxLength: 5 }), (list) => {
        const readings = list.map(
          (one, index): TakenReading => ({ ...one, id: `r${index}`, subject: "x", tool: "rule" }),
        );
        const [straight, back] = [agreementOf(readings), agreementOf([...readings].reverse())];
        expect([back.agreeing.length, back.independent, back.majority]).toEqual([
          straight.agreeing.length,
          straight.independent,
          straight.majority,
        ]);
        for (const one of readings) expect(independent(one, one)).toBe(false);
      }),
      { seed: 20260304, numRuns: 200 },
    );
  });
});

describe("a gate closes again", () => {
  it("[GT4] when a reading is made void by later work", () => {
    const log = [{ id: "shim", work: WORKS.shim }];
    const folded = foldInstrument(makeInstrument(), log);
    const valid = READINGS.filter((one) => !voidOf({ subject: one.subject }, folded));
    expect(valid.length).toBeLessThan(READINGS.length);
    const found = gate({ readings: valid });
    expect(found.state).toBe("shut");
    expect(shut(found).join("; ")).toMatch(/scale line, back from the pocket's end wall: not read/);
    const again = [
      ...valid,
      ...READINGS.filter((one) => one.subject === "scaleLine.u").map((one) => ({ ...one, id: `${one.id}-again` })),
    ];
    expect(shut(gate({ readings: again }))).toEqual([]);
  });

  it("[GT4] when the answer changes", () => {
    expect(gate().state).toBe("open");
    expect(gate({ verdicts: but("bridge.holes", { probability: 0.5 }) }).state).toBe("shut");
  });
});

describe("steps before, waits, prints, approval", () => {
  it("[GT5] names the step that comes first, and why", () => {
    const found = gate({ done: READY.done.filter((one) => one.step !== "lay-strings") });
    expect(shut(found)).toEqual([
      "first: Lay the outer strings over the bridge before any hole, because a bridge out of line spoils it more surely than one too far back",
    ]);
    expect(opens(found)).toEqual(["do “Lay the outer strings over the bridge before any hole” and tick it off"]);
  });

  it("[GT5] a hold point ticked off without its reading does not count", () => {
    expect(shut(gate({ readings: without("bench.margin.bass") }))).toEqual([
      "bass side: string's middle to the edge of the board, at the last fret: not read",
    ]);
  });

  it("[GT6] glue: shut until its day is over, to the minute; shut where nobody noted the time", () => {
    const trim = step("trim-old-screws");
    const at = (now: string) => gate({ at: now }, trim);
    expect(shut(at("2026-03-02T09:59Z"))).toEqual([
      "the wait after “Plug 5 holes of old-screws with Ø 6.0 mm” is not over: the glue has to cure before the plug is cut or loaded",
    ]);
    expect(opens(at("2026-03-02T08:30Z"))).toEqual(["wait 1.5 h more"]);
    expect(at("2026-03-02T10:00Z").state).toBe("open");
    const { at: _, ...timeless } = READY;
    expect(gateOf(trim, timeless).state).toBe("shut");
    expect(
      shut(gate({ done: READY.done.map((one) => (one.step === "plug-old-screws" ? { step: one.step } : one)) }, trim)),
    ).toEqual(["nobody noted when “Plug 5 holes of old-screws with Ø 6.0 mm” was done, so its wait cannot be proved"]);
  });

  it("[GT7] a step marked from a sheet waits for the sheet's rules", () => {
    expect(shut(gate({ prints: [] }))).toEqual(["nobody has measured the sheet's rules"]);
    expect(
      shut(gate({ prints: [{ sheet: "bridge-sheet", accepted: false, text: say`the sheet is 3 % small` }] })),
    ).toEqual(["the sheet is 3 % small"]);
    expect(gate({ prints: [] }, step("rout-bridge-ears")).reasons.map((reason) => reason.ref)).not.toContain(
      "bridge-sheet",
    );
  });

  it("[GT8] a shop asks for approval of permanent steps only", () => {
    expect(shut(gate({ approved: [] }))).toEqual(["the customer has not approved this step"]);
    expect(gate({ approved: [DRILL.id] }).state).toBe("open");
    expect(gate({ approved: [] }, step("foil")).state).toBe("open");
  });
});

describe("how well the holes land", () => {
  const undrilled = verdicts.map((verdict) => ({
    ...verdict,
    shares: verdict.shares.filter((one) => !one.path.includes("drilling")),
  }));

  it("[GT9] is inside the odds, or is counted here", () => {
    const slim = undrilled.map((verdict) => ({ ...verdict, margin: { value: 0.6, unit: "mm", u: 0.2 } }));
    // Closed form: Φ(0.6 / √(0.2² + 0.45²)) = Φ(1.218) = 0.888.
    expect(shut(gate({ verdicts: slim }))).toEqual([
      "with the drilling (hand drill, ±0.45 mm) the odds are P 0.89, wanted 0.95",
    ]);
    const wide = undrilled.map((verdict) => ({ ...verdict, margin: { value: 1, unit: "mm", u: 0.2 } }));
    // Φ(1 / 0.4924) = Φ(2.031) = 0.979.
    expect(gate({ verdicts: wide }).state).toBe("open");
  });

  it("[GT9] nobody said how the holes are drilled: shut", () => {
    const base = makeInstrument();
    const silent = planTraveller(
      makeInput({ verdicts, instrument: { ...base, workshop: { ...base.workshop, drillingDoubt: none() } } }),
    );
    const drill = silent.steps.find((one) => one.id === DRILL.id);
    expect(drill && shut(gateOf(drill, { ...READY, steps: silent.steps }))).toEqual([
      "nobody said how the holes are drilled, so how well they land is not in the odds",
    ]);
  });
});

describe("lighter gates", () => {
  it("[GT10] a hidden step wants the verdicts and one reading, a reversible one only the steps before", () => {
    const [bare, fit] = [step("bare-contact-under-the-plate"), step("fit-bridge")];
    const once = READINGS.filter(
      (one) =>
        !(one.subject === "scaleLine.u" && one.value === 182.1) &&
        !(one.subject === "body.holes.old-screws.u" && one.value === 201.4),
    );
    expect(shut(gate({ readings: once }, bare))).toEqual([]);
    expect(gate({ verdicts: but("bridge.ground", { status: "no-go" }) }, bare).state).toBe("shut");
    expect(gate({ verdicts: but("bridge.window", { status: "no-go" }) }, fit).state).toBe("open");
    expect(gate({ done: [] }, fit).state).toBe("shut");
  });
});
