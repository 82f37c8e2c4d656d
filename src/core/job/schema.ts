/**
 * The job file: one YAML or JSON document, one schema, each section with its own version.
 *
 * An amount is what people write: `648 mm`, `25 1/2 in`, `12.3 ±0.2 mm (rule)`; a bare number is in the job's unit.
 * Nearly everything may be left out: a question that needs it answers `measure`. Unknown keys are refused with their
 * path, because a misspelt key would otherwise be a value silently lost.
 */
import { z } from "zod";
import { amount, amounts, id, name, optional, point, tunerScrew, words } from "./schema-basics.ts";
import { part } from "./schema-parts.ts";
import { wiring } from "./schema-wiring.ts";
import { operation } from "./schema-work.ts";

const side = z.enum(["y < 0", "y > 0"]);
const hole = z.strictObject({
  purpose: optional(z.enum(["screw", "string-through", "post", "wire", "control", "jack", "other"])),
  u: optional(amount),
  x: optional(amount),
  y: optional(z.union([amount, amounts])),
  diameter: optional(amount),
  depth: optional(z.union([z.literal("through"), amount])),
  /** Thread of the bushing that is in the hole, e.g. M8x1.25 or 5/16-24. */
  thread: optional(name),
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
  /** Three frets or more read from one placing of the rule: the scale length by least squares. */
  fretReadings: optional(z.array(z.strictObject({ fret: z.number().int().min(0).max(36), at: amount })).max(40)),
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
  /** Edge to edge. */
  boardWidthAtLastFret: optional(amount),
  /** How far the heel moves sideways in its pocket, wall to wall. */
  pocketPlay: optional(amount),
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
    z.record(
      id,
      z.strictObject({
        from: z.strictObject({ ...point, depth: optional(amount) }),
        to: z.strictObject({ ...point, depth: optional(amount) }),
        diameter: optional(amount),
      }),
    ),
  ),
  cavities: optional(z.record(id, cavity)),
  groundWire: optional(z.strictObject(point)),
  oldPlate: optional(
    z.strictObject({ length: optional(amount), width: optional(amount), u: optional(amount), x: optional(amount) }),
  ),
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

const instrument = z.strictObject({
  kind: z.enum(["guitar", "bass"]),
  strings: z.number().int().min(4).max(9),
  bassSide: optional(side),
  neck: optional(neck),
  oldNeck: optional(
    z.strictObject({ name: optional(name), scaleLength: optional(amount), nutToHeelEnd: optional(amount) }),
  ),
  body: optional(body),
  scaleLine: optional(z.strictObject({ u: optional(amount), x: optional(amount), old: optional(amount) })),
  headstock: optional(
    z.strictObject({
      thickness: optional(amount),
      hole: optional(amount),
      screws: optional(z.array(tunerScrew).max(16)),
      tunerPitch: optional(amount),
    }),
  ),
  controls: optional(z.record(id, place)),
  strapButtonX: optional(amount),
  oldStrings: optional(z.strictObject({ totalTension: optional(amount) })),
});

const stringSetup = z.strictObject({
  action: optional(amount),
  nutHeight: optional(amount),
  setback: optional(amount),
  cents: optional(amount),
  fret: optional(amount),
  trialSetback: optional(amount),
  oldSaddle: optional(
    z.strictObject({ nutToFret12: optional(amount), fret12ToContact: optional(amount), change: optional(amount) }),
  ),
});

const fit = z.strictObject({
  bridge: optional(
    z.strictObject({
      part: id,
      anchor: optional(z.enum(["top", "through"])),
      u: optional(amount),
      x: optional(amount),
    }),
  ),
  tuners: optional(z.strictObject({ part: id })),
  strings: optional(z.strictObject({ part: id })),
  pickups: optional(
    z.record(
      id,
      z.strictObject({
        part: id,
        cavity: optional(id),
        strings: optional(z.array(z.number().int()).max(9)),
        ...point,
        slant: optional(amount),
        poleSpread: optional(amount),
        /** Which coils of the part stand here; all of them unless given. */
        coils: optional(z.array(id).max(8)),
      }),
    ),
  ),
  controls: optional(
    z.record(
      id,
      z.strictObject({
        part: id,
        knob: optional(id),
        alternative: optional(id),
        rises: optional(z.enum(["clockwise", "anticlockwise"])),
      }),
    ),
  ),
  strapButtons: optional(z.record(id, z.strictObject({ part: id, hole: optional(amount), ...point }))),
  battery: optional(
    z.strictObject({
      part: id,
      room: z.strictObject({ length: optional(amount), width: optional(amount), depth: optional(amount) }),
    }),
  ),
  masses: optional(
    z.array(z.strictObject({ what: name, x: optional(amount), off: optional(amount), on: optional(amount) })).max(32),
  ),
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
  /** Free length of the longest bit of the string holes' size. */
  bitReach: optional(amount),
  nutFiles: optional(amounts),
  reamers: optional(amounts),
});

const override = z.strictObject({ step: name, reason: words, at: optional(name), by: optional(name) });
const printed = z.strictObject({
  /** The sheet that was measured, by its id; the bridge's template where nothing is said. */
  sheet: optional(name),
  along: amount,
  across: amount,
  diagonal1: amount,
  diagonal2: amount,
  paper: optional(z.enum(["A4", "Letter"])),
  /** Below the boxes of the print check; needed for a sheet that is turned or corrected. */
  code: optional(name),
  at: optional(name),
});
/** What a photograph shows; its bytes are kept beside the log, under the name that they have from themselves. */
const photograph = z.strictObject({ shows: optional(words), step: optional(name), at: optional(name) });
const MOST_PHOTOGRAPHS = 500;
/** What went wrong at a step, and is not a value of the instrument. */
const mishap = z.strictObject({
  step: name,
  what: z.enum(["screw snapped", "screw stuck", "thread stripped", "wood or finish chipped", "something else"]),
  words: optional(words),
  at: optional(name),
});
const MOST_MISHAPS = 200;
const record = z.strictObject({
  /** Steps of the traveller done, by id. */
  done: optional(z.record(name, z.string().max(40))),
  overrides: optional(z.array(override).max(100)),
  printed: optional(printed),
  mishaps: optional(
    z
      .record(id, mishap)
      .refine((all) => Object.keys(all).length <= MOST_MISHAPS, `at most ${MOST_MISHAPS} mishaps a job`),
  ),
  /** By the SHA-256 of their bytes. */
  photographs: optional(
    z
      .record(z.string().regex(/^[0-9a-f]{64}$/, "a photograph is named by the SHA-256 of its bytes"), photograph)
      .refine((all) => Object.keys(all).length <= MOST_PHOTOGRAPHS, `at most ${MOST_PHOTOGRAPHS} photographs a job`),
  ),
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
export const SECTIONS = {
  job: header,
  instrument,
  parts: z.record(id, part),
  fit,
  wiring,
  readings: z.array(reading).max(5000),
  operations: z.array(operation).max(5000),
  settings,
  record,
} as const;

export type SectionName = keyof typeof SECTIONS;

/** The version of each section that this program reads and writes. */
export const VERSIONS: Readonly<Record<SectionName, number>> = {
  job: 1,
  instrument: 1,
  parts: 1,
  fit: 1,
  wiring: 1,
  readings: 1,
  operations: 1,
  settings: 1,
  record: 1,
};

export const jobFileSchema = z.strictObject({
  /** Version of each section present. */
  fettle: z.record(z.string().max(60), z.number().int().min(1).max(10_000)),
  job: optional(SECTIONS.job),
  instrument: SECTIONS.instrument,
  parts: optional(SECTIONS.parts),
  fit: optional(SECTIONS.fit),
  wiring: optional(SECTIONS.wiring),
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
