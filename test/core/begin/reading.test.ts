import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readLengths, writtenScaled } from "../../../src/core/begin/reading.ts";
import { InputError } from "../../../src/core/errors.ts";
import { parseQuantity } from "../../../src/core/quantity/index.ts";

const want = { entry: "travel", tool: "steel rule", minMm: -50, maxMm: 2000, what: "such a length" };
const values = (text: string) => readLengths(text, want).map(({ valueMm }) => valueMm);

describe("readLengths", () => {
  // One inch is 25.4 mm exactly.
  it.each<[string, number[]]>([
    ["324", [324]],
    ["11.5 16", [11.5, 16]],
    ["11.5-16", [11.5, 16]],
    ["11.5 - 16", [11.5, 16]],
    ["11.5 to 16 mm", [11.5, 16]],
    ["69 x 38.2 x 15", [69, 38.2, 15]],
    ["69x38,2x15", [69, 38.2, 15]],
    ["36, 52.5", [36, 52.5]],
    ["-20 -10 0 10 20", [-20, -10, 0, 10, 20]],
    ["12 3/4 in", [323.85]],
    ["12-3/4 in", [323.85]],
    ["3/8 1/4 in", [9.525, 6.35]],
    ["12.3 ±0.2 mm (rule)", [12.3]],
    ["12 1/2 ±1/16 in", [317.5]],
    ["1.2 cm", [12]],
    // A mixed number does not begin with 0: two figures.
    ["0 13/32 in", [0, 10.31875]],
    ["-1/2 0 1/2 in", [-12.7, 0, 12.7]],
    ["0.25", [0.25]],
  ])("reads %j", (text, expected) => {
    expect(values(text).map((value) => Number(value.toFixed(9)))).toEqual(expected);
  });

  it("takes the entry's tool unless another is named, in brackets or in words", () => {
    // Standard uncertainties of one reading: steel rule 0.25, calliper 0.05 (core/quantity/tools.ts).
    expect(readLengths("324", want)[0]).toMatchObject({ by: "steel rule", uMm: 0.25, written: "324 mm (steel rule)" });
    expect(readLengths("16 (calliper)", want)[0]).toMatchObject({ by: "calliper", uMm: 0.05 });
    expect(readLengths("11.5 16 with a calliper", want).map(({ by }) => by)).toEqual(["calliper", "calliper"]);
    expect(readLengths("648 (data sheet)", want)[0]).toMatchObject({ by: "data sheet", measured: false });
  });

  it.each([
    ["", /cannot read/],
    ["wide", /cannot read "wide"/],
    ["324 (hammer)", /cannot read "\(hammer\)"/],
    ["324 (rule) (calliper)", /names 2 tools/],
    ["324 (rule", /cannot read/],
    ["10 kg", /cannot read/],
    ["12 in 300", /unit behind some figures/],
    ["0,178,193", /Put a space between them/],
    ["7/16 5/8", /7\/16 could be inches or millimetres/],
    ["3000", /3000 mm cannot be such a length: -50 to 2000 mm is possible/],
    ["1/0 in", /divides by zero/],
    ["1,234", /could be 1234 or 1\.234/],
  ])("refuses %j and says why", (text, why) => {
    expect(() => readLengths(text, want)).toThrow(why);
    expect(() => readLengths(text, want)).toThrow(InputError);
  });

  it("refuses or reads any text, and writes what a job file reads back as the same value", () => {
    const text = fc.oneof(
      fc.string({ maxLength: 40 }),
      fc
        .array(fc.constantFrom("12", "3/4", "-7.5", "1,5", "in", "mm", "±", "(rule)", "x", "to", "%", "-", "(", "()"))
        .map((words) => words.join(" ")),
    );
    fc.assert(
      fc.property(text, (typed) => {
        try {
          for (const one of readLengths(typed, want)) {
            const back = parseQuantity(one.written, { path: "p", kind: "length", bareUnit: "mm" });
            expect(back.value).toBe(one.valueMm);
          }
        } catch (error) {
          if (!(error instanceof InputError)) throw error;
          expect(error.where).toBe("travel");
        }
      }),
      { seed: 11, numRuns: 400 },
    );
  });
});

describe("writtenScaled", () => {
  const doubt = (text: string) => {
    const known = parseQuantity(text, { path: "p", kind: "length" });
    return { value: known.value, tool: known.tool, u: Math.hypot(...known.doubt.map(({ u }) => u)) };
  };

  it("carries the doubt along: twice a reading is twice as doubtful, a shifted one as before", () => {
    const [half] = readLengths("317.5", want);
    expect(doubt(writtenScaled(half!, { factor: 2 }))).toEqual({ value: 635, tool: "steel rule", u: 0.5 });
    expect(doubt(writtenScaled(half!, { shiftMm: 10 }))).toEqual({ value: 327.5, tool: "steel rule", u: 0.25 });
  });

  it("keeps an exact figure exact", () => {
    const [exact] = readLengths("30 (exact)", want);
    expect(doubt(writtenScaled(exact!, { factor: 0.5 }))).toMatchObject({ value: 15, u: 0 });
  });
});
