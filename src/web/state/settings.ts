/** How this page likes to be read: units, light, the tool in the hand. Kept on this device, never exchanged. */
import { createSignal } from "solid-js";
import type { LengthUnit } from "../../core/quantity/index.ts";

type Light = "as the system" | "day" | "night";

function kept<T extends string>(key: string, choices: readonly T[], first: T) {
  const read = (): T => {
    try {
      const text = localStorage.getItem(`fettle ${key}`);
      return choices.find((choice) => choice === text) ?? first;
    } catch {
      return first;
    }
  };
  const [value, setValue] = createSignal<T>(read());
  const set = (next: T): void => {
    setValue(() => next);
    try {
      localStorage.setItem(`fettle ${key}`, next);
    } catch {
      // A browser that keeps nothing still works for this visit.
    }
  };
  return [value, set] as const;
}

export const [units, setUnits] = kept<LengthUnit>("units", ["mm", "inch"], "mm");
export const [paperSize, setPaperSize] = kept<"A4" | "Letter">("paper", ["A4", "Letter"], "A4");
export const [light, setLight] = kept<Light>("light", ["as the system", "day", "night"], "as the system");

/** What this person uses where one tool is asked for: said once a session. */
const used = new Map<string, string>();

export function toolFor(asked: string): string {
  return used.get(asked) ?? asked;
}

export function setToolFor(asked: string, name: string): void {
  used.set(asked, name);
}

export const TOOLS = ["steel rule", "calliper", "tape", "feeler", "transfer"] as const;
