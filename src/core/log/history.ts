/** What was done, act by act; taking an act back, and bringing it again. */
import { type Draft, stamped } from "./edits.ts";
import { createFold, type Fold, inOrder } from "./fold.ts";
import type { Json, LogEntry, Stamp } from "./types.ts";

export interface Act {
  readonly id: string;
  readonly at: string;
  readonly device: string;
  readonly words: string;
  readonly entries: readonly LogEntry[];
  /** The act that this one takes back. */
  readonly undoes?: string;
  /** Taken back by a later one that is itself in force. */
  readonly undone: boolean;
  /** It does something, or does it again; an undoing is not. */
  readonly forward: boolean;
}

/** All acts, the first first. */
export function actsOf(fold: Fold): Act[] {
  const groups = new Map<string, LogEntry[]>();
  for (const entry of [...fold.entries.values()].sort(inOrder)) {
    const group = groups.get(entry.act);
    if (group) group.push(entry);
    else groups.set(entry.act, [entry]);
  }
  const undoers = new Map<string, string[]>();
  for (const [act, [first]] of groups) {
    if (first?.undoes !== undefined) undoers.set(first.undoes, [...(undoers.get(first.undoes) ?? []), act]);
  }
  // A chain of undoing is followed to its end; an act cannot be part of its own.
  const isUndone = (act: string, seen: ReadonlySet<string> = new Set()): boolean =>
    (undoers.get(act) ?? []).some((other) => !seen.has(other) && !isUndone(other, new Set([...seen, act])));
  return [...groups].flatMap(([id, entries]) => {
    const [first] = entries;
    if (!first) return [];
    const words = entries.find((entry) => entry.words !== undefined)?.words ?? "";
    const { at, device, undoes } = first;
    const about = { id, at, device, words, entries, undone: isUndone(id), forward: isForward(groups, id) };
    return [{ ...about, ...(undoes === undefined ? {} : { undoes }) }];
  });
}

/** An undoing of an undoing is the act again: how often was it turned? */
function isForward(groups: ReadonlyMap<string, readonly LogEntry[]>, act: string): boolean {
  let forward = true;
  const seen = new Set<string>();
  for (let here = act; !seen.has(here); ) {
    seen.add(here);
    const undoes = groups.get(here)?.[0]?.undoes;
    if (undoes === undefined) break;
    forward = !forward;
    here = undoes;
  }
  return forward;
}

/** The device's act that undoing takes back next: one of which something still holds. */
export function nextToUndo(fold: Fold, acts: readonly Act[], device: string): Act | undefined {
  return acts.findLast((act) => act.device === device && !act.undone && act.forward && stillHolds(fold, act));
}

/** The undoing that is taken back next: none once something else was done. */
export function nextToRedo(fold: Fold, acts: readonly Act[], device: string): Act | undefined {
  const last = acts.findLast((act) => act.device === device && act.undoes === undefined);
  const takenBack = acts.findLast(
    (act) => act.device === device && !act.undone && !act.forward && stillHolds(fold, act),
  );
  const [done, undone] = [last?.entries[0], takenBack?.entries[0]];
  return done && undone && inOrder(done, undone) > 0 ? undefined : takenBack;
}

function stillHolds(fold: Fold, act: Act): boolean {
  return act.entries.some((entry) => holdsOrWasPutBack(fold, entry));
}

/**
 * Whether what holds at the entry's path is that entry, or an undoing that put it back. What was taken away is still away
 * as long as nothing stands there.
 */
function holdsOrWasPutBack(fold: Fold, entry: LogEntry): boolean {
  if (entry.value === undefined) {
    const there = fold.tookBranch(entry) ? fold.holdingBelow(entry.path) : fold.holding(entry.path);
    return there.every(({ value }) => value === undefined);
  }
  return fold.holding(entry.path).some((held) => standsFor(fold, held, entry));
}

/** An undoing stands for the entry whose value it put back; that may be an undoing again. */
function standsFor(fold: Fold, held: LogEntry, entry: LogEntry): boolean {
  let here: LogEntry | undefined = held;
  while (here && here.id !== entry.id) {
    const { undoes, path, over }: LogEntry = here;
    if (undoes === undefined) return false;
    const known = (ids: readonly string[]) => ids.flatMap((id) => fold.entries.get(id) ?? []);
    const undone: LogEntry | undefined = known(over).find((one) => one.act === undoes);
    here = known(undone?.over ?? [])
      .filter((one) => one.path === path)
      .sort(inOrder)
      .at(-1);
  }
  return here !== undefined;
}

export interface TakenBack {
  readonly entries: readonly LogEntry[];
  /** Paths changed since by somebody else: left as they are. */
  readonly passedOver: readonly string[];
}

/** The entries that put back what stood before an act. */
export function takeBack(fold: Fold, act: Act, stamp: Stamp, words: string): TakenBack {
  const drafts: Draft[] = [];
  const passedOver: string[] = [];
  for (const entry of act.entries) {
    const held = fold.holding(entry.path);
    if (!holdsOrWasPutBack(fold, entry)) {
      passedOver.push(entry.path);
      continue;
    }
    const before = entry.over.flatMap((id) => fold.entries.get(id) ?? []);
    // The entry itself too, where an undoing stands in its place.
    const over = [...new Set([...held.map(({ id }) => id), entry.id])];
    if (entry.value === undefined) {
      for (const [path, value] of latestByPath(before))
        if (path === entry.path) drafts.push({ path, value, over });
        else drafts.push({ path, value, over: [...new Set([...fold.holding(path).map(({ id }) => id), ...over])] });
      continue;
    }
    const value = latestByPath(before).get(entry.path);
    drafts.push({ path: entry.path, over, ...(value === undefined ? {} : { value }) });
  }
  return { entries: stamped(stamp, drafts, words, act.id), passedOver };
}

function latestByPath(entries: readonly LogEntry[]): Map<string, Json> {
  const values = new Map<string, Json>();
  for (const entry of [...entries].sort(inOrder)) if (entry.value !== undefined) values.set(entry.path, entry.value);
  return values;
}

/** The log as it stood at a time. */
export function foldUntil(fold: Fold, at: string): Fold {
  return createFold([...fold.entries.values()].filter((entry) => entry.at <= at));
}
