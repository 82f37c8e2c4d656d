/** Single-string units: each has its own window along its string, its own place and its own yaw. */
import {
  type Column,
  column,
  type HoleScene,
  holesAtPose,
  judgeHoles,
  type NewHole,
  type PatternHole,
  type PlateWindow,
  type Pose,
  toBody,
  unitPlaces,
  wallMm,
} from "../bridge/index.ts";
import type { Instrument } from "../job/index.ts";
import type { Asking } from "../ledger/index.ts";
import { mm, type Quantity, say } from "../quantity/index.ts";
import { type BridgeModel, patternOf, throughBody } from "./bridge-model.ts";
import type { PlacedPiece } from "./placement.ts";

const STEP_MM = 0.1;

export function placeUnits(
  asking: Asking<Instrument>,
  model: Extract<BridgeModel, { known: true }>,
  scene: HoleScene,
): { readonly pieces: PlacedPiece[]; readonly missing: readonly Quantity[] } {
  const { neck } = asking.subject;
  const missing: Quantity[] = [];
  const units = model.pieces.map((item, index) => {
    const saddle = item.saddles[0];
    const { side, length, width } = item.piece;
    missing.push(...[length, width].filter((quantity) => !quantity.known));
    const nutY = neck.nutY[index];
    const stringY = side.known ? side.value : 0;
    const run = (saddle?.end.value ?? 0) - model.frame.offsetMm - (model.frame.nutX[index] ?? 0);
    return {
      targetMm: (saddle?.end.value ?? 0) + (saddle?.setback.value ?? 0),
      stringYMm: stringY,
      yawDegrees: nutY?.known && run > 0 ? (Math.atan2(stringY - nutY.value, run) * 180) / Math.PI : 0,
      fromMm: saddle?.from.value ?? 0,
      toMm: saddle?.to.value ?? 0,
      lengthMm: length.known ? length.value : 1,
      widthMm: width.known ? width.value : 1,
    };
  });
  const places = unitPlaces({ units, reserveMm: model.reserveMm });
  const taken: NewHole[] = [];
  const pieces = model.pieces.map((item, index): PlacedPiece => {
    const place = places[index] as (typeof places)[number];
    const pattern = patternOf(item.piece, model.bridge.kind, throughBody(model.bridge, model.pieces));
    missing.push(...pattern.missing);
    const window: PlateWindow = {
      minMm: place.minMm,
      maxMm: place.maxMm,
      widthMm: place.widthMm,
      bindingMinIndex: index,
      bindingMaxIndex: index,
    };
    const best = bestPlace(place, units[index] as (typeof units)[number], pattern.holes, scene, taken);
    const base = { piece: item.piece, saddles: item.saddles, window, pattern: pattern.holes, made: pattern.made };
    if (!best) return { ...base, pose: undefined, holes: [], why: say`no place along string ${index + 1} will do` };
    taken.push(...best.holes);
    return {
      ...base,
      pose: best.pose,
      holes: best.holes,
      judgement: best.judgement,
      why: say`unit ${index + 1}: front edge at ${mm(best.pose.placeMm, 1)} on its string's line`,
    };
  });
  return { pieces: pieces.map((piece, index) => withGap(piece, pieces[index + 1])), missing };
}

/** Neighbours stand at different places along and run at different yaws: the air between them is not pitch less width. */
function withGap(piece: PlacedPiece, next: PlacedPiece | undefined): PlacedPiece {
  const here = footprint(piece);
  const there = next && footprint(next);
  return here && there ? { ...piece, gapToNextMm: wallMm(here, there) } : piece;
}

function footprint({ piece, pose }: PlacedPiece): Column | undefined {
  if (!pose || !piece.length.known || !piece.width.known) return undefined;
  const { uMm, yMm } = toBody(pose, { pMm: piece.length.value / 2, qMm: 0 });
  return column({
    id: piece.id,
    uMm,
    yMm,
    alongMm: piece.length.value,
    acrossMm: piece.width.value,
    cornerRadiusMm: 0,
    yawDegrees: pose.yawDegrees,
    topZMm: Number.POSITIVE_INFINITY,
    bottomZMm: Number.NEGATIVE_INFINITY,
  });
}

/** Nearest the middle of the unit's window among the places that need fewest plugs. */
function bestPlace(
  place: { readonly minMm: number; readonly maxMm: number; readonly pose: Pose },
  unit: { readonly targetMm: number; readonly stringYMm: number; readonly yawDegrees: number },
  pattern: readonly PatternHole[],
  scene: HoleScene,
  taken: readonly NewHole[],
) {
  const slope = Math.tan((unit.yawDegrees * Math.PI) / 180);
  const steps = Math.floor((place.maxMm - place.minMm) / 2 / STEP_MM);
  if (!(place.maxMm >= place.minMm)) return undefined;
  const middle = Math.round((place.minMm + place.maxMm) / 2 / STEP_MM) * STEP_MM;
  let best: { pose: Pose; holes: NewHole[]; judgement: ReturnType<typeof judgeHoles> } | undefined;
  for (let n = 0; n <= 2 * steps; n++) {
    const offset = (n % 2 === 1 ? 1 : -1) * Math.ceil(n / 2) * STEP_MM;
    const placeMm = Number((middle + offset).toFixed(6));
    if (placeMm < place.minMm || placeMm > place.maxMm) continue;
    const pose = { placeMm, sideMm: unit.stringYMm - (unit.targetMm - placeMm) * slope, yawDegrees: unit.yawDegrees };
    const holes = holesAtPose(pattern, pose);
    const judgement = judgeHoles({ ...scene, newHoles: [...holes, ...taken] });
    if (!judgement.allowed) continue;
    if (!best || judgement.plugs.length < best.judgement.plugs.length) best = { pose, holes, judgement };
    if (best.judgement.plugs.length === 0) break;
  }
  return best;
}
