/** Pocket, routs, wire channels, holes, pickups and controls of the body, each where it was measured. */
import { circle, type FramePoint, hole, type Item, line, outline, type Role, rectangle } from "../drawing/index.ts";
import type { Cavity, Hole, Instrument, Pickup } from "../job/index.ts";
import { nameOfHole, type PlacedPiece } from "../questions/index.ts";
import type { Verdict } from "../verdict/index.ts";
import { cavityRework, pickupItems, routsOf } from "./pickup-sheets.ts";

export function bodyItems(instrument: Instrument, verdicts: readonly Verdict[]): Item[] {
  const { body } = instrument;
  return [
    ...pocketItems(instrument),
    ...body.cavities.flatMap((cavity) => cavityItems(cavity)),
    ...instrument.pickups.flatMap((pickup) => [
      ...reworkOf(instrument, pickup, verdicts),
      ...partItems(instrument, pickup),
    ]),
    ...channelItems(instrument),
    ...controlItems(instrument),
    ...groundWireItems(instrument),
    ...oldPlateItems(instrument),
    ...body.neckScrews.flatMap((one) => holeItems(one, "screw")),
  ];
}

function pocketItems({ body, neck }: Instrument): Item[] {
  const { length, width } = body.pocket;
  const items: Item[] = [];
  if (neck.boltOn && length.known && width.known) {
    items.push(
      outline(
        "hidden outline",
        "pocket",
        rectangle({ centre: { x: -length.value / 2, y: 0 }, alongMm: length.value, acrossMm: width.value }),
        { label: "neck pocket", labelAt: "none" },
      ),
    );
    if (neck.heelGap.known && neck.heelGap.value > 0)
      items.push(
        line(
          "neck outline",
          "heel-end",
          { x: -neck.heelGap.value, y: -width.value / 2 },
          { x: -neck.heelGap.value, y: width.value / 2 },
          { label: "end of the heel", labelAt: "none" },
        ),
      );
  }
  return items;
}

interface Placed {
  readonly middle: FramePoint;
  readonly turnDegrees: number;
}

function placeOf(cavity: Cavity): Placed | undefined {
  const { u, y } = cavity.centre;
  if (!u.known) return undefined;
  return {
    middle: { x: u.value, y: y.known ? y.value : 0 },
    turnDegrees: cavity.angle.known ? -cavity.angle.value : 0,
  };
}

function cavityItems(cavity: Cavity): Item[] {
  const place = placeOf(cavity);
  const { length, width, cornerRadius, ears, id, face } = cavity;
  if (!place || !length.known || !width.known) return [];
  const role: Role = face === "back" ? "hidden outline" : "cavity outline";
  const radius = cornerRadius.known ? cornerRadius.value : 0;
  const box = (along: number, across: number) =>
    rectangle({
      centre: place.middle,
      alongMm: along,
      acrossMm: across,
      cornerRadiusMm: Math.min(radius, along / 2, across / 2),
      turnDegrees: place.turnDegrees,
    });
  const name = `${id.replaceAll("-", " ")} rout`;
  const items = [outline(role, `cavity-${id}`, box(width.value, length.value), { label: name, labelAt: "along" })];
  if (ears?.length.known && ears.width.known)
    items.push(
      outline(role, `cavity-${id}-ears`, box(ears.width.value, ears.length.value), {
        label: `ears of the ${name}`,
        labelAt: "none",
      }),
    );
  return items;
}

function reworkOf(instrument: Instrument, pickup: Pickup, verdicts: readonly Verdict[]): Item[] {
  const cavity = instrument.body.cavities.find(({ id }) => id === pickup.cavityId);
  const place = cavity && placeOf(cavity);
  const routs = routsOf(verdicts, pickup.id);
  return cavity && place && routs.length > 0
    ? cavityRework(cavity, place.middle, place.turnDegrees, routs, `rework-${pickup.id}`)
    : [];
}

function partItems({ bassSide }: Instrument, pickup: Pickup): Item[] {
  const { u, y } = pickup.centre;
  if (!u.known) return [];
  const turnDegrees = pickup.slant.known ? -pickup.slant.value : 0;
  const middle = { x: u.value, y: y.known ? y.value : 0 };
  return pickupItems(pickup, { middle, turnDegrees, bassSide }, `pickup-${pickup.id}`);
}

function channelItems({ body }: Instrument): Item[] {
  return body.channels.flatMap(({ id, from, to, diameter }): Item[] => {
    if (!from.u.known || !from.y.known || !to.u.known || !to.y.known || !diameter.known) return [];
    const [a, b] = [
      { x: from.u.value, y: from.y.value },
      { x: to.u.value, y: to.y.value },
    ];
    const long = Math.hypot(b.x - a.x, b.y - a.y);
    if (long === 0) return [];
    const corners = rectangle({
      centre: { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 },
      alongMm: long,
      acrossMm: diameter.value,
      turnDegrees: (Math.atan2(b.y - a.y, b.x - a.x) * 180) / Math.PI,
    });
    const label = `wire channel ${id.replaceAll("-", " ")}`;
    return [outline("hidden outline", `channel-${id}`, corners, { label, labelAt: "along" })];
  });
}

function controlItems({ controls }: Instrument): Item[] {
  return controls.flatMap((control): Item[] => {
    const { at, hole: now, id } = control;
    if (!at?.u.known || !at.y.known || !now.known) return [];
    const centre = { x: at.u.value, y: at.y.value };
    return [circle("cavity outline", `control-${id}`, centre, now.value, id.replaceAll("-", " "))];
  });
}

function groundWireItems({ body: { groundWire } }: Instrument): Item[] {
  if (!groundWire?.u.known || !groundWire.y.known) return [];
  const centre = { x: groundWire.u.value, y: groundWire.y.value };
  return [circle("part outline", "ground-wire", centre, 1.5, { label: "ground wire", labelAt: "none" })];
}

function oldPlateItems({ body: { oldPlate } }: Instrument): Item[] {
  if (!oldPlate?.front.known || !oldPlate.length.known || !oldPlate.width.known) return [];
  const centre = { x: oldPlate.front.value + oldPlate.length.value / 2, y: 0 };
  const corners = rectangle({ centre, alongMm: oldPlate.length.value, acrossMm: oldPlate.width.value });
  return [outline("old outline", "old-plate", corners, { label: "the old bridge stood here", labelAt: "none" })];
}

/** Holes that are there; as plugs where they are plugged already or have to be. */
export function oldHoleItems(instrument: Instrument, pieces: readonly PlacedPiece[]): Item[] {
  const plugs = new Map(
    pieces.flatMap((piece) => piece.judgement?.plugs ?? []).map(({ oldId, plugDiameterMm }) => [oldId, plugDiameterMm]),
  );
  return instrument.body.holes.flatMap((old) => {
    const plugged = old.plug?.diameter.known ? old.plug.diameter.value : plugs.get(old.id);
    return [
      ...holeItems(old, "old hole"),
      ...(plugged === undefined ? [] : holeItems(old, "plug", `plug-${old.id}`, plugged)),
    ];
  });
}

function holeItems(old: Hole, role: Role, id = old.id, diameterMm?: number): Item[] {
  if (!old.at.u.known || !old.at.y.known || !old.diameter.known) return [];
  const depthMm = old.depth === "through" ? "through" : old.depth.known ? old.depth.value : "through";
  const centre = { x: old.at.u.value, y: old.at.y.value };
  const shape = { centre, diameterMm: diameterMm ?? old.diameter.value, depthMm, datum: "body top" } as const;
  return [hole(role, id, shape, { label: nameOfHole(old.id) })];
}
