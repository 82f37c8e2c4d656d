/** From what line the steps tell a place: the one that the bridge's sheet and its marking-out list count from. */
import type { PlanInput } from "./types.ts";

/** What u counts from. On a glued neck there is no pocket's end wall to lay a rule against. */
export function uCountsFrom({ places, instrument }: PlanInput): string {
  const { endWallX } = instrument.scaleLine;
  const fromNut = places?.fromNut ?? (endWallX?.known === true && endWallX.value === 0);
  return fromNut ? "the nut's face" : "the pocket's end wall";
}

/** One figure on sheet, list and traveller, from one line: somebody who compares them must not have to subtract. */
export function toldFrom(input: PlanInput, u: number): { readonly mm: number; readonly words: string } {
  const register = input.places?.register;
  return register ? { mm: u - register.uMm, words: register.words } : { mm: u, words: uCountsFrom(input) };
}
