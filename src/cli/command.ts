/** What a command is, and the terminal that it is given. */

/** 0: everything asked about is `go`, or the thing asked for was done. 1: something is not `go`. 2: bad input. */
export type ExitCode = 0 | 1 | 2;

export interface Io {
  /** A result, to stdout. */
  out(text: string): void;
  /** A message, to stderr. */
  err(text: string): void;
  /** Characters to a line. */
  readonly width: number;
  /** Whether colour may be used; never the only sign of anything. */
  readonly colour: boolean;
}

export interface Command {
  readonly name: string;
  readonly summary: string;
  /** Without the program's name. */
  readonly usage: string;
  /** @throws InputError, or what `parseArgs` throws, for what the person can correct */
  run(args: readonly string[], io: Io): Promise<ExitCode>;
}
