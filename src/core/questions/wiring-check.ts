/** The wiring's check, worked out once for all questions about it. */
import type { Instrument, Wiring } from "../job/index.ts";
import type { Asking } from "../ledger/index.ts";
import { figure, type Phrase, say } from "../quantity/index.ts";
import { plainCopy, type WiringCheck, wiringCheck } from "../wiring/index.ts";

export interface Checked {
  readonly check: WiringCheck;
  readonly wiring: Wiring;
}

/** @returns undefined where the job describes no coils */
export function checkOf(asking: Asking<Instrument>): Checked | undefined {
  return asking.derive("wiring", ({ subject }) => {
    const wiring = plainCopy(subject.wiring) as Wiring | undefined;
    const check = wiringCheck(wiring);
    return wiring && check ? { wiring, check } : undefined;
  });
}

export function kohms(ohms: number): Phrase {
  return Number.isFinite(ohms) ? say`${figure(ohms / 1000, "kΩ", 2)}` : say`open`;
}

export function sentence(words: string): Phrase {
  return say`${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}
