import { readFile, rm } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from "vitest";
import { createBenchClient } from "../../../src/app/bench-client.ts";
import * as openLog from "../../../src/app/open-log.ts";
import { archiveCommand } from "../../../src/cli/commands/archive.ts";
import { bringBackCommand } from "../../../src/cli/commands/bring-back.ts";
import { exportCommand } from "../../../src/cli/commands/export.ts";
import { importCommand } from "../../../src/cli/commands/import.ts";
import { jobsCommand } from "../../../src/cli/commands/jobs.ts";
import { serveCommand } from "../../../src/cli/commands/serve.ts";
import { runCommand } from "../../../src/cli/run-cli.ts";
import type { Keeper } from "../../../src/store/index.ts";
import { allOf, FERRY, newFolder } from "../../support/ferry.ts";
import { memoryKeeper } from "../../support/memory-keeper.ts";
import { recordedIo } from "../../support/recorded-io.ts";

// Which folder is opened is tested with data-folder, and the file in it with the store.
vi.mock("../../../src/app/open-log.ts");

let folder: string;
let keeper: Keeper;
const asked: string[] = [];
beforeAll(async () => {
  folder = await newFolder();
});
afterAll(() => rm(folder, { recursive: true }));
beforeEach(() => {
  keeper = memoryKeeper();
  asked.length = 0;
  vi.mocked(openLog.openLog).mockImplementation(async (path) => {
    asked.push(path);
    return { keeper, path: join(path, "log.sqlite") };
  });
});

async function run(command: typeof jobsCommand, ...args: string[]) {
  const io = recordedIo();
  const exitCode = await runCommand("fettle", command, [...args, "--data", folder], io);
  return { exitCode, ...io.printed };
}

describe("import and jobs", () => {
  it("says what came in, that nothing differs the second time, and lists it", async () => {
    expect(await run(jobsCommand)).toEqual({
      exitCode: 0,
      out: "",
      err: "There is no such job yet. Bring one in: fettle import FILE\n",
    });
    expect(await run(importCommand, FERRY)).toEqual({
      exitCode: 0,
      out: "Brought in: B-112, Ferry, a left-handed bass.\n",
      err: "",
    });
    expect((await run(importCommand, FERRY)).out).toBe(
      "Nothing differs: B-112, Ferry, a left-handed bass, is in the log already.\n",
    );
    expect((await run(jobsCommand)).out).toMatch(/^B-112 {2}\d{4}-\d\d-\d\d \d\d:\d\d {2}Ferry, a left-handed bass\n$/);
    expect((await run(jobsCommand, "--search", "lowtide")).out).toBe("");
    expect(JSON.parse((await run(jobsCommand, "--json")).out)).toMatchObject([{ id: "B-112" }]);
    expect(new Set(asked)).toEqual(new Set([folder]));
  });

  it("tells control signs of a title from text, so that nothing moves the cursor", async () => {
    const title = "\u001b[2Jgone\u202e";
    const id = "abcd1234.00000001";
    const entry = { id, job: "X-1", device: "abcd1234", at: "2026-11-25T10:00:00.000Z", act: id, over: [] };
    await keeper.append([{ ...entry, path: "/job/title", value: title }]);
    const { out } = await run(jobsCommand);
    expect(out).toContain("\ufffd[2Jgone\ufffd");
  });

  it.each([
    [importCommand, [], "FILE: is missing."],
    [importCommand, ["a", "b"], "b: is one name too many."],
    [importCommand, ["none.yaml"], "none.yaml: there is no such file."],
    [jobsCommand, ["x"], "x: is one name too many."],
    [exportCommand, [], "JOB: is missing."],
    [exportCommand, ["B-112"], "--out: is missing. Add it, e.g. --out B-112.fettle.json."],
    [exportCommand, ["B-112", "--out", "x.fettle.json"], "B-112: is not a job of this log. Bring one in:"],
    [archiveCommand, [], "--out: is missing."],
    [bringBackCommand, [], "FILE: is missing."],
    [bringBackCommand, ["none"], "none: there is no such file."],
    [serveCommand, ["--port", "x"], '--port: cannot be "x". Use a number from 1 to 65535, e.g. --port 4717.'],
    [serveCommand, ["--port", "65536"], '--port: cannot be "65536".'],
    [serveCommand, ["x"], "x: is one name too many."],
  ] as const)("refuses %o %j with exit code 2 and the usage", async (command, args, message) => {
    const { exitCode, out, err } = await run(command, ...args);
    expect([exitCode, out]).toEqual([2, ""]);
    expect(err.replace(/\s+/g, " ")).toContain(message);
    expect(err).toContain(`usage: fettle ${command.usage}\n`);
  });
});

describe("export, archive and bring-back", () => {
  it("write what comes back", async () => {
    await run(importCommand, FERRY);
    const before = await allOf(keeper);
    const [bundle, yaml, all] = ["b.fettle.json", "b.yaml", "all.ndjson"].map((name) => join(folder, name));
    expect(await run(exportCommand, "B-112", "--out", bundle!)).toEqual({ exitCode: 0, out: `${bundle}\n`, err: "" });
    expect((await run(exportCommand, "B-112", "--out", yaml!)).out).toBe(`${yaml}\n`);
    expect((await run(archiveCommand, "--out", all!)).out).toBe(`${all}\n`);
    const again = await run(archiveCommand, "--out", all!);
    expect([again.exitCode, again.err.split("\n")[0]]).toEqual([2, expect.stringContaining("is there already")]);
    expect((await run(archiveCommand, "--out", all!, "--replace")).exitCode).toBe(0);
    expect(await readFile(yaml!, "utf8")).toMatch(/^# Ferry, a left-handed bass\n/);

    keeper = memoryKeeper();
    expect((await run(importCommand, bundle!)).out).toBe("Brought in: B-112, Ferry, a left-handed bass.\n");
    expect(await allOf(keeper)).toEqual(before);
    keeper = memoryKeeper();
    const count = before.entries.length;
    expect((await run(bringBackCommand, all!)).out).toBe(
      `${count} entries and 0 photographs read, all whole; ${count} entries were new to the log.\n`,
    );
    expect((await run(bringBackCommand, all!)).out).toContain("; 0 entries were new to the log.");
    expect(await allOf(keeper)).toEqual(before);
  });
});

describe("serve", () => {
  it("says what stands in the way, where the log is and the address; answers until it is stopped", async () => {
    await run(importCommand, FERRY);
    let stop: (() => void) | undefined;
    const io = {
      ...recordedIo(),
      version: "9.9.9",
      untilStopped: () =>
        new Promise<void>((resolve) => {
          stop = resolve;
        }),
    };
    const served = runCommand("fettle", serveCommand, ["--data", folder, "--port", "0"], io);
    await expect.poll(() => stop, { timeout: 20_000 }).toBeDefined();

    const lines = io.printed.out.trimEnd().split("\n");
    expect(lines).toHaveLength(5);
    expect(lines[0]).toMatch(/^Ferry, a left-handed bass: \d+ questions stand in the way, worst first$/);
    expect(lines[1]).toMatch(/^ {2}(?:no-go|measure|rework): .{10}/);
    expect(Math.max(...lines.slice(0, 3).map((line) => line.length))).toBeLessThanOrEqual(100);
    expect(lines[3]).toBe(`The log is ${join(folder, "log.sqlite")}`);
    const [, address = ""] = /^Open (http:\/\/127\.0\.0\.1:\d+)\/ in a browser on this computer\. Ctrl-C stops\.$/.exec(
      lines[4] ?? "",
    )!;
    const client = createBenchClient(address);
    expect(await client.who()).toMatchObject({ version: "9.9.9" });
    expect((await client.since(0, 1000)).entries).toHaveLength((await allOf(keeper)).entries.length);

    stop?.();
    expect(await served).toBe(0);
    expect(io.printed.err).toBe("Stopped.\n");
    await expect(client.who()).rejects.toThrow("does not answer");
  });

  it("opens an empty log, and one whose last job cannot be asked about yet", async () => {
    const first = await run(serveCommand, "--port", "0");
    expect(first.out).toMatch(/^No job is in the log yet\.\nThe log is /);
    const id = "abcd1234.00000001";
    const entry = { id, job: "X-1", device: "abcd1234", at: "2026-11-25T10:00:00.000Z", act: id, over: [] };
    await keeper.append([{ ...entry, path: "/job/title", value: "Half a job" }]);
    const { exitCode, out } = await run(serveCommand, "--port", "0");
    expect(exitCode).toBe(0);
    expect(out).toMatch(/^Half a job/);
    expect(out).toContain("Ctrl-C stops.");
  });
});
