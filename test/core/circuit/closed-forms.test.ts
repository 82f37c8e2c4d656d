import { describe, expect, it } from "vitest";
import {
  type CoilPair,
  cableFarads,
  copperOhms,
  couplingOf,
  equalCoils,
  inductanceFromCornerHenries,
  loadedResponse,
  lrCornerHz,
  parallelHenries,
  pickupOhmsAtJack,
  potOhmsFromLargest,
  rcCornerHz,
  resonanceHz,
  selfCapacitanceFarads,
  seriesHenries,
} from "../../../src/core/circuit/closed-forms.ts";
import { caseNamed, casesNamed, num, relative } from "./reference-cases.ts";

const PICO = 1e-12;
const METRES_PER_FOOT = 0.3048;
const celsius = (fahrenheit: number) => ((fahrenheit - 32) * 5) / 9;

// Expected values, their sources and tolerances: test/reference/circuit/electrics-cases.json.
describe("resonance and corners", () => {
  it.each(casesNamed("res-wi"))("agrees with $id", ({ inputs, expected, tolerance }) => {
    const actual = resonanceHz({ inductanceHenries: num(inputs.L_H), capacitanceFarads: num(inputs.C_F) });
    expect(relative(actual, num(expected.f_Hz))).toBeLessThan(num(tolerance.f_rel));
  });

  it("finds the published winding capacitance by self-resonance", () => {
    const { inputs, expected, tolerance } = caseNamed("res-inductor-100mH");
    const actual = selfCapacitanceFarads({ inductanceHenries: num(inputs.L_H), resonanceHz: num(inputs.f_Hz) });
    expect(Math.abs(actual / PICO - num(expected.published_C_pF))).toBeLessThan(num(tolerance.C_pF));
  });

  it("finds the winding capacitance of a humbucker", () => {
    const { inputs, expected, tolerance } = caseNamed("res-humbucker-lib");
    const actual = selfCapacitanceFarads({ inductanceHenries: num(inputs.L_H), resonanceHz: num(inputs.f0_Hz) });
    expect(relative(actual / PICO, num(expected.C_pF))).toBeLessThan(num(tolerance.rel));
  });

  it("goes from inductance to the corner and back", () => {
    const { inputs, expected, tolerance } = caseNamed("lr-corner");
    const parts = { resistanceOhms: num(inputs.R_ohm), inductanceHenries: num(inputs.L_H) };
    const cornerHz = lrCornerHz(parts);
    expect(relative(cornerHz, num(expected.f_Hz))).toBeLessThan(num(tolerance.rel));
    expect(inductanceFromCornerHenries({ resistanceOhms: parts.resistanceOhms, cornerHz })).toBeCloseTo(2.5, 12);
  });

  it.each(casesNamed("rc-"))("agrees with $id", ({ inputs, expected, tolerance }) => {
    const actual = rcCornerHz({ resistanceOhms: num(inputs.R_ohm), capacitanceFarads: num(inputs.C_F) });
    expect(relative(actual, num(expected.fc_Hz))).toBeLessThan(num(tolerance.rel));
    expect(relative(actual, num(expected.published_Hz))).toBeLessThan(num(tolerance.published_rel));
  });
});

describe("a loaded pickup", () => {
  it.each(casesNamed("loaded-"))("agrees with $id", ({ inputs, expected, tolerance }) => {
    const actual = loadedResponse({
      inductanceHenries: num(inputs.L_H),
      resistanceOhms: num(inputs.R_ohm),
      capacitanceFarads: num(inputs.C_total_F),
      loadOhms: num(inputs.Rload_ohm),
    });
    expect(relative(actual.undampedHz, num(expected.f0_Hz))).toBeLessThan(num(tolerance.rel));
    expect(relative(actual.qualityFactor, num(expected.Q))).toBeLessThan(num(tolerance.rel));
    expect(Math.abs(actual.dcGainDb - num(expected.dcGain_dB))).toBeLessThan(num(tolerance.dB));
    expect(actual.peak !== undefined).toBe(expected.hasPeak);
    if (!actual.peak) return;
    expect(relative(actual.peak.frequencyHz, num(expected.fpeak_Hz))).toBeLessThan(num(tolerance.rel));
    expect(Math.abs(actual.peak.gainDb - num(expected.peak_dB))).toBeLessThan(num(tolerance.dB));
  });

  const bare = { inductanceHenries: 2.4, resistanceOhms: 6200, capacitanceFarads: 110 * PICO, loadOhms: Infinity };

  it("resonates as the bare coil when nothing loads it", () => {
    const { undampedHz, dcGain } = loadedResponse(bare);
    expect(undampedHz).toBeCloseTo(resonanceHz(bare), 9);
    expect(dcGain).toBe(1);
  });

  it("has its peak where the response itself is largest", () => {
    const pickup = { ...bare, capacitanceFarads: 410 * PICO, loadOhms: 111e3 };
    const { peak } = loadedResponse(pickup);
    if (!peak) throw new Error("a peak was expected");
    expect(gainDb(pickup, peak.frequencyHz)).toBeCloseTo(peak.gainDb, 9);
    expect(gainDb(pickup, peak.frequencyHz * 1.01)).toBeLessThan(peak.gainDb);
    expect(gainDb(pickup, peak.frequencyHz * 0.99)).toBeLessThan(peak.gainDb);
  });

  it.each(["inductanceHenries", "resistanceOhms", "capacitanceFarads", "loadOhms"])("refuses %s of 0", (where) => {
    expect(() => loadedResponse({ ...bare, [where]: 0 })).toThrow(new RegExp(`^${where}: must be a number above 0`));
  });
});

/** The transfer function written out, apart from the program. */
function gainDb(pickup: Parameters<typeof loadedResponse>[0], frequencyHz: number): number {
  const { inductanceHenries: l, resistanceOhms: r, capacitanceFarads: c, loadOhms } = pickup;
  const w = 2 * Math.PI * frequencyHz;
  return -20 * Math.log10(Math.hypot(1 + r / loadOhms - w * w * l * c, w * (l / loadOhms + r * c)));
}

describe("coils together", () => {
  it.each([...casesNamed("series-two"), ...casesNamed("parallel-two")])("agrees with $id", (one) => {
    const { inputs, expected, tolerance } = one;
    const actual = equalCoils({
      inductanceHenries: num(inputs.L_H),
      resistanceOhms: num(inputs.R_ohm),
      capacitanceFarads: num(inputs.C_pF) * PICO,
      count: num(inputs.n),
      wiring: inputs.wiring === "series" ? "series" : "parallel",
    });
    expect(relative(actual.inductanceHenries, num(expected.L_H))).toBeLessThan(num(tolerance.rel));
    expect(relative(actual.resistanceOhms, num(expected.R_ohm))).toBeLessThan(num(tolerance.rel));
    expect(relative(actual.capacitanceFarads / PICO, num(expected.C_pF))).toBeLessThan(num(tolerance.rel));
  });

  it("agrees with the measured coils that do not face each other", () => {
    const { inputs, expected, tolerance } = caseNamed("series-coil-1.7-3.5");
    const pair = { firstHenries: num(inputs.L1_H), secondHenries: num(inputs.L2_H), coupling: 0 };
    const actual = seriesHenries({ ...pair, sense: "aiding" });
    expect(Math.abs(actual - num(expected.L_H))).toBeLessThan(num(tolerance.abs_H));
  });

  it.each([
    ["series-aiding-mutual", seriesHenries, "aiding"],
    ["series-opposing-mutual", seriesHenries, "opposing"],
    ["parallel-aiding-mutual", parallelHenries, "aiding"],
  ] as const)("agrees with %s", (id, formula, sense) => {
    const { inputs, expected, tolerance } = caseNamed(id);
    const pair = { firstHenries: num(inputs.L1_H), secondHenries: num(inputs.L2_H), coupling: num(inputs.k), sense };
    expect(relative(formula(pair), num(expected.L_H))).toBeLessThan(num(tolerance.rel));
  });

  it.each(casesNamed("coupling-from"))("agrees with $id", ({ inputs, expected }) => {
    const coil = num(inputs.Lcoil_H);
    const actual = couplingOf({ firstHenries: coil, secondHenries: coil, seriesHenries: num(inputs.Lseries_H) });
    expect(actual.mutualHenries).toBeCloseTo(num(expected.M_H), 9);
    // Printed with 7 digits.
    expect(actual.coupling).toBeCloseTo(num(expected.k), 6);
  });

  it("finds the coupling that the series inductance was made with", () => {
    const pair: CoilPair = { firstHenries: 1.9, secondHenries: 2.1, coupling: 0.2, sense: "opposing" };
    expect(couplingOf({ ...pair, seriesHenries: seriesHenries(pair) }).coupling).toBeCloseTo(-0.2, 12);
  });

  it("refuses a series reading that no two such coils give", () => {
    expect(() => couplingOf({ firstHenries: 2, secondHenries: 2, seriesHenries: 8.1 })).toThrow(
      /^seriesHenries: 8.1 H cannot come of 2 H and 2 H/,
    );
  });

  it("refuses a coupling of 1 and a half coil", () => {
    const pair: CoilPair = { firstHenries: 2, secondHenries: 2, coupling: 1, sense: "aiding" };
    expect(() => parallelHenries(pair)).toThrow(/^coupling: must lie from 0 to below 1, got 1/);
    const coil = { inductanceHenries: 3, resistanceOhms: 4000, capacitanceFarads: PICO, wiring: "series" } as const;
    expect(() => equalCoils({ ...coil, count: 0.5 })).toThrow(/^count: must be a whole number/);
  });
});

describe("readings with the meter", () => {
  it("finds the pickup behind a reading at the jack", () => {
    const { inputs, expected, tolerance } = caseNamed("meter-inv-formula");
    const { ohms } = pickupOhmsAtJack({ readOhms: num(inputs.Rread_ohm), potOhms: num(inputs.Rpot_ohm) });
    expect(relative(ohms, num(expected.Rpickup_ohm))).toBeLessThan(num(tolerance.rel));
  });

  it("finds the range that the pot's tolerance leaves", () => {
    const { inputs, expected, tolerance } = caseNamed("meter-inv-range");
    const actual = pickupOhmsAtJack({
      readOhms: num(inputs.Rread_ohm),
      potOhms: num(inputs.Rpot_ohm),
      potTolerance: num(inputs.tol),
    });
    expect(relative(actual.leastOhms, num(expected.Rmin_ohm))).toBeLessThan(num(tolerance.rel));
    expect(relative(actual.mostOhms, num(expected.Rmax_ohm))).toBeLessThan(num(tolerance.rel));
  });

  it("says that the coil is open when only the pot is read", () => {
    expect(() => pickupOhmsAtJack({ readOhms: 250e3, potOhms: 250e3 })).toThrow(/the coil is open/);
  });

  it("finds the pot by the largest reading while turning", () => {
    const { inputs, expected } = caseNamed("meter-pot-from-max");
    const reading = { largestOhms: num(inputs.Rmax_ohm), pickupOhms: num(inputs.Rpickup_ohm) };
    expect(potOhmsFromLargest(reading)).toBeCloseTo(num(expected.Rpot_ohm), 6);
    expect(() => potOhmsFromLargest({ ...reading, largestOhms: 2000 })).toThrow(/^largestOhms: 2000 ohm is too little/);
  });

  it.each(casesNamed("cu-temp-").filter(({ inputs }) => "T_C" in inputs))("agrees with $id", (one) => {
    const { inputs, expected, tolerance } = one;
    const actual = copperOhms({ ohms: num(inputs.R20_ohm), readAtCelsius: 20, wantedAtCelsius: num(inputs.T_C) });
    expect(relative(actual, num(expected.R_ohm))).toBeLessThan(num(tolerance.rel));
  });

  it("brings a warm coil back as published", () => {
    const { inputs, expected, tolerance } = caseNamed("cu-temp-95F");
    const actual = copperOhms({
      ohms: num(inputs.R_ohm),
      readAtCelsius: celsius(num(inputs.T_F)),
      wantedAtCelsius: celsius(num(inputs.Tref_F)),
    });
    expect(Math.abs(actual - num(expected.R20_ohm))).toBeLessThan(num(tolerance.R));
  });

  it("refuses a temperature below the end of the straight line", () => {
    expect(() => copperOhms({ ohms: 6000, readAtCelsius: -273, wantedAtCelsius: 20 })).toThrow(
      /^readAtCelsius: is too/,
    );
  });
});

describe("cables", () => {
  it.each(["cable-45-20ft", "cable-33-20ft"])("agrees with %s", (id) => {
    const { inputs, expected, tolerance } = caseNamed(id);
    const actual = cableFarads({
      faradsPerMetre: (num(inputs.pF_per_ft) * PICO) / METRES_PER_FOOT,
      lengthMetres: num(inputs.length_ft) * METRES_PER_FOOT,
    });
    expect(Math.abs(actual / PICO - num(expected.C_pF))).toBeLessThan(num(tolerance.abs));
  });

  it("agrees with the published figure for a metre", () => {
    const { inputs, expected, tolerance } = caseNamed("cable-30ft-100m");
    const actual = cableFarads({
      faradsPerMetre: (num(inputs.pF_per_ft) * PICO) / METRES_PER_FOOT,
      lengthMetres: 1,
    });
    expect(relative(actual / PICO, num(expected.pF_per_m))).toBeLessThan(num(tolerance.rel));
    expect(relative(actual / PICO, num(expected.published_pF_per_m))).toBeLessThan(num(tolerance.published_rel));
  });
});
