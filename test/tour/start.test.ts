/** `npm start` as a newcomer runs it: from an empty log to a page that answers, and a clean end. */
import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { createBenchClient } from "../../src/app/bench-client.ts";

const data = mkdtempSync(join(tmpdir(), "fettle-start-"));
afterAll(() => rmSync(data, { recursive: true }));

interface Started {
  readonly program: ChildProcess;
  readonly printed: { text: string };
  readonly ended: Promise<number | null>;
}

function start(...args: string[]): Started {
  const env = { ...process.env, FETTLE_DATA: data, FETTLE_PORT: "0", NO_COLOR: "1" };
  const program = spawn(process.execPath, ["scripts/start.mjs", ...args], {
    env,
    stdio: ["ignore", "pipe", "inherit"],
  });
  const printed = { text: "" };
  program.stdout.on("data", (piece) => {
    printed.text += piece;
  });
  return { program, printed, ended: new Promise((resolve) => program.on("exit", resolve)) };
}

const READY = /Open (http:\/\/127\.0\.0\.1:\d+)\/ in a browser/;

describe("npm start", () => {
  it("begins an empty log with the demo job, says what stands in its way, and serves it", async () => {
    const { program, printed, ended } = start();
    await expect.poll(() => printed.text, { timeout: 50_000, interval: 100 }).toMatch(READY);
    expect(printed.text).toContain("Brought in: B-112, Ferry, a left-handed bass.");
    expect(printed.text).toMatch(/Ferry, a left-handed bass: \d+ questions stand in the way, worst first/);
    expect(printed.text).toContain(`The log is ${join(data, "log.sqlite")}`);
    const client = createBenchClient(READY.exec(printed.text)?.[1] ?? "");
    expect((await client.since(0, 10)).entries[0]).toMatchObject({ job: "B-112" });
    program.kill("SIGINT");
    expect(await ended).toBe(0);
    // Nothing is left beside the database: it was closed.
    expect(readdirSync(data)).toEqual(["log.sqlite"]);
  });

  it("brings a named file in first, and keeps what is there", async () => {
    const { program, printed, ended } = start("examples/lowtide.yaml");
    await expect.poll(() => printed.text, { timeout: 50_000, interval: 100 }).toMatch(READY);
    expect(printed.text).toContain("Brought in: A-107, Lowtide, a baritone conversion.");
    expect(printed.text).not.toContain("Brought in: B-112");
    program.kill("SIGTERM");
    expect(await ended).toBe(0);
  });

  it("stops with the file's own message if it cannot be read", async () => {
    const { printed, ended } = start("none.yaml");
    expect(await ended).toBe(2);
    expect(printed.text).toBe("");
  });
});
