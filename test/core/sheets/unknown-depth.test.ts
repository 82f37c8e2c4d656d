/** An old hole that nobody has measured the depth of is not said to go through. */
import { describe, expect, it } from "vitest";
import { holeTable } from "../../../src/core/drawing/index.ts";
import { ask, drawings, papers } from "../../../src/core/index.ts";
import { planTraveller } from "../../../src/core/plan/index.ts";
import { showPhrase } from "../../../src/core/quantity/index.ts";
import { makeInstrument, none, q } from "../job/fixture.ts";
import { makeInput, makeVerdict, WORKS } from "../plan/fixture.ts";
import { fixtureJob, linesOf, listOf, stepIn } from "./jobs.ts";

const OPTIONS = { paper: "A4", date: "2026-03-14", version: "1" } as const;
const OLD_LUG = "old-lug: { purpose: screw, u: 214.0, y: 23.0, diameter: 3.0, depth: 15, tool: calliper }";

describe("an old hole of unknown depth", () => {
  const job = fixtureJob("left-handed-stepped-plate", [OLD_LUG, OLD_LUG.replace(" depth: 15,", "")]);
  const verdicts = [ask(job, "bridge.holes")];

  it('stands as "not known" on sheet and list, not as "through"', () => {
    const scene = drawings(job, verdicts, OPTIONS)[0]?.scene;
    if (!scene) throw new Error("no sheet");
    const row = holeTable(scene).rows.find(([mark]) => mark === "X1");
    expect(row?.[4]).toBe("not known");
    expect(listOf(papers(job, verdicts, OPTIONS))).toMatch(/X1 \| .* \| 3\.00 mm \| not known/);
  });
});

describe("a row to be plugged with holes of 15, of 22 and of unknown depth", () => {
  const plug = {
    ...WORKS.plug,
    // The answers hand a hole of unknown depth on as going through, to be safe with its walls.
    holes: WORKS.plug.holes.map((hole, index) => ({
      ...hole,
      depth: index === 0 ? 15 : index === 4 ? ("through" as const) : hole.depth,
    })),
  };
  const found = makeInstrument();
  const [first] = found.body.holes;
  if (!first) throw new Error("fixture");
  const holes = plug.holes.map(({ id }, index) => ({ ...first, id, depth: index === 4 ? none("depth") : q(22) }));
  const plan = planTraveller(
    makeInput({
      instrument: { ...found, body: { ...found.body, holes } },
      verdicts: [makeVerdict("bridge.holes", { status: "rework", work: [plug] })],
    }),
  );
  const step = stepIn(plan, "plug-old-screws");

  it("gets a stop for each depth, and none for the hole that nobody has measured", () => {
    const stops = step.tools.map(({ text }) => showPhrase(text)).filter((text) => text.startsWith("stop set to"));
    expect(stops).toEqual([
      "stop set to 15.0 mm for old-screws#1",
      "stop set to 22.0 mm for old-screws#2, old-screws#3, old-screws#4",
    ]);
    expect(linesOf(step).join("\n")).toContain("Nobody has measured how deep old-screws#5 is: feel for its bottom");
  });

  it("keeps its one stop where all are of one depth", () => {
    const even = planTraveller(makeInput());
    const stops = stepIn(even, "plug-old-screws").tools.map(({ text }) => showPhrase(text));
    expect(stops).toContain("stop set to 22.0 mm");
  });
});
