/**
 * Which conductors of a pickup are the ends of which coil, and which way round, found with the meter.
 *
 * Model: resistance between pairs gives the coils (see coil-network.ts), kicks of steel their sense, a compass the
 * magnets (see coil-signs.ts). A pair that follows from others is not asked: what is open to one end of a coil is open
 * to the other. Four conductors take six readings at most, three or four where they are two sound coils.
 * Left out: colours of makers; every name is the owner's own.
 * Source: meter tests of repairers: a pair that reads is one coil, a pair that does not is two. The order is our own.
 */
import { InputError } from "../errors.ts";
import {
  type CoilContradiction,
  type CoilNetwork,
  inKilohms,
  isOpen,
  type NetworkCoil,
  nameOf,
  networkOf,
  type Point,
  type ResistanceReading,
} from "./coil-network.ts";
import {
  type CoilPairing,
  type CompassReading,
  type FoundCoil,
  type KickReading,
  kicksThatDisagree,
  pairingOf,
  rowKicksOf,
  signedCoil,
} from "./coil-signs.ts";
import { pairsOf, requireNames } from "./contact-map.ts";

export interface CoilSearch {
  /** The owner's own names, of wires that carry signal. */
  readonly conductors: readonly string[];
  /** Bare wires and braids. */
  readonly shields?: readonly string[];
  /** Cover, base plate, poles. */
  readonly metals?: readonly string[];
  /** Rows of poles. */
  readonly rows: readonly string[];
  /** In the order taken; a pair read again replaces what was read before. */
  readonly resistances: readonly ResistanceReading[];
  readonly kicks?: readonly KickReading[];
  readonly compass?: readonly CompassReading[];
}

export type CoilNeed =
  | { readonly kind: "resistance"; readonly a: string; readonly b: string; readonly words: string }
  | {
      readonly kind: "kick";
      readonly red: string;
      readonly black: string;
      readonly row: string;
      readonly words: string;
    }
  | { readonly kind: "compass"; readonly row: string; readonly words: string };

export interface CoilsFound {
  readonly coils: readonly FoundCoil[];
  /** How coils are to be joined, pair by pair, once both have kicked. */
  readonly pairings: readonly CoilPairing[];
  /** Names that are one; of two and more. */
  readonly joints: readonly Point[];
  /** Conductors that are joined to nothing, once that is certain: ends of a broken coil, or wires to nowhere. */
  readonly loose: readonly string[];
  /** What to do next first. Empty when there is no more to be found. */
  readonly needs: readonly CoilNeed[];
  /** Readings of resistance that are left at most. */
  readonly mostReadingsLeft: number;
  readonly contradictions: readonly CoilContradiction[];
  /** Everything in plain words, one sentence or two each. */
  readonly words: readonly string[];
}

/**
 * What the readings so far say of a pickup, and what to read next.
 *
 * @throws InputError if a name is missing or stands twice, or a reading is of something that is not there
 * @example
 * findCoils({
 *   conductors: ["orange", "brown", "blue", "cream"], rows: ["screws", "slugs"],
 *   resistances: [{ a: "orange", b: "brown", ohms: 6300 }],
 * }); // one coil so far; next: blue to cream
 */
export function findCoils(search: CoilSearch): CoilsFound {
  const names = requireSearch(search);
  const readings = lastOfEachPair(search.resistances);
  const { kicks = [], compass = [] } = search;
  const network = networkOf(names, readings);
  const kickTrouble = network.coils.map((coil) => kicksThatDisagree(coil, kicks));
  const coils = network.coils.map((coil, at) => signedCoil(coil, kickTrouble[at]?.length ? [] : kicks, compass));
  const contradictions = [...network.contradictions, ...kickTrouble.flat()];
  const mayBeHot = (end: Point) => end.every((name) => search.conductors.includes(name));
  const pairings = pairsOf(coils.map((_, place) => place)).flatMap((pair) => pairingOf(coils, pair, mayBeHot) ?? []);
  const found = {
    coils,
    pairings,
    joints: network.points.filter(({ length }) => length > 1),
    loose: looseOf(network, search.conductors),
    contradictions,
    mostReadingsLeft: network.unknown.length,
  };
  const needs = [
    ...readingsToRepeat(network.contradictions, readings),
    ...resistanceNeeds(network, search),
    ...kickNeeds(network, search),
    ...compassNeeds(coils, compass),
  ];
  return { ...found, needs, words: [...inWords(found, search), ...notUsed(network, search)] };
}

function requireSearch(search: CoilSearch): string[] {
  const { conductors, shields = [], metals = [], rows, resistances, kicks = [], compass = [] } = search;
  requireNames(conductors, "conductors", "Name each wire by its colour");
  requireNames(rows, "rows", "Name each row of poles");
  const names = [...conductors, ...shields, ...metals];
  requireNames(names, "names", "Give wires, shields and metal parts a name each");
  const known = (where: string, name: string, list: readonly string[]) => {
    if (list.includes(name)) return;
    throw new InputError(where, `there is no "${name}"`, `Use one of ${list.join(", ")}`);
  };
  const pairOf = (where: string, a: string, b: string) => {
    known(where, a, names);
    known(where, b, names);
    if (a === b) throw new InputError(where, `both probes on "${a}"`, "Put the probes on two of them");
  };
  resistances.forEach(({ a, b, ohms }, index) => {
    pairOf(`resistances[${index}]`, a, b);
    if (ohms === "open" || (Number.isFinite(ohms) && ohms >= 0)) return;
    const problem = `must be a number from 0 ohm or "open", got ${ohms}`;
    throw new InputError(`resistances[${index}].ohms`, problem, "Write open where the meter shows no reading");
  });
  kicks.forEach(({ red, black, row }, index) => {
    pairOf(`kicks[${index}]`, red, black);
    known(`kicks[${index}].row`, row, rows);
  });
  compass.forEach(({ row }, index) => {
    known(`compass[${index}].row`, row, rows);
  });
  return names;
}

function lastOfEachPair(readings: readonly ResistanceReading[]): ResistanceReading[] {
  const last = new Map<string, ResistanceReading>();
  for (const reading of readings) {
    const key = JSON.stringify([reading.a, reading.b].sort());
    last.delete(key);
    last.set(key, reading);
  }
  return [...last.values()];
}

/** Conductors alone in the network of which everything is known. */
function looseOf({ clusters, unknown }: CoilNetwork, conductors: readonly string[]): string[] {
  return clusters.flatMap((cluster) => {
    const [point] = cluster;
    const alone = cluster.length === 1 && point?.length === 1 && !unknown.some((pair) => pair.includes(point));
    return alone && conductors.includes(nameOf(point)) ? point : [];
  });
}

/** Of readings that cannot all be right, the one that was taken longest ago. Sums that are off are only told. */
function readingsToRepeat(
  contradictions: readonly CoilContradiction[],
  readings: readonly ResistanceReading[],
): CoilNeed[] {
  const pairs = contradictions.find(({ kind }) => kind === "open and joined")?.pairs ?? [];
  const oldest = readings.find((one) => pairs.some(([a, b]) => one.a === a && one.b === b));
  if (!oldest) return [];
  const { a, b } = oldest;
  return [{ kind: "resistance", a, b, words: `Read ${a} to ${b} again: readings contradict each other.` }];
}

/** Unknown pairs, the one that is likely to settle most first; wires before shields and metal parts. */
function resistanceNeeds({ clusters, unknown }: CoilNetwork, { conductors }: CoilSearch): CoilNeed[] {
  const clusterOf = (point: Point) => clusters.find((cluster) => cluster.includes(point)) ?? [point];
  const isUnknown = (some: readonly Point[], others: readonly Point[]) =>
    unknown.some(([x, y]) => (some.includes(x) && others.includes(y)) || (some.includes(y) && others.includes(x)));
  const isWire = (point: Point) => point.some((name) => conductors.includes(name));
  const ranked = unknown.map(([one, other]) => {
    const [here, there] = [clusterOf(one), clusterOf(other)];
    const wires = [one, other].filter(isWire).length;
    const rank = wires === 2 ? 0 : wires === 0 ? 1 : 2;
    const also = clusters.filter((x) => x !== here && x !== there && (isUnknown(here, x) || isUnknown(there, x)));
    const worth = here === there ? Infinity : 1 + likelihoodOfCoil(here.length, there.length) * also.length;
    return { a: nameOf(one), b: nameOf(other), rank, worth };
  });
  ranked.sort((x, y) => x.rank - y.rank || (x.worth === y.worth ? 0 : y.worth - x.worth));
  return ranked.map(({ a, b }) => {
    const words = `Put the probes on ${a} and ${b}, range 20 kohm, and note the reading, or open.`;
    return { kind: "resistance", a, b, words };
  });
}

/** A guess that only orders the readings: most wires belong to one coil. Own rule, no source. */
function likelihoodOfCoil(some: number, others: number): number {
  if (some === 1 && others === 1) return 0.5;
  return some === 1 || others === 1 ? 0.15 : 0.05;
}

/** For each coil one row to try, the rows of other coils last. */
function kickNeeds({ coils }: CoilNetwork, { rows, kicks = [] }: CoilSearch): CoilNeed[] {
  const tried = coils.map((coil) => rowKicksOf(coil, kicks));
  const strong = tried.map((ofCoil) => ofCoil.filter(({ sign, weak }) => sign !== 0 && !weak).map(({ row }) => row));
  return coils.flatMap((coil, place) => {
    const [again] = kicksThatDisagree(coil, kicks);
    if (again?.row !== undefined)
      return [...kickTest(coil, again.row), ...kickTest({ ...coil, a: coil.b, b: coil.a }, again.row)];
    if (strong[place]?.length && coils.length >= rows.length) return [];
    const untried = rows.filter((row) => !tried[place]?.some((one) => one.row === row));
    const free = untried.find((row) => !strong.some((ofOther) => ofOther.includes(row)));
    const row = free ?? untried[0];
    return row === undefined ? [] : kickTest(coil, row);
  });
}

function kickTest(coil: NetworkCoil, row: string): CoilNeed[] {
  const [red, black] = [nameOf(coil.a), nameOf(coil.b)];
  const words = `Red probe on ${red}, black on ${black}, direct volts 200 mV: lower steel quickly to the poles of row ${row} and note the sign of the first kick.`;
  return [{ kind: "kick", red, black, row, words }];
}

function compassNeeds(coils: readonly FoundCoil[], compass: readonly CompassReading[]): CoilNeed[] {
  const rows = [...new Set(coils.filter((coil) => coil.signWithRedOnA !== undefined).flatMap((coil) => coil.rows))];
  return rows
    .filter((row) => !compass.some((reading) => reading.row === row))
    .map((row) => ({
      kind: "compass",
      row,
      words: `Hold a compass above the poles of row ${row} and note which end of the needle they draw.`,
    }));
}

type Findings = Pick<CoilsFound, "coils" | "pairings" | "joints" | "loose" | "contradictions">;

function inWords(found: Findings, search: CoilSearch): string[] {
  const { coils, pairings, joints, loose, contradictions } = found;
  const ends = coils.flatMap(({ joined }) => joined);
  return [
    ...contradictions.map(({ words }) => words),
    ...coils.map((coil) => coilInWords(coil, search)),
    ...joints.map((joint) => jointInWords(joint, ends.includes(joint), search)),
    ...looseInWords(loose),
    ...pairings.map((pairing) => pairingInWords(pairing, coils)),
    ...(coils.some(({ finish, winding }) => finish !== undefined && winding === undefined) ? [ONLY_THE_PRODUCT] : []),
  ];
}

const ONLY_THE_PRODUCT =
  "Start and finish are named by the kick, so that all finishes are in phase. The meter tells winding times magnet only: a compass at the poles (the end of the needle that is drawn names the opposite pole) tells them apart, and with them whether hum cancels.";

function coilInWords({ ends: [a, b], ohms, rows, finish }: FoundCoil, { kicks = [] }: CoilSearch): string {
  const coil = `${a} and ${b} are the ends of a coil of ${inKilohms(ohms)}`;
  if (finish !== undefined) return `${coil} at row ${rows.join(" and ")}; red on ${finish} kicks +.`;
  if (rows.length > 1) return `${coil} at rows ${rows.join(" and ")}, which work against each other inside.`;
  const tried = kicks.filter(({ red, black }) => [a, b].includes(red) && [a, b].includes(black));
  return tried.length > 0 ? `${coil}; no kick tells its sense yet.` : `${coil}.`;
}

function jointInWords(joint: Point, isEnd: boolean, { conductors }: CoilSearch): string {
  const wires = joint.filter((name) => conductors.includes(name));
  const others = joint.filter((name) => !conductors.includes(name));
  const together = `${joint.join(", ")} are joined`;
  if (wires.length === 0) return `${together}.`;
  if (others.length === 0) {
    return isEnd ? `${together} at one point.` : `${together} and to no coil: a shorted coil, or a link inside.`;
  }
  return `${together}: keep ${wires.join(" and ")} at ground, or part the joint first; else ${others.join(" and ")} would be hot.`;
}

function looseInWords(loose: readonly string[]): string[] {
  if (loose.length === 0) return [];
  if (loose.length === 2) {
    return [
      `${loose.join(" and ")} read open to everything: the two ends of a coil whose wire is broken, most likely.`,
    ];
  }
  return [`${loose.join(", ")} read open to everything: a broken coil, or wires to nowhere.`];
}

/** Readings that say nothing, and why. */
function notUsed({ coils, unknown }: CoilNetwork, { resistances, kicks = [] }: CoilSearch): string[] {
  const leaks = resistances
    .filter(({ ohms }) => ohms !== "open" && isOpen(ohms))
    .map(({ a, b, ohms }) => `${a} to ${b} read ${inKilohms(ohms)}: no coil has that; fingers or dirt, taken as open.`);
  if (unknown.length > 0) return leaks;
  const across = (red: string, black: string) =>
    coils.some(({ a, b }) => (a.includes(red) && b.includes(black)) || (b.includes(red) && a.includes(black)));
  const strange = kicks
    .filter(({ red, black }) => !across(red, black))
    .map(({ red, black }) => `The kick between ${red} and ${black} is not used: no single coil lies between them.`);
  return [...leaks, ...new Set(strange)];
}

function pairingInWords(pairing: CoilPairing, coils: readonly FoundCoil[]): string {
  const [one, other] = pairing.coils.map((place) => coils[place]?.ends.join("-"));
  const hum = pairing.hum === "not known" ? "" : `; hum ${pairing.hum} when they are in phase`;
  if (pairing.inPhaseAsJoined !== undefined) {
    return `${one} and ${other} are ${pairing.inPhaseAsJoined ? "in" : "out of"} phase as they are joined${hum}.`;
  }
  const { series, parallel } = pairing;
  const inSeries = `${series?.joint.join(" to ")}, with ${series?.hot} hot and ${series?.ground} at ground`;
  return `In phase: in series ${inSeries}; in parallel ${parallel?.hot.join(" with ")} hot and ${parallel?.ground.join(" with ")} at ground${hum}.`;
}
