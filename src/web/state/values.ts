/** Every value of the instrument as the sums see it, in groups, with where it came from and where it is written. */
import type { Job } from "../../core/index.ts";
import { type Json, pathOf } from "../../core/log/index.ts";
import { BASE_UNIT, type Kind, type Quantity, standardUncertainty } from "../../core/quantity/index.ts";
import { pathInWords } from "./differences.ts";

export interface ValueRow {
  readonly path: string;
  readonly words: string;
  readonly quantity: Quantity;
  /** Where the document writes it, if it does; with what is written there. */
  readonly written?: { readonly path: string; readonly value: Json };
}

export interface ValueGroup {
  readonly id: string;
  readonly title: string;
  readonly rows: readonly ValueRow[];
}

const TITLES: Readonly<Record<string, string>> = {
  neck: "Neck and nut",
  body: "Body, holes and routs",
  scaleLine: "Scale line",
  headstock: "Headstock",
  controls: "Places of the controls",
  strings: "Strings",
  spares: "Spare strings",
  oldStrings: "The old strings",
  oldNeck: "The old neck",
  shim: "Shim in the neck pocket",
  strapButtonX: "Strap button",
  record: "What was measured of the print",
  parts: "Parts",
  fit: "What goes where",
  settings: "Limits and ways of working",
};

export function valueGroups(job: Job, data: Readonly<Record<string, Json>>): ValueGroup[] {
  const found = new Map<string, Quantity>();
  collect(job.instrument, found, new Set());
  const groups = new Map<string, ValueRow[]>();
  for (const [path, quantity] of found) {
    const keys = keysOfSubject(path);
    const [first = "", ...rest] = keys;
    const part = first === "parts" ? partName(data, rest[0] ?? "") : undefined;
    const group = part === undefined ? (TITLES[first] ?? pathInWords([first])) : `Part: ${part}`;
    const words = pathInWords(part === undefined ? rest : rest.slice(1));
    const written = writtenAt(data, keys);
    const row = { path, words: words === "" ? pathInWords(keys) : words, quantity, ...(written ? { written } : {}) };
    groups.set(group, [...(groups.get(group) ?? []), row]);
  }
  return [...groups].map(([title, rows]) => ({ id: title.toLowerCase().replace(/[^a-z0-9]+/g, "-"), title, rows }));
}

function collect(value: unknown, found: Map<string, Quantity>, seen: Set<object>): void {
  if (typeof value !== "object" || value === null || seen.has(value)) return;
  seen.add(value);
  if (isQuantity(value)) {
    if (value.path !== "" && !found.has(value.path)) found.set(value.path, value);
    return;
  }
  for (const inner of Object.values(value)) collect(inner, found, seen);
}

function isQuantity(value: object): value is Quantity {
  return "known" in value && "path" in value && "kind" in value && typeof value.path === "string";
}

/** `neck.nutSlots[0]`: neck, nutSlots, 0. */
export function keysOfSubject(path: string): string[] {
  return path.split(/[.[\]]+/).filter((key) => key !== "");
}

function partName(data: Readonly<Record<string, Json>>, id: string): string {
  const part = (data.parts as Record<string, { readonly name?: string }> | undefined)?.[id];
  return part?.name ?? id;
}

const SECTIONS = ["parts", "fit", "settings"];

function writtenAt(data: Json, keys: readonly string[]): ValueRow["written"] {
  const inFile = SECTIONS.includes(keys[0] ?? "") ? keys : ["instrument", ...keys];
  let value: Json | undefined = data;
  for (const key of inFile) {
    // A figure of a plain list is written with its list.
    if (typeof value !== "object" || value === null || Array.isArray(value)) return undefined;
    value = (value as Readonly<Record<string, Json>>)[key];
  }
  if (typeof value !== "string" && typeof value !== "number") return undefined;
  return { path: pathOf(inFile), value };
}

const DIGITS: Partial<Readonly<Record<Kind, number>>> = { length: 2, cents: 1, angle: 2 };

/** Figure, unit and doubt as they are shown. */
export function shownOf(
  quantity: Quantity,
): { readonly value: number; readonly unit: string; readonly digits: number; readonly u?: number } | undefined {
  if (!quantity.known) return undefined;
  const u = standardUncertainty(quantity);
  const unit = BASE_UNIT[quantity.kind];
  return { value: quantity.value, unit, digits: DIGITS[quantity.kind] ?? 3, ...(u > 0 ? { u } : {}) };
}
