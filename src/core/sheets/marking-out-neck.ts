/** Nut, board, frets and strings of the whole instrument, seen from the front. Places u along, y across. */
import { type FramePoint, type Item, line } from "../drawing/index.ts";
import type { Instrument } from "../job/index.ts";
import type { PlacedPiece, Placement, ScaleFrame } from "../questions/index.ts";
import { fretShare } from "../scale/index.ts";
import { placeOfPart } from "./geometry.ts";

export type KnownFrame = Extract<ScaleFrame, { known: true }>;
export type KnownPlacement = Extract<Placement, { known: true }>;

/** One string from nut to saddle. */
export interface StringRun {
  readonly string: number;
  readonly nut: FramePoint;
  /** Where its own scale ends; frets divide the way to it. */
  readonly scaleEndX: number;
  readonly contact: FramePoint;
}

/** Strings whose both ends are known, string 1 first. */
export function stringRunsOf(instrument: Instrument, frame: KnownFrame, placed?: KnownPlacement): StringRun[] {
  return instrument.strings.flatMap(({ number }): StringRun[] => {
    const nutY = instrument.neck.nutY[number - 1];
    const end = frame.ends[number - 1];
    const contact = placed ? contactOf(placed, number) : undefined;
    if (!nutY?.known || !end || !contact) return [];
    const nutX = (frame.nutX[number - 1] ?? 0) + frame.offsetMm;
    return [{ string: number, nut: { x: nutX, y: nutY.value }, scaleEndX: end.value, contact }];
  });
}

function contactOf({ pieces }: KnownPlacement, string: number): FramePoint | undefined {
  for (const piece of pieces) {
    const saddle = piece.saddles.find((one) => one.string === string);
    if (!saddle) continue;
    const u = saddle.end.value + saddle.setback.value;
    if (!piece.pose) return { x: u, y: saddle.q.value + sideOf(piece) };
    const yaw = (piece.pose.yawDegrees * Math.PI) / 180;
    const p = (u - piece.pose.placeMm + saddle.q.value * Math.sin(yaw)) / Math.cos(yaw);
    const place = placeOfPart(piece.pose, p, saddle.q.value);
    return { x: place.u, y: place.y };
  }
  return undefined;
}

function sideOf({ piece }: PlacedPiece): number {
  return piece.side.known ? piece.side.value : 0;
}

export function stringItems(instrument: Instrument, runs: readonly StringRun[]): Item[] {
  const byNote = instrument.strings.every((one) => (one.note ?? "") !== "");
  return runs.map(({ string, nut, contact }) =>
    line("string line", `string-${string}`, nut, contact, {
      label: byNote ? `${string} ${instrument.strings[string - 1]?.note}` : `string ${string}`,
      labelAt: "from",
    }),
  );
}

/** Nut, edges and frets between the outer strings, drawn out to the edges of the board. */
export function boardItems({ neck }: Instrument, runs: readonly StringRun[]): Item[] {
  const first = runs[0];
  const last = runs.at(-1);
  if (!first || !last || first === last || !neck.nutWidth.known) return [];
  const count = neck.frets.known ? Math.round(neck.frets.value) : 0;
  const nutMargin = (neck.nutWidth.value - Math.abs(first.nut.y - last.nut.y)) / 2;
  const atEnd = count > 0 ? [onString(first, count), onString(last, count)] : [first.nut, last.nut];
  const spread = Math.abs((atEnd[0]?.y ?? 0) - (atEnd[1]?.y ?? 0));
  const endMargin = neck.boardWidthAtLastFret.known ? (neck.boardWidthAtLastFret.value - spread) / 2 : nutMargin;
  const fret = (n: number): [FramePoint, FramePoint] => {
    const margin = count === 0 ? nutMargin : nutMargin + ((endMargin - nutMargin) * fretShare(n)) / fretShare(count);
    return drawnOut(onString(first, n), onString(last, n), margin);
  };
  const nut = fret(0);
  const end = fret(count);
  return [
    line("neck outline", "nut", nut[0], nut[1], { label: "nut", labelAt: "none" }),
    ...(count === 0
      ? []
      : [line("neck outline", "board-1", nut[0], end[0]), line("neck outline", "board-2", nut[1], end[1])]),
    ...Array.from({ length: count }, (_, index) => {
      const [from, to] = fret(index + 1);
      return line("neck outline", `fret-${index + 1}`, from, to, { label: `fret ${index + 1}`, labelAt: "none" });
    }),
  ];
}

/** Where a string crosses a fret; 0 is the nut. */
export function onString({ nut, scaleEndX, contact }: StringRun, fret: number): FramePoint {
  const x = nut.x + (scaleEndX - nut.x) * fretShare(fret);
  return { x, y: nut.y + ((contact.y - nut.y) * (x - nut.x)) / (contact.x - nut.x) };
}

/** Both ends moved outward along the line until each stands `margin` further across. */
function drawnOut(a: FramePoint, b: FramePoint, margin: number): [FramePoint, FramePoint] {
  const across = b.y - a.y;
  if (across === 0) return [a, b];
  const slope = (b.x - a.x) / across;
  const by = Math.sign(across) * margin;
  return [
    { x: a.x - by * slope, y: a.y - by },
    { x: b.x + by * slope, y: b.y + by },
  ];
}
