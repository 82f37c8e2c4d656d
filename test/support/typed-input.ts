import type { Input } from "../../src/cli/command.ts";

export interface TypedInput extends Input {
  /** Lines that nobody asked for. */
  readonly left: string[];
  closed: boolean;
}

/** What a person types, or what comes through a pipe; then the input ends. */
export function typedInput(lines: readonly string[], live: boolean): TypedInput {
  const left = [...lines];
  const input: TypedInput = {
    live,
    left,
    closed: false,
    line: async () => left.shift(),
    close: () => {
      input.closed = true;
    },
  };
  return input;
}
