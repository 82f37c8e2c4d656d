/** The program is killed while it keeps readings. A power cut is another matter: that takes a plug to pull. */
import { type ChildProcessWithoutNullStreams, spawn } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "libsql";
import { afterAll, expect, it } from "vitest";
import { openSqliteKeeper } from "../../src/store/sqlite.ts";
import { numbersFrom } from "../support/log-entries.ts";

const ROUNDS = 100;
const SEED = 97;
/** A round ends at some moment within this, counted from the last of so many readings that are waited for. */
const LONGEST_MS = 8;
const MOST_READINGS = 6;
/** So many are loading while one works. */
const AHEAD = 2;

const folder = mkdtempSync(join(tmpdir(), "fettle-kill-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Writer {
  readonly child: ChildProcessWithoutNullStreams;
  /** Settles once it has said so many lines, or has ended. */
  saidLines(count: number): Promise<void>;
  readonly ended: Promise<void>;
  /** All that it said. */
  readonly said: () => { readonly out: string; readonly err: string };
}

/** Loads what it needs and waits for its turn, while the one before it is still at work. */
function waiting(file: string, round: number): Writer {
  const device = `dev${round.toString(36).padStart(3, "0")}`;
  const child = spawn(process.execPath, [join(import.meta.dirname, "kill-child.mjs"), file, device]);
  let [out, err] = ["", ""];
  child.stderr.on("data", (text) => {
    err += text;
  });
  child.stdin.on("error", () => {});
  const ended = new Promise<void>((resolve) => child.once("close", () => resolve()));
  let heard: () => void = () => {};
  child.stdout.on("data", (text) => {
    out += text;
    heard();
  });
  const saidLines = (count: number): Promise<void> => {
    const enough = new Promise<void>((resolve) => {
      heard = () => {
        if (out.split("\n").length > count) resolve();
      };
      heard();
    });
    return Promise.race([enough, ended]);
  };
  return { child, saidLines, ended, said: () => ({ out, err }) };
}

/** Lets it work until it said some, and a moment longer; kills it, and gives what it had said by then to be kept. */
async function killed(writer: Writer, sayings: number, afterMs: number): Promise<string[]> {
  const { child, ended, said } = writer;
  await writer.saidLines(1);
  child.stdin.write("go\n");
  await writer.saidLines(1 + sayings);
  await Promise.race([ended, new Promise((resolve) => setTimeout(resolve, afterMs))]);
  child.kill("SIGKILL");
  await ended;
  expect(said().err).toBe("");
  // What follows the last line break was cut off in the middle of being said.
  return said().out.split("\n").slice(1, -1);
}

it(`[LO10] loses no reading that was said to be kept, killed ${ROUNDS} times on one file`, async () => {
  expect(existsSync("dist/store/sqlite.js"), "build first: npm test does").toBe(true);
  const file = join(folder, "log.db");
  const next = numbersFrom(SEED);
  const acknowledged: string[] = [];
  let roundsWithReadings = 0;
  const queue = Array.from({ length: AHEAD }, (_, round) => waiting(file, round));
  for (let round = 0; round < ROUNDS; round += 1) {
    const writer = queue.shift();
    if (!writer) break;
    if (round + AHEAD < ROUNDS) queue.push(waiting(file, round + AHEAD));
    const said = await killed(writer, Math.floor(next() * MOST_READINGS), next() * LONGEST_MS);
    acknowledged.push(...said);
    if (said.length > 0) roundsWithReadings += 1;
  }

  const keeper = await openSqliteKeeper(file);
  const kept = new Set((await keeper.entriesOf("lowtide")).map(({ id }) => id));
  expect(acknowledged.filter((id) => !kept.has(id))).toEqual([]);
  expect(new Set(acknowledged).size).toBe(acknowledged.length);
  expect((await keeper.jobs({ limit: 1 })).jobs[0]?.entries).toBe(kept.size);
  await keeper.close();
  const database = new Database(file);
  expect(database.pragma("integrity_check")).toEqual([{ integrity_check: "ok" }]);
  database.close();
  // Else the test would have shown nothing.
  expect(roundsWithReadings).toBeGreaterThan(ROUNDS / 2);
}, 180_000);
