/** The real input: a terminal with line editing, or a pipe. */
import { createInterface } from "node:readline";
import type { Input } from "./command.ts";

/** Questions go to stderr, so that an answer in stdout can be sent elsewhere. */
export function terminalInput(): Input {
  const live = process.stdin.isTTY === true;
  const lines = createInterface({ input: process.stdin, output: process.stderr, terminal: live, prompt: "> " });
  const waiting = lines[Symbol.asyncIterator]();
  return {
    live,
    async line() {
      if (live) lines.prompt();
      const next = await waiting.next();
      return next.done ? undefined : next.value;
    },
    close: () => lines.close(),
  };
}
