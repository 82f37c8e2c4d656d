/**
 * The devices of a control plate drawn from behind: how much room each takes, its outline, and where its lugs stand.
 *
 * Seen from behind with its lugs pointing down, a pot has lug 3 on the left and lug 1 on the right. A switch shows its
 * poles in columns along its frame; in which order a make has them is found with the meter, so lugs go by their names.
 */
import type { WiredDevice } from "../job/index.ts";
import type { BodyShape, Lug, Plate, PlatePoint } from "../plate/index.ts";

export const PAD_MM = 1.1;
export const POT_RADIUS_MM = 12;
const JACK_RADIUS_MM = 11;
const LUG_PITCH_MM = 6;
const SWITCH_PITCH_MM = 5;
/** Of a switch whose part does not say how wide it is. */
export const SWITCH_FRAME_MM = 14;
const BESIDE_MM = 1.8;
/** Pads stand so far outside the frame or case that they belong to, and their names so far inside. */
const OUTSIDE_MM = 2.5;
const INSIDE_MM = 3.6;
const CONDUCTOR_PITCH_MM = 9.5;
const PICKUP_HIGH_MM = 15;
/** The lower lugs of a stacked pot are drawn so far beyond the upper ones. */
export const LOWER_ROW_MM = 11;

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

interface Size {
  readonly width: number;
  readonly height: number;
  /** Of a switch: its frame. */
  readonly frame: number;
}

export function outerSize(device: WiredDevice, frame: number): Size {
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

export interface Placing {
  readonly device: WiredDevice;
  /** The middle of its top edge. */
  readonly at: PlatePoint;
  /** Of a switch's frame. */
  readonly wide: number;
}

export function place({ device, at, wide }: Placing, devices: PlacedDevice[], lugs: PlacedLug[]): void {
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
