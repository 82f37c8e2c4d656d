import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "libsql";
import { afterAll, describe, expect, it } from "vitest";
import { createFold } from "../../src/core/log/index.ts";
import { openSqliteKeeper } from "../../src/store/sqlite.ts";
import { pictureOf, titleAt } from "../support/log-entries.ts";

const folder = mkdtempSync(join(tmpdir(), "fettle-old-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A file as an earlier program left it. */
function oldFile(name: string, more = ""): string {
  const file = join(folder, `${name}-${Math.abs(more.length)}.db`);
  const database = new Database(file);
  database.exec(readFileSync(`test/fixtures/store/${name}.sql`, "utf8"));
  if (more) database.exec(more);
  database.close();
  return file;
}

function rowsOf(file: string, question: string): unknown[] {
  const database = new Database(file);
  const rows = database.prepare(question).all();
  database.close();
  return rows;
}

describe("[LO17] a log that the first program wrote", () => {
  it("is listed with its titles, and has lost nothing", async () => {
    const file = oldFile("log-after-0001");
    const before = rowsOf(file, "select place, id, job, json from entries order by place");
    expect(before).toHaveLength(12);

    const keeper = await openSqliteKeeper(file);
    expect(await keeper.jobs({ limit: 10 })).toEqual({
      total: 2,
      jobs: [
        { id: "lowtide", title: "Lowtide bass", changed: "2026-03-01T08:20:00.000Z", entries: 10 },
        { id: "ferry", title: "", changed: "2026-03-01T08:15:00.000Z", entries: 2 },
      ],
    });
    expect((await keeper.jobs({ limit: 10, search: "TIDE" })).total).toBe(1);
    const { entries } = await keeper.since(0, 100);
    expect(entries.map((entry) => JSON.stringify(entry))).toEqual(before.map((row) => (row as { json: string }).json));
    expect(createFold(await keeper.entriesOf("lowtide")).read()).toEqual({
      data: {
        job: { title: "Lowtide bass" },
        instrument: { body: { thickness: "44.5 mm (calliper)" } },
        parts: [{ id: "bridge", screws: 5 }],
      },
      disputes: [],
    });
    await keeper.close();
    expect(rowsOf(file, "select place, id, job, json from entries order by place")).toEqual(before);
  });

  it("goes on from there: entries, titles, photographs and notes", async () => {
    const file = oldFile("log-after-0001", "select 1;");
    const keeper = await openSqliteKeeper(file);
    expect(await keeper.append([titleAt(90, "Ferry again", "ferry"), ...(await keeper.entriesOf("lowtide"))])).toEqual({
      added: 1,
    });
    expect((await keeper.since(12, 10)).place).toBe(13);
    await keeper.keepPhotograph(pictureOf("image/png", 1));
    await keeper.setNote("device", "bench");
    await keeper.close();
    const again = await openSqliteKeeper(file);
    expect((await again.jobs({ limit: 10 })).jobs.map(({ title }) => title)).toEqual(["Ferry again", "Lowtide bass"]);
    expect(await again.photographs()).toHaveLength(1);
    expect(await again.note("device")).toBe("bench");
    await again.close();
    expect(rowsOf(file, "select number, name from migrations order by number")).toEqual([
      { number: 1, name: "log" },
      { number: 2, name: "jobs-list" },
      { number: 3, name: "photographs-and-notes" },
    ]);
  });

  it("stays as it was where a step fails half way", async () => {
    const file = oldFile("log-after-0001", "insert into entries (id, job, json) values ('x', 'odd', 'no json');");
    const tables = "select name from sqlite_master where type = 'table' order by name";
    const before = [
      rowsOf(file, tables),
      rowsOf(file, "select * from migrations"),
      rowsOf(file, "select * from entries"),
    ];
    await expect(openSqliteKeeper(file)).rejects.toThrow(SyntaxError);
    expect([
      rowsOf(file, tables),
      rowsOf(file, "select * from migrations"),
      rowsOf(file, "select * from entries"),
    ]).toEqual(before);
  });
});
