/** A bar on posts that has to stand askew is told so, in the words of posts. */
import { describe, expect, it } from "vitest";
import { ask, papers, travellerOf } from "../../../src/core/index.ts";
import { lookUp, placement } from "../../../src/core/questions/index.ts";
import { fixtureJob, linesOf, listOf, stepIn } from "./jobs.ts";

const job = fixtureJob("six-string-two-posts");
const verdicts = [ask(job, "bridge.holes")];
const traveller = travellerOf(job, verdicts);
const list = listOf(papers(job, verdicts, { paper: "A4", date: "2026-03-14", version: "1" }));

/** From the placement itself: where the bar ends up is another test's matter. The bass side is y < 0. */
function turn() {
  const placed = lookUp(job.instrument, placement);
  const bar = placed.known ? placed.pieces[0] : undefined;
  if (!bar?.pose) throw new Error("no place");
  const [bass, treble] = [...bar.holes].sort((a, b) => a.yMm - b.yMm);
  return { degrees: Math.abs(bar.pose.yawDegrees), backMm: (bass?.uMm ?? 0) - (treble?.uMm ?? 0) };
}

describe("posts that stand 4.3 apart along the strings", () => {
  const { degrees, backMm } = turn();

  it("are not laid out by a bridge taped square", () => {
    // Some 74 between the posts at 3.3°: 74 × sin 3.3° = 4.3.
    expect(backMm).toBeCloseTo(74 * Math.sin((degrees * Math.PI) / 180), 0);
    const lines = linesOf(stepIn(traveller, "lay-strings")).join("\n");
    expect(lines).toContain(
      `turned as on the sheet, ${degrees.toFixed(1)}° (the bass post ${backMm.toFixed(1)} mm further back than the treble one)`,
    );
    expect(lines).not.toMatch(/square to|through the bridge only/);
  });

  it("are told with their turn on the marking-out list", () => {
    expect(list).toMatch(/Front edge of the plate, on the centre line: [\d.]+ mm from the middle of fret 12/);
    expect(list).toContain(`turned by ${degrees.toFixed(1)}°: the bass post ${backMm.toFixed(1)} mm further back`);
  });

  it("are told no screw to drive into an 11.0 hole, and no screws to start by hand", () => {
    for (const id of ["drill-bridge-posts", "fit-bridge", "lay-strings"]) {
      const lines = linesOf(stepIn(traveller, id)).join("\n");
      expect(lines, id).not.toMatch(/drive a screw|[Aa]ll screws|screw holes/);
    }
    expect(linesOf(stepIn(traveller, "drill-bridge-posts")).join("\n")).toMatch(/press a bushing/);
    expect(linesOf(stepIn(traveller, "fit-bridge")).join("\n")).toMatch(/Press the bushings in square/);
  });
});

describe("a square plate on screws", () => {
  it("keeps its words", () => {
    const plain = travellerOf(fixtureJob("lowtide"), [ask(fixtureJob("lowtide"), "bridge.holes")]);
    expect(linesOf(stepIn(plain, "lay-strings")).join("\n")).toMatch(/square to the centre line/);
    expect(linesOf(stepIn(plain, "fit-bridge")).join("\n")).toMatch(/All screws by hand first/);
  });
});
