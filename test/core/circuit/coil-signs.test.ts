import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Kick, Sign } from "../../../src/core/circuit/coil-signs.ts";
import { type CoilSearch, type CoilsFound, findCoils } from "../../../src/core/circuit/find-coils.ts";
import { ohmsBetween, type TrueCoil, type TruePickup, workThrough } from "./pickup-on-the-bench.ts";
import { caseNamed } from "./reference-cases.ts";

const ROWS = ["north side", "south side"];
const WIRES = ["amber", "teal", "plum", "ivory"];

/** Strings and hum of a coil whose one end stands at the hot side, by winding and magnet alone. */
function emf(coil: TrueCoil, hotSide: string): { readonly strings: number; readonly hum: number } {
  const { w = 1, m = 1 } = coil;
  const way = coil.finish === hotSide ? 1 : -1;
  return { strings: way * w * m, hum: way * w };
}

function coilWith(pickup: TruePickup, wire: string): TrueCoil {
  const found = pickup.coils.find(({ start, finish }) => start === wire || finish === wire);
  if (!found) throw new Error(`no coil has ${wire}`);
  return found;
}

/** Whether the advice does what it says, worked out from the windings and magnets themselves. */
function expectRight(pickup: TruePickup, { pairings }: CoilsFound): void {
  const [pairing] = pairings;
  if (!pairing?.series || !pairing.parallel) throw new Error("a pairing was expected");
  const { series, parallel, hum } = pairing;
  const upper = coilWith(pickup, series.hot);
  const lower = coilWith(pickup, series.ground);
  expect(upper).not.toBe(lower);
  expect([upper.start, upper.finish]).toContain(series.joint[0]);
  expect([lower.start, lower.finish]).toContain(series.joint[1]);
  for (const [one, other] of [
    [emf(upper, series.hot), emf(lower, series.joint[1])],
    [emf(coilWith(pickup, parallel.hot[0]), parallel.hot[0]), emf(coilWith(pickup, parallel.hot[1]), parallel.hot[1])],
  ] as const) {
    expect(one.strings).toBe(other.strings);
    expect(hum).toBe(one.hum === other.hum ? "adds" : "cancels");
  }
}

const sign = fc.constantFrom<Sign>(1, -1);

describe("the table of winding and magnet", () => {
  interface Row {
    readonly winding2_vs_1: "same" | "opposite";
    readonly magnet2_vs_1: "same" | "opposite";
    readonly inPhase: boolean;
    readonly humCancels: boolean;
  }
  const rows = caseNamed("phase-hum-truth").expected.rows as Row[];

  // Columns of a guitar magazine on polarity and phase; both coils with start at ground.
  it.each(rows)(
    "winding $winding2_vs_1, magnet $magnet2_vs_1",
    ({ winding2_vs_1, magnet2_vs_1, inPhase, humCancels }) => {
      const pickup: TruePickup = {
        coils: [
          { start: "amber", finish: "teal", ohms: 4000, row: ROWS[0]!, w: 1, m: 1 },
          {
            start: "plum",
            finish: "ivory",
            ohms: 4100,
            row: ROWS[1]!,
            w: winding2_vs_1 === "same" ? 1 : -1,
            m: magnet2_vs_1 === "same" ? 1 : -1,
          },
        ],
      };
      const { found } = workThrough(pickup, { conductors: WIRES, rows: ROWS });
      expectRight(pickup, found);
      const hot: readonly string[] = found.pairings[0]?.parallel?.hot ?? [];
      // Start to ground is in phase where the advice puts both finishes or both starts to one side.
      const asWired = hot.includes("teal") === hot.includes("ivory");
      expect(asWired).toBe(inPhase);
      // In phase, hum cancels as the table says; the out-of-phase rows cancel as wired, so they add when put in phase.
      expect(found.pairings[0]?.hum === "cancels").toBe(inPhase ? humCancels : !humCancels);
    },
  );
});

describe("any pickup of two coils", () => {
  it("gets advice that is in phase, and hum as it is", () => {
    fc.assert(
      fc.property(
        fc.shuffledSubarray(WIRES, { minLength: 4 }),
        sign,
        sign,
        sign,
        sign,
        fc.boolean(),
        (wires, ...rest) => {
          const [w1, m1, w2, m2, swapped] = rest;
          const [a = "", b = "", c = "", d = ""] = wires;
          const [row1 = "", row2 = ""] = swapped ? [...ROWS].reverse() : ROWS;
          const pickup: TruePickup = {
            coils: [
              { start: a, finish: b, ohms: 3900, row: row1, w: w1, m: m1 },
              { start: c, finish: d, ohms: 4000, row: row2, w: w2, m: m2 },
            ],
          };
          const { found, kicks } = workThrough(pickup, { conductors: WIRES, rows: ROWS });
          expect(found.contradictions).toEqual([]);
          expectRight(pickup, found);
          // Two rows and two coils: three tries at most.
          expect(kicks.length).toBeLessThanOrEqual(3);
        },
      ),
      { seed: 141, numRuns: 300 },
    );
  });

  it("does not depend on which way round the probes are", () => {
    const resistances = [
      { a: "amber", b: "teal", ohms: 3900 },
      { a: "plum", b: "ivory", ohms: 4000 },
      { a: "amber", b: "plum", ohms: "open" as const },
    ];
    const search: CoilSearch = { conductors: WIRES, rows: ROWS, resistances };
    const forth = findCoils({ ...search, kicks: [{ red: "amber", black: "teal", row: "north side", kick: "-" }] });
    const back = findCoils({ ...search, kicks: [{ red: "teal", black: "amber", row: "north side", kick: "+" }] });
    expect(forth.coils).toEqual(back.coils);
    expect(forth.coils[0]).toMatchObject({ signWithRedOnA: -1, finish: "teal", start: "amber" });
  });
});

describe("kicks of one coil", () => {
  const search: CoilSearch = {
    conductors: ["amber", "teal"],
    rows: ROWS,
    resistances: [{ a: "amber", b: "teal", ohms: 8200 }],
  };
  const kick = (row: number, seen: Kick, red = "amber", black = "teal") => ({
    red,
    black,
    row: ROWS[row]!,
    kick: seen,
  });
  const withKicks = (...kicks: ReturnType<typeof kick>[]) => findCoils({ ...search, kicks });

  it("belong to both rows where two windings read as one, and agree or not", () => {
    expect(withKicks(kick(0, "+"), kick(1, "+")).coils[0]).toMatchObject({ rows: ROWS, signWithRedOnA: 1 });
    const odd = withKicks(kick(0, "+"), kick(1, "-"));
    expect(odd.coils[0]?.signWithRedOnA).toBeUndefined();
    expect(odd.words[0]).toMatch(/at rows north side and south side, which work against each other inside\.$/);
  });

  it("ask for every row while there are fewer coils than rows", () => {
    const [need] = withKicks(kick(0, "+")).needs;
    expect(need).toMatchObject({ kind: "kick", row: ROWS[1] });
  });

  it("leave a weak kick out of account where a strong one was seen", () => {
    expect(withKicks(kick(0, "weak -"), kick(1, "+")).coils[0]).toMatchObject({ rows: [ROWS[1]], signWithRedOnA: 1 });
    expect(withKicks(kick(0, "weak -")).coils[0]).toMatchObject({ rows: [ROWS[0]], signWithRedOnA: -1 });
  });

  it("do not tell a row that does not kick", () => {
    const { coils, words } = withKicks(kick(0, "none"), kick(1, "none"));
    expect(coils[0]).toMatchObject({ rows: [] });
    expect(words).toEqual(["amber and teal are the ends of a coil of 8.20 kohm; no kick tells its sense yet."]);
  });

  it("are named when they disagree with the probes turned, and asked again both ways", () => {
    const { coils, contradictions, needs } = withKicks(kick(1, "+"), kick(1, "+", "teal", "amber"));
    expect(coils[0]?.signWithRedOnA).toBeUndefined();
    expect(contradictions).toEqual([expect.objectContaining({ kind: "kicks disagree", row: ROWS[1] })]);
    expect(contradictions[0]?.words).toMatch(/^Row south side: red on amber .* kicked \+, the other way round \+/);
    expect(needs.slice(0, 2)).toEqual([
      expect.objectContaining({ kind: "kick", red: "amber", black: "teal", row: ROWS[1] }),
      expect.objectContaining({ kind: "kick", red: "teal", black: "amber", row: ROWS[1] }),
    ]);
  });

  it("replace an earlier kick of the same probes", () => {
    const { coils, contradictions } = withKicks(kick(0, "+"), kick(0, "-"));
    expect(contradictions).toEqual([]);
    expect(coils[0]?.signWithRedOnA).toBe(-1);
  });

  it("are not used where no single coil lies between the probes", () => {
    const { words } = findCoils({
      conductors: ["amber", "teal", "plum"],
      rows: ROWS,
      resistances: [
        { a: "amber", b: "teal", ohms: 4000 },
        { a: "teal", b: "plum", ohms: 4100 },
        { a: "amber", b: "plum", ohms: 8100 },
      ],
      kicks: [kick(0, "+", "amber", "plum")],
    });
    expect(words).toContain("The kick between amber and plum is not used: no single coil lies between them.");
  });
});

/** A random pickup: points of one to two names, coils along a tree within each cluster of points. */
const anyPickup = fc
  .record({
    names: fc.integer({ min: 2, max: 6 }),
    parents: fc.array(fc.option(fc.nat(9)), { minLength: 6, maxLength: 6 }),
    ohms: fc.array(fc.integer({ min: 1000, max: 9000 }), { minLength: 6, maxLength: 6 }),
    joined: fc.array(fc.nat(3), { minLength: 6, maxLength: 6 }),
  })
  .map(({ names, parents, ohms, joined }) => {
    const wires = Array.from({ length: names }, (_, index) => `wire ${index + 1}`);
    const coils: TrueCoil[] = [];
    const joints: [string, string][] = [];
    wires.forEach((wire, index) => {
      const parent = parents[index];
      const to = parent === null || index === 0 ? undefined : wires[(parent ?? 0) % index];
      if (to === undefined) return;
      if (joined[index] === 0) joints.push([to, wire]);
      else coils.push({ start: to, finish: wire, ohms: ohms[index] ?? 1000 });
    });
    return { wires, pickup: { coils, joints } satisfies TruePickup };
  });

describe("any network of coils", () => {
  it("is found as it is, with no idle reading, in at most all pairs", () => {
    fc.assert(
      fc.property(anyPickup, fc.boolean(), ({ wires, pickup }, lastIsMetal) => {
        const conductors = lastIsMetal && wires.length > 2 ? wires.slice(0, -1) : wires;
        const metals = wires.slice(conductors.length);
        // Without rows that kick, only readings of resistance are of use here.
        const { found, first, resistances } = workThrough(pickup, { conductors, metals, rows: ["row"] });
        expect(first).toBe((wires.length * (wires.length - 1)) / 2);
        expect(resistances.length).toBeLessThanOrEqual(first);
        expect(found.contradictions).toEqual([]);
        expect(found.coils).toHaveLength(pickup.coils.length);
        for (const coil of pickup.coils) {
          const match = found.coils.find(
            ({ joined: [a, b] }) =>
              (a.includes(coil.start) && b.includes(coil.finish)) ||
              (b.includes(coil.start) && a.includes(coil.finish)),
          );
          expect(Math.abs((match?.ohms ?? 0) - coil.ohms)).toBeLessThan(1);
        }
        for (const joint of found.joints) {
          for (const name of joint) expect(ohmsBetween(pickup, joint[0]!, name)).toBeLessThan(1);
        }
      }),
      { seed: 175, numRuns: 400 },
    );
  });
});
