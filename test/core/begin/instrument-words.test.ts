import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readDescription } from "../../../src/core/begin/instrument-words.ts";
import { InputError } from "../../../src/core/errors.ts";

const read = (text: string | undefined) => {
  const { said: _, ...rest } = readDescription(text, "what");
  return rest;
};
const USUAL = {
  kind: "guitar",
  strings: 6,
  leftHanded: false,
  multiScale: false,
  bridge: "flat plate",
  drilling: "hand drill",
  scaleMm: [],
};

describe("readDescription", () => {
  it.each([
    [undefined, {}],
    ["", {}],
    ["6 strings", {}],
    ["bass", { kind: "bass", strings: 4 }],
    ["a five-string bass guitar, left handed", { kind: "bass", strings: 5, leftHanded: true }],
    [
      "7 strings, multi-scale, single units, left-handed",
      { strings: 7, multiScale: true, bridge: "single units", leftHanded: true },
    ],
    [
      "left-handed single-string units, fanned frets, 8",
      { strings: 8, multiScale: true, bridge: "single units", leftHanded: true },
    ],
    ["two posts, drill press", { bridge: "two posts", drilling: "drill press" }],
    ["2 posts, 7 strings", { bridge: "two posts", strings: 7 }],
    ["hardtail plate, self-centring bit through the plate", { drilling: "self-centring bit through the plate" }],
    ["9 strings square fret 9", { strings: 9, multiScale: true, squareFret: 9 }],
    ["fret 7 is square", { multiScale: true, squareFret: 7 }],
    ["7 strings multi-scale 635 686", { strings: 7, multiScale: true, scaleMm: [635, 686] }],
    // 25 1/2 in is 647.7 mm exactly.
    ["25 1/2 in", { scaleMm: [647.7] }],
    ["25-1/2 inch, six", { scaleMm: [647.7] }],
  ])("reads %j", (text, differs) => {
    expect(read(text)).toEqual({ ...USUAL, ...differs });
  });

  it("knows what was said and what was not", () => {
    expect([...readDescription("7 strings, left", "what").said].sort()).toEqual(["hand", "strings"]);
  });

  it.each([
    ["6 stings", /does not know "stings"/],
    ["6 strings, fury", /does not know "fury"/],
    ["6 7 strings", /says both 7 and 6/],
    ["left or right", /does not know "or"/],
    ["left, right", /says both left and right/],
    ["3 strings", /3 strings/],
    ["12 strings", /12 strings/],
    ["square fret 30", /fret 30 stands square/],
    ["1200", /1200 mm is no scale length/],
    ["600 610 620", /3 scale lengths/],
  ])("refuses %j and says why", (text, why) => {
    expect(() => readDescription(text, "what")).toThrow(why);
  });

  it("does not mind the order", () => {
    const words = ["7 strings", "multi-scale", "single units", "left-handed", "drill press", "square fret 9"];
    fc.assert(
      fc.property(fc.shuffledSubarray(words, { minLength: words.length }), (shuffled) => {
        expect(read(shuffled.join(", "))).toEqual(read(words.join(", ")));
      }),
      { seed: 13 },
    );
  });

  it("refuses or reads any text", () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 60 }), (text) => {
        try {
          expect(read(text).strings).toBeGreaterThanOrEqual(4);
        } catch (error) {
          if (!(error instanceof InputError)) throw error;
          expect(error.where).toBe("what");
        }
      }),
      { seed: 14, numRuns: 300 },
    );
  });
});
