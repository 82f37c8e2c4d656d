import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "libsql";
import { afterAll, describe, expect, it, vi } from "vitest";
import { InputError } from "../../src/core/errors.ts";
import { openSqliteKeeper } from "../../src/store/sqlite.ts";
import { entryAt, pictureOf } from "../support/log-entries.ts";
import { keepsItsPromises } from "./contract.ts";

const folder = mkdtempSync(join(tmpdir(), "fettle-store-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let count = 0;
const freshPath = () => {
  count += 1;
  return join(folder, `log-${count}.db`);
};
let path = "";

keepsItsPromises("SQLite", {
  fresh: () => {
    path = freshPath();
    return openSqliteKeeper(path);
  },
  again: async (keeper) => {
    await keeper.close();
    return openSqliteKeeper(path);
  },
});

describe("openSqliteKeeper", () => {
  const refusalOf = async (file: string, options = {}): Promise<unknown> =>
    openSqliteKeeper(file, options).then(
      () => "opened",
      (error: unknown) => error,
    );

  it("makes file and folders", async () => {
    const deep = join(folder, "a", "b", "log.db");
    await (await openSqliteKeeper(deep)).close();
    expect(existsSync(deep)).toBe(true);
  });

  it("[LO10] flushes at every appending, into a write-ahead log", async () => {
    const file = freshPath();
    const pragmas = vi.spyOn(Database.prototype, "pragma");
    const keeper = await openSqliteKeeper(file);
    const connection = pragmas.mock.contexts[0] as InstanceType<typeof Database>;
    pragmas.mockRestore();
    // 2 is FULL: without it a write-ahead log is flushed only now and then (SQLite's manual, PRAGMA synchronous).
    expect(connection.pragma("synchronous")).toEqual([{ synchronous: 2 }]);
    await keeper.append([entryAt(1, "/a", 1)]);
    // The header of a write-ahead log (SQLite's file format, 4.1) begins with one of two numbers.
    expect(readFileSync(`${file}-wal`).readUInt32BE(0) & ~1).toBe(0x377f0682);
    await keeper.close();
  });

  it("[LO17] refuses a file that is no database, and leaves it alone", async () => {
    const file = join(folder, "letter.txt");
    const letter = "Dear reader, this is a letter and no database. ".repeat(40);
    writeFileSync(file, letter);
    const refused = await refusalOf(file);
    expect(refused).toBeInstanceOf(InputError);
    expect((refused as Error).message).toBe(
      `${file}: is not a database. Give another file; this one was left as it is.`,
    );
    expect(readFileSync(file, "utf8")).toBe(letter);
  });

  it("[LO17] refuses another program's database, and leaves it alone", async () => {
    const file = freshPath();
    const foreign = new Database(file);
    foreign.exec("create table recipes (name text)");
    foreign.close();
    const before = readFileSync(file);
    expect(String(await refusalOf(file))).toMatch(/is another program's database\. Give another file/);
    expect(readFileSync(file).equals(before)).toBe(true);
  });

  it("[LO17] refuses a folder, and a place inside a file", async () => {
    expect(String(await refusalOf(folder))).toMatch(/cannot be opened or made\. Give a file in a folder/);
    const file = join(folder, "plain");
    writeFileSync(file, "");
    expect(String(await refusalOf(join(file, "log.db")))).toMatch(/its folder .* cannot be made\. Give a place/);
  });

  it("[LO17] says that another program holds the file, at opening and at appending, and goes on once it is free", async () => {
    const file = freshPath();
    const keeper = await openSqliteKeeper(file, { patienceMs: 20 });
    const other = new Database(file);
    other.exec("begin immediate");
    await expect(keeper.append([entryAt(1, "/a", 1)])).rejects.toThrow(
      `${file}: is held by another program. Close the other program and try again.`,
    );
    await expect(keeper.setNote("a", "b")).rejects.toThrow(/is held by another program/);
    await expect(keeper.keepPhotograph(pictureOf("image/png", 1))).rejects.toThrow(/is held by another program/);
    other.exec("commit");
    expect(await keeper.append([entryAt(1, "/a", 1)])).toEqual({ added: 1 });
    await keeper.close();
    other.close();

    const held = freshPath();
    const whole = new Database(held);
    whole.exec("begin exclusive");
    const refused = await refusalOf(held, { patienceMs: 20 });
    expect(refused).toBeInstanceOf(InputError);
    expect(String(refused)).toMatch(/is held by another program/);
    whole.exec("rollback");
    whole.close();
  });

  it("[LO17] refuses a file that a newer program wrote, and changes nothing in it", async () => {
    const file = freshPath();
    await (await openSqliteKeeper(file)).close();
    const newer = new Database(file);
    newer.exec("insert into migrations (number, name) values (9, 'from-tomorrow')");
    newer.close();
    const refused = await refusalOf(file);
    expect(refused).toBeInstanceOf(InputError);
    expect(String(refused)).toMatch(
      /was written by a newer program \(step 9; this one knows 3\)\. Update this program/,
    );
  });

  it("[LO12] lets two programs write to one file in turn", async () => {
    const file = freshPath();
    const [one, two] = [await openSqliteKeeper(file), await openSqliteKeeper(file)];
    for (let index = 0; index < 10; index += 1) {
      await one.append([entryAt(index, "/a", index, { device: "onee" })]);
      await two.append([
        entryAt(index, "/a", index, { device: "twoo" }),
        entryAt(index, "/a", index, { device: "onee" }),
      ]);
    }
    expect((await one.since(0, 100)).entries.map(({ id }) => id)).toEqual(
      (await two.entriesOf("lowtide")).map(({ id }) => id),
    );
    expect((await one.jobs({ limit: 1 })).jobs[0]?.entries).toBe(20);
    await one.close();
    await two.close();
  });
});
