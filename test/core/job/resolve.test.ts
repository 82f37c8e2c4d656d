import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { otherHand, parseJob, resolveActual, resolveAsFound } from "../../../src/core/job/index.ts";
import { type Quantity, standardUncertainty } from "../../../src/core/quantity/index.ts";

function example(name: string) {
  return resolveAsFound(parseJob(parse(readFileSync(`examples/${name}.yaml`, "utf8"))).file);
}

function u(quantity: Quantity | undefined): number {
  if (!quantity?.known) throw new Error(`not known: ${quantity?.path}`);
  return standardUncertainty(quantity);
}

function v(quantity: Quantity | undefined): number {
  if (!quantity?.known) throw new Error(`not known: ${quantity?.path}`);
  return quantity.value;
}

// Expected values: the demo job's data sheet, typed in by its owner; doubts by the tool table (rule 0.25, calliper 0.05,
// transfer 0.15, plate laid on 0.10, heel 0.30, trial 0.5 cent).
describe("examples/lowtide.yaml, as found", () => {
  const { instrument, readings, conflicts } = example("lowtide");

  it("has the instrument's own dimensions with tool and doubt", () => {
    expect(v(instrument.neck.nutToFret12)).toBe(345);
    expect(u(instrument.neck.nutToFret12)).toBeCloseTo(0.25, 12);
    expect(u(instrument.neck.heelGap)).toBeCloseTo(0.3, 12);
    expect(v(instrument.body.thickness)).toBe(44.5);
    expect(u(instrument.body.thickness)).toBeCloseTo(0.05, 12);
    expect(instrument.bassSide).toBe(-1);
  });

  it("puts string 1 on the treble side", () => {
    expect(instrument.neck.nutY.map(v)).toEqual([
      18,
      expect.closeTo(10.8),
      expect.closeTo(3.6),
      expect.closeTo(-3.6),
      expect.closeTo(-10.8),
      -18,
    ]);
    expect(instrument.bridge?.pieces[0]?.saddles.map((saddle) => v(saddle.q))).toEqual(
      [26.25, 15.75, 5.25, -5.25, -15.75, -26.25].map((q) => expect.closeTo(q)),
    );
  });

  it("uses the sharper of two readings and keeps both as evidence", () => {
    const row = instrument.body.holes.filter((hole) => hole.group === "old-screws");
    expect(row.map((hole) => v(hole.at.y))).toEqual([-20, -10, 0, 10, 20]);
    expect(u(row[0]?.at.u)).toBeCloseTo(0.1, 12);
    expect(instrument.evidence["body.holes.old-screws.u"]?.map((q) => q.tool)).toEqual(["steel rule", "plate laid on"]);
    expect(instrument.scaleLine.read.map(v)).toEqual([182]);
    expect(readings.filter((reading) => !/as written$/.test(reading.id))).toHaveLength(7);
    // 44.5 mm (calliper) beside the dimension is short for an as-found reading.
    expect(readings.find((reading) => reading.subject === "body.thickness")?.quantity.value).toBe(44.5);
    expect(conflicts).toEqual([]);
  });

  it("reads the stepped saddle ranges and the spare third", () => {
    expect(instrument.bridge?.pieces[0]?.saddles.map((saddle) => [v(saddle.from), v(saddle.to)])).toEqual([
      [11.5, 16],
      [11.5, 16],
      [11.5, 16],
      [13, 18],
      [13, 18],
      [13, 18],
    ]);
    expect(instrument.spareStrings.map((string) => [string.number, string.wound, v(string.setback.cents)])).toEqual([
      [3, true, 5.3],
    ]);
    expect(u(instrument.strings[2]?.setback.cents)).toBeCloseTo(0.5, 12);
  });
});

describe("examples/ferry.yaml, as found", () => {
  const { instrument } = example("ferry");

  it("turns x from the nut into u from the end wall at x 600", () => {
    expect(v(instrument.body.holes[0]?.at.u)).toBe(301);
    expect(instrument.scaleLine.read.map(v)).toEqual([264]);
    expect(u(instrument.scaleLine.read[0])).toBeCloseTo(0.15, 12);
    expect(instrument.evidence["body.holes.old-screws.u"]?.map(v)).toEqual([301, 301]);
  });

  it("has the bass side at y > 0: string 4 at +28.5 on the bridge", () => {
    expect(instrument.bassSide).toBe(1);
    expect(instrument.bridge?.pieces[0]?.saddles.map((saddle) => v(saddle.q))).toEqual([
      -28.5,
      expect.closeTo(-9.5),
      expect.closeTo(9.5),
      28.5,
    ]);
  });
});

describe("a scale length by the frets", () => {
  const neckOf = (fretReadings: unknown) =>
    resolveAsFound(
      parseJob({
        fettle: { instrument: 1 },
        instrument: { kind: "guitar", strings: 6, neck: { scaleLength: "648 mm", fretReadings } },
      }).file,
    ).instrument.neck;

  it("takes three frets of one placing before the printed figure", () => {
    // x_n = 3 + 690 (1 - 2^(-n/12)): the rule starts 3 mm before the nut, the scale is 690.
    const at = (n: number) => ({ fret: n, at: `${(3 + 690 * (1 - 2 ** (-n / 12))).toFixed(3)} mm (rule)` });
    const [length] = neckOf([at(1), at(12), at(20)]).scaleLengths;
    expect(v(length)).toBeCloseTo(690, 2);
    // Least squares by hand: shares 0.0561, 0.5, 0.6850 with mean 0.4137, sum of squares 0.2090; u = 0.25/√0.2090 = 0.547.
    expect(u(length)).toBeCloseTo(0.547, 2);
  });

  it("refuses two, and says where", () => {
    expect(() =>
      neckOf([
        { fret: 1, at: 39 },
        { fret: 12, at: 345 },
      ]),
    ).toThrow(/^instrument\.neck\.fretReadings: /);
  });
});

describe("otherHand", () => {
  const numbers = (value: unknown) =>
    JSON.stringify(value, (key, inner) => (key === "u" && typeof inner === "number" ? Math.abs(inner) : inner));

  it.each(["lowtide", "ferry"])("twice is the identity (%s)", (name) => {
    const { instrument } = example(name);
    expect(numbers(otherHand(otherHand(instrument)))).toBe(numbers(instrument));
  });

  it("never mirrors a part: the stepped plate keeps its long saddles on its own side, under other strings", () => {
    const { instrument } = example("lowtide");
    const other = otherHand(instrument);
    const byPlace = (saddles: readonly { q: Quantity; from: Quantity }[] | undefined) =>
      new Map(saddles?.map((saddle) => [v(saddle.q), v(saddle.from)]));
    expect(byPlace(other.bridge?.pieces[0]?.saddles)).toEqual(byPlace(instrument.bridge?.pieces[0]?.saddles));
    expect(other.bridge?.pieces[0]?.saddles.map((saddle) => v(saddle.from))).toEqual([13, 13, 13, 11.5, 11.5, 11.5]);
    expect(other.body.groundWire && v(other.body.groundWire.y)).toBe(12);
  });
});

describe("readings", () => {
  const base = (readings: unknown[], operations?: unknown[]) =>
    resolveActual(
      parseJob({
        fettle: { instrument: 1, readings: 1, operations: 1 },
        instrument: { kind: "guitar", strings: 6, body: { thickness: "45 mm (data sheet)" } },
        readings,
        ...(operations ? { operations } : {}),
      }).file,
    );

  it("a reading beats the data sheet", () => {
    expect(v(base([{ id: "a", of: "body.thickness", value: "44.5 mm (calliper)" }]).instrument.body.thickness)).toBe(
      44.5,
    );
  });

  it("two readings that disagree are told, and the doubt is half their difference", () => {
    const { instrument, conflicts } = base([
      { id: "a", of: "body.thickness", value: "44.5 mm (calliper)" },
      { id: "b", of: "body.thickness", value: "45.5 mm (calliper)" },
    ]);
    // Allowed 2·√(0.05² + 0.05²) = 0.141; half of 1.0 in quadrature with 0.05 is 0.5025.
    expect(conflicts[0]).toMatchObject({ subject: "body.thickness", readings: ["b", "a"] });
    expect(conflicts[0]?.allowedMm).toBeCloseTo(0.1414, 4);
    expect(u(instrument.body.thickness)).toBeCloseTo(0.5025, 4);
  });

  it("keeps what the traveller asks to be written down, though no sum reads it", () => {
    const { readings } = base([
      { id: "a", of: "asFound.strings.1.action", value: "1.8 mm (rule)" },
      { id: "b", of: "bench.plugs.old-screws", value: 1 },
    ]);
    expect(readings.map((reading) => [reading.subject, reading.quantity.kind])).toEqual([
      ["asFound.strings.1.action", "length"],
      ["bench.plugs.old-screws", "count"],
    ]);
  });

  it("refuses a reading of nothing and suggests a path", () => {
    expect(() => base([{ id: "a", of: "body.thicknes", value: "44 mm" }])).toThrow(
      /^readings\[0\]\.of: "body\.thicknes" is not a value of this job.*e\.g\. body\./,
    );
  });

  it("refuses two readings with one id", () => {
    expect(() =>
      base([
        { id: "a", of: "body.thickness", value: 44 },
        { id: "a", of: "body.thickness", value: 44 },
      ]),
    ).toThrow(/^readings\[1\]\.id: "a" is already/);
  });

  it("a shim makes the plane and the line carried over void until they are read again", () => {
    const data = (extra: unknown[]) => ({
      fettle: { instrument: 1, readings: 1, operations: 1 },
      instrument: { kind: "guitar", strings: 6, body: { pocket: { length: "76 mm (calliper)" } } },
      readings: [{ id: "line", of: "scaleLine.u", value: "182 mm (transfer)" }, ...extra],
      operations: [{ id: "shim-1", work: { act: "shim", thickness: 0.8, length: 76 } }],
    });
    const before = resolveActual(parseJob(data([])).file);
    expect(before.voided).toMatchObject([{ reading: "line", by: "shim-1" }]);
    const after = resolveActual(
      parseJob(data([{ id: "again", of: "scaleLine.u", value: "182.1 mm (transfer)", after: "shim-1" }])).file,
    );
    expect(after.valid.map((reading) => reading.id)).toEqual(["body.pocket.length, as written", "again"]);
  });
});
