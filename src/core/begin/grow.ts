/** From the answers of one starter to a job document, purely. */
import { InputError } from "../errors.ts";
import { BRIDGE_STARTERS } from "./bridge-starters.ts";
import { CONTROL_STARTERS } from "./control-starters.ts";
import { createDraft, type Grower } from "./draft.ts";
import { OHMS_STARTER } from "./ohms-starter.ts";
import { PICKUP_STARTERS } from "./pickup-starters.ts";
import { SWITCH_STARTER } from "./switch-starter.ts";
import { THIN_STARTER } from "./thin-starter.ts";
import type { Answers, GrownJob, Starter } from "./types.ts";

const GROWERS: readonly Grower[] = [
  ...BRIDGE_STARTERS,
  ...PICKUP_STARTERS,
  ...CONTROL_STARTERS,
  SWITCH_STARTER,
  OHMS_STARTER,
  THIN_STARTER,
];

/** Questions that a job can be begun with, in the order in which they are offered. */
export const STARTERS: readonly Starter[] = GROWERS;

/**
 * A job grown from the answers to one question's entries. What is not known is left out, or stands in the file as
 * assumed and in the notes in words.
 *
 * @param answers by entry id, as typed; an entry that is left out, empty or "don't know" is not known
 * @throws InputError whose `where` is the entry that cannot be read, or the name of an entry that there is not
 * @example
 * growJob("pot", { thread: "9.5 x 9.5", wood: "7" }).data; // { fettle: …, instrument: …, parts: …, fit: … }
 */
export function growJob(starterId: string, answers: Answers): GrownJob {
  const grower = GROWERS.find((one) => one.id === starterId);
  if (!grower)
    throw new InputError(
      starterId,
      "is not a question to begin with",
      `Use one of ${GROWERS.map((one) => one.id).join(", ")}`,
    );
  for (const entry of Object.keys(answers)) {
    if (grower.entries.some((one) => one.id === entry)) continue;
    throw new InputError(
      entry,
      `is not asked in ${starterId}`,
      `Its entries are ${grower.entries.map((one) => one.id).join(", ")}`,
    );
  }
  return grower.grow(createDraft(answers, grower.entries));
}
