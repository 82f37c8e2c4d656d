/** What every traveller must satisfy, and how tests look into one. */
import { expect } from "vitest";
import type { Step, Traveller } from "../../../src/core/plan/index.ts";

export function stepOf(of: Traveller, id: string): Step {
  const found = of.steps.find((one) => one.id === id);
  if (!found) throw new Error(`no step ${id} among ${of.steps.map((one) => one.id).join(", ")}`);
  return found;
}

export function comesBefore(of: Traveller, before: string, after: string): boolean {
  const ids = of.steps.map((one) => one.id);
  return ids.includes(before) && ids.includes(after) && ids.indexOf(before) < ids.indexOf(after);
}

/** Whether `before` is asked for by `after`, or by what it needs: not merely an order that happened to come out. */
export function isNeeded(of: Traveller, before: string, after: string): boolean {
  return stepOf(of, after).needsBefore.some((need) => need.step === before || isNeeded(of, before, need.step));
}

/** Every need stands above its step, and every wait fits between. */
export function expectSound(of: Traveller, done: readonly string[] = []): void {
  const at = (id: string): number => of.starts[id] ?? Number.NaN;
  for (const one of of.steps) {
    for (const need of one.needsBefore) {
      // What is done takes no more time.
      const minutes = done.includes(need.step) ? 0 : stepOf(of, need.step).minutes;
      expect(comesBefore(of, need.step, one.id), `${need.step} before ${one.id}`).toBe(true);
      expect(at(one.id)).toBeGreaterThanOrEqual(at(need.step) + minutes + need.waitMinutes);
    }
  }
  const ids = of.steps.map((one) => one.id);
  expect(new Set(ids).size).toBe(ids.length);
  for (const id of ids) expect(id).toMatch(/^[a-z0-9][a-z0-9-]{0,60}$/);
}
