import { describe, expect, it } from "vitest";
import { foldInstrument, voidOf } from "../../../src/core/job/fold.ts";
import { covers, voidsOf } from "../../../src/core/job/voids.ts";
import type { Work } from "../../../src/core/verdict/index.ts";
import { makeInstrument } from "./fixture.ts";

const voids = (work: Work, subject: string): boolean => voidsOf(work).some((rule) => covers(rule.subject, subject));

describe("covers", () => {
  it.each([
    ["neck.plane", "neck.plane", true],
    ["neck.plane", "neck.plane.fretHeight", true],
    ["neck.plane", "neck.planed", false],
    ["neck.plane.fretHeight", "neck.plane", false],
    ["strings.*.cents", "strings.3.cents", true],
    ["strings.*.cents", "strings.3.action", false],
    ["neck.nutSlots", "neck.nutSlots[2]", true],
    ["controls.volume.hole", "controls.volume.wood", false],
  ])("[ST6] %s and %s: %s", (pattern, subject, expected) => {
    expect(covers(pattern, subject)).toBe(expected);
  });
});

describe("voidsOf", () => {
  const shim: Work = { act: "shim", thickness: 1, length: 76, angleDegrees: 0.5 };
  const drill: Work = { act: "drill", group: "g", holes: [], intoPlugs: false };
  it.each<[Work, string[], string[]]>([
    [
      shim,
      ["neck.plane.heelThickness", "strings.1.action", "scaleLine.u", "asLeft.strings.1.cents"],
      ["neck.relief", "neck.nutToFret12", "body.tailEdge", "ohms.1", "strings.1.cents"],
    ],
    [
      { act: "nut slots", widths: [] },
      ["strings.2.nutHeight", "strings.2.cents", "neck.nutSlots[1]"],
      ["strings.2.action", "neck.relief"],
    ],
    [
      { act: "restring", set: "new" },
      ["neck.relief", "strings.6.cents", "strings.6.action", "strings.6.tension"],
      ["scaleLine.u", "neck.nutSlots[1]"],
    ],
    [
      { act: "take off", part: "neck" },
      ["scaleLine.u", "neck.relief", "neck.heelGap"],
      ["neck.nutToFret12", "ohms.1", "strings.1.cents"],
    ],
    [{ act: "take off", part: "strings" }, ["neck.relief", "asLeft.strings.1.cents"], ["strings.1.cents"]],
    [{ act: "fit", part: "bridge" }, ["strings.1.action", "asLeft.strings.1.cents"], ["strings.1.cents"]],
    [{ act: "fit", part: "nut" }, ["strings.1.cents", "neck.nutSlots[1]"], ["neck.relief"]],
    [{ act: "fit", part: "pickup.neck" }, ["ohms.1"], ["neck.relief", "scaleLine.u"]],
    [
      { act: "ream", where: "volume", count: 1, from: 8, to: 9.6 },
      ["controls.volume.hole"],
      ["controls.volume.wood", "controls.tone.hole"],
    ],
    [{ act: "ream", where: "tuners", count: 6, from: 8.8, to: 10 }, ["headstock.hole"], ["headstock.thickness"]],
    [
      { act: "spot-face", where: "control.volume", depth: 1, leaves: 5 },
      ["controls.volume.wood", "controls.volume.freeDepth"],
      ["controls.volume.hole"],
    ],
    [
      { act: "rout", cavity: "neck", what: "", lengthBy: 1, widthBy: 0, depthBy: 0 },
      ["body.cavities.neck.length"],
      ["body.cavities.middle.length"],
    ],
    [drill, [], ["scaleLine.u", "neck.relief", "strings.1.cents", "ohms.1", "body.holes.old-screws.u"]],
  ])("[ST6] %j", (work, gone, stay) => {
    for (const subject of gone) expect(voids(work, subject), subject).toBe(true);
    for (const subject of stay) expect(voids(work, subject), subject).toBe(false);
  });

  it("[ST6] only what was read before is void, and an undone operation voids nothing", () => {
    const found = makeInstrument();
    const log = [
      { id: "one", work: shim },
      { id: "two", work: { act: "restring", set: "new" } as Work },
    ];
    const folded = foldInstrument(found, log);
    expect(voidOf({ subject: "strings.1.action" }, folded)?.by).toBe("one");
    expect(voidOf({ subject: "strings.1.action", after: "one" }, folded)?.by).toBe("two");
    expect(voidOf({ subject: "strings.1.action", after: "two" }, folded)).toBeUndefined();
    const undone = foldInstrument(found, [...log, { id: "three", undoes: "two" }]);
    expect(voidOf({ subject: "neck.relief" }, undone)).toBeUndefined();
    expect(voidOf({ subject: "neck.relief", after: "two" }, undone)).toMatchObject({
      by: "two",
      why: expect.stringContaining("undone"),
    });
  });
});
