import { readFile, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { importFile } from "../../src/app/import-job.ts";
import { foldOfJob, jobInLog, loadedJob } from "../../src/app/job-in-log.ts";
import { actsOf, checkedEntry, createFold, nextToUndo, takeBack } from "../../src/core/log/index.ts";
import { allOf, FERRY, FERRY_ID, ferryData, keeperWithFerry, NOW, newFolder } from "../support/ferry.ts";
import { memoryKeeper } from "../support/memory-keeper.ts";

let folder: string;
beforeAll(async () => {
  folder = await newFolder();
});
afterAll(() => rm(folder, { recursive: true }));

async function fileOf(name: string, text: string): Promise<string> {
  const path = join(folder, name);
  await writeFile(path, text);
  return path;
}

const LATER = new Date("2026-11-26T12:00:00.000Z");

describe("importing a job file", () => {
  it("[IM1] brings the document into the log as it is, under the file's own id", async () => {
    const keeper = memoryKeeper();
    const imported = await importFile(keeper, FERRY, NOW);
    expect(imported).toEqual({
      id: FERRY_ID,
      title: "Ferry, a left-handed bass",
      added: expect.any(Number),
      fresh: true,
      unnamed: false,
    });
    const { data, fold } = await jobInLog(keeper, FERRY_ID);
    expect(data).toEqual(await ferryData());
    expect(JSON.stringify(data)).toBe(JSON.stringify(await ferryData()));
    expect((await loadedJob(keeper, FERRY_ID)).title).toBe("Ferry, a left-handed bass");
    expect(fold.entries.size).toBe(imported.added);
    expect((await keeper.jobs({ limit: 5 })).jobs).toMatchObject([{ id: FERRY_ID, title: imported.title }]);
  });

  it("[IM1] writes entries that every other device will take", async () => {
    const { entries } = (await jobInLog(await keeperWithFerry(), FERRY_ID)).fold;
    for (const entry of entries.values()) expect(checkedEntry(entry, "entry")).toEqual(entry);
    expect(actsOf(createFold(entries.values())).map(({ words }) => words)).toEqual(["imported ferry.yaml"]);
  });

  it("[IM2] twice is once", async () => {
    const keeper = await keeperWithFerry();
    const before = await allOf(keeper);
    expect(await importFile(keeper, FERRY, LATER)).toMatchObject({ id: FERRY_ID, added: 0, fresh: false });
    expect(await allOf(keeper)).toEqual(before);
  });

  it("[IM2] a changed file changes what differs, and the change can be taken back", async () => {
    const keeper = await keeperWithFerry();
    const text = await readFile(FERRY, "utf8");
    const changed = text.replace("nutWidth: 40.0 mm (calliper)", "nutWidth: 40.4 mm (calliper)");
    expect(changed).not.toBe(text);
    const imported = await importFile(keeper, await fileOf("ferry-2.yaml", changed), LATER);
    expect(imported).toMatchObject({ id: FERRY_ID, added: 1, fresh: false });

    const fold = await foldOfJob(keeper, FERRY_ID);
    const nutWidth = () => (fold.read().data.instrument as { neck: { nutWidth: string } }).neck.nutWidth;
    expect(nutWidth()).toBe("40.4 mm (calliper)");
    const acts = actsOf(fold);
    const last = acts.at(-1)!;
    expect(last.words).toBe("imported ferry-2.yaml");
    expect(nextToUndo(fold, acts, last.device)).toBe(last);
    const stamp = { job: FERRY_ID, device: last.device, from: 2, at: LATER.toISOString() };
    fold.add(takeBack(fold, last, stamp, "taken back").entries);
    expect(nutWidth()).toBe("40.0 mm (calliper)");
  });

  it("[IM3] never gives an id twice, even to imports that know nothing of each other", async () => {
    const [one, other] = [await keeperWithFerry(), await keeperWithFerry()];
    // A copy of the data folder: the device's name is the same.
    await other.setNote("device", (await one.note("device"))!);
    const text = await readFile(FERRY, "utf8");
    const path = await fileOf("ferry-3.yaml", text.replace("frets: 20", "frets: 21"));
    const elsewhere = await fileOf("ferry-4.yaml", text.replace("frets: 20", "frets: 22"));
    await importFile(one, path, LATER);
    await importFile(other, elsewhere, LATER);
    const ids = [...(await allOf(one)).entries, ...(await allOf(other)).entries].map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it("[IM3] is never earlier than what it knows of, whatever the clock says", async () => {
    const keeper = await keeperWithFerry();
    const text = (await readFile(FERRY, "utf8")).replace("frets: 20", "frets: 21");
    await importFile(keeper, await fileOf("early.yaml", text), new Date("2020-01-01T00:00:00.000Z"));
    const { fold, data } = await jobInLog(keeper, FERRY_ID);
    expect(data).toMatchObject({ instrument: { neck: { frets: 21 } } });
    expect(fold.read().disputes).toEqual([]);
    expect(fold.latest).toBe(NOW.toISOString());
  });

  it.each([
    ["no id", "title: My bass, nº 2"],
    ["an id that is no name", "{ id: my bass, title: 'My bass, nº 2' }"],
    ["an id that would be a path", "{ id: ../bass, title: 'My bass, nº 2' }"],
  ])("[IM4] draws an id for a file with %s; the same file is the same job", async (what, header) => {
    const keeper = memoryKeeper();
    const text = (await readFile(FERRY, "utf8")).replace(
      /job:\n {2}id: B-112\n {2}title: Ferry, a left-handed bass\n {2}units: mm\n {2}wants:\n(?: {4}- .*\n)+/,
      `job: ${header.includes("{") ? header : `{ ${header.replace(": ", ": '")}' }`}\n`,
    );
    const path = await fileOf(`${what.replaceAll(" ", "-")}.yaml`, text);
    const first = await importFile(keeper, path, NOW);
    expect(first).toMatchObject({ unnamed: true, fresh: true });
    expect(first.id).toMatch(/^My-bass-no-2-[a-z0-9]{6}$/);
    expect(await importFile(keeper, path, LATER)).toMatchObject({ id: first.id, added: 0, fresh: false });
  });

  it("[IM5] changes nothing for a file that is no job, and names file, line and remedy", async () => {
    const keeper = memoryKeeper();
    const broken = (await readFile(FERRY, "utf8")).replace("strings: 4", "strings: four");
    await expect(importFile(keeper, await fileOf("broken.yaml", broken), NOW)).rejects.toThrow(
      /^broken\.yaml, line \d+, instrument\.strings: /,
    );
    await expect(importFile(keeper, join(folder, "none.yaml"), NOW)).rejects.toThrow("there is no such file");
    await expect(importFile(keeper, folder, NOW)).rejects.toThrow("is a folder");
    expect(await allOf(keeper)).toEqual({ entries: [], photographs: [] });
  });

  it("[IM5] refuses figures that a log cannot keep", async () => {
    const text = `${await readFile(FERRY, "utf8")}\nlater: { a: .nan }\n`.replace("fettle: {", "fettle: { later: 1,");
    await expect(importFile(memoryKeeper(), await fileOf("nan.yaml", text), NOW)).rejects.toThrow(
      "nan.yaml: holds NaN, which is not a number",
    );
  });
});
