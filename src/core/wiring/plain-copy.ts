/** Plain data copied, so that sums read plain objects: what is handed to a question notes every read. */

/** Objects and arrays anew, everything else as it is. */
export function plainCopy(value: unknown): unknown {
  if (typeof value !== "object" || value === null) return value;
  if (Array.isArray(value)) return value.map(plainCopy);
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, plainCopy(inner)]));
}
