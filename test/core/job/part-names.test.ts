import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { loadJob } from "../../../src/core/index.ts";
import type { Resolved } from "../../../src/core/job/index.ts";

interface File {
  fettle: Record<string, number>;
  parts: Record<string, object>;
  fit: { controls: Record<string, object> };
  operations?: object[];
  readings?: object[];
}

function lowtide(...works: readonly object[]): Resolved {
  const file = parse(readFileSync("examples/lowtide.yaml", "utf8")) as File;
  file.fettle = { ...file.fettle, operations: 1 };
  file.readings = [...(file.readings ?? []), { id: "action", of: "strings.1.action", value: "1.8 mm (rule)" }];
  file.operations = works.map((work, index) => ({ id: `r${index + 1}`, work, doneAt: `2026-05-0${index + 1}T10:00` }));
  return loadJob(file).resolved;
}

/** What of the old state still counts: the line carried over, the relief, and six trials of cents. */
function leftOf(resolved: Resolved): string[] {
  return resolved.valid
    .map(({ subject }) => subject)
    .filter((subject) => /^scaleLine\.u$|^neck\.relief$|\.cents$|\.action$/.test(subject))
    .sort();
}

// As found: scaleLine.u, neck.relief, strings 1 to 6 cents: 8 readings (the spare third's cents stand under spares).
const CENTS = [1, 2, 3, 4, 5, 6].map((string) => `strings.${string}.cents`);

describe("a part put on by its own id or name makes void what its kind does", () => {
  it("leaves all of it where nothing was done", () => {
    expect(leftOf(lowtide())).toEqual(
      expect.arrayContaining(["scaleLine.u", "neck.relief", "strings.1.action", ...CENTS]),
    );
  });

  it.each(["neck", "conversion neck", "Conversion Neck", "the new neck", "old neck"])(
    "[ST13] %s is the neck",
    (part) => {
      const after = lowtide({ act: "fit", part });
      // What the trials say of the strings does not hang on the neck's place.
      expect(leftOf(after).filter((subject) => !/spares/.test(subject))).toEqual(CENTS);
      expect(after.instrument.fitted).toEqual({ neck: true });
    },
  );

  it.each(["bridge", "groyne", "Quayside Groyne hardtail plate", "the old bridge"])(
    "[ST13] %s is the bridge",
    (part) => {
      const after = lowtide({ act: "fit", part });
      // Line, relief and trials do not hang on the bridge; the action does.
      expect(leftOf(after).filter((subject) => !/spares/.test(subject))).toEqual([
        "neck.relief",
        "scaleLine.u",
        ...CENTS,
      ]);
      expect(after.instrument.fitted).toEqual({ bridge: true });
    },
  );

  it.each([
    ["cleat", "tuners"],
    ["deep-six", "strings"],
    ["Tern Shoal", "pickup.neck"],
    ["pickup.neck", "pickup.neck"],
    ["volume", "control.volume"],
    ["control.volume", "control.volume"],
    ["tiller", "lever"],
    ["ebonite", "knobs"],
    ["long-cog", "control.long-cog"],
    ["wiring", "wiring"],
  ])("[ST13] %s is kept as %s", (part, kept) => {
    expect(lowtide({ act: "fit", part }).instrument.fitted).toEqual({ [kept]: true });
  });

  it("takes the old off and puts the new on under one name", () => {
    const after = lowtide({ act: "take off", part: "the old bridge" }, { act: "fit", part: "groyne" });
    expect(after.instrument.fitted).toEqual({ bridge: true });
  });

  it("a new nut's slots are not those read in the old one", () => {
    const file = parse(readFileSync("examples/lowtide.yaml", "utf8")) as File;
    const { resolved } = loadJob({
      ...file,
      fettle: { ...file.fettle, operations: 1 },
      readings: [{ id: "slot", of: "neck.nutSlots[0]", value: "0.28 mm (calliper)" }],
      operations: [{ id: "r1", work: { act: "fit", part: "nut" } }],
    });
    expect(resolved.voided).toContainEqual({ reading: "slot", by: "r1", why: "the nut is a new one" });
  });
});

describe("a part that there is not", () => {
  it("[ST13] is refused with the list of those there are", () => {
    expect(() => lowtide({ act: "fit", part: "X" })).toThrow(
      /^operations\[0\]\.work\.part: there is no part "X"\. Write one of: neck, bridge, .*groyne/,
    );
  });

  it("[ST13] one part at three places: the place has to be named", () => {
    const file = parse(readFileSync("examples/lowtide.yaml", "utf8")) as File;
    const same = { part: "cog-volume" };
    expect(() =>
      loadJob({
        ...file,
        fettle: { ...file.fettle, operations: 1 },
        fit: { ...file.fit, controls: { volume: same, "treble-cut": same, "bass-cut": same } },
        operations: [{ id: "r1", work: { act: "take off", part: "cog-volume" } }],
      }),
    ).toThrow(/"cog-volume" is at control\.volume, control\.treble-cut, control\.bass-cut\. Write which of them/);
  });
});
