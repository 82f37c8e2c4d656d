/**
 * What kicks on the meter and a compass say of coils: which way round they help each other, and whether hum cancels.
 *
 * Model: steel lowered to the poles makes a voltage whose sign is winding times magnet, w m; hum has the sign of w.
 * By convention w is +1 when hum is positive at the finish with the start at ground, and a kick of + with red on the
 * finish and black on the start means w m = +1. The meter knows the product only; a compass tells m (the end of the
 * needle that is drawn names the opposite pole: from memory), and then w follows.
 * Two coils in phase have equal w m as they are wired; their hum cancels if the windings, and so the magnets, differ.
 * Left out: how strong a kick is, beyond weak; steel lifted, which kicks the other way.
 * Source: columns of a guitar magazine on polarity and phase (table of winding and magnet); meter tests of repairers.
 */
import type { CoilContradiction, NetworkCoil, Point } from "./coil-network.ts";
import { nameOf } from "./coil-network.ts";

export type Sign = 1 | -1;

/** "weak" for the kick of a neighbouring row's steel; it counts only where nothing stronger was seen. */
export type Kick = "+" | "-" | "weak +" | "weak -" | "none";

export interface KickReading {
  readonly red: string;
  readonly black: string;
  /** The row of poles that the steel was lowered to. */
  readonly row: string;
  readonly kick: Kick;
}

export interface CompassReading {
  readonly row: string;
  /** The end of the needle that the poles of the row draw. */
  readonly drawn: "north" | "south";
}

export interface FoundCoil {
  /** Where to put the probes; the first name of each end. */
  readonly ends: readonly [string, string];
  /** All names that are joined to each end. */
  readonly joined: readonly [Point, Point];
  readonly ohms: number;
  /** Rows whose steel kicks in it; more than one where two windings read as one. */
  readonly rows: readonly string[];
  /** Of the kick with red on the first end and black on the second, over all its rows. */
  readonly signWithRedOnA?: Sign;
  /** The end on which red gives a kick of +: the finish by the sign convention, and the other as start. */
  readonly finish?: string;
  readonly start?: string;
  readonly magnetUp?: "north" | "south";
  /** The sense of winding, from start to finish as named here. Needs a compass. */
  readonly winding?: Sign;
}

export interface CoilPairing {
  /** Places in the list of coils. */
  readonly coils: readonly [number, number];
  /** Two coils with an end in common: whether they are in phase as they are. */
  readonly inPhaseAsJoined?: boolean;
  /** In phase, one after the other. Missing for coils with an end in common. */
  readonly series?: { readonly hot: string; readonly joint: readonly [string, string]; readonly ground: string };
  /** In phase, side by side. Missing for coils with an end in common. */
  readonly parallel?: { readonly hot: readonly [string, string]; readonly ground: readonly [string, string] };
  /** When they are in phase. */
  readonly hum: "cancels" | "adds" | "not known";
}

interface RowKick {
  readonly row: string;
  /** With red on `a`; 0 for none. */
  readonly sign: Sign | 0;
  readonly weak: boolean;
}

/** The rows that a coil was tested with, each once. Kicks of the same probes and row replace earlier ones. */
export function rowKicksOf(coil: NetworkCoil, kicks: readonly KickReading[]): RowKick[] {
  const byRow = new Map<string, RowKick>();
  for (const { red, black, row, kick } of kicks) {
    const turned = coil.b.includes(red) && coil.a.includes(black);
    if (!turned && !(coil.a.includes(red) && coil.b.includes(black))) continue;
    const sign = kick === "none" ? 0 : kick.endsWith("+") === turned ? -1 : 1;
    byRow.set(`${row}`, { row, sign, weak: kick.startsWith("weak") });
  }
  return [...byRow.values()];
}

/** Rows that kick in a coil; the weak ones only if no other does. */
function ownRows(kicks: readonly RowKick[]): RowKick[] {
  const moved = kicks.filter(({ sign }) => sign !== 0);
  const strong = moved.filter(({ weak }) => !weak);
  return strong.length > 0 ? strong : moved;
}

/** A coil with all that kicks and compass say of it. */
export function signedCoil(
  coil: NetworkCoil,
  kicks: readonly KickReading[],
  compass: readonly CompassReading[],
): FoundCoil {
  const { a, b, ohms } = coil;
  const ends = [nameOf(a), nameOf(b)] as const;
  const own = ownRows(rowKicksOf(coil, kicks));
  const known = { ends, joined: [a, b] as const, ohms, rows: own.map(({ row }) => row) };
  const [first] = own;
  if (!first || first.sign === 0 || own.some(({ sign }) => sign !== first.sign)) return known;
  const [finish, start] = first.sign === 1 ? ends : ([ends[1], ends[0]] as const);
  const signed = { ...known, signWithRedOnA: first.sign, finish, start };
  const seen = own.length === 1 ? compass.findLast(({ row }) => row === first.row) : undefined;
  if (!seen) return signed;
  // Named from the kick, w m is +1, so the winding has the sign of the magnet.
  return { ...signed, ...(seen.drawn === "north" ? SOUTH_UP : NORTH_UP) };
}

const NORTH_UP = { magnetUp: "north", winding: 1 } as const;
const SOUTH_UP = { magnetUp: "south", winding: -1 } as const;

/** Kicks of one coil and row with the probes both ways round must be opposite. */
export function kicksThatDisagree(coil: NetworkCoil, kicks: readonly KickReading[]): CoilContradiction[] {
  const [one, other] = [kicksWith(coil.a, coil.b, kicks), kicksWith(coil.b, coil.a, kicks)];
  return one.flatMap((forth) => {
    const back = other.find(({ row }) => row === forth.row);
    if (!back || kickSign(back.kick) === -kickSign(forth.kick)) return [];
    const words = `Row ${forth.row}: red on ${forth.red} and black on ${forth.black} kicked ${forth.kick}, the other way round ${back.kick}: one must be the opposite of the other. Do both again, steel lowered and not lifted.`;
    return [{ kind: "kicks disagree", pairs: [[forth.red, forth.black]], row: forth.row, words }];
  });
}

/** The last kick of each row with the probes this way round. */
function kicksWith(red: Point, black: Point, kicks: readonly KickReading[]): KickReading[] {
  const here = kicks.filter((kick) => red.includes(kick.red) && black.includes(kick.black));
  return here.filter((kick, index) => here.findLastIndex(({ row }) => row === kick.row) === index);
}

function kickSign(kick: Kick): Sign | 0 {
  if (kick === "none") return 0;
  return kick.endsWith("+") ? 1 : -1;
}

/**
 * How two coils are to be joined so that they are in phase.
 *
 * @param mayBeHot whether an end may be hot: an end with a metal part on it should be at ground
 * @returns undefined while the sign of one is not known
 */
export function pairingOf(
  coils: readonly FoundCoil[],
  pair: readonly [number, number],
  mayBeHot: (end: Point) => boolean,
): CoilPairing | undefined {
  const [one, other] = [coils[pair[0]], coils[pair[1]]];
  const [first, second] = [one && directed(one), other && directed(other)];
  if (!one || !other || !first || !second) return undefined;
  const hum = one.magnetUp && other.magnetUp ? (one.magnetUp === other.magnetUp ? "adds" : "cancels") : "not known";
  const shared = one.joined.find((end) => other.joined.includes(end));
  if (shared) {
    // In a row the kick of one enters where that of the other leaves.
    return { coils: pair, hum, inPhaseAsJoined: (first.finish === shared) !== (second.finish === shared) };
  }
  const orders = [
    { hot: first.finish, joint: [first.start, second.finish], ground: second.start },
    { hot: second.finish, joint: [second.start, first.finish], ground: first.start },
    { hot: first.start, joint: [first.finish, second.start], ground: second.finish },
    { hot: second.start, joint: [second.finish, first.start], ground: first.finish },
  ] as const;
  const best = orders.find(({ hot, joint: [x, y] }) => [hot, x, y].every(mayBeHot)) ?? orders[0];
  const finishes = [first.finish, second.finish] as const;
  const starts = [first.start, second.start] as const;
  const [hot, ground] = finishes.every(mayBeHot) || !starts.every(mayBeHot) ? [finishes, starts] : [starts, finishes];
  return {
    coils: pair,
    series: {
      hot: nameOf(best.hot),
      joint: [nameOf(best.joint[0]), nameOf(best.joint[1])],
      ground: nameOf(best.ground),
    },
    parallel: { hot: [nameOf(hot[0]), nameOf(hot[1])], ground: [nameOf(ground[0]), nameOf(ground[1])] },
    hum,
  };
}

function directed({ joined: [a, b], signWithRedOnA }: FoundCoil) {
  if (signWithRedOnA === undefined) return undefined;
  return signWithRedOnA === 1 ? { finish: a, start: b } : { finish: b, start: a };
}
