/**
 * A queue that gives the least first, to within a bucket: weights of one bucket are equal to it, the last in comes out
 * first. What is heavier than the last bucket goes in there.
 */
export interface Queue {
  /** Empties it; `tell` hears every item that was ever put in. */
  readonly clear: (tell: (item: number) => void) => void;
  readonly push: (item: number, weight: number) => void;
  /** An item of the lowest bucket, or -1 if there is none. */
  readonly pop: () => number;
  /** Weight of the item that came out last. */
  readonly weight: () => number;
}

const BUCKETS = 4096;
const PER_UNIT = 2;
const NONE = -1;
const FIRST_ROOM = 4096;

export function queue(): Queue {
  const heads = new Int32Array(BUCKETS).fill(NONE);
  let items = new Int32Array(FIRST_ROOM);
  let below = new Int32Array(FIRST_ROOM);
  let weights = new Float64Array(FIRST_ROOM);
  let size = 0;
  let lowest = BUCKETS;
  let popped = 0;

  function clear(tell: (item: number) => void): void {
    for (let n = 0; n < size; n++) tell(items[n] ?? NONE);
    heads.fill(NONE);
    size = 0;
    lowest = BUCKETS;
  }

  function makeRoom(): void {
    const [oldItems, oldBelow, oldWeights] = [items, below, weights];
    items = new Int32Array(2 * size);
    below = new Int32Array(2 * size);
    weights = new Float64Array(2 * size);
    items.set(oldItems);
    below.set(oldBelow);
    weights.set(oldWeights);
  }

  function push(item: number, weight: number): void {
    if (size === items.length) makeRoom();
    const bucket = Math.min(BUCKETS - 1, Math.floor(weight * PER_UNIT));
    items[size] = item;
    weights[size] = weight;
    below[size] = heads[bucket] ?? NONE;
    heads[bucket] = size++;
    if (bucket < lowest) lowest = bucket;
  }

  function pop(): number {
    while (lowest < BUCKETS && heads[lowest] === NONE) lowest++;
    if (lowest === BUCKETS) return NONE;
    const place = heads[lowest] ?? 0;
    heads[lowest] = below[place] ?? NONE;
    popped = weights[place] ?? 0;
    return items[place] ?? NONE;
  }

  return { clear, push, pop, weight: () => popped };
}
