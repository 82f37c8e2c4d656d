import { describe, expect, it } from "vitest";
import { wallDiameter } from "../../../src/core/job/acts-wood.ts";
import { foldInstrument, voidOf } from "../../../src/core/job/fold.ts";
import type { Instrument } from "../../../src/core/job/instrument.ts";
import type { LogEntry, Operation } from "../../../src/core/job/operation.ts";
import type { Work } from "../../../src/core/verdict/index.ts";
import { holeOf, makeInstrument, mmOf } from "./fixture.ts";

const OLD_Y = [-20, -10, 0, 10, 20];
const NEW_Y = [-21, -10.5, 0, 10.5, 21];

function op(id: string, work: Work, doneAt?: string): Operation {
  return doneAt === undefined ? { id, work } : { id, work, doneAt };
}

function plug(...ids: string[]): Work {
  return {
    act: "plug",
    holes: ids.map((id) => ({ id, u: 0, y: 0, diameter: 3.2, depth: 22 })),
    diameter: 6,
    cause: "bridge.holes",
  };
}

function drillRow(u: number, off: Readonly<Record<number, number>> = {}, depth = 24): Work {
  return {
    act: "drill",
    group: "bridge-screws",
    intoPlugs: true,
    holes: NEW_Y.map((y, index) => ({
      id: `bridge-screws#${index + 1}`,
      u: u + (off[index + 1] ?? 0),
      y,
      diameter: 2.5,
      thread: 3,
      depth,
    })),
  };
}

function redrill(number: number, u: number): Work {
  return {
    act: "drill",
    group: "bridge-screws",
    intoPlugs: true,
    holes: [{ id: `bridge-screws#${number}`, u, y: NEW_Y[number - 1] ?? 0, diameter: 2.5, thread: 3, depth: 24 }],
  };
}

const SHIM: Work = { act: "shim", thickness: 0.9, length: 76, angleDegrees: 0.54 };
const PLUG_ALL = op("plug-old", plug("old-screws#1", "old-screws#2", "old-screws#3", "old-screws#4", "old-screws#5"));
const DRILL_OFF = op("drill", drillRow(204.9, { 3: 0.8 }));
const PLUG_WRONG = op("plug-wrong", { ...plug("bridge-screws#3"), diameter: 6 } as Work);
const REDRILL = op("redrill", redrill(3, 204.9));
const FIT_SHIM = op("shim", SHIM);

/** Wood between two round holes of an instrument: centre distance less both radii, as the walls are reckoned. */
function wall(instrument: Instrument, one: string, other: string): number {
  const [a, b] = [holeOf(instrument, one), holeOf(instrument, other)];
  const distance = Math.hypot(mmOf(a.at.u) - mmOf(b.at.u), mmOf(a.at.y) - mmOf(b.at.y));
  return distance - (mmOf(wallDiameter(a)) + mmOf(wallDiameter(b))) / 2;
}

describe("a refit walked through, state by state", () => {
  const found = makeInstrument();
  const at = (...log: LogEntry[]): Instrument => foldInstrument(found, log).instrument;

  it("[ST1] as found is the fold of an empty log", () => {
    expect(foldInstrument(found, [])).toEqual({ instrument: found, voided: [], applied: [] });
  });

  // Demo A, trap A-T3, plate at 170.9: walls 0.44, 0.34, 0.30, 0.34, 0.44 to the larger of pilot and thread.
  it.each([0.44, 0.34, 0.3, 0.34, 0.44])("[ST2] new screws beside open old holes: wall %s of the demo", (published) => {
    const without = at(op("drill", { ...drillRow(204.9), intoPlugs: false } as Work));
    const walls = NEW_Y.map((_, index) => wall(without, `bridge-screws#${index + 1}`, `old-screws#${index + 1}`));
    // The demo prints two digits.
    expect(walls.some((value) => Math.abs(value - published) < 0.005)).toBe(true);
    expect(walls.map((value) => Math.round(value * 100) / 100)).toEqual([0.44, 0.34, 0.3, 0.34, 0.44]);
  });

  it("[ST2] plugged: the wall is reckoned to the plug, and the demo's screws run 0.96 to 1.10 into it", () => {
    const plugged = at(PLUG_ALL);
    for (const [index, y] of OLD_Y.entries()) {
      const hole = holeOf(plugged, `old-screws#${index + 1}`);
      expect(hole.state).toBe("plugged");
      expect(hole.plug?.matched).toBe(true);
      expect(mmOf(hole.diameter)).toBe(3.2);
      expect(mmOf(wallDiameter(hole))).toBe(6);
      expect(mmOf(hole.at.y)).toBe(y);
    }
    // Demo A, A-T3: plugs 4.0 from one another (pitch 10 less 6) and "into the plugs by 0.96 … 1.10".
    expect(wall(plugged, "old-screws#1", "old-screws#2")).toBeCloseTo(4, 10);
    const drilled = at(PLUG_ALL, op("drill", drillRow(204.9)));
    expect(-wall(drilled, "bridge-screws#1", "old-screws#1")).toBeCloseTo(0.96, 2);
    expect(-wall(drilled, "bridge-screws#3", "old-screws#3")).toBeCloseTo(1.1, 2);
  });

  it("[ST3] drilled wrong, plugged, drilled again: the id means the hole now there, the plug keeps its place", () => {
    const wrong = at(PLUG_ALL, DRILL_OFF);
    expect(mmOf(holeOf(wrong, "bridge-screws#3").at.u)).toBeCloseTo(205.7, 10);
    expect(wrong.body.holes).toHaveLength(16);

    const plugged = at(PLUG_ALL, DRILL_OFF, PLUG_WRONG);
    expect(holeOf(plugged, "bridge-screws#3").state).toBe("plugged");

    const again = at(PLUG_ALL, DRILL_OFF, PLUG_WRONG, REDRILL);
    expect(again.body.holes).toHaveLength(17);
    expect(mmOf(holeOf(again, "bridge-screws#3").at.u)).toBeCloseTo(204.9, 10);
    expect(holeOf(again, "bridge-screws#3").state).toBe("new");
    expect(holeOf(again, "bridge-screws#3@try-1").state).toBe("plugged");
    expect(mmOf(holeOf(again, "bridge-screws#3@try-1").at.u)).toBeCloseTo(205.7, 10);
    expect(again.state).toBe("redrill");
  });

  it("[ST6] the shim is in and the heights read before are void; the holes' readings stand", () => {
    const folded = foldInstrument(found, [PLUG_ALL, DRILL_OFF, FIT_SHIM]);
    expect(mmOf(folded.instrument.shim)).toBe(0.9);
    for (const subject of ["neck.plane.fretHeight", "neck.straightedge[0].z", "scaleLine.u", "strings.3.action"]) {
      expect(voidOf({ subject }, folded)?.by, subject).toBe("shim");
    }
    for (const subject of ["body.holes.old-screws.u", "body.thickness", "neck.nutToFret12", "scaleLine.old"]) {
      expect(voidOf({ subject }, folded), subject).toBeUndefined();
    }
    expect(voidOf({ subject: "scaleLine.u", after: "shim" }, folded)).toBeUndefined();
  });

  it("[ST5] undoing gives back the state before, and the redrilled hole is gone", () => {
    const log = [PLUG_ALL, DRILL_OFF, PLUG_WRONG, REDRILL];
    const undone = foldInstrument(found, [...log, { id: "oops", undoes: "redrill" }]);
    expect(undone).toEqual(foldInstrument(found, log.slice(0, 3)));
    expect(undone.instrument.body.holes.map((hole) => hole.id)).not.toContain("bridge-screws#3@try-1");
  });
});

describe("undo", () => {
  const found = makeInstrument();
  const fold = (...log: LogEntry[]) => foldInstrument(found, log);

  it("[ST5] refuses to take out a plug that was drilled into, and names both", () => {
    expect(() => fold(PLUG_ALL, DRILL_OFF, { id: "oops", undoes: "plug-old" })).toThrow(
      /^operations\[2\]\.undoes: "drill" stands on what "plug-old" made \(plug old-screws#\d\)\. Undo "drill" first\.$/,
    );
  });

  it("[ST5] also where the hole only touches the plug and nobody said intoPlugs", () => {
    const beside = op("beside", { ...drillRow(204.9), intoPlugs: false } as Work);
    expect(() => fold(PLUG_ALL, beside, { id: "oops", undoes: "plug-old" })).toThrow(
      /"beside" stands on what "plug-old" made/,
    );
  });

  it("[ST5] refuses to take out a hole that was plugged since", () => {
    expect(() => fold(PLUG_ALL, DRILL_OFF, PLUG_WRONG, { id: "oops", undoes: "drill" })).toThrow(
      /"plug-wrong" stands on what "drill" made \(hole bridge-screws#3\)/,
    );
    expect(() => fold(PLUG_ALL, DRILL_OFF, PLUG_WRONG, REDRILL, { id: "oops", undoes: "plug-wrong" })).toThrow(
      /"redrill" stands on what "plug-wrong" made/,
    );
  });

  it("[ST5] lets go once the later one is undone, and brings back by undoing the undo", () => {
    const log: LogEntry[] = [PLUG_ALL, DRILL_OFF, { id: "u1", undoes: "drill" }, { id: "u2", undoes: "plug-old" }];
    expect(fold(...log).applied).toEqual([]);
    expect(fold(...log).instrument).toEqual(found);
    expect(fold(...log, { id: "u3", undoes: "u2" }).applied).toEqual(["plug-old"]);
  });

  it.each([
    ["an unknown operation", [{ id: "u", undoes: "nothing" }], /there is no earlier operation "nothing"/],
    [
      "an operation twice",
      [FIT_SHIM, { id: "u1", undoes: "shim" }, { id: "u2", undoes: "shim" }],
      /"shim" is undone already/,
    ],
    ["an id used twice", [FIT_SHIM, FIT_SHIM], /"shim" is the id of operations\[0\] too/],
  ])("[ST5] refuses %s", (_, log, message) => {
    expect(() => fold(...(log as LogEntry[]))).toThrow(message);
  });
});

describe("acts", () => {
  const found = makeInstrument();
  const afterWorks = (...works: Work[]) =>
    foldInstrument(
      found,
      works.map((work, index) => op(`op-${index + 1}`, work)),
    ).instrument;
  const controlOf = (instrument: Instrument, id: string) => instrument.controls.find((control) => control.id === id);

  it("[ST4] spot-facing thins the wood and deepens the free depth as the bass demo says: 29.5 to 32.5, 6 to 3", () => {
    const [first, ...rest] = found.controls;
    if (!first) throw new Error("fixture");
    const bass = makeInstrument({
      controls: [
        {
          ...first,
          wood: { ...first.wood, value: 6 } as never,
          freeDepth: { ...first.freeDepth, value: 29.5 } as never,
        },
        ...rest,
      ],
    });
    const faced = foldInstrument(bass, [
      op("face", { act: "spot-face", where: "control.volume", depth: 3, leaves: 3 }),
    ]).instrument;
    expect(mmOf(controlOf(faced, "volume")?.freeDepth)).toBeCloseTo(32.5, 10);
    expect(mmOf(controlOf(faced, "volume")?.wood)).toBeCloseTo(3, 10);
    expect(mmOf(controlOf(faced, "bass-cut")?.wood)).toBe(6.5);
  });

  it("[ST4] ears of a cavity grow, the cavity itself does not (demo A, A-T5: 88 x 12 to 90 x 14.5)", () => {
    const cavity = afterWorks({
      act: "rout",
      cavity: "bridge",
      what: "ears",
      lengthBy: 2,
      widthBy: 2.5,
      depthBy: 0,
    }).body.cavities.find((one) => one.id === "bridge");
    expect([mmOf(cavity?.ears?.length), mmOf(cavity?.ears?.width), mmOf(cavity?.ears?.depth)]).toEqual([90, 14.5, 21]);
    expect([mmOf(cavity?.length), mmOf(cavity?.width)]).toEqual([72, 41]);
  });

  it("[ST4] reaming, slot, nut slots, spare string, parts", () => {
    const done = afterWorks(
      { act: "ream", where: "controls", count: 3, from: 8, to: 9.6 },
      { act: "ream", where: "tuners", count: 6, from: 8.8, to: 10 },
      { act: "slot", where: "lever", from: 26, to: 30.5, screwOffset: 23, cover: "escutcheon" },
      { act: "nut slots", widths: [{ string: 6, from: 1.2, to: 1.63 }] },
      { act: "restring", set: "3 wound" },
      { act: "take off", part: "neck" },
      { act: "insulate", where: "lever wall" },
    );
    expect(done.controls.map((control) => mmOf(control.hole))).toEqual([9.6, 9.6, 9.6]);
    expect(mmOf(done.tuners?.oldHole)).toBe(10);
    expect([mmOf(done.lever?.oldSlot), mmOf(done.lever?.oldScrews), done.lever?.cover]).toEqual([
      30.5,
      23,
      "escutcheon",
    ]);
    expect(done.neck.nutSlots.map(mmOf)).toEqual([0.28, 0.36, 0.46, 0.7, 0.95, 1.63]);
    expect(done.strings[2]?.wound).toBe(true);
    expect(done.spareStrings[0]?.wound).toBe(false);
    expect(done.fitted).toEqual({ neck: false });
    expect(done.treated).toEqual([{ where: "lever wall", how: "insulated" }]);
  });

  it("[ST4] a bit through the back is told as it is, and a wider bit opens the hole that is there", () => {
    const through = afterWorks({
      ...drillRow(225),
      intoPlugs: false,
      holes: [{ id: "deep", u: 225, y: 0, diameter: 3, thread: 3, depth: 44.5 }],
    } as Work);
    expect(holeOf(through, "deep").depth).toBe("through");
    const byWord = afterWorks({ ...drillRow(225, {}, 0), intoPlugs: false } as Work);
    expect(holeOf(byWord, "bridge-screws#1").depth).toBe("through");
    const wider = afterWorks(
      {
        act: "drill",
        group: "posts",
        intoPlugs: false,
        holes: [{ id: "post", u: 225, y: 0, diameter: 6, thread: 0, depth: 20 }],
      },
      {
        act: "drill",
        group: "posts",
        intoPlugs: false,
        holes: [{ id: "post", u: 225, y: 0.5, diameter: 8, thread: 0, depth: 18 }],
      },
    );
    expect([mmOf(holeOf(wider, "post").diameter), mmOf(holeOf(wider, "post").depth)]).toEqual([8, 20]);
  });

  it("[ST7] holes still planned carry the doubt of the drilling, holes drilled do not", () => {
    const doubt = (doneAt?: string) => {
      const at = holeOf(
        foldInstrument(found, [op("d", { ...drillRow(215), intoPlugs: false } as Work, doneAt)]).instrument,
        "bridge-screws#1",
      ).at.u;
      return at.known ? at.doubt.map((term) => [term.id, term.u]) : undefined;
    };
    expect(doubt()).toEqual([["operations.d.drilling.along", 0.45]]);
    expect(doubt("2026-03-01T10:00Z")).toEqual([]);
  });

  it("[ST8] glue needs its day: cured by the clock of the log, or by the time asked about", () => {
    const plugged = op("plug-old", plug("old-screws#1"), "2026-03-01T10:00Z");
    const cured = (log: LogEntry[], at?: string) =>
      holeOf(foldInstrument(found, log, at === undefined ? {} : { at }).instrument, "old-screws#1").plug?.cured;
    expect(cured([op("p", plug("old-screws#1"))])).toBe(true);
    expect(cured([plugged])).toBe(false);
    expect(cured([plugged], "2026-03-02T09:59Z")).toBe(false);
    expect(cured([plugged], "2026-03-02T11:00+01:00")).toBe(true);
    expect(cured([plugged], "2026-03-02T10:59+01:00")).toBe(false);
    expect(cured([plugged, op("shim", SHIM, "2026-03-02T12:00Z")])).toBe(true);
    expect(() => cured([op("p", plug("old-screws#1"), "tomorrow")])).toThrow(
      /operations\.p\.doneAt: cannot read the time "tomorrow"/,
    );
  });

  it.each<[string, Work[], RegExp]>([
    [
      "plugging twice",
      [plug("old-screws#1"), plug("old-screws#1")],
      /operations\.op-2\.work\.holes\[0\]: "old-screws#1" is plugged already/,
    ],
    ["plugging nothing", [plug("no-such")], /there is no hole "no-such" to plug/],
    [
      "a plug too thin for the hole",
      [{ ...plug("old-screws#1"), diameter: 3 } as Work],
      /a plug of 3 mm does not fill/,
    ],
    ["drilling into plugs where none stands", [drillRow(250)], /no plug stands where these holes are drilled/],
    ["drilling behind the tail edge", [drillRow(340)], /lies behind the body's tail edge/],
    [
      "drilling over a cavity",
      [{ ...drillRow(146), intoPlugs: false } as Work],
      /lies over the cavity "bridge": there is no wood/,
    ],
    ["drilling without a depth", [drillRow(204.9, {}, Number.NaN)], /holes\[0\]\.depth: must be a number of mm/],
    [
      "drilling beside a hole of the same id",
      [plug("old-screws#3"), redrill(3, 204.9), { ...redrill(3, 207), intoPlugs: false } as Work],
      /"bridge-screws#3" is drilled already and open, 2\.1 mm away/,
    ],
    [
      "a cavity that is not there",
      [{ act: "rout", cavity: "x", what: "", lengthBy: 1, widthBy: 0, depthBy: 0 }],
      /there is no cavity "x"/,
    ],
    [
      "a rout through the body",
      [{ act: "rout", cavity: "neck", what: "", lengthBy: 0, widthBy: 0, depthBy: 26 }],
      /leaves nothing of a body/,
    ],
    [
      "a spot-face through the top",
      [{ act: "spot-face", where: "volume", depth: 7, leaves: 0 }],
      /goes through the 7 mm of wood/,
    ],
    [
      "a control that is not there",
      [{ act: "ream", where: "mid", count: 1, from: 8, to: 9 }],
      /there is no control "mid"/,
    ],
    ["reaming to less", [{ act: "ream", where: "volume", count: 1, from: 8, to: 7.5 }], /the hole is 8 mm already/],
    [
      "reaming from another size",
      [{ act: "ream", where: "volume", count: 1, from: 7, to: 9.6 }],
      /the hole is 8 mm now, not 7 mm/,
    ],
    [
      "a narrower nut slot",
      [{ act: "nut slots", widths: [{ string: 6, from: 1.2, to: 1.1 }] }],
      /cannot be filed to 1\.1 mm/,
    ],
    [
      "a string that is not there",
      [{ act: "nut slots", widths: [{ string: 7, from: 1.2, to: 1.3 }] }],
      /there is no string 7/,
    ],
    [
      "taking off twice",
      [
        { act: "take off", part: "neck" },
        { act: "take off", part: "neck" },
      ],
      /the neck is off already/,
    ],
  ])("[ST4] refuses %s", (_, works, message) => {
    expect(() => afterWorks(...works)).toThrow(message);
  });
});
