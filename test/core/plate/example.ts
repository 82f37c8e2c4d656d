/** An invented plate: a lever of six positions and four poles, three pots, a jack and three pickups. */
import { groundTree, type Lug, type Plate, type PlateBody, type Wire } from "../../../src/core/plate/index.ts";

const DOWN = { x: 0, y: 1 };
const LEFT = { x: -1, y: 0 };
const LEVER = { x: 50, y: 42, lugsInRow: 14, pitchMm: 3.2, rowMm: 7 };

/** Two rows of 14: a1 to a14 above the frame, b1 to b14 below. */
function lever(): { body: PlateBody; lugs: Lug[] } {
  const { x, y, lugsInRow, pitchMm, rowMm } = LEVER;
  const row = (name: string, side: -1 | 1): Lug[] =>
    Array.from({ length: lugsInRow }, (_, n) => ({
      id: `${name}${n + 1}`,
      at: { x: x + (n - (lugsInRow - 1) / 2) * pitchMm, y: y + side * rowMm },
      radiusMm: 0.8,
      out: { x: 0, y: side },
    }));
  return {
    body: {
      id: "lever",
      shape: { kind: "rectangle", centre: { x, y }, widthMm: 52, heightMm: 10, angleDegrees: 0 },
    },
    lugs: [...row("a", -1), ...row("b", 1)],
  };
}

/** Three lugs below the case, and a place on its back for ground. */
function pot(name: string, x: number, y: number): { body: PlateBody; lugs: Lug[] } {
  const lugs = [1, 2, 3].map(
    (n): Lug => ({ id: `${name}.${n}`, at: { x: x + (n - 2) * 5, y: y + 16 }, radiusMm: 1.2, out: DOWN }),
  );
  return {
    body: { id: name, shape: { kind: "circle", centre: { x, y }, radiusMm: 12 } },
    lugs: [...lugs, { id: `${name}.case`, at: { x, y }, radiusMm: 2 }],
  };
}

function lead(id: string, x: number): Lug {
  return { id, at: { x, y: 2 }, radiusMm: 1, out: DOWN };
}

const POTS = [pot("volume", 100, 30), pot("tone", 132, 30), pot("blend", 164, 30)];

const LEADS = [
  ...["neck.hot", "neck.return"].map((id, n) => lead(id, 14 + 5 * n)),
  ...["middle.hot", "middle.return", "middle.shield"].map((id, n) => lead(id, 60 + 5 * n)),
  ...["bridge.1", "bridge.2", "bridge.3", "bridge.4", "bridge.shield"].map((id, n) => lead(id, 82 + 4 * n)),
  { id: "string.ground", at: { x: 187, y: 6 }, radiusMm: 1, out: LEFT },
];

const JACK: { body: PlateBody; lugs: Lug[] } = {
  body: { id: "jack", shape: { kind: "circle", centre: { x: 184, y: 62 }, radiusMm: 8 } },
  lugs: [
    { id: "jack.tip", at: { x: 173, y: 59 }, radiusMm: 1.2, out: LEFT },
    { id: "jack.sleeve", at: { x: 173, y: 65 }, radiusMm: 1.2, out: LEFT },
  ],
};

const JOINED = [
  ["neck.hot", "a1"],
  ["neck.return", "a5"],
  ["middle.hot", "a9"],
  ["middle.return", "a12"],
  ["bridge.1", "a14"],
  ["bridge.2", "b12"],
  ["bridge.3", "b12"],
  ["a1", "a3"],
  ["a3", "b3"],
  ["a9", "a10"],
  ["a5", "b1"],
  ["b2", "b6"],
  ["b6", "b9"],
  ["a12", "b10"],
  ["b4", "volume.3"],
  ["b8", "volume.3"],
  ["b13", "tone.2"],
  ["volume.3", "tone.1"],
  ["volume.2", "blend.1"],
  ["tone.3", "blend.2"],
  ["blend.3", "jack.tip"],
  ["b14", "blend.2"],
] as const;

const GROUND = [
  ...["volume.case", "tone.case", "blend.case", "volume.1", "jack.sleeve", "string.ground"],
  ...["middle.shield", "bridge.shield", "bridge.4", "b7", "b11", "a7", "a13"],
];

export function examplePlate(): Plate {
  const switchLever = lever();
  const lugs = [...switchLever.lugs, ...POTS.flatMap((one) => one.lugs), ...LEADS, ...JACK.lugs];
  const wires = JOINED.map(([from, to]): Wire => ({ id: `${from}-${to}`, from, to, kind: "wire" }));
  return {
    bounds: { left: 0, top: 0, widthMm: 195, heightMm: 75 },
    bodies: [switchLever.body, ...POTS.map(({ body }) => body), JACK.body],
    lugs,
    wires: [...wires, ...groundTree(lugs.filter(({ id }) => GROUND.includes(id)))],
  };
}
