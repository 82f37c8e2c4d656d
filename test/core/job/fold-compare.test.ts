import { describe, expect, it } from "vitest";
import { compareStates } from "../../../src/core/job/compare-states.ts";
import { foldInstrument } from "../../../src/core/job/fold.ts";
import type { LogEntry } from "../../../src/core/job/operation.ts";
import { showPhrase } from "../../../src/core/quantity/index.ts";
import type { Work } from "../../../src/core/verdict/index.ts";
import { makeInstrument } from "./fixture.ts";

const found = makeInstrument();
const plugs: LogEntry = {
  id: "plug",
  work: { act: "plug", holes: [{ id: "old-screws#3", u: 0, y: 0, diameter: 3, depth: 20 }], diameter: 6, cause: "" },
};
const drill = (u: number, y: number, depth = 24): LogEntry => ({
  id: "drill",
  work: {
    act: "drill",
    group: "bridge-screws",
    holes: [{ id: "bridge-screws#3", u, y, diameter: 2.5, thread: 3, depth }],
    intoPlugs: false,
  },
});
const texts = (
  planned: readonly LogEntry[],
  actual: readonly LogEntry[],
  units: "mm" | "inch" = "mm",
  instrument = found,
) =>
  compareStates(foldInstrument(instrument, planned).instrument, foldInstrument(instrument, actual).instrument).map(
    (difference) => showPhrase(difference.text, units),
  );

describe("compareStates", () => {
  it("[ST10] finds nothing where nothing differs, and nothing below a calliper's doubt", () => {
    expect(texts([plugs, drill(204.9, 0)], [plugs, drill(204.9, 0)])).toEqual([]);
    expect(texts([drill(204.9, 0)], [drill(204.95, -0.05)])).toEqual([]);
  });

  it("[ST10] says where a hole went, as the player names the sides", () => {
    const [back] = compareStates(
      foldInstrument(found, [drill(204.9, 0)]).instrument,
      foldInstrument(found, [drill(205.7, 0)]).instrument,
    );
    expect(back?.mm).toBeCloseTo(0.8, 10);
    expect(texts([drill(204.9, 0)], [drill(205.7, 0)])).toEqual([
      "hole bridge-screws#3 stands 0.80 mm further back than planned",
    ]);
    expect(texts([drill(204.9, 0)], [drill(205.7, 0)], "inch")).toEqual([
      "hole bridge-screws#3 stands 0.031 in further back than planned",
    ]);
    expect(texts([drill(204.9, 0)], [drill(204, 0)])).toEqual([
      "hole bridge-screws#3 stands 0.90 mm further forward than planned",
    ]);
    // Right-handed: the bass side is y < 0. Left-handed: y > 0.
    expect(texts([drill(204.9, 0)], [drill(204.9, -0.4)])).toEqual([
      "hole bridge-screws#3 stands 0.40 mm further to the bass side than planned",
    ]);
    expect(texts([drill(204.9, 0)], [drill(204.9, -0.4)], "mm", makeInstrument({ bassSide: 1 }))).toEqual([
      "hole bridge-screws#3 stands 0.40 mm further to the treble side than planned",
    ]);
  });

  it("[ST10] says what is missing, extra, through, still open", () => {
    expect(texts([plugs, drill(204.9, 0)], [])).toEqual([
      "hole old-screws#3 is still open and planned to be plugged",
      "hole bridge-screws#3 is planned and not there yet",
    ]);
    expect(texts([], [drill(204.9, 0)])).toEqual(["hole bridge-screws#3 was not planned"]);
    expect(texts([drill(204.9, 0)], [drill(204.9, 0, 50)])).toEqual([
      "hole bridge-screws#3 went right through, which was not planned",
    ]);
    expect(texts([drill(204.9, 0)], [drill(204.9, 0, 21)])).toEqual([
      "hole bridge-screws#3 is 3.00 mm shallower than planned",
    ]);
  });

  it.each<[Work, Work | undefined, string]>([
    [
      { act: "rout", cavity: "bridge", what: "ears", lengthBy: 2, widthBy: 2.5, depthBy: 0 },
      { act: "rout", cavity: "bridge", what: "ears", lengthBy: 2, widthBy: 3, depthBy: 0 },
      "ear rout of bridge is 0.50 mm wider than planned",
    ],
    [
      { act: "spot-face", where: "volume", depth: 2, leaves: 5 },
      { act: "spot-face", where: "volume", depth: 2.4, leaves: 4.6 },
      "wood at volume is 0.40 mm thinner than planned",
    ],
    [{ act: "shim", thickness: 0.9, length: 76, angleDegrees: 0.5 }, undefined, "shim is 0.90 mm thinner than planned"],
    [
      { act: "nut slots", widths: [{ string: 6, from: 1.2, to: 1.63 }] },
      { act: "nut slots", widths: [{ string: 6, from: 1.2, to: 1.7 }] },
      "nut slot of string 6 is 0.07 mm wider than planned",
    ],
    [{ act: "fit", part: "neck" }, undefined, "neck is planned to be on and has not been fitted"],
    [
      { act: "ream", where: "tuners", count: 6, from: 8.8, to: 10 },
      { act: "ream", where: "tuners", count: 6, from: 8.8, to: 10.4 },
      "tuner holes are 0.40 mm wider than planned",
    ],
  ])("[ST10] %j", (planned, actual, text) => {
    expect(texts([{ id: "a", work: planned }], actual ? [{ id: "a", work: actual }] : [])).toEqual([text]);
  });
});
