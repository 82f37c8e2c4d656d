/** What an answer hangs on most, and how to read it better. */
import { howToMeasure, missingReading } from "../questions/index.ts";
import type { NextReading, Verdict } from "../verdict/index.ts";

export interface WeakestValue {
  /** In a person's words, e.g. "the string's setback, strings 6, 5 and 4". */
  readonly what: string;
  /** How it is known now: "a fixed rule, not this string"; empty if nobody knows it. */
  readonly known: string;
  /** Its part of the doubt; undefined if nobody knows the value at all. */
  readonly share?: number;
  /** Part of the doubt that is how one drills, which no reading mends. */
  readonly drilling: number;
  /** The reading that the verdict asks for; where it asks for none, the better way to read the weakest value. */
  readonly next: NextReading;
}

type Share = Verdict["shares"][number];

/** How one drills is a choice, not a reading. */
const NOT_A_READING = /^settings\.|^workshop\./;
/** A value with less than this part of its group's doubt is not worth naming. */
const WORTH_NAMING = 0.1;

/** The weakest value of a verdict; undefined if its doubt is none of a reading's. Values read in one way count as one. */
export function weakestValue(verdict: Verdict): WeakestValue | undefined {
  const [missing] = verdict.missing;
  if (missing) return { what: missing.what, known: "", drilling: 0, next: verdict.next ?? missing };
  const groups = new Map<string, Share[]>();
  const isReading = ({ path }: Share): boolean => !NOT_A_READING.test(path);
  for (const share of verdict.shares.filter(isReading)) {
    const way = howToMeasure(share.path).path;
    groups.set(way, [...(groups.get(way) ?? []), share]);
  }
  const [weakest = []] = [...groups.values()].sort((a, b) => sum(b) - sum(a));
  const [first] = [...weakest].sort((a, b) => b.share - a.share);
  if (!first) return undefined;
  const settles = "the largest part of the doubt";
  return {
    what: named(weakest),
    known: first.what,
    share: sum(weakest),
    drilling: sum(verdict.shares.filter((share) => !isReading(share))),
    next: verdict.next ?? missingReading({ known: false, path: first.path, kind: "length" }, settles),
  };
}

function sum(shares: readonly Share[]): number {
  return shares.reduce((total, { share }) => total + share, 0);
}

function named(shares: readonly Share[]): string {
  const worth = [...shares]
    .sort((a, b) => b.share - a.share)
    .filter(({ share }) => share >= WORTH_NAMING * sum(shares));
  const strings = worth.flatMap(({ path }) => /^strings\.(\d)\./.exec(path)?.[1] ?? []);
  const what = howToMeasure(shares[0]?.path ?? "").what;
  if (strings.length === 0) return what;
  const last = strings.pop();
  return strings.length === 0 ? `${what}, string ${last}` : `${what}, strings ${strings.join(", ")} and ${last}`;
}
