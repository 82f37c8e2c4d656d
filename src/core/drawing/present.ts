/**
 * A scene as page marks: every item drawn as its role says, then labels in the room that is left. The only place where
 * roles turn into lines; the PDF and SVG writers draw what comes out of here.
 */
import type { LengthUnit } from "../quantity/index.ts";
import { drawDimension, drawRunning, figureGround } from "./dimensions.ts";
import { type FramePoint, grow, type PagePoint, type PageRect, rectAround, unite } from "./geometry.ts";
import { hatchCircle, hatchOutlines } from "./hatch.ts";
import { depthInWords } from "./holes.ts";
import { alongPieces, endPlaces, LABEL_TEXT_MM, textsAround } from "./label-places.ts";
import { type LabelRequest, placeLabels } from "./labels.ts";
import {
  lineMark,
  type Mark,
  type MarkGroup,
  rectMark,
  type TextMark,
  type TextMeasure,
  textBox,
  textMark,
  thin,
} from "./marks.ts";
import { arcPath, arcPoints, flatten, outlinePath, pagePieces } from "./paths.ts";
import { type Placing, pageAxes, toPage } from "./placing.ts";
import { dashPattern, ROLES, type RoleStyle, styleOf, TO_DRILL, WIDE_MM } from "./roles.ts";
import type { Anchor, Geometry, Item, Scene, TextShape } from "./scene.ts";
import {
  arrowhead,
  CROSS_BEYOND_MM,
  circleStroke,
  DATUM_ARM_X_MM,
  DATUM_ARM_Y_MM,
  datumMarks,
  holeMarks,
  offset,
  registerEnds,
  wayFrom,
} from "./symbols.ts";
import { wordsText } from "./words.ts";

export interface PresentOptions {
  readonly placing: Placing;
  readonly units: LengthUnit;
  readonly measure: TextMeasure;
}

export interface ShownScene {
  readonly groups: readonly MarkGroup[];
  /** Everything drawn, labels included. */
  readonly bounds: PageRect;
}

const NOTE_TEXT_MM = 2.5;
const REGISTER_END_MM = 2.5;
const AXIS_NAME_MM = 10.5;

/** What one item draws and what its label must know about it. */
interface Shown {
  readonly item: Item;
  readonly marks: readonly Mark[];
  readonly boxes: readonly PageRect[];
  readonly pieces: readonly [PagePoint, PagePoint][];
  readonly labels: readonly LabelRequest[];
  /** Hatched. */
  readonly area?: PageRect;
  readonly bounds: PageRect;
}

export function presentScene(scene: Scene, options: PresentOptions): ShownScene {
  const order = new Map(ROLES.map((role, index) => [role, index]));
  const items = [...scene.items].sort((a, b) => (order.get(a.role) ?? 0) - (order.get(b.role) ?? 0));
  const shown = items.map((item) => showItem(item, options));
  const datum = showDatum(scene, options);
  const all = [...shown, datum];
  const placed = placeLabels(
    // Hole marks first: they have least freedom and matter most.
    [...all]
      .sort((a, b) => Number(b.item.geometry.kind === "hole") - Number(a.item.geometry.kind === "hole"))
      .flatMap((one) => one.labels),
    {
      boxes: all.flatMap((one) => one.boxes),
      pieces: all.flatMap(weighedPieces),
      areas: all.flatMap((one) => one.area ?? []),
    },
    options.measure,
  );
  const groups = [
    ...all.map(
      (one): MarkGroup => ({
        id: one.item.id,
        role: one.item.role,
        title: titleOf(one.item, options),
        data: dataOf(one.item.geometry, one.item.mark),
        marks: one.marks,
      }),
    ),
    ...placed.map((label): MarkGroup => ({ id: `${label.id}-label`, role: "label", marks: label.marks })),
  ].filter((group) => group.marks.length > 0);
  return { groups, bounds: unite([...all.map((one) => one.bounds), ...placed.map((label) => label.box)]) };
}

/** Wide lines count twice: breaking an edge for a label hurts more than breaking a thin line. */
function weighedPieces({ item, pieces }: Shown): readonly [PagePoint, PagePoint][] {
  return styleOf(item.role).widthMm >= WIDE_MM ? [...pieces, ...pieces] : pieces;
}

function showItem(item: Item, options: PresentOptions): Shown {
  const style = styleOf(item.role);
  const { geometry } = item;
  switch (geometry.kind) {
    case "line":
      return showLine(item, [geometry.from, geometry.to], style, options);
    case "outline":
      return showOutline(item, geometry, style, options);
    case "circle":
      return showRound(item, geometry.centre, geometry.diameterMm / 2, style, options);
    case "hole":
      return showRound(item, geometry.centre, geometry.diameterMm / 2, style, options);
    case "arc": {
      const points = arcPoints(geometry).map((p) => toPage(options.placing, p));
      const mark: Mark = { kind: "path", path: arcPath(geometry, options.placing), stroke: strokeOf(style) };
      return { ...bare(item, [mark], points), labels: labelOf(item, alongPieces(points, textOf(item, options))) };
    }
    case "dimension":
    case "running dimension": {
      const drawn = geometry.kind === "dimension" ? drawDimension(geometry, options) : drawRunning(geometry, options);
      const boxes = drawn.texts.map((text) => textBox(text, options.measure));
      const pieces = drawn.marks.flatMap(piecesOf);
      return {
        item,
        marks: [...drawn.texts.flatMap((text) => figureGround(text, options.measure)), ...drawn.marks, ...drawn.texts],
        boxes,
        pieces,
        labels: [],
        bounds: unite([rectAround(pieces.flat()), ...boxes]),
      };
    }
    case "text":
      return showText(item, geometry, options);
    default:
      return geometry satisfies never;
  }
}

function showLine(
  item: Item,
  ends: readonly [FramePoint, FramePoint],
  style: RoleStyle,
  options: PresentOptions,
): Shown {
  const [a, b] = [toPage(options.placing, ends[0]), toPage(options.placing, ends[1])];
  const isRegister = item.role === "register line";
  const shown = {
    ...bare(item, [lineMark(a, b, strokeOf(style)), ...(isRegister ? registerEnds(a, b) : [])], [a, b]),
    // Its label keeps clear of the arrowheads, which reach past the ends.
    boxes: isRegister ? [rectAround([a], REGISTER_END_MM), rectAround([b], REGISTER_END_MM)] : [],
  };
  const text = textOf(item, options);
  const place = item.labelAt ?? style.labelAt;
  if (text === "" || place === "none") return shown;
  if (place === "along") return { ...shown, labels: labelOf(item, alongPieces([a, b], text)) };
  const atEnds = [
    ...(place === "from" || place === "both" ? [{ id: `${item.id}-from`, candidates: endPlaces(text, b, a) }] : []),
    ...(place === "to" || place === "both" ? [{ id: `${item.id}-to`, candidates: endPlaces(text, a, b) }] : []),
  ];
  return { ...shown, labels: atEnds };
}

function showOutline(
  item: Item,
  shape: Extract<Geometry, { kind: "outline" }>,
  style: RoleStyle,
  options: PresentOptions,
): Shown {
  const { placing } = options;
  const points = flatten(shape.corners, shape.closed).map((p) => toPage(placing, p));
  const ring = shape.closed && points[0] ? [...points, points[0]] : points;
  const edge: Mark = { kind: "path", path: outlinePath(shape.corners, shape.closed, placing), stroke: strokeOf(style) };
  const hatching = shape.closed ? hatchOutlines([points], style.hatch) : [];
  const corners = shape.corners.map((p) => toPage(placing, p));
  const first = corners[0];
  const sides = shape.closed && first ? [...corners, first] : corners;
  const shown = {
    ...bare(item, [...hatching, edge], ring),
    labels: labelOf(item, alongPieces(sides, textOf(item, options))),
  };
  return hatching.length === 0 ? shown : { ...shown, area: rectAround(points) };
}

function showRound(item: Item, at: FramePoint, radius: number, style: RoleStyle, options: PresentOptions): Shown {
  const centre = toPage(options.placing, at);
  const radiusMm = radius * options.placing.scale;
  const isHole = item.geometry.kind === "hole";
  const marks = isHole
    ? holeMarks(centre, radiusMm, style)
    : [
        ...hatchCircle(centre, radiusMm, style.hatch),
        { kind: "circle", centre, radiusMm, stroke: circleStroke(style, radiusMm) } as const,
      ];
  const box = rectAround([centre], radiusMm);
  const arms = isHole && TO_DRILL.includes(item.role) ? radiusMm + CROSS_BEYOND_MM : 0;
  const pieces: [PagePoint, PagePoint][] =
    arms === 0
      ? []
      : [
          [offset(centre, { right: 1, down: 0 }, -arms), offset(centre, { right: 1, down: 0 }, arms)],
          [offset(centre, { right: 0, down: 1 }, -arms), offset(centre, { right: 0, down: 1 }, arms)],
        ];
  const text = isHole ? [item.mark ?? "", textOf(item, options)].filter(Boolean).join(" ") : textOf(item, options);
  const labels =
    text === ""
      ? []
      : [{ id: item.id, candidates: textsAround(text, centre, { radiusMm, armMm: arms, bold: isHole }) }];
  return { item, marks, boxes: [box], pieces, labels, bounds: grow(box, arms === 0 ? 0 : CROSS_BEYOND_MM) };
}

function showText(item: Item, shape: TextShape, options: PresentOptions): Shown {
  const heightMm = shape.heightMm ?? NOTE_TEXT_MM;
  const at = toPage(options.placing, shape.at);
  const lines = wordsText(shape.words, options.units).split("\n");
  const texts = lines.map((text, index) =>
    textMark({ right: at.right, down: at.down + index * heightMm * 1.6 }, text, {
      heightMm,
      anchor: anchorAsSeen(shape.anchor ?? "start", options.placing),
      weight: shape.bold ? "bold" : "regular",
    }),
  );
  const boxes = texts.map((text) => textBox(text, options.measure));
  const marks: Mark[] = [...texts];
  const pieces: [PagePoint, PagePoint][] = [];
  if (shape.pointsAt) {
    const tip = toPage(options.placing, shape.pointsAt);
    const from = nearestEdge(grow(unite(boxes), 0.8), tip);
    marks.push(lineMark(from, tip, thin()), arrowhead(tip, wayFrom(from, tip)));
    pieces.push([from, tip]);
  }
  return {
    item,
    marks,
    boxes,
    pieces,
    labels: [],
    bounds: unite([...boxes, ...pieces.map((piece) => rectAround(piece))]),
  };
}

/** From behind, what lay to the right of a place lies to its left: a text keeps to its side of it. */
function anchorAsSeen(anchor: Anchor, { view, turn }: Placing): Anchor {
  if (view === "front" || turn === 90 || anchor === "middle") return anchor;
  return anchor === "start" ? "end" : "start";
}

function showDatum(scene: Scene, options: PresentOptions): Shown {
  const at = toPage(options.placing, scene.datum.at);
  const axes = pageAxes(options.placing);
  const ends = [offset(at, axes.x, DATUM_ARM_X_MM), offset(at, axes.y, DATUM_ARM_Y_MM)] as const;
  // Beside the arms, since they often lie on the centre line and the register line; near the datum along x, where the
  // part drawn behind the line does not reach.
  const letter = (text: string, end: PagePoint, side: PagePoint): TextMark => {
    const beside = offset(end, side, -2.4);
    const across = beside.right - end.right;
    return textMark({ right: beside.right, down: beside.down + 1.25 }, text, {
      heightMm: 2.5,
      anchor: Math.abs(across) < 1 ? "middle" : across < 0 ? "end" : "start",
      weight: "bold",
    });
  };
  const along = offset(at, axes.x, AXIS_NAME_MM);
  const letters = [letter(scene.frame.axes[0], along, axes.y), letter(scene.frame.axes[1], ends[1], axes.x)];
  const boxes = [rectAround([at], 3), ...letters.map((text) => textBox(text, options.measure))];
  const item: Item = {
    id: "datum",
    role: "datum",
    layer: styleOf("datum").layer,
    geometry: { kind: "text", at: scene.datum.at, words: scene.datum.name },
  };
  return {
    item,
    marks: [
      ...letters.map((text) => rectMark(grow(textBox(text, options.measure), 0.3), { fill: "paper" })),
      ...datumMarks(at, axes),
      ...letters,
    ],
    boxes,
    pieces: [
      [at, ends[0]],
      [at, ends[1]],
    ],
    labels: [
      {
        id: "datum",
        candidates: textsAround("DATUM", at, { radiusMm: 3, armMm: 3, bold: true }).map((text) => ({
          ...text,
          heightMm: LABEL_TEXT_MM,
        })),
      },
    ],
    bounds: unite([rectAround([at, ...ends], 1), ...boxes]),
  };
}

function bare(item: Item, marks: readonly Mark[], points: readonly PagePoint[]): Shown {
  return { item, marks, boxes: [], pieces: pagePieces(points), labels: [], bounds: rectAround(points) };
}

function textOf(item: Item, options: PresentOptions): string {
  return item.label === undefined ? "" : wordsText(item.label, options.units);
}

function labelOf(item: Item, candidates: readonly TextMark[]): LabelRequest[] {
  return candidates.length === 0 ? [] : [{ id: item.id, candidates }];
}

function nearestEdge(box: PageRect, to: PagePoint): PagePoint {
  return {
    right: Math.min(Math.max(to.right, box.left), box.right),
    down: Math.min(Math.max(to.down, box.top), box.bottom),
  };
}

function strokeOf(style: RoleStyle) {
  return { widthMm: style.widthMm, dashMm: dashPattern(style.line, style.widthMm) };
}

function piecesOf(mark: Mark): [PagePoint, PagePoint][] {
  if (mark.kind !== "path") return [];
  return pagePieces(mark.path.flatMap((segment) => (segment.to === "close" ? [] : [segment.at])));
}

/** What a screen reader says of it. */
function titleOf(item: Item, options: PresentOptions): string {
  const { geometry } = item;
  const says = [styleOf(item.role).says, textOf(item, options)].filter(Boolean).join(", ");
  if (geometry.kind === "text") return wordsText(geometry.words, options.units);
  if (geometry.kind !== "hole") return says;
  const depth =
    typeof geometry.depthMm === "number" ? `${geometry.depthMm.toFixed(2)} mm deep` : depthInWords(geometry.depthMm);
  return `${item.mark}: ${says}, ⌀ ${geometry.diameterMm.toFixed(2)} mm${geometry.bit === undefined ? "" : ` (bit ${geometry.bit})`}, ${depth} from ${geometry.datum}`;
}

function dataOf(geometry: Geometry, mark: string | undefined): Record<string, string | number> {
  if (geometry.kind !== "hole") return {};
  const { centre, diameterMm, depthMm, datum } = geometry;
  return { mark: mark ?? "", x: centre.x, y: centre.y, diameterMm, depthMm, datum };
}
