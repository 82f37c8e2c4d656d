import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { areJoined, type ContactMap, pairsOf, sameBehaviour } from "../../../src/core/circuit/contact-map.ts";
import { type ContactReading, type ContactSearch, findContacts } from "../../../src/core/circuit/find-contacts.ts";
import { fiveDetentLever, leafToggle, toggle } from "../../../src/core/circuit/switch-kinds.ts";

const namesOf = (map: ContactMap) => map.positions.map(({ name }) => name);

/** Lugs that some closed readings of one position join, apart from the program's own joining. */
function reach(from: string, closed: readonly ContactReading[]): Set<string> {
  const seen = new Set([from]);
  for (let size = 0; size !== seen.size; ) {
    size = seen.size;
    for (const { a, b } of closed) {
      if (seen.has(a)) seen.add(b);
      if (seen.has(b)) seen.add(a);
    }
  }
  return seen;
}

/** Whether the readings so far settle a pair. */
function implied(pair: { position: string; a: string; b: string }, readings: readonly ContactReading[]): boolean {
  const here = readings.filter(({ position }) => position === pair.position);
  const closed = here.filter((reading) => reading.closed);
  const ofA = reach(pair.a, closed);
  const ofB = reach(pair.b, closed);
  if (ofA.has(pair.b)) return true;
  return here.some(({ a, b, closed: beeps }) => !beeps && ((ofA.has(a) && ofB.has(b)) || (ofA.has(b) && ofB.has(a))));
}

/** Answers every question from a map; checks on the way that no question is idle and the bound holds. */
function answerAll(map: ContactMap, more: Pick<ContactSearch, "poles"> = {}) {
  const readings: ContactReading[] = [];
  const search = () => findContacts({ lugs: map.lugs, positions: namesOf(map), readings, ...more });
  let found = search();
  const first = found.mostReadingsLeft;
  while (found.next) {
    const { position, a, b } = found.next;
    expect(implied({ position, a, b }, readings), `${a} to ${b} in ${position} follows`).toBe(false);
    const left = found.mostReadingsLeft;
    readings.push({ position, a, b, closed: areJoined(map, { position, a, b }) });
    found = search();
    if (found.notes.length === 0) expect(found.mostReadingsLeft).toBeLessThan(left);
  }
  return { found, readings, first };
}

/** Least that any search needs: an open reading for each pair of groups, a closed one for each lug that joins a group. */
function fewest(map: ContactMap, poles: readonly (readonly string[])[]): number {
  const ofOne = (joined: readonly (readonly string[])[], pole: readonly string[]) => {
    const within = joined.filter(([lug = ""]) => pole.includes(lug));
    const groups = pole.length - within.reduce((sum, { length }) => sum + length - 1, 0);
    return (groups * (groups - 1)) / 2 + pole.length - groups;
  };
  return map.positions
    .flatMap(({ joined }) => poles.map((pole) => ofOne(joined, pole)))
    .reduce((sum, count) => sum + count, 0);
}

/** Any map: each lug of each position gets the number of a group. */
const anyMap: fc.Arbitrary<ContactMap> = fc
  .record({ lugs: fc.integer({ min: 2, max: 8 }), positions: fc.integer({ min: 1, max: 4 }) })
  .chain(({ lugs, positions }) =>
    fc.array(fc.array(fc.nat(lugs - 1), { minLength: lugs, maxLength: lugs }), {
      minLength: positions,
      maxLength: positions,
    }),
  )
  .map((numbers) => {
    const lugs = (numbers[0] ?? []).map((_, index) => `lug ${index + 1}`);
    const positions = numbers.map((ofLugs, index) => ({
      name: `${index + 1}`,
      joined: [...new Set(ofLugs)]
        .map((group) => lugs.filter((_, lug) => ofLugs[lug] === group))
        .filter(({ length }) => length > 1),
    }));
    return { lugs, positions, timing: "not known" };
  });

describe("findContacts, answered by the truth", () => {
  it("ends with exactly the map, asks nothing that follows, and keeps to its bound", () => {
    fc.assert(
      fc.property(anyMap, (map) => {
        const { found, readings, first } = answerAll(map);
        expect(found.contradictions).toEqual([]);
        expect(found.map && sameBehaviour(found.map, map)).toBe(true);
        expect(readings.length).toBeLessThanOrEqual(first);
        expect(readings.length).toBeGreaterThanOrEqual(fewest(map, [map.lugs]));
        expect(first).toBe((map.positions.length * map.lugs.length * (map.lugs.length - 1)) / 2);
      }),
      { seed: 175, numRuns: 400 },
    );
  });

  it("ends with the same map from readings taken in any order", () => {
    fc.assert(
      fc.property(anyMap, fc.infiniteStream(fc.nat(1e6)), (map, numbers) => {
        const all = map.positions
          .flatMap(({ name }) => pairsOf(map.lugs).map(([a, b]) => ({ position: name, a, b })))
          .map((pair) => ({ at: numbers.next().value ?? 0, reading: { ...pair, closed: areJoined(map, pair) } }))
          .sort((one, other) => one.at - other.at)
          .map(({ reading }) => reading);
        const found = findContacts({ lugs: map.lugs, positions: namesOf(map), readings: all });
        expect(found.map && sameBehaviour(found.map, map)).toBe(true);
      }),
      { seed: 175, numRuns: 200 },
    );
  });

  it("puts each pair of lugs into one list only, at every stage", () => {
    fc.assert(
      fc.property(anyMap, fc.nat(20), (map, count) => {
        const { readings } = answerAll(map);
        const search = { lugs: map.lugs, positions: namesOf(map), readings: readings.slice(0, count) };
        for (const { joined, open, unknown } of findContacts(search).positions) {
          const closed = joined.flatMap((group) => pairsOf(group));
          const keys = [...closed, ...open, ...unknown].map((pair) => [...pair].sort().join("/"));
          expect(keys.sort()).toEqual(
            pairsOf(map.lugs)
              .map((pair) => [...pair].sort().join("/"))
              .sort(),
          );
        }
      }),
      { seed: 175, numRuns: 100 },
    );
  });

  it.each([
    ["a five-detent lever", fiveDetentLever()],
    ["a double-pole toggle", toggle({ kind: "on-on-on type 1", poles: 2 })],
    ["a leaf toggle", leafToggle()],
  ])("finds %s, in fewer readings with its poles given", (_name, map) => {
    const poles = [1, 2].map((pole) => map.lugs.filter((lug) => lug.startsWith(`p${pole}-`)));
    const blind = answerAll(map);
    const seen = answerAll(map, { poles });
    expect(blind.found.map && sameBehaviour(blind.found.map, map)).toBe(true);
    expect(seen.found.map && sameBehaviour(seen.found.map, map)).toBe(true);
    expect(seen.readings.length).toBeLessThanOrEqual(seen.first);
    expect(seen.readings.length).toBeLessThanOrEqual(blind.readings.length);
    // Six pairs of four lugs, three pairs of three: pole by pole, position by position.
    const ofPole = poles.map(({ length }) => (length * (length - 1)) / 2).reduce((sum, pairs) => sum + pairs, 0);
    expect(seen.first).toBe(ofPole * map.positions.length);
    // A quarter above what no search can do without is allowed for not knowing.
    expect(blind.readings.length).toBeGreaterThanOrEqual(fewest(map, [map.lugs]));
    expect(blind.readings.length).toBeLessThanOrEqual(1.25 * fewest(map, [map.lugs]));
    expect(seen.readings.length).toBeLessThanOrEqual(1.25 * fewest(map, poles));
  });

  it("reads on when poles that were taken to be apart turn out to be joined", () => {
    const map: ContactMap = {
      lugs: ["a", "b", "c", "d"],
      positions: [
        { name: "1", joined: [["a", "b"]] },
        {
          name: "2",
          joined: [
            ["a", "c"],
            ["b", "d"],
          ],
        },
      ],
      timing: "not known",
    };
    const poles = [
      ["a", "b"],
      ["c", "d"],
    ];
    const chance: ContactReading = { position: "2", a: "a", b: "c", closed: true };
    const lugs = map.lugs;
    const found = findContacts({ lugs, positions: ["1", "2"], readings: [chance], poles });
    expect(found.notes).toEqual([expect.stringMatching(/^a and c are joined in position 2, so their poles are not/)]);
    // All six pairs of position 1; of position 2, three groups make three pairs.
    expect(found.mostReadingsLeft).toBe(9);
  });
});

describe("findContacts", () => {
  const start: ContactSearch = { lugs: ["a", "b", "c"], positions: ["up", "down"], readings: [] };
  const read = (a: string, b: string, closed: boolean, position = "up"): ContactReading => ({ position, a, b, closed });

  it("draws what follows: joined and joined, joined and open", () => {
    const [joined] = findContacts({ ...start, readings: [read("a", "b", true), read("b", "c", true)] }).positions;
    expect(joined).toEqual({ name: "up", joined: [["a", "b", "c"]], open: [], unknown: [] });
    const [open] = findContacts({ ...start, readings: [read("b", "a", true), read("b", "c", false)] }).positions;
    expect(open).toEqual({
      name: "up",
      joined: [["a", "b"]],
      open: [
        ["a", "c"],
        ["b", "c"],
      ],
      unknown: [],
    });
  });

  it("does not conclude from open and open", () => {
    const { positions, next } = findContacts({ ...start, readings: [read("a", "b", false), read("a", "c", false)] });
    expect(positions[0]?.unknown).toEqual([["b", "c"]]);
    expect(next).toMatchObject({
      position: "up",
      a: "b",
      b: "c",
      words: expect.stringMatching(/Does the meter beep\?$/),
    });
  });

  it("says how many readings at most", () => {
    expect(findContacts(start).mostReadingsLeft).toBe(6);
    expect(findContacts({ ...start, readings: [read("a", "b", true)] }).mostReadingsLeft).toBe(4);
  });

  const wrong = [read("a", "b", true), read("b", "c", true), read("c", "a", false)];

  it("names readings that contradict each other and asks for the oldest again", () => {
    const { contradictions, next, map } = findContacts({ ...start, readings: wrong });
    expect(map).toBeUndefined();
    expect(contradictions).toEqual([
      {
        position: "up",
        open: ["c", "a"],
        chain: [
          ["b", "c"],
          ["a", "b"],
        ],
        words: "In position up, b to c, a to b were read as joined, but c to a as open: one of these is wrong.",
      },
    ]);
    expect(next).toMatchObject({
      position: "up",
      a: "a",
      b: "b",
      words: expect.stringMatching(/^Read a to b .* again/),
    });
  });

  it("goes round all readings of a contradiction until it is solved", () => {
    const { next } = findContacts({ ...start, readings: [...wrong, read("b", "a", true)] });
    expect(next).toMatchObject({ a: "b", b: "c" });
    const solved = findContacts({ ...start, readings: [...wrong, read("b", "a", true), read("b", "c", false)] });
    expect(solved.contradictions).toEqual([]);
    expect(solved.next?.position).toBe("down");
  });

  it("keeps the readings of one position out of another", () => {
    const { positions } = findContacts({ ...start, readings: [read("a", "b", true), read("a", "b", false, "down")] });
    expect(positions.map(({ joined }) => joined)).toEqual([[["a", "b"]], []]);
  });

  it("hands on the timing", () => {
    const search: ContactSearch = { lugs: ["a", "b"], positions: ["1"], readings: [read("a", "b", true, "1")] };
    expect(findContacts(search).map?.timing).toBe("not known");
    expect(findContacts({ ...search, timing: "break before make" }).map?.timing).toBe("break before make");
  });

  it.each<[string, Partial<ContactSearch>, RegExp]>([
    [
      "an unknown position",
      { readings: [read("a", "b", true, "left")] },
      /^readings\[0\]\.position: there is no "left"/,
    ],
    ["an unknown lug", { readings: [read("a", "z", true)] }, /^readings\[0\]\.b: there is no lug "z"/],
    ["both probes on one lug", { readings: [read("a", "a", true)] }, /^readings\[0\]: both probes on "a"/],
    ["no lugs", { lugs: [] }, /^lugs: must not be empty/],
    ["a lug of two poles", { poles: [["a", "b"], ["b"]] }, /^poles: "b" stands twice/],
  ])("refuses %s", (_what, change, message) => {
    expect(() => findContacts({ ...start, ...change })).toThrow(message);
  });
});
