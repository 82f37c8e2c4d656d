/**
 * Specific gravity of body woods.
 *
 * "published": 12 % moisture row of Wood Handbook (FPL-GTR-190, 2010) table 5-3b, as reproduced in a species strength
 * table. "from memory": the same handbook's tables 5-3b / 5-5b, not read. "common practice": no table has it.
 * The basis differs (volume at 12 % moisture, or green volume: "basic"), by up to a fifth; it is stated on each row.
 * A trade name that covers several species gets the span of those species and its middle.
 */
export interface Wood {
  readonly name: string;
  /** Other names a person may write, lower case. */
  readonly alsoCalled: readonly string[];
  readonly gravity: number;
  readonly low: number;
  readonly high: number;
  readonly basis: "12 % moisture" | "basic (green volume)" | "not stated";
  readonly mark: "published" | "from memory" | "common practice" | "derived";
}

type Row = readonly [string, readonly string[], number, Wood["basis"], Wood["mark"], number?, number?];

const ROWS: readonly Row[] = [
  ["red alder", ["alder"], 0.41, "12 % moisture", "published"],
  ["white ash", ["hard ash", "northern ash"], 0.6, "12 % moisture", "published"],
  ["green ash", [], 0.56, "12 % moisture", "published"],
  ["black ash", [], 0.49, "12 % moisture", "published"],
  ["ash", ["ash, kind not said"], 0.55, "12 % moisture", "derived", 0.49, 0.6],
  ["swamp ash", ["light ash"], 0.5, "not stated", "common practice", 0.45, 0.55],
  ["basswood", ["american linden", "lime", "linden"], 0.37, "12 % moisture", "published"],
  ["sugar maple", ["hard maple", "rock maple"], 0.63, "12 % moisture", "published"],
  ["black maple", [], 0.57, "12 % moisture", "published"],
  ["red maple", ["soft maple"], 0.54, "12 % moisture", "published"],
  ["bigleaf maple", ["big-leaf maple", "western maple"], 0.48, "12 % moisture", "published"],
  ["maple", [], 0.56, "12 % moisture", "derived", 0.48, 0.63],
  ["yellow-poplar", ["poplar", "yellow poplar", "tulipwood"], 0.42, "12 % moisture", "from memory"],
  [
    "mahogany, Swietenia (basic)",
    ["mahogany", "honduran mahogany"],
    0.45,
    "basic (green volume)",
    "from memory",
    0.4,
    0.68,
  ],
  ["African mahogany, Khaya (basic)", ["african mahogany", "khaya"], 0.42, "basic (green volume)", "from memory"],
  ["black walnut", ["walnut"], 0.55, "12 % moisture", "from memory"],
  ["black cherry", ["cherry"], 0.5, "12 % moisture", "from memory"],
  ["eastern white pine", ["pine"], 0.35, "12 % moisture", "from memory"],
];

export const WOODS: readonly Wood[] = ROWS.map(([name, alsoCalled, gravity, basis, mark, low, high]) => ({
  name,
  alsoCalled,
  gravity,
  low: low ?? gravity,
  high: high ?? gravity,
  basis,
  mark,
}));

/** The row for what a person wrote, e.g. "Ash" or "white ash"; undefined if the table has none. */
export function findWood(written: string): Wood | undefined {
  const wanted = written.trim().toLowerCase();
  return WOODS.find((wood) => wood.name.toLowerCase() === wanted || wood.alsoCalled.includes(wanted));
}
