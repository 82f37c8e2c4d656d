import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Answers, growJob, STARTERS } from "../../../src/core/begin/index.ts";
import { ask, InputError, loadJob, questionsOf } from "../../../src/core/index.ts";
import { jobToData, parseJob } from "../../../src/core/job/index.ts";
import { showPhrase } from "../../../src/core/quantity/index.ts";
import type { Verdict } from "../../../src/core/verdict/index.ts";

function answer(starterId: string, answers: Answers): Verdict[] {
  const starter = STARTERS.find(({ id }) => id === starterId)!;
  const job = loadJob(growJob(starterId, answers).data);
  const known = questionsOf(job).map(({ id }) => id);
  return starter.questions.filter((id) => known.includes(id)).map((id) => ask(job, id));
}

describe.each(STARTERS.map((starter) => [starter.id, starter] as const))("%s", (id, starter) => {
  it("asks for at most six readings, each with where to lay which tool and what not knowing means", () => {
    expect(starter.entries.length).toBeLessThanOrEqual(6);
    expect(new Set(starter.entries.map((entry) => entry.id)).size).toBe(starter.entries.length);
    for (const entry of starter.entries) {
      for (const text of [entry.prompt, entry.lay, entry.example, entry.more, entry.unknown]) expect(text).not.toBe("");
      // One sentence says where the tool goes.
      expect(entry.lay.match(/\.(?=\s|$)/g), entry.lay).toHaveLength(1);
      expect(entry.kind === "words" || entry.tool !== "").toBe(true);
    }
  });

  it.each(starter.entries.map((entry) => [entry.id, entry] as const))(
    "reads its own example of %s",
    (entryId, entry) => {
      const base: Record<string, string> = entryId === "place" || entryId === "contacts" ? { "nut-12": "324" } : {};
      expect(showPhrase(growJob(id, { ...base, [entryId]: entry.example }).reads[entryId] ?? [])).toMatch(/\.$/);
    },
  );

  it.each(["", "-", "?", "don't know", "Don’t know.", "unknown", undefined])(
    "never fails where everything is %j: it answers measure, or says what is assumed",
    (nothing) => {
      const answers = nothing === undefined ? {} : Object.fromEntries(starter.entries.map((one) => [one.id, nothing]));
      const verdicts = answer(id, answers);
      expect(verdicts[0]?.status).toBe("measure");
      expect(verdicts[0]?.missing.length).toBeGreaterThan(0);
      expect(growJob(id, answers).reads).toEqual({});
      expect(growJob(id, answers).notes.length).toBeGreaterThan(0);
    },
  );

  it("grows a document that comes back unchanged through the job file", () => {
    const answers = { ...FULL[id] };
    const { data } = growJob(id, answers);
    expect(jobToData(parseJob(data))).toEqual(data);
    expect(JSON.parse(JSON.stringify(data))).toEqual(data);
    expect(parseJob(data).kept).toEqual([]);
  });

  it("reaches an answer that is no longer waiting for a value", () => {
    const verdicts = answer(id, FULL[id] ?? {});
    expect(verdicts.length).toBeGreaterThan(0);
    for (const verdict of verdicts) expect(verdict.missing, verdict.id).toEqual([]);
    expect(verdicts.map((verdict) => verdict.id)).toEqual([...starter.questions]);
  });
});

/** Everything a careful person would type. */
const FULL: Readonly<Record<string, Answers>> = {
  "bridge-place": {
    what: "6 strings, guitar, flat plate, right-handed, drill press",
    "nut-12": "324",
    travel: "8 20",
    spread: "36 52.5",
    "bridge-holes": "34: 5 at 10.5 dia 3 pilot 2.5 deep 24",
    "old-holes": "none",
  },
  "old-holes": {
    what: "bass, left-handed",
    "nut-12": "432",
    travel: "8 24",
    "bridge-holes": "47: 3 at 20 dia 3.5 pilot 2.8 deep 26",
    "old-holes": "469: 5 at 11 dia 3.4 deep 20",
    place: "420",
  },
  "saddle-range": {
    what: "6 strings",
    "nut-12": "324",
    travel: "1-3: 11.5 18; 4-6: 13 20",
    contacts: "325.6 326.2 326.9 326 326.8 328",
  },
  "pickup-drop-in": {
    pickup: "70 x 38.5 x 15",
    ears: "89 x 13.5 x 18.5",
    rout: "72 x 41 x 19",
    "ear-rout": "88 x 12 x 21",
    thickness: "44.5",
  },
  poles: { what: "6 strings", "nut-12": "345", spread: "36 52.5", poles: "49.2", row: "309", slant: "square" },
  pot: {
    thread: "9.5 x 9.5",
    wood: "7",
    hole: "8",
    depth: "12.5",
    room: "33",
    knob: "shaft 6 solid, knob 6 set screw",
  },
  jack: { thread: "9.5 x 9.5", wood: "5", hole: "9.7", depth: "20", room: "33" },
  ohms: {
    coils: "6.2 k with 6.5 k",
    volume: "250 k",
    "series-cap": "no",
    temperature: "20 °C",
    reading: "3.13 k",
  },
  thin: {
    kicks: "up up",
    compass: "draws north, draws south",
    ohms: "6.2 k, 6.5 k",
    metal: "none",
    joined: "parallel",
    controls: "volume 250 k, tone 250 k 22 n",
  },
  switch: { "old-slot": "26 41.3", "new-slot": "30.5 46", "screw-holes": "3.2", size: "27.5 21", room: "33 24" },
};

describe("growJob", () => {
  it("refuses a beginning and an entry that there is not", () => {
    expect(() => growJob("sound", {})).toThrow(/^sound: is not a question to begin with/);
    expect(() => growJob("pot", { scale: "648" })).toThrow(/^scale: is not asked in pot\. Its entries are thread, /);
    expect(() => growJob("pot", { constructor: "x" })).toThrow(InputError);
  });

  it.each<[string, Answers, RegExp]>([
    ["bridge-place", { "nut-12": "32.4" }, /^nut-12: 32\.4 mm cannot be the distance from the nut to fret 12/],
    ["bridge-place", { "nut-12": "648" }, /^nut-12: 648 mm cannot be .* half the scale/],
    ["bridge-place", { "nut-12": "324 330" }, /^nut-12: gives 2 figures\. Give one figure, or say multi-scale/],
    [
      "bridge-place",
      { what: "multi-scale", "nut-12": "324" },
      /^nut-12: gives 1 figure\. Give two figures for a multi/,
    ],
    [
      "bridge-place",
      { what: "multi-scale", "nut-12": "scale 648" },
      /^nut-12: gives one scale length for a multi-scale/,
    ],
    ["bridge-place", { "nut-12": "scale 648 660" }, /^nut-12: gives 2 scale lengths for a neck with one/],
    ["bridge-place", { "nut-12": "scale long" }, /^nut-12: does not know "long"/],
    ["bridge-place", { what: "multi-scale 648" }, /^what: gives one scale length for a multi-scale neck/],
    ["bridge-place", { travel: "16 11.5" }, /^travel: has the rear stop \(11\.5 mm\) no further back/],
    ["bridge-place", { travel: "11.5" }, /^travel: gives 1 figure\. Give 2 or 12/],
    ["bridge-place", { travel: "1-3: 11.5 16" }, /^travel: says nothing of string 4, 5, 6/],
    ["bridge-place", { travel: "1-9: 11.5 16" }, /^travel: names strings 1 to 9 of 6/],
    ["bridge-place", { what: "units", travel: "1-3: 8 20; 4-6: 9 21" }, /^travel: gives different travels for single/],
    ["bridge-place", { spread: "52.5 36" }, /^spread: has the strings closer at the bridge/],
    ["bridge-place", { spread: "36" }, /^spread: gives 1 figure/],
    ["bridge-place", { what: "4 strings", spread: "36 100" }, /^spread: puts 4 strings 33\.333 mm apart/],
    ["bridge-place", { what: "two posts", "bridge-holes": "12: 3 at 30" }, /^bridge-holes: does not give two posts/],
    ["old-holes", { place: "310" }, /^place: is counted from fret 12, and its place is not known/],
    ["saddle-range", { "nut-12": "324", contacts: "326 327" }, /^contacts: gives 2 figures\. Give one figure for each/],
    ["saddle-range", { "nut-12": "324", contacts: "326 327 328 350 327 328" }, /^contacts: puts string 4 26 mm behind/],
    ["pickup-drop-in", { rout: "none" }, /^rout: cannot be none/],
    ["poles", { slant: "70" }, /^slant: cannot be "70"/],
    ["pot", { knob: "shaft 6 solid" }, /^knob: does not say the knob's hole/],
    ["ohms", { coils: "8.2" }, /^coils: "8\.2" has no unit/],
    ["ohms", { coils: "8.2 M" }, /^coils: 8\.2 M cannot be the ohms of a coil: 1 Ω to 200 kΩ is possible/],
    ["ohms", { coils: "6.2 k with" }, /^coils: cannot read "6\.2 k with"\. Write e\.g\. 8\.2 k, or /],
    ["ohms", { coils: "6.2 k with 6.5 k then 4 k" }, /^coils: cannot read .*brackets where both occur/],
    ["ohms", { volume: "5 x 500 k" }, /^volume: gives more pots than can be told apart/],
    ["ohms", { "series-cap": "a big one" }, /^series-cap: cannot read "a big one"/],
    ["ohms", { temperature: "90 °C" }, /^temperature: 90 °C cannot be the temperature of a room/],
    ["ohms", { reading: "8 k 9 k" }, /^reading: gives more than one figure/],
    ["thin", { kicks: "up" }, /^kicks: gives 1 kick\. Give two/],
    ["thin", { kicks: "up sideways" }, /^kicks: cannot read "sideways"/],
    ["thin", { compass: "north south" }, /^compass: cannot read "north south"/],
    ["thin", { ohms: "6.2 k" }, /^ohms: gives 1 figure\. Give two/],
    ["thin", { metal: "the knob" }, /^metal: cannot read "the knob"/],
    ["thin", { joined: "both" }, /^joined: cannot read "both"\. Write parallel or series/],
    ["thin", { controls: "volume 250 k at 12" }, /^controls: a knob cannot stand at 12/],
    ["thin", { controls: "blend 250 k" }, /^controls: cannot read "blend 250 k"/],
    ["pot", { wood: "x".repeat(500) }, /^wood: is 500 characters long/],
  ])("refuses a bad entry of %s (%j) by its name", (id, answers, message) => {
    expect(() => growJob(id, answers)).toThrow(message);
  });

  it("turns any text into a job that loads, or an error that names the entry", () => {
    const word = fc.constantFrom(
      ...["324", "11.5", "16", "5", "at", "10", ":", ";", "-", "mm", "in", "(rule)", "(calliper)", "±0.2", "none"],
      ...["8.2 k", "with", "then", "(", ")", "up", "down", "north up", "draws south", "volume 250 k", "22 n", "open"],
      ...["6 strings", "multi-scale", "left", "units", "knob", "shaft", "6 solid", "square", "scale", "dia", "through"],
    );
    const typed = fc.oneof(
      fc.string({ maxLength: 20 }),
      fc.array(word, { maxLength: 6 }).map((all) => all.join(" ")),
    );
    for (const { id, entries } of STARTERS) {
      const ids = entries.map((entry) => entry.id);
      const likely = (entry: (typeof entries)[number]) =>
        fc.oneof(typed, fc.constant(entry.example), fc.constant(FULL[id]?.[entry.id] ?? ""));
      const answers = fc.record(Object.fromEntries(entries.map((entry) => [entry.id, likely(entry)])), {
        requiredKeys: [],
      });
      fc.assert(
        fc.property(answers, (given) => {
          let data: Record<string, unknown>;
          try {
            // Left out means left out: no key holds `undefined`.
            data = growJob(id, given as Answers).data;
          } catch (error) {
            if (!(error instanceof InputError)) throw error;
            expect(ids, error.message).toContain(error.where);
            return;
          }
          expect(() => questionsOf(loadJob(data))).not.toThrow();
        }),
        { seed: 15, numRuns: 120 },
      );
    }
  });

  it("answers whatever can be typed without a slip", () => {
    const sizes = fc.constantFrom("8 20", "2 14", "9 12", "-4 8");
    const answers = fc.record(
      {
        what: fc.constantFrom(
          "",
          "7 multi-scale units",
          "9 two posts",
          "bass left",
          "multi-scale square fret 0",
          "5 bass units",
        ),
        travel: sizes,
        spread: fc.constantFrom("", "7 10.5", "9.5 10"),
        "bridge-holes": fc.constantFrom("", "12: 2 at 70 dia 11"),
      },
      { requiredKeys: ["what"] },
    );
    fc.assert(
      fc.property(answers, fc.boolean(), (given, known) => {
        const halves = /multi/.test(given.what) ? "317.5 330" : /bass/.test(given.what) ? "432" : "324";
        const [verdict] = answer("bridge-place", { ...given, ...(known ? { "nut-12": halves } : {}) });
        expect(["go", "rework", "measure", "no-go"]).toContain(verdict?.status);
        if (!known) expect(verdict?.status).toBe("measure");
      }),
      { seed: 16, numRuns: 12 },
    );
  });
});
