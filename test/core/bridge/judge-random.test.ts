import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type HoleScene,
  holesAtPose,
  judgeHoles,
  type OldHole,
  type PatternHole,
  plugFreeRanges,
  rout,
  tailLine,
} from "../../../src/core/bridge/index.ts";
import { CONFLICT, QuickJudge } from "../../../src/core/bridge/quick-judge.ts";
import { LIMITS } from "./demos.ts";

const SEED = 20240617;
/** Evenly spread; doubles as such crowd about 0. */
const num = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((n) => min + ((max - min) * n) / 1_000_000);
const pattern = fc
  .array(fc.record({ p: num(20, 60), q: num(-25, 25), thread: num(2, 4), screw: fc.boolean() }), {
    minLength: 1,
    maxLength: 6,
  })
  .map((list) =>
    list.map(
      (one, i): PatternHole => ({
        id: `n${i}`,
        pMm: one.p,
        qMm: one.q,
        pilotMm: 2.5,
        threadMm: one.thread,
        depthMm: one.screw ? 20 : "through",
        purpose: one.screw ? "screw" : "other",
      }),
    ),
  );
const oldHoles = fc
  .array(
    fc.record({
      u: num(190, 240),
      y: num(-25, 25),
      d: fc.oneof(num(2, 6), num(15, 20)),
      plugged: fc.integer({ min: 0, max: 3 }),
    }),
    { maxLength: 6 },
  )
  .map((list) =>
    list.map(
      (one, i): OldHole => ({
        id: `o${i}`,
        uMm: one.u,
        yMm: one.y,
        diameterMm: one.d,
        depthMm: 22,
        ...(one.plugged === 1 ? { plug: { diameterMm: one.d + 2, matched: true, cured: i % 2 === 0 } } : {}),
      }),
    ),
  );

describe("[BR26] places without plugs", () => {
  it("a place lies in a free range exactly if the judge asks for no plug there", () => {
    const window = { minMm: 165, maxMm: 178 };
    const pose = fc.record({ placeMm: num(165, 178), sideMm: num(-2, 2), yawDegrees: num(-3, 3) });
    /** In half of the runs the first old hole lies nearly under the first screw, thin enough to be used again. */
    const aim = fc.record({ aimed: fc.boolean(), du: num(-0.4, 0.4), dy: num(-0.4, 0.4) });
    let reuses = 0;
    fc.assert(
      fc.property(pattern, oldHoles, pose, aim, (holes, old, at, { aimed, du, dy }) => {
        const screws = holes.map((hole) => ({ ...hole, purpose: "screw" as const }));
        const newHoles = holesAtPose(screws, at);
        const open = old.map(({ plug: _, ...hole }) => hole);
        const first = newHoles[0];
        if (aimed && first)
          open.push({ id: "aimed", uMm: first.uMm + du, yMm: first.yMm + dy, diameterMm: 1.5, depthMm: 22 });
        const { sideMm, yawDegrees, placeMm } = at;
        const ranges = plugFreeRanges({ pattern: screws, oldHoles: open, sideMm, yawDegrees, limits: LIMITS, window });
        const judged = judgeHoles({ oldHoles: open, obstacles: [], limits: LIMITS, newHoles });
        const sizes = judged.conflicts.filter((conflict) => conflict.rule === "no plug of the size needed");
        // Exactly on a limit either answer will do.
        const onLimit = judged.walls.some((wall) => Math.abs(wall.wallMm - LIMITS.wallMm) < 1e-6);
        if (onLimit || Math.abs(Math.hypot(du, dy) - 0.3) < 1e-6) return;
        reuses += judged.reused.length;
        const free = ranges.some((range) => placeMm >= range.fromMm && placeMm <= range.toMm);
        expect(free).toBe(judged.plugs.length + sizes.length === 0);
        for (const range of ranges) expect(range.toMm).toBeGreaterThanOrEqual(range.fromMm);
      }),
      { seed: SEED, numRuns: 1000, endOnFailure: true },
    );
    expect(reuses).toBeGreaterThan(50);
  });
});

/** Screws near old holes as a rule, so that there are plugs, and plugs near plugs. */
const crowded = fc.tuple(pattern, oldHoles).map(([holes, old]) => ({
  holes: holes.slice(0, 3).map((hole, i) => ({
    ...hole,
    pMm: 40 + hole.pMm / 10,
    qMm: 14 * (i - 1) + hole.qMm / 10,
    purpose: i < 2 ? ("screw" as const) : hole.purpose,
  })),
  old: old.slice(0, 4).map((hole, i) => ({
    ...hole,
    uMm: 210 + (hole.uMm - 210) / 6,
    yMm: 9 * (i - 1.5) + hole.yMm / 10,
    diameterMm: Math.min(hole.diameterMm, 5),
  })),
}));

describe("[BR24] the quick judge of the search", () => {
  it("says the same as the full one at any pose", () => {
    const cavity = rout({
      id: "rout",
      uMm: 180,
      yMm: 0,
      lengthMm: 70,
      widthMm: 40,
      cornerRadiusMm: 3,
      yawDegrees: 5,
      depthMm: 19,
    });
    const obstacles = [...cavity, tailLine({ id: "tail", uMm: 236 })];
    const met = { conflicts: 0, allowed: 0, twoPlugs: 0, reused: 0 };
    const wide = fc.record({ holes: pattern, old: oldHoles });
    const pose = fc.record({ placeMm: num(167, 172), sideMm: num(-2, 2), yawDegrees: num(-3, 3) });
    const aim = fc.record({ aimed: fc.boolean(), du: num(-0.4, 0.4), dy: num(-0.4, 0.4) });
    fc.assert(
      fc.property(fc.oneof(crowded, wide), pose, aim, ({ holes, old }, at, { aimed, du, dy }) => {
        const newHoles = holesAtPose(holes, at);
        const first = newHoles[0];
        const under =
          aimed && first
            ? [{ id: "aimed", uMm: first.uMm + du, yMm: first.yMm + dy, diameterMm: 1.5, depthMm: 22 }]
            : [];
        const scene: HoleScene = { oldHoles: [...old, ...under], obstacles, limits: LIMITS };
        const full = judgeHoles({ ...scene, newHoles });
        const answer = { plugs: 0, marginMm: 0, allowed: false };
        const yaw = (at.yawDegrees * Math.PI) / 180;
        new QuickJudge(holes, scene).judge(
          at.placeMm,
          at.sideMm,
          Math.cos(yaw),
          Math.sin(yaw),
          Number.POSITIVE_INFINITY,
          answer,
        );
        expect(answer.allowed).toBe(full.allowed);
        if (!full.allowed) {
          met.conflicts++;
          return;
        }
        met.allowed++;
        met.twoPlugs += full.plugs.length > 1 ? 1 : 0;
        met.reused += full.reused.length;
        expect(answer.plugs).toBe(full.plugs.length);
        expect(answer.marginMm).toBeCloseTo(full.marginMm, 9);
      }),
      { seed: SEED, numRuns: 4000, endOnFailure: true },
    );
    // Every kind was met often.
    expect(Math.min(...Object.values(met))).toBeGreaterThan(50);
  });

  it("bounds the number of plugs from below at every place of a row, and knows sure conflicts", () => {
    const met = { sharp: 0, conflicts: 0, reused: 0 };
    const aim = fc.record({ aimed: fc.boolean(), n: fc.integer({ min: 0, max: 30 }), dy: num(-0.4, 0.4) });
    fc.assert(
      fc.property(
        crowded,
        num(-2, 2),
        num(-3, 3),
        aim,
        ({ holes, old }, sideMm, yawDegrees, { aimed, n: aimAt, dy }) => {
          const places = { firstMm: 165, stepMm: 0.5, count: 31 };
          const there = holesAtPose(holes, { placeMm: 165 + 0.5 * aimAt, sideMm, yawDegrees })[0];
          const under =
            aimed && there ? [{ id: "aimed", uMm: there.uMm, yMm: there.yMm + dy, diameterMm: 1.5, depthMm: 22 }] : [];
          const scene: HoleScene = { oldHoles: [...old, ...under], obstacles: [], limits: LIMITS };
          const yaw = (yawDegrees * Math.PI) / 180;
          const fewest = new Int32Array(places.count + 1);
          new QuickJudge(holes, scene).fewestPlugs(places, sideMm, Math.cos(yaw), Math.sin(yaw), fewest);
          for (let n = 0; n < places.count; n++) {
            const full = judgeHoles({
              ...scene,
              newHoles: holesAtPose(holes, { placeMm: 165 + 0.5 * n, sideMm, yawDegrees }),
            });
            const bound = fewest[n] as number;
            met.reused += full.reused.length;
            if (bound >= CONFLICT) {
              met.conflicts++;
              expect(full.allowed).toBe(false);
            } else {
              expect(bound).toBeLessThanOrEqual(full.plugs.length);
              if (full.plugs.length > 0 && bound === full.plugs.length) met.sharp++;
            }
          }
        },
      ),
      { seed: SEED, numRuns: 200, endOnFailure: true },
    );
    expect(Math.min(...Object.values(met))).toBeGreaterThan(20);
  });
});
