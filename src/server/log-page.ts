/** Entries for one answer: as many as were asked for, as long as they fit. */
import type { Keeper } from "../store/index.ts";

export const MOST_ENTRIES = 1000;

/** Letters after which an answer is long enough. */
const MOST_LETTERS = 2_000_000;

/** Taken first, to see how long the entries of this log are. */
const FIRST_STEP = 25;

/** @returns the answer's text: entries, where to go on, and whether there is more */
export async function logPage(keeper: Keeper, since: number, limit: number): Promise<string> {
  const texts: string[] = [];
  let [place, more, letters] = [since, true, 0];
  while (more && texts.length < limit && letters < MOST_LETTERS) {
    const page = await keeper.since(place, Math.min(stepAfter(texts.length, letters), limit - texts.length));
    ({ place, more } = page);
    for (const entry of page.entries) {
      const text = JSON.stringify(entry);
      letters += text.length;
      texts.push(text);
    }
  }
  return `{"entries":[${texts.join(",")}],"place":${place},"more":${more}}`;
}

/** Half of what would fill the answer if the rest were like what has come so far. */
function stepAfter(count: number, letters: number): number {
  if (count === 0) return FIRST_STEP;
  return Math.max(1, Math.floor((MOST_LETTERS - letters) / ((2 * letters) / count)));
}
