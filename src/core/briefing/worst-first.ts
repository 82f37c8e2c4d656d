/**
 * Puts verdicts in the order in which a person should hear them, and says what to do next.
 *
 * Order: by what it would cost to go ahead as things stand, which is the chance that it does not go, weighed by what a
 * wrong answer costs. A `no-go`, or a `rework` that waits for the owner's choice, does not go as things stand, whatever
 * its chance afterwards; a verdict without a chance stands in for one typical of its status (common practice, no source).
 */
import type { NextReading, Permanence, Remedy, Status, Verdict } from "../verdict/index.ts";

/** More bad news at once than this is not read. */
const IN_FULL = 3;

/** A hole in the wrong place is not three times a wrong knob, it is another kind of day. */
const COST_OF_STAKE = { 1: 1, 2: 3, 3: 9 } as const satisfies Record<Verdict["stake"], number>;

const TYPICAL_CHANCE = { go: 1, rework: 0.9, measure: 0.5, "no-go": 0 } as const satisfies Record<Status, number>;

const RANK = { "no-go": 0, measure: 1, rework: 2, go: 3 } as const satisfies Record<Status, number>;

const COST_OF_PERMANENCE = { reversible: 0, hidden: 1, permanent: 2 } as const satisfies Record<Permanence, number>;

export interface Briefing {
  /** What stands in the way, worst first: these to be shown in full, */
  readonly inFull: readonly Verdict[];
  /** and these in a line each. */
  readonly inBrief: readonly Verdict[];
  readonly go: readonly Verdict[];
  readonly next: NextAction;
}

/** One thing to do now. */
export type NextAction =
  | { readonly kind: "measure"; readonly verdict: Verdict; readonly reading: NextReading }
  | { readonly kind: "decide"; readonly verdict: Verdict; readonly remedy: Remedy }
  | { readonly kind: "look"; readonly verdict: Verdict }
  /** Nothing to find out or decide: only stated work is left. */
  | { readonly kind: "work"; readonly verdict: Verdict }
  | { readonly kind: "begin" };

export function briefing(verdicts: readonly Verdict[]): Briefing {
  const inTheWay = worstFirst(verdicts.filter(({ status }) => status !== "go"));
  return {
    inFull: inTheWay.slice(0, IN_FULL),
    inBrief: inTheWay.slice(IN_FULL),
    go: verdicts.filter(({ status }) => status === "go"),
    next: nextAction(inTheWay),
  };
}

/** The same verdicts, worst first; equals keep the order in which they came. */
export function worstFirst(verdicts: readonly Verdict[]): Verdict[] {
  return [...verdicts].sort((a, b) => costOfGoingAhead(b) - costOfGoingAhead(a) || RANK[a.status] - RANK[b.status]);
}

/** @param inTheWay verdicts that are not `go`, worst first */
function nextAction(inTheWay: readonly Verdict[]): NextAction {
  const open = inTheWay.find((verdict) => verdict.status !== "rework" || verdict.remedies.length > 0);
  if (!open) {
    const [first] = inTheWay;
    return first ? { kind: "work", verdict: first } : { kind: "begin" };
  }
  const reading = open.next ?? open.missing[0];
  const remedy = bestRemedy(open.remedies);
  if (open.status === "measure" && reading) return { kind: "measure", verdict: open, reading };
  if (remedy) return { kind: "decide", verdict: open, remedy };
  if (reading) return { kind: "measure", verdict: open, reading };
  return { kind: "look", verdict: open };
}

/** The one that goes best; among equals one that can be undone, then the more certain. */
export function bestRemedy(remedies: readonly Remedy[]): Remedy | undefined {
  const [best] = [...remedies].sort(
    (a, b) =>
      rankAfter(b) - rankAfter(a) ||
      COST_OF_PERMANENCE[a.permanence] - COST_OF_PERMANENCE[b.permanence] ||
      (b.probability ?? 0) - (a.probability ?? 0),
  );
  return best;
}

/** A remedy whose outcome nobody has worked out stands between one that leads to `measure` and one that leads to `rework`. */
function rankAfter({ then }: Remedy): number {
  return then ? RANK[then] : (RANK.measure + RANK.rework) / 2;
}

function costOfGoingAhead({ status, stake, probability, remedies }: Verdict): number {
  const waits = status === "no-go" || (status === "rework" && remedies.length > 0);
  const asThingsStand = waits ? 0 : (probability ?? TYPICAL_CHANCE[status]);
  return COST_OF_STAKE[stake] * (1 - asThingsStand);
}
