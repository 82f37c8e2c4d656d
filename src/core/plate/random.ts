/**
 * Numbers from 0 to 1 that look drawn by chance and are the same each time.
 *
 * Source: the 32-bit generator "mulberry32" (public domain, from memory).
 */
export function drawsFrom(start: number): () => number {
  let state = start >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** The same things in another order. */
export function shuffled<T>(things: readonly T[], draw: () => number): T[] {
  return things
    .map((thing) => ({ thing, place: draw() }))
    .sort((a, b) => a.place - b.place)
    .map(({ thing }) => thing);
}
