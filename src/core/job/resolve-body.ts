/** The body as found: pocket, holes, channels, cavities, all in body coordinates (u, y). */
import { InputError } from "../errors.ts";
import type { Quantity } from "../quantity/index.ts";
import type { Body, BodyPoint, Cavity, Channel, Hole } from "./instrument-wood.ts";
import type { Amount, JobFile } from "./schema.ts";
import { shifted, type Taker } from "./taker.ts";

type FileBody = NonNullable<JobFile["instrument"]["body"]>;
type FileHole = NonNullable<FileBody["holes"]>[string];
type FileAlong = { readonly u?: Amount | undefined; readonly x?: Amount | undefined };
type FilePoint = FileAlong & { readonly y?: Amount | undefined };

/** Reads places that may be written as u (from the end wall) or x (as on the maker's drawing). */
export interface PlaceReader {
  along(point: FileAlong, path: string, tool?: string, placing?: string): Quantity;
  point(point: FilePoint, path: string, tool?: string): BodyPoint;
}

export function createPlaceReader(taker: Taker, endWallX: number | undefined): PlaceReader {
  function along(point: FileAlong, path: string, tool?: string, placing?: string): Quantity {
    if (point.u !== undefined && point.x !== undefined) {
      throw new InputError(
        path,
        "has both u and x",
        "Write the place once: u from the pocket's end wall, or x from the nut",
      );
    }
    const byX =
      point.x !== undefined ||
      (point.u === undefined && endWallX !== undefined && taker.readingsOf(`${path}.x`).length > 0);
    if (!byX) return taker.take(point.u, `${path}.u`, { tool, placing });
    if (endWallX === undefined) {
      throw new InputError(
        `${path}.x`,
        "is measured from the nut, but the place of the pocket's end wall is not known",
        "Write body.endWallX, or give u from the end wall",
      );
    }
    taker.alias(`${path}.x`, `${path}.u`, -endWallX);
    // The bench lays its rule against the end wall, whichever way the file writes the place.
    const subject = `${path}.x`.replace(/^instrument\./, "");
    const also = taker
      .readingsOf(`${path}.u`)
      .filter(({ after }) => after === undefined)
      .map((reading) => ({
        ...reading,
        subject,
        quantity: { ...reading.quantity, value: reading.quantity.value + endWallX, path: subject },
      }));
    return shifted(
      taker.take(point.x, `${path}.x`, { tool, placing, also }),
      -endWallX,
      `${path}.u`.replace(/^instrument\./, ""),
    );
  }
  return {
    along,
    point: (point, path, tool) => ({ u: along(point, path, tool), y: taker.take(point.y, `${path}.y`, { tool }) }),
  };
}

export function resolveBody(file: FileBody | undefined, taker: Taker, places: PlaceReader): Body {
  const path = "instrument.body";
  const body = file ?? {};
  const pocket = body.pocket ?? {};
  return {
    wood: body.wood ?? "",
    gravity: taker.take(body.specificGravity, `${path}.specificGravity`, { kind: "ratio" }),
    finish: body.finish ?? "",
    thickness: taker.take(body.thickness, `${path}.thickness`),
    pocket: {
      depth: taker.take(pocket.depth, `${path}.pocket.depth`),
      length: taker.take(pocket.length, `${path}.pocket.length`),
      width: taker.take(pocket.width, `${path}.pocket.width`),
    },
    tailEdge: taker.take(body.tailEdge, `${path}.tailEdge`),
    holes: Object.entries(body.holes ?? {}).flatMap(([group, hole]) =>
      resolveHoles(group, hole, `${path}.holes.${group}`, taker, places),
    ),
    neckScrews: Object.entries(body.neckScrews ?? {}).flatMap(([group, hole]) =>
      resolveHoles(group, hole, `${path}.neckScrews.${group}`, taker, places),
    ),
    channels: Object.entries(body.channels ?? {}).map(
      ([id, channel]): Channel => ({
        id,
        from: places.point(channel.from, `${path}.channels.${id}.from`),
        to: places.point(channel.to, `${path}.channels.${id}.to`),
        fromDepth: taker.take(channel.from.depth, `${path}.channels.${id}.from.depth`),
        toDepth: taker.take(channel.to.depth, `${path}.channels.${id}.to.depth`),
        diameter: taker.take(channel.diameter, `${path}.channels.${id}.diameter`),
      }),
    ),
    cavities: Object.entries(body.cavities ?? {}).map(([id, cavity]) =>
      resolveCavity(id, cavity, `${path}.cavities.${id}`, taker, places),
    ),
    ...(body.groundWire === undefined ? {} : { groundWire: places.point(body.groundWire, `${path}.groundWire`) }),
    ...(body.oldPlate === undefined
      ? {}
      : {
          oldPlate: {
            length: taker.take(body.oldPlate.length, `${path}.oldPlate.length`),
            width: taker.take(body.oldPlate.width, `${path}.oldPlate.width`),
            front: places.along(body.oldPlate, `${path}.oldPlate`),
          },
        }),
  };
}

/** A hole or a row of holes; a row is one reading along and one across for each. Numbered from the most negative y. */
function resolveHoles(group: string, hole: FileHole, path: string, taker: Taker, places: PlaceReader): Hole[] {
  const u = places.along(hole, path, hole.tool, hole.placing);
  const diameter = taker.take(hole.diameter, `${path}.diameter`, { tool: hole.tool });
  const depth = hole.depth === "through" ? "through" : taker.take(hole.depth, `${path}.depth`, { tool: hole.tool });
  const row = Array.isArray(hole.y);
  const ys: readonly (Amount | undefined)[] = Array.isArray(hole.y) ? hole.y : [hole.y];
  const read = ys.map((y, index) => taker.take(y, row ? `${path}.y[${index}]` : `${path}.y`, { tool: hole.tool }));
  const ordered = row ? [...read].sort((a, b) => (a.known && b.known ? a.value - b.value : 0)) : read;
  return ordered.map((y, index) => ({
    id: row ? `${group}#${index + 1}` : group,
    group,
    purpose: hole.purpose ?? "other",
    at: { u, y },
    diameter,
    depth,
    ...(hole.thread === undefined ? {} : { bushing: hole.thread }),
    state: "open",
  }));
}

function resolveCavity(
  id: string,
  cavity: NonNullable<FileBody["cavities"]>[string],
  path: string,
  taker: Taker,
  places: PlaceReader,
): Cavity {
  const tool = cavity.tool;
  const one = (raw: Amount | undefined, key: string) => taker.take(raw, `${path}.${key}`, { tool });
  return {
    id,
    face: cavity.face ?? "top",
    centre: {
      u: places.along(cavity, path, tool),
      y: taker.take(cavity.y, `${path}.y`, {
        tool,
        assume: { value: 0, u: 0.5, why: "taken to stand on the centre line" },
      }),
    },
    length: one(cavity.length, "length"),
    width: one(cavity.width, "width"),
    depth: one(cavity.depth, "depth"),
    cornerRadius: taker.take(cavity.cornerRadius, `${path}.cornerRadius`, {
      tool,
      assume: { value: 3, u: 1, why: "corner of a small router bit, common practice" },
    }),
    angle: taker.take(cavity.angle, `${path}.angle`, {
      kind: "angle",
      assume: { value: 0, u: 0, why: "square to the centre line" },
    }),
    ...(cavity.ears === undefined
      ? {}
      : {
          ears: {
            length: one(cavity.ears.length, "ears.length"),
            width: one(cavity.ears.width, "ears.width"),
            depth: one(cavity.ears.depth, "ears.depth"),
          },
        }),
  };
}
