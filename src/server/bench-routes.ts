/** What the page and other devices ask of the log on the bench computer. */
import type { HttpBindings } from "@hono/node-server";
import { Hono } from "hono";
import { checkedPhotograph, isPhotographHash } from "../app/checked-photograph.ts";
import { logNameOf } from "../app/log-names.ts";
import { InputError } from "../core/errors.ts";
import { checkedEntry } from "../core/log/index.ts";
import { type Keeper, MOST_PHOTOGRAPH_BYTES, photographType } from "../store/index.ts";
import { readBody, readJson } from "./body.ts";
import type { Live } from "./live.ts";
import { logPage, MOST_ENTRIES } from "./log-page.ts";
import { Refusal } from "./refusal.ts";

const MOST_JSON_BYTES = 8_000_000;

/** A photograph's name is its content: what was answered once holds for good. */
const FOR_GOOD = "private, max-age=31536000, immutable";

export interface BenchOptions {
  readonly keeper: Keeper;
  readonly live: Live;
  readonly version: string;
}

export function benchRoutes({ keeper, live, version }: BenchOptions): Hono<{ Bindings: HttpBindings }> {
  const routes = new Hono<{ Bindings: HttpBindings }>();

  routes.get("/", async (c) => c.json({ program: "fettle", version, log: await logNameOf(keeper) }));

  routes.get("/log", async (c) => {
    const since = wholeNumber(c.req.query("since"), "since", 0, Number.MAX_SAFE_INTEGER);
    const limit = wholeNumber(c.req.query("limit"), "limit", MOST_ENTRIES, MOST_ENTRIES);
    return c.body(await logPage(keeper, since, Math.max(1, limit)), 200, { "Content-Type": "application/json" });
  });

  routes.post("/log", async (c) => {
    const given = await readJson(c.env.incoming, MOST_JSON_BYTES);
    const list = typeof given === "object" && given !== null && "entries" in given ? given.entries : undefined;
    if (!Array.isArray(list)) throw new InputError("entries", "is not a list", "Send { entries: [ … ] }");
    // All or none: what was sent together belongs together.
    const entries = list.map((entry: unknown, index) => checkedEntry(entry, `entries[${index}]`));
    const { added } = await keeper.append(entries);
    return c.json({ acknowledged: entries.map(({ id }) => id), added, place: await live.added() });
  });

  routes.get("/photographs", async (c) => c.json({ photographs: await keeper.photographs() }));

  routes.get("/photographs/:hash", async (c) => {
    const hash = requireHash(c.req.param("hash"));
    const photograph = await keeper.photograph(hash);
    if (!photograph)
      throw new Refusal(404, hash, "is not among the photographs here", "Ask again when it was handed over");
    const type = photographType(photograph.bytes) ?? "application/octet-stream";
    return c.body(new Uint8Array(photograph.bytes), 200, {
      "Content-Type": type,
      "Content-Disposition": "inline",
      "Cache-Control": FOR_GOOD,
    });
  });

  routes.put("/photographs/:hash", async (c) => {
    const hash = requireHash(c.req.param("hash"));
    const bytes = await readBody(c.env.incoming, MOST_PHOTOGRAPH_BYTES);
    if (!photographType(bytes))
      throw new Refusal(415, hash, "is not a JPEG, PNG or WebP picture", "Save it as one of these and send that");
    await keeper.keepPhotograph(checkedPhotograph(hash, bytes, hash));
    return c.json({ kept: hash });
  });

  routes.get("/live", (c) =>
    c.body(live.listen(), 200, { "Content-Type": "text/event-stream", "Cache-Control": "no-store" }),
  );

  return routes;
}

function wholeNumber(text: string | undefined, name: string, otherwise: number, most: number): number {
  if (text === undefined) return otherwise;
  const number = /^\d{1,16}$/.test(text) ? Number(text) : Number.NaN;
  if (number <= Number.MAX_SAFE_INTEGER) return Math.min(number, most);
  throw new Refusal(400, name, `cannot be "${text.slice(0, 40)}"`, `Give a whole number from 0, e.g. ${name}=100`);
}

function requireHash(text: string): string {
  if (isPhotographHash(text)) return text;
  const remedy = "Name it by the SHA-256 of its bytes, 64 hexadecimal digits";
  throw new Refusal(400, "photograph", "does not have the form of a photograph's name", remedy);
}
