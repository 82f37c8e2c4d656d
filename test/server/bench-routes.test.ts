import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import type { LogEntry } from "../../src/core/log/index.ts";
import { entriesInARow, photograph } from "../support/entries.ts";
import { type Bench, openBench } from "../support/server.ts";

interface Page {
  readonly entries: LogEntry[];
  readonly place: number;
  readonly more: boolean;
}

let bench: Bench;
beforeEach(async () => {
  bench = await openBench();
  return () => bench.close();
});

const post = (entries: unknown) =>
  bench.ask("/bench/log", {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify({ entries }),
  });

describe("GET /bench", () => {
  it("[SV1] says who answers: program, version and the log's own name, which stays", async () => {
    const first = (await bench.ask("/bench")).json();
    expect(first).toEqual({ program: "fettle", version: "1.2.3", log: expect.stringMatching(/^[a-z0-9]{20}$/) });
    expect((await bench.ask("/bench")).json()).toEqual(first);
    expect(await bench.keeper.note("log")).toBe(first.log);
  });
});

describe("GET /bench/log", () => {
  it("[SV2] gives every entry once, in the order in which they came, over as many answers as it takes", async () => {
    const written = entriesInARow(2300);
    await bench.keeper.append(written);
    const seen: LogEntry[] = [];
    const counts: number[] = [];
    for (let [place, more] = [0, true]; more; ) {
      const page = (await bench.ask(`/bench/log?since=${place}`)).json<Page>();
      ({ place, more } = page);
      counts.push(page.entries.length);
      seen.push(...page.entries);
    }
    expect(seen).toEqual(written);
    expect(counts).toEqual([1000, 1000, 300]);
  });

  it("[SV2] gives no more than was asked for, and never more than 1000", async () => {
    await bench.keeper.append(entriesInARow(1200));
    const lengthOf = async (query: string) => (await bench.ask(`/bench/log?${query}`)).json<Page>().entries.length;
    expect(await lengthOf("limit=7")).toBe(7);
    expect(await lengthOf("limit=5000")).toBe(1000);
    expect(await lengthOf("since=1199")).toBe(1);
    expect(await lengthOf("since=1200")).toBe(0);
  });

  it("[SV2] ends an answer at some 2 MB", async () => {
    const written = entriesInARow(60, "bench1", () => "a".repeat(190_000));
    await bench.keeper.append(written);
    const sizes: number[] = [];
    const seen: string[] = [];
    for (let [place, more] = [0, true]; more; ) {
      const answer = await bench.ask(`/bench/log?since=${place}`);
      const page = answer.json<Page>();
      ({ place, more } = page);
      sizes.push(answer.bytes.length);
      seen.push(...page.entries.map(({ id }) => id));
    }
    expect(seen).toEqual(written.map(({ id }) => id));
    // The first 25 are taken before anything is known of their length.
    expect(Math.max(...sizes)).toBeLessThan(25 * 191_000);
    expect(sizes.length).toBeGreaterThan(2);
  });

  it.each(["since=-1", "since=1.5", "since=abc", "limit=1e3", "since=99999999999999999999"])(
    "refuses %s",
    async (query) => {
      const answer = await bench.ask(`/bench/log?${query}`);
      expect(answer.status).toBe(400);
      expect(answer.json()).toMatchObject({
        where: query.split("=")[0],
        problem: expect.stringMatching(/^cannot be /),
      });
    },
  );
});

describe("POST /bench/log", () => {
  it("[SV3] answers once everything is kept: ids, how many were new, newest place", async () => {
    const [one, two, three] = entriesInARow(3);
    expect((await post([one, two])).json()).toEqual({ acknowledged: [one!.id, two!.id], added: 2, place: 2 });
    expect((await post([two, three])).json()).toEqual({ acknowledged: [two!.id, three!.id], added: 1, place: 3 });
    expect(await bench.keeper.entriesOf("J-1")).toEqual([one, two, three]);
  });

  it("[SV3] does not answer before the keeper has settled", async () => {
    let settle: (() => void) | undefined;
    let answered = false;
    const { keeper } = bench;
    const slow = await openBench({
      keeper: {
        ...keeper,
        append: async (entries) => {
          await new Promise<void>((resolve) => {
            settle = resolve;
          });
          return keeper.append(entries);
        },
      },
    });
    const answer = slow
      .ask("/bench/log", {
        method: "POST",
        headers: { "Content-Type": "application/json" },
        body: JSON.stringify({ entries: entriesInARow(1) }),
      })
      .then((given) => {
        answered = true;
        return given;
      });
    await expect.poll(() => settle).toBeDefined();
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(answered).toBe(false);
    settle?.();
    expect((await answer).status).toBe(200);
    await slow.close();
  });

  it("[SV4] refuses all of a request if one entry is wrong, and names it", async () => {
    const [one, two] = entriesInARow(2);
    const answer = await post([one, { ...two, path: "job" }]);
    expect(answer.status).toBe(422);
    expect(answer.json()).toEqual({
      where: "entries[1].path",
      problem: "is not a path",
      remedy: "Send the entry as it was written, or leave it out",
    });
    expect(await bench.keeper.entriesOf("J-1")).toEqual([]);
  });

  it.each([[[]], [{}], [null], [{ entries: "x" }], ["x"]])("[SV4] refuses %j for a list of entries", async (given) => {
    const body = JSON.stringify(given);
    const answer = await bench.ask("/bench/log", {
      method: "POST",
      headers: { "Content-Type": "application/json" },
      body,
    });
    expect(answer.status).toBe(422);
    expect(answer.json()).toMatchObject({ where: "entries" });
  });

  it("[SV5] keeps what looks like a script as the text that it is, and gives it back as JSON only", async () => {
    const title = '</script><script>alert("x")</script><img src=x onerror=alert(1)>';
    const [entry] = entriesInARow(1, "bench1", () => title);
    await post([entry]);
    const answer = await bench.ask("/bench/log");
    expect(answer.headers["content-type"]).toBe("application/json");
    expect(answer.headers["x-content-type-options"]).toBe("nosniff");
    expect(answer.json<Page>().entries[0]?.value).toBe(title);
  });
});

describe("photographs", () => {
  it.each(["image/jpeg", "image/png", "image/webp"] as const)("[SV6] keeps and gives back %s", async (type) => {
    const { hash, bytes } = photograph(type);
    const put = await bench.ask(`/bench/photographs/${hash}`, {
      method: "PUT",
      // What the sender calls it is not asked.
      headers: { "Content-Type": "text/html" },
      body: bytes,
    });
    expect([put.status, put.json()]).toEqual([200, { kept: hash }]);
    const got = await bench.ask(`/bench/photographs/${hash}`);
    expect(got.bytes.equals(bytes)).toBe(true);
    expect(got.headers).toMatchObject({
      "content-type": type,
      "x-content-type-options": "nosniff",
      "content-disposition": "inline",
      "cache-control": "private, max-age=31536000, immutable",
      "content-security-policy": expect.stringContaining("default-src 'none'"),
    });
    expect((await bench.ask("/bench/photographs")).json()).toEqual({ photographs: [hash] });
  });

  it("[SV6] says 404 of one that is not here", async () => {
    expect((await bench.ask(`/bench/photographs/${"a".repeat(64)}`)).status).toBe(404);
  });

  it.each(["x", "A".repeat(64), "a".repeat(63), `${"a".repeat(64)}.jpg`, "..%2f..%2fetc%2fpasswd", "%00"])(
    "[SV6] refuses the name %s",
    async (name) => {
      for (const method of ["GET", "PUT"]) {
        const answer = await bench.ask(`/bench/photographs/${name}`, { method });
        expect(answer.status).toBe(400);
        expect(answer.json()).toMatchObject({ where: "photograph" });
      }
    },
  );

  it("[SV6] refuses what is no picture, and a picture under a wrong name", async () => {
    const { hash } = photograph("image/png");
    const put = (body: string | Uint8Array) => bench.ask(`/bench/photographs/${hash}`, { method: "PUT", body });
    expect((await put("<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>")).status).toBe(415);
    expect((await put("")).status).toBe(415);
    const wrong = await put(photograph("image/png", "other").bytes);
    expect(wrong.status).toBe(422);
    expect(wrong.json()).toMatchObject({ problem: "is not the photograph that its name says" });
    expect(await bench.keeper.photographs()).toEqual([]);
  });
});

describe("a fault of the program", () => {
  let broken: Bench;
  beforeAll(async () => {
    const { keeper } = await openBench();
    const fail = async (): Promise<never> => {
      throw new RangeError("secret of the inside");
    };
    broken = await openBench({ keeper: { ...keeper, since: fail, photographs: fail } });
  });
  afterAll(() => broken.close());

  it("[SV7] is told to whoever started the server, and not to whoever asked", async () => {
    const answer = await broken.ask("/bench/photographs");
    expect(answer.status).toBe(500);
    expect(answer.text).not.toMatch(/secret|RangeError|\.ts/);
    expect(answer.json()).toEqual({
      where: "the bench computer",
      problem: expect.any(String),
      remedy: expect.any(String),
    });
    expect(broken.faults).toEqual([expect.stringContaining("RangeError: secret of the inside")]);
  });
});
