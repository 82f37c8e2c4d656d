/** From a job file's parts, fit and wiring to the wiring as the sums see it. */
import {
  type ContactMap,
  fiveDetentLever,
  leafToggle,
  lever,
  pushPull,
  requireContactMap,
  type Taper,
  toggle,
} from "../circuit/index.ts";
import { InputError } from "../errors.ts";
import { type Quantity, unknown } from "../quantity/index.ts";
import type { WiredComponent, WiredDevice, WiredPair, WiredTrack, WiredWire, Wiring } from "./instrument-wiring.ts";
import { partOf } from "./resolve-fittings.ts";
import { resolveStates } from "./resolve-wiring-states.ts";
import type { FilePart, JobFile } from "./schema.ts";
import type { Taker } from "./taker.ts";
import { readWire } from "./wire-words.ts";

type FileWiring = NonNullable<JobFile["wiring"]>;
type Pot = Extract<FilePart, { kind: "pot" }>;
type Part<K extends FilePart["kind"]> = Extract<FilePart, { kind: K }>;

/** Share of an audio track at half turn, unless the pot was read. Common practice, no source. */
const AUDIO_AT_HALF = 0.1;
/** 5 m of cable at 100 pF a metre, into 1 MΩ (docs/sources.md, cables and inputs). */
const CABLE_FARADS = 500e-12;
const INPUT_OHMS = 1e6;
const ROOM_CELSIUS = 20;

/** Lugs and what belongs to them, gathered device by device. */
interface Gathered {
  readonly devices: WiredDevice[];
  readonly coils: Wiring["coils"][number][];
  readonly pairs: WiredPair[];
  readonly tracks: WiredTrack[];
  readonly switches: { id: string; map: ContactMap }[];
  readonly inside: (readonly [string, string])[];
  readonly metal: Wiring["metal"][number][];
}

/** @throws InputError naming the device, lug or wire that is wrong */
export function resolveWiring(file: JobFile, taker: Taker): Wiring | undefined {
  const source = file.wiring;
  if (source === undefined) return undefined;
  const all: Gathered = { devices: [], coils: [], pairs: [], tracks: [], switches: [], inside: [], metal: [] };
  for (const [id, fit] of Object.entries(file.fit?.pickups ?? {})) {
    const part = partOf(file.parts, fit.part, "pickup", `fit.pickups.${id}.part`);
    const strings = fit.strings ?? Array.from({ length: file.instrument.strings }, (_, index) => index + 1);
    addPickup(all, { id, part, path: `parts.${fit.part}`, chosen: fit.coils, strings }, taker);
  }
  for (const [id, fit] of Object.entries(file.fit?.controls ?? {})) {
    const part = file.parts?.[fit.part];
    if (part) addControl(all, id, part, `parts.${fit.part}`, fit.rises ?? "clockwise", taker);
  }
  const components = addOthers(all, source, taker);
  const lugs = lugsOf(all.devices);
  const strays: Stray[] = [];
  const wires = wiresOf(source, lugs, taker, strays);
  const states = resolveStates(source, all, taker, strays);
  return {
    ...all,
    components: components.filter(({ leads }) => leads.every((lug) => lugs.has(lug))),
    wires,
    strays,
    jack: source.jack?.kind ?? "mono",
    cable: taker.take(source.output?.cable, "wiring.output.cable", {
      kind: "capacitance",
      assume: { value: CABLE_FARADS, u: CABLE_FARADS / 4, why: "5 m at 100 pF a metre, common practice" },
    }),
    input: taker.take(source.output?.input, "wiring.output.input", {
      kind: "resistance",
      assume: { value: INPUT_OHMS, u: 0, why: "amplifier input, common practice" },
    }),
    temperature: taker.take(source.temperature, "wiring.temperature", {
      kind: "temperature",
      assume: { value: ROOM_CELSIUS, u: 3, why: "a room, common practice" },
    }),
    widths: widthsOf(file, taker),
    humAgainst: humAgainst(source, all),
    states,
    places: Object.fromEntries(
      Object.entries(source.places ?? {}).map(([id, { right, up, turn }]) => {
        if (!all.devices.some((device) => device.id === id)) strays.push({ where: `wiring.places.${id}`, lug: id });
        const here = `wiring.places.${id}`;
        return [
          id,
          {
            right: taker.take(right, `${here}.right`, { decided: true }),
            up: taker.take(up, `${here}.up`, { decided: true }),
            turn: taker.take(turn, `${here}.turn`, {
              kind: "angle",
              decided: true,
              assume: { value: 0, u: 0, why: "as it lies" },
            }),
          },
        ];
      }),
    ),
  };
}

function widthsOf(file: JobFile, taker: Taker): Record<string, Quantity> {
  const widths: Record<string, Quantity> = {};
  for (const [id, fit] of Object.entries(file.fit?.controls ?? {})) {
    const part = file.parts?.[fit.part];
    if (part?.kind === "lever") widths[id] = taker.take(part.width, `parts.${fit.part}.width`);
  }
  return widths;
}

function humAgainst({ humAgainst: said }: FileWiring, { coils }: Gathered): string {
  if (said === undefined) return "";
  if (!coils.some(({ id }) => id === said))
    throw new InputError(
      "wiring.humAgainst",
      `"${said}" is not a coil of this wiring`,
      `Its coils are ${coils.map(({ id }) => id).join(", ")}`,
    );
  return said;
}

function lugsOf(devices: readonly WiredDevice[]): ReadonlySet<string> {
  const seen = new Set<string>();
  for (const { id } of devices) {
    if (seen.has(id))
      throw new InputError(
        `wiring, ${id}`,
        "is the name of two devices: their lugs could not be told apart",
        "Rename the pickup, the control or the component",
      );
    seen.add(id);
  }
  return new Set(devices.flatMap(({ id, lugs }) => lugs.map((lug) => `${id}.${lug}`)));
}

interface Standing {
  readonly id: string;
  readonly part: Part<"pickup">;
  readonly path: string;
  /** Coils of the part that stand here; all of them where nothing is said. */
  readonly chosen: readonly string[] | undefined;
  readonly strings: readonly number[];
}

function addPickup(all: Gathered, { id, part, path, chosen, strings }: Standing, taker: Taker): void {
  const entries = Object.entries(part.coils ?? {}).filter(([key]) => chosen?.includes(key) ?? true);
  const missing = chosen?.find((key) => !(key in (part.coils ?? {})));
  if (missing !== undefined)
    throw new InputError(`fit.pickups.${id}.coils`, `"${missing}" is not a coil of ${path}`, `Add it to ${path}.coils`);
  const name = part.name ?? id;
  const lugs = new Set<string>();
  for (const [key, coil] of entries) {
    const here = `${path}.coils.${key}`;
    const take = (raw: Parameters<Taker["take"]>[0], field: string, kind: Quantity["kind"], assumed?: number) =>
      taker.take(raw, `${here}.${field}`, {
        kind,
        ...(assumed === undefined ? {} : { assume: { value: assumed, u: 0, why: "equal coils" } }),
      });
    lugs.add(coil.start).add(coil.finish);
    all.coils.push({
      id: entries.length === 1 ? id : `${id}.${key}`,
      pickup: id,
      name: coil.name ?? (entries.length === 1 ? name : `${name} ${key.toUpperCase()}`),
      strings,
      start: `${id}.${coil.start}`,
      finish: `${id}.${coil.finish}`,
      ohms: take(coil.ohms, "ohms", "resistance"),
      henries: take(coil.inductance, "inductance", "inductance"),
      farads: take(coil.capacitance, "capacitance", "capacitance"),
      eddyOhms: take(coil.eddyLoss, "eddyLoss", "resistance"),
      turnArea: take(coil.turnArea, "turnArea", "ratio", 1),
      loudness: take(coil.loudness, "loudness", "ratio", 1),
      ...signsOf(coil, here),
    });
  }
  const [first, second] = all.coils.slice(-entries.length);
  if (part.pair && first && second && entries.length === 2)
    all.pairs.push({
      coils: [first.id, second.id],
      pickup: id,
      henries: taker.take(part.pair.inductance, `${path}.pair.inductance`, { kind: "inductance" }),
      farads: taker.take(part.pair.capacitance, `${path}.pair.capacitance`, { kind: "capacitance" }),
      arrangement: part.pair.arrangement ?? "side by side",
    });
  for (const [what, joined] of Object.entries(part.metal ?? {})) {
    if (joined === undefined) continue;
    lugs.add(joined);
    all.metal.push({
      lug: `${id}.${joined}`,
      what: what as "cover" | "base plate" | "bare lead",
      name: `${what} of ${name}`,
    });
  }
  if (lugs.size > 0) all.devices.push({ id, kind: "pickup", name, lugs: [...lugs] });
}

/** Winding, magnet and kick are three names of two facts. @throws InputError where they contradict one another */
function signsOf(
  coil: NonNullable<Part<"pickup">["coils"]>[string],
  here: string,
): { readonly winding?: 1 | -1; readonly kick?: 1 | -1 | 0 } {
  const magnet = coil.magnet === undefined ? undefined : { "north up": 1, "south up": -1, none: 0 }[coil.magnet];
  const stated = coil.kick === undefined ? undefined : { "+": 1, "-": -1, none: 0 }[coil.kick];
  const winding = coil.winding ?? (magnet && stated ? (magnet * stated > 0 ? 1 : -1) : undefined);
  const reckoned = magnet === 0 ? 0 : winding === undefined || magnet === undefined ? undefined : winding * magnet;
  if (stated !== undefined && reckoned !== undefined && stated !== reckoned)
    throw new InputError(
      `${here}.kick`,
      `is ${coil.kick}, but winding and magnet make it ${reckoned > 0 ? "+" : reckoned < 0 ? "-" : "none"}`,
      "Take the kick again, red probe on the finish; then correct the magnet (compass) or the winding",
    );
  const kick = (stated ?? reckoned) as 1 | -1 | 0 | undefined;
  return { ...(winding === undefined ? {} : { winding }), ...(kick === undefined ? {} : { kick }) };
}

function addControl(
  all: Gathered,
  id: string,
  part: FilePart,
  path: string,
  rises: WiredTrack["rises"],
  taker: Taker,
): void {
  if (part.kind !== "pot" && part.kind !== "lever" && part.kind !== "switch") return;
  const lugs: string[] = [];
  if (part.kind === "pot") {
    const ranks = part.stacked ? ["upper-", "lower-"] : [""];
    ranks.forEach((rank, index) => {
      lugs.push(`${rank}1`, `${rank}2`, `${rank}3`);
      all.tracks.push(trackOf(id, rank, part, index, path, rises, taker));
    });
    lugs.push("case");
    all.metal.push({ lug: `${id}.case`, what: "case", name: `case of ${id}` });
  }
  if (part.contacts) {
    const map = mapOf(part.contacts, `${path}.contacts`);
    all.switches.push({ id, map });
    lugs.push(...map.lugs);
  }
  if (lugs.length > 0)
    all.devices.push({
      id,
      kind: part.kind !== "pot" ? "switch" : part.stacked ? "stacked pot" : "pot",
      name: part.name ?? id,
      lugs,
    });
}

function trackOf(
  id: string,
  rank: string,
  part: Pot,
  index: number,
  path: string,
  rises: WiredTrack["rises"],
  taker: Taker,
): WiredTrack {
  const own = part.tracks?.[index];
  const here = own === undefined ? path : `${path}.tracks[${index}]`;
  const ohms = taker.take(own?.ohms ?? part.ohms, own?.ohms === undefined ? `${path}.ohms` : `${here}.ohms`, {
    kind: "resistance",
  });
  const half = taker.take(part.ohmsAtHalfTurn, `${path}.ohmsAtHalfTurn`, { kind: "resistance" });
  return {
    id: rank === "" ? id : `${id}-${rank.slice(0, -1)}`,
    control: id,
    low: `${id}.${rank}1`,
    wiper: `${id}.${rank}2`,
    high: `${id}.${rank}3`,
    ohms,
    taper: taperOf(own?.taper ?? part.taper ?? "linear", ohms, half),
    noLoad: part.noLoad ?? false,
    rises,
  };
}

function taperOf(kind: Taper["kind"], ohms: Quantity, half: Quantity): Taper {
  if (kind === "linear") return { kind };
  const share = ohms.known && half.known && ohms.value > 0 ? half.value / ohms.value : undefined;
  // A reading that cannot be is told of where the pot is asked about; here it is no reason to refuse the job.
  if (share === undefined || !(share > 0 && share < 1)) return { kind, atHalf: AUDIO_AT_HALF };
  return { kind, atHalf: kind === "audio" ? share : 1 - share };
}

type Contacts = NonNullable<Pot["contacts"]>;

function mapOf(contacts: Contacts, where: string): ContactMap {
  const timing =
    contacts.makeBeforeBreak === undefined
      ? "not known"
      : contacts.makeBeforeBreak
        ? "make before break"
        : "break before make";
  if ("kind" in contacts) return { ...mapOfKind(contacts, where), timing };
  const positions = Object.entries(contacts.positions).map(([name, joined]) => ({ name, joined }));
  try {
    return requireContactMap({ lugs: contacts.lugs, positions, timing });
  } catch (error) {
    throw error instanceof InputError ? error.within(where) : error;
  }
}

function mapOfKind(contacts: Extract<Contacts, { kind: string }>, where: string): ContactMap {
  const { kind, poles, throws } = contacts;
  switch (kind) {
    case "one throw a position":
      if (throws === undefined) throw new InputError(`${where}.throws`, "is missing", "Count the throws of one pole");
      return lever({ poles, throws });
    case "neighbours bridged between":
      return fiveDetentLever(poles);
    case "two-pickup toggle":
      return leafToggle();
    case "push-pull, down joins 1":
      return pushPull(1);
    case "push-pull, down joins 2":
      return pushPull(2);
    default:
      return toggle({ kind, poles });
  }
}

const JACK_LUGS = {
  mono: ["tip", "sleeve"],
  stereo: ["tip", "ring", "sleeve"],
  switched: ["tip", "tip-switch", "sleeve"],
} as const;

function addOthers(all: Gathered, source: FileWiring, taker: Taker): WiredComponent[] {
  all.devices.push({ id: "jack", kind: "jack", name: "jack", lugs: JACK_LUGS[source.jack?.kind ?? "mono"] });
  for (const [id, what] of Object.entries(source.metal ?? {})) {
    all.devices.push({ id, kind: "metal", name: id.replaceAll("-", " "), lugs: ["lug"] });
    all.metal.push({ lug: `${id}.lug`, what: what === "plate" ? "case" : what, name: id.replaceAll("-", " ") });
  }
  for (const id of source.batteries ?? []) all.devices.push({ id, kind: "battery", name: id, lugs: ["plus", "minus"] });
  return Object.entries(source.components ?? {}).map(([id, one]): WiredComponent => {
    const here = `wiring.components.${id}`;
    if ((one.capacitance === undefined) === (one.resistance === undefined))
      throw new InputError(here, "must have a capacitance or a resistance, one of the two", "Read the code on it");
    all.devices.push({ id, kind: "component", name: id.replaceAll("-", " "), lugs: ["a", "b"] });
    const kind = one.capacitance === undefined ? "resistor" : "capacitor";
    return {
      id,
      kind,
      value:
        kind === "capacitor"
          ? taker.take(one.capacitance, `${here}.capacitance`, { kind: "capacitance" })
          : taker.take(one.resistance, `${here}.resistance`, { kind: "resistance" }),
      leads: one.leads,
    };
  });
}

function wiresOf(source: FileWiring, lugs: ReadonlySet<string>, taker: Taker, strays: Stray[]): WiredWire[] {
  const leads = Object.entries(source.components ?? {}).flatMap(([id, { leads }]): WiredWire[] =>
    leads.flatMap((to, index) => {
      if (!isThere(to, `wiring.components.${id}.leads`, lugs, strays)) return [];
      const lead = index === 0 ? "a" : "b";
      const length = unknown(`wiring.components.${id}.length`, "length");
      return [{ id: `${id}-${lead}`, from: `${id}.${lead}`, to, colour: "own lead", length }];
    }),
  );
  const wires = Object.entries(source.wires ?? {}).flatMap(([id, raw]): WiredWire[] => {
    const here = `wiring.wires.${id}`;
    const { from, to, colour, length } = typeof raw === "string" ? readWire(raw, here) : raw;
    if (from === to) throw new InputError(here, `joins ${from} with itself`, "Name two lugs");
    const both = [from, to].map((lug) => isThere(lug, here, lugs, strays));
    const cut = taker.take(length, `${here}.length`, { decided: true });
    return both.every(Boolean) ? [{ id, from, to, colour: colour ?? "", length: cut }] : [];
  });
  return [...wires, ...leads];
}

/** A device that was taken off leaves its wires hanging: they are told of, and left out of the sums. */
interface Stray {
  readonly where: string;
  readonly lug: string;
}

/**
 * @returns whether there is such a lug; false where its whole device is missing
 * @throws InputError for a lug that its device does not have
 */
function isThere(lug: string, where: string, lugs: ReadonlySet<string>, strays: Stray[]): boolean {
  if (lugs.has(lug)) return true;
  const device = lug.slice(0, lug.indexOf("."));
  const beside = [...lugs].filter((one) => one.startsWith(`${device}.`));
  if (beside.length === 0) {
    strays.push({ where, lug });
    return false;
  }
  throw new InputError(
    where,
    `"${lug}" is not a lug of the ${device}`,
    `It has ${beside.map((one) => one.slice(device.length + 1)).join(", ")}`,
  );
}
