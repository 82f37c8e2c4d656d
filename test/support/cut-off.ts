/** A connection that breaks: one call from now on it fails, before the other side heard of it or after it had done it. */
import type { Peer } from "../../src/app/exchange.ts";
import type { Keeper } from "../../src/store/index.ts";

export class CutOff extends Error {
  override readonly name = "CutOff";
}

/** Counts calls; from the given one on, all fail. One number is shared by all that may break together. */
export interface Break {
  callsLeft: number;
  /** The call that breaks it is carried out, but its answer is lost. */
  readonly answerLost: boolean;
}

const NEVER: Break = { callsLeft: Number.POSITIVE_INFINITY, answerLost: false };

export function peerOf(id: string, keeper: Keeper, broken: Break = NEVER): Peer {
  return {
    id,
    since: (place, limit) => through(broken, () => keeper.since(place, limit)),
    append: (entries) => through(broken, () => keeper.append(entries)),
    photographs: () => through(broken, () => keeper.photographs()),
    photograph: (hash) => through(broken, () => keeper.photograph(hash)),
    keepPhotograph: (photograph) => through(broken, () => keeper.keepPhotograph(photograph)),
  };
}

/** The same for the own side: the page is closed in the middle of it. */
export function breaking(keeper: Keeper, broken: Break): Keeper {
  return {
    ...keeper,
    ...peerOf("", keeper, broken),
    note: (key) => through(broken, () => keeper.note(key)),
    setNote: (key, value) => through(broken, () => keeper.setNote(key, value)),
  };
}

async function through<T>(broken: Break, work: () => Promise<T>): Promise<T> {
  broken.callsLeft -= 1;
  if (broken.callsLeft > 0) return work();
  if (broken.callsLeft === 0 && broken.answerLost) await work();
  throw new CutOff("the connection is gone");
}
