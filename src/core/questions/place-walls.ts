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
import { type Quantity, standardUncertainty } from "../quantity/index.ts";
import { obstaclePlaces } from "./bridge-model.ts";
import type { ChanceCase, ObstacleCase, WallCase } from "./place-chance.ts";
import type { PlacedPiece, Placement } from "./placement.ts";

/** Old holes near enough to matter that stay open at this pose. */
function openWalls(instrument: Instrument, { pattern, made }: PlacedPiece, pose: Pose, scene: HoleScene): WallCase[] {
  const judged = judgeHoles({ ...scene, newHoles: holesAtPose(pattern, pose) });
  const plugged = new Set([...judged.plugs.map((plug) => plug.oldId), ...judged.inOldPlugs.map((one) => one.oldId)]);
  const open = judged.walls.filter((wall) => !plugged.has(wall.otherId));
  const byId = new Map(instrument.body.holes.filter((hole) => hole.state !== "plugged").map((hole) => [hole.id, hole]));
  const holeById = new Map(pattern.map((hole) => [hole.id, hole]));
  const reused = new Set(judged.reused.map((one) => `${one.newId} ${one.oldId}`));
  return open.flatMap((wall) => {
    const old = byId.get(wall.otherId);
    const hole = holeById.get(wall.newId);
    const own = made.get(wall.newId);
    if (!old || !hole || !own || reused.has(`${wall.newId} ${wall.otherId}`)) return [];
    const doubts = [own.p, own.q, own.size, old.at.u, old.at.y, old.diameter];
    return wall.wallMm < scene.limits.wallMm + nearMm(doubts) ? [{ hole, made: own, old }] : [];
  });
}

/** What cannot be plugged and stands near enough to be hit by a bit that wanders. */
function nearObstacles(
  instrument: Instrument,
  { pattern, made }: PlacedPiece,
  pose: Pose,
  scene: HoleScene,
): ObstacleCase[] {
  const places = obstaclePlaces(instrument);
  return holesAtPose(pattern, pose).flatMap((hole, index) => {
    const own = made.get(hole.id);
    if (!own) return [];
    return scene.obstacles.flatMap((obstacle): ObstacleCase[] => {
      // Only what is measured was made a solid.
      const read = places.get(obstacle.id)?.filter((place) => place.known) ?? [];
      const near = scene.limits.wallMm + nearMm([own.p, own.q, own.size, ...read]);
      if (wallMm(newHoleSolid(hole), obstacle) >= near) return [];
      return [{ hole: pattern[index] as PatternHole, made: own, obstacle, places: read }];
    });
  });
}

/** Walls wider than the limit by more than this cannot be eaten by the doubts that are usual here. */
const NEAR_MM = 3;
/** Where a place is known only roughly, so many standard uncertainties count as near. */
const NEAR_U = 4;

function nearMm(doubts: readonly Quantity[]): number {
  return Math.max(NEAR_MM, NEAR_U * Math.hypot(...doubts.map((one) => (one.known ? standardUncertainty(one) : 0))));
}

/** A piece at its place; where it has none there are no walls to weigh, only its saddles. */
export function chanceCase(
  instrument: Instrument,
  { model, scene }: Pick<Extract<Placement, { known: true }>, "model" | "scene">,
  piece: PlacedPiece,
): ChanceCase {
  const { drilling, drillingDoubt } = instrument.workshop;
  const pose = piece.pose ?? { placeMm: 0, sideMm: 0, yawDegrees: 0 };
  return {
    saddles: piece.saddles,
    pose,
    reserveMm: model.reserveMm,
    walls: openWalls(instrument, piece, pose, scene),
    obstacles: nearObstacles(instrument, piece, pose, scene),
    wallMm: scene.limits.wallMm,
    drillingUMm: drillingDoubt.known ? drillingDoubt.value : 0,
    drillingWords: drilling,
  };
}
