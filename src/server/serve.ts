/** The server at its socket: on this machine only unless told otherwise, and patient with nobody. */
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { getRequestListener } from "@hono/node-server";
import { InputError } from "../core/errors.ts";
import { type AppOptions, createApp } from "./app.ts";
import { SAFE_HEADERS } from "./headers.ts";
import { Refusal, saidOf } from "./refusal.ts";

export interface ServeOptions extends AppOptions {
  readonly port: number;
  /** Whether the next free port will do if this one is taken. */
  readonly orNext?: boolean;
  readonly patience?: Patience;
}

export interface Patience {
  /** For the head of a request. */
  readonly headMs: number;
  /** For all of it. */
  readonly requestMs: number;
  /** How often the two are looked at. */
  readonly lookMs: number;
  readonly connections: number;
}

const PATIENCE: Patience = { headMs: 10_000, requestMs: 120_000, lookMs: 2000, connections: 256 };

/** Ports tried one after another. */
const MOST_PORTS = 20;

/** For answers under way when the server is stopped. */
const LAST_ANSWERS_MS = 1000;

export interface Serving {
  /** To be opened in a browser, e.g. "http://127.0.0.1:4717/". */
  readonly address: string;
  readonly port: number;
  close(): Promise<void>;
}

/** @throws InputError if the port cannot be had */
export async function serve(options: ServeOptions): Promise<Serving> {
  const { host = "127.0.0.1", port: wanted, orNext = false, patience = PATIENCE, log } = options;
  const { app, live } = await createApp(options);
  const answer = getRequestListener(app.fetch, {
    overrideGlobalObjects: false,
    errorHandler: (error) => unreadable(error, log),
  });
  const server = createServer(
    {
      headersTimeout: patience.headMs,
      requestTimeout: patience.requestMs,
      connectionsCheckingInterval: patience.lookMs,
      keepAliveTimeout: 5000,
      maxHeaderSize: 16_384,
    },
    answer,
  );
  server.maxConnections = patience.connections;
  const port = await listen(server, host, wanted, orNext ? MOST_PORTS : 1);
  return {
    address: `http://${host.includes(":") ? `[${host}]` : host}:${port}/`,
    port,
    async close() {
      live.close();
      const closed = new Promise<void>((resolve) => server.close(() => resolve()));
      // Again and again: a line whose answer has just ended becomes idle only then.
      const idle = setInterval(() => server.closeIdleConnections(), 20);
      const late = setTimeout(() => server.closeAllConnections(), LAST_ANSWERS_MS);
      await closed;
      clearInterval(idle);
      clearTimeout(late);
    },
  };
}

/** What could not even be taken for a request. */
function unreadable(error: unknown, log: (line: string) => void): Response {
  const isRequest = error instanceof Error && error.name === "RequestError";
  const refusal = new Refusal(400, "request", "cannot be read", "Open the address that fettle printed");
  const { status, body } = saidOf(isRequest ? refusal : error, log);
  return Response.json(body, { status, headers: { ...SAFE_HEADERS, Connection: "close" } });
}

async function listen(server: Server, host: string, first: number, tries: number): Promise<number> {
  for (let port = first; ; port += 1) {
    try {
      await new Promise<void>((resolve, reject) => {
        server.once("error", reject);
        server.listen({ host, port }, () => {
          server.off("error", reject);
          resolve();
        });
      });
      return (server.address() as AddressInfo).port;
    } catch (error) {
      const code = error instanceof Error && "code" in error ? error.code : undefined;
      if (code === "EADDRINUSE" && port - first + 1 < tries && port < 65_535) continue;
      if (code === undefined) throw error;
      throw noPort(port, String(code));
    }
  }
}

function noPort(port: number, code: string): InputError {
  const other = `Choose another, e.g. --port ${port < 60_000 ? port + 1 : 4717}`;
  if (code === "EADDRINUSE") return new InputError("--port", `${port} is in use by another program`, other);
  return new InputError("--port", `${port} cannot be had (${code})`, other);
}
