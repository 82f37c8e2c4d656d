/** Three devices with three kinds of keepers, one job, edits made apart, exchanged over connections that break. */
import "fake-indexeddb/auto";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { exchange } from "../../src/app/exchange.ts";
import {
  actsOf,
  createFold,
  entriesFor,
  type Fold,
  inOrder,
  type Json,
  nextToRedo,
  nextToUndo,
  numberOf,
  takeBack,
} from "../../src/core/log/index.ts";
import { openBrowserKeeper } from "../../src/store/browser.ts";
import { createMemoryKeeper, type Keeper } from "../../src/store/index.ts";
import { openSqliteKeeper } from "../../src/store/sqlite.ts";
import { breaking, CutOff, peerOf } from "../support/cut-off.ts";
import { numbersFrom, pictureOf, timeAt } from "../support/log-entries.ts";

const JOB = "lowtide";
const EDITS = 300;
const folder = mkdtempSync(join(tmpdir(), "fettle-devices-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Device {
  readonly name: string;
  readonly keeper: Keeper;
  readonly fold: Fold;
  next: number;
}

async function devices(seed: number): Promise<Device[]> {
  const keepers = {
    phone: await openBrowserKeeper(`devices-${seed}`),
    bench: await openSqliteKeeper(join(folder, `${seed}.db`)),
    slate: createMemoryKeeper(),
  };
  return Object.entries(keepers).map(([name, keeper]) => ({ name, keeper, fold: createFold(), next: 1 }));
}

it.each([1, 20, 333])("[LO19] come to the same document and the same entries (seed %i)", async (seed) => {
  const next = numbersFrom(seed);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)] as T;
  const all = await devices(seed);
  let cutOff = 0;

  for (let index = 0; index < EDITS; index += 1) {
    await edit(pick(all), index, next, pick);
    if (next() < 0.03) await meet();
  }
  for (const [index, { keeper }] of all.entries()) await keeper.keepPhotograph(pictureOf("image/jpeg", index));
  for (let round = 0; round < 30; round += 1) await meet();
  // In the end whole ones, until the last of the first has come to all.
  for (let round = 0; round < 2; round += 1)
    for (const [index, { keeper }] of all.entries()) {
      const other = all[(index + 1) % all.length] as Device;
      await exchange(keeper, peerOf(other.name, other.keeper));
    }

  expect(cutOff).toBeGreaterThan(10);
  const ids = new Set(
    all.flatMap(({ fold, name }) => [...fold.entries.values()].filter((e) => e.device === name)).map((e) => e.id),
  );
  expect(ids.size).toBeGreaterThan(EDITS / 2);
  const documents: string[] = [];
  const texts: string[] = [];
  for (const { keeper } of all) {
    const entries = await keeper.entriesOf(JOB);
    expect(entries.map(({ id }) => id).sort()).toEqual([...ids].sort());
    texts.push(JSON.stringify(entries.sort(inOrder)));
    expect(await keeper.photographs()).toHaveLength(all.length);
    documents.push(JSON.stringify(createFold(entries).read()));
  }
  expect(documents[0]).not.toBe("{}");
  expect(new Set(texts).size).toBe(1);
  expect(new Set(documents).size).toBe(1);
  const lists = await Promise.all(all.map(({ keeper }) => keeper.jobs({ limit: 5 })));
  expect(new Set(lists.map((list) => JSON.stringify(list))).size).toBe(1);
  for (const { keeper } of all) await keeper.close();

  /** Two exchange; often the connection breaks somewhere. */
  async function meet(): Promise<void> {
    const [one, other] = [pick(all), pick(all)];
    if (one === other) return;
    const broken = { callsLeft: 1 + Math.floor(next() * 14), answerLost: next() < 0.5 };
    try {
      await exchange(breaking(one.keeper, broken), peerOf(other.name, other.keeper, broken));
    } catch (error) {
      if (!(error instanceof CutOff)) throw error;
      cutOff += 1;
    }
    for (const { keeper, fold } of [one, other]) fold.add(await keeper.entriesOf(JOB));
  }
});

type Pick = <T>(list: readonly T[]) => T;

async function edit(device: Device, index: number, next: () => number, pick: Pick): Promise<void> {
  const { fold, keeper, name } = device;
  const [at = ""] = [timeAt(Math.floor(index / 3)), fold.latest].sort().reverse();
  const stamp = { job: JOB, device: name, from: device.next, at };
  const acts = actsOf(fold);
  const kind = next();
  const undone = kind < 0.12 ? nextToUndo(fold, acts, name) : kind < 0.18 ? nextToRedo(fold, acts, name) : undefined;
  const entries = undone
    ? takeBack(fold, undone, stamp, "took it back").entries
    : entriesFor(fold, stamp, `edit ${index}`, [change(index, next, pick)]);
  fold.add(entries);
  await keeper.append(entries);
  const last = entries.at(-1);
  if (last) device.next = numberOf(last) + 1;
}

function change(index: number, next: () => number, pick: Pick): { path: string; value?: Json } {
  const item = pick(["bridge", "guard", "tuner", "knob"]);
  const kind = next();
  if (kind < 0.15) return { path: pick(["/job/title", "/instrument/body", `/parts/#${item}`]) };
  if (kind < 0.3) return { path: "/job/title", value: `Title ${index}` };
  if (kind < 0.5) return { path: `/parts/#${item}/screws`, value: index };
  if (kind < 0.7) {
    const ids = ["bridge", "guard", "tuner", "knob"].filter(() => next() < 0.6);
    return { path: "/parts", value: ids.map((id) => ({ id, screws: index })) };
  }
  if (kind < 0.85) return { path: "/instrument/body", value: { thickness: `${index} mm`, woods: [index, "ash"] } };
  return { path: "/instrument/body/thickness", value: pick(["44 mm", "45 mm"]) };
}
