/**
 * The page's own log, in IndexedDB. Settled means that the browser says the transaction is complete, after it was asked
 * to flush it to the disk (`durability: "strict"`).
 * Left out: a browser that empties its stores when room is short. See askForPersistence.
 */
/// <reference lib="dom" />
import { type DBSchema, type IDBPDatabase, type IDBPTransaction, openDB, type StoreNames } from "idb";
import { InputError } from "../core/errors.ts";
import type { LogEntry } from "../core/log/index.ts";
import { byChange, byJob, type ListedJob, lineAfter, plainLine, soughtAs } from "./job-lines.ts";
import type { JobsWanted, Keeper, Photograph } from "./keeper.ts";
import { checkedHash, checkedPhotograph } from "./photographs.ts";

interface Stores extends DBSchema {
  entries: {
    key: number;
    value: { readonly place?: number; readonly id: string; readonly job: string; readonly entry: LogEntry };
    indexes: { id: string; job: string };
  };
  jobs: { key: string; value: ListedJob; indexes: { changed: string } };
  photographs: { key: string; value: Photograph };
  notes: { key: string; value: string };
}

type Upgrade = IDBPTransaction<Stores, StoreNames<Stores>[], "versionchange">;

/**
 * Steps from an older store to a newer, by number from 1. One that has been published is never changed, only followed by
 * another. All that are needed run in one transaction.
 */
const UPGRADES: readonly ((db: IDBPDatabase<Stores>, tx: Upgrade) => void | Promise<void>)[] = [
  (db) => {
    const entries = db.createObjectStore("entries", { keyPath: "place", autoIncrement: true });
    entries.createIndex("id", "id", { unique: true });
    entries.createIndex("job", "job");
  },
  async (db, tx) => {
    const jobs = db.createObjectStore("jobs", { keyPath: "id" });
    jobs.createIndex("changed", "changed");
    const lines = new Map<string, ListedJob>();
    for (let at = await tx.objectStore("entries").openCursor(); at; at = await at.continue()) {
      const { job, entry } = at.value;
      lines.set(job, lineAfter(job, lines.get(job), [entry]));
    }
    for (const line of lines.values()) await jobs.put(line);
  },
  (db) => {
    db.createObjectStore("photographs", { keyPath: "hash" });
    db.createObjectStore("notes");
  },
];

const STRICT = { durability: "strict" } as const;

/** @throws InputError if the browser keeps nothing, or a newer page has been here */
export async function openBrowserKeeper(name = "fettle"): Promise<Keeper> {
  if (typeof indexedDB === "undefined") {
    throw new InputError(WHERE, "is missing", "Open the page in a browser that keeps data");
  }
  let overtaken = false;
  const db = await said(
    openDB<Stores>(name, UPGRADES.length, {
      async upgrade(fresh, from, _to, tx) {
        for (const step of UPGRADES.slice(from)) await step(fresh, tx);
      },
      // A newer page in another tab waits for this one to let go.
      blocking(_current, _wanted, event) {
        overtaken = true;
        (event.target as IDBDatabase).close();
      },
      terminated() {
        overtaken = true;
      },
    }),
  );
  const during = async <T>(work: () => Promise<T>): Promise<T> => {
    if (overtaken) {
      const problem = "was taken over by a newer page in another tab, or closed by the browser";
      throw new InputError(WHERE, problem, "Load this page again");
    }
    return said(work());
  };

  return {
    append: (entries) => during(() => append(db, entries)),
    entriesOf: (job) => during(async () => (await db.getAllFromIndex("entries", "job", job)).map(entryOf)),
    since: (place, limit) => during(() => since(db, place, limit)),
    jobs: (wanted) => during(() => jobs(db, wanted)),
    keepPhotograph: (photograph) => during(() => keepPhotograph(db, photograph)),
    photograph: (hash) => during(async () => db.get("photographs", checkedHash(hash))),
    photographs: () => during(() => db.getAllKeys("photographs")),
    note: (key) => during(() => db.get("notes", key)),
    setNote: (key, value) => during(() => setNote(db, key, value)),
    async close() {
      db.close();
    },
  };
}

/** Asks the browser not to empty the page's stores when room is short. @returns whether it promised */
export async function askForPersistence(): Promise<boolean> {
  // Missing where the page came over plain http from another computer, and in old browsers.
  const storage: StorageManager | undefined = globalThis.navigator?.storage;
  if (storage?.persist === undefined) return false;
  return (await storage.persisted()) || (await storage.persist());
}

async function append(db: IDBPDatabase<Stores>, given: readonly LogEntry[]): Promise<{ added: number }> {
  if (given.length === 0) return { added: 0 };
  const tx = db.transaction(["entries", "jobs"], "readwrite", STRICT);
  return settled(tx, async () => {
    const [log, lines] = [tx.objectStore("entries"), tx.objectStore("jobs")];
    const fresh: LogEntry[] = [];
    for (const entry of given) {
      if ((await log.index("id").getKey(entry.id)) !== undefined) continue;
      await log.add({ id: entry.id, job: entry.job, entry });
      fresh.push(entry);
    }
    for (const [job, added] of byJob(fresh)) await lines.put(lineAfter(job, await lines.get(job), added));
    return { added: fresh.length };
  });
}

async function since(db: IDBPDatabase<Stores>, place: number, limit: number): ReturnType<Keeper["since"]> {
  const rows = await db.getAll("entries", IDBKeyRange.lowerBound(place, true), limit + 1);
  const given = rows.slice(0, limit);
  return { entries: given.map(entryOf), place: given.at(-1)?.place ?? place, more: rows.length > limit };
}

function entryOf({ entry }: { readonly entry: LogEntry }): LogEntry {
  return entry;
}

async function jobs(db: IDBPDatabase<Stores>, wanted: JobsWanted): ReturnType<Keeper["jobs"]> {
  const { search = "", offset = 0, limit } = wanted;
  const sought = soughtAs(search);
  if (sought !== "") {
    const found = (await db.getAll("jobs")).filter((line) => line.sought.includes(sought)).sort(byChange);
    return { total: found.length, jobs: found.slice(offset, offset + limit).map(plainLine) };
  }
  const tx = db.transaction("jobs");
  const total = await tx.store.count();
  const page: ListedJob[] = [];
  let at = await tx.store.index("changed").openCursor(null, "prev");
  if (offset > 0) at = (await at?.advance(offset)) ?? null;
  for (; at && page.length < limit; at = await at.continue()) page.push(at.value);
  return { total, jobs: page.map(plainLine) };
}

async function keepPhotograph(db: IDBPDatabase<Stores>, given: Photograph): Promise<void> {
  const { hash, type, bytes } = checkedPhotograph(given);
  const tx = db.transaction("photographs", "readwrite", STRICT);
  // Copied: of a view the whole buffer behind it would be kept.
  await settled(tx, () => tx.store.put({ hash, type, bytes: bytes.slice() }));
}

async function setNote(db: IDBPDatabase<Stores>, key: string, value: string): Promise<void> {
  const tx = db.transaction("notes", "readwrite", STRICT);
  await settled(tx, () => tx.store.put(value, key));
}

/** The work's result once the browser says that all of it is kept; after a failure nothing of it is. */
async function settled<T>(tx: { readonly done: Promise<void>; abort(): void }, work: () => Promise<T>): Promise<T> {
  try {
    const result = await work();
    await tx.done;
    return result;
  } catch (error) {
    // Its own rejection is waited for, so that it does not end up as one that nobody heard.
    const ended = tx.done.catch(() => undefined);
    try {
      tx.abort();
    } catch {
      // It had ended by itself.
    }
    await ended;
    throw error;
  }
}

const WHERE = "this browser's store";

/** By the browser's own name of the error. */
const REFUSALS: Readonly<Record<string, readonly [problem: string, remedy: string]>> = {
  VersionError: ["was written by a newer page", "Load this page again"],
  QuotaExceededError: [
    "is full",
    "Make room on this device, or exchange with the bench computer and take less with you",
  ],
  InvalidStateError: ["cannot be used; a private window often keeps nothing", "Open the page in an ordinary window"],
  SecurityError: ["is forbidden by the browser's settings", "Allow this page to keep data"],
  UnknownError: ["could not be read or written", "See whether the disk is full, and load the page again"],
};

async function said<T>(work: Promise<T>): Promise<T> {
  try {
    return await work;
  } catch (error) {
    const name = error instanceof Error || error instanceof DOMException ? error.name : "";
    const refusal = REFUSALS[name];
    if (!refusal) throw error;
    const refused = new InputError(WHERE, refusal[0], refusal[1]);
    refused.cause = error;
    throw refused;
  }
}
