/** Parts of a job file, each in its own frame: a part is the same part on any instrument. */
import { z } from "zod";
import { amount, amounts, name, optional, tunerScrew, words } from "./schema-basics.ts";
import { contacts, pickupElectrics } from "./schema-wiring.ts";

/** Saddles are named by the strings over them, or by their own places across (q): then the part fits either hand. */
const saddle = z.strictObject({
  strings: optional(z.union([z.number().int(), z.array(z.number().int()).max(9)])),
  q: optional(z.union([amount, amounts])),
  from: optional(amount),
  to: optional(amount),
  /** One saddle carries all the strings named: they cannot be set apart. */
  shared: optional(z.boolean()),
});
const partHoles = z.strictObject({
  p: optional(amount),
  q: optional(z.union([amount, amounts])),
  thread: optional(amount),
  pilot: optional(amount),
  /** Across the screw at the bottom of its thread, where somebody measured it. */
  core: optional(amount),
  depth: optional(amount),
  diameter: optional(amount),
});

const bridgePiece = {
  length: optional(amount),
  width: optional(amount),
  pitch: optional(amount),
  saddleQ: optional(amounts),
  saddles: optional(z.array(saddle).max(9)),
  screws: optional(z.array(partHoles).max(32)),
  stringHoles: optional(z.array(partHoles).max(32)),
};

const taper = z.enum(["audio", "linear", "reverse audio"]);

export const part = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("bridge"),
    name: optional(name),
    type: z.enum(["flat plate", "single units", "two posts"]),
    ...bridgePiece,
    lowest: optional(amount),
    highest: optional(amount),
    turnedRound: optional(amount),
    coated: optional(z.boolean()),
    /** Thread of the posts, e.g. M8x1.25 or 5/16-24. */
    postThread: optional(name),
    topAnchor: optional(z.strictObject({ p: optional(amount), z: optional(amount) })),
    throughAnchor: optional(z.strictObject({ p: optional(amount), z: optional(amount), down: optional(amount) })),
    heightScrewPitch: optional(amount),
    mass: optional(amount),
    tailpiece: optional(
      z.strictObject({
        length: optional(amount),
        width: optional(amount),
        distance: optional(amount),
        screws: optional(z.array(partHoles).max(8)),
      }),
    ),
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
    ...pickupElectrics,
  }),
  z.strictObject({
    kind: z.literal("pot"),
    name: optional(name),
    stacked: optional(z.boolean()),
    threadLength: optional(amount),
    threadDiameter: optional(amount),
    depth: optional(amount),
    lugs: optional(amount),
    shafts: optional(
      z
        .array(
          z.strictObject({
            diameter: optional(amount),
            kind: optional(z.enum(["solid", "split"])),
            splines: optional(amount),
          }),
        )
        .max(2),
    ),
    taper: optional(taper),
    /** Of a stacked pot, upper first, where the two differ. */
    tracks: optional(z.array(z.strictObject({ ohms: optional(amount), taper: optional(taper) })).max(2)),
    /** The wiper leaves the track at the clockwise end. */
    noLoad: optional(z.boolean()),
    /** Of the switch that its shaft works. */
    contacts: optional(contacts),
    /** Between the outer lugs. */
    ohms: optional(amount),
    /** At half turn, from the lug that shows next to nothing fully anticlockwise: tells the taper if it is not named. */
    ohmsAtHalfTurn: optional(amount),
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
    contacts: optional(contacts),
  }),
  z.strictObject({
    kind: z.literal("switch"),
    name: optional(name),
    threadLength: optional(amount),
    threadDiameter: optional(amount),
    depth: optional(amount),
    lugs: optional(amount),
    contacts: optional(contacts),
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
    strings: optional(
      z.record(
        z.string().regex(/^[1-9]$/),
        z.lazy(() => stringPart),
      ),
    ),
    spares: optional(
      z.record(
        z.string().regex(/^[1-9]$/),
        z.lazy(() => stringPart),
      ),
    ),
  }),
  z.strictObject({
    kind: z.literal("strap button"),
    name: optional(name),
    screwGauge: optional(amount),
    screwLength: optional(amount),
  }),
  z.strictObject({
    kind: z.literal("battery"),
    name: optional(name),
    length: optional(amount),
    width: optional(amount),
    thickness: optional(amount),
  }),
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
