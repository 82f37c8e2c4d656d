import "fake-indexeddb/auto";
import { openDB } from "idb";
import { afterEach, describe, expect, it, vi } from "vitest";
import { InputError } from "../../src/core/errors.ts";
import { askForPersistence, openBrowserKeeper } from "../../src/store/browser.ts";
import { entryAt, pictureOf, titleAt } from "../support/log-entries.ts";
import { keepsItsPromises } from "./contract.ts";

let count = 0;
const freshName = () => {
  count += 1;
  return `log-${count}`;
};
let name = "";

keepsItsPromises("IndexedDB", {
  fresh: () => {
    name = freshName();
    return openBrowserKeeper(name);
  },
  again: async (keeper) => {
    await keeper.close();
    return openBrowserKeeper(name);
  },
});

describe("openBrowserKeeper", () => {
  it("[LO17] takes a log of the first page over", async () => {
    const here = freshName();
    const old = [titleAt(1, "Lowtide", "lowtide"), entryAt(2, "/a", 1), titleAt(3, "Ferry", "ferry")];
    const db = await openDB(here, 1, {
      upgrade(fresh) {
        const entries = fresh.createObjectStore("entries", { keyPath: "place", autoIncrement: true });
        entries.createIndex("id", "id", { unique: true });
        entries.createIndex("job", "job");
      },
    });
    for (const entry of old) await db.add("entries", { id: entry.id, job: entry.job, entry });
    db.close();
    const keeper = await openBrowserKeeper(here);
    expect((await keeper.since(0, 10)).entries).toEqual(old);
    expect((await keeper.jobs({ limit: 5 })).jobs.map(({ title, entries }) => [title, entries])).toEqual([
      ["Ferry", 1],
      ["Lowtide", 2],
    ]);
    await keeper.keepPhotograph(pictureOf("image/png", 1));
    expect(await keeper.append(old)).toEqual({ added: 0 });
  });

  it("[LO17] refuses a store that a newer page wrote", async () => {
    const here = freshName();
    (await openDB(here, 40)).close();
    const refused = await openBrowserKeeper(here).catch((error: unknown) => error);
    expect(refused).toBeInstanceOf(InputError);
    expect(String(refused)).toMatch(/this browser's store: was written by a newer page\. Load this page again\.$/);
  });

  it("lets a newer page in another tab in, and then says why it stopped", async () => {
    const here = freshName();
    const keeper = await openBrowserKeeper(here);
    await keeper.append([entryAt(1, "/a", 1)]);
    const newer = await openDB(here, 40);
    await expect(keeper.append([entryAt(2, "/a", 2)])).rejects.toThrow(/taken over by a newer page.*\. Load this page/);
    expect(await newer.count("entries")).toBe(1);
    newer.close();
  });

  it("[LO10] asks for the disk, and settles only when the transaction is complete", async () => {
    const asked: unknown[] = [];
    const real = IDBDatabase.prototype.transaction;
    let complete = 0;
    const spy = vi.spyOn(IDBDatabase.prototype, "transaction").mockImplementation(function (
      this: IDBDatabase,
      ...args
    ) {
      const tx = real.apply(this, args);
      if (args[1] === "readwrite") {
        asked.push(args[2]);
        tx.addEventListener("complete", () => {
          complete += 1;
        });
      }
      return tx;
    });
    const keeper = await openBrowserKeeper(freshName());
    const steps = [
      () => keeper.append([entryAt(1, "/a", 1)]),
      () => keeper.keepPhotograph(pictureOf("image/png", 1)),
      () => keeper.setNote("a", "b"),
    ];
    for (const [index, step] of steps.entries()) {
      await step();
      expect(complete).toBe(index + 1);
    }
    expect(asked).toEqual(steps.map(() => ({ durability: "strict" })));
    spy.mockRestore();
  });

  it("[LO12] keeps nothing of a batch in which something fails", async () => {
    const keeper = await openBrowserKeeper(freshName());
    const odd = { ...entryAt(2, "/a"), value: (() => 1) as unknown as number };
    await expect(keeper.append([entryAt(1, "/a", 1), odd])).rejects.toThrow();
    expect((await keeper.since(0, 10)).entries).toEqual([]);
    expect(await keeper.append([entryAt(1, "/a", 1)])).toEqual({ added: 1 });
  });
});

describe("askForPersistence", () => {
  afterEach(() => vi.unstubAllGlobals());

  it.each([
    ["promised before", { persisted: async () => true, persist: async () => false }, true],
    ["promised now", { persisted: async () => false, persist: async () => true }, true],
    ["not promised", { persisted: async () => false, persist: async () => false }, false],
    ["nobody to ask", undefined, false],
  ])("says %s", async (_what, storage, answer) => {
    vi.stubGlobal("navigator", { storage });
    expect(await askForPersistence()).toBe(answer);
  });
});
