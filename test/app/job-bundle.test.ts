import { readFile, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openJob } from "../../src/app/assess-job.ts";
import { exportJob } from "../../src/app/export-job.ts";
import { importFile } from "../../src/app/import-job.ts";
import { jobInLog } from "../../src/app/job-in-log.ts";
import { entriesFor } from "../../src/core/log/index.ts";
import type { Keeper } from "../../src/store/index.ts";
import { photograph } from "../support/entries.ts";
import { allOf, FERRY_ID, keeperWithFerry, NOW, newFolder } from "../support/ferry.ts";
import { memoryKeeper } from "../support/memory-keeper.ts";

const shown = photograph("image/jpeg", "the body");
const forgotten = photograph("image/png", "taken away again");
const foreign = photograph("image/webp", "of another job");
const OPTIONS = { replace: true, where: "--out" };

let folder: string;
let keeper: Keeper;
let path: string;
let bundle: { entries: { id: string; job: string; value?: unknown }[]; photographs: { base64: string }[] };
beforeAll(async () => {
  folder = await newFolder();
  path = join(folder, "ferry.fettle.json");
  keeper = await keeperWithFerry();
  for (const one of [shown, forgotten, foreign]) await keeper.keepPhotograph(one);
  let from = 1;
  const write = async (value: string | undefined): Promise<void> => {
    const { fold } = await jobInLog(keeper, FERRY_ID);
    const stamp = { job: FERRY_ID, device: "page1", from, at: "2026-11-25T13:00:00.000Z" };
    const change = { path: "/job/notes", ...(value === undefined ? {} : { value }) };
    const entries = entriesFor(fold, stamp, "noted", [change]);
    from += entries.length;
    await keeper.append(entries);
  };
  await write(`see ${forgotten.hash}`);
  await write(`see ${shown.hash}: – ½ "quoted" </script>`);
  await exportJob(keeper, FERRY_ID, path, OPTIONS);
  bundle = JSON.parse(await readFile(path, "utf8"));
});
afterAll(() => rm(folder, { recursive: true }));

async function damaged(name: string, change: (copy: typeof bundle & Record<string, unknown>) => void) {
  const copy = structuredClone(bundle) as typeof bundle & Record<string, unknown>;
  change(copy);
  const file = join(folder, `${name}.fettle.json`);
  await writeFile(file, JSON.stringify(copy));
  return file;
}

describe("the bundle of a job", () => {
  it("[BU1] comes back as the same entries, the same document and the same photographs", async () => {
    const other = memoryKeeper();
    expect(await importFile(other, path, NOW)).toMatchObject({
      id: FERRY_ID,
      title: "Ferry, a left-handed bass",
      fresh: true,
      added: bundle.entries.length,
    });
    const [here, there] = [await allOf(keeper), await allOf(other)];
    expect(there.entries).toEqual(here.entries);
    expect(there.photographs).toEqual([shown.hash, forgotten.hash].sort());
    expect((await jobInLog(other, FERRY_ID)).data).toEqual((await jobInLog(keeper, FERRY_ID)).data);
    expect((await other.photograph(shown.hash))?.bytes).toEqual(shown.bytes);
  });

  it("[BU2] holds the photographs that its entries ever spoke of, and no other job's", () => {
    expect(bundle.photographs.map(({ base64 }) => base64).sort()).toEqual(
      [shown, forgotten].map(({ bytes }) => Buffer.from(bytes).toString("base64")).sort(),
    );
  });

  it("[BU2] says what it is, and holds the document for people and other programs", () => {
    expect(bundle).toMatchObject({
      fettleBundle: 1,
      job: FERRY_ID,
      title: "Ferry, a left-handed bass",
      document: { job: { id: FERRY_ID } },
    });
  });

  it("[IM2] twice is once, and adds to what another device wrote meanwhile", async () => {
    const other = await keeperWithFerry();
    const before = (await allOf(other)).entries.length;
    await importFile(other, path, NOW);
    const once = await allOf(other);
    expect(once.entries.length).toBe(before + bundle.entries.length);
    expect(await importFile(other, path, NOW)).toMatchObject({ added: 0, fresh: false });
    expect(await allOf(other)).toEqual(once);
  });

  it("is known by how it begins, too", async () => {
    const plain = join(folder, "renamed.json");
    await writeFile(plain, await readFile(path));
    expect(await importFile(memoryKeeper(), plain, NOW)).toMatchObject({ id: FERRY_ID, fresh: true });
  });
});

describe("[BU3] a damaged bundle changes nothing", () => {
  it.each<[string, (copy: typeof bundle & Record<string, unknown>) => void, RegExp]>([
    ["newer", (b) => Object.assign(b, { fettleBundle: 2 }), /is a bundle of version 2\. Open it with a newer Fettle/],
    ["odd-version", (b) => Object.assign(b, { fettleBundle: { toString: 1 } }), /is a bundle of version/],
    ["unnamed", (b) => Object.assign(b, { job: "../x" }), /does not name its job/],
    ["no-entries", (b) => Object.assign(b, { entries: {} }), /has no entries/],
    ["empty", (b) => Object.assign(b, { entries: [] }), /has no entries/],
    ["no-photographs", (b) => Object.assign(b, { photographs: 1 }), /has no list of photographs/],
    ["entry", (b) => Object.assign(b.entries[3]!, { path: 1 }), /entries\[3\]\.path: is not a path/],
    ["other-job", (b) => Object.assign(b.entries[3]!, { job: "X-1" }), /entries\[3\] belongs to another job, X-1/],
    ["value", (b) => Object.assign(b.entries[3]!, { value: "other" }), /was changed by hand/],
    ["missing-entry", (b) => b.entries.splice(3, 1), /was changed by hand/],
    ["by-hand", (b) => Object.assign(b, { document: {} }), /was changed by hand: .* Export the job as \.yaml/],
    ["null", (b) => Object.assign(b, { document: null }), /was changed by hand/],
    ["picture", (b) => Object.assign(b.photographs[0]!, { base64: "AAAA" }), /photographs\[0\]: is not a JPEG, PNG/],
    ["base64", (b) => Object.assign(b.photographs[0]!, { base64: "<img>" }), /photographs\[0\]: is not a photograph/],
    ["hash", (b) => Object.assign(b.photographs[0]!, { hash: "a".repeat(64) }), /is not the photograph that its name/],
    ["no-photograph", (b) => Object.assign(b, { photographs: [null] }), /photographs\[0\]: is not a photograph/],
  ])("%s", async (name, change, why) => {
    const other = memoryKeeper();
    await expect(importFile(other, await damaged(name, change), NOW)).rejects.toThrow(why);
    expect(await allOf(other)).toEqual({ entries: [], photographs: [] });
  });

  it("cut off, or nested beyond reason", async () => {
    const file = join(folder, "cut.fettle.json");
    const text = await readFile(path, "utf8");
    for (const [part, why] of [
      [text.slice(0, -20), /cut\.fettle\.json: is not JSON\. Export the job again/],
      [`{"fettleBundle":${"[".repeat(100_000)}`, /nested more than 48 deep/],
      ["", /is not JSON/],
      ["[1]", /is not a bundle of a job/],
    ] as const) {
      await writeFile(file, part);
      await expect(importFile(memoryKeeper(), file, NOW)).rejects.toThrow(why);
    }
  });
});

describe("exporting", () => {
  it("[BU4] writes the document alone as YAML, which is the same job when it comes back", async () => {
    const yaml = join(folder, "ferry.yaml");
    await exportJob(keeper, FERRY_ID, yaml, OPTIONS);
    expect((await openJob(yaml)).file.data).toEqual((await jobInLog(keeper, FERRY_ID)).data);
    expect(await importFile(keeper, yaml, NOW)).toMatchObject({ id: FERRY_ID, added: 0 });
  });

  it.each(["ferry", "ferry.json", "ferry.txt"])("[BU4] asks what to write for %s", async (name) => {
    await expect(exportJob(keeper, FERRY_ID, join(folder, name), OPTIONS)).rejects.toThrow(
      /^--out: cannot tell from .* End the name in \.fettle\.json .*, in \.yaml for the document alone/,
    );
  });

  it("names jobs that there are, and leaves nothing behind", async () => {
    const none = join(folder, "none.fettle.json");
    await expect(exportJob(keeper, "B-113", none, OPTIONS)).rejects.toThrow(
      "B-113: is not a job of this log. Use one of B-112.",
    );
    await expect(readFile(none)).rejects.toThrow();
  });

  it("replaces a file only when that was said", async () => {
    await expect(exportJob(keeper, FERRY_ID, path, { ...OPTIONS, replace: false })).rejects.toThrow("is there already");
  });
});
