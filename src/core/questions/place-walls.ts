/** What stands near enough to the new holes of a piece at its place to matter for its chance. */
import {
  type HoleScene,
  holesAtPose,
  judgeHoles,
  newHoleSolid,
  type PatternHole,
  type Pose,
  wallMm,
} from "../bridge/index.ts";
import type { Instrument } from "../job/index.ts";
import type { SaddleCase } from "./bridge-model.ts";
import type { ChanceCase, ObstacleCase, WallCase } from "./place-chance.ts";

/** Old holes near enough to matter that stay open at this pose. */
export function openWalls(
  instrument: Instrument,
  pattern: readonly PatternHole[],
  pose: Pose,
  scene: HoleScene,
): WallCase[] {
  const judged = judgeHoles({ ...scene, newHoles: holesAtPose(pattern, pose) });
  const plugged = new Set([...judged.plugs.map((plug) => plug.oldId), ...judged.inOldPlugs.map((one) => one.oldId)]);
  const near = judged.walls.filter((wall) => !plugged.has(wall.otherId) && wall.wallMm < scene.limits.wallMm + NEAR_MM);
  const byId = new Map(instrument.body.holes.filter((hole) => hole.state !== "plugged").map((hole) => [hole.id, hole]));
  const holeById = new Map(pattern.map((hole) => [hole.id, hole]));
  const reused = new Set(judged.reused.map((one) => `${one.newId} ${one.oldId}`));
  return near.flatMap((wall) => {
    const old = byId.get(wall.otherId);
    const hole = holeById.get(wall.newId);
    return old && hole && !reused.has(`${wall.newId} ${wall.otherId}`) ? [{ hole, old }] : [];
  });
}

/** What cannot be plugged and stands near enough to be hit by a bit that wanders. */
function nearObstacles(pattern: readonly PatternHole[], pose: Pose, scene: HoleScene): ObstacleCase[] {
  const holes = holesAtPose(pattern, pose);
  return holes.flatMap((hole, index) =>
    scene.obstacles
      .filter((obstacle) => wallMm(newHoleSolid(hole), obstacle) < scene.limits.wallMm + NEAR_MM)
      .map((obstacle) => ({ hole: pattern[index] as PatternHole, obstacle })),
  );
}

/** Walls wider than the limit by more than this cannot be eaten by the doubts met here. */
const NEAR_MM = 3;

export function chanceCase(
  instrument: Instrument,
  saddles: readonly SaddleCase[],
  pose: Pose,
  pattern: readonly PatternHole[],
  reserveMm: number,
  scene: HoleScene,
): ChanceCase {
  const { drilling, drillingDoubt } = instrument.workshop;
  return {
    saddles,
    pose,
    reserveMm,
    walls: openWalls(instrument, pattern, pose, scene),
    obstacles: nearObstacles(pattern, pose, scene),
    wallMm: scene.limits.wallMm,
    drillingUMm: drillingDoubt.known ? drillingDoubt.value : 0,
    drillingWords: drilling,
  };
}
