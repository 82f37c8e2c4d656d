import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type Circuit,
  type Coil,
  factsOf,
  findingsOf,
  inState,
  type Netlist,
  netlistOf,
  OPEN_JACK,
  ohmsBetween,
  outputSolver,
  resistorsOf,
  toggle,
} from "../../../src/core/circuit/index.ts";

// Laws of linear passive circuits (any textbook on network analysis, from memory), on circuits drawn by chance with a
// starting value that fast-check prints.

fc.configureGlobal({ seed: 1975 });

type Element = Netlist["elements"][number];
const NODES = ["0", "a", "b", "c", "d", "e"];

const node = fc.constantFrom(...NODES);
const element = (index: number): fc.Arbitrary<Element> =>
  fc
    .record({
      kind: fc.constantFrom("resistor", "capacitor", "inductor"),
      a: node,
      b: node,
      size: fc.double({ min: 0, max: 1, noNaN: true }),
    })
    .map(({ kind, a, b, size }): Element => {
      const name = `${kind}${index}`;
      if (kind === "resistor") return { kind, name, a, b, ohms: 10 ** (2 + 4 * size) };
      if (kind === "capacitor") return { kind, name, a, b, farads: 10 ** (-11 + 4 * size) };
      return { kind: "inductor", name, a, b, henries: 10 ** (-1 + 2 * size) };
    });
const passive = fc
  .integer({ min: 3, max: 14 })
  .chain((count) => fc.tuple(...Array.from({ length: count }, (_, index) => element(index))))
  // Every coil has resistance: without any, a ring of coils has no one solution at all.
  .map((elements) =>
    elements.flatMap((one): Element[] =>
      one.kind === "inductor"
        ? [
            { ...one, b: `${one.name}-inner` },
            { kind: "resistor", name: `${one.name}-ohms`, a: `${one.name}-inner`, b: one.b, ohms: 4000 },
          ]
        : [one],
    ),
  );
const frequency = fc.double({ min: 20, max: 20e3, noNaN: true });

/** Voltage at a node for 1 V behind 1 kΩ between another node and ground. */
function transfer(elements: readonly Element[], from: string, to: string, hz: number): readonly [number, number] {
  const driven: Netlist = {
    ground: "0",
    elements: [
      ...elements,
      { kind: "source", name: "drive", a: "behind", b: "0", volts: 1 },
      { kind: "resistor", name: "inner", a: "behind", b: from, ohms: 1000 },
      // The meter at the other end is the same 1 kΩ, so that the two ends may change places.
      { kind: "resistor", name: "meter", a: to, b: "0", ohms: 1000 },
    ],
  };
  const [re, im] = [new Float64Array(1), new Float64Array(1)];
  outputSolver(driven, to).at(hz, re, im);
  return [re[0] ?? 0, im[0] ?? 0];
}

describe("a passive circuit", () => {
  it("is reciprocal: source and meter may change places", () => {
    fc.assert(
      fc.property(passive, frequency, (elements, hz) => {
        const there = transfer(elements, "a", "b", hz);
        const back = transfer(elements, "b", "a", hz);
        expect(Math.hypot(there[0] - back[0], there[1] - back[1])).toBeLessThan(1e-9 * (Math.hypot(...there) + 1e-9));
      }),
      { numRuns: 300 },
    );
  });

  it("gives out no more power than the source can spare: |V|²/R at the meter is at most 1 V²/4R", () => {
    fc.assert(
      fc.property(passive, frequency, (elements, hz) => {
        expect(Math.hypot(...transfer(elements, "a", "b", hz))).toBeLessThanOrEqual(0.5 * (1 + 1e-9));
      }),
      { numRuns: 300 },
    );
  });

  it("does not change by other names for its nodes, or another order of its elements", () => {
    fc.assert(
      fc.property(passive, frequency, (elements, hz) => {
        const other = (name: string) => (name === "0" ? "0" : `z-${name}`);
        const renamed = elements
          .map((one): Element => (one.kind === "coupling" ? one : { ...one, a: other(one.a), b: other(one.b) }))
          .reverse();
        const first = transfer(elements, "a", "b", hz);
        const second = transfer(renamed, "z-a", "z-b", hz);
        expect(Math.hypot(first[0] - second[0], first[1] - second[1])).toBeLessThan(
          1e-9 * (Math.hypot(...first) + 1e-9),
        );
      }),
      { numRuns: 300 },
    );
  });
});

describe("what a meter reads", () => {
  const ohms = fc.double({ min: 1, max: 1e6, noNaN: true });

  it("adds resistances in series and conductances in parallel", () => {
    fc.assert(
      fc.property(fc.array(ohms, { minLength: 1, maxLength: 8 }), (all) => {
        const series = all.map((one, index) => ({ name: `r${index}`, a: `n${index}`, b: `n${index + 1}`, ohms: one }));
        const sum = all.reduce((total, one) => total + one, 0);
        expect(ohmsBetween(series, "n0", `n${all.length}`).ohms / sum).toBeCloseTo(1, 8);
        const parallel = all.map((one, index) => ({ name: `r${index}`, a: "p", b: "q", ohms: one }));
        const siemens = all.reduce((total, one) => total + 1 / one, 0);
        expect(ohmsBetween(parallel, "p", "q").ohms * siemens).toBeCloseTo(1, 8);
      }),
    );
  });

  it("has weights that are its slopes, and that give back the reading: R = Σ weight × R_k", () => {
    fc.assert(
      fc.property(fc.array(fc.record({ a: node, b: node, ohms }), { minLength: 1, maxLength: 12 }), (all) => {
        const resistors = all.map((one, index) => ({ ...one, name: `r${index}` }));
        const reading = ohmsBetween(resistors, "a", "b");
        if (!Number.isFinite(reading.ohms) || reading.ohms === 0) return;
        const sum = resistors.reduce((total, one) => total + (reading.weights.get(one.name) ?? 0) * one.ohms, 0);
        expect(sum / reading.ohms).toBeCloseTo(1, 6);
      }),
      { numRuns: 300 },
    );
  });

  it("is open where nothing joins, and 0 at one node", () => {
    expect(ohmsBetween([], "a", "b").ohms).toBe(Number.POSITIVE_INFINITY);
    expect(ohmsBetween([], "a", "a").ohms).toBe(0);
  });
});

const coil = (id: string, more: Partial<Coil> = {}): Coil => ({
  id,
  pickup: id,
  name: id,
  strings: [1],
  start: `${id}.s`,
  finish: `${id}.f`,
  ohms: 6000,
  henries: 2.5,
  farads: 100e-12,
  turnArea: 1,
  loudness: 1,
  winding: 1,
  kick: 1,
  ...more,
});

const LUGS = [
  "x.s",
  "x.f",
  "y.s",
  "y.f",
  "s.p1-c",
  "s.p1-1",
  "s.p1-2",
  "v.1",
  "v.2",
  "v.3",
  "v.case",
  "jack.tip",
  "jack.sleeve",
];

function circuit(wires: readonly (readonly [string, string])[]): Circuit {
  return {
    lugs: LUGS,
    coils: [coil("x"), coil("y", { winding: -1, kick: -1 })],
    pairings: [{ coils: ["x", "y"], henries: 0.2, arrangement: "side by side" }],
    fixed: [],
    tracks: [
      {
        id: "v",
        control: "v",
        low: "v.1",
        wiper: "v.2",
        high: "v.3",
        ohms: 250e3,
        taper: { kind: "audio", atHalf: 0.1 },
        noLoad: false,
        rises: "clockwise",
      },
    ],
    switches: [{ id: "s", map: toggle({ kind: "on-off-on", poles: 1 }) }],
    wires: wires.map(([from, to], index) => ({ id: `w${index}`, from, to })),
    inside: [],
    metal: [{ lug: "v.case", what: "case", name: "case of v" }],
    jack: { tip: "jack.tip", sleeve: "jack.sleeve" },
    batteries: [],
  };
}

const STATES = ["1", "2", "3"].flatMap((position) =>
  [0, 0.5, 1].map((travel) => ({ id: `${position}-${travel}`, switches: { s: position }, travel: { v: travel } })),
);

describe("a wiring", () => {
  const lug = fc.constantFrom(...LUGS);
  const wires = fc.array(fc.tuple(lug, lug), { maxLength: 16 });

  it("drawn by chance never breaks the sums or the checks", () => {
    fc.assert(
      fc.property(wires, (all) => {
        const facts = factsOf(circuit(all), STATES);
        const findings = findingsOf({ facts, wanted: new Map(), titleOf: (id) => id });
        for (const { what, why, remedy } of findings) expect(`${what}${why}${remedy}`).not.toMatch(/NaN|undefined/);
        for (const { ohms, humDb } of facts.states) {
          expect(ohms).toBeGreaterThanOrEqual(0);
          for (const dB of humDb ?? []) expect(Number.isNaN(dB)).toBe(false);
        }
      }),
      { numRuns: 400 },
    );
  });

  it("keeps its ohms when both leads of a coil change places, and its signs turn", () => {
    fc.assert(
      fc.property(wires, fc.constantFrom(...STATES), (all, state) => {
        // Without coupling: what one coil hands over to the other would not turn with its leads alone.
        const before: Circuit = { ...circuit(all), pairings: [] };
        const after: Circuit = {
          ...before,
          coils: before.coils.map((one) => (one.id === "x" ? { ...one, start: one.finish, finish: one.start } : one)),
        };
        const [first] = factsOf(before, [state]).states;
        const [second] = factsOf(after, [state]).states;
        if (!first || !second) throw new Error("no state");
        if (Number.isFinite(first.ohms)) expect(second.ohms).toBeCloseTo(first.ohms, 6);
        else expect(second.ohms).toBe(first.ohms);
        const sign = (facts: typeof first) => facts.heard.find((one) => one.coil.id === "x");
        expect(sign(second) === undefined).toBe(sign(first) === undefined);
        if (!sign(first)) return;
        expect(sign(second)?.stringSign).toBe(-(sign(first)?.stringSign ?? 0));
        expect(sign(second)?.humSign).toBe(-(sign(first)?.humSign ?? 0));
      }),
      { numRuns: 300 },
    );
  });

  it("turns both signs of a coil with its leads", () => {
    const plain = (start: string, finish: string): Circuit => ({
      ...circuit([
        ["x.f", "jack.tip"],
        ["x.s", "jack.sleeve"],
      ]),
      coils: [coil("x", { start, finish })],
      pairings: [],
    });
    const state = { id: "1", switches: { s: "1" }, travel: {} };
    const signs = (one: Circuit) =>
      factsOf(one, [state]).states[0]?.heard.map(({ stringSign, humSign }) => [stringSign, humSign]);
    expect(signs(plain("x.s", "x.f"))).toEqual([[1, 1]]);
    expect(signs(plain("x.f", "x.s"))).toEqual([[-1, -1]]);
  });

  it("has a floating ring of coils solved without changing anything else", () => {
    const open = circuit([
      ["x.f", "jack.tip"],
      ["x.s", "jack.sleeve"],
    ]);
    const ring = circuit([
      ["x.f", "jack.tip"],
      ["x.s", "jack.sleeve"],
      ["y.s", "y.f"],
    ]);
    const state = { id: "1", switches: { s: "1" }, travel: {} };
    const at = (one: Circuit) => {
      const inside = inState(one, state);
      const solver = outputSolver(netlistOf(inside, OPEN_JACK), inside.output);
      const [re, im] = [new Float64Array(2), new Float64Array(2)];
      solver.at(5000, re, im);
      return Math.hypot(re[0] ?? 0, im[0] ?? 0);
    };
    // A shorted neighbour damps through its field; an open one does nothing but through its own capacitance.
    expect(at(ring)).not.toBeCloseTo(at(open), 3);
    expect(resistorsOf(inState(ring, state)).length).toBe(resistorsOf(inState(open, state)).length);
  });
});
