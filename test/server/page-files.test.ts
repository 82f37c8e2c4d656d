import { mkdir, mkdtemp, rm, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Bench, openBench } from "../support/server.ts";

let folder: string;
let bench: Bench;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "fettle-page-"));
  const page = join(folder, "page");
  await mkdir(join(page, "assets", "deeper"), { recursive: true });
  const files: Record<string, string> = {
    "index.html": "<!doctype html><title>Fettle</title>",
    "service-worker.js": "self.onfetch = null",
    "manifest.webmanifest": "{}",
    "assets/page-1a2b.js": "export {}",
    "assets/page-1a2b.css": "p{}",
    "assets/face-1a2b.woff2": "font",
    "assets/page-1a2b.js.map": "{}",
    "assets/deeper/more.js": "deeper",
    ".hidden.js": "hidden",
    "notes.txt": "notes",
  };
  for (const [name, text] of Object.entries(files)) await writeFile(join(page, name), text);
  await writeFile(join(folder, "secret.js"), "secret");
  await symlink(join(folder, "secret.js"), join(page, "link.js"));
  bench = await openBench({ pageFolder: page });
});
afterAll(async () => {
  await bench.close();
  await rm(folder, { recursive: true });
});

describe("the page", () => {
  it.each([
    ["/", "text/html; charset=utf-8", "no-cache"],
    ["/index.html", "text/html; charset=utf-8", "no-cache"],
    ["/service-worker.js", "text/javascript; charset=utf-8", "no-cache"],
    ["/manifest.webmanifest", "application/manifest+json", "no-cache"],
    ["/assets/page-1a2b.js", "text/javascript; charset=utf-8", "public, max-age=31536000, immutable"],
    ["/assets/page-1a2b.css", "text/css; charset=utf-8", "public, max-age=31536000, immutable"],
    ["/assets/face-1a2b.woff2", "font/woff2", "public, max-age=31536000, immutable"],
  ])("[SP1] serves %s as %s", async (path, type, cache) => {
    const answer = await bench.ask(path);
    expect(answer.status).toBe(200);
    expect(answer.headers).toMatchObject({
      "content-type": type,
      "cache-control": cache,
      "content-security-policy": expect.stringContaining("script-src 'self'"),
    });
    const again = await bench.ask(path, { headers: { "If-None-Match": String(answer.headers.etag) } });
    expect([again.status, again.text]).toEqual([304, ""]);
    expect((await bench.ask(path, { method: "HEAD" })).status).toBe(200);
  });

  it.each([
    "/secret.js",
    "/../secret.js",
    "/assets/../../secret.js",
    "/%2e%2e/secret.js",
    "/..%2fsecret.js",
    "/..%5csecret.js",
    "//secret.js",
    "/assets//page-1a2b.js",
    "/./index.html/",
    "/index.html%00",
    "/link.js",
    "/.hidden.js",
    "/notes.txt",
    "/assets/",
    "/assets",
    "/assets/page-1a2b.js.map",
    "/assets/deeper/more.js",
    "/constructor",
    "/__proto__",
    "/%",
    "/%c0%ae%c0%ae/secret.js",
  ])("[SP2] has no %s", async (path) => {
    const answer = await bench.ask(path);
    expect(answer.status).toBe(404);
    expect(answer.text).not.toMatch(/secret"?$|hidden"?$|deeper"?$/);
    expect(answer.json()).toMatchObject({ problem: "is not here" });
  });

  it("[SP3] serves what was there at the start", async () => {
    await writeFile(join(folder, "page", "later.js"), "later");
    expect((await bench.ask("/later.js")).status).toBe(404);
  });

  it("[SP3] says what to do if the page has not been built", async () => {
    const bare = await openBench({ pageFolder: join(folder, "none") });
    const answer = await bare.ask("/");
    expect(answer.status).toBe(404);
    expect(answer.json()).toEqual({
      where: "page",
      problem: "has not been built",
      remedy: "Start fettle with: npm start",
    });
    await bare.close();
  });
});
