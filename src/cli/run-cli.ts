/** Picks the command, runs it, and turns what the person can correct into a message, usage and exit code 2. */
import { InputError } from "../core/errors.ts";
import type { Command, ExitCode, Io } from "./command.ts";
import { wrap } from "./text.ts";

export interface Program {
  readonly name: string;
  readonly version: string;
  readonly summary: string;
  readonly commands: readonly Command[];
}

export async function runCli(program: Program, args: readonly string[], io: Io): Promise<ExitCode> {
  const [name, ...rest] = args;
  if (name === undefined || name === "--help" || name === "-h" || name === "help") {
    io.out(helpText(program, io.width, rest[0]));
    return 0;
  }
  if (name === "--version") {
    io.out(program.version);
    return 0;
  }
  const command = program.commands.find((known) => known.name === name);
  if (!command) {
    const names = program.commands.map((known) => known.name).join(", ");
    io.err(`${name}: there is no such command. Use one of ${names}, or ${program.name} --help.`);
    return 2;
  }
  if (rest.includes("--help") || rest.includes("-h")) {
    io.out(helpText(program, io.width, name));
    return 0;
  }
  return runCommand(program.name, command, rest, io);
}

/** Holds the one `catch`: anything but a person's mistake is a fault of the program and goes on up. */
export async function runCommand(
  programName: string,
  command: Command,
  args: readonly string[],
  io: Io,
): Promise<ExitCode> {
  try {
    return await command.run(args, io);
  } catch (error) {
    const message = correctable(error);
    if (message === undefined) throw error;
    io.err(wrap(message, io.width).join("\n"));
    io.err(`usage: ${programName} ${command.usage}`);
    return 2;
  }
}

function correctable(error: unknown): string | undefined {
  if (error instanceof InputError) return error.message;
  if (!(error instanceof TypeError && "code" in error && String(error.code).startsWith("ERR_PARSE_ARGS_"))) {
    return undefined;
  }
  const [firstSentence = error.message] = error.message.split(/(?<=['"`])\. |\n/);
  return `${firstSentence.replace(/\.$/, "")}.`;
}

function helpText(program: Program, width: number, name?: string): string {
  const command = program.commands.find((known) => known.name === name);
  if (command) return `${command.summary}\n\nusage: ${program.name} ${command.usage}`;

  const longest = Math.max(...program.commands.map((known) => known.name.length));
  const lines = program.commands.map((known) => `  ${known.name.padEnd(longest)}  ${known.summary}`);
  const usages = program.commands.map((known) => `  ${program.name} ${known.usage}`);
  return [
    ...wrap(program.summary, width),
    "",
    ...lines,
    "",
    "usage:",
    ...usages,
    "",
    ...wrap(
      "Exit code 0: everything asked about goes. 1: something does not go yet. 2: the input needs mending.",
      width,
    ),
  ].join("\n");
}
