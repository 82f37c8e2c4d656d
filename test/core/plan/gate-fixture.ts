/** Demo A at the moment before its bridge is drilled, with everything as it should be; tests take one thing away. */
import {
  type Circumstances,
  type Gate,
  gateOf,
  planTraveller,
  type Step,
  type TakenReading,
} from "../../../src/core/plan/index.ts";
import { showPhrase } from "../../../src/core/quantity/index.ts";
import type { Share, Verdict } from "../../../src/core/verdict/index.ts";
import { demoVerdicts, makeInput, makeVerdict } from "./fixture.ts";

export const share = (path: string, part: number, what = path): Share => ({ path, what, share: part, sensitivity: 1 });
const SHARES = [
  share("scaleLine.u", 0.6, "where the scale line falls"),
  share("body.holes.old-screws.u", 0.25, "the old screw row"),
  share("settings.drillingDoubt", 0.1, "how well the holes land"),
  share("strings.1.setback", 0.05),
];
export const sure = (id: string, change: Partial<Verdict> = {}): Verdict =>
  makeVerdict(id, { shares: SHARES, ...change });

/** Demo A's verdicts, the bridge's own with the values that decide it. */
export const verdicts = demoVerdicts().map((verdict) =>
  verdict.id.startsWith("bridge.") ? { ...verdict, shares: SHARES } : verdict,
);
export const plan = planTraveller(makeInput({ verdicts }));
export const DAY_1 = "2026-03-01T10:00Z";
export const DAY_3 = "2026-03-03T10:00Z";

export function step(id: string): Step {
  const found = plan.steps.find((one) => one.id === id);
  if (!found) throw new Error(`no step ${id}`);
  return found;
}

export function reading(subject: string, value: number, change: Partial<TakenReading> = {}): TakenReading {
  return { id: `${subject}-${value}-${change.placing ?? ""}`, subject, value, u: 0.15, tool: "steel rule", ...change };
}

export const READINGS: readonly TakenReading[] = [
  reading("scaleLine.u", 182, { placing: "first", tool: "transfer" }),
  reading("scaleLine.u", 182.1, { placing: "second", tool: "transfer" }),
  reading("body.holes.old-screws.u", 201.5),
  reading("body.holes.old-screws.u", 201.4, { tool: "plate laid on" }),
  // Readings and confirmations that the steps before ask for.
  ...plan.steps
    .flatMap((one) => one.readings)
    .filter((asked) => asked.subject !== "scaleLine.u")
    .map((asked) => reading(asked.subject, asked.expected?.value ?? 1)),
];

/** Everything as it should be before the bridge is drilled. */
export const READY: Circumstances = {
  steps: plan.steps,
  verdicts,
  readings: READINGS,
  done: plan.steps.map((one) => ({ step: one.id, at: DAY_1 })),
  prints: [{ sheet: "bridge-sheet", accepted: true }],
  at: DAY_3,
};

export const DRILL = step("drill-bridge-screws");
export const gate = (change: Partial<Circumstances> = {}, of: Step = DRILL): Gate =>
  gateOf(of, { ...READY, ...change });
export const without = (subject: string): readonly TakenReading[] => READINGS.filter((one) => one.subject !== subject);
export const shut = (found: Gate): string[] =>
  found.reasons.filter((reason) => !reason.ok).map((reason) => showPhrase(reason.text));
export const opens = (found: Gate): string[] =>
  found.reasons.filter((reason) => !reason.ok).map((reason) => showPhrase(reason.opens ?? []));
export const but = (id: string, change: Partial<Verdict>): readonly Verdict[] =>
  verdicts.map((verdict) => (verdict.id === id ? { ...verdict, ...change } : verdict));
