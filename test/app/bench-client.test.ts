import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type BenchClient, createBenchClient } from "../../src/app/bench-client.ts";
import { entriesInARow, photograph } from "../support/entries.ts";
import { type Bench, openBench } from "../support/server.ts";

let bench: Bench;
let client: BenchClient;
beforeAll(async () => {
  bench = await openBench({ live: { lookEveryMs: 20 } });
  client = createBenchClient(bench.address);
});
afterAll(() => bench.close());

/** A program that is not Fettle, at a port of this machine. */
async function stranger(status: number, body: string): Promise<{ client: BenchClient; close(): void }> {
  const server = createServer((_asked, answer) => answer.writeHead(status).end(body));
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const { port } = server.address() as AddressInfo;
  return { client: createBenchClient(`http://127.0.0.1:${port}`), close: () => void server.close() };
}

describe("the bench computer as another device sees it", () => {
  it("says who it is, and names itself for an exchange", async () => {
    const who = await client.who();
    expect(who).toEqual({ program: "fettle", version: "1.2.3", log: expect.stringMatching(/^[a-z0-9]{20}$/) });
    expect((await client.peer()).id).toBe(who.log);
  });

  it("takes entries and gives them back, however many", async () => {
    const written = entriesInARow(2500);
    expect(await client.append(written)).toEqual({ added: 2500 });
    expect(await client.append(written.slice(0, 10))).toEqual({ added: 0 });
    expect(await client.append([])).toEqual({ added: 0 });
    const first = await client.since(0, 5000);
    expect(first).toEqual({ entries: written.slice(0, 1000), place: 1000, more: true });
    expect((await client.since(2400, 500)).entries).toEqual(written.slice(2400));
  });

  it("takes entries that are too long for one request together, in letters that need three bytes each", async () => {
    const long = entriesInARow(20, "bench2", () => "長".repeat(190_000));
    expect(await client.append(long)).toEqual({ added: 20 });
  });

  it("takes photographs and gives them back", async () => {
    const one = photograph("image/webp");
    expect(await client.photograph(one.hash)).toBeUndefined();
    await client.keepPhotograph(one);
    expect(await client.photographs()).toEqual([one.hash]);
    const got = await client.photograph(one.hash);
    expect(got).toEqual({ ...one, bytes: new Uint8Array(one.bytes) });
  });

  it("passes a refusal on in its three parts", async () => {
    const [entry] = entriesInARow(1, "bench3");
    await expect(client.append([{ ...entry!, path: "x" }])).rejects.toThrow("entries[0].path: is not a path. Send the");
    await expect(client.keepPhotograph({ ...photograph("image/png"), hash: "a".repeat(64) })).rejects.toThrow(
      "is not the photograph that its name says",
    );
  });

  it("says so if nobody answers", async () => {
    const gone = createBenchClient("http://127.0.0.1:1");
    await expect(gone.who()).rejects.toThrow(/^bench computer: does not answer\. Go on working: /);
    await expect(gone.append(entriesInARow(1))).rejects.toThrow("does not answer");
    await expect(gone.photograph("a".repeat(64))).rejects.toThrow("does not answer");
  });

  it.each([
    [200, "<!doctype html>hello"],
    [200, "[]"],
    [200, '{"program":"other","entries":{},"acknowledged":[],"photographs":[1]}'],
    [403, "no"],
    [403, '{"error":"no"}'],
  ])("does not take another program for it (%i, %s)", async (status, body) => {
    const { client: other, close } = await stranger(status, body);
    await expect(other.who()).rejects.toThrow("answers, but not as Fettle does");
    await expect(other.since(0, 10)).rejects.toThrow("answers, but not as Fettle does");
    await expect(other.append(entriesInARow(1))).rejects.toThrow("answers, but not as Fettle does");
    await expect(other.photographs()).rejects.toThrow("answers, but not as Fettle does");
    close();
  });

  it("checks every entry that it is given", async () => {
    const [entry] = entriesInARow(1);
    const body = JSON.stringify({ entries: [{ ...entry, job: "../x" }], place: 1, more: false });
    const { client: other, close } = await stranger(200, body);
    await expect(other.since(0, 10)).rejects.toThrow("job: does not have its form");
    close();
  });

  it("hears of what comes, and comes back by itself when the line broke", async () => {
    const first = await openBench({ live: { lookEveryMs: 20 } });
    const places: number[] = [];
    const live = createBenchClient(first.address).live((place) => places.push(place));
    await expect.poll(() => places).toEqual([0]);
    await first.keeper.append(entriesInARow(2));
    await expect.poll(() => places).toEqual([0, 2]);
    await first.close();
    const second = await openBench({ keeper: first.keeper, port: first.port, live: { lookEveryMs: 20 } });
    await expect.poll(() => places, { timeout: 10_000 }).toEqual([0, 2, 2]);
    live.stop();
    await second.keeper.append(entriesInARow(1, "bench9"));
    await new Promise((resolve) => setTimeout(resolve, 100));
    expect(places).toEqual([0, 2, 2]);
    await second.close();
  });
});
