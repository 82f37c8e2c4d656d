/**
 * Dimensions in the manner of ISO 129-1: witness lines that start a little off the feature, filled arrowheads, the
 * figure above its line and readable from below or from the right; running dimensions count from one open circle.
 * Sizes of gaps and overshoots are from memory of ISO 129-1.
 */
import type { LengthUnit } from "../quantity/index.ts";
import type { FramePoint, PagePoint } from "./geometry.ts";
import {
  DESCENT,
  lineMark,
  type Mark,
  rectMark,
  type TextMark,
  type TextMeasure,
  textBox,
  textMark,
  thin,
} from "./marks.ts";
import { type Placing, toPage } from "./placing.ts";
import type { DimensionShape, RunningShape } from "./scene.ts";
import { ARROW_LENGTH_MM, arrowhead, offset, wayFrom } from "./symbols.ts";
import { lengthFigure, wordsText } from "./words.ts";

const WITNESS_GAP_MM = 1;
const WITNESS_BEYOND_MM = 2;
const TEXT_ABOVE_MM = 0.9;
const DIMENSION_TEXT_MM = 2.5;
/** Shorter dimensions have their arrows outside. */
const ROOM_FOR_ARROWS_MM = 2 * ARROW_LENGTH_MM + 2;
const ORIGIN_RING_MM = 1.25;
/** Length of the bent lead between a witness line and its figure where figures stand too close. */
const LEAD_MM = 4;

/** Lines behind a figure are broken for it; the dimension line just below it is not. */
export function figureGround(text: TextMark, measure: TextMeasure): Mark[] {
  if (text.turnDegrees % 90 !== 0) return [];
  const box = textBox(text, measure);
  const descent = DESCENT * text.heightMm - 0.3;
  return [
    rectMark(
      text.turnDegrees === 0 ? { ...box, bottom: box.bottom - descent } : { ...box, right: box.right - descent },
      { fill: "paper" },
    ),
  ];
}

export interface DrawnDimension {
  readonly marks: readonly Mark[];
  readonly texts: readonly TextMark[];
}

export interface DimensionContext {
  readonly placing: Placing;
  readonly units: LengthUnit;
  readonly measure: TextMeasure;
}

/** The length that a dimension shows, mm. */
export function dimensionLengthMm({ from, to, along }: DimensionShape): number {
  if (along === "x") return Math.abs(to.x - from.x);
  if (along === "y") return Math.abs(to.y - from.y);
  return Math.hypot(to.x - from.x, to.y - from.y);
}

export function drawDimension(shape: DimensionShape, context: DimensionContext): DrawnDimension {
  const { placing, units, measure } = context;
  const [lineFrom, lineTo] = lineEnds(shape);
  const [a, b] = [toPage(placing, lineFrom), toPage(placing, lineTo)];
  const marks: Mark[] = [...witness(toPage(placing, shape.from), a), ...witness(toPage(placing, shape.to), b)];
  const text =
    shape.words === undefined
      ? lengthFigure(dimensionLengthMm(shape), shape.digits ?? 1, units)
      : wordsText(shape.words, units);
  const width = measure(text, DIMENSION_TEXT_MM, "regular");
  const length = Math.hypot(b.right - a.right, b.down - a.down);
  const way = wayFrom(a, b);
  const inside = length >= ROOM_FOR_ARROWS_MM;
  const fits = width + 1 <= length;
  const reach = inside ? 0 : ARROW_LENGTH_MM + 2.5;
  const tail = fits ? reach : reach + width + 1.5;
  marks.push(lineMark(offset(a, way, -reach), offset(b, way, tail), thin()));
  const sense = inside ? 1 : -1;
  marks.push(arrowhead(a, { right: -way.right * sense, down: -way.down * sense }));
  marks.push(arrowhead(b, { right: way.right * sense, down: way.down * sense }));
  const middle = fits ? offset(a, way, length / 2) : offset(b, way, reach + 0.75 + width / 2);
  return { marks, texts: [textAlong(text, middle, way, DIMENSION_TEXT_MM)] };
}

/** A text standing above a line, turned with it and never upside down. */
export function textAlong(
  text: string,
  at: PagePoint,
  way: PagePoint,
  heightMm: number,
  weight: "regular" | "bold" = "regular",
): TextMark {
  // Readable from below or from the right: turns run from -90 (excluded) to 90 degrees.
  const flip = way.right < -1e-9 || (Math.abs(way.right) <= 1e-9 && way.down > 0);
  const reading = flip ? { right: -way.right, down: -way.down } : way;
  const above = { right: reading.down, down: -reading.right };
  const turnDegrees = degreesOf(reading);
  return textMark(offset(at, above, TEXT_ABOVE_MM), text, { heightMm, anchor: "middle", weight, turnDegrees });
}

export function drawRunning(shape: RunningShape, context: DimensionContext): DrawnDimension {
  const { placing, units } = context;
  const onLine = (p: FramePoint): FramePoint =>
    shape.along === "x" ? { x: p.x, y: shape.lineAt } : { x: shape.lineAt, y: p.y };
  const along = (p: FramePoint): number => (shape.along === "x" ? p.x : p.y);
  const origin = toPage(placing, onLine(shape.origin));
  const stations = [shape.origin, ...shape.points]
    .map((point) => ({ point, value: along(point) - along(shape.origin), foot: toPage(placing, onLine(point)) }))
    .sort((one, two) => one.value - two.value);
  const [first, last] = [stations[0], stations.at(-1)];
  if (first === undefined || last === undefined) return { marks: [], texts: [] };

  const marks: Mark[] = [lineMark(first.foot, last.foot, thin())];
  const texts: TextMark[] = [];
  const lineWay =
    first === last
      ? wayFrom(
          first.foot,
          toPage(
            placing,
            shape.along === "x" ? { x: first.point.x + 1, y: shape.lineAt } : { x: shape.lineAt, y: first.point.y + 1 },
          ),
        )
      : wayFrom(first.foot, last.foot);
  const outward = awayFrom(
    stations.map(({ point }) => toPage(placing, point)),
    first.foot,
    lineWay,
  );
  const wanted = stations.map(({ foot }) => dot(foot, lineWay) - dot(first.foot, lineWay));
  const spread = spreadOut(wanted, DIMENSION_TEXT_MM * 1.5);

  stations.forEach((station, index) => {
    const at = toPage(placing, station.point);
    marks.push(...witness(at, station.foot));
    const shift = (spread[index] ?? 0) - (wanted[index] ?? 0);
    const bend = offset(station.foot, outward, WITNESS_BEYOND_MM);
    const end = offset(offset(bend, outward, LEAD_MM), lineWay, shift);
    marks.push(lineMark(bend, end, thin()));
    if (station.point === shape.origin) {
      marks.push({ kind: "circle", centre: origin, radiusMm: ORIGIN_RING_MM, stroke: thin(), fill: "paper" });
    } else if (Math.abs(station.value) > 1e-9) {
      const sense = station.value > 0 ? 1 : -1;
      marks.push(arrowhead(station.foot, { right: lineWay.right * sense, down: lineWay.down * sense }));
    }
    texts.push(figureBeyond(lengthFigure(station.value, shape.digits ?? 1, units), end, outward));
  });
  return { marks, texts };
}

/** Turn of a text that reads along `way`, anticlockwise as seen. */
function degreesOf(way: PagePoint): number {
  return (Math.atan2(-way.down, way.right) * 180) / Math.PI || 0;
}

/** A figure that goes on where its witness line ends. */
function figureBeyond(text: string, end: PagePoint, outward: PagePoint): TextMark {
  const flip = outward.right < -1e-9 || (Math.abs(outward.right) <= 1e-9 && outward.down > 0);
  const reading = flip ? { right: -outward.right, down: -outward.down } : outward;
  const turnDegrees = degreesOf(reading);
  const below = { right: -reading.down, down: reading.right };
  const at = offset(offset(end, outward, 0.8), below, DIMENSION_TEXT_MM / 2);
  return textMark(at, text, { heightMm: DIMENSION_TEXT_MM, anchor: flip ? "end" : "start", turnDegrees });
}

/**
 * Places for labels that must keep `gap` between neighbours and stay as near as possible to where they belong (least
 * squares): blocks that collide are merged and centred on their mean (pool adjacent violators).
 *
 * @param wanted in ascending order
 */
export function spreadOut(wanted: readonly number[], gap: number): number[] {
  const blocks: { sum: number; count: number }[] = [];
  wanted.forEach((value, index) => {
    let block = { sum: value - index * gap, count: 1 };
    for (
      let before = blocks.at(-1);
      before && before.sum / before.count > block.sum / block.count;
      before = blocks.at(-1)
    ) {
      block = { sum: before.sum + block.sum, count: before.count + block.count };
      blocks.pop();
    }
    blocks.push(block);
  });
  const levels = blocks.flatMap(({ sum, count }) => Array.from({ length: count }, () => sum / count));
  return levels.map((level, index) => level + index * gap);
}

function witness(feature: PagePoint, foot: PagePoint): Mark[] {
  const length = Math.hypot(foot.right - feature.right, foot.down - feature.down);
  if (length < WITNESS_GAP_MM) return [];
  const way = wayFrom(feature, foot);
  return [lineMark(offset(feature, way, WITNESS_GAP_MM), offset(foot, way, WITNESS_BEYOND_MM), thin())];
}

function lineEnds({ from, to, along, lineAt }: DimensionShape): [FramePoint, FramePoint] {
  if (along === "x")
    return [
      { x: from.x, y: lineAt },
      { x: to.x, y: lineAt },
    ];
  if (along === "y")
    return [
      { x: lineAt, y: from.y },
      { x: lineAt, y: to.y },
    ];
  const length = Math.hypot(to.x - from.x, to.y - from.y) || 1;
  const left = { x: (-(to.y - from.y) / length) * lineAt, y: ((to.x - from.x) / length) * lineAt };
  return [
    { x: from.x + left.x, y: from.y + left.y },
    { x: to.x + left.x, y: to.y + left.y },
  ];
}

/** Unit step across the line, pointing away from the features. */
function awayFrom(features: readonly PagePoint[], onLine: PagePoint, way: PagePoint): PagePoint {
  const side = { right: -way.down, down: way.right };
  const lean = features.reduce(
    (sum, p) => sum + (p.right - onLine.right) * side.right + (p.down - onLine.down) * side.down,
    0,
  );
  return lean > 0 ? { right: -side.right, down: -side.down } : side;
}

function dot(point: PagePoint, way: PagePoint): number {
  return point.right * way.right + point.down * way.down;
}
