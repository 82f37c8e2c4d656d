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

  it.each([
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
