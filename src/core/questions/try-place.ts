/**
 * What if the plate stood there? Asked at every move while somebody drags it, so the search is not asked again: saddles,
 * holes and window are those of the placement, moved. The same sum as `bridge.place`, hence the same chance.
 */
import { holesAtPose, judgeHoles, newHoleSolid, type Pose, toBody } from "../bridge/index.ts";
import type { Instrument } from "../job/index.ts";
import { weighMany } from "../ledger/index.ts";
import { figure, mm, type Phrase, say } from "../quantity/index.ts";
import { xOf } from "./bridge-model.ts";
import { nameOfHole } from "./hole-names.ts";
import { type ChanceCase, placeProblem } from "./place-chance.ts";
import { chanceCase } from "./place-walls.ts";
import type { PlacedPiece, Placement } from "./placement.ts";
import { type WallPlace, wallBetween, wallPlace } from "./where-it-binds.ts";

type KnownPlacement = Extract<Placement, { known: true }>;

/** What holds least at the values as known. */
export type Binding =
  | {
      readonly kind: "saddle";
      readonly string: number;
      /** The stop that the saddle comes near: front is toward the neck. */
      readonly stop: "front" | "rear";
      /** Travel left to that stop; negative: it would have to stand beyond it. */
      readonly spareMm: number;
      readonly wantedMm: number;
      readonly at: { readonly uMm: number; readonly yMm: number };
    }
  | ({ readonly kind: "wall"; readonly wantedMm: number } & WallPlace);

export interface PlaceTrial {
  /** u of the front edge. */
  readonly placeMm: number;
  /** The same from the nut's face. */
  readonly xMm: number;
  readonly sideMm: number;
  readonly insideWindow: boolean;
  /** How far outside the window; 0 inside. */
  readonly beyondMm: number;
  readonly probability: number;
  /** Least margin: travel beyond the reserve, or wood beyond the wall wanted. */
  readonly leastMm: number;
  readonly binds: Binding | undefined;
  /** Least wood that must hold once the plugs are in; undefined: there is nothing to keep away from. */
  readonly thinnest: WallPlace | undefined;
  /** Old holes that have to be plugged first. */
  readonly plugs: readonly { readonly oldId: string; readonly plugDiameterMm: number }[];
  /** What makes it impossible whatever is plugged, in words; undefined: it can be done. */
  readonly refused: Phrase | undefined;
}

/** @returns undefined where there is no whole plate to move: single units stand each on its own string */
export function tryPlaceOn(
  instrument: Instrument,
  placed: KnownPlacement,
  at: { readonly placeMm: number; readonly sideMm?: number },
): PlaceTrial | undefined {
  const first = placed.pieces[0];
  if (!first || placed.model.bridge.kind === "single units") return undefined;
  const poses = placed.pieces.map((piece) => poseAt(piece, first, placed, at));
  const cases = placed.pieces
    .map((piece, index) => chanceCase(instrument, placed, { ...piece, pose: poses[index] as Pose }))
    .filter((one) => one.saddles.length + one.walls.length + one.obstacles.length > 0);
  const weighed = weighMany(placeProblem(cases));
  if (!weighed.known) return undefined;
  const holes = placed.pieces.flatMap((piece, index) => holesAtPose(piece.pattern, poses[index] as Pose));
  const judged = judgeHoles({ ...placed.scene, newHoles: holes });
  const { minMm, maxMm } = first.window;
  const beyondMm = Math.max(0, minMm - at.placeMm, at.placeMm - maxMm);
  const between = judged.leastBetween;
  const conflict = judged.conflicts[0];
  return {
    placeMm: at.placeMm,
    xMm: xOf(placed.model.frame, at.placeMm),
    sideMm: at.sideMm ?? first.pose?.sideMm ?? 0,
    insideWindow: minMm <= maxMm && beyondMm <= 1e-9,
    beyondMm: minMm > maxMm ? minMm - maxMm : beyondMm,
    probability: weighed.probability,
    leastMm: weighed.margin,
    binds: bindingOf(weighed.binding, cases),
    thinnest: between && wallBetween(between, judged.leastWallMm, placed.scene, holes, judged.plugs),
    plugs: judged.plugs.map(({ oldId, plugDiameterMm }) => ({ oldId, plugDiameterMm })),
    refused: conflict && say`${conflict.rule}: ${wallNames(conflict.aId, conflict.bId)}, ${woodWords(conflict.wallMm)}`,
  };
}

/** The pieces move together: a tailpiece keeps its distance. */
function poseAt(
  piece: PlacedPiece,
  first: PlacedPiece,
  placed: KnownPlacement,
  at: { readonly placeMm: number; readonly sideMm?: number },
): Pose {
  const lead: Pose = first.pose ?? { placeMm: at.placeMm, sideMm: 0, yawDegrees: placed.orderedYawDegrees };
  const own = piece === first ? lead : (piece.pose ?? lead);
  return {
    placeMm: at.placeMm + own.placeMm - lead.placeMm,
    sideMm: own.sideMm + (at.sideMm === undefined ? 0 : at.sideMm - lead.sideMm),
    yawDegrees: own.yawDegrees,
  };
}

/** From the margin's name in `placeProblem` to the thing itself. */
function bindingOf(name: string, cases: readonly ChanceCase[]): Binding | undefined {
  const [, piece = "1", kind, number = "0"] = /^(?:(\d+)\.)?(front|rear|wall|near)(\d+)$/.exec(name) ?? [];
  const given = cases[Number(piece) - 1];
  const index = Number(number);
  if (!given) return undefined;
  const { pose } = given;
  if (kind === "front" || kind === "rear") {
    const saddle = given.saddles[index];
    if (!saddle) return undefined;
    const yaw = (pose.yawDegrees * Math.PI) / 180;
    const target = saddle.end.value + saddle.setback.value;
    const p = (target - pose.placeMm + saddle.q.value * Math.sin(yaw)) / Math.cos(yaw);
    return {
      kind: "saddle",
      string: saddle.string,
      stop: kind,
      spareMm: kind === "front" ? p - saddle.from.value : saddle.to.value - p,
      wantedMm: given.reserveMm,
      at: toBody(pose, { pMm: p, qMm: saddle.q.value }),
    };
  }
  const wall = kind === "wall" ? oldWall(given, index) : nearWall(given, index);
  return wall && { kind: "wall", wantedMm: given.wallMm, ...wall };
}

function oldWall(given: ChanceCase, index: number): WallPlace | undefined {
  const one = given.walls[index];
  const [hole] = one ? holesAtPose([one.hole], given.pose) : [];
  if (!one || !hole) return undefined;
  const { at, diameter } = one.old;
  if (!at.u.known || !at.y.known || !diameter.known) return undefined;
  return wallPlace(newHoleSolid(hole), {
    ...newHoleSolid({ ...hole, id: one.old.id, pilotMm: diameter.value, threadMm: diameter.value }),
    u: at.u.value,
    y: at.y.value,
  });
}

function nearWall(given: ChanceCase, index: number): WallPlace | undefined {
  const one = given.obstacles[index];
  const [hole] = one ? holesAtPose([one.hole], given.pose) : [];
  return one && hole && wallPlace(newHoleSolid(hole), one.obstacle);
}

/** "string 3: 0.92 mm to its front stop, 0.50 mm wanted" */
export function bindingWords(binds: Binding): Phrase {
  if (binds.kind === "wall")
    return say`${wallNames(binds.aId, binds.bId)}: ${woodWords(binds.wallMm)}, ${mm(binds.wantedMm)} wanted`;
  const { string, stop, spareMm, wantedMm } = binds;
  if (spareMm < 0)
    return say`string ${figure(string, "", 0)}: its saddle would have to stand ${mm(-spareMm)} beyond its ${stop} stop`;
  return say`string ${figure(string, "", 0)}: ${mm(spareMm)} to its saddle's ${stop} stop, ${mm(wantedMm)} wanted`;
}

export function wallWords(wall: WallPlace): Phrase {
  return say`${woodWords(wall.wallMm)}, ${wallNames(wall.aId, wall.bId)}`;
}

function wallNames(aId: string, bId: string): string {
  return `${nameOfHole(aId)} and ${nameOfHole(bId)}`;
}

function woodWords(wallMm: number): Phrase {
  return wallMm < 0 ? say`run into each other by ${mm(-wallMm)}` : say`${mm(wallMm)} of wood`;
}
