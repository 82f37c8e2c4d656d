/** Requests as somebody who means no good would write them, over real sockets. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { entriesInARow, photograph } from "../support/entries.ts";
import { type AskOptions, type Bench, openBench } from "../support/server.ts";

const MEGABYTE = 1_000_000;

let bench: Bench;
beforeAll(async () => {
  bench = await openBench({ patience: { headMs: 400, requestMs: 800, lookMs: 100, connections: 20 } });
});
afterAll(() => bench.close());

const statusOf = async (path: string, options?: AskOptions): Promise<number> => (await bench.ask(path, options)).status;
const jsonPost = (body: string, headers: Record<string, string> = {}): AskOptions => ({
  method: "POST",
  headers: { "Content-Type": "application/json", ...headers },
  body,
});
const nothing = JSON.stringify({ entries: [] });
const keptNothing = async (): Promise<boolean> => (await bench.keeper.since(0, 1)).entries.length === 0;

describe("[SS1] who was meant: Host", () => {
  it.each(["localhost", "127.0.0.1", "[::1]", "LocalHost"])("lets %s with the port in", async (name) => {
    expect(await statusOf("/bench", { headers: { Host: `${name}:${bench.port}` } })).toBe(200);
  });

  it.each([
    ["a foreign name that points here", () => `evil.example:${bench.port}`],
    ["a foreign name without a port", () => "evil.example"],
    ["the own name with another port", () => `localhost:${bench.port + 1}`],
    ["the own name without a port", () => "localhost"],
    ["a name that only begins like the own", () => `localhost.evil.example:${bench.port}`],
    ["a name that only ends like the own", () => `evil-localhost:${bench.port}`],
    ["another address of the machine", () => `127.0.0.2:${bench.port}`],
    ["any address", () => `0.0.0.0:${bench.port}`],
  ])("refuses %s with 421, and says why and what to open", async (_what, host) => {
    for (const options of [{}, jsonPost(nothing)]) {
      const headers = { ...(options as AskOptions).headers, Host: host() };
      const answer = await bench.ask("/bench/log", { ...options, headers });
      expect(answer.status).toBe(421);
      expect(answer.json()).toEqual({
        where: "Host",
        problem: expect.stringContaining("names another computer"),
        remedy: `Open http://127.0.0.1:${bench.port}/`,
      });
    }
  });

  it.each([
    ["with a user in it", () => `user@localhost:${bench.port}`],
    ["with a path in it", () => `localhost:${bench.port}/x`],
    ["that is no host", () => "a b"],
    ["that is empty", () => ""],
    ["with a port beyond all ports", () => "localhost:99999999"],
  ])("refuses one %s", async (_what, host) => {
    const answer = await bench.raw(`GET /bench HTTP/1.1\r\nHost: ${host()}\r\nConnection: close\r\n\r\n`);
    expect(answer).toMatch(/^HTTP\/1\.1 4(?:00|21) /);
    expect(answer).not.toContain('"program"');
  });

  it("refuses a request with two, with none, and one that names its host in the address", async () => {
    const own = `Host: localhost:${bench.port}\r\n`;
    const end = "Connection: close\r\n\r\n";
    for (const request of [
      `GET /bench HTTP/1.1\r\n${own}Host: evil.example\r\n${end}`,
      `GET /bench HTTP/1.1\r\nHost: evil.example\r\n${own}${end}`,
      `GET /bench HTTP/1.1\r\n${end}`,
      `GET http://evil.example/bench HTTP/1.1\r\n${own}${end}`,
      `GET http://localhost:${bench.port}/bench HTTP/1.1\r\nHost: evil.example\r\n${end}`,
    ])
      expect(await bench.raw(request), request).toMatch(/^HTTP\/1\.1 4(?:00|21) /);
  });
});

describe("[SS2] who asks: Origin and Sec-Fetch-Site", () => {
  const own = () => `http://localhost:${bench.port}`;
  const hosted = (headers: Record<string, string>) => ({ Host: `localhost:${bench.port}`, ...headers });

  it("lets its own page ask and write", async () => {
    const headers = hosted({ Origin: own(), "Sec-Fetch-Site": "same-origin" });
    expect(await statusOf("/bench/log", { headers })).toBe(200);
    expect(await statusOf("/bench/log", jsonPost(nothing, headers))).toBe(200);
  });

  it.each([
    ["another page", () => "http://evil.example"],
    ["another program's page on this machine", () => "http://localhost:1"],
    ["the same name over another protocol", () => own().replace("http:", "https:")],
    ["another of its own names", () => `http://127.0.0.1:${bench.port}`],
    ["a page that hides where it is from", () => "null"],
    ["an address that begins like its own", () => `${own()}.evil.example`],
    ["an empty one", () => ""],
  ])("refuses %s, reading or writing", async (_what, origin) => {
    const headers = hosted({ Origin: origin() });
    for (const options of [{ headers }, jsonPost(nothing, headers), { method: "OPTIONS", headers }]) {
      const answer = await bench.ask("/bench/log", options);
      expect(answer.status).toBe(403);
      expect(answer.headers["access-control-allow-origin"]).toBeUndefined();
    }
    const { hash, bytes } = photograph("image/png");
    expect(await statusOf(`/bench/photographs/${hash}`, { method: "PUT", headers, body: bytes })).toBe(403);
    expect(await keptNothing()).toBe(true);
  });

  it.each(["cross-site", "same-site"])("refuses what a browser says is %s even without an Origin", async (site) => {
    const headers = { "Sec-Fetch-Site": site };
    expect(await statusOf("/bench/log", jsonPost(nothing, headers))).toBe(403);
    expect(await statusOf("/bench/log", { headers })).toBe(403);
    // A picture set into a foreign page.
    const picture = { ...headers, "Sec-Fetch-Mode": "no-cors" };
    expect(await statusOf(`/bench/photographs/${"a".repeat(64)}`, { headers: picture })).toBe(403);
  });

  it("lets a link of another page open the page, and nothing else", async () => {
    const headers = { "Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate" };
    expect((await bench.ask("/", { headers })).json()).toMatchObject({ where: "page" });
    for (const path of ["/bench", "/bench/log", "/bench?x", "/bench/live"])
      expect(await statusOf(path, { headers })).toBe(403);
    expect(await statusOf("/", { method: "POST", headers })).toBe(403);
  });

  it("refuses a form, the one way to write that a browser does not ask about first", async () => {
    for (const type of ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x", ""])
      expect(await statusOf("/bench/log", jsonPost(nothing, { "Content-Type": type }))).toBe(415);
  });
});

describe("[SS3] how much: bodies", () => {
  const head = (path: string, more: string) =>
    `${path} HTTP/1.1\r\nHost: localhost:${bench.port}\r\nContent-Type: application/json\r\n${more}\r\n`;
  const chunk = (text: string) => `${text.length.toString(16)}\r\n${text}\r\n`;

  it("refuses more than 8 MB of JSON and more than 12 MB of a photograph", async () => {
    expect(await statusOf("/bench/log", jsonPost(" ".repeat(8 * MEGABYTE + 1)))).toBe(413);
    const { hash, bytes } = photograph("image/jpeg", "x", 12 * MEGABYTE);
    expect(await statusOf(`/bench/photographs/${hash}`, { method: "PUT", body: bytes })).toBe(413);
  });

  it("takes what just fits", async () => {
    expect(await statusOf("/bench/log", jsonPost(nothing + " ".repeat(8 * MEGABYTE - nothing.length)))).toBe(200);
    const { hash, bytes } = photograph("image/jpeg", "", 12 * MEGABYTE - 4);
    expect(bytes.length).toBe(12 * MEGABYTE);
    expect(await statusOf(`/bench/photographs/${hash}`, { method: "PUT", body: bytes })).toBe(200);
  });

  it("counts what comes in pieces, and stops at the limit", async () => {
    const pieces = Array.from({ length: 9 }, () => chunk(" ".repeat(MEGABYTE)));
    // No end: whoever waits for it waits for ever.
    const answer = await bench.raw([head("POST /bench/log", "Transfer-Encoding: chunked\r\n"), ...pieces]);
    expect(answer).toMatch(/^HTTP\/1\.1 413 /);
  });

  it("refuses a length announced that may not be, without waiting for it", async () => {
    const started = Date.now();
    const answer = await bench.raw(head("POST /bench/log", "Content-Length: 999999999999\r\n"));
    expect(answer).toMatch(/^HTTP\/1\.1 413 /);
    expect(Date.now() - started).toBeLessThan(5000);
  });

  it("takes no more than was announced; what follows is a request of its own and is asked who it is", async () => {
    const first = `${head("POST /bench/log", `Content-Length: ${nothing.length}\r\n`)}${nothing}`;
    const hidden = "GET /bench HTTP/1.1\r\nHost: evil.example\r\nConnection: close\r\n\r\n";
    expect(await bench.raw(first + hidden)).toMatch(/^HTTP\/1\.1 200 [\s\S]*HTTP\/1\.1 421 /);
  });

  it.each([
    ["both a length and pieces", "Content-Length: 5\r\nTransfer-Encoding: chunked\r\n"],
    ["two lengths", "Content-Length: 5\r\nContent-Length: 6\r\n"],
    ["a length that is no number", "Content-Length: 5x\r\n"],
    ["a length below nought", "Content-Length: -5\r\n"],
    ["an unknown way of sending", "Transfer-Encoding: xchunked\r\n"],
  ])("refuses %s", async (_what, headers) => {
    expect(await bench.raw(`${head("POST /bench/log", headers)}0\r\n\r\n`)).toMatch(/^HTTP\/1\.1 400 /);
  });

  it("refuses what is packed: a small parcel may hold a mountain", async () => {
    expect(await statusOf("/bench/log", jsonPost(nothing, { "Content-Encoding": "gzip" }))).toBe(415);
  });

  it.each([
    ["nested lists", `{"entries":${"[".repeat(100_000)}${"]".repeat(100_000)}}`],
    ["nested mappings", `{"entries":[${'{"a":'.repeat(100_000)}1${"}".repeat(100_000)}]}`],
    ["lists that never close", "[".repeat(MEGABYTE)],
  ])("refuses %s by their depth", async (_what, body) => {
    const answer = await bench.ask("/bench/log", jsonPost(body));
    expect(answer.status).toBe(400);
    expect(answer.json()).toMatchObject({ where: "body", problem: "is nested more than 48 deep" });
  });

  it.each([
    ["no JSON", "{entries:[]}"],
    ["nothing", ""],
    ["half of it", '{"entries":['],
  ])("refuses %s with 400", async (_what, body) => {
    expect(await statusOf("/bench/log", jsonPost(body))).toBe(400);
  });

  it("refuses what is not UTF-8", async () => {
    const body = Buffer.concat([Buffer.from('{"entries":["'), Buffer.from([0xff, 0xfe]), Buffer.from('"]}')]);
    expect(await statusOf("/bench/log", { ...jsonPost(""), body })).toBe(400);
  });

  it("takes names that mean something to the language for plain names", async () => {
    const body = `{"__proto__":{"entries":[1]},"constructor":{"prototype":{"polluted":1}},"entries":[]}`;
    expect(await statusOf("/bench/log", jsonPost(body))).toBe(200);
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
    const [entry] = entriesInARow(1);
    const odd = JSON.stringify({ entries: [entry] }).replace('"path"', '"__proto__":{"path":"/x"},"path"');
    const answer = await bench.ask("/bench/log", jsonPost(odd));
    expect([answer.status, answer.json().where]).toEqual([422, "entries[0].__proto__"]);
  });
});

describe("[SS4] how slowly", () => {
  it("ends a line on which the head of a request does not come to its end", async () => {
    const started = Date.now();
    const answer = await bench.raw(`GET /bench HTTP/1.1\r\nHost: localhost:${bench.port}\r\nX-Slow: `);
    expect(answer).toMatch(/^HTTP\/1\.1 408 /);
    expect(Date.now() - started).toBeLessThan(5000);
  });

  it("ends a line on which the body does not come to its end", async () => {
    const started = Date.now();
    const head = `POST /bench/log HTTP/1.1\r\nHost: localhost:${bench.port}\r\nContent-Type: application/json\r\nContent-Length: 100\r\n\r\n{`;
    await bench.raw(head);
    expect(Date.now() - started).toBeLessThan(5000);
    expect(bench.faults).toEqual([]);
  });

  it("answers one that asks properly while others hold lines open", async () => {
    const held = Array.from({ length: 10 }, () => bench.raw("GET /bench HTTP/1.1\r\n"));
    expect(await statusOf("/bench")).toBe(200);
    await Promise.all(held);
  });

  it("refuses a head longer than 16 kB", async () => {
    const head = `GET /bench HTTP/1.1\r\nHost: localhost:${bench.port}\r\nX-Long: ${"a".repeat(20_000)}\r\n\r\n`;
    expect(await bench.raw(head)).toMatch(/^HTTP\/1\.1 431 /);
  });
});

describe("[SS5] what every answer says to the browser", () => {
  const safe = {
    "content-security-policy":
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; font-src 'self'; connect-src 'self'; manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "referrer-policy": "no-referrer",
    "x-content-type-options": "nosniff",
  };

  it.each([
    ["an answer", "/bench", {}],
    ["a refusal", "/bench/log?since=x", {}],
    ["nothing there", "/nothing", {}],
    ["a foreign host", "/", { Host: "evil.example" }],
  ])("%s", async (_what, path, headers) => {
    const answer = await bench.ask(path, { headers });
    expect(answer.headers).toMatchObject({ ...safe, "cache-control": "no-store" });
  });

  it("says where, what and what to do, as JSON, of a path with a script in it", async () => {
    const answer = await bench.ask("/%3Cscript%3Ealert(1)%3C/script%3E");
    expect(answer.status).toBe(404);
    expect(answer.headers["content-type"]).toMatch(/^application\/json/);
    expect(Object.keys(answer.json())).toEqual(["where", "problem", "remedy"]);
  });
});
