/**
 * Sounds in words: `A with B` (parallel), `A then B` (series), `A flipped` (reversed), `one of A` (one coil of a pickup);
 * brackets group. A sound as a whole may be turned round: nobody hears that.
 */
import { InputError } from "../errors.ts";

export type Sound =
  | { readonly kind: "coil"; readonly coil: string; readonly flipped: boolean }
  | { readonly kind: "then" | "with"; readonly parts: readonly Sound[] };

/** What a wanted sound may name. */
export interface SoundNames {
  /** Coils of each pickup, by its id. */
  readonly pickups: ReadonlyMap<string, readonly string[]>;
  readonly coils: readonly string[];
}

/**
 * Reads a wanted sound. `one of` gives several sounds, any of which will do.
 *
 * @throws InputError saying which word cannot be read, and which names there are
 * @example
 * readSound("one of bridge with middle", names); // two sounds: bridge.a with middle, bridge.b with middle
 */
export function readSound(text: string, names: SoundNames, where: string): readonly Sound[] {
  const tokens = text.toLowerCase().match(/\(|\)|[^\s()]+/g) ?? [];
  let at = 0;
  const fail = (problem: string, remedy: string): never => {
    throw new InputError(where, `${problem} in "${text}"`, remedy);
  };
  const expression = (): readonly Sound[] => {
    let sounds = term();
    let joint: string | undefined;
    while (tokens[at] === "with" || tokens[at] === "then") {
      const word = tokens[at] as "with" | "then";
      if (joint !== undefined && joint !== word)
        fail('"with" and "then" stand side by side', "Put brackets round one of them");
      joint = word;
      at += 1;
      const more = term();
      sounds = sounds.flatMap((first) => more.map((second): Sound => join(word, first, second)));
    }
    return sounds;
  };
  const term = (): readonly Sound[] => {
    let sounds = atom();
    while (tokens[at] === "flipped") {
      at += 1;
      sounds = sounds.map(flip);
    }
    return sounds;
  };
  const atom = (): readonly Sound[] => {
    const token = tokens[at];
    at += 1;
    if (token === "(") {
      const inner = expression();
      if (tokens[at] !== ")") fail("a bracket is left open", "Close it");
      at += 1;
      return inner;
    }
    if (token === "one" && tokens[at] === "of") {
      at += 2;
      const coils = names.pickups.get(tokens[at - 1] ?? "");
      return coils?.map(coilSound) ?? fail(`"${tokens[at - 1] ?? ""}" is not a pickup`, pickupList(names));
    }
    return named(token) ?? fail(`"${token ?? "nothing"}" is no coil or pickup`, nameList(names));
  };
  const named = (token = ""): readonly Sound[] | undefined => {
    if (names.coils.includes(token)) return [coilSound(token)];
    const coils = names.pickups.get(token);
    return coils && [coils.map(coilSound).reduce((first, second) => join("then", first, second))];
  };
  const sounds = expression();
  if (at < tokens.length) fail(`"${tokens[at]}" cannot be read`, 'Join names by "with" or "then"');
  return sounds;
}

function coilSound(coil: string): Sound {
  return { kind: "coil", coil, flipped: false };
}

function nameList({ coils, pickups }: SoundNames): string {
  return `Name one of ${[...new Set([...pickups.keys(), ...coils])].join(", ")}`;
}

function pickupList({ pickups }: SoundNames): string {
  return `Name one of ${[...pickups.keys()].join(", ")}`;
}

/** Both in series or in parallel; a part of the same kind is taken into the list. */
export function join(kind: "then" | "with", first: Sound, second: Sound): Sound {
  const partsOf = (sound: Sound) => (sound.kind === kind ? sound.parts : [sound]);
  return { kind, parts: [...partsOf(first), ...partsOf(second)] };
}

export function flip(sound: Sound): Sound {
  if (sound.kind === "coil") return { ...sound, flipped: !sound.flipped };
  return { ...sound, parts: sound.parts.map(flip) };
}

/** One text for sounds that are alike: order does not count, nor the whole turned round. */
export function soundKey(sound: Sound): string {
  const keys = [keyOf(sound), keyOf(flip(sound))].sort();
  return keys[0] ?? "";
}

/** The same coils joined alike, whichever of them are flipped. */
export function unsignedKey(sound: Sound): string {
  return soundKey(unflipped(sound));
}

function unflipped(sound: Sound): Sound {
  if (sound.kind === "coil") return { ...sound, flipped: false };
  return { ...sound, parts: sound.parts.map(unflipped) };
}

/** Whether some of its coils run against others, whichever way the whole is turned. */
export function asksForReversal(sound: Sound): boolean {
  return flippedIn(sound) > 0 && flippedIn(flip(sound)) > 0;
}

function keyOf(sound: Sound): string {
  if (sound.kind === "coil") return `${sound.flipped ? "-" : "+"}${sound.coil}`;
  return `(${[...sound.parts.map(keyOf)].sort().join(` ${sound.kind} `)})`;
}

/** "Reef A then Reef B", with the fewest coils called flipped. */
export function soundInWords(sound: Sound, nameOf: (coil: string) => string): string {
  const turned = flip(sound);
  return wordsOf(flippedIn(turned) < flippedIn(sound) ? turned : sound, nameOf, false);
}

function flippedIn(sound: Sound): number {
  if (sound.kind === "coil") return sound.flipped ? 1 : 0;
  return sound.parts.reduce((sum, part) => sum + flippedIn(part), 0);
}

function wordsOf(sound: Sound, nameOf: (coil: string) => string, inner: boolean): string {
  if (sound.kind === "coil") return `${nameOf(sound.coil)}${sound.flipped ? " flipped" : ""}`;
  const words = sound.parts.map((part) => wordsOf(part, nameOf, true)).join(` ${sound.kind} `);
  return inner ? `(${words})` : words;
}

export function coilsOf(sound: Sound): string[] {
  return sound.kind === "coil" ? [sound.coil] : sound.parts.flatMap(coilsOf);
}
