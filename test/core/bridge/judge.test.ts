import { describe, expect, it } from "vitest";
import {
  drilledHole,
  type HoleScene,
  holesAtPose,
  judgeHoles,
  type OldHole,
  plateWindow,
  plugForMm,
  plugFreeRanges,
  rout,
  tailLine,
  widestWall,
} from "../../../src/core/bridge/index.ts";
import {
  bridgeCavityOf,
  ferry,
  LIMITS,
  lowtide,
  oldScrewsOf,
  oldStringHolesOf,
  PRINTED,
  saddlesOf,
  screwsOf,
  stringHolesOf,
} from "./demos.ts";

const at = (placeMm: number) => ({ placeMm, sideMm: 0, yawDegrees: 0 });
const near = (value: number | undefined, printed: number | undefined): void => {
  expect(Math.abs((value as number) - (printed as number))).toBeLessThan(PRINTED);
};

const LOWTIDE: HoleScene = {
  oldHoles: [...oldScrewsOf(lowtide), ...oldStringHolesOf(lowtide)],
  obstacles: bridgeCavityOf(lowtide),
  limits: LIMITS,
};

describe("[BR22] Lowtide's screws against the old ones (A-T3)", () => {
  const judged = judgeHoles({
    ...LOWTIDE,
    newHoles: holesAtPose(screwsOf(lowtide), at(lowtide.expected.chosen as number)),
  });
  const wallOf = (i: number) =>
    judged.walls.find((wall) => wall.newId === `screw#${i}` && wall.otherId === `old#${i}`)?.wallMm;

  it("walls 0.44, 0.34, 0.30, 0.34, 0.44, reckoned to the thread", () => {
    lowtide.expected.walls.forEach((wall, i) => {
      near(wallOf(i + 1), wall);
    });
  });

  it("all five old screw holes take a plug of 6.0 and nothing else stands in the way", () => {
    expect(judged.allowed).toBe(true);
    expect(judged.plugs.map((plug) => [plug.oldId, plug.plugDiameterMm, plug.depthMm])).toEqual(
      [1, 2, 3, 4, 5].map((i) => [`old#${i}`, 6, 22]),
    );
  });

  it("the screws run into the plugs by 0.96…1.10, across the edge", () => {
    judged.plugs.forEach((plug, i) => {
      const own = plug.runIns.find((runIn) => runIn.newId === `screw#${i + 1}`);
      near(own?.runInMm, lowtide.expected.runIns[i]);
      expect(own?.whole).toBe(false);
    });
  });

  it("plugs stand 4.0 from one another and 4.1 from the old string holes", () => {
    expect(judged.leastWallMm).toBeCloseTo(4.0, 9);
    const rest = judgeHoles({
      ...LOWTIDE,
      oldHoles: [oldScrewsOf(lowtide)[4] as OldHole, ...oldStringHolesOf(lowtide)],
      newHoles: holesAtPose(screwsOf(lowtide), at(170.9)),
    });
    // Printed to one decimal.
    expect(Math.abs(rest.leastWallMm - (lowtide.expected.plugToOldStringHole as number))).toBeLessThan(0.05);
  });

  it("no place of the window clears them: 0.9 at best", () => {
    const window = plateWindow({ ...saddlesOf(lowtide, lowtide.setbacksMm.woundThird), reserveMm: 0.5 });
    const row = { pattern: screwsOf(lowtide), oldHoles: oldScrewsOf(lowtide), sideMm: 0, yawDegrees: 0 };
    const best = widestWall({ ...row, range: { fromMm: window.minMm, toMm: window.maxMm } });
    expect(Math.abs(best.wallMm - (lowtide.expected.bestWallInWindow as number))).toBeLessThan(0.05);
    expect(plugFreeRanges({ ...row, limits: LIMITS, window })).toEqual([]);
  });
});

describe("[BR23] Lowtide's string holes (A-T4)", () => {
  const judge = (plugDiameterMm: number) =>
    judgeHoles({
      ...LOWTIDE,
      limits: { ...LIMITS, plugDiameterMm },
      newHoles: holesAtPose([...screwsOf(lowtide), ...stringHolesOf(lowtide)], at(170.9)),
    });
  const judged = judge(6);

  it("all six overlap the old ones by 0.6; a plug of 8.0 would be cut 2.1 deep", () => {
    const hits = judged.conflicts.filter(
      (conflict) => conflict.rule === "new hole too near an old one that a plug would not cure",
    );
    expect(judged.allowed).toBe(false);
    expect(hits).toHaveLength(6);
    expect(plugForMm(5, LIMITS)).toBe(8);
    for (const hit of hits) {
      // One decimal each.
      expect(Math.abs(hit.wallMm + (lowtide.expected.stringHoleOverlap as number))).toBeLessThan(0.05);
      expect(Math.abs((hit.plugCutMm as number) - (lowtide.expected.stringPlugCut as number))).toBeLessThan(0.05);
    }
  });

  it("screw plugs of 6.0 stand 1.26 from the new string holes, plugs of 8.0 only 0.26", () => {
    const least = (plugDiameterMm: number) =>
      Math.min(
        ...judge(plugDiameterMm)
          .conflicts.filter((conflict) => conflict.rule === "new hole too near a plug")
          .map((conflict) => conflict.wallMm),
      );
    near(least(6), lowtide.expected.screwPlugToStringHole);
    near(least(8), lowtide.expected.screwPlug8ToStringHole);
  });

  it("loaded from the top, the old string holes stay and nothing is in the way", () => {
    expect(judgeHoles({ ...LOWTIDE, newHoles: holesAtPose(screwsOf(lowtide), at(170.9)) }).allowed).toBe(true);
  });
});

const FERRY: HoleScene = { oldHoles: oldScrewsOf(ferry), obstacles: [], limits: LIMITS };

describe("[BR22] Ferry's screws (B-T1)", () => {
  it("first guess 852.0: walls -0.62, -1.45, -0.62", () => {
    const judged = judgeHoles({
      ...FERRY,
      newHoles: holesAtPose(screwsOf(ferry), at(ferry.expected.firstGuess as number)),
    });
    [
      ["screw#1", "old#1"],
      ["screw#2", "old#3"],
      ["screw#3", "old#5"],
    ].forEach(([newId, oldId], i) => {
      near(
        judged.walls.find((wall) => wall.newId === newId && wall.otherId === oldId)?.wallMm,
        ferry.expected.firstGuessWalls[i],
      );
    });
    expect(judged.plugs.length).toBeGreaterThanOrEqual(3);
  });

  it("848.5: 2.05 in the middle, 2.40 outside, 2.14 in the second row, no plug", () => {
    const judged = judgeHoles({ ...FERRY, newHoles: holesAtPose(screwsOf(ferry), at(848.5)) });
    const wall = (newId: string, otherId: string) =>
      judged.walls.find((one) => one.newId === newId && one.otherId === otherId)?.wallMm;
    near(wall("screw#2", "old#3"), ferry.expected.walls.centre);
    near(wall("screw#1", "old#1"), ferry.expected.walls.outer);
    near(wall("screw#4", "old#2"), ferry.expected.walls.secondRow);
    expect([judged.plugs, judged.conflicts]).toEqual([[], []]);
    near(judged.leastWallMm, ferry.expected.walls.centre);
  });

  it("no plug needed anywhere in 847.85…849.05, widest wall 2.10 at 848.45", () => {
    const window = plateWindow({ ...saddlesOf(ferry, ferry.setbacksMm), reserveMm: 0.5 });
    const row = { pattern: screwsOf(ferry), oldHoles: oldScrewsOf(ferry), sideMm: 0, yawDegrees: 0 };
    const ranges = plugFreeRanges({ ...row, limits: LIMITS, window });
    const range = ranges.find((one) => one.fromMm < 848.5 && one.toMm > 848.5);
    near(range?.fromMm, ferry.expected.plugFree[0]);
    near(range?.toMm, ferry.expected.plugFree[1]);
    const widest = widestWall({ ...row, range: range as { fromMm: number; toMm: number } });
    near(widest.placeMm, ferry.expected.widest.place);
    near(widest.wallMm, ferry.expected.widest.wall);
  });
});

describe("[BR22] rules one by one", () => {
  const screw = { id: "n", uMm: 0, yMm: 0, pilotMm: 2.5, threadMm: 3, depthMm: 24, purpose: "screw" as const };
  const through = { ...screw, threadMm: 4, pilotMm: 4, depthMm: "through" as const, purpose: "other" as const };
  const old = (uMm: number, more: Partial<OldHole> = {}): OldHole => ({
    id: `o${uMm}`,
    uMm,
    yMm: 0,
    diameterMm: 3.2,
    depthMm: 22,
    ...more,
  });
  const judge = (
    newHoles: (typeof screw | typeof through)[],
    oldHoles: OldHole[],
    obstacles: HoleScene["obstacles"] = [],
  ) => judgeHoles({ newHoles, oldHoles, obstacles, limits: LIMITS });

  it("a wall of 1.5 is enough, a hair less asks for the plug", () => {
    expect(judge([screw], [old(4.6)]).plugs).toHaveLength(0);
    expect(judge([screw], [old(4.599)]).plugs).toHaveLength(1);
  });

  it("a screw may stand in a plug that is there, but not before it has cured or if it does not match", () => {
    const plug = { diameterMm: 6, matched: true, cured: true };
    const sound = judge([screw], [old(1, { plug })]);
    expect(sound.allowed).toBe(true);
    expect(sound.inOldPlugs[0]).toMatchObject({ runInMm: 3.5, whole: true });
    for (const spoilt of [{ cured: false }, { matched: false }]) {
      expect(judge([screw], [old(1, { plug: { ...plug, ...spoilt } })]).conflicts[0]?.rule).toBe(
        "plug not cured or not matched",
      );
    }
    expect(judge([through], [old(1, { plug })]).conflicts[0]?.rule).toBe("new hole too near a plug");
    expect(judge([through], [old(6.6, { plug })]).allowed).toBe(true);
  });

  it("plugs too near one another, an open hole, a rout or the edge", () => {
    // Two plugs of 6 need 7.5 between middles.
    const pair = judge([screw, { ...screw, id: "m", uMm: 10 }], [old(3), old(7)]);
    expect(pair.conflicts.map((conflict) => conflict.rule)).toContain("plug too near a plug");
    const open = judge([screw], [old(3), old(8)]);
    expect(open.conflicts).toEqual([
      { rule: "plug too near an open hole", aId: "o3", bId: "o8", wallMm: expect.closeTo(0.4, 9), needMm: 1.5 },
    ]);
    const cavity = rout({
      id: "rout",
      uMm: 20,
      yMm: 0,
      lengthMm: 40,
      widthMm: 26,
      cornerRadiusMm: 3,
      yawDegrees: 0,
      depthMm: 19,
    });
    expect(judge([screw], [old(3)], cavity).conflicts[0]).toMatchObject({
      rule: "plug too near what cannot be plugged",
      wallMm: expect.closeTo(1, 9),
    });
    expect(judge([screw], [], [tailLine({ id: "tail", uMm: 2.5 })]).conflicts[0]).toMatchObject({
      rule: "new hole too near what cannot be plugged",
      wallMm: expect.closeTo(1, 9),
    });
  });

  it("a shallow hole over a deep cavity keeps the wood between them", () => {
    const below = drilledHole({ id: "below", uMm: 0, yMm: 0, diameterMm: 30, depthMm: 12, fromBackOfMm: 44 });
    expect(judge([{ ...screw, depthMm: 24 }], [], [below]).leastWallMm).toBeCloseTo(8, 12);
    expect(judge([{ ...screw, depthMm: 31 }], [], [below]).allowed).toBe(false);
  });

  it("an old hole on the spot and thinner than the thread is used again", () => {
    const judged = judge([screw], [old(0.2, { diameterMm: 2.7 })]);
    expect([judged.plugs.length, judged.reused[0]?.oldId]).toEqual([0, "o0.2"]);
    // As wide as the thread it no longer holds.
    expect(judge([screw], [old(0.2, { diameterMm: 3 })]).plugs).toHaveLength(1);
  });

  it("says when no plug of the size is to be had", () => {
    expect(judge([screw], [old(4, { diameterMm: 19 })]).conflicts[0]?.rule).toBe("no plug of the size needed");
  });
});
