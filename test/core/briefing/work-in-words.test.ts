import { describe, expect, it } from "vitest";
import { workInWords } from "../../../src/core/briefing/index.ts";
import { showPhrase } from "../../../src/core/quantity/index.ts";
import type { Work } from "../../../src/core/verdict/index.ts";

const hole = { id: "h1", u: 0, y: 0, diameter: 2.5, thread: 3, depth: 24 };

/** One of each act, so that a new act without words fails here as well as in the types. */
const WORK: readonly (readonly [Work, string])[] = [
  [
    { act: "plug", holes: [{ id: "p", u: 0, y: 0, diameter: 6, depth: 22 }], diameter: 6, cause: "" },
    "Plug 1 hole with 6.0 mm plugs cut with the body's grain, glue, let cure",
  ],
  [
    { act: "drill", group: "bridge screws", holes: [hole, hole], intoPlugs: true },
    "Drill 2 new holes (bridge screws) into the cured plugs, bit guided",
  ],
  [{ act: "drill", group: "bridge screws", holes: [hole], intoPlugs: false }, "Drill 1 new hole (bridge screws)"],
  [
    { act: "rout", cavity: "bridge", what: "the ears", lengthBy: 2, widthBy: 2.5, depthBy: 0 },
    "Rout the ears (bridge) 2.0 mm longer, 2.5 mm wider",
  ],
  [
    { act: "ream", where: "pot holes", count: 3, from: 8, to: 9.6 },
    "Open 3 holes (pot holes) from 8.0 mm to 9.6 mm with a reamer or step bit",
  ],
  [
    { act: "spot-face", where: "volume", depth: 2, leaves: 5 },
    "Thin the wood from inside at volume by 2.0 mm; 5.0 mm is left",
  ],
  [
    { act: "slot", where: "lever", from: 26, to: 30.5, screwOffset: 23, cover: "the escutcheon covers the old holes" },
    "Lengthen the slot (lever) from 26.0 mm to 30.5 mm, screws 23.00 mm to either side; the escutcheon covers the old holes",
  ],
  [
    { act: "slot", where: "lever", from: 26, to: 26, screwOffset: 23, cover: "" },
    "Drill the screw holes (lever) 23.00 mm to either side of the slot's middle",
  ],
  [
    { act: "slot", where: "lever", from: 26, to: 30.5, screwOffset: 0, cover: "" },
    "Lengthen the slot (lever) from 26.0 mm to 30.5 mm",
  ],
  [
    { act: "shim", thickness: 0.63, length: 76, angleDegrees: 0.5 },
    "Fit a full-pocket shim, 0.63 mm thick at the heel's end, none at the other, 76.0 mm long (0.50°)",
  ],
  [
    {
      act: "nut slots",
      widths: [
        { string: 1, from: 0.28, to: 0.38 },
        { string: 2, from: 0.36, to: 0.51 },
      ],
    },
    "Widen 2 nut slots: string 1 to 0.38 mm, string 2 to 0.51 mm",
  ],
  [{ act: "insulate", where: "the wall beside the lever" }, "Insulate the wall beside the lever"],
  [{ act: "bare contact", where: "the plate's underside" }, "Make a bare contact at the plate's underside"],
  [{ act: "buy", what: "a sleeve", spec: "6.0 to 6.35" }, "Buy a sleeve: 6.0 to 6.35"],
  [{ act: "choose", what: "load from the top" }, "Load from the top"],
  [{ act: "take off", part: "the old bridge" }, "Take off the old bridge"],
  [{ act: "fit", part: "the new bridge" }, "Fit the new bridge"],
  [{ act: "restring", set: "the new set" }, "Restring with the new set"],
];

describe("workInWords", () => {
  it.each(WORK)("%o", (work, words) => {
    expect(showPhrase(workInWords(work))).toBe(words);
  });

  it("keeps every length a figure, so that inches can be shown", () => {
    const inInches = WORK.map(([work]) => showPhrase(workInWords(work), "inch"));
    expect(inInches.filter((words) => words.includes(" mm"))).toEqual([]);
  });
});
