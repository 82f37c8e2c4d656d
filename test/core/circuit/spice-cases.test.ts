import { readdirSync, readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { ohmsBetween, sweep } from "../../../src/core/circuit/index.ts";
import { readSpice } from "../../support/read-spice.ts";
import { type SpiceEngine, startSpice } from "../../support/spice-engine.ts";

// test/reference/circuit: netlists of own design with the response of ngspice 39.3 and 45.2, printed to nine digits.
const FOLDER = new URL("../../reference/circuit/spice/", import.meta.url);
const read = (name: string) => readFileSync(new URL(name, FOLDER), "utf8");
const NAMES = readdirSync(FOLDER)
  .filter((name) => /^\d.*\.cir$/.test(name))
  .map((name) => name.replace(".cir", ""));

interface Case {
  readonly outputNode: string;
  readonly freqHz: readonly number[];
  readonly magDb: readonly number[];
  readonly phaseDeg: readonly number[];
  readonly peak: { readonly fHz: number; readonly dB: number } | null;
}

/** Figures printed to nine digits are known to half a unit of the ninth. */
const PRINTED = 5e-9;
const DB = 20 / Math.LN10;

describe("the response of the reference circuits", () => {
  it.each(NAMES)("agrees with the figures printed for %s", (name) => {
    const reference = JSON.parse(read(`${name}.json`)) as Case;
    const { re, im } = sweep(readSpice(read(`${name}.cir`)), reference.outputNode, reference.freqHz);
    reference.magDb.forEach((dB, point) => {
      const [r, i] = [re[point] ?? 0, im[point] ?? 0];
      // The frequency, too, is printed to nine digits: near a resonance that is worth a few times as much.
      expect(Math.abs(DB * Math.log(Math.hypot(r, i)) - dB)).toBeLessThan(Math.abs(dB) * PRINTED + 5e-7);
      const turn = Math.abs((Math.atan2(i, r) * 180) / Math.PI - (reference.phaseDeg[point] ?? 0)) % 360;
      expect(Math.min(turn, 360 - turn)).toBeLessThan(5e-6);
    });
  });

  describe("against the simulator itself, on its own frequencies", () => {
    let spice: SpiceEngine;
    beforeAll(async () => {
      spice = await startSpice();
    }, 120_000);

    it.each(NAMES)("agrees to 1e-9 for %s", async (name) => {
      const text = read(`${name}.cir`);
      const { outputNode } = JSON.parse(read(`${name}.json`)) as Case;
      const run = await spice.run(text);
      const { re, im } = sweep(readSpice(text), outputNode, run.frequenciesHz);
      expect(run.frequenciesHz).toHaveLength(151);
      run.frequenciesHz.forEach((_, point) => {
        const [r, i] = [run.re.get(outputNode)?.[point] ?? Number.NaN, run.im.get(outputNode)?.[point] ?? Number.NaN];
        const off = Math.hypot((re[point] ?? 0) - r, (im[point] ?? 0) - i) / Math.hypot(r, i);
        // A notch deeper than 90 dB is what is left of a difference: 1e-6 there.
        expect(off).toBeLessThan(Math.hypot(r, i) < 10 ** (-90 / 20) ? 1e-6 : 1e-9);
      });
    });
  });
});

describe("what a meter reads", () => {
  const { cases } = JSON.parse(read("dc-meter-results.json")) as {
    cases: { id: string; netlist: string; ngspiceOhms: number; closedFormOhms: number }[];
  };

  it.each(cases)("agrees with operating point and closed form for $id", ({ netlist, ngspiceOhms, closedFormOhms }) => {
    const { elements } = readSpice(read(netlist));
    const resistors = elements.filter((element) => element.kind === "resistor");
    const { ohms } = ohmsBetween(resistors, "tip", "0");
    // Printed to nine digits.
    expect(Math.abs(ohms / ngspiceOhms - 1)).toBeLessThan(PRINTED);
    expect(Math.abs(ohms / closedFormOhms - 1)).toBeLessThan(PRINTED);
  });
});
