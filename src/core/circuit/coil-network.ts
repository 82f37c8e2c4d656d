/**
 * What readings of resistance between a pickup's conductors say: which are joined, which are ends of one coil.
 *
 * Model: coils hang together like a tree; resistances along it add. Conductors with next to nothing between them are
 * one point. A point between two others, by the sum, is a tap. A network that does not add up is told and not guessed.
 * Left out: coils in parallel inside the pickup, which read as one; joints that have no conductor.
 * Source: textbook circuit theory, from memory; thresholds common practice, no source.
 */
import { chainBetween, pairsOf } from "./contact-map.ts";

/** Leads of a meter have 0.2 to 0.5 ohm (notes of an instrument maker); a coil has hundreds at the least. */
const JOINED_UP_TO_OHMS = 5;
/** Above this no coil of a guitar is read, only leakage or fingers on both probes. */
const OPEN_FROM_OHMS = 150e3;
/** Two readings agree within this: twice a plain digital meter's 0.7 % and its last digit. */
const AGREE_WITHIN = 0.02;
const AGREE_WITHIN_OHMS = 10;

export interface ResistanceReading {
  readonly a: string;
  readonly b: string;
  readonly ohms: number | "open";
}

export interface CoilContradiction {
  readonly kind: "open and joined" | "does not add up" | "kicks disagree";
  /** The pairs concerned. */
  readonly pairs: readonly (readonly [string, string])[];
  /** Of kicks. */
  readonly row?: string;
  readonly words: string;
}

/** Names that are one electrically, in the order of the names. */
export type Point = readonly string[];

export interface NetworkCoil {
  readonly a: Point;
  readonly b: Point;
  readonly ohms: number;
}

export interface CoilNetwork {
  readonly points: readonly Point[];
  /** Points that hang together, coil by coil. A point alone has no coil that was found. */
  readonly clusters: readonly (readonly Point[])[];
  readonly coils: readonly NetworkCoil[];
  /** Pairs of points that were neither read nor follow from readings. */
  readonly unknown: readonly (readonly [Point, Point])[];
  readonly contradictions: readonly CoilContradiction[];
}

/** What is known between two points: the resistance, that there is none, or nothing. */
type Between = (one: Point, other: Point) => number | "open" | undefined;

/**
 * The network behind some readings.
 *
 * @param names conductors, shields and metal parts
 * @param readings of each pair one at most
 */
export function networkOf(names: readonly string[], readings: readonly ResistanceReading[]): CoilNetwork {
  const points = mergeBy(
    names.map((name) => [name]),
    readings.filter(({ ohms }) => ohms !== "open" && ohms <= JOINED_UP_TO_OHMS),
    names,
  );
  const pointOf = (name: string) => points.find((point) => point.includes(name)) ?? [name];
  const withCoil = readings.filter((reading) => isCoil(reading.ohms));
  const clusters = mergeBy(points, withCoil, names).map((cluster) =>
    points.filter((point) => point.some((name) => cluster.includes(name))),
  );
  const clusterOf = (point: Point) => clusters.find((cluster) => cluster.includes(point));
  const opens = readings.filter((reading) => isOpen(reading.ohms));
  const between: Between = (one, other) => {
    const read = withCoil.find(({ a, b }) => isPair([pointOf(a), pointOf(b)], one, other));
    if (read) return read.ohms;
    const [here, there] = [clusterOf(one), clusterOf(other)];
    if (here === there) return undefined;
    const apart = opens.some(({ a, b }) => isPair([clusterOf(pointOf(a)), clusterOf(pointOf(b))], here, there));
    return apart ? "open" : undefined;
  };
  return {
    points,
    clusters,
    coils: clusters.flatMap((cluster) => coilsOf(cluster, between) ?? []),
    unknown: pairsOf(points).filter(([one, other]) => between(one, other) === undefined),
    contradictions: [
      ...openAndJoined(readings),
      ...jointsThatDiffer(withCoil, pointOf),
      ...clusters.flatMap((cluster) => doesNotAddUp(cluster, between)),
    ],
  };
}

/** Whether a reading says that nothing joins the two. */
export function isOpen(ohms: number | "open"): boolean {
  return ohms === "open" || ohms >= OPEN_FROM_OHMS;
}

function isCoil(ohms: number | "open"): ohms is number {
  return !isOpen(ohms) && Number(ohms) > JOINED_UP_TO_OHMS;
}

/** Groups of names put together where a reading joins them, each in the order of `names`. */
function mergeBy(groups: readonly Point[], joining: readonly ResistanceReading[], names: readonly string[]): Point[] {
  let merged = [...groups];
  for (const { a, b } of joining) {
    const one = merged.find((group) => group.includes(a));
    const other = merged.find((group) => group.includes(b));
    if (!one || !other || one === other) continue;
    const together = names.filter((name) => one.includes(name) || other.includes(name));
    merged = merged.flatMap((group) => (group === one ? [together] : group === other ? [] : [group]));
  }
  return merged;
}

/** The coils of a cluster: pairs of points with no other point between. Nothing while a pair is unread or odd. */
function coilsOf(cluster: readonly Point[], between: Between): NetworkCoil[] | undefined {
  const pairs = pairsOf(cluster);
  if (pairs.some(([a, b]) => between(a, b) === undefined)) return undefined;
  const coils = pairs.flatMap(([a, b]) => {
    const ohms = between(a, b);
    const direct = !cluster.some((middle) => isBetween(middle, a, b, between));
    return direct && typeof ohms === "number" ? [{ a, b, ohms }] : [];
  });
  return coils.length === cluster.length - 1 ? coils : undefined;
}

function isBetween(middle: Point, a: Point, b: Point, between: Between): boolean {
  if (middle === a || middle === b) return false;
  const [whole, first, second] = [between(a, b), between(a, middle), between(middle, b)];
  if (typeof whole !== "number" || typeof first !== "number" || typeof second !== "number") return false;
  return agree(whole, first + second);
}

function agree(one: number, other: number): boolean {
  return Math.abs(one - other) <= AGREE_WITHIN * Math.max(one, other) + AGREE_WITHIN_OHMS;
}

function openAndJoined(readings: readonly ResistanceReading[]): CoilContradiction[] {
  const joined = readings.filter(({ ohms }) => !isOpen(ohms)).map(({ a, b }) => [a, b] as const);
  return readings.flatMap(({ a, b, ohms }) => {
    const chain = isOpen(ohms) ? chainBetween(a, b, joined) : undefined;
    if (!chain) return [];
    const way = chain.map(([from, to]) => `${from} to ${to}`).join(", ");
    const words = `A way was read over ${way}, but ${a} to ${b} is open: one of these readings is wrong.`;
    return [{ kind: "open and joined", pairs: [[a, b], ...chain], words }];
  });
}

/** Two readings between the same two points must be alike. */
function jointsThatDiffer(
  withCoil: readonly ResistanceReading[],
  pointOf: (name: string) => Point,
): CoilContradiction[] {
  return pairsOf(withCoil).flatMap(([one, other]) => {
    const same = isPair([pointOf(one.a), pointOf(one.b)], pointOf(other.a), pointOf(other.b));
    if (!same || agree(Number(one.ohms), Number(other.ohms))) return [];
    const words = `${one.a} to ${one.b} read ${inKilohms(one.ohms)} and ${other.a} to ${other.b} ${inKilohms(other.ohms)}, though their ends are joined: read both again.`;
    return [
      {
        kind: "does not add up",
        pairs: [
          [one.a, one.b],
          [other.a, other.b],
        ],
        words,
      },
    ];
  });
}

/** A cluster whose every pair was read, but whose resistances fit no coils in a row or on a common point. */
function doesNotAddUp(cluster: readonly Point[], between: Between): CoilContradiction[] {
  const pairs = pairsOf(cluster);
  if (pairs.some(([a, b]) => between(a, b) === undefined) || coilsOf(cluster, between)) return [];
  const names = cluster.map(nameOf).join(", ");
  const words = `The readings between ${names} do not add up: read them again. If they stay, coils are in parallel inside or meet at a joint without a conductor.`;
  return [{ kind: "does not add up", pairs: pairs.map(([a, b]) => [nameOf(a), nameOf(b)] as const), words }];
}

/** The name to put the probe on. */
export function nameOf(point: Point): string {
  return point[0] ?? "";
}

/** "6.30 kohm" for 6300. */
export function inKilohms(ohms: number | "open"): string {
  return ohms === "open" ? "open" : `${(ohms / 1000).toFixed(2)} kohm`;
}

function isPair<Item>(pair: readonly [Item, Item], one: Item, other: Item): boolean {
  return (pair[0] === one && pair[1] === other) || (pair[0] === other && pair[1] === one);
}
