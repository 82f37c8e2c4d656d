/**
 * What a log folds to.
 *
 * An entry holds until another that knew of it takes its place. Where two hold for one path, written without knowing of
 * each other, the later one is used (by time, then by id) and both are shown. A taking away holds for the entries that
 * its writer had seen: where somebody edited beneath it meanwhile, the edit wins, what was taken away comes back whole,
 * and that is shown. The order in which entries arrive makes no difference; a second copy changes nothing.
 * Left out: reading intent; two edits of different paths never collide.
 * Source: derived; registers that keep concurrent values: M. Shapiro and others, "A comprehensive study of convergent and
 * commutative replicated data types", 2011, section 3.2 (from memory).
 */
import { documentOf } from "./leaves.ts";
import { covers, keysOf } from "./paths.ts";
import type { Dispute, Json, LogEntry } from "./types.ts";

export interface Fold {
  /** @returns how many of them were new */
  add(entries: Iterable<LogEntry>): number;
  /** The document, and where devices disagree. */
  read(): { readonly data: Record<string, Json>; readonly disputes: readonly Dispute[] };
  /** Entries that hold at a path, the one in use first. */
  holding(path: string): readonly LogEntry[];
  /** Entries that hold at or below a path. */
  holdingBelow(path: string): readonly LogEntry[];
  /** Whether an entry took away what stood below its path, not only its value. */
  tookBranch(entry: LogEntry): boolean;
  readonly entries: ReadonlyMap<string, LogEntry>;
  /** Latest time seen; empty while there are no entries. */
  readonly latest: string;
}

export function createFold(first: Iterable<LogEntry> = []): Fold {
  const entries = new Map<string, LogEntry>();
  const replacers = new Map<string, LogEntry[]>();
  const byPath = new Map<string, LogEntry[]>();
  const takenAway = new Set<LogEntry>();
  let latest = "";
  let known: { holding: Map<string, LogEntry[]>; read: ReturnType<Fold["read"]> } | undefined;

  function add(more: Iterable<LogEntry>): number {
    let added = 0;
    for (const entry of more) {
      if (entries.has(entry.id)) continue;
      added += 1;
      entries.set(entry.id, entry);
      push(byPath, entry.path, entry);
      for (const id of entry.over) push(replacers, id, entry);
      if (entry.value === undefined) takenAway.add(entry);
      if (entry.at > latest) latest = entry.at;
    }
    if (added > 0) known = undefined;
    return added;
  }

  function tookBranch({ value, over, path }: LogEntry): boolean {
    return value === undefined && over.some((id) => (entries.get(id)?.path ?? path) !== path);
  }

  function settled() {
    known ??= fold(byPath, replacers, [...takenAway].filter(tookBranch));
    return known;
  }

  add(first);
  return {
    add,
    entries,
    tookBranch,
    read: () => settled().read,
    holding: (path) => settled().holding.get(path) ?? [],
    holdingBelow: (path) => [...settled().holding].flatMap(([one, held]) => (covers(path, one) ? held : [])),
    get latest() {
      return latest;
    },
  };
}

function push<K, V>(map: Map<K, V[]>, key: K, value: V): void {
  const list = map.get(key);
  if (list) list.push(value);
  else map.set(key, [value]);
}

/** The order of all entries, the same on every device. */
export function inOrder(a: LogEntry, b: LogEntry): number {
  if (a.at !== b.at) return a.at < b.at ? -1 : 1;
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}

function fold(
  byPath: ReadonlyMap<string, LogEntry[]>,
  replacers: ReadonlyMap<string, readonly LogEntry[]>,
  takenAway: readonly LogEntry[],
) {
  const outlived = outlivedBy(byPath, replacers, takenAway);
  const holds = (entry: LogEntry): boolean =>
    !outlived.has(entry) && (replacers.get(entry.id) ?? []).every((other) => outlived.has(other));
  const holding = new Map<string, LogEntry[]>();
  const disputes: Dispute[] = [];
  const leaves: { born: LogEntry; keys: string[]; value: Json }[] = [];
  for (const [path, all] of byPath) {
    const held = all.filter(holds).sort((a, b) => inOrder(b, a));
    const [used] = held;
    if (!used) continue;
    holding.set(path, held);
    if (held.length > 1 && new Set(held.map(({ value }) => JSON.stringify(value))).size > 1)
      disputes.push({ path, values: held.map((entry) => ({ entry, value: entry.value })) });
    if (used.value === undefined) continue;
    const born = all.reduce((first, entry) => (inOrder(entry, first) < 0 ? entry : first));
    leaves.push({ born, keys: keysOf(path), value: used.value });
  }
  for (const [entry, kept] of outlived) {
    const values = [...kept.map((edit) => ({ entry: edit, value: edit.value })), { entry, value: undefined }];
    disputes.push({ path: entry.path, values });
  }
  leaves.sort((a, b) => inOrder(a.born, b.born));
  disputes.sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : 0));
  const data = documentOf(leaves.map(({ keys, value }) => [keys, value] as const)) as Record<string, Json>;
  return { holding, read: { data, disputes } };
}

/** Takings away that an edit beneath them outlived: neither knew of the other. */
function outlivedBy(
  byPath: ReadonlyMap<string, LogEntry[]>,
  replacers: ReadonlyMap<string, readonly LogEntry[]>,
  takenAway: readonly LogEntry[],
): Map<LogEntry, LogEntry[]> {
  const outlived = new Map<LogEntry, LogEntry[]>();
  for (const gone of takenAway) {
    // One that was itself replaced has had its say.
    if (replacers.has(gone.id)) continue;
    const seen = new Set(gone.over);
    const edits: LogEntry[] = [];
    for (const [path, all] of byPath) {
      if (path === gone.path || !covers(gone.path, path)) continue;
      for (const entry of all) {
        if (entry.value === undefined || seen.has(entry.id) || replacers.has(entry.id)) continue;
        if (!knowsOf(entry, gone)) edits.push(entry);
      }
    }
    if (edits.length > 0) outlived.set(gone, edits.sort(inOrder));
  }
  return outlived;
}

/** Written after the thing was gone, by somebody who knew; or at the same stroke, where a value became a mapping. */
function knowsOf(entry: LogEntry, gone: LogEntry): boolean {
  return entry.act === gone.act || entry.over.includes(gone.id);
}
