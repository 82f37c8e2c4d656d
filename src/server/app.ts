/** The server without its socket: who may ask, what is answered, and how what goes wrong is said. */
import type { HttpBindings } from "@hono/node-server";
import { type Context, Hono } from "hono";
import type { Keeper } from "../store/index.ts";
import { benchRoutes } from "./bench-routes.ts";
import { requireOwn } from "./guard.ts";
import { SAFE_HEADERS } from "./headers.ts";
import { createLive, type Live, type LiveOptions } from "./live.ts";
import { type PageFile, readPageFiles } from "./page-files.ts";
import { Refusal, saidOf } from "./refusal.ts";

export interface AppOptions {
  readonly keeper: Keeper;
  /** Where the built page lies; it need not be there. */
  readonly pageFolder: string;
  /** Told of faults of the program, a text each. */
  readonly log: (line: string) => void;
  readonly version: string;
  /** What the server listens at; its name may be asked for besides the machine's own names. */
  readonly host?: string;
  readonly live?: LiveOptions;
}

export type BenchApp = Hono<{ Bindings: HttpBindings }>;

export async function createApp(options: AppOptions): Promise<{ readonly app: BenchApp; readonly live: Live }> {
  const { keeper, log, version, host = "127.0.0.1" } = options;
  const pageFiles = await readPageFiles(options.pageFolder);
  const live = createLive(keeper, options.live);
  const app: BenchApp = new Hono();

  app.use(async (c, next) => {
    const { incoming } = c.env;
    const { origin, "sec-fetch-site": site, "sec-fetch-mode": mode } = incoming.headers;
    const asked = { method: c.req.method, target: incoming.url ?? "", hosts: hostsOf(incoming.rawHeaders), origin };
    requireOwn({ ...asked, site: single(site), mode: single(mode) }, incoming.socket.localPort ?? 0, host);
    await next();
    for (const [name, value] of Object.entries(SAFE_HEADERS)) c.res.headers.set(name, value);
    if (!c.res.headers.has("Cache-Control")) c.res.headers.set("Cache-Control", "no-store");
  });

  app.route("/bench", benchRoutes({ keeper, live, version }));

  app.get("*", (c) => {
    const file = pageFiles.get(c.req.path);
    if (file) return pageFile(c, file);
    if (c.req.path === "/" || c.req.path === "/index.html")
      throw new Refusal(404, "page", "has not been built", "Start fettle with: npm start");
    return c.notFound();
  });

  app.notFound((c) => say(c, new Refusal(404, c.req.path.slice(0, 100), "is not here", "Start at /"), log));
  app.onError((error, c) => say(c, error, log));
  return { app, live };
}

function pageFile(c: Context, { type, bytes, tag, lasting }: PageFile): Response {
  const headers = { ETag: tag, "Cache-Control": lasting ? "public, max-age=31536000, immutable" : "no-cache" };
  if (c.req.header("If-None-Match") === tag) return c.body(null, 304, headers);
  return c.body(new Uint8Array(bytes), 200, { ...headers, "Content-Type": type });
}

/** A request that was refused may still have a body under way, which nobody will read. */
function say(c: Context, error: unknown, log: (line: string) => void): Response {
  const { status, body } = saidOf(error, log);
  const closing = c.req.method === "GET" || c.req.method === "HEAD" ? {} : { Connection: "close" };
  return c.json(body, status, { ...SAFE_HEADERS, ...closing, "Cache-Control": "no-store" });
}

function hostsOf(raw: readonly string[]): string[] {
  return raw.flatMap((name, index) => (index % 2 === 0 && name.toLowerCase() === "host" ? [raw[index + 1] ?? ""] : []));
}

function single(value: string | readonly string[] | undefined): string | undefined {
  return typeof value === "string" || value === undefined ? value : value.join(",");
}
