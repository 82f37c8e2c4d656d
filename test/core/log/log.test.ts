import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  actsOf,
  type Change,
  checkedEntry,
  createFold,
  entriesFor,
  type Fold,
  foldUntil,
  itemAtEnd,
  type Json,
  keysOf,
  type LogEntry,
  nextToRedo,
  nextToUndo,
  pathOf,
  rankBetween,
  takeBack,
} from "../../../src/core/log/index.ts";

const START = Date.UTC(2026, 0, 5, 9);

/** A device with its own copy of the log. */
function device(name: string, clock = { now: START }) {
  const fold = createFold();
  let next = 0;
  const stamp = () => {
    clock.now = Math.max(clock.now + 1, fold.latest === "" ? 0 : Date.parse(fold.latest) + 1);
    return { job: "J1", device: name, from: next, at: new Date(clock.now).toISOString() };
  };
  const keep = (entries: readonly LogEntry[]) => {
    next += entries.length;
    fold.add(entries);
    return entries;
  };
  return {
    fold,
    write: (words: string, ...changes: Change[]) => keep(entriesFor(fold, stamp(), words, changes)),
    undo: () => {
      const act = nextToUndo(fold, actsOf(fold), name);
      return act && keep(takeBack(fold, act, stamp(), `undo ${act.words}`).entries);
    },
    redo: () => {
      const act = nextToRedo(fold, actsOf(fold), name);
      return act && keep(takeBack(fold, act, stamp(), "again").entries);
    },
    data: () => fold.read().data,
  };
}

function exchange(...folds: Fold[]): void {
  const all = folds.flatMap((fold) => [...fold.entries.values()]);
  for (const fold of folds) fold.add(all);
}

const JOB = {
  job: { id: "J1", title: "Lowtide" },
  instrument: { kind: "guitar", strings: 6, controls: {}, neck: { nutSlots: ["0.28 mm", "0.36 mm"] } },
  readings: [
    { id: "r1", of: "body.thickness", value: "44.5 mm" },
    { id: "r2", of: "body.thickness", value: "44.6 mm" },
  ],
  operations: [],
} satisfies Json;

describe("a document and its leaves", () => {
  it("[LO1] a document written and read back is the same, keys in their order, twice written is once", () => {
    const one = device("aaaa");
    expect(one.write("import", { path: "", value: JOB }).length).toBeGreaterThan(0);
    expect(JSON.stringify(one.data())).toBe(JSON.stringify(JOB));
    expect(one.write("import", { path: "", value: JOB })).toEqual([]);
  });

  const key = fc.oneof(
    fc.constantFrom("#x", "@rank", "a/b", "~", "~2", "__proto__", "id"),
    fc.string({ maxLength: 4 }),
  );
  const json: fc.Arbitrary<Json> = fc.letrec<{ value: Json }>((tie) => ({
    value: fc.oneof(
      { depthSize: "small" },
      fc.constantFrom<Json>(null, true, 0, 1.5, "", "x"),
      fc.array(tie("value"), { maxLength: 3 }),
      fc
        .uniqueArray(fc.tuple(key, tie("value")), { maxLength: 4, selector: ([name]) => name })
        .map((pairs) => Object.fromEntries(pairs) as Json),
    ),
  })).value;

  it("[LO1] any plain data comes back", () => {
    const plainKey = (value: Json): boolean =>
      typeof value !== "object" ||
      value === null ||
      Object.entries(value).every(([k, v]) => !k.startsWith("\0") && plainKey(v));
    fc.assert(
      fc.property(fc.record({ a: json, b: json }).filter(plainKey), (data) => {
        const one = device("aaaa");
        one.write("all", { path: "", value: data });
        // As a file holds it.
        expect(JSON.parse(JSON.stringify(one.data()))).toEqual(JSON.parse(JSON.stringify(data)));
      }),
      { seed: 11, numRuns: 500 },
    );
  });

  it("[LO1] paths are read back as written", () => {
    fc.assert(
      fc.property(fc.array(fc.string({ unit: "binary" }).filter((text) => !text.startsWith("\0"))), (keys) => {
        expect(keysOf(pathOf(keys))).toEqual(keys);
      }),
      { seed: 12 },
    );
  });
});

describe("ranks", () => {
  it("[LO2] there is always one between two, and it never ends in a nought", () => {
    fc.assert(
      fc.property(fc.array(fc.nat(), { maxLength: 60 }), (places) => {
        const ranks: string[] = [];
        for (const place of places) {
          const at = place % (ranks.length + 1);
          ranks.splice(at, 0, rankBetween(ranks[at - 1], ranks[at]));
        }
        expect(ranks).toEqual([...ranks].sort());
        expect(new Set(ranks).size).toBe(ranks.length);
        expect(ranks.some((rank) => rank.endsWith("0"))).toBe(false);
      }),
      { seed: 13 },
    );
  });
});

describe("two devices", () => {
  function pair() {
    const [one, two] = [device("aaaa"), device("bbbb")];
    one.write("import", { path: "", value: JOB });
    exchange(one.fold, two.fold);
    return { one, two, meet: () => exchange(one.fold, two.fold) };
  }

  it("[LO3] two values for one path: the later is used, both are shown, on both devices", () => {
    const { one, two, meet } = pair();
    one.write("title", { path: "/job/title", value: "Low tide" });
    two.write("title", { path: "/job/title", value: "LOWTIDE" });
    meet();
    for (const { fold } of [one, two]) {
      const { data, disputes } = fold.read();
      expect(data.job).toEqual({ id: "J1", title: "LOWTIDE" });
      expect(disputes.map(({ path, values }) => [path, values.map(({ value }) => value)])).toEqual([
        ["/job/title", ["LOWTIDE", "Low tide"]],
      ]);
    }
    // Choosing settles it everywhere.
    one.write("choose", { path: "/job/title", value: "Low tide" });
    meet();
    expect(two.fold.read()).toMatchObject({ data: { job: { title: "Low tide" } }, disputes: [] });
  });

  it("[LO4] two inserts at one place are both kept, in the same order on both", () => {
    const { one, two, meet } = pair();
    const insert = (id: string) => [
      { path: `/readings/#${id}/@rank`, value: rankBetween("", "c") },
      { path: `/readings/#${id}`, value: { id, of: "neck.relief", value: "0.2 mm" } },
    ];
    one.write("read", ...insert("r8").reverse());
    two.write("read", ...insert("r9").reverse());
    meet();
    expect(one.data()).toEqual(two.data());
    expect((one.data().readings as { id: string }[]).map(({ id }) => id).sort()).toEqual(["r1", "r2", "r8", "r9"]);
  });

  it("[LO2] what is added at the end of a list stays in the order in which it was added", () => {
    const { one } = pair();
    for (const id of ["r9", "r10", "r3"])
      one.write("read", ...itemAtEnd(one.fold, ["readings"], { id, of: "neck.relief", value: "0.2 mm" }));
    expect((one.data().readings as { id: string }[]).map(({ id }) => id)).toEqual(["r1", "r2", "r9", "r10", "r3"]);
    // Written whole again, an item keeps its place.
    one.write("again", { path: "/readings/#r9", value: { id: "r9", of: "neck.relief", value: "0.3 mm" } });
    expect((one.data().readings as { id: string }[]).map(({ id }) => id)).toEqual(["r1", "r2", "r9", "r10", "r3"]);
  });

  it("[LO4] a new place in the list and an edit of the item are both kept", () => {
    const { one, two, meet } = pair();
    one.write("move", { path: "/readings/#r1/@rank", value: "z" });
    two.write("note", { path: "/readings/#r1/note", value: "by the window" });
    meet();
    expect(two.fold.read().disputes).toEqual([]);
    expect(two.data().readings).toEqual([JOB.readings[1], { ...JOB.readings[0], note: "by the window" }]);
  });

  it("[LO5] an edit outlives a taking away that did not know of it: the item comes back whole, and it is shown", () => {
    const { one, two, meet } = pair();
    one.write("take away", { path: "/readings/#r1" });
    expect(one.data().readings).toEqual([JOB.readings[1]]);
    two.write("note", { path: "/readings/#r1/note", value: "with a stick" });
    meet();
    for (const { fold } of [one, two]) {
      const { data, disputes } = fold.read();
      expect(data.readings).toEqual([{ ...JOB.readings[0], note: "with a stick" }, JOB.readings[1]]);
      expect(disputes.map(({ path }) => path)).toEqual(["/readings/#r1"]);
    }
    // Taken away again by one who knows of the edit, it is gone.
    one.write("take away", { path: "/readings/#r1" });
    meet();
    expect(two.fold.read()).toMatchObject({ data: { readings: [JOB.readings[1]] }, disputes: [] });
  });

  it("[LO5] what was taken away can be written again, without its old values", () => {
    const { one } = pair();
    one.write("take away", { path: "/instrument/neck" });
    one.write("again", { path: "/instrument/neck/radius", value: "305 mm" });
    expect((one.data().instrument as Record<string, Json>).neck).toEqual({ radius: "305 mm" });
  });
});

describe("[LO6] three devices, 300 random edits, exchanged in random order", () => {
  const paths = [
    "/job/title",
    "/instrument/neck/relief",
    "/readings/#r1",
    "/readings/#r1/note",
    "/readings/#r2/@rank",
    "/parts/a/name",
    "/parts/a",
    "/parts",
  ];
  const step = fc.record({
    who: fc.nat(2),
    path: fc.constantFrom(...paths),
    value: fc.option(fc.constantFrom<Json>("a", "b", "c", 3), { nil: undefined, freq: 5 }),
    meet: fc.option(fc.nat(2), { nil: undefined, freq: 9 }),
    undo: fc.boolean(),
  });

  it("ends in the same document on all, with every entry", () => {
    fc.assert(
      fc.property(fc.array(step, { minLength: 300, maxLength: 300 }), fc.nat(), (steps, turn) => {
        const devices = [device("aaaa"), device("bbbb", { now: START - 5000 }), device("cccc")] as const;
        const written: LogEntry[] = [];
        for (const { who, path, value, meet, undo } of steps) {
          const here = devices[who as 0];
          const entries =
            undo && who === 1 ? here.undo() : here.write("edit", { path, ...(value === undefined ? {} : { value }) });
          written.push(...(entries ?? []));
          if (meet !== undefined && meet !== who) exchange(here.fold, devices[meet as 0].fold);
        }
        // Each gets the rest in an order of its own, some of it twice.
        devices.forEach(({ fold }, index) => {
          const shift = (turn + 7 * index) % written.length;
          const turned = [...written.slice(shift), ...written.slice(0, shift)];
          fold.add(index === 1 ? turned.reverse() : turned);
          fold.add(written.slice(0, 50));
        });
        const [first, ...others] = devices.map(({ fold }) => fold);
        expect(first?.entries.size).toBe(written.length);
        for (const other of others) {
          expect(JSON.stringify(other.read())).toBe(JSON.stringify(first?.read()));
          expect(other.entries.size).toBe(written.length);
        }
        // And in the order of nobody: all at once.
        expect(JSON.stringify(createFold(written).read())).toBe(JSON.stringify(first?.read()));
      }),
      { seed: 14, numRuns: 60 },
    );
  });
});

describe("history", () => {
  it("[LO7] undo and redo walk the device's own acts; what somebody else changed since is left", () => {
    const one = device("aaaa");
    one.write("import", { path: "", value: JOB });
    one.write("title", { path: "/job/title", value: "A" });
    one.write("take away", { path: "/readings/#r1" });
    one.undo();
    expect(one.data().readings).toEqual(JOB.readings);
    one.undo();
    expect(one.data()).toEqual(JOB);
    one.redo();
    expect(one.data().job).toEqual({ id: "J1", title: "A" });
    one.redo();
    expect(one.data().readings).toEqual([JOB.readings[1]]);
    expect(one.redo()).toBeUndefined();
    one.undo();
    one.write("title", { path: "/job/title", value: "B" });
    // A new act ends the row of what could be brought again.
    expect(one.redo()).toBeUndefined();
    one.undo();
    one.undo();
    expect(one.data()).toEqual(JOB);
  });

  it("[LO7] an act of another device is not undone, nor what it wrote over mine", () => {
    const [one, two] = [device("aaaa"), device("bbbb")];
    one.write("import", { path: "", value: JOB });
    one.write("title", { path: "/job/title", value: "A" });
    exchange(one.fold, two.fold);
    two.write("title", { path: "/job/title", value: "B" });
    exchange(one.fold, two.fold);
    const title = actsOf(one.fold).find(({ words }) => words === "title");
    expect(title?.device).toBe("aaaa");
    expect(nextToUndo(one.fold, actsOf(one.fold), "aaaa")?.words).toBe("import");
    expect(two.undo()).toHaveLength(1);
    expect(two.data().job).toEqual({ id: "J1", title: "A" });
  });

  it("[LO7] undoing everything, then bringing everything again, ends where it was", () => {
    const paths = ["/job/title", "/readings/#r1", "/readings/#r1/note", "/parts/a/name", "/parts"];
    const change = fc.record({
      path: fc.constantFrom(...paths),
      value: fc.constantFrom<Json | undefined>("x", "y", undefined),
    });
    fc.assert(
      fc.property(fc.array(change, { maxLength: 25 }), (changes) => {
        const one = device("aaaa");
        one.write("import", { path: "", value: JOB });
        for (const { path, value } of changes) one.write("edit", { path, ...(value === undefined ? {} : { value }) });
        const end = one.data();
        let steps = 0;
        while (nextToUndo(one.fold, actsOf(one.fold), "aaaa")?.words !== "import" && steps++ < 100) one.undo();
        expect(one.data()).toEqual(JOB);
        while (one.redo() && steps++ < 200);
        expect(one.data()).toEqual(end);
      }),
      { seed: 15, numRuns: 100 },
    );
  });

  it("[LO8] any earlier state is the fold of what was there then", () => {
    const one = device("aaaa");
    const [first] = one.write("import", { path: "", value: JOB });
    one.write("title", { path: "/job/title", value: "A" });
    expect(foldUntil(one.fold, first?.at ?? "").read().data).toEqual(JOB);
  });
});

describe("entries from elsewhere", () => {
  const [good] = entriesFor(createFold(), { job: "J1", device: "aaaa", from: 0, at: "2026-01-05T09:00:00.000Z" }, "w", [
    { path: "/job/title", value: "x" },
  ]) as [LogEntry];

  it("[LO9] takes what was written here", () => {
    expect(checkedEntry(JSON.parse(JSON.stringify(good)), "entries[0]")).toEqual(good);
  });

  it.each([
    ["id", { id: "../../etc" }],
    ["id", { id: "bbbb.00000000" }],
    ["at", { at: "2026-13-05T09:00:00.000Z" }],
    ["at", { at: "yesterday" }],
    ["path", { path: "job" }],
    ["path", { path: "/a".repeat(40) }],
    ["over", { over: [3] }],
    ["value", { value: "x".repeat(200_001) }],
    ["value", { value: JSON.parse(`${"[".repeat(40)}${"]".repeat(40)}`) }],
    ["job", { job: "a/b" }],
    ["extra", { extra: 1 }],
  ])("[LO9] refuses a wrong %s", (field, change) => {
    expect(() => checkedEntry({ ...good, ...change }, "entries[0]")).toThrow(
      new RegExp(`^entries\\[0\\]\\.${field}: `),
    );
  });
});
