import { describe, expect, it } from "vitest";
import { exchange, type Peer } from "../../src/app/exchange.ts";
import { InputError } from "../../src/core/errors.ts";
import type { LogEntry } from "../../src/core/log/index.ts";
import { createMemoryKeeper, type Keeper } from "../../src/store/index.ts";
import { breaking, CutOff, peerOf } from "../support/cut-off.ts";
import { entryAt, hashOf, pictureOf } from "../support/log-entries.ts";

const entriesOf = (device: string, count: number, from = 0): LogEntry[] =>
  Array.from({ length: count }, (_, index) => entryAt(from + index, `/n/${device}${from + index}`, index, { device }));

async function keeperWith(entries: readonly LogEntry[]): Promise<Keeper> {
  const keeper = createMemoryKeeper();
  await keeper.append(entries);
  return keeper;
}

const idsIn = async (keeper: Keeper): Promise<string[]> =>
  (await keeper.since(0, 100_000)).entries.map(({ id }) => id).sort();

/** A peer that remembers what it was asked. */
function watched(id: string, keeper: Keeper) {
  const sent: number[] = [];
  let asked = 0;
  const plain = peerOf(id, keeper);
  const peer: Peer = {
    ...plain,
    append: (entries) => {
      sent.push(entries.length);
      return plain.append(entries);
    },
    since: (place, limit) => {
      asked += 1;
      return plain.since(place, limit);
    },
  };
  return { peer, sent, asked: () => asked };
}

describe("exchange", () => {
  it("[LO18] brings both to the same entries, in batches, and says how many were new", async () => {
    const both = entriesOf("both", 10);
    const [mine, theirs] = [await keeperWith([...both, ...entriesOf("here", 1234)]), await keeperWith(both)];
    await theirs.append(entriesOf("there", 700));
    const { peer, sent } = watched("bench", theirs);
    expect(await exchange(mine, peer)).toEqual({
      sent: 1234,
      received: 700,
      photographsSent: 0,
      photographsReceived: 0,
    });
    expect(await idsIn(mine)).toEqual(await idsIn(theirs));
    expect(Math.max(...sent)).toBeLessThanOrEqual(500);
    // Nothing that came from there was offered back.
    expect(sent.reduce((sum, count) => sum + count, 0)).toBe(1244);
  });

  it("[LO18] goes on from where it was, and sends nothing when nothing is new", async () => {
    const [mine, theirs] = [await keeperWith(entriesOf("here", 600)), await keeperWith(entriesOf("there", 600))];
    await exchange(mine, peerOf("bench", theirs));
    const quiet = watched("bench", theirs);
    expect(await exchange(mine, quiet.peer)).toMatchObject({ sent: 0, received: 0 });
    expect(quiet.sent).toEqual([]);
    expect(quiet.asked()).toBe(2);
    await mine.append(entriesOf("here", 3, 600));
    await theirs.append(entriesOf("there", 2, 600));
    const later = watched("bench", theirs);
    expect(await exchange(mine, later.peer)).toMatchObject({ sent: 3, received: 2 });
    expect(later.sent).toEqual([3]);
  });

  it("[LO18] notes how far it came per peer", async () => {
    const mine = await keeperWith(entriesOf("here", 20));
    const [one, two] = [await keeperWith(entriesOf("onee", 5)), createMemoryKeeper()];
    expect(await exchange(mine, peerOf("one", one))).toMatchObject({ sent: 20, received: 5 });
    expect(await exchange(mine, peerOf("two", two))).toMatchObject({ sent: 25, received: 0 });
    expect(await exchange(mine, peerOf("one", one))).toMatchObject({ sent: 0, received: 0 });
  });

  it("[LO19] offers everything again to a peer that was set back or began anew under its name", async () => {
    const mine = await keeperWith(entriesOf("here", 30));
    const theirs = await keeperWith(entriesOf("there", 5));
    await exchange(mine, peerOf("bench", theirs));
    const setBack = await keeperWith([...entriesOf("there", 5), ...entriesOf("here", 12)]);
    expect(await exchange(mine, peerOf("bench", setBack))).toMatchObject({ sent: 18 });
    expect(await idsIn(setBack)).toEqual(await idsIn(mine));
    const anew = createMemoryKeeper();
    expect(await exchange(mine, peerOf("bench", anew))).toMatchObject({ sent: 35, received: 0 });
  });

  it("[LO18] brings photographs to both", async () => {
    const [mine, theirs] = [createMemoryKeeper(), createMemoryKeeper()];
    const pictures = [pictureOf("image/jpeg", 1), pictureOf("image/png", 2), pictureOf("image/webp", 3)];
    for (const one of pictures.slice(0, 2)) await mine.keepPhotograph(one);
    for (const one of pictures.slice(1)) await theirs.keepPhotograph(one);
    expect(await exchange(mine, peerOf("bench", theirs))).toMatchObject({ photographsSent: 1, photographsReceived: 1 });
    for (const keeper of [mine, theirs]) expect(await keeper.photographs()).toEqual(pictures.map((p) => p.hash).sort());
    expect(await exchange(mine, peerOf("bench", theirs))).toMatchObject({ photographsSent: 0, photographsReceived: 0 });
  });

  it("[LO19] loses nothing wherever it is cut off, and is taken up the next time", async () => {
    for (const answerLost of [false, true]) {
      for (let calls = 1; ; calls += 1) {
        const [mine, theirs] = [await keeperWith(entriesOf("here", 700)), await keeperWith(entriesOf("there", 1100))];
        await mine.keepPhotograph(pictureOf("image/jpeg", 1));
        await theirs.keepPhotograph(pictureOf("image/jpeg", 2));
        const broken = { callsLeft: calls, answerLost };
        const first = await exchange(breaking(mine, broken), peerOf("bench", theirs, broken)).catch(
          (error: unknown) => error,
        );
        if (!(first instanceof CutOff)) {
          expect(first, "it came to its end").toMatchObject({ sent: 700, received: 1100 });
          expect(calls).toBeGreaterThan(15);
          break;
        }
        await exchange(mine, peerOf("bench", theirs));
        expect(await idsIn(mine)).toHaveLength(1800);
        expect(await idsIn(theirs)).toEqual(await idsIn(mine));
        expect([(await mine.photographs()).length, (await theirs.photographs()).length]).toEqual([2, 2]);
      }
    }
  });

  it("[LO9] refuses an entry that is not well formed, keeps nothing of its batch, and says which it was", async () => {
    const mine = createMemoryKeeper();
    const odd = { ...entryAt(1, "no path", 1), more: "x" };
    const theirs = await keeperWith([...entriesOf("there", 3), odd]);
    const refused = await exchange(mine, peerOf("bench", theirs)).catch((error: unknown) => error);
    expect(refused).toBeInstanceOf(InputError);
    expect(String(refused)).toMatch(/received\[3\]\.path: is not a path/);
    expect(await idsIn(mine)).toEqual([]);
  });

  it("[LO15] refuses a photograph that is not the one asked for, and names that are none", async () => {
    const [mine, theirs] = [createMemoryKeeper(), createMemoryKeeper()];
    const [asked, other] = [pictureOf("image/jpeg", 1), pictureOf("image/jpeg", 2)];
    await theirs.keepPhotograph(asked);
    const swapped = { ...peerOf("bench", theirs), photograph: async () => other };
    await expect(exchange(mine, swapped)).rejects.toThrow(/^photograph\.hash: is not the SHA-256 of the bytes/);
    const named = { ...peerOf("bench", theirs), photographs: async () => ["../../keys"] };
    await expect(exchange(mine, named)).rejects.toThrow(/^photograph\.hash: is not 64 hexa/);
    expect(await mine.photographs()).toEqual([]);
    expect(hashOf(asked.bytes)).toBe(asked.hash);
  });

  it.each([
    { entries: [], place: 0, more: true },
    { entries: [], place: 7, more: false },
    { entries: entriesOf("there", 1), place: 0, more: false },
    { entries: entriesOf("there", 1), place: 0.5, more: true },
  ])("does not go round in circles with a peer that answers %j", async (answer) => {
    const peer = { ...peerOf("bench", createMemoryKeeper()), since: async () => answer };
    await expect(exchange(createMemoryKeeper(), peer)).rejects.toThrow(/^received\.place: is .* after 0\. Update the/);
  });
});
