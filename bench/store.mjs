/** The list of many jobs, and readings said to be on the disk, on SQLite. */
import { closeSync, fdatasyncSync, mkdtempSync, openSync, rmSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { openSqliteKeeper } from "../dist/store/sqlite.js";
import { median, timed, timedAsync } from "./measure.mjs";

const JOBS = 100_000;
const READINGS = 300;
const ROUNDS = 7;
const PAGE = 50;
const WOODS = ["ash", "alder", "maple", "walnut", "cherry", "birch", "poplar"];

export async function storeBench() {
  const folder = mkdtempSync(join(tmpdir(), "fettle-bench-"));
  try {
    return [...(await listBench(join(folder, "jobs.db"))), ...(await readingsBench(folder))];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Two entries a job: its title, and a reading at some later time, so that order of change is not order of coming. */
function entriesOfJobs() {
  return Array.from({ length: JOBS }, (_, index) => {
    const job = `job-${index}`;
    const title = `Bass ${(index * 7919) % JOBS} in ${WOODS[index % WOODS.length]}`;
    return [
      entryOf(2 * index, job, "/job/title", title, index),
      entryOf(2 * index + 1, job, "/instrument/body/thickness", "44.5 mm (calliper)", (index * 104_729) % JOBS),
    ];
  }).flat();
}

function entryOf(number, job, path, value, seconds) {
  const id = `bench.${number.toString(36).padStart(8, "0")}`;
  const at = new Date(Date.UTC(2026, 0, 1) + seconds * 1000).toISOString();
  return { id, job, device: "bench", at, act: id, path, value, over: [] };
}

async function listBench(file) {
  const entries = entriesOfJobs();
  const keeper = await openSqliteKeeper(file);
  for (let start = 0; start < entries.length; start += 5000) await keeper.append(entries.slice(start, start + 5000));
  const rows = [];
  const questions = [
    ["first page", { limit: PAGE }],
    ["a search that finds some", { limit: PAGE, search: "99 in WALNUT" }],
    ["a search that finds none", { limit: PAGE, search: "no such title" }],
  ];
  for (const [what, wanted] of questions) {
    const own = [];
    const peer = [];
    for (let round = 0; round < ROUNDS; round += 1) {
      let [mine, theirs] = [undefined, undefined];
      own.push(
        await timedAsync(async () => {
          mine = await keeper.jobs(wanted);
        }),
      );
      peer.push(
        timed(() => {
          theirs = listFromEntries(entries, wanted);
        }),
      );
      if (JSON.stringify(mine) !== JSON.stringify(theirs)) throw new Error(`${what}: the two lists differ`);
    }
    rows.push({
      what: `list of ${JOBS} jobs, ${what}`,
      own: median(own),
      peer: median(peer),
      against: "array of parsed entries",
      goal: 50,
    });
  }
  await keeper.close();
  return rows;
}

/** What a program does that holds all entries in memory and keeps no list. */
function listFromEntries(entries, { search = "", limit }) {
  const jobs = new Map();
  for (const { job, at, path, value } of entries) {
    const line = jobs.get(job) ?? { id: job, title: "", changed: "", entries: 0 };
    jobs.set(job, line);
    line.entries += 1;
    if (at > line.changed) line.changed = at;
    if (path === "/job/title") line.title = value;
  }
  const sought = search.toLowerCase();
  const found = [...jobs.values()].filter(({ title }) => title.toLowerCase().includes(sought));
  found.sort((a, b) => (a.changed < b.changed ? 1 : a.changed > b.changed ? -1 : a.id < b.id ? 1 : -1));
  return { total: found.length, jobs: found.slice(0, limit) };
}

async function readingsBench(folder) {
  const readings = Array.from({ length: READINGS }, (_, index) =>
    entryOf(index, "lowtide", `/readings/#r${index}`, { of: "body.thickness", value: "44.5 mm (calliper)" }, index),
  );
  const keeper = await openSqliteKeeper(join(folder, "readings.db"));
  const file = openSync(join(folder, "readings.txt"), "a");
  const own = [];
  const peer = [];
  for (const reading of readings) {
    own.push(await timedAsync(() => keeper.append([reading])));
    peer.push(
      timed(() => {
        writeSync(file, `${JSON.stringify(reading)}\n`);
        fdatasyncSync(file);
      }),
    );
  }
  closeSync(file);
  await keeper.close();
  const perSecond = Math.round(1000 / median(own));
  const what = `one reading on the disk (${perSecond} a second)`;
  return [{ what, own: median(own), peer: median(peer), against: "plain append and fdatasync" }];
}
