/**
 * The traveller: from the instrument as found, the verdicts with their work, and what is to be fitted, the ordered
 * steps with gates, readings, tools and cautions, and the lists that follow from them.
 */
import { type Phrase, say, showPhrase } from "../quantity/index.ts";
import { withoutDrilled } from "./already-drilled.ts";
import { benchSteps } from "./bench-steps.ts";
import { LOCAL_RULES_FIRST } from "./cautions.ts";
import { contentsOf } from "./contents.ts";
import type { Draft } from "./draft.ts";
import { mergeWorks, type PlannedWork } from "./merge-works.ts";
import { orderSteps } from "./order.ts";
import { restsOn } from "./rests-on.ts";
import type { KeptPart, PlanInput, Purchase, Step, Traveller } from "./types.ts";
import { doneSteps, isOwnStep, withIds, workSteps } from "./work-steps.ts";

/** @throws InputError if two verdicts contradict each other about a hole */
export function planTraveller(input: PlanInput): Traveller {
  const works = withoutDrilled(mergeWorks(input.verdicts), input);
  const done = (input.done ?? [])
    .filter(({ work }) => isOwnStep(work))
    .map(({ id, work }) => ({ id, work, cause: [] }));
  const ahead = withIds(works, new Set((input.done ?? []).map(({ id }) => id)));
  const drafts = [
    ...benchSteps(input, contentsOf(input, [...done, ...works])),
    ...done.flatMap((planned) => doneSteps(input, planned)),
    ...ahead.flatMap((planned) => workSteps(input, planned, planned.id)),
  ];
  const rested = drafts.map((step): Draft => ({ ...step, restsOn: restsOn(step, input) }));
  const { steps, schedule } = orderSteps(rested);
  const doneIds = new Set(done.map(({ id }) => id));
  const numbered = numberBags(steps, input.instrument.id);
  return {
    steps: numbered,
    preface: LOCAL_RULES_FIRST,
    workMinutes: numbered.reduce((sum, step) => sum + (doneIds.has(step.id) ? 0 : step.minutes), 0),
    elapsedMinutes: schedule.elapsedMinutes,
    shortest: schedule.shortest,
    starts: schedule.starts,
    approvals: numbered
      .filter((step) => step.permanence === "permanent" && !doneIds.has(step.id))
      .map((step) => ({ step: step.id, text: step.title })),
    keep: numbered.flatMap((step) => step.keeps),
    shopping: shoppingList(numbered, works),
    stopped: input.verdicts
      .filter((verdict) => verdict.status === "no-go")
      .map((verdict) => ({ verdict: verdict.id, text: verdict.headline })),
  };
}
/** One bag for each kept lot, in the order in which they come off: "A-107 bag 2: tuners". */
function numberBags(steps: readonly Step[], job: string): readonly Step[] {
  let bag = 0;
  const numbered = (part: KeptPart): KeptPart => {
    bag += 1;
    return { ...part, label: `${job} bag ${bag}: ${part.label}` };
  };
  return steps.map((step) => (step.keeps.length === 0 ? step : { ...step, keeps: step.keeps.map(numbered) }));
}

/** Same things together: two steps that want one bit buy it once, plugs and the like add up. */
function shoppingList(steps: readonly Step[], works: readonly PlannedWork[]): readonly Purchase[] {
  const bought = works.flatMap(({ work }): Purchase[] =>
    work.act === "buy"
      ? [{ what: say`${work.what}${work.spec === "" ? "" : `, ${work.spec}`}`, quantity: 1, steps: [] }]
      : [],
  );
  const lines = new Map<string, Purchase>();
  for (const one of [...bought, ...steps.flatMap((step) => step.buys)]) {
    const key = showPhrase(withoutCount(one.what));
    const before = lines.get(key);
    const adds = one.quantity > 1 || (before?.quantity ?? 1) > 1;
    lines.set(
      key,
      before
        ? { ...before, quantity: adds ? before.quantity + one.quantity : 1, steps: [...before.steps, ...one.steps] }
        : { ...one, what: withoutCount(one.what) },
    );
  }
  return [...lines.values()];
}

/** "5 plugs Ø 6.0 mm" and "6 plugs Ø 6.0 mm" are one line; the quantity carries the count. */
function withoutCount(what: Phrase): Phrase {
  const [first, ...rest] = what;
  return typeof first === "string" ? [first.replace(/^\d+ plugs?/, "plugs"), ...rest] : what;
}
