/** A server at a real socket of this machine, and requests written by hand, with any header. */
import { type IncomingHttpHeaders, request } from "node:http";
import { connect } from "node:net";
import { type ServeOptions, serve } from "../../src/server/index.ts";
import type { Keeper } from "../../src/store/index.ts";
import { memoryKeeper } from "./memory-keeper.ts";

export interface Bench {
  readonly keeper: Keeper;
  readonly address: string;
  readonly port: number;
  /** What was written where the server was started. */
  readonly faults: string[];
  ask(path: string, options?: AskOptions): Promise<Answer>;
  /** Bytes as they are, to a socket; settles with all that came back when the line is closed. */
  raw(text: string | readonly string[]): Promise<string>;
  close(): Promise<void>;
}

export interface AskOptions {
  readonly method?: string;
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: string | Uint8Array;
}

export interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly bytes: Buffer;
  readonly text: string;
  json<T = Record<string, unknown>>(): T;
}

export async function openBench(options: Partial<ServeOptions> = {}): Promise<Bench> {
  const keeper = options.keeper ?? memoryKeeper();
  const faults: string[] = [];
  const log = (line: string): void => {
    faults.push(line);
  };
  const serving = await serve({ keeper, pageFolder: "no/page", log, version: "1.2.3", port: 0, ...options });
  const { port } = serving;
  return {
    keeper,
    faults,
    port,
    address: serving.address.replace(/\/$/, ""),
    ask: (path, asked) => ask(port, path, asked),
    raw: (text) => raw(port, text),
    close: () => serving.close(),
  };
}

function ask(port: number, path: string, { method = "GET", headers = {}, body }: AskOptions = {}): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const asked = request({ host: "127.0.0.1", port, path, method, headers, agent: false }, (response) => {
      const pieces: Buffer[] = [];
      response.on("data", (piece: Buffer) => pieces.push(piece));
      response.on("error", reject);
      response.on("end", () => {
        const bytes = Buffer.concat(pieces);
        const text = bytes.toString("utf8");
        const { statusCode: status = 0, headers: answered } = response;
        resolve({ status, headers: answered, bytes, text, json: () => JSON.parse(text) });
      });
    });
    asked.on("error", reject);
    asked.end(body);
  });
}

function raw(port: number, text: string | readonly string[]): Promise<string> {
  return new Promise((resolve) => {
    const socket = connect(port, "127.0.0.1");
    let seen = "";
    socket.on("data", (piece) => {
      seen += piece.toString("latin1");
    });
    socket.on("error", () => {});
    socket.on("close", () => resolve(seen));
    for (const piece of typeof text === "string" ? [text] : text) socket.write(piece);
  });
}
