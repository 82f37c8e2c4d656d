/**
 * The job file: one YAML or JSON document, one schema, each section with its own version.
 *
 * An amount is what people write: `648 mm`, `25 1/2 in`, `12.3 ±0.2 mm (rule)`; a bare number is in the job's unit.
 * Nearly everything may be left out: a question that needs it answers `measure`. Unknown keys are refused with their
 * path, because a misspelt key would otherwise be a value silently lost.
 */
import { z } from "zod";

const amount = z.union([z.number(), z.string().max(120)]).meta({ description: "A number with its unit, and in brackets the tool it was measured with: 44.5 mm (calliper)" });
const words = z.string().max(2000);
const name = z.string().max(120);
const id = z.string().regex(/^[a-z0-9][a-z0-9-]{0,60}$/, "an id is written in small letters, digits and hyphens");
const amounts = z.array(amount).max(64);
const side = z.enum(["y < 0", "y > 0"]);
const optional = <T extends z.ZodType>(inner: T) => inner.optional();

const point = { u: optional(amount), x: optional(amount), y: optional(amount) };

const hole = z.strictObject({
  purpose: optional(z.enum(["screw", "string-through", "post", "wire", "control", "jack", "other"])),
  u: optional(amount),
  x: optional(amount),
  y: optional(z.union([amount, amounts])),
  diameter: optional(amount),
  depth: optional(z.union([z.literal("through"), amount])),
  tool: optional(name),
  placing: optional(name),
  note: optional(words),
});

const ears = z.strictObject({ length: optional(amount), width: optional(amount), depth: optional(amount) });

const cavity = z.strictObject({
  face: optional(z.enum(["top", "back"])),
  ...point,
  length: optional(amount),
  width: optional(amount),
  depth: optional(amount),
  cornerRadius: optional(amount),
  angle: optional(amount),
  ears: optional(ears),
  tool: optional(name),
});

const neck = z.strictObject({
  name: optional(name),
  boltOn: optional(z.boolean()),
  frets: optional(amount),
  /** One, or one for each string (string 1 first), or the two outer ones of a multi-scale neck. */
  scaleLength: optional(z.union([amount, amounts, z.strictObject({ string1: amount, lastString: amount })])),
  squareFret: optional(amount),
  nutToHeelEnd: optional(amount),
  nutToFret12: optional(amount),
  fret12ToHeelEnd: optional(amount),
  heelGap: optional(amount),
  nutWidth: optional(amount),
  /** Outer strings, centre to centre. */
  nutSpread: optional(amount),
  nutY: optional(amounts),
  nutSlots: optional(amounts),
  radius: optional(z.union([amount, z.strictObject({ atNut: amount, atEnd: amount, endX: amount })])),
  heelThickness: optional(amount),
  fretHeight: optional(amount),
  straightedge: optional(z.array(z.strictObject({ u: optional(amount), x: optional(amount), z: amount })).max(8)),
  relief: optional(amount),
  freeLength: optional(amount),
  boardWidthAtLastFret: optional(amount),
});

const body = z.strictObject({
  wood: optional(name),
  specificGravity: optional(amount),
  finish: optional(name),
  thickness: optional(amount),
  pocket: optional(z.strictObject({ depth: optional(amount), length: optional(amount), width: optional(amount) })),
  /** The x that is written for the end wall of the pocket, where places are given as x. */
  endWallX: optional(amount),
  tailEdge: optional(amount),
  holes: optional(z.record(id, hole)),
  neckScrews: optional(z.record(id, hole)),
  channels: optional(
    z.record(id, z.strictObject({ from: z.strictObject({ ...point, depth: optional(amount) }), to: z.strictObject({ ...point, depth: optional(amount) }), diameter: optional(amount) })),
  ),
  cavities: optional(z.record(id, cavity)),
  groundWire: optional(z.strictObject(point)),
  oldPlate: optional(z.strictObject({ length: optional(amount), width: optional(amount), u: optional(amount), x: optional(amount) })),
});

const place = z.strictObject({
  wood: optional(amount),
  hole: optional(amount),
  freeDepth: optional(amount),
  freeWidth: optional(amount),
  slot: optional(amount),
  slotWidth: optional(amount),
  screws: optional(amount),
  screwHole: optional(amount),
  ...point,
});

const tunerScrew = z.strictObject({ distance: optional(amount), angle: optional(amount), diameter: optional(amount) });

const instrument = z.strictObject({
  kind: z.enum(["guitar", "bass"]),
  strings: z.number().int().min(4).max(9),
  bassSide: optional(side),
  neck: optional(neck),
  oldNeck: optional(z.strictObject({ name: optional(name), scaleLength: optional(amount), nutToHeelEnd: optional(amount) })),
  body: optional(body),
  scaleLine: optional(z.strictObject({ u: optional(amount), x: optional(amount), old: optional(amount) })),
  headstock: optional(z.strictObject({ thickness: optional(amount), hole: optional(amount), screws: optional(z.array(tunerScrew).max(16)), tunerPitch: optional(amount) })),
  controls: optional(z.record(id, place)),
  strapButtonX: optional(amount),
  oldStrings: optional(z.strictObject({ totalTension: optional(amount) })),
});

/** Saddles are named by the strings over them, or by their own places across (q): then the part fits either hand. */
const saddle = z.strictObject({
  strings: optional(z.union([z.number().int(), z.array(z.number().int()).max(9)])),
  q: optional(z.union([amount, amounts])),
  from: optional(amount),
  to: optional(amount),
});
const partHoles = z.strictObject({ p: optional(amount), q: optional(z.union([amount, amounts])), thread: optional(amount), pilot: optional(amount), depth: optional(amount), diameter: optional(amount) });

const bridgePiece = {
  length: optional(amount),
  width: optional(amount),
  pitch: optional(amount),
  saddleQ: optional(amounts),
  saddles: optional(z.array(saddle).max(9)),
  screws: optional(z.array(partHoles).max(32)),
  stringHoles: optional(z.array(partHoles).max(32)),
};

const part = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("bridge"),
    name: optional(name),
    type: z.enum(["flat plate", "single units", "two posts"]),
    ...bridgePiece,
    lowest: optional(amount),
    highest: optional(amount),
    turnedRound: optional(amount),
    coated: optional(z.boolean()),
    topAnchor: optional(z.strictObject({ p: optional(amount), z: optional(amount) })),
    throughAnchor: optional(z.strictObject({ p: optional(amount), z: optional(amount), down: optional(amount) })),
    heightScrewPitch: optional(amount),
    mass: optional(amount),
    tailpiece: optional(z.strictObject({ length: optional(amount), width: optional(amount), distance: optional(amount), screws: optional(z.array(partHoles).max(8)) })),
    inchDrawing: optional(z.array(z.strictObject({ what: name, declared: amount, drawn: amount })).max(32)),
  }),
  z.strictObject({
    kind: z.literal("tuners"),
    name: optional(name),
    hole: optional(amount),
    thinnest: optional(amount),
    thickest: optional(amount),
    postSlot: optional(amount),
    screw: optional(tunerScrew),
    mass: optional(amount),
    oldMass: optional(amount),
  }),
  z.strictObject({
    kind: z.literal("pickup"),
    name: optional(name),
    length: optional(amount),
    width: optional(amount),
    depth: optional(amount),
    ears: optional(z.strictObject({ length: optional(amount), width: optional(amount), bottom: optional(amount) })),
    poles: optional(z.enum(["one a string", "two a string", "none"])),
    poleSpread: optional(amount),
    poleDiameter: optional(amount),
    polePair: optional(amount),
  }),
  z.strictObject({
    kind: z.literal("pot"),
    name: optional(name),
    stacked: optional(z.boolean()),
    threadLength: optional(amount),
    threadDiameter: optional(amount),
    depth: optional(amount),
    lugs: optional(amount),
    shafts: optional(z.array(z.strictObject({ diameter: optional(amount), kind: optional(z.enum(["solid", "split"])), splines: optional(amount) })).max(2)),
    taper: optional(z.enum(["audio", "linear", "reverse audio"])),
    otherHand: optional(words),
  }),
  z.strictObject({
    kind: z.literal("jack"),
    name: optional(name),
    threadLength: optional(amount),
    threadDiameter: optional(amount),
    depth: optional(amount),
    lugs: optional(amount),
  }),
  z.strictObject({
    kind: z.literal("lever"),
    name: optional(name),
    slot: optional(amount),
    screws: optional(amount),
    screwHole: optional(amount),
    depth: optional(amount),
    lugs: optional(amount),
    width: optional(amount),
    cover: optional(words),
  }),
  z.strictObject({
    kind: z.literal("knob"),
    name: optional(name),
    bores: optional(amounts),
    fixing: optional(z.enum(["set screw", "push-on"])),
    splines: optional(amounts),
  }),
  z.strictObject({
    kind: z.literal("strings"),
    name: optional(name),
    winding: optional(amount),
    strings: optional(z.record(z.string().regex(/^[1-9]$/), z.lazy(() => stringPart))),
    spares: optional(z.record(z.string().regex(/^[1-9]$/), z.lazy(() => stringPart))),
  }),
  z.strictObject({ kind: z.literal("strap button"), name: optional(name), screwGauge: optional(amount), screwLength: optional(amount) }),
  z.strictObject({ kind: z.literal("battery"), name: optional(name), length: optional(amount), width: optional(amount), thickness: optional(amount) }),
]);

const stringPart = z.strictObject({
  name: optional(name),
  note: optional(name),
  frequency: optional(amount),
  gauge: optional(amount),
  wound: optional(z.boolean()),
  core: optional(amount),
  unitMass: optional(amount),
});

const stringSetup = z.strictObject({
  action: optional(amount),
  nutHeight: optional(amount),
  setback: optional(amount),
  cents: optional(amount),
  fret: optional(amount),
  trialSetback: optional(amount),
  oldSaddle: optional(z.strictObject({ nutToFret12: optional(amount), fret12ToContact: optional(amount), change: optional(amount) })),
});

const fit = z.strictObject({
  bridge: optional(z.strictObject({ part: id, anchor: optional(z.enum(["top", "through"])), u: optional(amount), x: optional(amount) })),
  tuners: optional(z.strictObject({ part: id })),
  strings: optional(z.strictObject({ part: id })),
  pickups: optional(
    z.record(id, z.strictObject({ part: id, cavity: optional(id), strings: optional(z.array(z.number().int()).max(9)), ...point, slant: optional(amount), poleSpread: optional(amount) })),
  ),
  controls: optional(
    z.record(
      id,
      z.strictObject({ part: id, knob: optional(id), alternative: optional(id), rises: optional(z.enum(["clockwise", "anticlockwise"])) }),
    ),
  ),
  strapButtons: optional(z.record(id, z.strictObject({ part: id, hole: optional(amount), ...point }))),
  battery: optional(z.strictObject({ part: id, room: z.strictObject({ length: optional(amount), width: optional(amount), depth: optional(amount) }) })),
  masses: optional(z.array(z.strictObject({ what: name, x: optional(amount), off: optional(amount), on: optional(amount) })).max(32)),
  setup: optional(
    z.strictObject({
      relief: optional(amount),
      shim: optional(amount),
      strings: optional(z.record(z.string().regex(/^[1-9]$/), stringSetup)),
      spares: optional(z.record(z.string().regex(/^[1-9]$/), stringSetup)),
    }),
  ),
});

const reading = z.strictObject({
  id,
  /** Path of the value that was read, e.g. neck.nutToFret12 or body.holes.old-screws.u. */
  of: z.string().max(200),
  value: amount,
  /** Readings taken without lifting the rule share its placing error. */
  placing: optional(name),
  /** Id of the operation after which it was read; left out: as found. */
  after: optional(id),
  at: optional(name),
  by: optional(name),
  note: optional(words),
});

const bodyPlace = { u: z.number(), y: z.number() };
const work = z.discriminatedUnion("act", [
  z.strictObject({ act: z.literal("plug"), holes: z.array(z.union([name, z.strictObject({ id: name, ...bodyPlace, diameter: z.number(), depth: z.union([z.literal("through"), z.number()]) })])), diameter: z.number(), cause: optional(words) }),
  z.strictObject({ act: z.literal("drill"), group: id, holes: z.array(z.strictObject({ id: name, ...bodyPlace, diameter: z.number(), thread: optional(z.number()), depth: z.number() })), intoPlugs: optional(z.boolean()) }),
  z.strictObject({ act: z.literal("rout"), cavity: id, what: optional(name), lengthBy: optional(z.number()), widthBy: optional(z.number()), depthBy: optional(z.number()) }),
  z.strictObject({ act: z.literal("ream"), where: name, count: optional(z.number()), from: optional(z.number()), to: z.number() }),
  z.strictObject({ act: z.literal("spot-face"), where: name, depth: z.number(), leaves: optional(z.number()) }),
  z.strictObject({ act: z.literal("slot"), where: name, from: optional(z.number()), to: z.number(), screwOffset: optional(z.number()), cover: optional(words) }),
  z.strictObject({ act: z.literal("shim"), thickness: z.number(), length: optional(z.number()), angleDegrees: optional(z.number()) }),
  z.strictObject({ act: z.literal("nut slots"), widths: z.array(z.strictObject({ string: z.number().int(), from: optional(z.number()), to: z.number() })) }),
  z.strictObject({ act: z.literal("take off"), part: name }),
  z.strictObject({ act: z.literal("fit"), part: name }),
  z.strictObject({ act: z.literal("restring"), set: name }),
]);

const operation = z.union([
  z.strictObject({ id, work, doneAt: optional(name), note: optional(words) }),
  z.strictObject({ id, undoes: id, at: optional(name) }),
]);

const settings = z.strictObject({
  saddleReserve: optional(amount),
  pickupClearance: optional(amount),
  holeWall: optional(amount),
  woodLeft: optional(amount),
  lugToFoil: optional(amount),
  windingPastNut: optional(amount),
  poleWarn: optional(amount),
  foil: optional(amount),
  lockWasher: optional(amount),
  washer: optional(amount),
  nut: optional(amount),
  bushingClearance: optional(amount),
  slotClearance: optional(amount),
  plugDiameter: optional(amount),
  gateProbability: optional(amount),
  drilling: optional(z.enum(["hand drill", "drill press", "self-centring bit through the plate"])),
  drillingDoubt: optional(amount),
  bits: optional(amounts),
  nutFiles: optional(amounts),
  reamers: optional(amounts),
});

const override = z.strictObject({ step: name, reason: words, at: optional(name), by: optional(name) });
const printed = z.strictObject({ along: amount, across: amount, diagonal1: amount, diagonal2: amount, paper: optional(z.enum(["A4", "Letter"])), at: optional(name) });
const record = z.strictObject({
  /** Steps of the traveller done, by id. */
  done: optional(z.record(name, z.string().max(40))),
  overrides: optional(z.array(override).max(100)),
  printed: optional(printed),
});

const header = z.strictObject({
  id: optional(name),
  title: optional(name),
  units: optional(z.enum(["mm", "inch"])),
  partsLimit: optional(amount),
  wants: optional(z.array(words).max(50)),
  notes: optional(words),
});

/** Sections in the order in which a file is written. */
export const SECTIONS = { job: header, instrument, parts: z.record(id, part), fit, readings: z.array(reading).max(5000), operations: z.array(operation).max(5000), settings, record } as const;

export type SectionName = keyof typeof SECTIONS;

/** The version of each section that this program reads and writes. */
export const VERSIONS: Readonly<Record<SectionName, number>> = { job: 1, instrument: 1, parts: 1, fit: 1, readings: 1, operations: 1, settings: 1, record: 1 };

export const jobFileSchema = z.strictObject({
  /** Version of each section present. */
  fettle: z.record(z.string().max(60), z.number().int().min(1).max(10_000)),
  job: optional(SECTIONS.job),
  instrument: SECTIONS.instrument,
  parts: optional(SECTIONS.parts),
  fit: optional(SECTIONS.fit),
  readings: optional(SECTIONS.readings),
  operations: optional(SECTIONS.operations),
  settings: optional(SECTIONS.settings),
  record: optional(SECTIONS.record),
});

export type JobFile = z.infer<typeof jobFileSchema>;
export type Amount = z.infer<typeof amount>;
export type FilePart = z.infer<typeof part>;
export type FileReading = z.infer<typeof reading>;
export type FileOperation = z.infer<typeof operation>;

/** The schema as JSON Schema (2020-12), for editors and other programs. */
export function jobJsonSchema(): Record<string, unknown> {
  return z.toJSONSchema(jobFileSchema) as Record<string, unknown>;
}
