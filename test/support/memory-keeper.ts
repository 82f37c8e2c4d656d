/** A keeper in memory, by the letter of the contract. */
import type { LogEntry } from "../../src/core/log/index.ts";
import type { JobLine, Keeper, Photograph } from "../../src/store/index.ts";

export function memoryKeeper(): Keeper {
  const log: LogEntry[] = [];
  const ids = new Set<string>();
  const photographs = new Map<string, Photograph>();
  const notes = new Map<string, string>();

  function lineOf(id: string): JobLine {
    const entries = log.filter(({ job }) => job === id);
    const title = entries.findLast(({ path }) => path === "/job/title")?.value;
    const changed =
      entries
        .map(({ at }) => at)
        .sort()
        .at(-1) ?? "";
    return { id, title: typeof title === "string" ? title : "", changed, entries: entries.length };
  }

  return {
    async append(entries) {
      const fresh = entries.filter(({ id }) => !ids.has(id));
      for (const entry of fresh) {
        if (ids.has(entry.id)) continue;
        ids.add(entry.id);
        log.push(structuredClone(entry));
      }
      return { added: fresh.length };
    },
    entriesOf: async (job) => log.filter((entry) => entry.job === job),
    async since(place, limit) {
      const entries = log.slice(place, place + limit);
      const next = place + entries.length;
      return { entries, place: next, more: next < log.length };
    },
    async jobs({ search = "", offset = 0, limit }) {
      const all = [...new Set(log.map(({ job }) => job))]
        .map(lineOf)
        .filter(({ title }) => title.toLowerCase().includes(search.toLowerCase()))
        .sort((a, b) => (a.changed < b.changed ? 1 : a.changed > b.changed ? -1 : 0));
      return { total: all.length, jobs: all.slice(offset, offset + limit) };
    },
    async keepPhotograph(photograph) {
      if (!photographs.has(photograph.hash)) photographs.set(photograph.hash, photograph);
    },
    photograph: async (hash) => photographs.get(hash),
    photographs: async () => [...photographs.keys()],
    note: async (key) => notes.get(key),
    async setNote(key, value) {
      notes.set(key, value);
    },
    async close() {},
  };
}
