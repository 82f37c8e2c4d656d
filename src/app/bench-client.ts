/**
 * The bench computer as another device sees it: the same questions as to a keeper, over the network. Knows nothing of
 * Node, so that the page can use it. What comes from there is checked as if it came from a stranger.
 */
import { InputError } from "../core/errors.ts";
import { checkedEntry, type LogEntry } from "../core/log/index.ts";
import { checkedHash, type Photograph, photographType } from "../store/index.ts";
import { followEvents } from "./bench-events.ts";

export interface Bench {
  readonly program: string;
  readonly version: string;
  /** Tells this log from every other one. */
  readonly log: string;
}

export interface BenchClient {
  /** Who answers there. */
  who(): Promise<Bench>;
  since(
    place: number,
    limit: number,
  ): Promise<{ readonly entries: LogEntry[]; readonly place: number; readonly more: boolean }>;
  /** Settles only when the bench computer has all of them on its disk. */
  append(entries: readonly LogEntry[]): Promise<{ readonly added: number }>;
  photographs(): Promise<string[]>;
  photograph(hash: string): Promise<Photograph | undefined>;
  keepPhotograph(photograph: Photograph): Promise<void>;
  /** Calls back with the newest place, now and whenever something comes; comes back by itself when the line breaks. */
  live(onPlace: (place: number) => void): { stop(): void };
  /** For an exchange, which remembers by the other log's name how far it has come. */
  peer(): Promise<BenchClient & { readonly id: string }>;
}

const AWAY = new InputError(
  "bench computer",
  "does not answer",
  "Go on working: what you enter is kept here and handed over when it does",
);

/** Entries of one request: a request may hold 8 million bytes, of which a letter may need three. */
const MOST_ENTRIES = 1000;
const MOST_LETTERS = 1_500_000;

/** A photograph on a slow wireless line. */
const PATIENCE_MS = 120_000;

/**
 * Every function of it throws an InputError if nobody answers or the bench computer refuses.
 *
 * @param address where the bench computer answers, e.g. "http://127.0.0.1:4717"; empty: where the page came from
 */
export function createBenchClient(address = "", given: typeof fetch = fetch): BenchClient {
  const url = (path: string): string => `${address}/bench${path}`;

  async function ask(path: string, init: RequestInit = {}): Promise<Response> {
    const asked = given(url(path), { ...init, signal: AbortSignal.timeout(PATIENCE_MS) });
    const response = await asked.catch((cause: unknown) => {
      throw away(cause);
    });
    if (response.ok || response.status === 404) return response;
    throw refusalOf(response.status, await jsonOf(response).catch(() => undefined));
  }

  async function askJson(path: string, init?: RequestInit): Promise<Record<string, unknown>> {
    const response = await ask(path, init);
    const body = await jsonOf(response);
    if (response.ok && isMapping(body)) return body;
    throw response.ok ? notFettle() : refusalOf(response.status, body);
  }

  async function appendPart(part: readonly LogEntry[]): Promise<number> {
    const headers = { "Content-Type": "application/json" };
    const answer = await askJson("/log", { method: "POST", headers, body: JSON.stringify({ entries: part }) });
    const acknowledged = new Set(textsOf(answer.acknowledged));
    if (part.some(({ id }) => !acknowledged.has(id))) throw notFettle();
    return numberOf(answer.added);
  }

  async function who(): Promise<Bench> {
    const { program, version, log } = await askJson("");
    if (program !== "fettle" || typeof version !== "string" || typeof log !== "string") throw notFettle();
    return { program, version, log };
  }

  const client: BenchClient = {
    who,
    peer: async () => ({ ...client, id: (await who()).log }),

    async since(place, limit) {
      const answer = await askJson(`/log?since=${place}&limit=${Math.min(limit, MOST_ENTRIES)}`);
      if (!Array.isArray(answer.entries)) throw notFettle();
      const entries = answer.entries.map((entry: unknown, index) => checkedEntry(entry, `bench computer, ${index}`));
      return { entries, place: numberOf(answer.place), more: answer.more === true };
    },

    async append(entries) {
      let added = 0;
      for (const part of partsOf(entries)) added += await appendPart(part);
      return { added };
    },

    photographs: async () => textsOf((await askJson("/photographs")).photographs).map(checkedHash),

    async photograph(hash) {
      const response = await ask(`/photographs/${checkedHash(hash)}`);
      if (response.status === 404) return undefined;
      const buffer = await response.arrayBuffer().catch((cause: unknown) => {
        throw away(cause);
      });
      const bytes = new Uint8Array(buffer);
      const type = photographType(bytes);
      if (!type) throw notFettle();
      return { hash, type, bytes };
    },

    async keepPhotograph({ hash, type, bytes }) {
      const headers = { "Content-Type": type };
      await askJson(`/photographs/${checkedHash(hash)}`, { method: "PUT", headers, body: new Uint8Array(bytes) });
    },

    live: (onPlace) => followEvents(url("/live"), given, (data) => onPlace(numberOf(isMapping(data) && data.place))),
  };
  return client;
}

/** Parts that a request can hold; none for no entries. */
function* partsOf(entries: readonly LogEntry[]): Generator<LogEntry[]> {
  let part: LogEntry[] = [];
  let letters = 0;
  for (const entry of entries) {
    const length = JSON.stringify(entry).length;
    if (part.length > 0 && (part.length >= MOST_ENTRIES || letters + length > MOST_LETTERS)) {
      yield part;
      [part, letters] = [[], 0];
    }
    part.push(entry);
    letters += length;
  }
  if (part.length > 0) yield part;
}

async function jsonOf(response: Response): Promise<unknown> {
  const text = await response.text().catch((cause: unknown) => {
    throw away(cause);
  });
  try {
    return JSON.parse(text) as unknown;
  } catch {
    throw notFettle();
  }
}

function away(cause: unknown): InputError {
  const error = new InputError(AWAY.where, AWAY.problem, AWAY.remedy);
  error.cause = cause;
  return error;
}

/** In the bench computer's own words, as far as it has any. */
function refusalOf(status: number, body: unknown): InputError {
  if (status >= 500) return away(status);
  const { where, problem, remedy } = isMapping(body) ? body : {};
  if (typeof where === "string" && typeof problem === "string" && typeof remedy === "string")
    return new InputError(where, problem, remedy);
  return notFettle();
}

function notFettle(): InputError {
  return new InputError("bench computer", "answers, but not as Fettle does", "See what else runs at this address");
}

function textsOf(value: unknown): string[] {
  if (Array.isArray(value) && value.every((item) => typeof item === "string")) return value as string[];
  throw notFettle();
}

function numberOf(value: unknown): number {
  if (typeof value === "number" && Number.isSafeInteger(value)) return value;
  throw notFettle();
}

function isMapping(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
