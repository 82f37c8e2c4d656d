/** Pads of a laid plate: conductors in the order in which they cross least, solder on cases, and what wires keep clear of. */
import type { Wiring } from "../job/index.ts";
import type { PlateBody } from "../plate/index.ts";
import { PAD_MM, type PlacedDevice, type PlacedLug, type PlateLayout } from "./plate-devices.ts";

export type Laid = Omit<PlateLayout, "plate">;

/**
 * Conductors of a pickup's lead lie in any order, so they are drawn in the order in which they cross least: those that go to
 * the left of a switch first, the lowest lug leftmost; then those to its right, the highest leftmost; then the rest by place.
 */
export function conductorsInOrder({ wires, devices }: Wiring, { lugs, devices: placed }: Laid): PlacedLug[] {
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
export function withWires(wiring: Wiring, laid: Laid): PlateLayout {
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
