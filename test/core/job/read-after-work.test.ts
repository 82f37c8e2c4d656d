import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { ask, loadJob } from "../../../src/core/index.ts";
import type { Instrument } from "../../../src/core/job/index.ts";
import { type Quantity, standardUncertainty } from "../../../src/core/quantity/index.ts";

/** The Lowtide job with work done and with what was read after it. */
function lowtide(works: readonly object[], readings: readonly object[]) {
  const file = parse(readFileSync("examples/lowtide.yaml", "utf8")) as File;
  file.fettle = { ...file.fettle, operations: 1 };
  file.operations = works.map((work, index) => ({
    id: `r${index + 1}`,
    work,
    doneAt: `2026-05-0${index + 1}T10:00`,
  }));
  file.readings = [...file.readings, ...readings.map((reading, index) => ({ id: `after-${index}`, ...reading }))];
  return loadJob(file);
}

interface File {
  fettle: Record<string, number>;
  readings: object[];
  operations?: object[];
}

function v(quantity: Quantity | undefined): number {
  if (!quantity?.known) throw new Error(`not known: ${quantity?.path}`);
  return quantity.value;
}

function u(quantity: Quantity | undefined): number {
  if (!quantity?.known) throw new Error(`not known: ${quantity?.path}`);
  return standardUncertainty(quantity);
}

const control = (instrument: Instrument, id: string) => instrument.controls.find((one) => one.id === id);

describe("a reading taken after work goes before the figure that the work states", () => {
  const REAM = { act: "ream", where: "controls.volume", from: 8, to: 9.6 };

  it("[ST11] a reamed hole that the calliper finds at 9.2 is 9.2, not the 9.6 aimed at", () => {
    const job = lowtide([REAM], [{ of: "controls.volume.hole", value: "9.2 mm (calliper)", after: "r1" }]);
    const hole = control(job.instrument, "volume")?.hole;
    expect([v(hole), u(hole)]).toEqual([9.2, expect.closeTo(0.05, 12)]);
    // A thread of 9.5 does not pass a hole of 9.2: 9.2 - 9.5 = -0.3.
    expect(ask(job, "control.volume.hole").status).toBe("rework");
  });

  it("the second pass of the reamer starts from what was read after the first", () => {
    const read = { of: "controls.volume.hole", value: "9.2 mm (calliper)", after: "r1" };
    const job = lowtide([REAM, { ...REAM, from: 9.2, to: 9.6 }], [read]);
    expect(v(control(job.instrument, "volume")?.hole)).toBe(9.6);
    expect(job.resolved.voided).toMatchObject([{ by: "r1" }, { reading: "after-0", by: "r2" }]);
  });

  it("every control reamed at once is read by its own name", () => {
    const job = lowtide(
      [{ act: "ream", where: "controls", from: 8, to: 9.6 }],
      [{ of: "controls.bass-cut.hole", value: "9.3 mm (calliper)", after: "r1" }],
    );
    expect(job.instrument.controls.map(({ id, hole }) => [id, v(hole)])).toEqual([
      ["volume", 9.6],
      ["treble-cut", 9.6],
      ["bass-cut", 9.3],
    ]);
  });

  it("tuner holes reamed to 10 and read at 9.6 do not take the tuners of 10", () => {
    const job = lowtide(
      [{ act: "ream", where: "tuners", from: 8.8, to: 10 }],
      [{ of: "headstock.hole", value: "9.6 mm (calliper)", after: "r1" }],
    );
    expect(v(job.instrument.tuners?.oldHole)).toBe(9.6);
    expect(ask(job, "tuners.hole").status).toBe("rework");
  });

  it("the lever's slot, its screws and their hole are what was read after cutting", () => {
    const job = lowtide(
      [{ act: "slot", where: "lever", from: 26, to: 30.5, screwOffset: 23 }],
      [
        { of: "controls.lever.slot", value: "28 mm (calliper)", after: "r1" },
        { of: "controls.lever.screws", value: "22.6 mm (calliper)", after: "r1" },
        { of: "controls.lever.screwHole", value: "3.4 mm (calliper)", after: "r1" },
      ],
    );
    const { lever } = job.instrument;
    expect([v(lever?.oldSlot), v(lever?.oldScrews), v(lever?.oldScrewHole)]).toEqual([28, 22.6, 3.4]);
    // The lever wants 30.5: 28 is 2.5 short.
    expect(ask(job, "lever.slot").status).toBe("rework");
  });

  it("a lever entered under another id: what was read of its slot before the cut is void too", () => {
    const text = readFileSync("examples/lowtide.yaml", "utf8").replace(/^ {4}lever:/gm, "    blade:");
    const file = parse(text) as File;
    const { resolved } = loadJob({
      ...file,
      fettle: { ...file.fettle, operations: 1 },
      operations: [{ id: "r1", work: { act: "slot", where: "lever", to: 30.5 }, doneAt: "2026-05-01T10:00" }],
    });
    expect(resolved.voided.map(({ reading }) => reading)).toEqual([
      "controls.blade.slot, as written",
      "controls.blade.screws, as written",
    ]);
  });

  it("a nut slot filed to 0.38 and read at 0.30 is 0.30", () => {
    const job = lowtide(
      [{ act: "nut slots", widths: [{ string: 1, from: 0.28, to: 0.38 }] }],
      [{ of: "neck.nutSlots[0]", value: "0.30 mm (calliper)", after: "r1" }],
    );
    expect(v(job.instrument.neck.nutSlots[0])).toBe(0.3);
  });

  it("a shim that came out thicker is read as it is", () => {
    const job = lowtide([{ act: "shim", thickness: 0.8 }], [{ of: "shim", value: "0.9 mm (calliper)", after: "r1" }]);
    expect(v(job.instrument.shim)).toBe(0.9);
  });

  it("a second shim: the reading of the first one says nothing of it", () => {
    const job = lowtide(
      [
        { act: "shim", thickness: 0.8 },
        { act: "shim", thickness: 1.2 },
      ],
      [
        { of: "shim", value: "0.9 mm (calliper)", after: "r1" },
        { of: "shim", value: "1.25 mm (calliper)", after: "r2" },
      ],
    );
    // Two readings of one shim 0.35 apart would be a conflict, with a doubt of 0.18; the calliper's own is 0.05.
    expect([v(job.instrument.shim), u(job.instrument.shim)]).toEqual([1.25, expect.closeTo(0.05, 12)]);
  });
});

describe("a reading taken between two works on one place", () => {
  it("[ST12] wood spot-faced, read at 4.2 and spot-faced again is 3.7, not the plan's 4.5", () => {
    const job = lowtide(
      [
        { act: "spot-face", where: "volume", depth: 2 },
        { act: "spot-face", where: "volume", depth: 0.5 },
      ],
      [{ of: "controls.volume.wood", value: "4.2 mm (calliper)", after: "r1" }],
    );
    // As found 7.0; planned 7.0 - 2 - 0.5 = 4.5; as read 4.2 - 0.5 = 3.7, and the calliper's 0.05 counts double since.
    const wood = control(job.instrument, "volume")?.wood;
    expect([v(wood), u(wood)]).toEqual([expect.closeTo(3.7, 12), expect.closeTo(0.1, 12)]);
    expect(wood).toMatchObject({ origin: "assumed" });
  });

  it("[ST12] ears routed, read at 88.5 and routed again are 89.5: still short of the 90 needed", () => {
    const rout = (lengthBy: number) => ({ act: "rout", cavity: "bridge", what: "ears", lengthBy });
    const job = lowtide(
      [rout(2), rout(1)],
      [{ of: "body.cavities.bridge.ears.length", value: "88.5 mm (calliper)", after: "r1" }],
    );
    // As found 88.0; planned 88 + 2 + 1 = 91; as read 88.5 + 1 = 89.5. Ears of 89 want 0.5 each side: 90.
    const cavity = job.instrument.body.cavities.find(({ id }) => id === "bridge");
    expect(v(cavity?.ears?.length)).toBeCloseTo(89.5, 12);
    expect(ask(job, "pickup.bridge.drop-in").status).toBe("rework");
  });

  it("a reading that a later work elsewhere leaves alone still stands", () => {
    const job = lowtide(
      [
        { act: "spot-face", where: "volume", depth: 2 },
        { act: "spot-face", where: "bass-cut", depth: 1 },
      ],
      [{ of: "controls.volume.wood", value: "4.2 mm (calliper)", after: "r1" }],
    );
    expect([v(control(job.instrument, "volume")?.wood), v(control(job.instrument, "bass-cut")?.wood)]).toEqual([
      4.2, 5.5,
    ]);
    expect(job.resolved.valid.map(({ id }) => id)).toContain("after-0");
  });
});

describe("a hole that was drilled can be read", () => {
  const drill = (...holes: object[]) => ({ act: "drill", group: "bridge-screws", holes });
  const N1 = { id: "n1", u: 220, y: 5, diameter: 2.5, thread: 3, depth: 24 };

  it("[ST11] the bit wandered 0.8 along: the reading is where the hole is", () => {
    const job = lowtide(
      [drill(N1)],
      [
        { of: "body.holes.n1.u", value: "220.8 mm (rule)", after: "r1" },
        { of: "body.holes.n1.diameter", value: "2.7 mm (calliper)", after: "r1" },
      ],
    );
    const hole = job.instrument.body.holes.find(({ id }) => id === "n1");
    expect([v(hole?.at.u), u(hole?.at.u)]).toEqual([220.8, expect.closeTo(0.25, 12)]);
    expect([v(hole?.at.y), v(hole?.diameter)]).toEqual([5, 2.7]);
    expect(job.resolved.valid.map(({ id }) => id)).toContain("after-0");
  });

  it("refuses a reading of it as found, when the hole was not there", () => {
    expect(() => lowtide([drill(N1)], [{ of: "body.holes.n1.u", value: "220.8 mm (rule)" }])).toThrow(
      /^readings\[7\]\.after: "n1" was drilled by "r1" and was not there as found\. Say after which/,
    );
  });

  it("plugged and drilled anew under its name, the reading belongs to the hole that is there now", () => {
    const plug = { act: "plug", holes: ["n1"], diameter: 6 };
    const job = lowtide(
      [drill(N1), plug, { ...drill({ ...N1, u: 221 }), intoPlugs: true }],
      [
        { of: "body.holes.n1.u", value: "220.8 mm (rule)", after: "r1" },
        { of: "body.holes.n1.u", value: "221.3 mm (rule)", after: "r3" },
      ],
    );
    const at = Object.fromEntries(job.instrument.body.holes.map((hole) => [hole.id, v(hole.at.u)]));
    expect([at.n1, at["n1@try-1"]]).toEqual([221.3, 220.8]);
    expect(job.resolved.voided).toMatchObject([{ reading: "after-0", by: "r3" }]);
  });

  it("the hole's place may be read from the nut where the end wall's is known", () => {
    const file = parse(readFileSync("examples/ferry.yaml", "utf8")) as File;
    const job = loadJob({
      ...file,
      fettle: { ...file.fettle, operations: 1 },
      operations: [{ id: "r1", work: drill(N1), doneAt: "2026-05-01T10:00" }],
      readings: [...file.readings, { id: "x", of: "body.holes.n1.x", value: "820.8 mm (rule)", after: "r1" }],
    });
    // The end wall stands at x 600: 820.8 - 600 = 220.8.
    expect(v(job.instrument.body.holes.find(({ id }) => id === "n1")?.at.u)).toBeCloseTo(220.8, 9);
  });
});
