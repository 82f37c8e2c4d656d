import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readHoleRows } from "../../../src/core/begin/hole-rows.ts";
import { InputError } from "../../../src/core/errors.ts";

const want = {
  entry: "old-holes",
  tool: "steel rule",
  sizeTool: "drill shank",
  minAlongMm: 100,
  maxAlongMm: 700,
  from: "from fret 12",
};
const rows = (text: string) =>
  readHoleRows(text, want).map((row) => ({
    along: Number(row.along.valueMm.toFixed(6)),
    across: row.across.map(({ valueMm }) => valueMm),
    ...(row.diameter ? { diameter: row.diameter.valueMm } : {}),
    ...(row.depth ? { depth: row.depth.valueMm } : {}),
    ...(row.through ? { through: true } : {}),
  }));

describe("readHoleRows", () => {
  it.each([
    ["395.5: 5 at 10", [{ along: 395.5, across: [-20, -10, 0, 10, 20] }]],
    ["395.5 5 at 10.0", [{ along: 395.5, across: [-20, -10, 0, 10, 20] }]],
    ["395.5: 2 x 74", [{ along: 395.5, across: [-37, 37] }]],
    ["395.5: -20 -10 0 10 20", [{ along: 395.5, across: [-20, -10, 0, 10, 20] }]],
    ["395.5: 20 -20 0", [{ along: 395.5, across: [-20, 0, 20] }]],
    ["395.5 -20 0 20", [{ along: 395.5, across: [-20, 0, 20] }]],
    ["395.5: on the centre line", [{ along: 395.5, across: [0] }]],
    ["395.5: 0", [{ along: 395.5, across: [0] }]],
    // Running from the first hole, so the middle of 0 and 40 lies on the centre line.
    ["395.5: 0 10 20 30 40", [{ along: 395.5, across: [-20, -10, 0, 10, 20] }]],
    // The rule lay with fret 12 on its 100 mark.
    ["100 495.5: 5 at 10", [{ along: 395.5, across: [-20, -10, 0, 10, 20] }]],
    ["387: 2 at 31.2 through", [{ along: 387, across: [-15.6, 15.6], through: true }]],
    ["15 1/2 in: 2 at 20 mm", [{ along: 393.7, across: [-10, 10] }]],
    ["395,5 -20 0 20", [{ along: 395.5, across: [-20, 0, 20] }]],
    [
      "395.5: 2 at 20 dia 3.2 deep 22; 387: 1 at 5",
      [
        { along: 395.5, across: [-10, 10], diameter: 3.2, depth: 22 },
        // Sizes said once hold for the rows that say nothing.
        { along: 387, across: [0], diameter: 3.2, depth: 22 },
      ],
    ],
  ])("reads %j", (text, expected) => {
    expect(rows(text)).toEqual(expected);
  });

  it("reads places with the rule, sizes with the drill shank, and another tool where one is named", () => {
    const [row] = readHoleRows("395.5: 2 at 20 dia 3.2", want);
    expect([row?.along.by, row?.across[0]?.by, row?.diameter?.by]).toEqual(["steel rule", "steel rule", "drill shank"]);
    const [other] = readHoleRows("395.5: 2 at 20 dia 3.2 (calliper)", want);
    expect([other?.along.by, other?.diameter?.by]).toEqual(["calliper", "calliper"]);
  });

  it("drills no sixth hole for the decimal comma of a size", () => {
    // Five places and a hole 3.2 wide; the 2 behind the comma is no hole at +2.
    expect(rows("395: -20 -10 0 10 20 dia 3,2")).toEqual([
      { along: 395, across: [-20, -10, 0, 10, 20], diameter: 3.2 },
    ]);
  });

  it.each(["to 26", "- 26", "-26", "x 26", ", 26", "26"])(
    "asks about a depth of 24 %s instead of drilling a hole at 26",
    (more) => {
      expect(() => rows(`395: -21 0 21 deep 24 ${more}`)).toThrow(/a figure behind the size of a hole/);
    },
  );

  it("gives the ± behind a size to the size, not to the last hole", () => {
    const [row] = readHoleRows("395: -21 0 21 dia 3.5 ±0.5", want);
    expect(row?.diameter?.written).toBe("3.5 mm ±0.5 (drill shank)");
    expect(row?.across.map(({ written }) => written)).toEqual([
      "-21 mm (steel rule)",
      "0 mm (steel rule)",
      "21 mm (steel rule)",
    ]);
  });

  // One inch is 25.4: 15 5/16 in is 388.9375, 13/16 is 20.6375, 13/32 is 10.31875.
  it("reads a whole row in inches where the unit stands once, behind the last figure, and keeps the hole at 0", () => {
    expect(rows("15 5/16: -13/16 -13/32 0 13/32 13/16 in")).toEqual([
      { along: 388.9375, across: [-20.6375, -10.31875, 0, 10.31875, 20.6375] },
    ]);
    expect(rows("15 5/16: 5 at 13/32 in; 15: 1 at 1 in")).toEqual([
      { along: 388.9375, across: [-20.6375, -10.31875, 0, 10.31875, 20.6375] },
      { along: 381, across: [0] },
    ]);
    expect(rows("15 5/16 -13/16 0 13/16 in")).toEqual([{ along: 388.9375, across: [-20.6375, 0, 20.6375] }]);
  });

  it.each([
    "15 in: 2 at 20",
    "15: 2 at 1 in; 387: 1 at 5",
    "395: 2 at 20 dia 1/8 in",
    "15: 2 at 1 in dia 3.2",
    "15 in: 2 at 20 mm dia 3.2",
  ])("asks which unit is meant in %j", (text) => {
    expect(() => rows(text)).toThrow(/unit behind some figures and none behind others/);
  });

  it.each([
    ["395 1/2: 5 at 10", /395 1\/2 could be inches or millimetres/],
    ["395: -20 5 at 10", /cannot read "at"/],
    ["holes", /as rows of holes/],
    ["395.5", /as rows of holes/],
    ["395.5:", /where the holes stand across/],
    ["39.5: 5 at 10", /39.5 mm from fret 12 cannot be: 100 to 700 mm is possible/],
    ["395.5: 0 at 10", /0 holes in a row/],
    ["395.5: 99 at 10", /99 holes in a row/],
    ["1 2 3: 5 at 10", /3 figures along/],
    ["395.5: 5 at 10 20", /2 figures for the distance from hole to hole/],
    ["395.5: -150 0", /cannot be a place across/],
    ["387 395.5", /395.5 mm cannot be a place across/],
    [`${"395.5: 0;".repeat(9)}`, /9 rows/],
  ])("refuses %j and says why", (text, why) => {
    expect(() => readHoleRows(text, want)).toThrow(why);
  });

  it("refuses or reads any text", () => {
    const word = fc.constantFrom("395", "5", "at", "x", ":", ";", "10", "-3", "0", "dia", "through", "deep", "(", "mm");
    const text = fc.oneof(
      fc.string({ maxLength: 40 }),
      fc.array(word, { maxLength: 12 }).map((all) => all.join(" ")),
    );
    fc.assert(
      fc.property(text, (typed) => {
        try {
          for (const row of readHoleRows(typed, want)) expect(row.across.length).toBeGreaterThan(0);
        } catch (error) {
          if (!(error instanceof InputError)) throw error;
          expect(error.where).toBe("old-holes");
        }
      }),
      { seed: 12, numRuns: 400 },
    );
  });
});
