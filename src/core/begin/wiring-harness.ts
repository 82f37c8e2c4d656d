/** The wiring of a job under way: pickups, pots and capacitors joined wire by wire between the jack's tip and ground. */
import type { Sound } from "../circuit/index.ts";
import type { JobFile } from "../job/index.ts";
import type { Sections } from "./draft.ts";

type FileWiring = NonNullable<JobFile["wiring"]>;
type FileParts = NonNullable<JobFile["parts"]>;
type FileCoil = NonNullable<Extract<FileParts[string], { kind: "pickup" }>["coils"]>[string];
type FileFit = NonNullable<JobFile["fit"]>;

/** Two ends of something: the one toward the tip, and the one toward ground. */
export interface Ends {
  readonly hot: string;
  readonly ground: string;
}

export interface Harness {
  pickup(id: string, name: string, coils: Readonly<Record<string, Omit<FileCoil, "start" | "finish">>>): void;
  /** Metal of a pickup, joined to an end of its only coil. */
  metal(pickup: string, what: "cover" | "base plate", end: "start" | "finish"): void;
  /** The two ends of a coil. */
  coil(pickup: string, coil: string): Ends;
  join(kind: "then" | "with", parts: readonly Ends[]): Ends;
  pot(id: string, name: string, ohms: string | undefined): void;
  component(id: string, capacitance: string, leads: readonly [string, string]): void;
  wire(from: string, to: string): void;
  /** The point that everything at ground is brought to. */
  readonly ground: string;
  sections(
    states: FileWiring["states"],
    more?: Pick<FileWiring, "temperature">,
  ): Pick<Sections, "parts" | "fit" | "wiring">;
}

/** @param star where the ground wires meet: a pot's case, or the sleeve where there is no pot */
export function createHarness(star: string): Harness {
  const parts: FileParts = {};
  const pickups: NonNullable<FileFit["pickups"]> = {};
  const controls: NonNullable<FileFit["controls"]> = {};
  const components: NonNullable<FileWiring["components"]> = {};
  const wires: Record<string, string> = {};
  const lonely = new Set<string>();
  const wire = (from: string, to: string): void => {
    if (from !== to) wires[`wire-${Object.keys(wires).length + 1}`] = `${from} to ${to}`;
  };
  if (star !== "jack.sleeve") wire(star, "jack.sleeve");
  wire("bridge-wire.lug", star);
  return {
    ground: star,
    pickup(id, name, coils) {
      const keys = Object.keys(coils);
      if (keys.length === 1) lonely.add(id);
      parts[`${id}-pickup`] = {
        kind: "pickup",
        name,
        coils: Object.fromEntries(keys.map((key) => [key, { ...coils[key], ...lugs(key, keys.length === 1) }])),
      };
      pickups[id] = { part: `${id}-pickup` };
    },
    metal(pickup, what, end) {
      const part = parts[`${pickup}-pickup`];
      if (part?.kind === "pickup") parts[`${pickup}-pickup`] = { ...part, metal: { ...part.metal, [what]: end } };
    },
    coil(pickup, key) {
      const { start, finish } = lugs(key, lonely.has(pickup));
      return { hot: `${pickup}.${finish}`, ground: `${pickup}.${start}` };
    },
    join(kind, all) {
      const [first = { hot: star, ground: star }] = all;
      for (const [index, next] of all.slice(1).entries()) {
        const before = all[index] ?? first;
        wire(kind === "then" ? before.ground : before.hot, next.hot);
        if (kind === "with") wire(before.ground, next.ground);
      }
      return { hot: first.hot, ground: (all.at(-1) ?? first).ground };
    },
    pot(id, name, ohms) {
      parts[`${id}-pot`] = { kind: "pot", name, taper: "audio", ...(ohms === undefined ? {} : { ohms }) };
      controls[id] = { part: `${id}-pot` };
      if (`${id}.case` !== star) wire(`${id}.case`, star);
    },
    component(id, capacitance, leads) {
      components[id] = { capacitance, leads: [...leads] };
    },
    wire,
    sections: (states, more = {}) => ({
      parts,
      fit: { pickups, ...(Object.keys(controls).length > 0 ? { controls } : {}) },
      wiring: {
        jack: { kind: "mono" },
        ...more,
        metal: { "bridge-wire": "string ground" },
        ...(Object.keys(components).length > 0 ? { components } : {}),
        wires,
        ...(states === undefined ? {} : { states }),
      },
    }),
  };
}

function lugs(coil: string, alone: boolean): Pick<FileCoil, "start" | "finish"> {
  return alone ? { start: "start", finish: "finish" } : { start: `${coil}-start`, finish: `${coil}-finish` };
}

/** Coils joined as a sound says. */
export function endsOf(sound: Sound, coilEnds: (coil: string) => Ends, harness: Harness): Ends {
  if (sound.kind === "coil") return coilEnds(sound.coil);
  return harness.join(
    sound.kind,
    sound.parts.map((part) => endsOf(part, coilEnds, harness)),
  );
}

/** Coils of a sound, in the order in which they stand in it. */
export function coilsIn(sound: Sound): string[] {
  return sound.kind === "coil" ? [sound.coil] : sound.parts.flatMap(coilsIn);
}
