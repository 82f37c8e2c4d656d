/**
 * A small instrument made by hand, for tests of folds and plans: the six-string demo's body, bridge, controls and
 * strings with exact values (its invented figures; no doubt unless a test adds it).
 */
import type { Instrument, SetbackEvidence, StringData } from "../../../src/core/job/instrument.ts";
import type { BridgePiece, Control, Pickup, Tuners } from "../../../src/core/job/instrument-parts.ts";
import type { Cavity, Hole } from "../../../src/core/job/instrument-wood.ts";
import { exact, type Kind, type Quantity, unknown } from "../../../src/core/quantity/index.ts";

export function q(value: number, path = "fixture", kind: Kind = "length"): Quantity {
  return exact(value, path, kind, "measured");
}

export function none(path = "fixture", kind: Kind = "length"): Quantity {
  return unknown(path, kind);
}

/** Value of a quantity that the test knows to be known. */
export function mmOf(quantity: Quantity | "through" | undefined): number {
  if (quantity === undefined || quantity === "through" || !quantity.known) return Number.NaN;
  return quantity.value;
}

export function hole(id: string, u: number, y: number, diameter: number, depth: number | "through" = 22): Hole {
  const group = id.replace(/#.*/, "");
  return {
    id,
    group,
    purpose: "screw",
    at: { u: q(u, `body.holes.${id}.u`), y: q(y, `body.holes.${id}.y`) },
    diameter: q(diameter, `body.holes.${id}.diameter`),
    depth: depth === "through" ? "through" : q(depth, `body.holes.${id}.depth`),
    state: "open",
  };
}

export function holeOf(instrument: Instrument, id: string): Hole {
  const found = instrument.body.holes.find((one) => one.id === id);
  if (!found) throw new Error(`fixture: no hole ${id}`);
  return found;
}

function cavity(id: string, u: number, length: number, width: number, ears: readonly [number, number, number]): Cavity {
  return {
    id,
    face: "top",
    centre: { u: q(u), y: q(0) },
    length: q(length),
    width: q(width),
    depth: q(19),
    cornerRadius: q(3),
    angle: q(0, "angle", "angle"),
    ears: { length: q(ears[0]), width: q(ears[1]), depth: q(ears[2]) },
  };
}

function control(id: string, wood: number): Control {
  return {
    id,
    name: id,
    kind: "pot",
    wood: q(wood, `controls.${id}.wood`),
    hole: q(8, `controls.${id}.hole`),
    threadLength: q(9.5),
    threadDiameter: q(9.5),
    depth: q(12.5),
    lugs: q(2),
    freeDepth: q(33, `controls.${id}.freeDepth`),
    shafts: [],
    taper: "audio",
    ohms: none(`controls.${id}.ohms`, "resistance"),
    ohmsAtHalfTurn: none(`controls.${id}.ohmsAtHalfTurn`, "resistance"),
    rises: "clockwise",
    otherHand: "",
  };
}

function pickup(id: string, u: number, length: number, width: number): Pickup {
  return {
    id,
    name: `${id} pickup`,
    cavityId: id,
    centre: { u: q(u), y: q(0) },
    strings: [1, 2, 3, 4, 5, 6],
    body: { length: q(length), width: q(width), depth: q(17) },
    poles: "one a string",
    poleSpread: q(50),
    poleDiameter: q(4.8),
    polePair: none(),
    slant: q(0, "slant", "angle"),
  };
}

const NO_EVIDENCE: SetbackEvidence = {
  nutToFret12: none(),
  fret12ToContact: none(),
  change: none(),
  cents: none("cents", "cents"),
  fret: q(12, "fret", "count"),
  trialSetback: none(),
  stated: none(),
};

function string(number: number, note: string, gauge: number, wound: boolean, action: number): StringData {
  return {
    number,
    name: `${number} ${wound ? "wound" : "plain"}`,
    note,
    frequency: none("frequency", "frequency"),
    gauge: q(gauge),
    wound,
    core: none(),
    unitMass: none("mass", "mass per length"),
    action: q(action, `strings.${number}.action`),
    nutHeight: q(0.5, `strings.${number}.nutHeight`),
    setback: NO_EVIDENCE,
  };
}

function bridgePiece(): BridgePiece {
  return {
    id: "plate",
    side: q(0),
    length: q(44),
    width: q(82),
    saddles: [1, 2, 3, 4, 5, 6].map((number) => ({
      string: number,
      from: q(number < 4 ? 11.5 : 13),
      to: q(number < 4 ? 16 : 18),
      q: q(26.25 - 10.5 * (number - 1)),
    })),
    screws: [-21, -10.5, 0, 10.5, 21].map((across) => ({
      p: q(34),
      q: q(across),
      thread: q(3),
      pilot: q(2.5),
      core: { known: false as const, path: "parts.bridge.screws[0].core", kind: "length" as const },
      depth: q(24),
    })),
    stringHoles: [],
  };
}

const TUNERS: Tuners = {
  name: "tuners",
  count: 6,
  hole: q(10),
  oldHole: q(8.8, "headstock.hole"),
  headstockThickness: q(14.2),
  thinnest: q(12.5),
  thickest: q(16),
  postSlot: q(1.8),
  oldScrews: [],
  pitch: none(),
  mass: none("mass", "mass"),
  oldMass: none("mass", "mass"),
};

/** A fresh copy, with whatever the test changes. */
export function makeInstrument(change: Partial<Instrument> = {}): Instrument {
  return { ...BASE, ...change };
}

const BASE: Instrument = {
  id: "A-107",
  title: "Lowtide",
  kind: "guitar",
  stringCount: 6,
  bassSide: -1,
  state: "as found",
  neck: {
    name: "conversion neck",
    boltOn: true,
    frets: q(22, "neck.frets", "count"),
    scaleLengths: Array.from({ length: 6 }, () => q(690)),
    squareFret: none("squareFret", "count"),
    nutToHeelEnd: q(508),
    nutToFret12: q(345),
    fret12ToHeelEnd: q(163),
    heelGap: q(0),
    nutWidth: q(43),
    nutY: [18, 10.8, 3.6, -3.6, -10.8, -18].map((y) => q(y)),
    nutSlots: [0.28, 0.36, 0.46, 0.7, 0.95, 1.2].map((width, index) => q(width, `neck.nutSlots[${index}]`)),
    radiusAtNut: q(356),
    radiusAtEnd: q(356),
    radiusEndX: none(),
    plane: { heelThickness: q(24.6), fretHeight: q(1.2), straightedge: [] },
    relief: q(0.2, "neck.relief"),
    freeLength: q(440),
    boardWidthAtLastFret: q(57),
    pocketPlay: none(),
  },
  oldNeck: { name: "old neck", scaleLength: q(648), nutToHeelEnd: q(470) },
  body: {
    wood: "ash",
    gravity: none("gravity", "ratio"),
    finish: "polyester",
    thickness: q(44.5),
    pocket: { depth: q(16), length: q(76), width: q(56.2) },
    tailEdge: q(330),
    holes: [
      ...[-20, -10, 0, 10, 20].map((y, index) => hole(`old-screws#${index + 1}`, 201.5, y, 3.2)),
      ...[-26, -15.6, -5.2, 5.2, 15.6, 26].map(
        (y, index): Hole => ({ ...hole(`old-through#${index + 1}`, 193, y, 5, "through"), purpose: "string-through" }),
      ),
    ],
    channels: [],
    cavities: [
      cavity("neck", 22, 72, 41, [92, 15, 24]),
      cavity("middle", 88, 71.5, 20, [87, 9, 24]),
      cavity("bridge", 146, 72, 41, [88, 12, 21]),
    ],
    groundWire: { u: q(190), y: q(-12) },
    neckScrews: [],
  },
  scaleLine: { read: [q(182, "scaleLine.u")], old: q(178) },
  strings: [
    string(1, "B3", 0.33, false, 1.8),
    string(2, "F#3", 0.457, false, 1.88),
    string(3, "D3", 0.61, false, 1.96),
    string(4, "A2", 0.914, true, 2.04),
    string(5, "E2", 1.219, true, 2.12),
    string(6, "B1", 1.575, true, 2.2),
  ],
  spareStrings: [string(3, "D3", 0.66, true, 1.96)],
  windingLength: none(),
  shim: none("shim"),
  bridge: {
    partId: "plate",
    name: "hardtail plate",
    kind: "flat plate",
    pieces: [bridgePiece()],
    lowest: q(10.5),
    highest: q(15),
    turnedRound: q(2.4),
    postThread: "",
    coated: true,
    anchor: "top",
    heightScrewPitch: q(0.5),
    mass: none("mass", "mass"),
    chosenPlace: q(170.9),
    inchDrawing: [],
  },
  pickups: [pickup("neck", 22, 69, 38.2), pickup("middle", 88, 69.8, 18.2), pickup("bridge", 146, 70, 38.5)],
  controls: [control("volume", 7), control("treble-cut", 6), control("bass-cut", 6.5)],
  lever: {
    name: "lever",
    oldSlot: q(26),
    slot: q(30.5),
    slotWidth: q(1.8),
    oldScrews: q(20.65),
    screws: q(23),
    oldScrewHole: q(3.2),
    screwHole: q(3.2),
    depth: q(27.5),
    lugs: q(2),
    freeDepth: q(33),
    width: q(21),
    freeWidth: q(24),
    cover: "",
  },
  tuners: TUNERS,
  strapButtons: [],
  masses: [],
  strapButtonX: none(),
  evidence: {},
  limits: {
    saddleReserve: q(0.5),
    pickupClearance: q(0.5),
    holeWall: q(1.5),
    woodLeft: q(3),
    lugToFoil: q(2),
    windingPastNut: q(3),
    poleWarn: q(1),
    foil: q(0.1),
    lockWasher: q(0.9),
    washer: q(0.8),
    nut: q(2.4),
    bushingClearance: q(0.1),
    slotClearance: q(0.05),
    plugDiameter: q(6),
    gateProbability: q(0.95, "gateProbability", "ratio"),
  },
  workshop: {
    bitReach: unknown("settings.bitReach", "length"),
    drilling: "hand drill",
    drillingDoubt: q(0.45, "workshop.drillingDoubt"),
    bits: [q(2.4), q(3), q(3.2), q(6)],
    nutFiles: [q(0.4), q(0.5), q(0.7)],
    reamers: [q(10)],
  },
};
