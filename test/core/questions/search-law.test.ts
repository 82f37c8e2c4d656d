import { describe, expect, it } from "vitest";
import {
  type Candidate,
  holesAtPose,
  isBetter,
  judgeHoles,
  type Pose,
  placementAllowed,
  windowAtYaw,
} from "../../../src/core/bridge/index.ts";
import { loadJob } from "../../../src/core/index.ts";
import { generator } from "../../reference/scenarios/draws.ts";
import { example, fixture, type JobData, placementOf, withValue } from "./jobs.ts";

/**
 * The place chosen against ten thousand places taken at random from what a person can mark (tenths of a millimetre, yaw
 * in steps that move the outermost hole by a tenth), each judged by the direct checks and not by the search's own.
 */
const PROBES = 10_000;
const ALIKE_MM = 1e-6;

const JOBS: readonly (readonly [string, JobData])[] = [
  ["lowtide", example("lowtide")],
  // Without a wish, so that the place is the search's own.
  ["ferry", withValue(example("ferry"), "fit.bridge.x", undefined)],
  ["bass-channel", withValue(fixture("bass-channel"), "fit.bridge.u", undefined)],
  ["six-string-two-posts", fixture("six-string-two-posts")],
];

describe.each(JOBS)("%s", (name, data) => {
  const { instrument } = loadJob(data);
  const placed = placementOf(instrument);
  const { scene, model } = placed;
  const [piece] = placed.pieces;
  const chosen = piece?.candidate as Candidate;
  const pattern = piece?.pattern ?? [];
  const saddles = {
    targetsMm: piece?.saddles.map((saddle) => saddle.end.value + saddle.setback.value) ?? [],
    fromMm: piece?.saddles.map((saddle) => saddle.from.value) ?? [],
    toMm: piece?.saddles.map((saddle) => saddle.to.value) ?? [],
    acrossMm: piece?.saddles.map((saddle) => saddle.q.value) ?? [],
  };
  const yawIsFree = model.bridge.kind === "two posts";
  const { reserveMm } = model;
  /** A bar on posts turns about its saddles' middle, which stays on the line; a plate about its front edge's. */
  const middleP = yawIsFree
    ? saddles.fromMm.reduce((sum, from, i) => sum + (from + (saddles.toMm[i] ?? 0)) / (2 * saddles.fromMm.length), 0)
    : 0;
  const asideMm = (yawDegrees: number) => middleP * Math.sin((yawDegrees * Math.PI) / 180);

  /** Undefined where the direct checks do not allow it. */
  function candidateAt(pose: Pose): Candidate | undefined {
    const reach = placementAllowed({ ...saddles, pose, reserveMm });
    const judged = judgeHoles({ ...scene, newHoles: holesAtPose(pattern, pose) });
    if (!reach.allowed || !judged.allowed) return undefined;
    return {
      pose,
      plugs: judged.plugs.length,
      marginMm: Math.min(judged.marginMm, reach.leastMm - reserveMm),
      leastWallMm: judged.leastWallMm,
      saddleSpareMm: reach.leastMm,
      onLine: Math.abs(pose.sideMm + asideMm(pose.yawDegrees)) < 1e-9 && (pose.yawDegrees === 0 || yawIsFree),
    };
  }

  it("passes the direct checks, with the figures it was chosen for", () => {
    const direct = candidateAt(chosen.pose);
    expect(direct?.plugs).toBe(chosen.plugs);
    expect(direct?.marginMm).toBeCloseTo(chosen.marginMm, 9);
    expect(direct?.saddleSpareMm).toBeCloseTo(chosen.saddleSpareMm, 9);
    expect(direct?.onLine).toBe(chosen.onLine);
    expect(piece?.pose).toEqual(chosen.pose);
  });

  it("is beaten by none of ten thousand places", () => {
    const random = generator(name.length);
    const reachMm = Math.max(
      1,
      ...pattern.map(({ pMm, qMm, pilotMm, threadMm }) => Math.hypot(pMm, qMm) + Math.max(pilotMm, threadMm) / 2),
    );
    const yawStep = (0.1 / reachMm) * (180 / Math.PI);
    const yawSteps = Math.floor((yawIsFree ? 8 : 0.5) / yawStep);
    const square = windowAtYaw({ ...saddles, reserveMm, yawDegrees: 0 });
    const middleMm = (square.minMm + square.maxMm) / 2;
    let allowed = 0;
    for (let n = 0; n < PROBES; n++) {
      // Half of them square and on the line, where most places that compete lie.
      const straight = random() < 0.5;
      const yawDegrees = straight && !yawIsFree ? 0 : Math.round((2 * random() - 1) * yawSteps) * yawStep;
      const window = windowAtYaw({ ...saddles, reserveMm, yawDegrees });
      const placeMm = Number((Math.round((window.minMm + random() * window.widthMm) * 10) / 10).toFixed(6));
      const offLineMm = straight ? 0 : Number((Math.round((2 * random() - 1) * 5) / 10).toFixed(6));
      const sideMm = offLineMm - asideMm(yawDegrees);
      const probe = candidateAt({ placeMm, sideMm, yawDegrees });
      if (!probe) continue;
      allowed++;
      const { probability: _, ...plain } = chosen;
      const alike =
        probe.plugs === chosen.plugs &&
        probe.onLine === chosen.onLine &&
        Math.abs(probe.marginMm - chosen.marginMm) <= ALIKE_MM;
      // Alike in everything before the probability: that decides then, and is not asked here.
      if (!alike) expect(isBetter(probe, plain, middleMm), JSON.stringify(probe)).toBe(false);
    }
    expect(allowed).toBeGreaterThan(PROBES / 50);
  });
});
