/** The bridge that is to be fitted: its pieces, saddles and holes, in the part's own frame. */
import { InputError } from "../errors.ts";
import { exact, type Quantity, unknown } from "../quantity/index.ts";
import type { Bridge, BridgePiece } from "./instrument-parts.ts";
import type { PlaceReader } from "./resolve-body.ts";
import { spreadAcross } from "./resolve-neck.ts";
import type { Amount, FilePart, JobFile } from "./schema.ts";
import type { Taker } from "./taker.ts";

type BridgePart = Extract<FilePart, { kind: "bridge" }>;
type FileFit = NonNullable<NonNullable<JobFile["fit"]>["bridge"]>;
type FileHoles = NonNullable<BridgePart["screws"]>;

export function resolveBridge(
  part: BridgePart,
  fit: FileFit,
  strings: number,
  bassSide: 1 | -1,
  taker: Taker,
  places: PlaceReader,
): Bridge {
  const path = `parts.${fit.part}`;
  const take = (raw: Amount | undefined, key: string) => taker.take(raw, `${path}.${key}`);
  const across = stringPlaces(part, strings, bassSide, path, taker);
  const tail = part.tailpiece;
  return {
    partId: fit.part,
    name: part.name ?? fit.part,
    kind: part.type,
    pieces:
      part.type === "single units" ? unitPieces(part, across, path, taker) : [wholePiece(part, across, path, taker)],
    ...(tail === undefined
      ? {}
      : {
          tailpiece: {
            id: "tailpiece",
            side: exact(0, `${path}.tailpiece.side`),
            length: take(tail.length, "tailpiece.length"),
            width: take(tail.width, "tailpiece.width"),
            distance: take(tail.distance, "tailpiece.distance"),
            saddles: [],
            screws: expandScrews(tail.screws, `${path}.tailpiece.screws`, taker),
            stringHoles: [],
          },
        }),
    lowest: take(part.lowest, "lowest"),
    highest: take(part.highest, "highest"),
    turnedRound: take(part.turnedRound, "turnedRound"),
    postThread: part.postThread ?? "",
    coated: part.coated ?? false,
    ...(part.topAnchor === undefined
      ? {}
      : { topAnchor: { p: take(part.topAnchor.p, "topAnchor.p"), z: take(part.topAnchor.z, "topAnchor.z") } }),
    ...(part.throughAnchor === undefined
      ? {}
      : {
          throughAnchor: {
            p: take(part.throughAnchor.p, "throughAnchor.p"),
            z: take(part.throughAnchor.z, "throughAnchor.z"),
            down: take(part.throughAnchor.down, "throughAnchor.down"),
          },
        }),
    anchor: fit.anchor ?? "unknown",
    heightScrewPitch: take(part.heightScrewPitch, "heightScrewPitch"),
    mass: taker.take(part.mass, `${path}.mass`, { kind: "mass" }),
    chosenPlace:
      fit.u === undefined && fit.x === undefined
        ? unknown("fit.bridge.u", "length")
        : asDecided(places.along(fit, "fit.bridge")),
    inchDrawing: (part.inchDrawing ?? []).map((row, index) => ({
      what: row.what,
      declared: take(row.declared, `inchDrawing[${index}].declared`),
      drawn: take(row.drawn, `inchDrawing[${index}].drawn`),
    })),
  };
}

function asDecided(quantity: Quantity): Quantity {
  return quantity.known ? { ...quantity, doubt: [] } : quantity;
}

/** q of each string on the bridge: listed, or by the pitch, string 1 on the treble side. */
function stringPlaces(part: BridgePart, strings: number, bassSide: 1 | -1, path: string, taker: Taker): Quantity[] {
  if (part.saddleQ) {
    if (part.saddleQ.length !== strings)
      throw new InputError(
        `${path}.saddleQ`,
        `lists ${part.saddleQ.length} places for ${strings} strings`,
        "Give one for each string, string 1 first",
      );
    return part.saddleQ.map((raw, index) => taker.take(raw, `${path}.saddleQ[${index}]`));
  }
  const pitch = taker.take(part.pitch, `${path}.pitch`);
  const spread: Quantity = pitch.known
    ? {
        ...pitch,
        value: pitch.value * (strings - 1),
        doubt: pitch.doubt.map((term) => ({ ...term, u: term.u * (strings - 1) })),
      }
    : pitch;
  return spreadAcross(spread, strings, bassSide, `${path}.saddleQ`, taker);
}

type FileSaddle = NonNullable<BridgePart["saddles"]>[number];

/** A saddle named by its place across carries the string that stands within this of it. */
const OVER_SADDLE_MM = 1;

function stringsOver(row: FileSaddle, across: readonly Quantity[], path: string, taker: Taker): readonly number[] {
  if ((row.strings === undefined) === (row.q === undefined)) {
    throw new InputError(
      path,
      row.q === undefined ? "names neither strings nor places across" : "names both strings and places across",
      "Write strings: [1, 2, 3], or q: [5.25, 15.75] counted from the part's middle",
    );
  }
  if (row.strings !== undefined) return Array.isArray(row.strings) ? row.strings : [row.strings];
  const list = Array.isArray(row.q) ? row.q : [row.q];
  return list.map((raw, at) => {
    const where = Array.isArray(row.q) ? `${path}.q[${at}]` : `${path}.q`;
    const q = taker.take(raw, where);
    const index = across.findIndex(
      (place) => place.known && q.known && Math.abs(place.value - q.value) <= OVER_SADDLE_MM,
    );
    if (index < 0)
      throw new InputError(
        where,
        `no string stands within ${OVER_SADDLE_MM} mm of ${q.known ? q.value : "it"}`,
        "Check it against the pitch; q counts from the part's middle, positive toward y > 0",
      );
    return index + 1;
  });
}

function wholePiece(part: BridgePart, across: readonly Quantity[], path: string, taker: Taker): BridgePiece {
  const ranges = new Map<number, { from: Quantity; to: Quantity; sharedBy?: readonly number[] }>();
  (part.saddles ?? []).forEach((row, index) => {
    const range = {
      from: taker.take(row.from, `${path}.saddles[${index}].from`),
      to: taker.take(row.to, `${path}.saddles[${index}].to`),
    };
    const strings = stringsOver(row, across, `${path}.saddles[${index}]`, taker);
    for (const string of strings) {
      if (string < 1 || string > across.length)
        throw new InputError(
          `${path}.saddles[${index}].strings`,
          `names string ${string}, but the instrument has ${across.length}`,
          "String 1 is the thinnest",
        );
      if (ranges.has(string))
        throw new InputError(
          `${path}.saddles[${index}].strings`,
          `string ${string} has a saddle already`,
          "Name each string once",
        );
      ranges.set(string, row.shared === true && strings.length > 1 ? { ...range, sharedBy: strings } : range);
    }
  });
  return {
    id: "bridge",
    side: exact(0, `${path}.side`),
    length: taker.take(part.length, `${path}.length`),
    width: taker.take(part.width, `${path}.width`),
    saddles: across.map((q, index) => {
      const range = ranges.get(index + 1);
      return {
        string: index + 1,
        q,
        // A string without a row of its own is read under its number.
        from: range?.from ?? taker.take(undefined, `${path}.saddles.${index + 1}.from`),
        to: range?.to ?? taker.take(undefined, `${path}.saddles.${index + 1}.to`),
        ...(range?.sharedBy === undefined ? {} : { sharedBy: range.sharedBy }),
      };
    }),
    screws: expandScrews(part.screws, `${path}.screws`, taker),
    stringHoles: expand(part.stringHoles, `${path}.stringHoles`, taker).map(({ p, q, row, index }) => ({
      p,
      q,
      diameter: taker.take(row.diameter, `${path}.stringHoles[${index}].diameter`),
    })),
  };
}

/** One described unit, once for each string; its middle is meant to stand under the string. */
function unitPieces(part: BridgePart, across: readonly Quantity[], path: string, taker: Taker): BridgePiece[] {
  return across.map((side, index) => {
    const row = part.saddles?.[0];
    return {
      id: `unit-${index + 1}`,
      side,
      length: taker.take(part.length, `${path}.length`),
      width: taker.take(part.width, `${path}.width`),
      saddles: [
        {
          string: index + 1,
          q: exact(0, `${path}.saddleQ`),
          from: taker.take(row?.from, `${path}.saddles[0].from`),
          to: taker.take(row?.to, `${path}.saddles[0].to`),
        },
      ],
      screws: expandScrews(part.screws, `${path}.screws`, taker),
      stringHoles: expand(part.stringHoles, `${path}.stringHoles`, taker).map(({ p, q, row: hole, index: at }) => ({
        p,
        q,
        diameter: taker.take(hole.diameter, `${path}.stringHoles[${at}].diameter`),
      })),
    };
  });
}

function expandScrews(rows: FileHoles | undefined, path: string, taker: Taker): BridgePiece["screws"] {
  return expand(rows, path, taker).map(({ p, q, row, index }) => ({
    p,
    q,
    thread: taker.take(row.thread ?? row.diameter, `${path}[${index}].thread`),
    pilot: taker.take(row.pilot ?? row.diameter ?? row.thread, `${path}[${index}].pilot`),
    core: taker.take(row.core, `${path}[${index}].core`),
    depth: taker.take(row.depth, `${path}[${index}].depth`),
  }));
}

function expand(
  rows: FileHoles | undefined,
  path: string,
  taker: Taker,
): { p: Quantity; q: Quantity; row: FileHoles[number]; index: number }[] {
  return (rows ?? []).flatMap((row, index) => {
    const p = taker.take(row.p, `${path}[${index}].p`);
    const qs: readonly (Amount | undefined)[] = Array.isArray(row.q) ? row.q : [row.q ?? 0];
    return qs.map((q, at) => ({
      p,
      q: taker.take(q, Array.isArray(row.q) ? `${path}[${index}].q[${at}]` : `${path}[${index}].q`),
      row,
      index,
    }));
  });
}
