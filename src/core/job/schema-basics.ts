/** What every section of the job file is written with: amounts, words, ids, places. */
import { z } from "zod";

export const amount = z
  .union([z.number(), z.string().max(120)])
  .meta({ description: "A number with its unit, and in brackets the tool it was measured with: 44.5 mm (calliper)" });
export const words = z.string().max(2000);
export const name = z.string().max(120);
export const id = z
  .string()
  .regex(/^[a-z0-9][a-z0-9-]{0,60}$/, "an id is written in small letters, digits and hyphens");
export const amounts = z.array(amount).max(64);
export const optional = <T extends z.ZodType>(inner: T) => inner.optional();

export const point = { u: optional(amount), x: optional(amount), y: optional(amount) };

/** Round a post, or round the hole of an old tuner. */
export const tunerScrew = z.strictObject({
  distance: optional(amount),
  angle: optional(amount),
  diameter: optional(amount),
});
