/**
 * A document as leaves: single values by path, and back. Mappings are opened, and lists whose items all have an `id` of
 * their own; any other list is one value. An empty mapping or list is a value as long as nothing stands below it.
 */
import { isItem, itemKey, mapKey, pathOf, plainKey, RANK } from "./paths.ts";
import { ranksFor } from "./rank.ts";
import type { Json } from "./types.ts";

/** Leaves in the order of the document. */
export function leavesOf(data: Json, above: readonly string[] = []): Map<string, Json> {
  const leaves = new Map<string, Json>();
  addLeaves(data, above, leaves);
  return leaves;
}

function addLeaves(value: Json, keys: readonly string[], leaves: Map<string, Json>): void {
  if (isNamedList(value)) {
    const ranks = ranksFor(value.length);
    value.forEach((item, index) => {
      const here = [...keys, itemKey(item.id)];
      leaves.set(pathOf([...here, RANK]), ranks[index] ?? "");
      for (const [key, inner] of Object.entries(item)) addLeaves(inner, [...here, mapKey(key)], leaves);
    });
    return;
  }
  const entries = isMapping(value) ? Object.entries(value) : [];
  if (entries.length === 0) leaves.set(pathOf(keys), value);
  for (const [key, inner] of entries) addLeaves(inner, [...keys, mapKey(key)], leaves);
}

type Mapping = { readonly [key: string]: Json };

function isMapping(value: Json): value is Mapping {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function isNamedList(value: Json): value is readonly (Mapping & { readonly id: string })[] {
  if (!Array.isArray(value) || value.length === 0) return false;
  const ids = value.map((item: Json) => (isMapping(item) && typeof item.id === "string" ? item.id : undefined));
  return !ids.includes(undefined) && new Set(ids).size === ids.length;
}

interface Branch {
  readonly below: Map<string, Branch>;
  value?: Json;
}

/** The document of some leaves, which come in the order wanted of its keys. A value gives way to what stands below it. */
export function documentOf(leaves: Iterable<readonly [keys: readonly string[], value: Json]>): Json {
  const root: Branch = { below: new Map() };
  for (const [keys, value] of leaves) {
    let branch = root;
    for (const key of keys) {
      const next = branch.below.get(key) ?? { below: new Map() };
      branch.below.set(key, next);
      branch = next;
    }
    branch.value = value;
  }
  return jsonOf(root) ?? {};
}

function jsonOf({ below, value }: Branch): Json | undefined {
  const items = [...below].filter(([key]) => isItem(key));
  if (items.length > 0)
    return items
      .map(itemOf)
      .sort(byRank)
      .map(({ item }) => item);
  const entries = [...below].flatMap(([key, branch]) => {
    const inner = key === RANK ? undefined : jsonOf(branch);
    return inner === undefined ? [] : [[plainKey(key), inner] as const];
  });
  return entries.length > 0 ? mappingOf(entries) : value;
}

/** Not by assignment: `__proto__` is a key like any other here. */
function mappingOf(entries: readonly (readonly [string, Json])[]): Mapping {
  return Object.fromEntries(entries);
}

interface RankedItem {
  readonly item: Json;
  readonly rank: string;
  readonly key: string;
}

function itemOf([key, branch]: readonly [string, Branch]): RankedItem {
  const rank = branch.below.get(RANK)?.value;
  const item = jsonOf(branch);
  // An edit that outlived its item: enough to be seen, and to be told apart.
  const whole = item !== undefined && isMapping(item) && !("id" in item) ? { id: key.slice(1), ...item } : item;
  return { item: whole ?? { id: key.slice(1) }, rank: typeof rank === "string" ? rank : "", key };
}

function byRank(a: RankedItem, b: RankedItem): number {
  if (a.rank !== b.rank) return a.rank < b.rank ? -1 : 1;
  return a.key < b.key ? -1 : 1;
}
