/**
 * A control plate as it lies on the bench, seen from behind: where each device stands, where its lugs are, which wires run
 * between them. Millimetres, x to the right, y down. Routing them is another matter (core/plate).
 *
 * Places that the owner gives count from the middle of the plate, right and up; the rest stand in a row (a choice).
 */
import type { WiredDevice, Wiring } from "../job/index.ts";
import type { PlatePoint } from "../plate/index.ts";
import { unknown, valueOr } from "../quantity/index.ts";
import {
  LOWER_ROW_MM,
  outerSize,
  type PlacedDevice,
  type PlacedLug,
  type PlateLayout,
  POT_RADIUS_MM,
  place,
  SWITCH_FRAME_MM,
} from "./plate-devices.ts";
import { conductorsInOrder, type Laid, withWires } from "./plate-pads.ts";

export type { PlacedDevice, PlacedLug, PlateLayout } from "./plate-devices.ts";

/** Widest that fits an upright sheet at 1:1. */
const WIDTH_MM = 178;
const EDGE_MM = 5;
const GAP_MM = 22;
/** Wires turn round between the rows. */
const ROW_GAP_MM = 20;

/** @returns the plate with every wire of the wiring between its pads */
export function plateLayout(wiring: Wiring): PlateLayout {
  const rows = rowsOf(wiring);
  const devices: PlacedDevice[] = [];
  const lugs: PlacedLug[] = [];
  const sizeOf = (device: WiredDevice) => outerSize(device, switchWidth(wiring, device.id));
  let top = EDGE_MM;
  for (const row of rows) {
    const high = Math.max(0, ...row.map((device) => sizeOf(device).height));
    const wide = row.reduce((sum, device) => sum + sizeOf(device).width, 0);
    const gap = Math.max(4, Math.min(GAP_MM, (WIDTH_MM - 2 * EDGE_MM - wide) / Math.max(1, row.length - 1)));
    let left = (WIDTH_MM - wide - gap * (row.length - 1)) / 2;
    for (const device of row) {
      const { width, height } = sizeOf(device);
      place(
        { device, at: { x: left + width / 2, y: top + (high - height) / 2 }, wide: sizeOf(device).frame },
        devices,
        lugs,
      );
      left += width + gap;
    }
    if (row.length > 0) top += high + ROW_GAP_MM;
    if (row.some(({ kind }) => kind === "pot" || kind === "stacked pot")) placeParts(wiring, devices, lugs);
  }
  const heightMm = top - ROW_GAP_MM + EDGE_MM;
  const moved = ownPlaces(wiring, { devices, lugs, widthMm: WIDTH_MM, heightMm });
  return withWires(wiring, { ...moved, lugs: conductorsInOrder(wiring, moved) });
}

/** Pickups above, switches and pots in the middle, jack and metal at the foot; parts on their leads hang below the pots. */
function rowsOf({ devices }: Wiring): WiredDevice[][] {
  const of = (...kinds: WiredDevice["kind"][]) => devices.filter(({ kind }) => kinds.includes(kind));
  const pots = of("pot", "stacked pot");
  const parts = pots.length === 0 ? of("component") : [];
  return [of("pickup"), [...of("switch"), ...pots], [...parts, ...of("jack"), ...of("metal", "battery")]];
}

const BELOW_POT_MM = 20;

/** Each part below the pot that holds its first lead; several of one pot below one another. */
function placeParts({ devices: all, components }: Wiring, devices: PlacedDevice[], lugs: PlacedLug[]): void {
  const pots = devices.filter(({ device }) => device.kind === "pot" || device.kind === "stacked pot");
  const below = new Map<PlacedDevice, number>();
  for (const { id, leads } of components) {
    const device = all.find((one) => one.id === id);
    const pot = pots.find((one) => leads.some((lead) => lead.startsWith(`${one.device.id}.`))) ?? pots[0];
    if (!device || !pot) continue;
    const count = below.get(pot) ?? 0;
    below.set(pot, count + 1);
    const lugRows = pot.device.kind === "pot" ? 0 : LOWER_ROW_MM;
    const y = pot.at.y + POT_RADIUS_MM + BELOW_POT_MM + lugRows + count * 16;
    place({ device, at: { x: pot.at.x, y }, wide: 0 }, devices, lugs);
  }
}

/** As wide as its part says. */
function switchWidth({ widths }: Wiring, id: string): number {
  return valueOr(widths[id] ?? unknown(`wiring, ${id}`, "length"), SWITCH_FRAME_MM);
}

/** Devices for which the owner gave a place, moved there; turns are told by the lugs' own places and left out here. */
function ownPlaces({ places }: Wiring, laid: Laid): Laid {
  const shiftOf = (id: string): PlatePoint => {
    const own = places[id];
    const device = laid.devices.find((one) => one.device.id === id);
    if (!own || !device) return { x: 0, y: 0 };
    return {
      x: laid.widthMm / 2 + valueOr(own.right, 0) - device.at.x,
      y: laid.heightMm / 2 - valueOr(own.up, 0) - device.at.y,
    };
  };
  const moved = (point: PlatePoint, by: PlatePoint) => ({ x: point.x + by.x, y: point.y + by.y });
  return {
    ...laid,
    devices: laid.devices.map((one) => {
      const by = shiftOf(one.device.id);
      return {
        ...one,
        at: moved(one.at, by),
        nameAt: moved(one.nameAt, by),
        ...(one.shape ? { shape: { ...one.shape, centre: moved(one.shape.centre, by) } } : {}),
      };
    }),
    lugs: laid.lugs.map((lug) => ({ ...lug, at: moved(lug.at, shiftOf(lug.lug.slice(0, lug.lug.indexOf(".")))) })),
  };
}
