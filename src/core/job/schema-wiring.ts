/** The wiring of a job file, and what parts say of their electrics. Lugs are written "device.lug". */
import { z } from "zod";
import { amount, id, name, optional, words } from "./schema-basics.ts";

/** The end of a conductor, or a lug, as its owner calls it: a colour, a number. */
export const lugName = z
  .string()
  .regex(/^[a-z0-9][a-z0-9/+-]{0,30}$/, "a lug or conductor is written in small letters, digits, / and -");
const lug = z
  .string()
  .regex(/^[a-z0-9][a-z0-9-]{0,60}\.[a-z0-9][a-z0-9/+-]{0,30}$/, "a lug is written as device.lug, e.g. volume.2");

/** Whether a job file takes this as the name of a lug or conductor. */
export function isLugName(text: string): boolean {
  return lugName.safeParse(text).success;
}

/** Whether a job file takes this as an id. */
export function isId(text: string): boolean {
  return id.safeParse(text).success;
}

const sign = z.union([z.literal(1), z.literal(-1)]);

const coil = z.strictObject({
  name: optional(name),
  ohms: optional(amount),
  inductance: optional(amount),
  capacitance: optional(amount),
  /** Loss by eddy currents, as a resistance across the coil. */
  eddyLoss: optional(amount),
  /** Turns times area against the other coils of the job. */
  turnArea: optional(amount),
  /** +1: a mains field makes the finish positive against the start. */
  winding: optional(sign),
  magnet: optional(z.enum(["north up", "south up", "none"])),
  /** Red probe on the finish, black on the start, steel lowered to the poles. */
  kick: optional(z.enum(["+", "-", "none"])),
  /** Against the other coils, for the same string. */
  loudness: optional(amount),
  start: lugName,
  finish: lugName,
});

/** Electrics of a pickup. */
export const pickupElectrics = {
  coils: optional(z.record(id, coil).refine((all) => Object.keys(all).length <= 8, "at most 8 coils a pickup")),
  /** Two coils joined in series as made. */
  pair: optional(
    z.strictObject({
      inductance: optional(amount),
      capacitance: optional(amount),
      arrangement: optional(z.enum(["side by side", "stacked"])),
    }),
  ),
  /** Metal of the pickup, and the conductor to which it is joined inside. */
  metal: optional(z.partialRecord(z.enum(["cover", "base plate", "bare lead"]), lugName)),
};

/** What a switch joins: a kind of the trade, or lug by lug as the meter shows. */
export const contacts = z.union([
  z.strictObject({
    kind: z.enum([
      "one throw a position",
      "neighbours bridged between",
      "on-on",
      "on-off-on",
      "on-on-on type 1",
      "on-on-on type 2",
      "on-both-on",
      "two-pickup toggle",
      "push-pull, down joins 1",
      "push-pull, down joins 2",
    ]),
    poles: z.number().int().min(1).max(8),
    throws: optional(z.number().int().min(1).max(12)),
    makeBeforeBreak: optional(z.boolean()),
  }),
  z.strictObject({
    lugs: z.array(lugName).min(2).max(64),
    positions: z
      .record(z.string().max(30), z.array(z.array(lugName).max(64)).max(32))
      .refine((all) => Object.keys(all).length <= 24, "at most 24 positions a switch"),
    makeBeforeBreak: optional(z.boolean()),
  }),
]);

const wire = z.union([
  z.string().max(200),
  z.strictObject({ from: lug, to: lug, colour: optional(name), length: optional(amount) }),
]);

const MOST_WIRES = 200;
const few = (all: object) => Object.keys(all).length <= MOST_WIRES;

export const wiring = z.strictObject({
  jack: optional(z.strictObject({ kind: z.enum(["mono", "stereo", "switched"]) })),
  /** What is plugged in: cable and amplifier. */
  output: optional(z.strictObject({ cable: optional(amount), input: optional(amount) })),
  /** Of the room in which ohms are read. */
  temperature: optional(amount),
  /** The coil against which hum is told, e.g. middle or bridge.a. */
  humAgainst: optional(z.string().max(120)),
  /** Capacitors and resistors, soldered with their own leads. */
  components: optional(
    z
      .record(
        id,
        z.strictObject({
          capacitance: optional(amount),
          resistance: optional(amount),
          leads: z.tuple([lug, lug]),
        }),
      )
      .refine(few, `at most ${MOST_WIRES}`),
  ),
  /** Ground wire to the bridge, foil: metal of the instrument that a wire reaches. */
  metal: optional(z.record(id, z.enum(["string ground", "shield", "plate"]))),
  batteries: optional(z.array(id).max(2)),
  wires: optional(z.record(id, wire).refine(few, `at most ${MOST_WIRES} wires`)),
  /** Where switches and knobs are to stand, and what is to sound then. */
  states: optional(
    z
      .record(
        id,
        z.strictObject({
          title: optional(name),
          switches: optional(z.record(id, z.union([z.string().max(30), z.number().int()]))),
          /** Of the way that a knob turns: 0 to 10. */
          knobs: optional(z.record(id, amount)),
          sound: optional(words),
          hum: optional(z.enum(["quiet", "partly quiet", "hums"])),
          /** What is heard there and not wanted. */
          complaint: optional(z.enum(["thin"])),
        }),
      )
      .refine((all) => Object.keys(all).length <= 64, "at most 64 states"),
  ),
  /** Seen from behind, from the middle of the control plate: right, up, and turned anticlockwise. */
  places: optional(z.record(id, z.strictObject({ right: amount, up: amount, turn: optional(amount) }))),
});
