import type { Io } from "../../src/cli/command.ts";

export interface RecordedIo extends Io {
  readonly printed: { out: string; err: string };
}

/** A terminal that keeps what was printed. */
export function recordedIo(width = 100): RecordedIo {
  const printed = { out: "", err: "" };
  return {
    printed,
    width,
    colour: false,
    out: (text) => {
      printed.out += `${text}\n`;
    },
    err: (text) => {
      printed.err += `${text}\n`;
    },
  };
}
