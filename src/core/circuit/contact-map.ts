/** Which lugs of a switch are joined in each of its positions: data, so that the switch in the hand can be entered. */
import { InputError } from "../errors.ts";

export interface ContactMap {
  readonly lugs: readonly string[];
  /** In the order in which the switch goes through them. */
  readonly positions: readonly {
    readonly name: string;
    /** Groups of lugs that are one while it stands there. */
    readonly joined: readonly (readonly string[])[];
  }[];
  readonly timing: "break before make" | "make before break" | "not known";
}

/** @throws InputError for a position without a name of its own, a lug that there is not, or one in two groups */
export function checkContactMap(map: ContactMap, where: string): void {
  const names = new Set<string>();
  for (const { name, joined } of map.positions) {
    if (names.has(name)) throw new InputError(where, `position "${name}" stands twice`, "Name each position once");
    names.add(name);
    const seen = new Set<string>();
    for (const lug of joined.flat()) {
      if (!map.lugs.includes(lug))
        throw new InputError(
          `${where}, position ${name}`,
          `"${lug}" is not a lug of this switch`,
          `Its lugs are ${map.lugs.join(", ")}`,
        );
      if (seen.has(lug))
        throw new InputError(
          `${where}, position ${name}`,
          `"${lug}" stands in two groups`,
          "Lugs that are joined with one lug are joined with each other: write one group",
        );
      seen.add(lug);
    }
  }
}

/** Groups joined in a position; none for a position that there is not. */
export function joinedIn(map: ContactMap, position: string): readonly (readonly string[])[] {
  return map.positions.find(({ name }) => name === position)?.joined ?? [];
}
