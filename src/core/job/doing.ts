/** What the acts of work share: how they speak to the fold they stand in, and how they state and refuse figures. */
import { InputError } from "../errors.ts";
import { exact, type Known, type Quantity } from "../quantity/index.ts";
import type { Work } from "../verdict/index.ts";

export type Act<Name extends Work["act"]> = Extract<Work, { act: Name }>;

/** What an act may ask and tell of the fold it stands in. */
export interface Doing {
  readonly id: string;
  /** Done, with the figures as they came out; else planned. */
  readonly done: boolean;
  /** Only for plugs: the glue has had its time. */
  readonly cured: boolean;
  /** The act needs this thing as an earlier operation left it. */
  leanOn(thing: string): void;
  /** The act makes or changes this thing. */
  make(thing: string): void;
  /** The thing goes on under another name, as whoever made it left it. */
  rename(thing: string, as: string): void;
}

/**
 * A figure that an operation states: without doubt of its own, since readings of the place carry the doubt.
 *
 * @param path the value's own subject, e.g. "controls.volume.hole": a reading of it after the operation goes before
 */
export function made(value: number, path: string, doing: Doing): Known {
  return exact(value, path, "length", doing.done ? "measured" : "assumed");
}

/** A measured size plus what was taken off: its doubt stays. */
export function grown(size: Quantity, by: number, doing: Doing): Quantity {
  if (!size.known || by === 0) return size;
  return { ...size, value: size.value + by, origin: doing.done ? size.origin : "assumed", said: "" };
}

export function refuse(doing: Doing, field: string, problem: string, remedy: string): never {
  throw new InputError(`operations.${doing.id}.work.${field}`, problem, remedy);
}

export function requireSize(value: number, field: string, doing: Doing): number {
  if (!Number.isFinite(value) || value < 0)
    refuse(doing, field, `must be 0 mm or more, got ${value}`, "State the size in millimetres");
  return value;
}

/** For remedies: what there is to choose from. */
export function names(things: readonly { readonly id: string }[]): string {
  return things.length === 0 ? "none entered" : things.map((thing) => thing.id).join(", ");
}
