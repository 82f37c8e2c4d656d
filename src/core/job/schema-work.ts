/** Operations of a job file: work done, or undone by a later entry. */
import { z } from "zod";
import { id, name, optional, words } from "./schema-basics.ts";

const bodyPlace = { u: z.number(), y: z.number() };
const work = z.discriminatedUnion("act", [
  z.strictObject({
    act: z.literal("plug"),
    holes: z.array(
      z.union([
        name,
        z.strictObject({
          id: name,
          ...bodyPlace,
          diameter: z.number(),
          depth: z.union([z.literal("through"), z.number()]),
        }),
      ]),
    ),
    diameter: z.number(),
    cause: optional(words),
  }),
  z.strictObject({
    act: z.literal("drill"),
    group: id,
    holes: z.array(
      z.strictObject({ id: name, ...bodyPlace, diameter: z.number(), thread: optional(z.number()), depth: z.number() }),
    ),
    intoPlugs: optional(z.boolean()),
  }),
  z.strictObject({
    act: z.literal("rout"),
    cavity: id,
    what: optional(name),
    lengthBy: optional(z.number()),
    widthBy: optional(z.number()),
    depthBy: optional(z.number()),
  }),
  z.strictObject({
    act: z.literal("ream"),
    where: name,
    count: optional(z.number()),
    from: optional(z.number()),
    to: z.number(),
  }),
  z.strictObject({ act: z.literal("spot-face"), where: name, depth: z.number(), leaves: optional(z.number()) }),
  z.strictObject({
    act: z.literal("slot"),
    where: name,
    from: optional(z.number()),
    to: z.number(),
    screwOffset: optional(z.number()),
    cover: optional(words),
  }),
  z.strictObject({
    act: z.literal("shim"),
    thickness: z.number(),
    length: optional(z.number()),
    angleDegrees: optional(z.number()),
  }),
  z.strictObject({
    act: z.literal("nut slots"),
    widths: z.array(z.strictObject({ string: z.number().int(), from: optional(z.number()), to: z.number() })),
  }),
  z.strictObject({ act: z.literal("take off"), part: name }),
  z.strictObject({ act: z.literal("fit"), part: name }),
  z.strictObject({ act: z.literal("restring"), set: name }),
]);

export const operation = z.union([
  z.strictObject({ id, work, doneAt: optional(name), note: optional(words) }),
  z.strictObject({ id, undoes: id, at: optional(name) }),
]);
