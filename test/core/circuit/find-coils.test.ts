import { describe, expect, it } from "vitest";
import { type CoilSearch, findCoils } from "../../../src/core/circuit/find-coils.ts";
import { ohmsBetween, ordersOf, type TruePickup, workThrough } from "./pickup-on-the-bench.ts";

const ROWS = ["screws", "slugs"];

/** Invented: two sound coils of equal sense of kick, wound and magnetised the opposite way. */
const SOUND: TruePickup = {
  coils: [
    { start: "brown", finish: "orange", ohms: 6300, row: "screws", w: 1, m: -1 },
    { start: "cream", finish: "blue", ohms: 6450, row: "slugs", w: -1, m: 1 },
  ],
};
const FOUR = ["orange", "brown", "blue", "cream"];

describe("four conductors with two sound coils", () => {
  it("takes three or four readings in whatever order the conductors are named", () => {
    for (const conductors of ordersOf(FOUR)) {
      const { found, first, resistances } = workThrough(SOUND, { conductors, rows: ROWS });
      // Six pairs of four.
      expect(first).toBe(6);
      expect(resistances.length).toBeLessThanOrEqual(4);
      const ends = found.coils.map((coil) => [...coil.ends].sort().join("-")).sort();
      expect(ends).toEqual(["blue-cream", "brown-orange"]);
      expect(found.coils.map(({ ohms }) => Math.round(ohms)).sort()).toEqual([6300, 6450]);
      expect(found.contradictions).toEqual([]);
      expect(found.loose).toEqual([]);
    }
  });

  it("names finishes that are in phase, and says that hum cancels", () => {
    const { found, kicks } = workThrough(SOUND, { conductors: FOUR, rows: ROWS });
    // The first row tried is the first coil's, so the other row is left for the other coil.
    expect(kicks).toHaveLength(2);
    // Both products are -1: the true start is the finish by the kick, and the winding changes its sign with that.
    expect(found.coils.map(({ finish, start, rows }) => [finish, start, rows])).toEqual([
      ["brown", "orange", ["screws"]],
      ["cream", "blue", ["slugs"]],
    ]);
    expect(found.coils.map(({ signWithRedOnA }) => signWithRedOnA)).toEqual([-1, -1]);
    expect(found.coils.map(({ magnetUp, winding }) => [magnetUp, winding])).toEqual([
      ["south", -1],
      ["north", 1],
    ]);
    expect(found.pairings).toEqual([
      {
        coils: [0, 1],
        series: { hot: "brown", joint: ["orange", "cream"], ground: "blue" },
        parallel: { hot: ["brown", "cream"], ground: ["orange", "blue"] },
        hum: "cancels",
      },
    ]);
    expect(found.words).toEqual([
      "orange and brown are the ends of a coil of 6.30 kohm at row screws; red on brown kicks +.",
      "blue and cream are the ends of a coil of 6.45 kohm at row slugs; red on cream kicks +.",
      "In phase: in series orange to cream, with brown hot and blue at ground; in parallel brown with cream hot and orange with blue at ground; hum cancels when they are in phase.",
    ]);
  });

  it("says that the meter knows the product only, until the compass was used", () => {
    const { resistances, kicks } = workThrough(SOUND, { conductors: FOUR, rows: ROWS });
    const found = findCoils({ conductors: FOUR, rows: ROWS, resistances, kicks });
    expect(found.pairings[0]?.hum).toBe("not known");
    expect(found.coils.map(({ winding }) => winding)).toEqual([undefined, undefined]);
    expect(found.words.at(-1)).toMatch(/^Start and finish are named by the kick.*tells winding times magnet only/);
    expect(found.needs.map((need) => need.kind === "compass" && need.row)).toEqual(ROWS);
  });

  it("asks for readings first, then kicks, then the compass", () => {
    const one = findCoils({
      conductors: FOUR,
      rows: ROWS,
      resistances: [{ a: "orange", b: "brown", ohms: 6300 }],
    });
    expect(one.needs[0]).toMatchObject({ kind: "resistance", a: "blue", b: "cream" });
    expect(one.needs.map(({ kind }) => kind)).toEqual(Array(5).fill("resistance").concat("kick"));
    const kick = one.needs.at(-1);
    expect(kick).toMatchObject({ kind: "kick", red: "orange", black: "brown", row: "screws" });
    expect(kick?.words).toMatch(/lower steel quickly to the poles of row screws/);
  });

  it("draws the same from readings in any order and with the probes either way round", () => {
    const pairs = [
      ["orange", "brown"],
      ["cream", "blue"],
      ["brown", "cream"],
    ] as const;
    const expected = findCoils({ conductors: FOUR, rows: ROWS, resistances: read(SOUND, pairs) });
    for (const order of ordersOf(pairs)) {
      const turned = order.map(([a, b], index) => (index % 2 ? ([a, b] as const) : ([b, a] as const)));
      const found = findCoils({ conductors: FOUR, rows: ROWS, resistances: read(SOUND, turned) });
      expect(found.coils).toEqual(expected.coils);
      expect(found.mostReadingsLeft).toBe(0);
    }
  });
});

function read(pickup: TruePickup, pairs: readonly (readonly [string, string])[]): CoilSearch["resistances"] {
  return pairs.map(([a, b]) => ({ a, b, ohms: ohmsBetween(pickup, a, b) }));
}

describe("three conductors", () => {
  const TAPPED: TruePickup = {
    coils: [
      { start: "grey", finish: "pink", ohms: 4100, row: "front", w: 1, m: 1 },
      { start: "pink", finish: "lilac", ohms: 4250, row: "back", w: 1, m: 1 },
    ],
  };

  it("are two coils with a tap where two readings make the third", () => {
    for (const conductors of ordersOf(["grey", "pink", "lilac"])) {
      const { found, resistances } = workThrough(TAPPED, { conductors, rows: ["front", "back"] });
      expect(resistances).toHaveLength(3);
      const coils = found.coils.map((coil) => ({ ends: [...coil.ends].sort(), ohms: Math.round(coil.ohms) }));
      expect(coils).toHaveLength(2);
      expect(coils).toContainEqual({ ends: ["grey", "pink"], ohms: 4100 });
      expect(coils).toContainEqual({ ends: ["lilac", "pink"], ohms: 4250 });
      expect(found.pairings).toEqual([{ coils: [0, 1], inPhaseAsJoined: true, hum: "adds" }]);
    }
  });

  it("are out of phase as joined where the second coil is turned", () => {
    const [first, second] = TAPPED.coils;
    const turned = { coils: [first!, { ...second!, start: "lilac", finish: "pink" }] };
    const { found } = workThrough(turned, { conductors: ["grey", "pink", "lilac"], rows: ["front", "back"] });
    expect(found.pairings[0]?.inPhaseAsJoined).toBe(false);
    expect(found.words).toContainEqual(expect.stringMatching(/out of phase as they are joined; hum adds when/));
  });

  it("are told, not guessed, where the readings do not add up", () => {
    const found = findCoils({
      conductors: ["grey", "pink", "lilac"],
      rows: ["front"],
      resistances: [
        { a: "grey", b: "pink", ohms: 4100 },
        { a: "pink", b: "lilac", ohms: 4200 },
        { a: "grey", b: "lilac", ohms: 6000 },
      ],
    });
    expect(found.coils).toEqual([]);
    expect(found.contradictions).toEqual([
      expect.objectContaining({ kind: "does not add up", words: expect.stringMatching(/^The readings between grey/) }),
    ]);
  });
});

describe("pickups with something wrong", () => {
  it("names the two ends of a broken coil", () => {
    const broken: TruePickup = { coils: [SOUND.coils[0]!] };
    for (const conductors of ordersOf(FOUR)) {
      const { found, resistances } = workThrough(broken, { conductors, rows: ROWS });
      expect(resistances.length).toBeLessThanOrEqual(6);
      expect([...found.loose].sort()).toEqual(["blue", "cream"]);
      expect(found.words).toContainEqual(
        expect.stringMatching(/read open to everything: the two ends of a coil whose/),
      );
    }
  });

  it("calls nothing loose before it is certain", () => {
    const few = read(SOUND, [
      ["orange", "brown"],
      ["orange", "blue"],
    ]);
    expect(findCoils({ conductors: FOUR, rows: ROWS, resistances: few }).loose).toEqual([]);
  });

  it("names a pair that is shorted and belongs to no coil", () => {
    const shorted: TruePickup = { coils: [SOUND.coils[0]!], joints: [["blue", "cream"]] };
    const { found } = workThrough(shorted, { conductors: FOUR, rows: ROWS });
    expect(found.joints).toEqual([["blue", "cream"]]);
    expect(found.words).toContain("blue, cream are joined and to no coil: a shorted coil, or a link inside.");
    expect(found.loose).toEqual([]);
  });

  it("names a chain of readings that cannot be, and asks for the oldest again", () => {
    const resistances = [
      { a: "orange", b: "brown", ohms: 6300 },
      { a: "brown", b: "blue", ohms: 6400 },
      { a: "blue", b: "orange", ohms: "open" },
    ] as const;
    const found = findCoils({ conductors: FOUR, rows: ROWS, resistances });
    expect(found.contradictions).toEqual([
      {
        kind: "open and joined",
        pairs: [
          ["blue", "orange"],
          ["brown", "blue"],
          ["orange", "brown"],
        ],
        words:
          "A way was read over brown to blue, orange to brown, but blue to orange is open: one of these readings is wrong.",
      },
    ]);
    expect(found.coils).toEqual([]);
    expect(found.needs[0]).toMatchObject({ kind: "resistance", a: "orange", b: "brown" });
    const again = [...resistances, resistances[0], { a: "blue", b: "brown", ohms: "open" as const }];
    expect(findCoils({ conductors: FOUR, rows: ROWS, resistances: again }).contradictions).toEqual([]);
  });

  it("names readings over one joint that differ", () => {
    const found = findCoils({
      conductors: FOUR,
      rows: ROWS,
      resistances: [
        { a: "orange", b: "brown", ohms: 0.4 },
        { a: "orange", b: "blue", ohms: 6300 },
        { a: "brown", b: "blue", ohms: 5100 },
      ],
    });
    expect(found.contradictions[0]?.words).toMatch(/^orange to blue read 6.30 kohm and brown to blue 5.10 kohm/);
  });

  it("takes a reading of megohms for fingers", () => {
    const resistances = [{ a: "orange", b: "blue", ohms: 1.2e6 }];
    const found = findCoils({ conductors: FOUR, rows: ROWS, resistances });
    expect(found.coils).toEqual([]);
    expect(found.words).toEqual([
      "orange to blue read 1200.00 kohm: no coil has that; fingers or dirt, taken as open.",
    ]);
  });
});

describe("shields and metal parts", () => {
  const names = { conductors: ["red wire", "white wire"], shields: ["braid"], metals: ["cover"], rows: ["poles"] };

  it("says which end must stay at ground", () => {
    const pickup: TruePickup = {
      coils: [{ start: "white wire", finish: "red wire", ohms: 7200, row: "poles", w: 1, m: 1 }],
      joints: [["cover", "white wire"]],
    };
    const { found, first, resistances } = workThrough(pickup, names);
    expect(first).toBe(6);
    expect(resistances.length).toBeLessThanOrEqual(5);
    expect(found.joints).toEqual([["white wire", "cover"]]);
    expect(found.words).toContain(
      "white wire, cover are joined: keep white wire at ground, or part the joint first; else cover would be hot.",
    );
    expect(found.coils).toHaveLength(1);
  });

  it("are asked after the wires, and with one another before the wires", () => {
    const { needs } = findCoils({ ...names, resistances: [] });
    const pairs = needs.flatMap((need) => (need.kind === "resistance" ? [`${need.a}-${need.b}`] : []));
    expect(pairs.slice(0, 2)).toEqual(["red wire-white wire", "braid-cover"]);
    expect(pairs).toHaveLength(6);
  });

  it("asks each coil once for a part that touches nothing", () => {
    const pickup: TruePickup = { coils: SOUND.coils };
    const { found, resistances } = workThrough(pickup, { conductors: FOUR, metals: ["base plate"], rows: ROWS });
    // At most four for the coils, and one for each coil.
    expect(resistances.length).toBeLessThanOrEqual(6);
    expect(resistances.filter(({ a, b }) => [a, b].includes("base plate"))).toHaveLength(2);
    expect(found.loose).toEqual([]);
    expect(found.joints).toEqual([]);
  });

  it("lays the ground to the end with the metal, in series and in parallel", () => {
    for (const end of FOUR) {
      const pickup: TruePickup = { coils: SOUND.coils, joints: [[end, "base plate"]] };
      const { found } = workThrough(pickup, { conductors: FOUR, metals: ["base plate"], rows: ROWS });
      expect(found.pairings[0]?.series?.ground).toBe(end);
      expect(found.pairings[0]?.parallel?.ground).toContain(end);
    }
  });

  it("takes the braid itself as an end of the coil where there is but one wire", () => {
    const pickup: TruePickup = {
      coils: [{ start: "braid", finish: "core", ohms: 5900, row: "poles", w: -1, m: -1 }],
      joints: [["braid", "cover"]],
    };
    const { found } = workThrough(pickup, { ...names, conductors: ["core"] });
    expect(found.coils).toEqual([
      expect.objectContaining({ ends: ["core", "braid"], joined: [["core"], ["braid", "cover"]], finish: "core" }),
    ]);
  });
});

describe("what is refused", () => {
  const start: CoilSearch = { conductors: FOUR, rows: ROWS, resistances: [] };

  it.each<[string, Partial<CoilSearch>, RegExp]>([
    ["no conductors", { conductors: [] }, /^conductors: must not be empty/],
    ["a name twice", { metals: ["blue"] }, /^names\[4\]: "blue" stands twice/],
    ["an unknown wire", { resistances: [{ a: "blue", b: "lime", ohms: 1 }] }, /^resistances\[0\]: there is no "lime"/],
    [
      "one wire twice",
      { resistances: [{ a: "blue", b: "blue", ohms: 1 }] },
      /^resistances\[0\]: both probes on "blue"/,
    ],
    ["a reading below 0", { resistances: [{ a: "blue", b: "cream", ohms: -1 }] }, /^resistances\[0\]\.ohms: must be/],
    ["an unknown row", { kicks: [{ red: "blue", black: "cream", row: "left", kick: "+" }] }, /^kicks\[0\]\.row: /],
    ["a compass at no row", { compass: [{ row: "left", drawn: "north" }] }, /^compass\[0\]\.row: there is no "left"/],
  ])("refuses %s", (_what, change, message) => {
    expect(() => findCoils({ ...start, ...change })).toThrow(message);
  });
});
