/** Keeps nothing once it is closed: for tests, and for a page whose browser refuses to keep anything. */
import type { LogEntry } from "../core/log/index.ts";
import { byChange, byJob, type ListedJob, lineAfter, plainLine, soughtAs } from "./job-lines.ts";
import type { Keeper, Photograph } from "./keeper.ts";
import { checkedHash, checkedPhotograph } from "./photographs.ts";

export function createMemoryKeeper(): Keeper {
  const log: LogEntry[] = [];
  const ids = new Set<string>();
  const lines = new Map<string, ListedJob>();
  const pictures = new Map<string, Photograph>();
  const notes = new Map<string, string>();

  return {
    async append(entries) {
      const fresh = entries.filter(({ id }) => !ids.has(id) && ids.add(id));
      log.push(...fresh);
      for (const [job, added] of byJob(fresh)) lines.set(job, lineAfter(job, lines.get(job), added));
      return { added: fresh.length };
    },
    async entriesOf(job) {
      return log.filter((entry) => entry.job === job);
    },
    async since(place, limit) {
      const entries = log.slice(place, place + limit);
      return { entries, place: place + entries.length, more: place + entries.length < log.length };
    },
    async jobs({ search = "", offset = 0, limit }) {
      const sought = soughtAs(search);
      const found = [...lines.values()].filter((line) => line.sought.includes(sought)).sort(byChange);
      return { total: found.length, jobs: found.slice(offset, offset + limit).map(plainLine) };
    },
    async keepPhotograph(photograph) {
      const { hash, type, bytes } = checkedPhotograph(photograph);
      pictures.set(hash, { hash, type, bytes: bytes.slice() });
    },
    async photograph(hash) {
      return pictures.get(checkedHash(hash));
    },
    async photographs() {
      return [...pictures.keys()].sort();
    },
    async note(key) {
      return notes.get(key);
    },
    async setNote(key, value) {
      notes.set(key, value);
    },
    async close() {},
  };
}
