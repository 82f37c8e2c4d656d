/** Parts that a person adds to the job, new or out of the own jobs, and the place that each goes to. */
import { InputError } from "../../core/errors.ts";
import { type Change, createFold, type Json, mapKey, pathOf } from "../../core/log/index.ts";
import type { Desk } from "./desk.ts";
import { readingText, versionOf } from "./readings.ts";

type Data = Readonly<Record<string, Json>>;
type Mapping = { readonly [key: string]: Json };

export type PartKind = keyof typeof PART_KINDS;

/** Its name as a person says it, and the dimensions that the questions ask for, the first ones first. */
export const PART_KINDS = {
  pickup: {
    words: "pickup",
    sizes: {
      length: "Length, the long way",
      width: "Width, the short way",
      depth: "Depth below ring or guard",
      poleSpread: "Outer poles, middle to middle",
      poleDiameter: "Across one pole",
    },
  },
  pot: {
    words: "pot",
    sizes: {
      threadLength: "Length of the thread",
      threadDiameter: "Across the thread",
      depth: "Depth below the top",
      lugs: "Room for its bent lugs",
    },
  },
  jack: {
    words: "jack",
    sizes: {
      threadLength: "Length of the thread",
      threadDiameter: "Across the thread",
      depth: "Depth below the top",
      lugs: "Room for its bent lugs",
    },
  },
  tuners: {
    words: "set of tuners",
    sizes: { hole: "Hole they want", thinnest: "Thinnest headstock", thickest: "Thickest headstock" },
  },
} as const;

/** At the place in the instrument that a control goes to. */
export const CONTROL_SIZES = {
  hole: "Hole in the top",
  wood: "Wood at the hole",
  freeDepth: "Free depth below the top",
} as const;

export interface PartWanted {
  readonly kind: PartKind;
  readonly name: string;
  /** As typed; empty where not known. */
  readonly sizes: Readonly<Record<string, string>>;
  /** Where it goes: "neck", "tone". Tuners need none. */
  readonly place: string;
  /** Of a pickup: the rout that it drops into. */
  readonly cavity?: string;
  /** Of a control: what was measured at its place. */
  readonly at?: Readonly<Record<string, string>>;
  readonly tool: string;
  /** Taken over as it is, from another job. */
  readonly from?: Mapping;
}

/** @throws InputError where it has no name, or its place is taken */
export function partAdded(data: Data, wanted: PartWanted): Change[] {
  const { kind, name, sizes, tool } = wanted;
  const label = name.trim();
  if (label === "") throw new InputError("the part", "has no name", "Say what it is called, on the box or by you");
  const id = freeId(label, "part", keysAt(data, ["parts"]));
  const part = { ...(wanted.from ?? {}), kind, name: label, ...written(sizes, tool) };
  return [
    ...versionOf(data, "parts"),
    { path: pathOf(["parts", mapKey(id)]), value: part },
    ...placed(data, wanted, id),
  ];
}

function placed(data: Data, { kind, place, cavity, at = {}, tool }: PartWanted, part: string): Change[] {
  const fit = versionOf(data, "fit");
  if (kind === "tuners") return [...fit, { path: "/fit/tuners", value: { part } }];
  const section = kind === "pickup" ? "pickups" : "controls";
  const taken = keysAt(data, ["fit", section]);
  const where = plainId(place) || (kind === "pickup" ? (cavity ?? "") : kind);
  if (where === "") throw new InputError("the pickup", "has no place", "Say where it goes: neck, middle, bridge");
  if (taken.includes(where))
    throw new InputError(`“${place || where}”`, "has a part already", "Take that away first, or give another place");
  const goes = { part, ...(kind === "pickup" && cavity ? { cavity } : {}) };
  const read = written(at, tool);
  return [
    ...fit,
    { path: pathOf(["fit", section, mapKey(where)]), value: goes },
    ...(kind === "pickup" || Object.keys(read).length === 0
      ? []
      : [
          ...versionOf(data, "instrument"),
          ...Object.entries(read).map(([key, value]) => ({
            path: pathOf(["instrument", "controls", mapKey(where), mapKey(key)]),
            value,
          })),
        ]),
  ];
}

function written(sizes: Readonly<Record<string, string>>, tool: string): Record<string, string> {
  const said = Object.entries(sizes).filter(([, text]) => text.trim() !== "");
  return Object.fromEntries(said.map(([key, text]) => [key, readingText(text, tool, "mm")]));
}

export function cavitiesIn(data: Data): string[] {
  return keysAt(data, ["instrument", "body", "cavities"]);
}

export interface OwnPart {
  readonly kind: PartKind;
  readonly name: string;
  readonly part: Mapping;
  /** Title of the job that it is in. */
  readonly job: string;
}

/** So many jobs are looked through, those last worked on. */
const MOST_JOBS = 40;

/** The parts of all own jobs, each once: what was measured for one job is there for the next. */
export async function ownParts({ keeping: { keeper } }: Desk): Promise<OwnPart[]> {
  const { jobs } = await keeper.jobs({ limit: MOST_JOBS });
  const found = new Map<string, OwnPart>();
  for (const { id, title } of jobs) {
    const { data } = createFold(await keeper.entriesOf(id)).read();
    for (const part of Object.values(mappingAt(data, ["parts"]) ?? {})) {
      if (!isMapping(part) || typeof part.kind !== "string" || !(part.kind in PART_KINDS)) continue;
      const name = typeof part.name === "string" ? part.name : part.kind;
      found.set(JSON.stringify(part), { kind: part.kind as PartKind, name, part, job: title });
    }
  }
  return [...found.values()].sort((a, b) => (a.name < b.name ? -1 : 1));
}

function isMapping(value: unknown): value is Mapping {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function mappingAt(data: Data, keys: readonly string[]): Mapping | undefined {
  let value: unknown = data;
  for (const key of keys) value = isMapping(value) ? value[key] : undefined;
  return isMapping(value) ? value : undefined;
}

function keysAt(data: Data, keys: readonly string[]): string[] {
  return Object.keys(mappingAt(data, keys) ?? {});
}

/** Small letters, digits and hyphens. */
export function plainId(text: string): string {
  return text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 40);
}

/** One that is not there yet. */
export function freeId(text: string, fallback: string, taken: readonly string[]): string {
  const wanted = plainId(text) || fallback;
  let id = wanted;
  for (let number = 2; taken.includes(id); number += 1) id = `${wanted}-${number}`;
  return id;
}
