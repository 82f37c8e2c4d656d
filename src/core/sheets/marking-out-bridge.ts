/** The bridge at its place: pieces, holes to be made, saddle contacts, and the window in which the plate may stand. */
import { type FramePoint, hole, type Item, line, outline, rectangle } from "../drawing/index.ts";
import { nameOfHole, type PlacedPiece } from "../questions/index.ts";
import { placeOfPart } from "./geometry.ts";
import type { KnownPlacement } from "./marking-out-neck.ts";

/** The plate that can be moved, and how far its front edge may go. */
export interface MovablePlate {
  /** u of the middle of the front edge, as the papers have it. */
  readonly placeMm: number;
  readonly sideMm: number;
  readonly yawDegrees: number;
  readonly window: { readonly minMm: number; readonly maxMm: number };
  /** Seen at `placeMm`; ids of the items that move with it. */
  readonly itemIds: readonly string[];
  /** Where the owner put it, if the papers do not go by that. */
  readonly wishedMm?: number;
  readonly lengthMm: number;
  readonly widthMm: number;
}

const UNKNOWN_LENGTH_MM = 20;
const UNKNOWN_WIDTH_MM = 60;

export function bridgeItems(placed: KnownPlacement): Item[] {
  return placed.pieces.flatMap((piece) => (piece.pose ? pieceItems(piece) : []));
}

function pieceItems(piece: PlacedPiece): Item[] {
  const pose = piece.pose as NonNullable<PlacedPiece["pose"]>;
  const { id, length, width } = piece.piece;
  const items: Item[] = [];
  if (length.known && width.known) {
    const { u, y } = placeOfPart(pose, length.value / 2, 0);
    const corners = rectangle({
      centre: { x: u, y },
      alongMm: length.value,
      acrossMm: width.value,
      cornerRadiusMm: 1,
      turnDegrees: pose.yawDegrees,
    });
    items.push(outline("plate outline", `outline-${id}`, corners, { label: pieceName(id), labelAt: "none" }));
  }
  for (const made of piece.holes) {
    const role = /strings#/.test(made.id) ? "string hole" : /posts#/.test(made.id) ? "post" : "new hole";
    const centre = { x: made.uMm, y: made.yMm };
    const shape = { centre, diameterMm: made.pilotMm, depthMm: made.depthMm, datum: "body top" } as const;
    items.push(hole(role, made.id, shape, { label: nameOfHole(made.id) }));
  }
  return items;
}

export function pieceName(id: string): string {
  return id === "bridge" ? "plate" : id.replace("-", " ");
}

/** Undefined for single units, which stand each on its own string, and where nothing tells how it could stand. */
export function movablePlate(placed: KnownPlacement): MovablePlate | undefined {
  const [piece] = placed.pieces;
  if (!piece || placed.model.bridge.kind === "single units") return undefined;
  const { window, pose } = piece;
  const { length, width } = piece.piece;
  const { wish } = placed;
  return {
    placeMm: pose?.placeMm ?? wish?.placeMm ?? (window.minMm + window.maxMm) / 2,
    sideMm: pose?.sideMm ?? 0,
    yawDegrees: pose?.yawDegrees ?? placed.orderedYawDegrees,
    window: { minMm: window.minMm, maxMm: window.maxMm },
    itemIds: bridgeItems(placed).map(({ id }) => id),
    ...(wish && !wish.kept ? { wishedMm: wish.placeMm } : {}),
    lengthMm: length.known ? length.value : UNKNOWN_LENGTH_MM,
    widthMm: width.known ? width.value : UNKNOWN_WIDTH_MM,
  };
}

const WINDOW_OFF_MM = 6;

/** A bar beside the plate, as long as the front edge may travel; none where the window is empty. */
export function windowItems(plate: MovablePlate | undefined, bassSide: 1 | -1): Item[] {
  if (!plate || plate.window.maxMm <= plate.window.minMm) return [];
  const y = windowY(plate, bassSide);
  const at = (x: number): FramePoint => ({ x, y });
  return [
    line("register line", "window", at(plate.window.minMm), at(plate.window.maxMm), {
      label: "the front edge may stand here",
      labelAt: "none",
    }),
  ];
}

/** The window's bar lies on the treble side of the plate. */
export function windowY({ widthMm, sideMm }: MovablePlate, bassSide: 1 | -1): number {
  return sideMm - bassSide * (widthMm / 2 + WINDOW_OFF_MM);
}

/** Where the owner put the plate, though the papers go by another place. */
export function wishItems(plate: MovablePlate | undefined): Item[] {
  if (plate?.wishedMm === undefined) return [];
  const corners = rectangle({
    centre: { x: plate.wishedMm + plate.lengthMm / 2, y: 0 },
    alongMm: plate.lengthMm,
    acrossMm: plate.widthMm,
  });
  return [outline("old outline", "wish", corners, { label: "the place first thought of", labelAt: "none" })];
}
