/**
 * Follows a stream of server-sent events and comes back whenever it breaks: at once at first, then less and less often. A
 * line on which not even a comment comes is taken for dead; a phone that slept does not notice by itself.
 */

/** The bench computer sends a comment every 20 s. */
const SILENCE_MS = 50_000;

const FIRST_WAIT_MS = 500;
const LONGEST_WAIT_MS = 30_000;

/** @param onData the data of each event, read as JSON */
export function followEvents(url: string, get: typeof fetch, onData: (data: unknown) => void): { stop(): void } {
  const ended = new AbortController();
  void follow(url, get, onData, ended.signal);
  return { stop: () => ended.abort() };
}

async function follow(
  url: string,
  get: typeof fetch,
  onData: (data: unknown) => void,
  ended: AbortSignal,
): Promise<void> {
  let wait = FIRST_WAIT_MS;
  while (!ended.aborted) {
    try {
      await readOnce(url, get, ended, (data) => {
        wait = FIRST_WAIT_MS;
        onData(data);
      });
    } catch {
      // Away, cut off or silent: all of them mean to try again.
    }
    if (!ended.aborted) await pause(wait, ended);
    wait = Math.min(wait * 2, LONGEST_WAIT_MS);
  }
}

async function readOnce(
  url: string,
  get: typeof fetch,
  ended: AbortSignal,
  onData: (data: unknown) => void,
): Promise<void> {
  const line = new AbortController();
  const cut = () => line.abort();
  ended.addEventListener("abort", cut);
  let watch = setTimeout(cut, SILENCE_MS);
  try {
    const response = await get(url, { signal: line.signal, headers: { Accept: "text/event-stream" } });
    if (!response.ok || !response.body) return;
    const reader = response.body.getReader();
    const decoder = new TextDecoder();
    let text = "";
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      clearTimeout(watch);
      watch = setTimeout(cut, SILENCE_MS);
      const events = (text + decoder.decode(value, { stream: true })).split("\n\n");
      text = events.pop() ?? "";
      for (const event of events) {
        const data = /^data: (.*)$/m.exec(event)?.[1];
        if (data !== undefined) onData(JSON.parse(data));
      }
    }
  } finally {
    clearTimeout(watch);
    ended.removeEventListener("abort", cut);
    line.abort();
  }
}

function pause(ms: number, ended: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    const done = () => {
      clearTimeout(timer);
      ended.removeEventListener("abort", done);
      resolve();
    };
    const timer = setTimeout(done, ms);
    ended.addEventListener("abort", done);
  });
}
