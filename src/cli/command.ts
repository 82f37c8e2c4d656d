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
  /** What is typed, or comes through a pipe; only commands that ask open it. Left out: there is none. */
  readonly openInput?: () => Input;
  /** Settles when the person wants the program to end (Ctrl-C). Left out: at once. */
  readonly untilStopped?: () => Promise<void>;
  /** The program's own. */
  readonly version?: string;
}

/** Lines from a person or from a file. */
export interface Input {
  /** A person is typing: questions are worth printing, and a slip can be asked again. */
  readonly live: boolean;
  /** The next line as typed, without its end; undefined when there is no more. */
  line(): Promise<string | undefined>;
  close(): void;
}

export interface Command {
  readonly name: string;
  readonly summary: string;
  /** Without the program's name. */
  readonly usage: string;
  /** @throws InputError, or what `parseArgs` throws, for what the person can correct */
  run(args: readonly string[], io: Io): Promise<ExitCode>;
}
