/** A queue that gives the least first: a binary heap of numbers with a weight each. */
export interface Queue {
  readonly size: () => number;
  readonly push: (item: number, weight: number) => void;
  /** The item of the least weight, or -1 if there is none. */
  readonly pop: () => number;
}

export function queue(): Queue {
  const items: number[] = [];
  const weights: number[] = [];
  const weightAt = (n: number): number => weights[n] ?? Number.POSITIVE_INFINITY;

  function put(n: number, item: number, weight: number): void {
    items[n] = item;
    weights[n] = weight;
  }

  function copy(from: number, to: number): void {
    put(to, items[from] ?? -1, weightAt(from));
  }

  function push(item: number, weight: number): void {
    let n = items.length;
    put(n, item, weight);
    while (n > 0) {
      const parent = (n - 1) >> 1;
      if (weightAt(parent) <= weight) break;
      copy(parent, n);
      n = parent;
    }
    put(n, item, weight);
  }

  function pop(): number {
    const least = items[0] ?? -1;
    const item = items.pop();
    const weight = weights.pop();
    if (item === undefined || weight === undefined || items.length === 0) return least;
    let n = 0;
    for (;;) {
      const left = 2 * n + 1;
      if (left >= items.length) break;
      const child = weightAt(left + 1) < weightAt(left) ? left + 1 : left;
      if (weightAt(child) >= weight) break;
      copy(child, n);
      n = child;
    }
    put(n, item, weight);
    return least;
  }

  return { size: () => items.length, push, pop };
}
