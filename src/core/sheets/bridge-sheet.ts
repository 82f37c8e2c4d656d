/**
 * The bridge template at 1:1: register line, centre line, string lines, every piece, new and old holes, plugs.
 *
 * Places count from the register fret along the centre line, so that the sheet is laid on a line found with a steel
 * rule; the scale length is never carried on paper. Plugs are drawn where the traveller plugs an old hole.
 */
import {
  type DrawingSheet,
  dimension,
  hole,
  type Item,
  line,
  makeScene,
  note,
  outline,
  rectangle,
  runningDimension,
  type Scene,
} from "../drawing/index.ts";
import type { Hole } from "../job/index.ts";
import { bitSettled, depthSettled } from "../plan/index.ts";
import { figure, mm, type Phrase, say } from "../quantity/index.ts";
import { outerNames, type PlacedPiece } from "../questions/index.ts";
import type { Verdict } from "../verdict/index.ts";
import { drillCautions } from "./cautions.ts";
import {
  fromRegister,
  type KnownPlacement,
  type Register,
  registerLineAt,
  registerOf,
  type SheetContext,
  titleFields,
} from "./context.ts";
import { type BodyPlace, placeOfPart } from "./geometry.ts";

/** How far the lines run past the plate. */
const AHEAD_MM = 14;
const BEHIND_MM = 8;

/** Undefined if no place was found: there is nothing to drill by. */
export function bridgeSheet(context: SheetContext): DrawingSheet | undefined {
  const scene = bridgeScene(context);
  return (
    scene && {
      kind: "drawing",
      id: "bridge-template",
      scene,
      fields: titleFields(context, "Bridge template"),
      paper: context.options.paper,
      ...printed(context),
      notes: notesOf(context, scene),
    }
  );
}

function printed({ options }: SheetContext): Pick<DrawingSheet, "printFactors"> {
  return options.printFactors === undefined ? {} : { printFactors: options.printFactors };
}

/** @param datum "line" for the template (register line), "fret" for the marking-out list */
export function bridgeScene(context: SheetContext, datum: "line" | "fret" = "line"): Scene | undefined {
  const { placement: placed, instrument } = context;
  if (!placed) return undefined;
  const pieces = placed.pieces.filter((piece) => piece.pose !== undefined);
  if (pieces.length === 0 || pieces.length < placed.pieces.length) return undefined;
  const register = registerOf(placed, instrument);
  const at = (place: BodyPlace) => ({ x: fromRegister(placed, register, place.u), y: place.y });
  const extent = extentOf(pieces, instrument.body.holes, at);
  const lineAt = registerLineAt(extent.front);
  return makeScene({
    id: "bridge",
    title: "Bridge template",
    view: "front",
    frame: {
      name: "body",
      origin: `${register.words}, on the centre line of the neck`,
      axes: ["along", "across"],
      bassSide: instrument.bassSide,
    },
    datum:
      datum === "line"
        ? {
            at: { x: lineAt, y: 0 },
            name: `register line on the centre line, ${lineAt.toFixed(1)} from ${register.words} by steel rule`,
          }
        : { at: { x: 0, y: 0 }, name: `${register.words}, on the centre line of the neck` },
    items: [
      line(
        "centre line",
        "centre",
        { x: lineAt - AHEAD_MM, y: 0 },
        { x: extent.rear + BEHIND_MM, y: 0 },
        "centre line",
      ),
      line(
        "register line",
        "register",
        { x: lineAt, y: extent.left },
        { x: lineAt, y: extent.right },
        { label: "register line", labelAt: "to" },
      ),
      ...stringLines(context, placed, register, lineAt),
      ...pieces.flatMap((piece) => pieceItems(piece, at, context.verdicts)),
      ...oldItems(instrument.body.holes, pieces, at, extent),
      ...groundWire(context, at, extent),
      ...dimensions(pieces, lineAt, at, extent),
    ],
  });
}

interface Extent {
  readonly front: number;
  readonly rear: number;
  readonly left: number;
  readonly right: number;
}

type Place = (place: BodyPlace) => { x: number; y: number };

function extentOf(pieces: readonly PlacedPiece[], holes: readonly Hole[], at: Place): Extent {
  const corners = pieces.flatMap((piece) => cornersOf(piece).map(at));
  const xs = corners.map((corner) => corner.x);
  const ys = corners.map((corner) => corner.y);
  const front = Math.min(...xs);
  const rear = Math.max(...xs);
  const near = holes
    .flatMap((old) => (old.at.u.known && old.at.y.known ? [at({ u: old.at.u.value, y: old.at.y.value })] : []))
    .filter((place) => place.x > front - 30 && place.x < rear + 40);
  const all = [...ys, ...near.map((place) => place.y)];
  const half = Math.max(...all.map(Math.abs)) + 8;
  return {
    front: Math.min(front, ...near.map((place) => place.x - 4)),
    rear: Math.max(rear, ...near.map((place) => place.x + 4)),
    left: -half,
    right: half,
  };
}

/** Corners of a piece's outline on the body. */
function cornersOf(piece: PlacedPiece): BodyPlace[] {
  const { length, width, screws } = piece.piece;
  const pose = piece.pose as NonNullable<PlacedPiece["pose"]>;
  const q = screws.flatMap((screw) => (screw.q.known ? [Math.abs(screw.q.value)] : []));
  const half = width.known ? width.value / 2 : Math.max(4, ...q);
  const long = length.known ? length.value : 10;
  return [
    placeOfPart(pose, 0, -half),
    placeOfPart(pose, 0, half),
    placeOfPart(pose, long, half),
    placeOfPart(pose, long, -half),
  ];
}

function pieceItems(piece: PlacedPiece, at: Place, verdicts: readonly Verdict[]): Item[] {
  const pose = piece.pose as NonNullable<PlacedPiece["pose"]>;
  const { length, width, id } = piece.piece;
  const items: Item[] = [];
  if (length.known && width.known) {
    const middle = at(placeOfPart(pose, length.value / 2, 0));
    const name = id.replace("-", " ");
    items.push(
      outline(
        "plate outline",
        `outline-${id}`,
        rectangle({
          centre: middle,
          alongMm: length.value,
          acrossMm: width.value,
          cornerRadiusMm: 1,
          turnDegrees: pose.yawDegrees,
        }),
        isUnit(piece) ? undefined : say`${name}, ${mm(length.value, 1)} × ${mm(width.value, 1)}`,
      ),
    );
    if (isUnit(piece)) items.push(unitNumber(piece, width.value, at));
  }
  for (const drilled of piece.holes) {
    const role = /strings#/.test(drilled.id) ? "string hole" : /posts#/.test(drilled.id) ? "post" : "new hole";
    items.push(
      hole(
        role,
        drilled.id,
        {
          centre: at({ u: drilled.uMm, y: drilled.yMm }),
          diameterMm: drilled.pilotMm,
          ...(bitSettled(drilled.id, verdicts) ? {} : { bit: "not settled" as const }),
          depthMm:
            drilled.depthMm === "through" || depthSettled(drilled.depthMm, verdicts) ? drilled.depthMm : "not settled",
          datum: "body top",
        },
        role === "post" ? { label: say`Ø ${mm(drilled.pilotMm, 1)}` } : {},
      ),
    );
  }
  return items;
}

/** One of several single units: its place in the row is told by its string's number. */
function isUnit({ piece, saddles }: PlacedPiece): boolean {
  return /^unit-/.test(piece.id) && saddles.length === 1;
}

/** The string's number at the front of a unit, beside the string line. */
function unitNumber({ piece, saddles, pose }: PlacedPiece, widthMm: number, at: Place): Item {
  const place = placeOfPart(pose as NonNullable<PlacedPiece["pose"]>, UNIT_NUMBER_BACK_MM, -widthMm / 4);
  return note(`number-${piece.id}`, {
    at: at(place),
    words: String(saddles[0]?.string ?? ""),
    heightMm: 2.8,
    anchor: "middle",
    bold: true,
  });
}

const UNIT_NUMBER_BACK_MM = 5;

/** Old holes near the bridge, as plugs where they are to be plugged or are plugged already. */
function oldItems(holes: readonly Hole[], pieces: readonly PlacedPiece[], at: Place, extent: Extent): Item[] {
  const plugs = new Map(pieces.flatMap((piece) => piece.judgement?.plugs ?? []).map((plug) => [plug.oldId, plug]));
  return holes.flatMap((old): Item[] => {
    if (!old.at.u.known || !old.at.y.known || !old.diameter.known) return [];
    const centre = at({ u: old.at.u.value, y: old.at.y.value });
    if (centre.x < extent.front - 20 || centre.x > extent.rear + 20) return [];
    const plug = plugs.get(old.id);
    const depthMm = old.depth === "through" ? "through" : old.depth.known ? old.depth.value : "not known";
    const plugged = old.plug?.diameter.known ? old.plug.diameter.value : plug?.plugDiameterMm;
    if (plugged !== undefined)
      return [hole("plug", `plug-${old.id}`, { centre, diameterMm: plugged, depthMm, datum: "body top" })];
    return [hole("old hole", old.id, { centre, diameterMm: old.diameter.value, depthMm, datum: "body top" })];
  });
}

function stringLines({ instrument }: SheetContext, placed: KnownPlacement, register: Register, from: number): Item[] {
  const { frame } = placed.model;
  // All by their notes or none: "string 2" beside "1 E4" would read as one label.
  const byNote = instrument.strings.every((string) => (string.note ?? "") !== "");
  return placed.pieces.flatMap((piece) =>
    piece.saddles.flatMap((saddle): Item[] => {
      const nutY = instrument.neck.nutY[saddle.string - 1];
      const pose = piece.pose;
      if (!nutY?.known || !pose) return [];
      const p = saddle.end.value + saddle.setback.value - pose.placeMm;
      const contact = placeOfPart(pose, p, saddle.q.value);
      const endX = fromRegister(placed, register, contact.u);
      const nutX = (frame.nutX[saddle.string - 1] ?? 0) - register.xMm;
      const yAt = (x: number) => nutY.value + ((contact.y - nutY.value) * (x - nutX)) / (endX - nutX);
      const name = instrument.strings[saddle.string - 1]?.note ?? "";
      return [
        line(
          "string line",
          `string-${saddle.string}`,
          { x: from - 8, y: yAt(from - 8) },
          { x: endX, y: contact.y },
          { label: name === "" || !byNote ? `string ${saddle.string}` : `${saddle.string} ${name}`, labelAt: "from" },
        ),
      ];
    }),
  );
}

function groundWire({ instrument }: SheetContext, at: Place, extent: Extent): Item[] {
  const wire = instrument.body.groundWire;
  if (!wire?.u.known || !wire.y.known) return [];
  const place = at({ u: wire.u.value, y: wire.y.value });
  if (place.x < extent.front || place.x > extent.rear) return [];
  return [
    note("ground-wire", {
      at: { x: extent.rear + 16, y: place.y < 0 ? extent.left + 4 : extent.right - 4 },
      words: "bare end of the ground wire: bare metal here",
      heightMm: 2,
      anchor: place.y < 0 ? "start" : "end",
      pointsAt: place,
    }),
  ];
}

function dimensions(pieces: readonly PlacedPiece[], lineAt: number, at: Place, extent: Extent): Item[] {
  const first = pieces[0];
  if (!first?.pose || pieces.length > 2) return [];
  const front = at(placeOfPart(first.pose, 0, 0)).x;
  const holes = first.holes.map((drilled) => at({ u: drilled.uMm, y: drilled.yMm }));
  const rows = [...new Map(holes.map((place) => [place.x.toFixed(3), place])).values()].sort((a, b) => a.x - b.x);
  const across = [...new Map(holes.map((place) => [place.y.toFixed(3), place])).values()].sort((a, b) => a.y - b.y);
  const rowY = extent.left - 6;
  return [
    runningDimension("along", {
      origin: { x: lineAt, y: 0 },
      points: [{ x: front, y: extent.left + 8 }, ...rows.map((place) => ({ x: place.x, y: extent.left + 8 }))],
      along: "x",
      lineAt: rowY,
      digits: 1,
    }),
    ...(first.pose.yawDegrees === 0 && across.length > 1
      ? [
          dimension("across", {
            from: across[0] as { x: number; y: number },
            to: across.at(-1) as { x: number; y: number },
            along: "y",
            lineAt: extent.rear + 10,
          }),
        ]
      : []),
  ];
}

function notesOf(context: SheetContext, scene: Scene): Phrase[] {
  const { instrument, placement: placed } = context;
  if (!placed) return [];
  const register = registerOf(placed, instrument);
  const lineAt = scene.datum.at.x;
  const cautions = drillCautions(context);
  const [high, low] = outerNames(instrument.strings, instrument.stringCount);
  const plugs = placed.pieces.reduce((sum, piece) => sum + (piece.judgement?.plugs.length ?? 0), 0);
  return [
    say`Scribe the register line ${mm(lineAt, 1)} from ${register.words} with a steel rule, ${instrument.neck.boltOn ? "neck bolted, " : ""}square to the neck's centre line. Never carry the scale length on paper.`,
    say`Lay both lines of the sheet on the scribed lines: ${low} on the bass side, ${high} on the treble side. Check with threads along the outer strings before anything is marked.`,
    ...(placed.pieces.some(isUnit) ? [say`The number in each outline is the number of its string.`] : []),
    ...(placed.footing.words === "" ? [] : [say`This place holds only ${placed.footing.words}.`]),
    ...(plugs === 0
      ? []
      : [
          say`Plug ${figure(plugs, "", 0)} old holes first (crossed circles); drill only after the glue has cured, bit guided.`,
        ]),
    ...cautions,
    ...(cautions.length === 0 ? [] : [say`What follows only when none of this stands in the way any more.`]),
    say`Prick every bold centre, take the sheet off, and rehearse drill and stop in scrap of the same wood first. Goggles on.`,
  ];
}
