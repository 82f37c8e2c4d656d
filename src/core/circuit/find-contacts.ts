/**
 * Which lugs of a switch in the hand are joined, found by a meter that beeps, with few readings.
 *
 * Model: joined is transitive: a to b and b to c joined makes a to c joined; a to b joined and b to c open makes a to c
 * open. A pair that follows from others is never asked. Of the pairs that are left, the one that is likely to settle
 * most comes first: lugs that were joined often elsewhere, and lugs of one pole, are likelier to be joined.
 * No search can do with less than one open reading for each pair of groups and one closed for each lug that joins a
 * group; what is more than that is the price of not knowing which.
 * Left out: contacts that touch now and then; more than two probes. The chances are a guess that only orders the
 * readings: whatever they are, the answer is the same.
 * Source: union and find (textbook, from memory); the order of readings is our own.
 */
import { InputError } from "../errors.ts";
import { type ContactMap, chainBetween, pairsOf, requireNames } from "./contact-map.ts";

export interface ContactReading {
  readonly position: string;
  readonly a: string;
  readonly b: string;
  /** The meter beeped. */
  readonly closed: boolean;
}

export interface ContactSearch {
  readonly lugs: readonly string[];
  readonly positions: readonly string[];
  /** In the order taken. A pair read again in the same position replaces what was read before. */
  readonly readings: readonly ContactReading[];
  /**
   * Lugs of each pole, where they can be seen: lugs of two poles are taken as open and are not asked, until a reading
   * joins the two poles. Saves many readings; what it takes for granted is not read.
   */
  readonly poles?: readonly (readonly string[])[];
  readonly timing?: ContactMap["timing"];
}

type LugPair = readonly [string, string];

export interface PositionFound {
  readonly name: string;
  readonly joined: readonly (readonly string[])[];
  /** Pairs that are open by a reading, by what follows from readings, or by the poles. */
  readonly open: readonly LugPair[];
  readonly unknown: readonly LugPair[];
}

export interface ContactContradiction {
  readonly position: string;
  /** The pair that was read open although the others join it. */
  readonly open: LugPair;
  /** The closed readings that join it, end to end. */
  readonly chain: readonly LugPair[];
  readonly words: string;
}

export interface ContactsFound {
  readonly positions: readonly PositionFound[];
  readonly contradictions: readonly ContactContradiction[];
  /** What to read next: of a contradiction, the reading that was taken longest ago. Missing when all is known. */
  readonly next?: { readonly position: string; readonly a: string; readonly b: string; readonly words: string };
  /** How many readings are left if every one of them is open, the worst that can come. */
  readonly mostReadingsLeft: number;
  /** What was taken for granted and turned out wrong. */
  readonly notes: readonly string[];
  /** The whole map, once everything is known and nothing contradicts. */
  readonly map?: ContactMap;
}

/** What is known of one position. */
interface Knowledge {
  readonly name: string;
  readonly groups: readonly (readonly string[])[];
  /** Whether two groups, by their places in `groups`, are known to be apart. */
  readonly apart: (one: number, other: number) => boolean;
}

/**
 * What the readings so far say of a switch, and which pair to read next.
 *
 * @throws InputError if a name is missing or stands twice, or a reading names what is not there
 * @example
 * const readings = [{ position: "up", a: "a", b: "b", closed: true }];
 * findContacts({ lugs: ["a", "b", "c"], positions: ["up"], readings });
 * // next: a and c in position up; one reading left at most, since b and c follows
 */
export function findContacts(search: ContactSearch): ContactsFound {
  const readings = requireSearch(search);
  const { poles, notes } = polesThatHold(search, readings);
  const known = search.positions.map((name) => knowledgeOf(name, search.lugs, readings, poles));
  const contradictions = search.positions.flatMap((name) => contradictionsOf(name, readings));
  const unknownCounts = known.map((one) => unknownGroupPairs(one).length);
  const mostReadingsLeft = unknownCounts.reduce((sum, count) => sum + count, 0);
  const next = contradictions[0] ? readAgain(contradictions[0], readings) : nextUnknown(known, search.lugs);
  const found = { positions: known.map((one) => inLugs(one)), contradictions, mostReadingsLeft, notes };
  if (next) return { ...found, next };
  const positions = known.map(({ name, groups }) => ({ name, joined: groups.filter(({ length }) => length > 1) }));
  return { ...found, map: { lugs: search.lugs, positions, timing: search.timing ?? "not known" } };
}

/** The readings that count, in their order; of a pair read twice, the last. */
function requireSearch({ lugs, positions, readings, poles = [] }: ContactSearch): ContactReading[] {
  requireNames(lugs, "lugs", "Name each lug of the switch once");
  requireNames(positions, "positions", "Name each position of the switch once");
  poles.flat().forEach((lug, index, all) => {
    if (!lugs.includes(lug)) throw new InputError("poles", `there is no lug "${lug}"`, `Use ${lugs.join(", ")}`);
    if (all.indexOf(lug) !== index) throw new InputError("poles", `"${lug}" stands twice`, "Put it into one pole");
  });
  const last = new Map<string, ContactReading>();
  readings.forEach((reading, index) => {
    const { position, a, b } = reading;
    const where = `readings[${index}]`;
    if (!positions.includes(position)) {
      throw new InputError(`${where}.position`, `there is no "${position}"`, `Use one of ${positions.join(", ")}`);
    }
    for (const [key, lug] of [["a", a] as const, ["b", b] as const]) {
      if (!lugs.includes(lug)) {
        throw new InputError(`${where}.${key}`, `there is no lug "${lug}"`, `Use one of ${lugs.join(", ")}`);
      }
    }
    if (a === b) throw new InputError(where, `both probes on "${a}"`, "Put the probes on two lugs");
    const key = JSON.stringify([position, ...[a, b].sort()]);
    last.delete(key);
    last.set(key, reading);
  });
  return [...last.values()];
}

/** Poles as given, but those that a closed reading joins are one. */
function polesThatHold(
  { poles = [] }: ContactSearch,
  readings: readonly ContactReading[],
): { readonly poles: readonly (readonly string[])[]; readonly notes: readonly string[] } {
  let held: (readonly string[])[] = [...poles];
  const notes: string[] = [];
  for (const { position, a, b, closed } of readings) {
    const one = held.find((pole) => pole.includes(a));
    const other = held.find((pole) => pole.includes(b));
    if (!closed || !one || !other || one === other) continue;
    held = [...held.filter((pole) => pole !== one && pole !== other), [...one, ...other]];
    notes.push(`${a} and ${b} are joined in position ${position}, so their poles are not apart: both are read as one.`);
  }
  return { poles: held, notes };
}

function knowledgeOf(
  name: string,
  lugs: readonly string[],
  readings: readonly ContactReading[],
  poles: readonly (readonly string[])[],
): Knowledge {
  const here = readings.filter(({ position }) => position === name);
  const inOrder = (group: readonly string[]) => lugs.filter((lug) => group.includes(lug));
  let groups: (readonly string[])[] = lugs.map((lug) => [lug]);
  for (const { a, b, closed } of here) {
    const one = groups.find((group) => group.includes(a));
    const other = groups.find((group) => group.includes(b));
    if (!closed || !one || !other || one === other) continue;
    groups = groups.flatMap((group) =>
      group === one ? [inOrder([...one, ...other])] : group === other ? [] : [group],
    );
  }
  const placeOf = new Map(groups.flatMap((group, place) => group.map((lug) => [lug, place] as const)));
  const apart = new Set<string>();
  const setApart = (a: string, b: string) => {
    apart.add(`${placeOf.get(a)} ${placeOf.get(b)}`);
    apart.add(`${placeOf.get(b)} ${placeOf.get(a)}`);
  };
  for (const { a, b, closed } of here) if (!closed) setApart(a, b);
  for (const [one, other] of pairsOf(poles)) for (const a of one) for (const b of other) setApart(a, b);
  return { name, groups, apart: (one, other) => apart.has(`${one} ${other}`) };
}

/** Pairs of groups, by their places, of which nothing is known. */
function unknownGroupPairs({ groups, apart }: Knowledge): (readonly [number, number])[] {
  return pairsOf(groups.map((_, place) => place)).filter(([one, other]) => !apart(one, other));
}

function inLugs({ name, groups, apart }: Knowledge): PositionFound {
  const open: LugPair[] = [];
  const unknown: LugPair[] = [];
  for (const [one, other] of pairsOf(groups.map((_, place) => place))) {
    const pairs = (groups[one] ?? []).flatMap((a) => (groups[other] ?? []).map((b) => [a, b] as const));
    (apart(one, other) ? open : unknown).push(...pairs);
  }
  return { name, joined: groups.filter(({ length }) => length > 1), open, unknown };
}

function contradictionsOf(position: string, readings: readonly ContactReading[]): ContactContradiction[] {
  const here = readings.filter((reading) => reading.position === position);
  const closed = here.filter((reading) => reading.closed).map(({ a, b }) => [a, b] as const);
  return here.flatMap(({ a, b, closed: beeps }) => {
    const chain = beeps ? undefined : chainBetween(a, b, closed);
    if (!chain) return [];
    const joined = chain.map(([from, to]) => `${from} to ${to}`).join(", ");
    const words = `In position ${position}, ${joined} were read as joined, but ${a} to ${b} as open: one of these is wrong.`;
    return [{ position, open: [a, b] as const, chain, words }];
  });
}

function readAgain({ position, open, chain }: ContactContradiction, readings: readonly ContactReading[]) {
  const inDoubt = [open, ...chain];
  const oldest = readings.find(
    (one) => one.position === position && inDoubt.some(([a, b]) => one.a === a && one.b === b),
  );
  if (!oldest) throw new Error("a contradiction rests on readings");
  const { a, b } = oldest;
  return { position, a, b, words: `Read ${a} to ${b} in position ${position} again: readings contradict each other.` };
}

/** The pair that leaves fewest unknown, in the first position that is not done: turning the switch is work too. */
function nextUnknown(known: readonly Knowledge[], lugs: readonly string[]): ContactsFound["next"] {
  const here = known.find((one) => unknownGroupPairs(one).length > 0);
  if (!here) return undefined;
  const likely = likelihoods(known, lugs);
  const unknown = unknownGroupPairs(here);
  let best: { readonly pair: readonly [number, number]; readonly settled: number } | undefined;
  for (const pair of unknown) {
    const [one, other] = pair;
    const alsoSettled = here.groups.filter(
      (_, place) => place !== one && place !== other && !(here.apart(one, place) && here.apart(other, place)),
    ).length;
    const settled = 1 + likely(here.groups[one] ?? [], here.groups[other] ?? []) * alsoSettled;
    if (!best || settled > best.settled + 1e-12) best = { pair, settled };
  }
  const [a, b] = (best?.pair ?? []).map((place) => here.groups[place]?.[0]);
  if (a === undefined || b === undefined) throw new Error("a group has a lug");
  const words = `Position ${here.name}: put the probes on ${a} and ${b}. Does the meter beep?`;
  return { position: here.name, a, b, words };
}

/** A guess at how likely two groups are joined, by what their lugs do in other positions. Own rule, no source. */
function likelihoods(known: readonly Knowledge[], lugs: readonly string[]) {
  const joinedTimes = new Map(lugs.map((lug) => [lug, 0]));
  let poles: (readonly string[])[] = [];
  for (const group of known.flatMap(({ groups }) => groups).filter(({ length }) => length > 1)) {
    for (const lug of group) joinedTimes.set(lug, (joinedTimes.get(lug) ?? 0) + 1);
    const touching = poles.filter((pole) => pole.some((lug) => group.includes(lug)));
    poles = [...poles.filter((pole) => !touching.includes(pole)), [...new Set([...touching.flat(), ...group])]];
  }
  const poleOf = (lug: string) => poles.find((pole) => pole.includes(lug));
  return (one: readonly string[], other: readonly string[]): number => {
    const lugsOfBoth = [...one, ...other];
    const often = Math.max(...lugsOfBoth.map((lug) => joinedTimes.get(lug) ?? 0));
    const seen = one.map(poleOf).concat(other.map(poleOf));
    const samePole = one.some((a) => poleOf(a) !== undefined && other.some((b) => poleOf(a) === poleOf(b)));
    const twoPoles = !samePole && seen.filter((pole) => pole !== undefined).length > 1;
    const base = 0.1 + 0.1 * Math.min(often, 4);
    return samePole ? Math.min(0.9, 2 * base) : twoPoles ? base / 4 : base;
  };
}
