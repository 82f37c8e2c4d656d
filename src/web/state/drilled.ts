/** Holes as a person measured them after drilling. */
import { parseQuantity } from "../../core/quantity/index.ts";
import type { Work } from "../../core/verdict/index.ts";

export interface DrilledRow {
  readonly id: string;
  readonly u: string;
  readonly y: string;
  readonly diameter: string;
  readonly depth: string;
}

type Drill = Extract<Work, { act: "drill" }>;

/** @throws InputError naming the hole and the figure that cannot be read */
export function drilledFrom(planned: Drill, rows: readonly DrilledRow[]): Drill {
  return {
    ...planned,
    holes: planned.holes.map((hole) => {
      const row = rows.find(({ id }) => id === hole.id);
      if (!row) return hole;
      const read = (field: "u" | "y" | "diameter" | "depth"): number =>
        parseQuantity(row[field], { path: `${hole.id}, ${field}`, kind: "length", bareUnit: "mm" }).value;
      const diameter = read("diameter");
      // The thread that ends up in it is no thinner than the hole.
      return {
        ...hole,
        u: read("u"),
        y: read("y"),
        diameter,
        depth: read("depth"),
        thread: Math.max(hole.thread, diameter),
      };
    }),
  };
}
