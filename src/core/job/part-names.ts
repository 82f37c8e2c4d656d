/**
 * The part that an operation takes off or puts on, as the owner names it: by what it is, by the place it is fitted at,
 * by its id or by its name. The fold and what an act makes void know parts by what they are, so every way of naming
 * one part comes to the same word here, and a name that means no part is refused.
 */
import { InputError } from "../errors.ts";
import type { FilePart, JobFile } from "./schema.ts";

/** What may come off and go on without being described in the file. */
const WORDS = [
  "neck",
  "bridge",
  "tailpiece",
  "nut",
  "tuners",
  "strings",
  "electrics",
  "wiring",
  "pickups",
  "controls",
  "lever",
  "switch",
  "jack",
  "battery",
  "knobs",
  "strap buttons",
  "pickguard",
  "cover",
];

/** A part described, but fitted nowhere: an old one, or one kept as a spare. */
const BY_KIND: Readonly<Record<FilePart["kind"], (id: string) => string>> = {
  bridge: () => "bridge",
  tuners: () => "tuners",
  strings: () => "strings",
  lever: () => "lever",
  battery: () => "battery",
  knob: () => "knobs",
  "strap button": () => "strap buttons",
  pickup: (id) => `pickup.${id}`,
  pot: (id) => `control.${id}`,
  jack: (id) => `control.${id}`,
  switch: (id) => `control.${id}`,
};

/** @returns the word for a part as written. It throws InputError at `where` for a part that there is not */
export function partNames(file: JobFile): (written: string, where: string) => string {
  const known = new Map<string, Set<string>>();
  const add = (name: string | undefined, word: string): void => {
    if (name === undefined) return;
    const key = plain(name);
    known.set(key, (known.get(key) ?? new Set()).add(word));
  };
  const places = placesOf(file);
  const fitted = new Set(places.map(({ part }) => part));
  for (const { part, word, place } of places) {
    add(word, word);
    add(place, word);
    add(part, word);
    add(file.parts?.[part]?.name, word);
  }
  for (const [id, part] of Object.entries(file.parts ?? {})) {
    if (fitted.has(id)) continue;
    add(id, BY_KIND[part.kind](id));
    add(part.name, BY_KIND[part.kind](id));
  }
  add(file.instrument.neck?.name, "neck");
  add(file.instrument.oldNeck?.name, "neck");
  // What a thing is goes before a name: the pickup at the neck is not the neck.
  for (const word of WORDS) known.set(word, new Set([word]));

  return (written, where) => {
    const words = known.get(plain(written)) ?? known.get(plain(written).replace(/^(the )?((old|new) )?/, ""));
    if (!words) {
      const all = [...WORDS, ...places.map(({ word }) => word), ...Object.keys(file.parts ?? {})];
      throw new InputError(where, `there is no part "${written}"`, `Write one of: ${[...new Set(all)].join(", ")}`);
    }
    const [word = written, ...others] = words;
    if (others.length > 0)
      throw new InputError(where, `"${written}" is at ${[...words].join(", ")}`, "Write which of them");
    return word;
  };
}

interface FittedPlace {
  readonly part: string;
  readonly word: string;
  readonly place?: string;
}

function placesOf({ fit = {}, parts = {} }: JobFile): FittedPlace[] {
  const whole = (part: string | undefined, word: string): FittedPlace[] => (part === undefined ? [] : [{ part, word }]);
  const controls = Object.entries(fit.controls ?? {});
  const isLever = (part: string): boolean => parts[part]?.kind === "lever";
  return [
    ...whole(fit.bridge?.part, "bridge"),
    ...whole(fit.tuners?.part, "tuners"),
    ...whole(fit.strings?.part, "strings"),
    ...whole(fit.battery?.part, "battery"),
    ...Object.entries(fit.pickups ?? {}).map(([place, { part }]) => ({ part, word: `pickup.${place}`, place })),
    ...controls.map(([place, { part }]) => ({ part, word: isLever(part) ? "lever" : `control.${place}`, place })),
    ...controls.flatMap(([, { knob }]) => whole(knob, "knobs")),
    ...Object.values(fit.strapButtons ?? {}).flatMap(({ part }) => whole(part, "strap buttons")),
  ];
}

function plain(name: string): string {
  return name.trim().toLowerCase();
}
