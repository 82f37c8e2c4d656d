/**
 * The bridge question in numbers: saddles, hole patterns, old holes, and what cannot be plugged, taken from the
 * instrument. Whatever is unknown is listed, so that a question can say what to measure.
 */
import {
  type HoleLimits,
  type OldHole,
  type PatternHole,
  rout,
  type Solid,
  tailLine,
  wireChannel,
} from "../bridge/index.ts";
import type { Bridge, BridgePiece, Cavity, Hole, Instrument } from "../job/index.ts";
import type { Asking } from "../ledger/index.ts";
import { derive, type Known, type Quantity } from "../quantity/index.ts";
import { type ScaleFrame, scaleFrame } from "./scale-frame.ts";
import { type Setback, setbackOf } from "./setbacks.ts";

/** One saddle with everything that decides its place. */
export interface SaddleCase {
  readonly string: number;
  /** Where this string's own scale ends. */
  readonly end: Known;
  readonly setback: Known;
  readonly how: Setback;
  readonly from: Known;
  readonly to: Known;
  readonly q: Known;
}

export interface SpareCase {
  readonly string: number;
  readonly name: string;
  readonly setback: Known;
}

export interface PieceCase {
  readonly piece: BridgePiece;
  readonly saddles: readonly SaddleCase[];
}

export type BridgeKind = Pick<Bridge, "kind" | "partId" | "anchor"> & {
  /** There is a stop for the ball ends on the bridge itself. */
  readonly loadsOnTop: boolean;
  readonly tailpiece?: NonNullable<Bridge["tailpiece"]>;
};

export type BridgeModel =
  | {
      readonly known: true;
      /** What the place depends on, and no more: heights and weight of the bridge can change without it. */
      readonly bridge: BridgeKind;
      readonly frame: Extract<ScaleFrame, { known: true }>;
      readonly pieces: readonly PieceCase[];
      readonly reserveMm: number;
      /** Setback of each spare string, by its number. */
      readonly spares: readonly SpareCase[];
      readonly turnedRoundMm: number;
    }
  | { readonly known: false; readonly missing: readonly Quantity[] };

export function bridgeModel(asking: Asking<Instrument>): BridgeModel {
  return asking.derive("bridge model", (inner) => computeModel(inner));
}

function computeModel(asking: Asking<Instrument>): BridgeModel {
  const { subject } = asking;
  const { bridge, limits } = subject;
  if (!bridge) return { known: false, missing: [] };
  const frame = scaleFrame(asking);
  const missing: Quantity[] = frame.known ? [] : [...frame.missing];
  const pieces = bridge.pieces.map((one): PieceCase => {
    const piece = copied(one);
    const saddles = piece.saddles.flatMap((saddle): SaddleCase[] => {
      const { from, to, q, string } = saddle;
      const data = subject.strings[string - 1];
      missing.push(...[from, to, q].filter((quantity) => !quantity.known));
      if (!frame.known || !data || !from.known || !to.known || !q.known) return [];
      const how = setbackOf(data, frame.scaleLengths[string - 1] as Quantity, subject.stringCount);
      const end = frame.ends[string - 1];
      if (!how.quantity.known || !end) return [];
      return [{ string, end, setback: how.quantity, how, from, to, q }];
    });
    if (!piece.side.known) missing.push(piece.side);
    return { piece, saddles: compromised(piece, saddles) };
  });
  if (!frame.known || missing.length > 0) return { known: false, missing };
  const spares = subject.spareStrings.flatMap((string) => {
    const { quantity } = setbackOf(string, frame.scaleLengths[string.number - 1] as Quantity, subject.stringCount);
    return quantity.known && quantity.origin !== "assumed"
      ? [{ string: string.number, name: string.name || `spare string ${string.number}`, setback: quantity }]
      : [];
  });
  return {
    known: true,
    bridge: kindOf(bridge),
    frame,
    pieces,
    reserveMm: limits.saddleReserve.known ? limits.saddleReserve.value : 0.5,
    spares,
    turnedRoundMm: bridge.turnedRound.known ? bridge.turnedRound.value : 0,
  };
}

/**
 * A piece as plain data. What is shared between questions must hold nothing of the instrument as it was handed out: on
 * a later asking that would still show the values of then.
 */
function copied<T extends BridgePiece>(piece: T): T {
  return {
    ...piece,
    saddles: piece.saddles.map((saddle) => ({ ...saddle })),
    screws: piece.screws.map((screw) => ({ ...screw })),
    stringHoles: piece.stringHoles.map((hole) => ({ ...hole })),
  };
}

function kindOf({ kind, partId, anchor, topAnchor, tailpiece }: Bridge): BridgeKind {
  return {
    kind,
    partId,
    anchor,
    loadsOnTop: topAnchor !== undefined,
    ...(tailpiece === undefined ? {} : { tailpiece: copied(tailpiece) }),
  };
}

/** Strings on one saddle stand at the middle of the places that they want; what that leaves is told by its own question. */
function compromised(piece: BridgePiece, saddles: readonly SaddleCase[]): SaddleCase[] {
  return saddles.map((saddle) => {
    const shared = piece.saddles.find((one) => one.string === saddle.string)?.sharedBy ?? [];
    const all = saddles.filter((one) => shared.includes(one.string));
    if (all.length < 2) return saddle;
    const target = all.reduce((sum, one) => sum + one.end.value + one.setback.value, 0) / all.length;
    const from = all.map(({ setback }) => ({ quantity: setback, sensitivity: 1 / all.length }));
    return { ...saddle, setback: derive(saddle.setback.path, "length", target - saddle.end.value, from) };
  });
}

/** The saddles with one string changed for its spare: whatever shares its saddle finds a new middle with it. */
export function withSpare(
  { piece, saddles }: PieceCase,
  spare: Pick<SpareCase, "string" | "setback">,
): readonly SaddleCase[] {
  const own = saddles.map((saddle): SaddleCase => {
    const { quantity } = saddle.how;
    // Every saddle of a case stands on a known setback.
    return { ...saddle, setback: saddle.string === spare.string ? spare.setback : (quantity as Known) };
  });
  return compromised(piece, own);
}

/** What a hole of a piece was read from: its place in the piece, and the diameter that walls are reckoned to. */
export interface MadeHole {
  readonly p: Known;
  readonly q: Known;
  readonly size: Known;
}

export interface PatternCase {
  readonly holes: readonly PatternHole[];
  /** By the hole's id. */
  readonly made: ReadonlyMap<string, MadeHole>;
  readonly missing: readonly Quantity[];
}

/** Screws (or posts) of a piece; string holes too if the strings are to go through the body. */
export function patternOf(piece: BridgePiece, kind: Bridge["kind"], withStringHoles: boolean): PatternCase {
  const missing: Quantity[] = [];
  const holes: PatternHole[] = [];
  const made = new Map<string, MadeHole>();
  piece.screws.forEach((screw, index) => {
    const { p, q, thread, pilot, depth } = screw;
    if (p.known && q.known && thread.known && depth.known) {
      const id = `${piece.id}-${kind === "two posts" ? "posts" : "screws"}#${index + 1}`;
      made.set(id, { p, q, size: pilot.known && pilot.value > thread.value ? pilot : thread });
      holes.push({
        id,
        pMm: p.value,
        qMm: q.value,
        pilotMm: pilot.known ? pilot.value : thread.value,
        threadMm: thread.value,
        depthMm: depth.value,
        purpose: kind === "two posts" ? "other" : "screw",
      });
    } else missing.push(...[p, q, thread, depth].filter((quantity) => !quantity.known));
  });
  if (withStringHoles) {
    piece.stringHoles.forEach((hole, index) => {
      const { p, q, diameter } = hole;
      if (p.known && q.known && diameter.known) {
        const id = `${piece.id}-strings#${index + 1}`;
        made.set(id, { p, q, size: diameter });
        holes.push({
          id,
          pMm: p.value,
          qMm: q.value,
          pilotMm: diameter.value,
          threadMm: diameter.value,
          depthMm: "through",
          purpose: "other",
        });
      } else missing.push(...[p, q, diameter].filter((quantity) => !quantity.known));
    });
  }
  return { holes, made, missing };
}

/** Old holes as solids need place and size; an unknown depth is taken to reach as far as the new hole. */
export function oldHolesOf(holes: readonly Hole[]): {
  readonly holes: OldHole[];
  readonly missing: readonly Quantity[];
} {
  const missing: Quantity[] = [];
  const out = holes.flatMap((hole): OldHole[] => {
    const { at, diameter, depth, plug } = hole;
    if (!at.u.known || !at.y.known || !diameter.known) {
      missing.push(...[at.u, at.y, diameter].filter((quantity) => !quantity.known));
      return [];
    }
    // Glue that is still wet holds up the drill (bridge.holes says so), not the choice of the place.
    const plugged = plug?.diameter.known
      ? { plug: { diameterMm: plug.diameter.value, matched: plug.matched, cured: true } }
      : {};
    return [
      {
        id: hole.id,
        uMm: at.u.value,
        yMm: at.y.value,
        diameterMm: diameter.value,
        depthMm: depth === "through" || !depth.known ? "through" : depth.value,
        ...plugged,
      },
    ];
  });
  return { holes: out, missing };
}

/** What cannot be plugged: routs, wire channels, the tail edge. Those not fully measured are named, not guessed. */
export function obstaclesOf(instrument: Instrument): {
  readonly solids: Solid[];
  readonly unchecked: readonly string[];
} {
  const { body } = instrument;
  const unchecked: string[] = [];
  const solids: Solid[] = [];
  for (const cavity of body.cavities) {
    // Only a rout from the back is told by the thickness: no other answer falls with that.
    const made = routOf(cavity, cavity.face === "back" ? body.thickness : undefined);
    if (made) solids.push(...made);
    else unchecked.push(cavityName(cavity.id));
  }
  for (const channel of body.channels) {
    const { from, to, fromDepth, toDepth, diameter } = channel;
    if (
      from.u.known &&
      from.y.known &&
      to.u.known &&
      to.y.known &&
      fromDepth.known &&
      toDepth.known &&
      diameter.known
    ) {
      solids.push(
        wireChannel({
          id: channelName(channel.id),
          from: { uMm: from.u.value, yMm: from.y.value, depthMm: fromDepth.value },
          to: { uMm: to.u.value, yMm: to.y.value, depthMm: toDepth.value },
          diameterMm: diameter.value,
        }),
      );
    } else unchecked.push(channelName(channel.id));
  }
  if (body.tailEdge.known) solids.push(tailLine({ id: TAIL_EDGE, uMm: body.tailEdge.value }));
  return { solids, unchecked };
}

/** What an obstacle's place was read from, by the id of its solid: u and y, of both ends for a channel. */
export function obstaclePlaces({ body }: Instrument): ReadonlyMap<string, readonly Quantity[]> {
  return new Map<string, readonly Quantity[]>([
    ...body.cavities.map(({ id, centre }) => [cavityName(id), [centre.u, centre.y]] as const),
    ...body.channels.map(({ id, from, to }) => [channelName(id), [from.u, from.y, to.u, to.y]] as const),
    [TAIL_EDGE, [body.tailEdge]],
  ]);
}

const cavityName = (id: string): string => `the ${id} cavity`;
const channelName = (id: string): string => `the wire channel ${id}`;
const TAIL_EDGE = "the tail edge";

function routOf(cavity: Cavity, fromBack: Quantity | undefined): Solid[] | undefined {
  const { centre, length, width, depth, cornerRadius, angle, ears } = cavity;
  if (
    !centre.u.known ||
    !centre.y.known ||
    !length.known ||
    !width.known ||
    !depth.known ||
    !cornerRadius.known ||
    !angle.known
  )
    return undefined;
  if (fromBack && !fromBack.known) return undefined;
  if (ears && !(ears.length.known && ears.width.known && ears.depth.known)) return undefined;
  const deepEars =
    ears?.length.known && ears.width.known && ears.depth.known
      ? { ears: { lengthMm: ears.length.value, widthMm: ears.width.value, depthMm: ears.depth.value } }
      : {};
  return rout({
    id: cavityName(cavity.id),
    uMm: centre.u.value,
    yMm: centre.y.value,
    lengthMm: length.value,
    widthMm: width.value,
    cornerRadiusMm: cornerRadius.value,
    yawDegrees: -angle.value,
    depthMm: depth.value,
    ...(fromBack?.known ? { fromBackOfMm: fromBack.value } : {}),
    ...deepEars,
  });
}

export function holeLimitsOf(instrument: Instrument): HoleLimits {
  const { holeWall, plugDiameter } = instrument.limits;
  return { wallMm: holeWall.known ? holeWall.value : 1.5, plugDiameterMm: plugDiameter.known ? plugDiameter.value : 6 };
}

/** Whether the strings are to go through the body: as decided, else only where nothing else is offered. */
export function throughBody(bridge: BridgeKind, pieces: readonly PieceCase[]): boolean {
  if (bridge.anchor !== "unknown") return bridge.anchor === "through";
  return !bridge.loadsOnTop && pieces.some(({ piece }) => piece.stringHoles.length > 0);
}

/** x (from the nut's face, along the centre line) of a place u. */
export function xOf(frame: Extract<ScaleFrame, { known: true }>, u: number): number {
  return u - frame.offsetMm;
}
