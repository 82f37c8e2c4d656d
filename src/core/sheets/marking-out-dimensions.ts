/**
 * Dimensions that can be changed where they stand on the drawing. What was measured is changed by another reading, which
 * keeps its tool and its doubt; what was decided is simply written.
 */
import type { FramePoint } from "../drawing/index.ts";
import type { Instrument } from "../job/index.ts";
import type { Quantity } from "../quantity/index.ts";
import { missingReading, nameOfHole } from "../questions/index.ts";
import type { NextReading } from "../verdict/index.ts";
import type { MovablePlate } from "./marking-out-bridge.ts";
import { type KnownFrame, onString, type StringRun } from "./marking-out-neck.ts";

/** What a dimension belongs to: it is shown when that is looked at; "list": it finds no room on the drawing. */
export type DimensionOf = "whole" | "bridge" | "list" | `hole ${string}` | `rout ${string}`;

export interface EditableDimension {
  readonly id: string;
  readonly of: DimensionOf;
  /** e.g. "from the nut's face to fret 12" */
  readonly what: string;
  /** As it is shown, mm; a diameter or a size has its own line as well. */
  readonly valueMm: number;
  readonly quantity: Quantity;
  readonly from: FramePoint;
  readonly to: FramePoint;
  readonly along: "x" | "y";
  /** For "x" the y that its line stands off, for "y" the x; `row` 0 stands nearest. */
  readonly edge: number;
  /** Which way the line stands off from `edge`. */
  readonly off: 1 | -1;
  readonly row: number;
  readonly edit:
    | { readonly by: "reading"; readonly reading: NextReading }
    /** `path` points into the document; what is written there is the shown value. */
    | { readonly by: "decision"; readonly path: string };
}

export interface DimensionContext {
  readonly instrument: Instrument;
  readonly frame: KnownFrame | undefined;
  readonly runs: readonly StringRun[];
  readonly plate: MovablePlate | undefined;
  /** The subject by which the job file tells a place: `….x` from the nut where it is written so. */
  readonly writtenAs: (path: string) => string;
  readonly halfWidthMm: number;
}

export function editableDimensions(context: DimensionContext): EditableDimension[] {
  return [
    ...neckDimensions(context),
    ...bodyDimensions(context),
    ...plateDimensions(context),
    ...holeDimensions(context),
    ...routDimensions(context),
  ];
}

type Line = Pick<EditableDimension, "from" | "to" | "along" | "edge" | "off" | "row">;

/** A dimension that a reading changes; none where the value is not known yet. */
function read(
  id: string,
  of: DimensionOf,
  what: string,
  quantity: Quantity,
  lines: Line,
  subject = quantity.path,
): EditableDimension[] {
  if (!quantity.known) return [];
  const reading = { ...missingReading(quantity, "this dimension of the drawing"), path: subject, what };
  return [{ id, of, what, valueMm: quantity.value, quantity, ...lines, edit: { by: "reading", reading } }];
}

function alongX(fromX: number, toX: number, y: number, edge: number, off: 1 | -1, row: number): Line {
  return { from: { x: fromX, y }, to: { x: toX, y }, along: "x", edge, off, row };
}

function alongY(fromY: number, toY: number, x: number, edge: number, off: 1 | -1, row: number): Line {
  return { from: { x, y: fromY }, to: { x, y: toY }, along: "y", edge, off, row };
}

/** Two places along at the heights where the things themselves end, so that witness lines do not run over them. */
function witnessed(line: Line, fromY: number, toY: number): Line {
  return { ...line, from: { ...line.from, y: fromY }, to: { ...line.to, y: toY } };
}

function neckDimensions({ instrument, frame, runs, halfWidthMm }: DimensionContext): EditableDimension[] {
  const { neck } = instrument;
  if (!frame) return [];
  const first = runs[0];
  const last = runs.at(-1);
  const margin =
    neck.nutWidth.known && first && last ? (neck.nutWidth.value - Math.abs(first.nut.y - last.nut.y)) / 2 : 0;
  const at = (fret: number) => (first && last ? [onString(first, fret), onString(last, fret)] : []);
  const edgeAt = (fret: number) => Math.max(0, ...at(fret).map(({ y }) => y + margin));
  const nut = frame.offsetMm;
  const given = nut + (neck.nutToFret12.known ? neck.nutToFret12.value : 0);
  const fret12 = first && last ? at(12).reduce((sum, { x }) => sum + x / 2, 0) : given;
  const heel = neck.fret12ToHeelEnd.known ? fret12 + neck.fret12ToHeelEnd.value : 0;
  const width = neck.nutWidth;
  return [
    ...read(
      "nut-to-fret-12",
      "whole",
      "from the nut's face to fret 12",
      neck.nutToFret12,
      witnessed(alongX(nut, fret12, 0, halfWidthMm, 1, 0), edgeAt(0), edgeAt(12)),
    ),
    ...read(
      "fret-12-to-heel",
      "whole",
      "from fret 12 to the end of the heel",
      neck.fret12ToHeelEnd,
      witnessed(alongX(fret12, heel, 0, halfWidthMm, 1, 0), edgeAt(12), pocketHalf(instrument)),
    ),
    ...(width.known
      ? read(
          "nut-width",
          "whole",
          "the width of the nut",
          width,
          alongY(-width.value / 2, width.value / 2, nut, nut, -1, 0),
        )
      : []),
  ];
}

function pocketHalf({ body, neck }: Instrument): number {
  const { width } = body.pocket;
  return neck.boltOn && width.known ? width.value / 2 : 0;
}

/** Where a place along the body counts from: the end wall, or the nut where the file writes x. */
function datumOf({ instrument, writtenAs }: DimensionContext, path: string) {
  const subject = writtenAs(path);
  const { endWallX } = instrument.scaleLine;
  const byX = subject.endsWith(".x") && endWallX?.known === true;
  return {
    subject,
    x: byX && endWallX.known ? -endWallX.value : 0,
    words: byX || (endWallX?.known && endWallX.value === 0) ? "from the nut's face" : "from the pocket's end wall",
  };
}

/** A place along the body, from its datum. */
function placed(
  context: DimensionContext,
  id: string,
  of: DimensionOf,
  what: string,
  quantity: Quantity,
  line: { readonly edge: number; readonly off: 1 | -1; readonly row: number; readonly y?: number },
): EditableDimension[] {
  if (!quantity.known) return [];
  const { subject, x, words } = datumOf(context, quantity.path);
  const start = line.off * (x === 0 ? pocketHalf(context.instrument) : 0);
  const y = line.y ?? line.edge;
  const lines = witnessed(alongX(x, quantity.value, y, line.edge, line.off, line.row), start, y);
  return read(id, of, `${words} to ${what}`, quantity, lines, subject).map((one) => ({
    ...one,
    valueMm: quantity.value - x,
  }));
}

function bodyDimensions(context: DimensionContext): EditableDimension[] {
  const { instrument, frame, halfWidthMm } = context;
  const { body, scaleLine } = instrument;
  const best = frame?.best.quantity;
  // Only a line that was read on the body is a dimension of its own: else it follows from the neck's.
  const line = scaleLine.read.find((one) => one.known && one.value === best?.value);
  const { length, width } = body.pocket;
  return [
    ...(line
      ? placed(context, "scale-line", "whole", "the scale line", line, { edge: halfWidthMm, off: 1, row: 1 })
      : []),
    ...placed(context, "tail-edge", "whole", "the tail edge", body.tailEdge, { edge: halfWidthMm, off: 1, row: 2 }),
    ...(length.known && instrument.neck.boltOn
      ? read(
          "pocket-length",
          "whole",
          "the length of the neck pocket",
          length,
          alongX(-length.value, 0, -pocketHalf(instrument), -halfWidthMm, -1, 0),
        )
      : []),
    ...(width.known && length.known && instrument.neck.boltOn
      ? read(
          "pocket-width",
          "list",
          "the width of the neck pocket",
          width,
          alongY(-width.value / 2, width.value / 2, -length.value, -length.value, -1, 0),
        )
      : []),
  ];
}

function plateDimensions(context: DimensionContext): EditableDimension[] {
  const { instrument, plate, writtenAs } = context;
  const { bridge } = instrument;
  if (!plate || !bridge) return [];
  const [piece] = bridge.pieces;
  const front = plate.placeMm;
  const treble = -instrument.bassSide as 1 | -1;
  const edge = plate.sideMm - treble * (plate.widthMm / 2);
  const { x, words } = datumOf(context, "fit.bridge.u");
  const key = writtenAs("fit.bridge.u").endsWith(".x") ? "x" : "u";
  const chosen: Quantity = {
    known: true,
    path: "fit.bridge.u",
    kind: "length",
    value: front,
    origin: "assumed",
    said: "",
    doubt: [],
  };
  return [
    {
      id: "plate-place",
      of: "bridge",
      what: `${words} to the plate's front edge`,
      valueMm: front - x,
      quantity: bridge.chosenPlace.known ? bridge.chosenPlace : chosen,
      ...witnessed(
        alongX(x, front, edge, edge, -treble as 1 | -1, 1),
        x === 0 ? -treble * pocketHalf(instrument) : 0,
        edge,
      ),
      edit: { by: "decision", path: `/fit/bridge/${key}` },
    },
    ...(piece
      ? [
          ...read(
            "plate-length",
            "bridge",
            "the plate's length",
            piece.length,
            alongX(front, front + plate.lengthMm, edge, edge, -treble as 1 | -1, 0),
          ),
          ...read(
            "plate-width",
            "bridge",
            "the plate's width",
            piece.width,
            alongY(
              plate.sideMm - plate.widthMm / 2,
              plate.sideMm + plate.widthMm / 2,
              front + plate.lengthMm,
              front + plate.lengthMm,
              1,
              0,
            ),
          ),
        ]
      : []),
  ];
}

const BESIDE_HOLE_MM = 4;

function holeDimensions(context: DimensionContext): EditableDimension[] {
  const { holes } = context.instrument.body;
  const seen = new Set<string>();
  return holes.flatMap((one): EditableDimension[] => {
    const { u, y } = one.at;
    if (!u.known || !y.known) return [];
    const of = `hole ${one.id}` as const;
    const name = nameOfHole(one.id);
    const group = one.group.replaceAll("-", " ");
    const r = one.diameter.known ? one.diameter.value / 2 : 1;
    const first = !seen.has(one.group);
    seen.add(one.group);
    const side = y.value < 0 ? -1 : 1;
    const row = placed(context, `${one.id}-along`, of, `the middle of ${group}`, u, {
      edge: y.value - side * (r + BESIDE_HOLE_MM),
      off: -side as 1 | -1,
      row: 0,
      y: y.value,
    });
    return [
      ...row,
      // One row has one place along: shown once beside the plate as well.
      ...(first
        ? row.map((item) => ({
            ...item,
            id: `${one.group}-row`,
            of: "bridge" as const,
            ...rowLine(context, item, u.value),
          }))
        : []),
      ...(y.value === 0
        ? []
        : read(
            `${one.id}-across`,
            of,
            // The sign belongs to the reading: right of the line with the head up is more, left of it less than nothing.
            `from the centre line to the middle of ${name} (minus: to the left, head up)`,
            y,
            alongY(0, y.value, u.value, u.value + r + BESIDE_HOLE_MM, 1, 0),
          )),
      ...read(
        `${one.id}-diameter`,
        of,
        `the diameter of ${group}`,
        one.diameter,
        alongY(y.value - r, y.value + r, u.value, u.value - r - BESIDE_HOLE_MM / 2, -1, 0),
      ),
    ];
  });
}

function rowLine({ instrument, plate, halfWidthMm }: DimensionContext, item: EditableDimension, u: number): Line {
  const treble = -instrument.bassSide as 1 | -1;
  const edge = plate ? plate.sideMm - treble * (plate.widthMm / 2) : -treble * halfWidthMm;
  const start = item.from.x === 0 ? -treble * pocketHalf(instrument) : 0;
  return witnessed(alongX(item.from.x, u, edge, edge, -treble as 1 | -1, 2), start, edge);
}

function routDimensions(context: DimensionContext): EditableDimension[] {
  return context.instrument.body.cavities.flatMap((cavity): EditableDimension[] => {
    const { id, centre, length, width } = cavity;
    if (!centre.u.known || !length.known || !width.known) return [];
    const of = `rout ${id}` as const;
    const name = `the ${id.replaceAll("-", " ")} rout`;
    const u = centre.u.value;
    const y = centre.y.known ? centre.y.value : 0;
    const across = Math.max(length.value, cavity.ears?.length.known ? cavity.ears.length.value : 0) / 2;
    const rear = u + Math.max(width.value, cavity.ears?.width.known ? cavity.ears.width.value : 0) / 2;
    return [
      ...placed(context, `${id}-place`, of, `the middle of ${name}`, centre.u, { edge: y + across, off: 1, row: 1, y }),
      ...read(
        `${id}-width`,
        of,
        `the width of ${name}`,
        width,
        alongX(u - width.value / 2, u + width.value / 2, y + length.value / 2, y + across, 1, 0),
      ),
      ...read(
        `${id}-length`,
        of,
        `the length of ${name}`,
        length,
        alongY(y - length.value / 2, y + length.value / 2, rear, rear, 1, 0),
      ),
      ...earDimensions(cavity.ears, of, name, u, y, rear),
    ];
  });
}

function earDimensions(
  ears: { readonly length: Quantity; readonly width: Quantity } | undefined,
  of: DimensionOf,
  name: string,
  u: number,
  y: number,
  rear: number,
): EditableDimension[] {
  if (!ears?.length.known) return [];
  const half = ears.length.value / 2;
  return read(
    `${of.slice(5)}-ears`,
    of,
    `the length of ${name} over its ears`,
    ears.length,
    alongY(y - half, y + half, u, rear, 1, 1),
  );
}
