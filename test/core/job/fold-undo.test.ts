import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Folded, foldInstrument } from "../../../src/core/job/fold.ts";
import type { LogEntry } from "../../../src/core/job/operation.ts";
import type { Work } from "../../../src/core/verdict/index.ts";
import { makeInstrument } from "./fixture.ts";

const found = makeInstrument();
const PLUG_1: Work = {
  act: "plug",
  holes: [{ id: "old-screws#1", u: 0, y: 0, diameter: 3, depth: 20 }],
  diameter: 6,
  cause: "",
};
const drilled = (id: string, u: number, y: number, intoPlugs = false): Work => ({
  act: "drill",
  group: "bridge-screws",
  holes: [{ id, u, y, diameter: 2.5, thread: 3, depth: 20 }],
  intoPlugs,
});
const HOLE_1 = found.body.holes.find(({ id }) => id === "old-screws#1");

function mm(quantity: { known: boolean; value?: number } | undefined): number {
  if (quantity?.value === undefined) throw new Error("not known");
  return quantity.value;
}

const [U1, Y1] = [mm(HOLE_1?.at.u), mm(HOLE_1?.at.y)];

/** Works that stand on one another: plug, drill into the plug under the same id or another, plug that again. */
const WORKS: readonly Work[] = [
  PLUG_1,
  drilled("old-screws#1", U1, Y1 + 0.4),
  drilled("beside", U1 + 1, Y1 - 1),
  drilled("far", 230, 5),
  { act: "plug", holes: [{ id: "beside", u: 0, y: 0, diameter: 3, depth: 20 }], diameter: 6, cause: "" },
  { act: "plug", holes: [{ id: "far", u: 0, y: 0, diameter: 3, depth: 20 }], diameter: 6, cause: "" },
  { act: "spot-face", where: "volume", depth: 0.5, leaves: Number.NaN },
  { act: "take off", part: "neck" },
  { act: "fit", part: "neck" },
];

function tryFold(log: readonly LogEntry[]): Folded | undefined {
  try {
    return foldInstrument(found, log);
  } catch {
    return undefined;
  }
}

/** An entry of the log that is to come: a work, or which of the earlier entries is undone. */
const wish = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom(...WORKS).map((work) => ({ work })) },
  { weight: 2, arbitrary: fc.nat(40).map((back) => ({ back })) },
);

describe("undo", () => {
  it("[ST5] whatever is done and undone, it is as if only what holds had ever been done", () => {
    let undos = 0;
    let refused = 0;
    fc.assert(
      fc.property(fc.array(wish, { minLength: 4, maxLength: 24 }), (wishes) => {
        const log: LogEntry[] = [];
        let live: LogEntry[] = [];
        for (const [index, one] of wishes.entries()) {
          const id = `e${index}`;
          if ("work" in one) {
            const next = { id, work: one.work };
            if (!tryFold([...live, next])) continue;
            live = [...live, next];
            log.push(next);
          } else {
            const target = live[live.length - 1 - (one.back % Math.max(live.length, 1))];
            if (!target) continue;
            const undo = { id, undoes: target.id };
            // One undo alone is looked up in a fold of what holds; many in one log must come to the same.
            const rest = live.filter((entry) => entry !== target);
            const alone = tryFold([...live, undo]);
            const whole = tryFold([...log, undo]);
            expect(whole === undefined).toBe(alone === undefined);
            if (!alone) refused += 1;
            else {
              undos += 1;
              live = rest;
              log.push(undo);
            }
          }
        }
        expect(foldInstrument(found, log)).toEqual(foldInstrument(found, live));
      }),
      { seed: 3, numRuns: 300 },
    );
    expect(undos).toBeGreaterThan(300);
    expect(refused).toBeGreaterThan(50);
  });

  it("[ST5] undoing what undid the undo takes the work away again", () => {
    const log: LogEntry[] = [
      { id: "t", work: drilled("far", 230, 5) },
      { id: "u1", undoes: "t" },
      { id: "u2", undoes: "u1" },
    ];
    expect(foldInstrument(found, log).applied).toEqual(["t"]);
    const again: LogEntry[] = [...log, { id: "u3", undoes: "u2" }];
    expect(foldInstrument(found, again)).toEqual(foldInstrument(found, []));
    expect(foldInstrument(found, [...again, { id: "u4", undoes: "u3" }]).applied).toEqual(["t"]);
    expect(() =>
      foldInstrument(found, [
        ...log,
        {
          id: "plug",
          work: { act: "plug", holes: [{ id: "far", u: 0, y: 0, diameter: 3, depth: 20 }], diameter: 6, cause: "" },
        },
        { id: "u3", undoes: "u2" },
      ]),
    ).toThrow(/"plug" stands on what "t" made \(hole far\)/);
  });

  it.each(["oldest first", "newest first", "each at once"])(
    "600 works undone %s take a few looks at each work, not hundreds",
    (order) => {
      let looks = 0;
      const works = Array.from({ length: 600 }, (_, index) => ({
        id: `w${index}`,
        get work(): Work {
          looks += 1;
          return { act: "insulate", where: `wall ${index}` };
        },
      }));
      const undos = works.map(({ id }) => ({ id: `u-${id}`, undoes: id }));
      const log: LogEntry[] =
        order === "each at once"
          ? works.flatMap((work, index) => [work, undos[index] as LogEntry])
          : [...works, ...(order === "oldest first" ? undos : undos.toReversed())];
      expect(foldInstrument(found, log).applied).toEqual([]);
      // A fold looks at a work twice; an undo adds at most one fold for all that were done since the last.
      expect(looks).toBeLessThanOrEqual(4 * works.length);
    },
  );
});
