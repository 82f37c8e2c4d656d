/** The log as the commands open it: a database in a folder, written by several programs at once. */
import { mkdir, readFile, rm, stat, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { archiveText } from "../../src/app/archive.ts";
import { createBenchClient } from "../../src/app/bench-client.ts";
import { bringBack } from "../../src/app/bring-back.ts";
import { exchange } from "../../src/app/exchange.ts";
import { importFile } from "../../src/app/import-job.ts";
import { jobInLog } from "../../src/app/job-in-log.ts";
import { type OpenLog, openLog } from "../../src/app/open-log.ts";
import { keepFile } from "../../src/app/whole-file.ts";
import { createMemoryKeeper } from "../../src/store/index.ts";
import { entriesInARow, photograph } from "../support/entries.ts";
import { allOf, FERRY, FERRY_ID, NOW, newFolder } from "../support/ferry.ts";
import { openBench } from "../support/server.ts";

let folder: string;
const open: OpenLog[] = [];
beforeAll(async () => {
  folder = await newFolder();
});
afterAll(async () => {
  await Promise.all(open.map(({ keeper }) => keeper.close()));
  await rm(folder, { recursive: true, maxRetries: 5 });
});

async function logIn(name: string): Promise<OpenLog> {
  const log = await openLog(join(folder, name));
  open.push(log);
  return log;
}

describe("the log on disk", () => {
  it("[SD1] is made where it was asked for, in a folder for its owner alone", async () => {
    const { path } = await logIn("a/deep/folder");
    expect(path).toBe(join(folder, "a/deep/folder", "log.sqlite"));
    const { mode } = await stat(join(folder, "a/deep/folder"));
    if (process.platform !== "win32") expect(mode & 0o777).toBe(0o700);
  });

  it("[SD2] has names of its own, which stay", async () => {
    const [first, other] = [await logIn("names"), await logIn("other-names")];
    const namesOf = async ({ keeper }: OpenLog) => [await keeper.note("log"), await keeper.note("device")];
    const names = await namesOf(first);
    expect(names).toEqual([expect.stringMatching(/^[a-z0-9]{20}$/), expect.stringMatching(/^[a-z0-9]{10}$/)]);
    expect(await namesOf(other)).not.toEqual(names);
    expect(await namesOf(await logIn("names"))).toEqual(names);
  });

  it("[SD1] says so if its folder cannot be made", async () => {
    await writeFile(join(folder, "file"), "");
    await expect(openLog(join(folder, "file", "log"))).rejects.toThrow(
      /: cannot be made or opened \(ENOTDIR\)\. Choose a folder of your own with --data\.$/,
    );
    await mkdir(join(folder, "broken"));
    await writeFile(join(folder, "broken", "log.sqlite"), "not a database, but longer than a header of one would be");
    await expect(openLog(join(folder, "broken"))).rejects.toThrow("is not a database");
  });

  it("[IM3] loses nothing when two programs import at once, and the server tells of both", async () => {
    const [one, two] = [await logIn("shared"), await logIn("shared")];
    await importFile(one.keeper, FERRY, NOW);
    const text = await readFile(FERRY, "utf8");
    const changed = [text.replace("frets: 20", "frets: 21"), text.replace("nutWidth: 40.0", "nutWidth: 40.5")];
    const files = changed.map((_, index) => join(folder, `changed-${index}.yaml`));
    await Promise.all(files.map((file, index) => writeFile(file, changed[index] ?? "")));

    const bench = await openBench({ keeper: one.keeper, live: { lookEveryMs: 20 } });
    const places: number[] = [];
    const live = createBenchClient(bench.address).live((place) => places.push(place));
    await expect.poll(() => places).toHaveLength(1);
    const before = places[0]!;
    const added = await Promise.all(
      [one, two].map(async ({ keeper }, index) => (await importFile(keeper, files[index]!, NOW)).added),
    );
    const { fold } = await jobInLog(one.keeper, FERRY_ID);
    expect(fold.entries.size).toBe(before + added[0]! + added[1]!);
    await expect.poll(() => places.at(-1), { timeout: 5000 }).toBe(fold.entries.size);
    live.stop();
    await bench.close();
  });

  it("is exchanged with a page's over the network, photographs too, until both are the same", async () => {
    const here = createMemoryKeeper();
    const there = (await logIn("exchanged")).keeper;
    await importFile(there, FERRY, NOW);
    await there.keepPhotograph(photograph("image/png", "there", 200_000));
    await here.append(entriesInARow(1300, "page1"));
    await here.keepPhotograph(photograph("image/jpeg", "here", 200_000));

    const bench = await openBench({ keeper: there });
    const client = createBenchClient(bench.address);
    const entries = (await allOf(there)).entries.length;
    expect(await exchange(here, await client.peer())).toEqual({
      sent: 1300,
      received: entries,
      photographsSent: 1,
      photographsReceived: 1,
    });
    expect(await allOf(here)).toEqual(await allOf(there));
    expect(await exchange(here, await client.peer())).toMatchObject({ sent: 0, received: 0, photographsSent: 0 });
    await bench.close();
  });

  it("[AR2] is brought back whole from its archive, entry for entry and byte for byte", async () => {
    const { keeper } = await logIn("shared");
    await keeper.keepPhotograph(photograph("image/webp", "kept", 100_000));
    const path = join(folder, "all.ndjson");
    await keepFile(path, archiveText(keeper, NOW), { replace: false, where: "--out" });
    const other = await logIn("brought-back");
    await bringBack(other.keeper, path);
    await bringBack(other.keeper, path);
    expect(await allOf(other.keeper)).toEqual(await allOf(keeper));
    const again = join(folder, "again.ndjson");
    await keepFile(again, archiveText(other.keeper, NOW), { replace: false, where: "--out" });
    // All but the first line, which names the log, and the last, which sums it up.
    const body = async (file: string) => (await readFile(file, "utf8")).split("\n").slice(1, -2).sort();
    expect(await body(again)).toEqual(await body(path));
  });
});
