/** What a check of a wiring found. Words name things by their lugs, so that a person can put a finger on them. */
import type { Facts } from "../facts.ts";
import type { Sound } from "../sounds.ts";

export type FindingKind =
  | "hot shorted"
  | "silent"
  | "coil shorted"
  | "coil hangs from hot"
  | "loose end"
  | "metal not grounded"
  | "metal live"
  | "tip and sleeve swapped"
  | "string ground missing"
  | "ground through one wire"
  | "pole not used"
  | "battery not cut off"
  | "battery never on"
  | "one knob silences all"
  | "knob does nothing"
  | "knob all at one end"
  | "out of phase"
  | "hums"
  | "other sound"
  | "coil never heard"
  | "signs not known"
  | "short while switching"
  | "not there";

export interface Finding {
  readonly kind: FindingKind;
  /** A fault makes the wiring fail; a caution is a choice that a person should have made knowingly. */
  readonly grade: "fault" | "caution";
  /** Ids of the states in which it is so; none: in all. */
  readonly states: readonly string[];
  readonly lugs: readonly string[];
  /** What is wrong, in one sentence. */
  readonly what: string;
  /** Why it matters. */
  readonly why: string;
  readonly remedy: string;
}

/** What the owner wants of a state. */
export interface Wanted {
  readonly state: string;
  /** Any of these will do. */
  readonly sounds?: readonly Sound[];
  readonly hum?: "quiet" | "partly quiet" | "hums";
}

export interface Checked {
  readonly facts: Facts;
  readonly wanted: ReadonlyMap<string, Wanted>;
  /** A state as a person knows it. */
  readonly titleOf: (state: string) => string;
}

export type Check = (checked: Checked) => readonly Finding[];

/** Findings that differ in their state alone are one; so are shorts with one cure, whatever way they take. */
export function gathered(findings: readonly Finding[], all: number): Finding[] {
  const groups = new Map<string, Finding>();
  for (const finding of findings) {
    const key =
      finding.kind === "hot shorted"
        ? `${finding.kind}|${finding.remedy}`
        : `${finding.kind}|${finding.lugs.join()}|${finding.what}`;
    const before = groups.get(key);
    groups.set(key, before ? { ...before, states: [...before.states, ...finding.states] } : finding);
  }
  return [...groups.values()].map((finding) =>
    finding.states.length === all && all > 1 ? { ...finding, states: [] } : finding,
  );
}
