/**
 * Which lugs of a switch, a jack or a leaf toggle are joined in each position.
 *
 * Model: a contact is open or closed; lugs that are joined form a group; a lug in no group is joined to nothing.
 * Left out: contact resistance, bounce, what happens between two positions except whether it breaks first.
 * Source: definition.
 */
import { InputError } from "../errors.ts";

export interface SwitchPosition {
  readonly name: string;
  /** Groups of lugs that are joined; of two lugs or more each. */
  readonly joined: readonly (readonly string[])[];
}

export interface ContactMap {
  readonly lugs: readonly string[];
  readonly positions: readonly SwitchPosition[];
  /** Whether the old contact opens before the new one closes on the way from position to position. */
  readonly timing: "break before make" | "make before break" | "not known";
}

/**
 * The map itself, if it can be one.
 *
 * @throws InputError naming position and lug: no lugs or positions, a name twice, an unknown lug, a lug in two groups
 */
export function requireContactMap(map: ContactMap): ContactMap {
  requireNames(map.lugs, "lugs", "Name each lug of the switch once");
  requireNames(
    map.positions.map(({ name }) => name),
    "positions",
    "Name each position of the switch once",
  );
  map.positions.forEach((position, index) => {
    requirePosition(position, map.lugs, `positions[${index}].joined`);
  });
  return map;
}

function requirePosition(position: SwitchPosition, lugs: readonly string[], where: string): void {
  const seen = new Set<string>();
  position.joined.forEach((group, index) => {
    if (group.length < 2) {
      const problem = `position ${position.name} has a group of ${group.length} lugs`;
      throw new InputError(`${where}[${index}]`, problem, "Leave out lugs that are joined to nothing");
    }
    for (const lug of group) {
      if (!lugs.includes(lug)) {
        const problem = `position ${position.name} joins "${lug}", which is no lug of this switch`;
        throw new InputError(`${where}[${index}]`, problem, `Use one of ${lugs.join(", ")}`);
      }
      if (seen.has(lug)) {
        const problem = `position ${position.name} names "${lug}" twice`;
        throw new InputError(`${where}[${index}]`, problem, "Put all lugs that are joined into one group");
      }
      seen.add(lug);
    }
  });
}

/** @throws InputError if the list is empty, or a name is empty or stands in it twice */
export function requireNames(names: readonly string[], where: string, remedy: string): void {
  if (names.length === 0) throw new InputError(where, "must not be empty", remedy);
  names.forEach((name, index) => {
    if (name.trim() === "") throw new InputError(`${where}[${index}]`, "has no name", remedy);
    if (names.indexOf(name) !== index) throw new InputError(`${where}[${index}]`, `"${name}" stands twice`, remedy);
  });
}

/**
 * The groups that a position joins.
 *
 * @throws InputError if there is no such position
 */
export function joinedIn(map: ContactMap, position: string): readonly (readonly string[])[] {
  const found = map.positions.find(({ name }) => name === position);
  if (found) return found.joined;
  const names = map.positions.map(({ name }) => name).join(", ");
  throw new InputError("position", `there is no "${position}"`, `Use one of ${names}`);
}

/** Whether a position joins two lugs; a lug is joined to itself. @throws InputError if a name is not there */
export function areJoined(
  map: ContactMap,
  pair: { readonly position: string; readonly a: string; readonly b: string },
): boolean {
  for (const lug of [pair.a, pair.b]) {
    if (map.lugs.includes(lug)) continue;
    throw new InputError("lug", `there is no "${lug}"`, `Use one of ${map.lugs.join(", ")}`);
  }
  const groups = joinedIn(map, pair.position);
  return pair.a === pair.b || groups.some((group) => group.includes(pair.a) && group.includes(pair.b));
}

/**
 * Whether two maps join the same lugs in the positions of the same name. The order of lugs, positions and groups does
 * not matter, nor does the timing.
 */
export function sameBehaviour(one: ContactMap, other: ContactMap): boolean {
  if (!sameSet(one.lugs, other.lugs) || one.positions.length !== other.positions.length) return false;
  return one.positions.every((position) => {
    const partner = other.positions.find(({ name }) => name === position.name);
    return partner !== undefined && sameSet(position.joined.map(asText), partner.joined.map(asText));
  });
}

export type ContactFault =
  | { readonly kind: "lug never joined"; readonly lug: string; readonly words: string }
  | { readonly kind: "positions alike"; readonly positions: readonly [string, string]; readonly words: string }
  | { readonly kind: "lugs always joined"; readonly lugs: readonly [string, string]; readonly words: string };

/**
 * What looks wrong with a switch whose map is complete: worth a second reading, not proof of a fault.
 *
 * @throws InputError as `requireContactMap`
 */
export function faultsOf(map: ContactMap): readonly ContactFault[] {
  requireContactMap(map);
  return [...lugsNeverJoined(map), ...positionsAlike(map), ...lugsAlwaysJoined(map)];
}

function lugsNeverJoined({ lugs, positions }: ContactMap): ContactFault[] {
  const joined = new Set(positions.flatMap((position) => position.joined.flat()));
  return lugs
    .filter((lug) => !joined.has(lug))
    .map((lug) => ({
      kind: "lug never joined",
      lug,
      words: `Lug ${lug} is joined to nothing in any position: it is a spare, or its contact does not touch.`,
    }));
}

function positionsAlike({ positions }: ContactMap): ContactFault[] {
  return pairsOf(positions).flatMap(([one, other]) =>
    sameSet(one.joined.map(asText), other.joined.map(asText))
      ? [
          {
            kind: "positions alike" as const,
            positions: [one.name, other.name] as const,
            words: `Positions ${one.name} and ${other.name} join the same lugs: read one of them again.`,
          },
        ]
      : [],
  );
}

function lugsAlwaysJoined({ lugs, positions }: ContactMap): ContactFault[] {
  const together = (a: string, b: string) =>
    positions.every(({ joined }) => joined.some((group) => group.includes(a) && group.includes(b)));
  if (positions.length < 2) return [];
  return pairsOf(lugs).flatMap(([a, b]) =>
    together(a, b)
      ? [
          {
            kind: "lugs always joined" as const,
            lugs: [a, b] as const,
            words: `Lugs ${a} and ${b} are joined in every position: a bridge of solder, or one contact with two lugs.`,
          },
        ]
      : [],
  );
}

/** Each pair of a list once, in its order. */
export function pairsOf<Item>(items: readonly Item[]): (readonly [Item, Item])[] {
  return items.flatMap((one, index) => items.slice(index + 1).map((other) => [one, other] as const));
}

/** Shortest way from one name to another over pairs that are joined, as the pairs stand; nothing if there is none. */
export function chainBetween<Pair extends readonly [string, string]>(
  from: string,
  to: string,
  joined: readonly Pair[],
): Pair[] | undefined {
  const ways = new Map<string, Pair[]>([[from, []]]);
  for (const [name, way] of ways) {
    if (name === to) return way;
    for (const pair of joined) {
      const beyond = pair[0] === name ? pair[1] : pair[1] === name ? pair[0] : undefined;
      if (beyond !== undefined && !ways.has(beyond)) ways.set(beyond, [...way, pair]);
    }
  }
  return undefined;
}

function asText(group: readonly string[]): string {
  return JSON.stringify([...group].sort());
}

function sameSet(some: readonly string[], others: readonly string[]): boolean {
  return some.length === others.length && some.every((one) => others.includes(one));
}
