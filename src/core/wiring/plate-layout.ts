/**
 * A control plate as it lies on the bench, seen from behind: where each device stands, where its lugs are, which wires run
 * between them. Millimetres, x to the right, y down. Routing them is another matter (core/plate).
 *
 * Seen from behind with its lugs pointing down, a pot has lug 3 on the left and lug 1 on the right. A switch shows its
 * poles in columns along its frame; in which order a make has them is found with the meter, so lugs go by their names.
 * Places that the owner gives count from the middle of the plate, right and up; the rest stand in a row (a choice).
 */

import type { WiredDevice, Wiring } from "../job/index.ts";
import type { BodyShape, Lug, Plate, PlateBody, PlatePoint } from "../plate/index.ts";
import { unknown, valueOr } from "../quantity/index.ts";

const PAD_MM = 1.1;
/** Widest that fits an upright sheet at 1:1. */
const WIDTH_MM = 178;
const EDGE_MM = 5;
const POT_RADIUS_MM = 12;
const JACK_RADIUS_MM = 11;
const LUG_PITCH_MM = 6;
const SWITCH_PITCH_MM = 5;
/** Of a switch whose part does not say how wide it is. */
const SWITCH_FRAME_MM = 14;
const BESIDE_MM = 1.8;
/** Pads stand so far outside the frame or case that they belong to, and their names so far inside. */
const OUTSIDE_MM = 2.5;
const INSIDE_MM = 3.6;
const CONDUCTOR_PITCH_MM = 9.5;
const PICKUP_HIGH_MM = 15;
const GAP_MM = 22;
/** Wires turn round between the rows. */
const ROW_GAP_MM = 20;

export interface PlacedDevice {
  readonly device: WiredDevice;
  readonly at: PlatePoint;
  readonly shape?: BodyShape;
  /** Where its name stands. */
  readonly nameAt: PlatePoint;
}

export interface PlacedLug extends Lug {
  /** The lug of the wiring: a case has several places to solder at. */
  readonly lug: string;
  /** What stands beside the pad, and on which side of it. */
  readonly label: string;
  readonly side: "left" | "right" | "above" | "below";
  /** From the middle of the pad to the text. */
  readonly awayMm: number;
}

export interface PlateLayout {
  readonly plate: Plate;
  readonly devices: readonly PlacedDevice[];
  readonly lugs: readonly PlacedLug[];
  readonly widthMm: number;
  readonly heightMm: number;
}

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
/** The lower lugs of a stacked pot are drawn so far beyond the upper ones. */
const LOWER_ROW_MM = 11;

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

interface Size {
  readonly width: number;
  readonly height: number;
  /** Of a switch: its frame. */
  readonly frame: number;
}

function outerSize(device: WiredDevice, frame: number): Size {
  return { ...roomOf(device, frame), frame };
}

function roomOf(device: WiredDevice, frame: number): Omit<Size, "frame"> {
  switch (device.kind) {
    case "pickup":
      return { width: Math.max(24, device.lugs.length * CONDUCTOR_PITCH_MM + 4), height: PICKUP_HIGH_MM + 4 };
    case "pot":
    case "stacked pot":
      return {
        width: 2 * POT_RADIUS_MM,
        height: 2 * POT_RADIUS_MM + (device.kind === "pot" ? 8 : 8 + LOWER_ROW_MM) + 22,
      };
    case "switch": {
      const column = Math.ceil(device.lugs.length / 2);
      return { width: frame + 18, height: column * SWITCH_PITCH_MM + 4 };
    }
    case "jack":
      return { width: 2 * JACK_RADIUS_MM + 6, height: 2 * JACK_RADIUS_MM + 8 };
    case "component":
      return { width: 20, height: 10 };
    case "metal":
    case "battery":
      return { width: 20, height: 12 };
    default:
      return device.kind satisfies never;
  }
}

interface Placing {
  readonly device: WiredDevice;
  /** The middle of its top edge. */
  readonly at: PlatePoint;
  /** Of a switch's frame. */
  readonly wide: number;
}

function place({ device, at, wide }: Placing, devices: PlacedDevice[], lugs: PlacedLug[]): void {
  const pad = (name: string, dx: number, dy: number, side: PlacedLug["side"], awayMm = BESIDE_MM): PlacedLug => ({
    id: `${device.id}.${name}`,
    lug: `${device.id}.${name}`,
    at: { x: at.x + dx, y: at.y + dy },
    radiusMm: PAD_MM,
    label: name,
    side,
    awayMm,
  });
  switch (device.kind) {
    case "pickup": {
      const { width } = roomOf(device, 0);
      const centre = { x: at.x, y: at.y + PICKUP_HIGH_MM / 2 };
      devices.push({
        device,
        at: centre,
        shape: { kind: "rectangle", centre, widthMm: width, heightMm: PICKUP_HIGH_MM, angleDegrees: 0 },
        nameAt: { x: at.x, y: at.y + 4.5 },
      });
      device.lugs.forEach((name, index) => {
        const dx = (index - (device.lugs.length - 1) / 2) * CONDUCTOR_PITCH_MM;
        lugs.push({ ...pad(name, dx, PICKUP_HIGH_MM + OUTSIDE_MM, "above", INSIDE_MM), out: { x: 0, y: 1 } });
      });
      return;
    }
    case "pot":
    case "stacked pot": {
      const centre = { x: at.x, y: at.y + POT_RADIUS_MM };
      devices.push({
        device,
        at: centre,
        shape: { kind: "circle", centre, radiusMm: POT_RADIUS_MM },
        nameAt: { x: at.x, y: centre.y - 2.5 },
      });
      for (const name of device.lugs.filter((lug) => lug !== "case")) {
        const number = Number(name.slice(-1));
        const back = name.startsWith("lower-") ? LOWER_ROW_MM : 0;
        lugs.push({
          ...pad(
            name,
            (2 - number) * LUG_PITCH_MM,
            2 * POT_RADIUS_MM + 3 + back,
            "above",
            back === 0 ? 4.4 : BESIDE_MM,
          ),
          label: String(number),
        });
      }
      lugs.push(pad("case", 0, POT_RADIUS_MM, "above"));
      return;
    }
    case "switch":
      placeSwitch({ device, at, wide }, devices, lugs, pad);
      return;
    case "jack": {
      const centre = { x: at.x, y: at.y + JACK_RADIUS_MM };
      devices.push({
        device,
        at: centre,
        shape: { kind: "circle", centre, radiusMm: JACK_RADIUS_MM },
        nameAt: { x: at.x, y: centre.y - 2 },
      });
      device.lugs.forEach((name, index) => {
        const dx = (index - (device.lugs.length - 1) / 2) * (1.5 * LUG_PITCH_MM);
        lugs.push(pad(name, dx, 2 * JACK_RADIUS_MM + OUTSIDE_MM, "above", 6.2));
      });
      return;
    }
    case "component": {
      const centre = { x: at.x, y: at.y + 3 };
      devices.push({
        device,
        at: centre,
        shape: { kind: "rectangle", centre, widthMm: 9, heightMm: 4, angleDegrees: 0 },
        nameAt: { x: at.x, y: at.y + 8.5 },
      });
      lugs.push({ ...pad("a", -7, 3, "left"), label: "" }, { ...pad("b", 7, 3, "right"), label: "" });
      return;
    }
    case "metal":
    case "battery":
      devices.push({ device, at, nameAt: { x: at.x, y: at.y + 8 } });
      device.lugs.forEach((name, index) => {
        lugs.push({
          ...pad(name, (index - (device.lugs.length - 1) / 2) * 8, 2, "below"),
          label: device.lugs.length === 1 ? "" : name,
        });
      });
      return;
    default:
      device.kind satisfies never;
  }
}

/** Half of the poles down the left side, half down the right; a single pole down the left. */
function placeSwitch(
  { device, at, wide }: Placing,
  devices: PlacedDevice[],
  lugs: PlacedLug[],
  pad: (name: string, dx: number, dy: number, side: PlacedLug["side"], awayMm: number) => PlacedLug,
): void {
  const column = Math.ceil(device.lugs.length / 2);
  const height = column * SWITCH_PITCH_MM + 4;
  const centre = { x: at.x, y: at.y + height / 2 };
  devices.push({
    device,
    at: centre,
    shape: { kind: "rectangle", centre, widthMm: wide, heightMm: height, angleDegrees: 0 },
    nameAt: centre,
  });
  device.lugs.forEach((name, index) => {
    const right = index >= column;
    const down = 2 + SWITCH_PITCH_MM / 2 + (index % column) * SWITCH_PITCH_MM;
    lugs.push(pad(name, (right ? 1 : -1) * (wide / 2 + OUTSIDE_MM), down, right ? "left" : "right", INSIDE_MM));
  });
}

type Laid = Omit<PlateLayout, "plate">;

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

/**
 * Conductors of a pickup's lead lie in any order, so they are drawn in the order in which they cross least: those that go to
 * the left of a switch first, the lowest lug leftmost; then those to its right, the highest leftmost; then the rest by place.
 */
function conductorsInOrder({ wires, devices }: Wiring, { lugs, devices: placed }: Laid): PlacedLug[] {
  const placeOf = new Map(lugs.map((lug) => [lug.lug, lug.at]));
  const pickups = new Set(devices.filter(({ kind }) => kind === "pickup").map(({ id }) => id));
  const switches = placed.filter(({ device }) => device.kind === "switch");
  const deviceOf = (lug: string) => lug.slice(0, lug.indexOf("."));
  const keyOf = (lug: string): readonly [number, number] => {
    const wire = wires.find(({ from, to }) => from === lug || to === lug);
    const other = wire && (wire.from === lug ? wire.to : wire.from);
    const at = other === undefined ? undefined : placeOf.get(other);
    if (other === undefined || !at) return [3, 0];
    const frame = switches.find(({ device }) => device.id === deviceOf(other));
    if (!frame) return [2, at.x];
    return at.x < frame.at.x ? [0, -at.y] : [1, at.y];
  };
  const sorted = new Map<string, PlacedLug>();
  for (const pickup of pickups) {
    const mine = lugs.filter(({ lug }) => deviceOf(lug) === pickup);
    const order = [...mine].sort((first, second) => {
      const [a, b] = [keyOf(first.lug), keyOf(second.lug)];
      return a[0] - b[0] || a[1] - b[1];
    });
    order.forEach((lug, index) => {
      sorted.set(lug.id, { ...lug, at: mine[index]?.at ?? lug.at });
    });
  }
  return lugs.map((lug) => sorted.get(lug.id) ?? lug);
}

const CASE_RING_MM = 9.8;

/** A case is soldered at as many places as wires come to it, each on the side from which its wire comes. */
function withWires(wiring: Wiring, laid: Laid): PlateLayout {
  const placeOf = new Map(laid.lugs.map((lug) => [lug.lug, lug.at]));
  const padOf = new Map<string, string>();
  const pads: PlacedLug[] = [];
  for (const lug of laid.lugs) {
    const mine = wiring.wires.filter(({ from, to }) => from === lug.lug || to === lug.lug);
    const spread = lug.label === "case" && mine.length > 0;
    if (!spread) {
      if (lug.label !== "case") pads.push(lug);
      for (const { id } of mine) padOf.set(`${id}|${lug.lug}`, lug.id);
      continue;
    }
    const angleOf = ({ from, to }: { readonly from: string; readonly to: string }) => {
      const other = placeOf.get(from === lug.lug ? to : from) ?? lug.at;
      return Math.atan2(other.y - lug.at.y, other.x - lug.at.x);
    };
    const sorted = [...mine].sort((first, second) => intoArc(angleOf(first)) - intoArc(angleOf(second)));
    spreadAngles(sorted.map(angleOf)).forEach((angle, index) => {
      const id = `${lug.id}#${index + 1}`;
      padOf.set(`${sorted[index]?.id}|${lug.lug}`, id);
      pads.push({
        ...lug,
        id,
        label: "",
        at: { x: lug.at.x + CASE_RING_MM * Math.cos(angle), y: lug.at.y + CASE_RING_MM * Math.sin(angle) },
      });
    });
  }
  const grounded = groundedWires(wiring);
  const bodies: PlateBody[] = [
    ...laid.devices.flatMap(({ device, shape }) => (shape ? [{ id: device.id, shape }] : [])),
    ...laid.devices.flatMap(nameBody),
    ...pads.flatMap((lug) => labelBody(lug, laid.devices)),
  ];
  return {
    ...laid,
    lugs: pads,
    plate: {
      bounds: { left: 1, top: 1, widthMm: laid.widthMm - 2, heightMm: laid.heightMm - 2 },
      bodies,
      lugs: pads,
      wires: wiring.wires.map(({ id, from, to }) => ({
        id,
        from: padOf.get(`${id}|${from}`) ?? from,
        to: padOf.get(`${id}|${to}`) ?? to,
        kind: grounded.has(id) ? "ground" : "wire",
      })),
    },
  };
}

/** Solder on a case keeps off the side of its lugs, which is down: angles run clockwise from the right. */
const FIRST_ANGLE = (140 / 180) * Math.PI;
const LAST_ANGLE = (400 / 180) * Math.PI;

function intoArc(angle: number): number {
  const turned = angle < Math.PI / 2 ? angle + 2 * Math.PI : angle;
  return Math.min(LAST_ANGLE, Math.max(FIRST_ANGLE, turned));
}

/** Text outside its device's outline is kept clear as if it were a part. */
function nameBody({ device, shape, nameAt }: PlacedDevice): PlateBody[] {
  if (shape && device.kind !== "component") return [];
  const lines = device.kind === "component" ? 2 : 1;
  return [
    text(`${device.id}, name`, nameAt.x, nameAt.y + (lines === 2 ? 0.6 : -1), 1.75 * device.id.length, 1 + 2.6 * lines),
  ];
}

function labelBody({ id, lug, label, side, at, awayMm }: PlacedLug, devices: readonly PlacedDevice[]): PlateBody[] {
  const device = devices.find((one) => lug.startsWith(`${one.device.id}.`));
  if (label === "" || side !== "above" || device?.device.kind !== "stacked pot" || !lug.includes("lower-")) return [];
  return [text(`${id}, label`, at.x, at.y - awayMm - 0.75, 1.6, 1.8)];
}

function text(id: string, x: number, y: number, widthMm: number, heightMm: number): PlateBody {
  return { id, shape: { kind: "rectangle", centre: { x, y }, widthMm, heightMm, angleDegrees: 0 } };
}

/** Angles in order, moved apart until no two pads touch. */
function spreadAngles(angles: readonly number[]): number[] {
  const least = Math.min((LAST_ANGLE - FIRST_ANGLE) / Math.max(1, angles.length - 1), (3.4 * PAD_MM) / CASE_RING_MM);
  const spread = angles.map(intoArc);
  for (let round = 0; round < 80; round += 1) {
    for (let index = 0; index + 1 < spread.length; index += 1) {
      const gap = (spread[index + 1] ?? 0) - (spread[index] ?? 0);
      if (gap >= least) continue;
      spread[index] = (spread[index] ?? 0) - (least - gap) / 2;
      spread[index + 1] = (spread[index + 1] ?? 0) + (least - gap) / 2;
    }
    spread.forEach((angle, index) => {
      spread[index] = Math.min(LAST_ANGLE, Math.max(FIRST_ANGLE, angle));
    });
  }
  return spread;
}

/** Wires that are at ground by solder alone. */
function groundedWires({ wires }: Wiring): ReadonlySet<string> {
  const reached = new Set(["jack.sleeve"]);
  for (let grown = true; grown; ) {
    grown = false;
    for (const { from, to } of wires) {
      if (reached.has(from) === reached.has(to)) continue;
      reached.add(from).add(to);
      grown = true;
    }
  }
  return new Set(wires.filter(({ from }) => reached.has(from)).map(({ id }) => id));
}
