/**
 * A scene as DXF (AC1021) in millimetres, for a cutter, a mill or a drawing program. x and y are the frame's own as seen
 * from the front; a scene seen from behind is written as it is seen, y negated, and says so.
 *
 * Layers are named by role. A hole is a CIRCLE with its mark, depth and depth datum in extended data (application
 * FETTLE, strings "mark=…", "depth=…", "datum=…") and in a TEXT on the layer "<role>-TEXT". Shapes stay true lines, arcs
 * and bulges; dimensions and labels are plain lines and text. Hatch is left out: layers and line kinds tell roles apart.
 */
import {
  type CommonEntityOptions,
  DxfWriter,
  LWPolylineFlags,
  point2d,
  point3d,
  TextHorizontalAlignment,
  Units,
} from "@tarikjabiri/dxf";
import {
  dashPattern,
  depthInWords,
  type Item,
  type Mark,
  type MarkGroup,
  presentScene,
  ROLE_STYLE,
  type RoleStyle,
  type Scene,
  styleOf,
  type TextMark,
  type TextMeasure,
  viewStatement,
} from "../core/drawing/index.ts";

export interface DxfOptions {
  readonly measure: TextMeasure;
  readonly units?: "mm" | "inch";
}

const APPLICATION = "FETTLE";
const WHITE = 7;
const TEXT_MM = 2.5;
const BAR_MM = 100;
const BAR_LAYER = "SCALE-BAR";
const LABEL_LAYER = "LABEL";

interface Sheet {
  readonly writer: DxfWriter;
  /** -1 where y is negated. */
  readonly side: 1 | -1;
}

export function writeDxf(scene: Scene, { measure, units = "mm" }: DxfOptions): string {
  const writer = new DxfWriter();
  writer.setUnits(Units.Millimeters);
  writer.tables.addAppId(APPLICATION);
  const sheet: Sheet = { writer, side: scene.view === "behind" ? -1 : 1 };
  const placing = { view: scene.view, turn: 90, origin: { right: 0, down: 0 }, scale: 1 } as const;
  const shown = presentScene(scene, { placing, units, measure });
  addLayers(scene, sheet);
  for (const item of scene.items) addItem(item, sheet);
  const marks = new Set(scene.items.filter((item) => item.geometry.kind === "hole").map((item) => `${item.id}-label`));
  for (const group of shown.groups) {
    if (group.role === "label" ? !marks.has(group.id) : isDrawnAsMarks(group, scene))
      addMarks(group, layerOf(group, scene), writer);
  }
  addBar(scene, shown.bounds, writer);
  return writer.stringify();
}

function addLayers(scene: Scene, { writer }: Sheet): void {
  const styles = Object.values(ROLE_STYLE) as readonly RoleStyle[];
  const lineTypes = new Set<string>();
  const used = new Map<string, RoleStyle>();
  for (const item of scene.items) {
    used.set(layerName(item.layer), styleOf(item.role));
    if (item.geometry.kind === "hole") used.set(`${layerName(item.layer)}-TEXT`, styleOf("note"));
  }
  used.set(styleOf("datum").layer, styleOf("datum"));
  used.set(LABEL_LAYER, styleOf("note"));
  used.set(BAR_LAYER, styleOf("note"));
  for (const style of styles) {
    const name = lineTypeName(style);
    const pattern = dashPattern(style.line, style.widthMm);
    if (pattern.length === 0 || lineTypes.has(name)) continue;
    lineTypes.add(name);
    writer.addLType(
      name,
      style.line,
      pattern.map((part, index) => (index % 2 === 0 ? part : -part)),
    );
  }
  for (const [layer, style] of used) writer.addLayer(layer, WHITE, lineTypeName(style));
}

function lineTypeName(style: RoleStyle): string {
  return style.line === "continuous"
    ? "Continuous"
    : `${style.line.toUpperCase().replace(/[^A-Z]+/g, "-")}-${String(Math.round(style.widthMm * 100))}`;
}

function addItem(item: Item, { writer, side }: Sheet): void {
  const { geometry } = item;
  const options: CommonEntityOptions = { layerName: layerName(item.layer) };
  const at = (p: { x: number; y: number }) => point3d(p.x, p.y * side);
  switch (geometry.kind) {
    case "line":
      writer.addLine(at(geometry.from), at(geometry.to), options);
      return;
    case "circle":
      writer.addCircle(at(geometry.centre), geometry.diameterMm / 2, options);
      return;
    case "arc": {
      const [from, to] = [geometry.fromDegrees, geometry.fromDegrees + geometry.sweepDegrees].map(
        (degrees) => degrees * side,
      );
      const anticlockwise = geometry.sweepDegrees * side > 0;
      writer.addArc(
        at(geometry.centre),
        geometry.radiusMm,
        (anticlockwise ? from : to) ?? 0,
        (anticlockwise ? to : from) ?? 0,
        options,
      );
      return;
    }
    case "outline": {
      const corners = geometry.corners.map((corner) => ({
        point: point2d(corner.x, corner.y * side),
        bulge: (corner.bulge ?? 0) * side,
      }));
      writer.addLWPolyline(corners, {
        ...options,
        flags: geometry.closed ? LWPolylineFlags.Closed : LWPolylineFlags.None,
      });
      return;
    }
    case "hole": {
      const { centre, diameterMm, bit, depthMm, datum } = geometry;
      const depth = typeof depthMm === "number" ? depthMm.toFixed(4) : depthMm;
      const data = writer.addCircle(at(centre), diameterMm / 2, options).addXData(APPLICATION);
      for (const text of [`id=${item.id}`, `mark=${item.mark}`, `depth=${depth}`, `datum=${datum}`])
        data.string(wholeString(text));
      const text = `${item.mark} ⌀${diameterMm.toFixed(2)}${bit === undefined ? "" : ` (bit ${bit})`} ${typeof depthMm === "number" ? `deep ${depthMm.toFixed(2)}` : depthInWords(depthMm)} from ${datum}`;
      const beside = { x: centre.x + diameterMm / 2 + 1, y: centre.y };
      writer.addText(at(beside), TEXT_MM, clean(text), { layerName: `${layerName(item.layer)}-TEXT` });
      return;
    }
    case "dimension":
    case "running dimension":
    case "text":
      return;
    default:
      geometry satisfies never;
  }
}

/** Dimensions, notes and the datum mark have no DXF shape of their own here: their drawn marks are written. */
function isDrawnAsMarks(group: MarkGroup, scene: Scene): boolean {
  if (group.role === "datum") return true;
  const kind = scene.items.find((item) => item.id === group.id)?.geometry.kind;
  return kind === "dimension" || kind === "running dimension" || kind === "text";
}

function layerOf(group: MarkGroup, scene: Scene): string {
  if (group.role === "label") return LABEL_LAYER;
  return layerName(scene.items.find((item) => item.id === group.id)?.layer ?? styleOf("datum").layer);
}

/** Page marks with the head to the left: page right is x, page up is y as seen. */
function addMarks(group: MarkGroup, layer: string, writer: DxfWriter): void {
  for (const mark of group.marks) {
    if (mark.kind === "text") addText(mark, layer, writer);
    else if (mark.kind === "circle")
      writer.addCircle(point3d(mark.centre.right, -mark.centre.down), mark.radiusMm, { layerName: layer });
    else if (mark.fill !== "paper") addPath(mark, layer, writer);
  }
}

function addPath(mark: Extract<Mark, { kind: "path" }>, layer: string, writer: DxfWriter): void {
  const points = mark.path.flatMap((segment) => (segment.to === "close" ? [] : [segment.at]));
  const closed = mark.path.some((segment) => segment.to === "close");
  const [a, b] = points;
  if (points.length === 2 && a && b)
    writer.addLine(point3d(a.right, -a.down), point3d(b.right, -b.down), { layerName: layer });
  else
    writer.addLWPolyline(
      points.map((p) => ({ point: point2d(p.right, -p.down) })),
      { layerName: layer, flags: closed ? LWPolylineFlags.Closed : LWPolylineFlags.None },
    );
}

/** A DXF value ends at the end of its line. */
function clean(text: string): string {
  return text.replace(/\p{Cc}+/gu, " ");
}

const LONGEST_STRING = 250;

/** The library (2.9.0) drops the last character of a string in extended data; a space is put there to be dropped. */
function wholeString(text: string): string {
  return `${clean(text).slice(0, LONGEST_STRING)} `;
}

/** Signs that layer names may not hold. */
function layerName(name: string): string {
  return clean(name).replace(/[<>/\\":;?*|=`]/g, "-");
}

function addText(mark: TextMark, layer: string, writer: DxfWriter): void {
  const at = point3d(mark.at.right, -mark.at.down);
  const align = {
    start: TextHorizontalAlignment.Left,
    middle: TextHorizontalAlignment.Center,
    end: TextHorizontalAlignment.Right,
  }[mark.anchor];
  const anchored = mark.anchor === "start" ? {} : { horizontalAlignment: align, secondAlignmentPoint: at };
  writer.addText(at, mark.heightMm, clean(mark.text), { layerName: layer, rotation: mark.turnDegrees, ...anchored });
}

/** A bar of exactly 100 mm under the drawing, and what a stranger to the file must know. */
function addBar(scene: Scene, bounds: { left: number; bottom: number }, writer: DxfWriter): void {
  const [x, y] = [bounds.left, -bounds.bottom - 12];
  const options = { layerName: BAR_LAYER };
  writer.addLine(point3d(x, y), point3d(x + BAR_MM, y), options);
  for (const end of [x, x + BAR_MM]) writer.addLine(point3d(end, y - 2), point3d(end, y + 2), options);
  const [along, across] = scene.frame.axes;
  const { at, name } = scene.datum;
  const notes = [
    `${BAR_MM} mm: measure this bar before cutting. Units: mm.`,
    `Frame: ${scene.frame.name}. (0, 0) is the ${scene.frame.origin}; x here is ${along}, y here is ${scene.view === "behind" ? "minus " : ""}${across}.`,
    `Datum: ${name}, at ${along} ${at.x.toFixed(2)}, ${across} ${at.y.toFixed(2)}. Holes carry their depth and the face it counts from.`,
    viewStatement(scene.frame, scene.view, 90),
  ];
  notes.forEach((text, index) => {
    writer.addText(point3d(x, y - 6 - index * 5), TEXT_MM, clean(text), options);
  });
}
