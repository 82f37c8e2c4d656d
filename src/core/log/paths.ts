/**
 * Paths of the job document as text: the keys, `/` before each, with `~0` for `~` and `~1` for `/` (RFC 6901, published).
 * An item of a list whose items all have an `id` is named `#id`, and its place among its neighbours stands at `@rank`
 * beneath it; keys that begin with `#` or `@` themselves are written `~2` and `~3` (ours).
 */

export type Key = string;

export const RANK = "@rank";

export function pathOf(keys: readonly Key[]): string {
  return keys.map((key) => `/${escaped(key)}`).join("");
}

export function keysOf(path: string): Key[] {
  return path.split("/").slice(1).map(unescaped);
}

/** A key of a mapping, marked so that it cannot be taken for an item or a rank. */
export function mapKey(key: string): Key {
  return key.startsWith("#") || key.startsWith("@") ? `\u0000${key}` : key;
}

export function itemKey(id: string): Key {
  return `#${id}`;
}

export function isItem(key: Key): boolean {
  return key.startsWith("#");
}

/** The mapping's own key again. */
export function plainKey(key: Key): string {
  return key.startsWith("\u0000") ? key.slice(1) : key;
}

/** `under` is at or below `path`. */
export function covers(path: string, under: string): boolean {
  return under === path || under.startsWith(`${path}/`);
}

function escaped(key: Key): string {
  const safe = key.replaceAll("~", "~0").replaceAll("/", "~1");
  if (!safe.startsWith("\u0000")) return safe;
  return `${safe.charAt(1) === "#" ? "~2" : "~3"}${safe.slice(2)}`;
}

function unescaped(text: string): Key {
  if (text.startsWith("~2")) return `\u0000#${decoded(text.slice(2))}`;
  if (text.startsWith("~3")) return `\u0000@${decoded(text.slice(2))}`;
  return decoded(text);
}

function decoded(text: string): string {
  return text.replaceAll("~1", "/").replaceAll("~0", "~");
}
