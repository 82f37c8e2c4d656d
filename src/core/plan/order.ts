/** Needs of every step from the table of rules, and the order of least elapsed time. */
import { type Phrase, say } from "../quantity/index.ts";
import type { Draft } from "./draft.ts";
import { ORDER_RULES, type OrderRule } from "./order-rules.ts";
import { type Lag, type Schedule, schedule } from "./schedule.ts";
import { type Need, STEP_KINDS, type Step } from "./types.ts";

export interface Ordered {
  readonly steps: readonly Step[];
  readonly schedule: Schedule;
}

/** @throws InputError if the rules run in a ring */
export function orderSteps(drafts: readonly Draft[]): Ordered {
  const needs = new Map(drafts.map((step) => [step.id, needsOf(step, drafts)]));
  const lags = [...needs].flatMap(([id, list]) =>
    list.map((need): Lag => ({ before: need.step, after: id, minutes: need.waitMinutes })),
  );
  const rank = (step: Draft): number => (step.done ? -1 : STEP_KINDS.indexOf(step.kind));
  const preferred = [...drafts].sort((a, b) => rank(a) - rank(b));
  const found = schedule(
    // What is done takes no more time; how much of its wait is over is a matter for the gate, which has a clock.
    preferred.map(({ id, minutes, done }) => ({ id, minutes: done ? 0 : minutes })),
    lags,
  );
  const byId = new Map(drafts.map((step) => [step.id, step]));
  const steps = found.order.flatMap((id) => {
    const step = byId.get(id);
    return step ? [finished(step, kept(step, needs))] : [];
  });
  return { steps, schedule: found };
}

function needsOf(step: Draft, drafts: readonly Draft[]): readonly Need[] {
  const needs = new Map<string, Need>();
  for (const rule of ORDER_RULES) {
    for (const before of drafts) {
      if (before.id === step.id || !applies(rule, before, step)) continue;
      const waitMinutes = rule.waits ? (before.waitAfter?.minutes ?? 0) : 0;
      const former = needs.get(before.id);
      needs.set(
        before.id,
        former
          ? {
              ...former,
              because: joined(former.because, rule.because),
              waitMinutes: Math.max(former.waitMinutes, waitMinutes),
            }
          : { step: before.id, because: rule.because, waitMinutes },
      );
    }
  }
  return [...needs.values()];
}

function joined(one: Phrase, other: Phrase): Phrase {
  return say`${one}; ${other}`;
}

function applies(rule: OrderRule, before: Draft, after: Draft): boolean {
  // What follows every step is not before it, and what precedes every step is not after it.
  const is = (kinds: OrderRule["before"], step: Draft): boolean => kinds === "every step" || kinds.includes(step.kind);
  if (after.done) return false;
  return is(rule.before, before) && is(rule.after, after) && (rule.when?.(before, after) ?? true);
}

/**
 * A permanent step keeps all its needs, since its gate looks at each. Elsewhere a need that another need already
 * implies is left out, so that the page stays short.
 */
function kept(step: Draft, needs: ReadonlyMap<string, readonly Need[]>): readonly Need[] {
  const own = needs.get(step.id) ?? [];
  if (step.permanence === "permanent") return own;
  return own.filter(
    (need) =>
      need.waitMinutes > 0 || !own.some((other) => other.step !== need.step && reaches(other.step, need.step, needs)),
  );
}

function reaches(from: string, to: string, needs: ReadonlyMap<string, readonly Need[]>): boolean {
  const seen = new Set<string>();
  const open = [from];
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    for (const need of needs.get(id) ?? []) {
      if (need.step === to) return true;
      if (!seen.has(need.step)) open.push(need.step);
      seen.add(need.step);
    }
  }
  return false;
}

function finished({ target: _target, plugs: _plugs, done: _done, ...step }: Draft, needsBefore: readonly Need[]): Step {
  return { ...step, needsBefore };
}
