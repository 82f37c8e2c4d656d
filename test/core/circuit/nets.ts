import type { ContactMap } from "../../../src/core/circuit/contact-map.ts";
import { joinedIn } from "../../../src/core/circuit/contact-map.ts";

/** Which points are one, by wires and by the switch in a position; apart from the program's own joining. */
export function netsOf(
  map: ContactMap,
  position: string,
  wires: readonly (readonly string[])[],
): (a: string, b: string) => boolean {
  const links = [...joinedIn(map, position), ...wires];
  const reach = (from: string): Set<string> => {
    const seen = new Set([from]);
    for (let size = 0; size !== seen.size; ) {
      size = seen.size;
      for (const link of links) if (link.some((one) => seen.has(one))) for (const one of link) seen.add(one);
    }
    return seen;
  };
  return (a, b) => reach(a).has(b);
}
