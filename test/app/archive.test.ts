import { readFile, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { archiveText } from "../../src/app/archive.ts";
import { bringBack } from "../../src/app/bring-back.ts";
import { keepFile } from "../../src/app/whole-file.ts";
import type { Keeper } from "../../src/store/index.ts";
import { entriesInARow, photograph } from "../support/entries.ts";
import { allOf, keeperWithFerry, NOW, newFolder } from "../support/ferry.ts";
import { memoryKeeper } from "../support/memory-keeper.ts";

let folder: string;
let keeper: Keeper;
let path: string;
let text: string;
beforeAll(async () => {
  folder = await newFolder();
  path = join(folder, "all.ndjson");
  keeper = await keeperWithFerry();
  await keeper.append(entriesInARow(1700, "page1", (index) => `line\nend \u2028 – "${index}" </script> 長`));
  for (const rest of ["one", "two"]) await keeper.keepPhotograph(photograph("image/jpeg", rest, 300_000));
  await keepFile(path, archiveText(keeper, NOW), { replace: false, where: "--out" });
  text = await readFile(path, "utf8");
});
afterAll(() => rm(folder, { recursive: true }));

const NOTHING = { entries: [], photographs: [] };

describe("an archive", () => {
  it("[AR1] says what it is, holds a line to everything, and ends in counts and a sum", () => {
    const lines = text.trimEnd().split("\n");
    expect(JSON.parse(lines[0]!)).toEqual({
      fettleArchive: 1,
      log: expect.stringMatching(/^[a-z0-9]{20}$/),
      made: "2026-11-25T12:00:00.000Z",
    });
    const { end } = JSON.parse(lines.at(-1)!);
    expect(end).toEqual({ entries: lines.length - 4, photographs: 2, sha256: expect.stringMatching(/^[0-9a-f]{64}$/) });
    expect(text.endsWith("\n")).toBe(true);
  });

  it("[AR2] brings back everything into an empty log", async () => {
    const other = memoryKeeper();
    const { entries, added, photographs } = await bringBack(other, path);
    expect([added, photographs]).toEqual([entries, 2]);
    expect(await allOf(other)).toEqual(await allOf(keeper));
    for (const hash of await keeper.photographs())
      expect((await other.photograph(hash))?.bytes).toEqual((await keeper.photograph(hash))?.bytes);
  });

  it("[AR2] twice is once, and what the log has besides stays", async () => {
    const other = memoryKeeper();
    const own = entriesInARow(3, "other1");
    await other.append(own);
    await bringBack(other, path);
    const once = await allOf(other);
    expect((await bringBack(other, path)).added).toBe(0);
    expect(await allOf(other)).toEqual(once);
    expect(await other.entriesOf("J-1")).toEqual(expect.arrayContaining(own));
  });

  it("[AR2] leaves the device's own notes alone: a log brought back elsewhere is another log", async () => {
    const other = memoryKeeper();
    await bringBack(other, path);
    expect(await other.note("log")).toBeUndefined();
  });

  it("[AR1] holds an empty log as well", async () => {
    const none = join(folder, "none.ndjson");
    await keepFile(none, archiveText(memoryKeeper(), NOW), { replace: false, where: "--out" });
    expect(await bringBack(memoryKeeper(), none)).toEqual({ entries: 0, added: 0, photographs: 0 });
  });
});

describe("[AR3] a damaged archive is refused before anything of it is written", () => {
  const lines = () => text.trimEnd().split("\n");
  const without = (at: number) => [...lines().slice(0, at), ...lines().slice(at + 1)].join("\n");
  const changed = (at: number, change: (line: string) => string) =>
    lines()
      .map((line, index) => (index === at ? change(line) : line))
      .join("\n");

  it.each<[string, () => string, RegExp]>([
    [
      "cut off within a line",
      () => text.slice(0, 20_000),
      /^bad\.ndjson: is cut off after line \d+\. Use another copy/,
    ],
    ["cut off between lines", () => `${lines().slice(0, 50).join("\n")}\n`, /^bad\.ndjson: is cut off after line 50\./],
    ["without its last line end", () => text.slice(0, -1), /^bad\.ndjson: is cut off after line \d+/],
    ["cut off after the first line", () => `${lines()[0]}\n`, /^bad\.ndjson: is cut off after line 1\./],
    [
      "with a letter changed",
      () => `${changed(20, (line) => line.replace("2026", "2025"))}\n`,
      /line \d+: does not agree/,
    ],
    [
      "with a bracket lost",
      () => `${changed(20, (line) => line.slice(0, -1))}\n`,
      /^bad\.ndjson, line 21: is not JSON/,
    ],
    ["with a line lost", () => `${without(20)}\n`, /line \d+: speaks of \d+ entries and 2 photographs, but \d+ and 2 /],
    ["with an empty line", () => `${changed(20, (line) => `${line}\n`)}\n`, /^bad\.ndjson, line 22: is not JSON/],
    [
      "with two lines changed about",
      () => {
        const all = lines();
        [all[20], all[21]] = [all[21]!, all[20]!];
        return `${all.join("\n")}\n`;
      },
      /line \d+: does not agree with the lines before it/,
    ],
    [
      "with a field that is none",
      () => `${changed(20, (line) => line.replace('"job"', '"jib"'))}\n`,
      /^bad\.ndjson, line 21\.jib: is not a field/,
    ],
    [
      "with a line of another kind",
      () => `${changed(20, () => '{"other":1}')}\n`,
      /line 21: is not a line of an archive/,
    ],
    ["with a list for a line", () => `${changed(20, () => "[1,2]")}\n`, /line 21: is not a line of an archive/],
    [
      "with a photograph changed",
      () => `${changed(lines().length - 2, (line) => line.replace("AAAA", "AAAB"))}\n`,
      /line \d+: is not the photograph that its name says/,
    ],
    ["with more behind its end", () => `${text}{"entry":1}\n`, /line \d+: stands after the archive's end/],
    [
      "with counts that are no counts",
      () => `${lines()[0]}\n{"end":{"entries":{"toString":1},"photographs":[]}}\n`,
      /line 2: speaks of/,
    ],
    ["with an end that is none", () => `${lines()[0]}\n{"end":null}\n`, /line 2: speaks of/],
    ["nested beyond reason", () => `${lines()[0]}\n${"[".repeat(100_000)}\n`, /line 2: is nested more than 48 deep/],
    [
      "of a newer version",
      () => `{"fettleArchive":2}\n`,
      /line 1: says version 2 of an archive\. Bring it back with a newer/,
    ],
    ["that is something else", () => "fettle: { job: 1 }\n", /line 1: is not JSON\. Give a file that `fettle archive`/],
    ["that is nothing", () => "", /^bad\.ndjson: is cut off after line 0/],
    ["that is one long line", () => "a".repeat(17_000_000), /line 1: is longer than any line of an archive/],
  ])("%s", async (_what, make, why) => {
    const bad = join(folder, "bad.ndjson");
    await writeFile(bad, make());
    const other = memoryKeeper();
    await expect(bringBack(other, bad)).rejects.toThrow(why);
    expect(await allOf(other)).toEqual(NOTHING);
  });

  it("with bytes that are no text", async () => {
    const bad = join(folder, "bad.ndjson");
    const bytes = Buffer.from(text);
    bytes[bytes.indexOf("\n") + 30] = 0xff;
    await writeFile(bad, bytes);
    await expect(bringBack(memoryKeeper(), bad)).rejects.toThrow("bad.ndjson, line 2: is damaged: it is not UTF-8");
  });

  it("says so of a file that is not there, or is a folder", async () => {
    await expect(bringBack(memoryKeeper(), join(folder, "no.ndjson"))).rejects.toThrow("there is no such file");
    await expect(bringBack(memoryKeeper(), folder)).rejects.toThrow("cannot be read (EISDIR)");
  });
});
