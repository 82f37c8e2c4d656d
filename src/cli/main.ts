/** The command line's entry: the real terminal, the real exit code. */
import { readFileSync } from "node:fs";
import type { Io } from "./command.ts";
import { archiveCommand } from "./commands/archive.ts";
import { askCommand } from "./commands/ask.ts";
import { assessCommand } from "./commands/assess.ts";
import { beginCommand } from "./commands/begin.ts";
import { bringBackCommand } from "./commands/bring-back.ts";
import { exportCommand } from "./commands/export.ts";
import { findCommand } from "./commands/find.ts";
import { importCommand } from "./commands/import.ts";
import { jobsCommand } from "./commands/jobs.ts";
import { papersCommand } from "./commands/papers.ts";
import { schemaCommand } from "./commands/schema.ts";
import { serveCommand } from "./commands/serve.ts";
import { wiringCommand } from "./commands/wiring.ts";
import { terminalInput } from "./input.ts";
import { runCli } from "./run-cli.ts";

const DEFAULT_WIDTH = 100;
const NARROWEST = 40;
/** Longer lines are hard to read back to the start of. */
const WIDEST = 110;

/** A fault of the program, not of the input (EX_SOFTWARE of sysexits.h). */
const FAULT = 70;

const { stdout, stderr, env } = process;

const io: Io = {
  out: (text) => stdout.write(`${text}\n`),
  err: (text) => stderr.write(`${text}\n`),
  width: Math.min(WIDEST, Math.max(NARROWEST, stdout.columns || DEFAULT_WIDTH)),
  colour: stdout.isTTY === true && !env.NO_COLOR && env.TERM !== "dumb",
  openInput: terminalInput,
  untilStopped: () =>
    new Promise((resolve) => {
      for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) process.once(signal, () => resolve());
    }),
  version: version(),
};

// `fettle assess … | head` closes the pipe early; that is the reader's right.
stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
  process.exit();
});

try {
  process.exitCode = await runCli(
    {
      name: "fettle",
      version: io.version ?? "unknown",
      summary: "Works out a refit of an electric guitar or bass before anything is cut.",
      commands: [
        beginCommand,
        askCommand,
        assessCommand,
        wiringCommand,
        findCommand,
        papersCommand,
        schemaCommand,
        serveCommand,
        jobsCommand,
        importCommand,
        exportCommand,
        archiveCommand,
        bringBackCommand,
      ],
    },
    process.argv.slice(2),
    io,
  );
} catch (error) {
  io.err(
    `This is a fault of fettle, not of your file. Nothing was changed.\n${error instanceof Error ? error.stack : error}`,
  );
  process.exitCode = FAULT;
}

function version(): string {
  const manifest: unknown = JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8"));
  return typeof manifest === "object" && manifest && "version" in manifest ? String(manifest.version) : "unknown";
}
