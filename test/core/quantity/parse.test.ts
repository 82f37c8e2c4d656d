import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/errors.ts";
import {
  BASE_UNIT,
  type Kind,
  parseQuantity,
  standardUncertainty,
  type Want,
} from "../../../src/core/quantity/index.ts";

const RUNS = { seed: 648, numRuns: 3000 };
const KINDS = Object.keys(BASE_UNIT) as Kind[];

function read(text: string | number, kind: Kind = "length", more: Partial<Want> = {}) {
  return parseQuantity(text, { path: "neck.width", kind, ...more });
}
function u(text: string | number, kind: Kind = "length", more: Partial<Want> = {}): number {
  return standardUncertainty(read(text, kind, more));
}

describe("parseQuantity: value and unit", () => {
  // Factors: 1 in = 25.4 mm, 1 lb = 0.45359237 kg, g = 9.80665 m/s², all exact by definition. Expected doubles are the
  // decimal products worked by hand, so equality is exact where the product has few digits.
  it.each<[string | number, Kind, number]>([
    ["648 mm", "length", 648],
    ["648mm", "length", 648],
    [648, "length", 648],
    ["64.8 cm", "length", 648],
    ["25 1/2 in", "length", 647.7],
    ['25.5"', "length", 647.7],
    ["25.5″", "length", 647.7],
    ["25.5''", "length", 647.7],
    ["25½″", "length", 647.7],
    ['25½"', "length", 647.7],
    ["1-1/8 in", "length", 28.575],
    ['3/8"', "length", 9.525],
    ["3 3/16 in.", "length", 80.9625],
    [".010 in", "length", 0.254],
    ["10 thou", "length", 0.254],
    ["10 thousandths", "length", 0.254],
    ["12,5 mm", "length", 12.5],
    ["2' 1 1/2\"", "length", 647.7],
    ["2 ft 1.5 in", "length", 647.7],
    ["-21 mm", "length", -21],
    ["22n", "capacitance", 22e-9],
    ["0.022 µF", "capacitance", 22e-9],
    ["0.022 μF", "capacitance", 22e-9],
    ["0.022uF", "capacitance", 22e-9],
    ["2n2", "capacitance", 2.2e-9],
    ["100 pF", "capacitance", 1e-10],
    ["500k", "resistance", 500e3],
    ["250 kΩ", "resistance", 250e3],
    ["250 k\u2126", "resistance", 250e3],
    ["7.9 kΩ ±1%", "resistance", 7900],
    ["4k7", "resistance", 4700],
    ["1 M", "resistance", 1e6],
    ["12.75 kohm", "resistance", 12750],
    ["4.4 H", "inductance", 4.4],
    ["120 mH", "inductance", 0.12],
    ["17.1 cents", "cents", 17.1],
    ["0.5°", "angle", 0.5],
    ["0.5 deg", "angle", 0.5],
    ["32.5 g", "mass", 32.5],
    ["1 lb", "mass", 453.59237],
    ["0.671 g/m", "mass per length", 0.671],
    ["0.671", "mass per length", 0.671],
    ["246.94 Hz", "frequency", 246.94],
    ["3.07 kHz", "frequency", 3070],
    ["78 N", "force", 78],
    ["1.5 h", "hours", 1.5],
    ["90 min", "hours", 1.5],
    ["1 h 30 min", "hours", 1.5],
    ["9 cu", "money", 9],
    ["9", "money", 9],
    ["20 °C", "temperature", 20],
    ["68 °F", "temperature", 20],
    ["293.15 K", "temperature", 20],
    ["68F", "temperature", 20],
    ["22", "count", 22],
    ["50 %", "ratio", 0.5],
    ["16:1", "ratio", 16],
    ["0.41", "ratio", 0.41],
  ])("reads %s (%s) as %s", (text, kind, expected) => {
    expect(read(text, kind).value).toBe(expected);
  });

  it("turns lbf into newtons and lb/in into g/m by the exact factors", () => {
    // 12 x 0.45359237 x 9.80665 and 0.0000202 x 453.59237 / 0.0254, worked by decimal arithmetic.
    expect(read("12 lbf", "force").value).toBe(53.378659383126);
    expect(read("0.0000202 lb/in", "mass per length").value).toBeCloseTo(0.36073093992126, 13);
  });

  it("rounds once: inch values are the doubles nearest to the exact product", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 64 * 40 }), (steps) => {
        // steps/64 in = steps x 3175 / 8000 mm; both are small whole numbers, so one division rounds once.
        expect(read(`${steps}/64 in`).value).toBe((steps * 3175) / 8000);
      }),
      RUNS,
    );
  });
});

describe("parseQuantity: bare numbers", () => {
  it.each(["0.010", ".010", "0,010", "0.254", "0.1", 0.05, "-0.1", "3/8", "25 1/2"])("asks about a bare %s", (text) => {
    expect(() => read(text)).toThrow(/^neck\.width: .+ could be inches or millimetres\. Write .+ in or .+ mm\.$/);
  });

  it("asks in the words of the person who wrote it", () => {
    expect(() => read("0.010")).toThrow(
      "neck.width: 0.010 could be inches or millimetres. Write 0.010 in or 0.010 mm.",
    );
  });

  it.each<[string | number, "mm" | "inch" | undefined, number]>([
    ["0.25", undefined, 0.25],
    ["0", undefined, 0],
    ["0.0", undefined, 0],
    ["0.010", "mm", 0.01],
    ["0.010", "inch", 0.254],
    ["25 1/2", "inch", 647.7],
    ["0.2 ±0.05 mm", undefined, 0.2],
    ["0.1 ±.01 in", undefined, 2.54],
  ])("reads %s with bare unit %s as %s mm", (text, bareUnit, expected) => {
    expect(read(text, "length", { bareUnit }).value).toBe(expected);
  });

  it("asks about a bare fraction even where the file says mm: nobody writes 3/8 mm", () => {
    expect(() => read("3/8", "length", { bareUnit: "mm" })).toThrow(/could be inches or millimetres/);
  });

  it.each<[string, Kind, RegExp]>([
    ["7.9", "resistance", /"7\.9" has no unit\. Write a number with Ω, k or M, e\.g\. 500k/],
    ["22", "capacitance", /"22" has no unit\. Write a number with p, n or u, e\.g\. 22n/],
    ["4.4", "inductance", /has no unit/],
    ["17", "force", /has no unit/],
    ["0.0000202", "mass per length", /has no unit/],
    ["68", "temperature", /has no unit/],
  ])("asks for the unit of a bare %s (%s)", (text, kind, message) => {
    expect(() => read(text, kind)).toThrow(message);
  });
});

describe("parseQuantity: doubt", () => {
  // Limit ±a: a/√3 (JCGM 100:2008, 4.3.7); with k = 2 said: a/2 (6.2). Tool figures: the invented jobs' list of
  // standard uncertainties.
  it.each<[string, number]>([
    ["12.3 ±0.2 mm", 0.2 / Math.sqrt(3)],
    ["12.3 mm ±0.2", 0.2 / Math.sqrt(3)],
    ["12.3 mm ±0.2 mm", 0.2 / Math.sqrt(3)],
    ["12.3 mm +/- 0.2", 0.2 / Math.sqrt(3)],
    ["12.3 ±0.2 mm (rule)", 0.2 / Math.sqrt(3)],
    ["12.3 ±0.2 mm (rule, k=2)", 0.1],
    ["12.3 ±0.2 (k=2)", 0.1],
    ["12.3 mm ±0.2 (calliper) (k = 2)", 0.1],
    ["1 in ±1/64", 25.4 / 64 / Math.sqrt(3)],
    ["1 in ±0.5 mm", 0.5 / Math.sqrt(3)],
    ["200 mm ±1%", 2 / Math.sqrt(3)],
    ["648 mm (rule)", 0.25],
    ["648 mm (steel rule)", 0.25],
    ["648 mm, steel rule", 0.25],
    ["44.5 mm (calliper)", 0.05],
    ["44.5 mm (Caliper)", 0.05],
    ["0.20 mm (feeler)", 0.02],
    ["182.0 mm (transfer)", 0.15],
    ["201.5 mm (plate laid on)", 0.1],
    ["0 mm (heel pushed home)", 0.3],
    ["9.8 mm (straightedge)", 0.05],
    ["648 mm", 0.05 / Math.sqrt(3)],
    ["648 mm (data sheet)", 0.05 / Math.sqrt(3)],
    ["50 mm (assumed)", 1],
    ["0 mm (assumed)", 0.05 / Math.sqrt(3)],
    ["50 mm (guess)", 2.5],
    ["50 mm (exact)", 0],
  ])("takes the doubt of %s as %s mm", (text, expected) => {
    expect(u(text)).toBeCloseTo(expected, 12);
  });

  it.each<[string, Kind, number]>([
    ["7.9 kΩ ±1%", "resistance", 79 / Math.sqrt(3)],
    ["7.9 kΩ (meter)", "resistance", 39.5],
    ["7.9 kΩ", "resistance", (0.05 * 7900) / Math.sqrt(3)],
    ["17.1 cents (trial)", "cents", 0.5],
    ["68 ±9 °F", "temperature", 5 / Math.sqrt(3)],
    ["50 % ±2 %", "ratio", 0.02 / Math.sqrt(3)],
    ["22", "count", 0],
  ])("takes the doubt of %s (%s) as %s", (text, kind, expected) => {
    expect(u(text, kind)).toBeCloseTo(expected, 12);
  });

  it("calls a limit uniform and a k=2 statement normal", () => {
    expect(read("12.3 ±0.2 mm").doubt.map(({ shape }) => shape)).toEqual(["uniform"]);
    expect(read("12.3 ±0.2 mm (k=2)").doubt.map(({ shape }) => shape)).toEqual(["normal"]);
  });

  it("names its own error terms by path and tool", () => {
    expect(read("44.5 mm (calliper)").doubt.map(({ id }) => id)).toEqual(["neck.width:calliper"]);
    expect(read("44.5 mm").doubt.map(({ id }) => id)).toEqual(["neck.width:data sheet"]);
  });

  it("lets the caller say how sure an assumed value is", () => {
    expect(u("50 mm (assumed)", "length", { assumedU: 0.3 })).toBe(0.3);
    expect(u("50 mm", "length", { assumedU: 0.3, origin: "assumed" })).toBe(0.3);
  });
});

describe("parseQuantity: origin and tool", () => {
  it.each<[string, Partial<Want>, string, string | undefined]>([
    ["44.5 mm", {}, "data sheet", undefined],
    ["44.5 mm", { origin: "measured" }, "measured", undefined],
    ["44.5 mm", { tool: "calliper" }, "measured", "calliper"],
    ["44.5 mm (rule)", { tool: "calliper" }, "measured", "steel rule"],
    ["44.5 mm (data sheet)", { tool: "calliper" }, "data sheet", undefined],
    ["44.5 mm (assumed)", { tool: "calliper" }, "assumed", undefined],
    ["44.5 mm (guess)", {}, "assumed", undefined],
    ["3.2 mm (drill shank)", {}, "measured", "drill shank"],
    ["304.8 mm (radius gauge)", {}, "measured", "radius gauge"],
    ["648 mm (tape)", {}, "measured", "tape"],
  ])("%s with %o is %s by %s", (text, more, origin, tool) => {
    const value = read(text, "length", more);
    expect({ origin: value.origin, tool: value.tool }).toEqual({ origin, tool });
  });

  it("passes a group's tool by for kinds that it does not read", () => {
    expect(read("2°", "angle", { tool: "calliper" }).origin).toBe("data sheet");
  });

  it("keeps what the owner wrote", () => {
    expect(read(" 25 1/2 in (tape) ").said).toBe("25 1/2 in (tape)");
  });

  it("gives two readings of one placing a common term, and the same total as a lone reading", () => {
    const from = { placing: "p1" };
    const nut = parseQuantity("345 mm (rule)", { path: "a", kind: "length", ...from });
    const heel = parseQuantity("163 mm (rule)", { path: "b", kind: "length", ...from });
    expect(nut.doubt.map(({ id }) => id)).toEqual(["placing:p1", "a:steel rule"]);
    expect(heel.doubt.map(({ id }) => id)).toEqual(["placing:p1", "b:steel rule"]);
    expect(standardUncertainty(nut)).toBeCloseTo(0.25, 12);
  });
});

describe("parseQuantity: refusals", () => {
  it.each<[string | number, Kind, string]>([
    ["22q", "capacitance", 'neck.width: cannot read "22q". Write a number with p, n or u, e.g. 22n.'],
    ["500x", "resistance", 'neck.width: cannot read "500x". Write a number with Ω, k or M, e.g. 500k.'],
    ["wide", "length", 'neck.width: cannot read "wide". Write a length with its unit, e.g. 648 mm or 25 1/2 in.'],
    ["", "length", "neck.width: is empty. Write a length with its unit, e.g. 648 mm or 25 1/2 in."],
    [
      "648 Hz",
      "length",
      'neck.width: "648 Hz" is a frequency, not a length. Write a length with its unit, e.g. 648 mm or 25 1/2 in.',
    ],
    ["12 mm", "angle", 'neck.width: "12 mm" is a length, not an angle. Write degrees, e.g. 0.5°.'],
    ["12 mm (calliper, rule)", "length", 'neck.width: "rule" is a second tool or origin for one value. Name one.'],
    [
      "12 mm (laser)",
      "length",
      'neck.width: cannot read "(laser)". Name a tool or an origin, e.g. (calliper), (rule), (data sheet) or (assumed).',
    ],
    [
      "17 cents (calliper)",
      "cents",
      "neck.width: calliper does not read an interval in cents. Name the tool that was used.",
    ],
    ["12 mm (k=2)", "length", "neck.width: k = 2 stands without a ±. Write the ± that it belongs to, e.g. ±0.2 (k=2)."],
    [
      "10 mil",
      "length",
      "neck.width: mil can mean a millimetre or a thousandth of an inch. Write a length with its unit, e.g. 648 mm or 25 1/2 in.",
    ],
    ["1 m", "resistance", "neck.width: m can mean milliohms or megohms. Write a number with Ω, k or M, e.g. 500k."],
    [Number.NaN, "length", "neck.width: NaN is not a number. Write a length with its unit, e.g. 648 mm or 25 1/2 in."],
    ["1/0 in", "length", "neck.width: 1/0 divides by zero. Correct the lower figure of the fraction."],
  ])("refuses %s (%s)", (text, kind, message) => {
    expect(() => read(text, kind)).toThrow(message);
  });

  it.each([
    "12 mm mm",
    "1 2 mm",
    "12..5 mm",
    "12 ±mm",
    "±0.2 mm",
    "12 ±0.2 ±0.3 mm",
    "12 ±-0.2 mm",
    "12 (rule mm",
    "12 mm )",
    "10² mm",
    "1e999 mm",
    "12 mm (exact) ±0.1",
    "0x10 mm",
    "1_000 mm",
    "2 ft 3 ft",
    "Infinity",
    "１２ mm",
    "12 ; mm",
    "1 h 30 min",
  ])("refuses %s as a length", (text) => {
    expect(() => read(text)).toThrow(InputError);
  });

  it("takes megohms and milliohms apart", () => {
    expect(read("1 MΩ", "resistance").value).toBe(1e6);
    expect(read("1 mΩ", "resistance").value).toBe(1e-3);
    expect(() => read("1 mOhm", "resistance")).toThrow(InputError);
  });

  it("refuses texts over 120 characters", () => {
    expect(() => read(`${"1".repeat(118)} mm`)).toThrow(/^neck\.width: is 121 characters long, more than 120/);
    expect(read(`${"0".repeat(114)}12 mm`).value).toBe(12);
  });

  it("refuses what lies under the smallest value wanted", () => {
    expect(() => read("-1 mm", "length", { min: 0 })).toThrow('neck.width: must be at least 0 mm, got "-1 mm".');
    expect(read("0 mm", "length", { min: 0 }).value).toBe(0);
  });

  it("refuses a group tool that does not exist", () => {
    expect(() => read("12 mm", "length", { tool: "laser" })).toThrow(/no measuring tool is called "laser"/);
  });

  it.each([[true], [null], [undefined], [{}], [["12 mm"]]])("refuses %o, which a file may hold", (value) => {
    // A file's content is not typed, so the cast stands for what a reader of files might let through.
    expect(() => read(value as unknown as string)).toThrow(/^neck\.width: must be text or a number/);
  });

  it("throws nothing but an InputError that names the path, whatever the text", () => {
    const scraps = fc.constantFrom(
      ..."0 1 2 . , / - + ± ½ ¼ μ µ Ω Ω ″ ′ ' \" ( ) % ° : e k n M mm in ft h min rule k=2 calliper data sheet".split(
        " ",
      ),
      " ",
      "\u0000",
      "\ud800",
    );
    const made = fc.array(scraps, { maxLength: 25 }).map((list) => list.join(""));
    const text = fc.oneof(
      made,
      fc.string({ unit: "binary", maxLength: 130 }),
      fc.string({ unit: "grapheme", maxLength: 60 }),
    );
    const path = fc.constantFrom("body.holes.old-screws.u", "strings[2].gauge");
    fc.assert(
      fc.property(fc.oneof(text, fc.double()), fc.constantFrom(...KINDS), path, (input, kind, where) => {
        try {
          const value = parseQuantity(input, { path: where, kind });
          expect(Number.isFinite(value.value)).toBe(true);
          expect(standardUncertainty(value)).toBeGreaterThanOrEqual(0);
          expect(Number.isFinite(standardUncertainty(value))).toBe(true);
        } catch (error) {
          expect(error).toBeInstanceOf(InputError);
          expect((error as InputError).message.startsWith(`${where}: `)).toBe(true);
        }
      }),
      { ...RUNS, numRuns: 8000 },
    );
  });
});
