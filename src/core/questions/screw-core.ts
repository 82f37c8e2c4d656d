/** A core that somebody read on a bridge screw: which counts, and whether it can be one. Rule FT23. */
import { type Known, mm, type Phrase, type Quantity, say, valueOr } from "../quantity/index.ts";

/** The deepest of the rules leaves 0.82 of the shank; above this the jaws stood on the crests. Common practice, no source. */
const MOST_OF_THREAD = 0.9;

interface Cored {
  readonly core: Quantity;
  readonly thread: Known;
}

/** Of two screws of one size the thinner counts: a hole right for it is right for both. */
export function thinnerCore(one: Quantity, other: Quantity): Quantity {
  if (!other.known) return one;
  return one.known && one.value <= other.value ? one : other;
}

/** Whether the crests were measured in place of the core: a hole as wide as that would hold nothing. */
export function acrossCrests({ core, thread }: Cored): boolean {
  return core.known && core.value > MOST_OF_THREAD * thread.value;
}

export function crestLine({ core, thread }: Cored): Phrase {
  return say`A core of ${mm(valueOr(core, Number.NaN))} in a thread of ${mm(thread.value)} was read across the crests, or the thread is wrong: read it down in the groove.`;
}
