/** Invented plates with devices placed apart by chance and wires between any of their lugs. */
import type { Lug, Plate, PlateBody, PlatePoint, Wire } from "../../../src/core/plate/index.ts";
import { generator } from "../../reference/scenarios/draws.ts";

interface Device {
  readonly body: PlateBody;
  readonly lugs: readonly Lug[];
  readonly reachMm: number;
}

export function randomPlate(seed: number): Plate {
  const random = generator(seed);
  const bounds = { left: 0, top: 0, widthMm: 110 + 60 * random(), heightMm: 60 + 30 * random() };
  const devices: Device[] = [];
  for (let n = 0; n < 40 && devices.length < 5; n++) {
    const at = { x: 22 + random() * (bounds.widthMm - 44), y: 22 + random() * (bounds.heightMm - 44) };
    const device = random() < 0.6 ? pot(`pot${n}`, at, random) : lever(`lever${n}`, at, random);
    const isApart = devices.every(({ body, reachMm }) => {
      const { centre } = body.shape;
      return Math.hypot(centre.x - at.x, centre.y - at.y) > reachMm + device.reachMm;
    });
    if (isApart) devices.push(device);
  }
  const leads = Array.from({ length: 5 }, (_, n): Lug => {
    return { id: `lead${n}`, at: { x: 8 + 6 * n + 2 * random(), y: 0 }, radiusMm: 1, out: { x: 0, y: 1 } };
  });
  const lugs = [...devices.flatMap((device) => device.lugs), ...leads];
  return { bounds, bodies: devices.map(({ body }) => body), lugs, wires: wiresOf(lugs, random) };
}

function pot(id: string, centre: PlatePoint, random: () => number): Device {
  const turn = 2 * Math.PI * random();
  const radiusMm = 7 + 3 * random();
  const lugs = [-1, 0, 1].map((n): Lug => {
    const out = { x: Math.cos(turn + n * 0.4), y: Math.sin(turn + n * 0.4) };
    const far = radiusMm + 2 * random() + 1;
    return { id: `${id}.${n + 2}`, at: { x: centre.x + far * out.x, y: centre.y + far * out.y }, radiusMm: 1, out };
  });
  const spot: Lug = { id: `${id}.case`, at: centre, radiusMm: 1.5 };
  return { body: { id, shape: { kind: "circle", centre, radiusMm } }, lugs: [...lugs, spot], reachMm: radiusMm + 6 };
}

function lever(id: string, centre: PlatePoint, random: () => number): Device {
  const angleDegrees = [0, 90, 180 * random()][Math.floor(3 * random())]!;
  const turn = (angleDegrees * Math.PI) / 180;
  const [along, aside] = [
    { x: Math.cos(turn), y: Math.sin(turn) },
    { x: -Math.sin(turn), y: Math.cos(turn) },
  ];
  const lugs = [-1, 1].flatMap((side) =>
    [-2, -1, 0, 1, 2].map((n): Lug => {
      const at = {
        x: centre.x + 3.5 * n * along.x + 5 * side * aside.x,
        y: centre.y + 3.5 * n * along.y + 5 * side * aside.y,
      };
      return { id: `${id}.${side}.${n}`, at, radiusMm: 0.8, out: { x: side * aside.x, y: side * aside.y } };
    }),
  );
  const shape = { kind: "rectangle", centre, widthMm: 20, heightMm: 7, angleDegrees } as const;
  return { body: { id, shape }, lugs, reachMm: 15 };
}

function wiresOf(lugs: readonly Lug[], random: () => number): Wire[] {
  const pick = (): string => lugs[Math.floor(random() * lugs.length)]!.id;
  const drawn = Array.from({ length: 18 }, (_, n): Wire => {
    return { id: `w${n}`, from: pick(), to: pick(), kind: random() < 0.3 ? "ground" : "wire" };
  });
  const taken = new Set<string>();
  return drawn.filter(({ from, to }) => {
    const pair = [from, to].sort().join();
    if (from === to || taken.has(pair)) return false;
    taken.add(pair);
    return true;
  });
}
