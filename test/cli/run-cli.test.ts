import { parseArgs } from "node:util";
import { describe, expect, it } from "vitest";
import type { Command } from "../../src/cli/command.ts";
import { choiceFlag, onlyFile, requiredFlag } from "../../src/cli/flags.ts";
import { type Program, runCli } from "../../src/cli/run-cli.ts";
import { recordedIo } from "../support/recorded-io.ts";

const echo: Command = {
  name: "echo",
  summary: "Say a file's name",
  usage: "echo FILE [--units mm|inch]",
  async run(args, io) {
    const options = { units: { type: "string", default: "mm" } } as const;
    const { values, positionals } = parseArgs({ args: [...args], allowPositionals: true, options });
    io.out(`${onlyFile(positionals)} ${choiceFlag(values.units, "--units", ["mm", "inch"])}`);
    return 1;
  },
};
const faulty: Command = {
  name: "faulty",
  summary: "Break",
  usage: "faulty",
  async run() {
    throw new RangeError("a fault");
  },
};
const program: Program = { name: "fettle", version: "1.2.3", summary: "A test.", commands: [echo, faulty] };

async function run(...args: string[]): Promise<{ exitCode: number; out: string; err: string }> {
  const io = recordedIo();
  const exitCode = await runCli(program, args, io);
  return { exitCode, out: io.printed.out, err: io.printed.err };
}

describe("runCli", () => {
  it("hands flags on and gives back the command's exit code", async () => {
    expect(await run("echo", "a.yaml", "--units", "Inch")).toEqual({ exitCode: 1, out: "a.yaml inch\n", err: "" });
  });

  it.each([
    [["echo"], "FILE: is missing. Name a job file, e.g. examples/lowtide.yaml.\n"],
    [["echo", "a", "b"], "b: is one name too many. Name one job file; put quotes around a name with spaces.\n"],
    [["echo", "a", "--units", "ell"], '--units: cannot be "ell". Use mm or inch, e.g. --units mm.\n'],
    [["echo", "a", "--colour"], "Unknown option '--colour'.\n"],
  ])("answers %j with a message, the usage and exit code 2", async (args, message) => {
    expect(await run(...args)).toEqual({
      exitCode: 2,
      out: "",
      err: `${message}usage: fettle echo FILE [--units mm|inch]\n`,
    });
  });

  it("names the commands there are", async () => {
    expect(await run("sing")).toEqual({
      exitCode: 2,
      out: "",
      err: "sing: there is no such command. Use one of echo, faulty, or fettle --help.\n",
    });
  });

  it.each([[[]], [["--help"]], [["-h"]], [["help"]]])("helps on %j", async (args) => {
    const { exitCode, out, err } = await run(...args);
    expect([exitCode, err]).toEqual([0, ""]);
    expect(out).toContain("  echo    Say a file's name\n  faulty  Break\n");
  });

  it.each([[["echo", "--help"]], [["help", "echo"]]])("helps on one command by %j", async (args) => {
    expect(await run(...args)).toEqual({
      exitCode: 0,
      out: "Say a file's name\n\nusage: fettle echo FILE [--units mm|inch]\n",
      err: "",
    });
  });

  it("says its version", async () => {
    expect(await run("--version")).toEqual({ exitCode: 0, out: "1.2.3\n", err: "" });
  });

  it("lets a fault of the program rise", async () => {
    await expect(run("faulty")).rejects.toThrow("a fault");
  });
});

describe("requiredFlag", () => {
  it("says what is missing with an example", () => {
    expect(requiredFlag("out", "--out", "out")).toBe("out");
    expect(() => requiredFlag(undefined, "--out", "out/lowtide")).toThrow(
      "--out: is missing. Add it, e.g. --out out/lowtide.",
    );
  });
});
