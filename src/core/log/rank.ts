/**
 * Places in a list that can always be parted: a text between any two texts, in the order of their letters. A move then
 * changes one item alone, and two devices that insert at one place both keep what they inserted.
 * Source: derived (a binary fraction written in base 36 without trailing noughts).
 */

const DIGITS = "0123456789abcdefghijklmnopqrstuvwxyz";
const BASE = DIGITS.length;

/**
 * A rank after `before` and ahead of `after`; left out: the list's end on that side.
 *
 * @example
 * rankBetween("i", undefined); // "r"
 */
export function rankBetween(before = "", after?: string): string {
  let rank = "";
  let upper = after;
  for (let place = 0; ; place += 1) {
    const low = digit(before[place]);
    const high = upper === undefined ? BASE : digit(upper[place]);
    if (high - low > 1) return rank + DIGITS[(low + high) >> 1];
    rank += DIGITS[low];
    // Below the upper end already: from here on anything will do.
    if (high > low) upper = undefined;
  }
}

function digit(letter: string | undefined): number {
  return letter === undefined ? 0 : Math.max(0, DIGITS.indexOf(letter));
}

/** Ranks for a list written at one stroke, evenly spread. */
export function ranksFor(count: number): string[] {
  const width = Math.max(2, Math.ceil(Math.log(count + 1) / Math.log(BASE)));
  const whole = BASE ** width;
  return Array.from({ length: count }, (_, index) => {
    const value = Math.floor(((index + 1) * whole) / (count + 1));
    return value.toString(BASE).padStart(width, "0").replace(/0+$/, "");
  });
}
