import { describe, expect, it } from "vitest";
import { createLive } from "../../src/server/live.ts";
import { entriesInARow } from "../support/entries.ts";
import { memoryKeeper } from "../support/memory-keeper.ts";
import { openBench } from "../support/server.ts";

/** What came so far, from an answer that does not end. */
async function listener(address: string) {
  const ended = new AbortController();
  const response = await fetch(`${address}/bench/live`, { signal: ended.signal });
  const seen = { text: "", done: false };
  const reading = (async () => {
    const decoder = new TextDecoder();
    for await (const piece of response.body as unknown as AsyncIterable<Uint8Array>) seen.text += decoder.decode(piece);
    seen.done = true;
  })().catch(() => {});
  return {
    response,
    seen,
    async stop() {
      ended.abort();
      await reading;
    },
  };
}

const event = (place: number) => `event: log\ndata: {"place":${place}}\n\n`;
const QUICK = { lookEveryMs: 30, commentEveryMs: 10_000 };

describe("GET /bench/live", () => {
  it("[SL1] tells the newest place at once, and after every entry that comes through this server", async () => {
    const bench = await openBench({ live: { lookEveryMs: 60_000 } });
    const [one, two] = entriesInARow(2);
    await bench.keeper.append([one!]);
    const live = await listener(bench.address);
    expect(live.response.headers.get("content-type")).toBe("text/event-stream");
    await expect.poll(() => live.seen.text).toBe(event(1));
    const body = JSON.stringify({ entries: [two] });
    await bench.ask("/bench/log", { method: "POST", headers: { "Content-Type": "application/json" }, body });
    await expect.poll(() => live.seen.text).toBe(event(1) + event(2));
    await live.stop();
    await bench.close();
  });

  it("[SL1] tells what another program wrote into the same log", async () => {
    const bench = await openBench({ live: QUICK });
    const live = await listener(bench.address);
    await expect.poll(() => live.seen.text).toBe(event(0));
    await bench.keeper.append(entriesInARow(3));
    await expect.poll(() => live.seen.text).toBe(event(0) + event(3));
    await live.stop();
    await bench.close();
  });

  it("[SL2] sends a comment now and then, so that a dead line is noticed", async () => {
    const bench = await openBench({ live: { lookEveryMs: 60_000, commentEveryMs: 20 } });
    const live = await listener(bench.address);
    await expect.poll(() => live.seen.text).toMatch(/(?:: still here\n\n){3}/);
    await live.stop();
    await bench.close();
  });

  it("[SL3] lets 64 pages listen and no more, and the next one as soon as one has gone", async () => {
    const bench = await openBench({ live: QUICK });
    const all = await Promise.all(Array.from({ length: 64 }, () => listener(bench.address)));
    expect(all.every(({ response }) => response.ok)).toBe(true);
    expect((await bench.ask("/bench/live")).status).toBe(503);
    await all[0]!.stop();
    await expect
      .poll(async () => {
        const one = await listener(bench.address);
        await one.stop();
        return one.response.status;
      })
      .toBe(200);
    await Promise.all(all.map(({ stop }) => stop()));
    await bench.close();
  });

  it("[SL4] ends when the server is stopped", async () => {
    const bench = await openBench({ live: QUICK });
    const live = await listener(bench.address);
    await expect.poll(() => live.seen.text).toBe(event(0));
    const started = Date.now();
    await bench.close();
    await expect.poll(() => live.seen.done).toBe(true);
    expect(Date.now() - started).toBeLessThan(1000);
  });
});

describe("createLive", () => {
  it("[SL3] lets go of a page that does not read", async () => {
    const keeper = memoryKeeper();
    const live = createLive(keeper, { lookEveryMs: 60_000 });
    const stream = live.listen();
    for (const entry of entriesInARow(50)) {
      await keeper.append([entry]);
      await live.added();
    }
    let events = 0;
    // Ends by itself: it was let go of.
    for await (const piece of stream as unknown as AsyncIterable<Uint8Array>) events += piece.length > 0 ? 1 : 0;
    expect(events).toBeLessThan(40);
    live.close();
  });

  it("finds the newest place of a long log, and goes on from there", async () => {
    const keeper = memoryKeeper();
    let asked = 0;
    const live = createLive({
      ...keeper,
      since: (place, limit) => {
        asked += 1;
        return keeper.since(place, limit);
      },
    });
    await keeper.append(entriesInARow(4500));
    expect(await live.newest()).toBe(4500);
    const first = asked;
    expect(await live.newest()).toBe(4500);
    expect(asked).toBe(first + 1);
  });
});
