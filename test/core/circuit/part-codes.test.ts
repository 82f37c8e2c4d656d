import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readCapacitorCode, readPotCode, readResistorCode } from "../../../src/core/circuit/part-codes.ts";
import { preferredDecade } from "../../../src/core/circuit/preferred-values.ts";
import { caseNamed, casesNamed, num } from "./reference-cases.ts";

const ohms = (text: string) => readResistorCode(text).likeliest.nominalOhms;
const farads = (text: string) => readCapacitorCode(text).likeliest.nominalFarads;

describe("readResistorCode", () => {
  // IEC 60062, sources in the cases.
  it.each(casesNamed("rkm-"))("reads $inputs.code", ({ inputs, expected }) => {
    expect(ohms(String(inputs.code))).toBe(expected.ohm);
    expect(readResistorCode(String(inputs.code)).others).toEqual([]);
  });

  it.each([
    ["4.7k", 4700],
    ["4,7 kΩ", 4700],
    ["2k2", 2200],
    ["1M5", 1.5e6],
    ["150 kohm", 150e3],
    ["M47", 0.47e6],
    ["500K", 500e3],
    ["473", 47e3],
    ["4702", 47e3],
    ["47", 47],
    ["0R", 0],
  ])("reads %s as %d ohm, in one way only", (text, expected) => {
    expect(ohms(text)).toBe(expected);
    expect(readResistorCode(text).doubt).toBeUndefined();
  });

  // Letters of tolerance on resistors: IEC 60062, from memory.
  it.each([
    ["4K7J", 4465, 4935],
    ["470RK", 423, 517],
    ["10KF", 9900, 10100],
    ["1M0M", 0.8e6, 1.2e6],
  ])("gives the limits of %s", (text, least, most) => {
    const { tolerance } = readResistorCode(text).likeliest;
    expect(tolerance?.leastOhms).toBeCloseTo(least, 6);
    expect(tolerance?.mostOhms).toBeCloseTo(most, 6);
  });

  it("says when digits can be read in two ways", () => {
    const { likeliest, others, doubt } = readResistorCode("470");
    expect([likeliest.nominalOhms, ...others.map(({ nominalOhms }) => nominalOhms)]).toEqual([47, 470]);
    expect(doubt).toMatch(/^"470" can be 47 ohm \(.*\) or 470 ohm \(.*\): measure it/);
  });

  it("says when a small m may be a large one", () => {
    const { likeliest, others } = readResistorCode("4m7");
    expect([likeliest.nominalOhms, others[0]?.nominalOhms]).toEqual([4.7e6, 4.7e-3]);
  });

  it.each(["", "K", "abc", "4..7", "47X", "4K7Q", "-47", "4.7K3"])("refuses %j", (text) => {
    expect(() => readResistorCode(text)).toThrow(/^code: cannot read ".*" as a resistor\. Write it as "4K7"/);
  });
});

describe("readPotCode", () => {
  it.each([
    ["A500K", 500e3, "A"],
    ["250KB", 250e3, "B"],
    ["B504", 500e3, "B"],
    ["C1M", 1e6, "C"],
    ["500k", 500e3, undefined],
  ])("reads %s", (text, value, letter) => {
    const { likeliest, others, taperLetter } = readPotCode(text);
    expect(likeliest.nominalOhms).toBe(value);
    expect(others).toEqual([]);
    expect(taperLetter).toBe(letter);
  });

  it("refuses a letter alone", () => {
    expect(() => readPotCode("A")).toThrow(/^code: cannot read "A"/);
  });
});

describe("readCapacitorCode", () => {
  const digits = casesNamed("cap-").filter(({ inputs }) => /^\d{3}$/.test(String(inputs.code)));

  it.each(digits)("reads $inputs.code", ({ inputs, expected }) => {
    expect(farads(String(inputs.code))).toBe(expected.F);
    expect(readCapacitorCode(String(inputs.code)).others).toEqual([]);
  });

  it("reads a full code", () => {
    const { inputs, expected } = caseNamed("cap-473J");
    const { nominalFarads, tolerance } = readCapacitorCode(String(inputs.code)).likeliest;
    expect(nominalFarads).toBe(expected.F);
    expect(tolerance?.letter).toBe("J");
    expect((tolerance?.mostFarads ?? 0) / nominalFarads - 1).toBeCloseTo(num(expected.tol_pct) / 100, 12);
  });

  it("gives the limits of a full code", () => {
    const { inputs, expected } = caseNamed("cap-223K-range");
    const { tolerance } = readCapacitorCode(String(inputs.code)).likeliest;
    expect((tolerance?.leastFarads ?? 0) / num(expected.min_F)).toBeCloseTo(1, 9);
    expect((tolerance?.mostFarads ?? 0) / num(expected.max_F)).toBeCloseTo(1, 9);
  });

  const PERCENT = Object.entries(caseNamed("cap-tol").expected).map(([letter, words]) => [letter, String(words)]);

  it.each(PERCENT)("knows the letter %s as %s", (letter = "", words = "") => {
    const { nominalFarads, tolerance } = readCapacitorCode(`473${letter}`).likeliest;
    const above = (tolerance?.mostFarads ?? 0) - nominalFarads;
    const below = nominalFarads - (tolerance?.leastFarads ?? 0);
    const [, plus = "", minus = plus] = /^\+?([\d.]+)(?:\/-(\d+))?/.exec(words) ?? [];
    const unit = words.endsWith("pF") ? 1e-12 : nominalFarads / 100;
    expect(above / unit).toBeCloseTo(Number(plus), 6);
    expect(below / unit).toBeCloseTo(Number(minus), 6);
  });

  // 8 and 9 as third digit: hundredths and tenths. Letters as decimal point: IEC 60062, from memory.
  it.each([
    ["229", 2.2e-12],
    ["478", 0.47e-12],
    ["p33", 0.33e-12],
    ["4p7", 4.7e-12],
    ["n47", 0.47e-9],
    ["4n7", 4.7e-9],
    ["4N7", 4.7e-9],
    ["22n", 22e-9],
    ["22 nF", 22e-9],
    ["u1", 0.1e-6],
    ["0.022", 22e-9],
    [".05", 50e-9],
    ["0,047 µF", 47e-9],
    [".02 MFD", 20e-9],
    ["250 mmf", 250e-12],
    ["1000", 1e-9],
  ])("reads %s as %d F, in one way only", (text, expected) => {
    expect(farads(text)).toBe(expected);
    expect(readCapacitorCode(text).doubt).toBeUndefined();
  });

  // From memory: 2A is 100 V, 1H 50 V, 2J 630 V.
  it.each([
    ["2A473J", 47e-9, 100],
    ["1H104K", 100e-9, 50],
    ["2J223K", 22e-9, 630],
    ["473J100", 47e-9, 100],
    ["22n 630V", 22e-9, 630],
    ["0.022 400 VDC", 22e-9, 400],
    ["0.047uF 250V", 47e-9, 250],
  ])("reads %s with its voltage", (text, expected, volts) => {
    expect(readCapacitorCode(text).likeliest).toMatchObject({ nominalFarads: expected, ratedVolts: volts });
  });

  it("takes an F behind decimals for a tolerance, and behind the unit for farads", () => {
    expect(readCapacitorCode("4n7F").likeliest.tolerance?.letter).toBe("F");
    expect(readCapacitorCode("22nF").likeliest.tolerance).toBeUndefined();
    expect(readCapacitorCode("22nFJ").likeliest.tolerance?.letter).toBe("J");
  });

  const ways = (text: string) => {
    const { likeliest, others } = readCapacitorCode(text);
    return [likeliest, ...others].map(({ nominalFarads }) => nominalFarads);
  };

  it("tells each way to read a text that can be read in several", () => {
    expect(ways("220")).toEqual([22e-12, 220e-12]);
    expect(ways("22K")).toEqual([22e-12, 22e-9]);
    expect(ways("47")).toEqual([47e-12, 47e-6]);
    expect(readCapacitorCode("33P").doubt).toMatch(/P as tolerance/);
    expect(readCapacitorCode("220").doubt).toMatch(/^"220" can be 22 pF \(.*\) or 220 pF/);
  });

  it.each(["", "22q", "630V", "22n100", "F", "4.7n7", "000"])("refuses %j", (text) => {
    expect(() => readCapacitorCode(text)).toThrow(/^code: cannot read ".*" as a capacitor\. Write it as "22n"/);
  });
});

describe("codes written and read again", () => {
  const figures = fc.constantFrom(...preferredDecade("E24")).map(String);

  it("reads each three-digit code as its two figures and zeros", () => {
    fc.assert(
      fc.property(figures, fc.integer({ min: 1, max: 6 }), (two, zeros) => {
        expect(farads(`${two}${zeros}`)).toBe(Number(`${two}e${zeros - 12}`));
        expect(ohms(`${two}${zeros}`)).toBe(Number(`${two}e${zeros}`));
      }),
      { seed: 60062, numRuns: 300 },
    );
  });

  it("reads each number with a letter as its point", () => {
    const SIZES = { R: 0, K: 3, M: 6 } as const;
    fc.assert(
      fc.property(figures, fc.constantFrom("R", "K", "M"), fc.integer({ min: 0, max: 2 }), (two, letter, point) => {
        const text = `${two.slice(0, point)}${letter}${two.slice(point)}`;
        expect(ohms(text)).toBe(Number(`${two}e${SIZES[letter] - 2 + point}`));
      }),
      { seed: 60062, numRuns: 300 },
    );
  });

  it("never breaks down on any text: it reads or refuses", () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(..."0123456789.,RKMpnuFJKPV /-") }), (text) => {
        for (const read of [readResistorCode, readCapacitorCode, readPotCode]) {
          try {
            read(text);
          } catch (error) {
            expect(error).toHaveProperty("where", "code");
          }
        }
      }),
      { seed: 60062, numRuns: 2000 },
    );
  });
});
