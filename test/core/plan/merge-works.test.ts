import { describe, expect, it } from "vitest";
import { mergeWorks } from "../../../src/core/plan/index.ts";
import { makeVerdict, WORKS } from "./fixture.ts";

describe("mergeWorks", () => {
  it("[PL13] one spot-face cures two verdicts (demo B: B-T3 and B-T4): the deeper one, both named", () => {
    const works = mergeWorks([
      makeVerdict("control.vt1.depth", { work: [{ act: "spot-face", where: "vt1", depth: 1, leaves: 5 }] }),
      makeVerdict("control.vt1.bushing", { work: [{ act: "spot-face", where: "control.vt1", depth: 3, leaves: 3 }] }),
    ]);
    expect(works).toEqual([
      {
        work: { act: "spot-face", where: "control.vt1", depth: 3, leaves: 3 },
        cause: ["control.vt1.depth", "control.vt1.bushing"],
      },
    ]);
  });

  it("[PL13] plugs, slots and routs of one place add up to the larger", () => {
    const [first, ...others] = WORKS.plug.holes;
    if (!first) throw new Error("fixture");
    const works = mergeWorks([
      makeVerdict("a", {
        work: [
          { ...WORKS.plug, holes: [first], diameter: 6 },
          { act: "nut slots", widths: [{ string: 2, from: 0.4, to: 0.5 }] },
          { ...WORKS.ears, widthBy: 1 },
        ],
      }),
      makeVerdict("b", {
        work: [
          { ...WORKS.plug, holes: [first, ...others.slice(0, 1)], diameter: 8 },
          {
            act: "nut slots",
            widths: [
              { string: 2, from: 0.4, to: 0.55 },
              { string: 1, from: 0.2, to: 0.3 },
            ],
          },
          WORKS.ears,
        ],
      }),
    ]);
    expect(works).toHaveLength(3);
    expect(works[0]?.work).toMatchObject({ diameter: 8, holes: [{ id: "old-screws#1" }, { id: "old-screws#2" }] });
    expect(works[1]?.work).toMatchObject({
      widths: [
        { string: 1, to: 0.3 },
        { string: 2, to: 0.55 },
      ],
    });
    expect(works[2]?.work).toMatchObject({ widthBy: 2.5 });
  });

  it("[PL13] refuses two places for one hole, naming both", () => {
    const moved = { ...WORKS.drill, holes: WORKS.drill.holes.map((hole) => ({ ...hole, u: hole.u + 0.5 })) };
    expect(() =>
      mergeWorks([
        makeVerdict("bridge.window", { work: [WORKS.drill] }),
        makeVerdict("bridge.holes", { work: [moved] }),
      ]),
    ).toThrow(
      /^verdicts\.bridge\.holes\.work: puts hole "bridge-screws#1" 0\.50 mm from where bridge\.window puts it\. /,
    );
  });
});
