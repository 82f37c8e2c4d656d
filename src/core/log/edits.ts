/** From what a person wants changed to entries: each names those it takes the place of. */
import { InputError } from "../errors.ts";
import type { Fold } from "./fold.ts";
import { leavesOf } from "./leaves.ts";
import { itemKey, keysOf, pathOf, RANK } from "./paths.ts";
import { rankBetween } from "./rank.ts";
import type { Json, LogEntry, Stamp } from "./types.ts";

/** One change of the document; without a value the path and everything below it is taken away. */
export interface Change {
  readonly path: string;
  readonly value?: Json;
}

/** The changes that put an item with an id of its own at the end of a list. */
export function itemAtEnd(
  fold: Fold,
  list: readonly string[],
  item: { readonly [key: string]: Json; readonly id: string },
): Change[] {
  const path = pathOf(list);
  const ranks = fold
    .holdingBelow(path)
    .flatMap(({ path: one, value }) => (one.endsWith(`/${RANK}`) && typeof value === "string" ? [value] : []))
    .sort();
  const here = [...list, itemKey(item.id)];
  return [
    { path: pathOf(here), value: item },
    { path: pathOf([...here, RANK]), value: rankBetween(ranks.at(-1)) },
  ];
}

/** Digits of the running number in an id, so that ids of one device sort as they were written. */
const ID_DIGITS = 8;

/**
 * The entries of one act. A mapping or a list of named items replaces all that stands at its path: what is the same is
 * left alone, what is missing in it is taken away.
 *
 * @param words what was done, as the history shows it
 */
export function entriesFor(fold: Fold, stamp: Stamp, words: string, changes: readonly Change[]): LogEntry[] {
  const drafts = changes.flatMap((change) => draftsFor(fold, change));
  return stamped(stamp, drafts, words);
}

export interface Draft {
  readonly path: string;
  readonly value?: Json;
  readonly over: readonly string[];
}

export function stamped(stamp: Stamp, drafts: readonly Draft[], words: string, undoes?: string): LogEntry[] {
  const { job, device, from, at } = stamp;
  const idOf = (index: number) => `${device}.${(from + index).toString(36).padStart(ID_DIGITS, "0")}`;
  const act = idOf(0);
  // Fields always in this order, which checkedEntry keeps: an entry is the same text on every device.
  return drafts.map(({ path, value, over }, index) => ({
    id: idOf(index),
    job,
    device,
    at,
    act,
    path,
    ...(value === undefined ? {} : { value }),
    over,
    ...(index === 0 ? { words } : {}),
    ...(undoes === undefined ? {} : { undoes }),
  }));
}

/** Running number of an entry on its device. */
export function numberOf(entry: LogEntry): number {
  return Number.parseInt(entry.id.slice(entry.id.lastIndexOf(".") + 1), 36);
}

function draftsFor(fold: Fold, { path, value }: Change): Draft[] {
  if (path === "" && value === undefined) throw new InputError("job", "cannot be taken away", "Take a part of it away");
  const below = fold.holdingBelow(path);
  if (value === undefined) {
    const present = below.filter((entry) => entry.value !== undefined);
    return present.length === 0 ? [] : [{ path, over: present.map(({ id }) => id) }];
  }
  const wanted = leavesOf(value, keysOf(path));
  // Items keep their places unless the order itself was changed.
  const drafts: Draft[] = [...wanted].flatMap(([leaf, wantedValue]) => draftOf(fold, leaf, wantedValue));
  const ownRank = `${path}/${RANK}`;
  const gone = below.filter(
    (entry) => entry.value !== undefined && !wanted.has(entry.path) && (entry.path !== ownRank || path === ""),
  );
  for (const leaf of new Set(gone.map((entry) => entry.path)))
    drafts.push({ path: leaf, over: fold.holding(leaf).map(({ id }) => id) });
  return drafts;
}

/** Nothing where the value holds already, alone. */
function draftOf(fold: Fold, path: string, value: Json): Draft[] {
  const held = fold.holding(path);
  const gone = takenAwayAbove(fold, path);
  const [only] = held;
  if (held.length === 1 && gone.length === 0 && only?.value !== undefined && sameJson(only.value, value)) return [];
  return [{ path, value, over: [...held, ...gone].map(({ id }) => id) }];
}

/** Takings away in force over a path: who writes beneath one knows of it. */
function takenAwayAbove(fold: Fold, path: string): LogEntry[] {
  const keys = keysOf(path);
  return keys.slice(0, -1).flatMap((_, depth) => {
    const above = pathOf(keys.slice(0, depth + 1));
    return fold.holding(above).filter(fold.tookBranch);
  });
}

export function sameJson(a: Json | undefined, b: Json | undefined): boolean {
  return a === b || (a !== undefined && b !== undefined && JSON.stringify(a) === JSON.stringify(b));
}
