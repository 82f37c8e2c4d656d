/**
 * Tells every open page when something came into the log: server-sent events, `log` with the newest place. Another program
 * may write into the same file, so while somebody listens the log itself is looked at as well.
 * Source: HTML Living Standard, 9.2 (form of the events, from memory).
 */
import type { Keeper } from "../store/index.ts";
import { Refusal } from "./refusal.ts";

/** Entries stepped over at a time on the way to the newest. */
const STEP = 1000;

/** Pages that may listen at once. */
const MOST_LISTENERS = 64;

/** Events that a page may be behind before it is let go; it comes back and asks. */
const MOST_BEHIND = 32;

export interface LiveOptions {
  readonly lookEveryMs?: number;
  readonly commentEveryMs?: number;
}

export interface Live {
  /** Place of what came last. */
  newest(): Promise<number>;
  /** After something was added here: looks, and tells. */
  added(): Promise<number>;
  /** @throws Refusal if too many listen already */
  listen(): ReadableStream<Uint8Array>;
  close(): void;
}

type Listener = ReadableStreamDefaultController<Uint8Array>;

export function createLive(keeper: Keeper, options: LiveOptions = {}): Live {
  const { lookEveryMs = 2000, commentEveryMs = 20_000 } = options;
  /** With the place that each was told last. */
  const listeners = new Map<Listener, number>();
  const encoder = new TextEncoder();
  const timers: NodeJS.Timeout[] = [];
  let place = 0;
  let looking: Promise<number> = Promise.resolve(0);

  /** One after another, so that the place never goes back. */
  function newest(): Promise<number> {
    const next = looking.then(walk, walk);
    looking = next;
    return next;
  }

  async function walk(): Promise<number> {
    for (;;) {
      const page = await keeper.since(place, STEP);
      place = Math.max(place, page.place);
      if (!page.more) return place;
    }
  }

  async function added(): Promise<number> {
    const now = await newest();
    for (const listener of listeners.keys()) tell(listener, now);
    return now;
  }

  function tell(listener: Listener, now: number): void {
    if (now <= (listeners.get(listener) ?? now)) return;
    listeners.set(listener, now);
    send(listener, eventOf(now));
  }

  function send(listener: Listener, text: string): void {
    if ((listener.desiredSize ?? 0) < -MOST_BEHIND) letGo(listener);
    else listener.enqueue(encoder.encode(text));
  }

  function sendAll(text: string): void {
    for (const listener of listeners.keys()) send(listener, text);
  }

  function letGo(listener: Listener): void {
    if (forget(listener)) listener.close();
  }

  function forget(listener: Listener | undefined): boolean {
    const known = listener !== undefined && listeners.delete(listener);
    if (listeners.size === 0) for (const timer of timers.splice(0)) clearInterval(timer);
    return known;
  }

  function startTimers(): void {
    if (timers.length > 0) return;
    // What cannot be read now is read at the next look; whoever asks for the log itself is told why.
    timers.push(setInterval(() => void added().catch(() => {}), lookEveryMs));
    timers.push(setInterval(() => sendAll(": still here\n\n"), commentEveryMs));
    for (const timer of timers) timer.unref();
  }

  function listen(): ReadableStream<Uint8Array> {
    if (listeners.size >= MOST_LISTENERS)
      throw new Refusal(503, "live", `${MOST_LISTENERS} pages listen already`, "Close some of them");
    let mine: Listener | undefined;
    return new ReadableStream<Uint8Array>({
      async start(listener) {
        mine = listener;
        listeners.set(listener, -1);
        startTimers();
        tell(listener, await newest());
      },
      cancel() {
        forget(mine);
      },
    });
  }

  function close(): void {
    for (const listener of [...listeners.keys()]) letGo(listener);
  }

  return { newest, added, listen, close };
}

function eventOf(place: number): string {
  return `event: log\ndata: ${JSON.stringify({ place })}\n\n`;
}
