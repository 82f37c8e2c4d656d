/** The README's tour, run as a newcomer would: every command, and every line of output that it shows. */
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";

interface Stop {
  readonly command: string;
  readonly expected: readonly string[];
}

const readme = readFileSync("README.md", "utf8");

/** `$ command` lines of the console blocks, each with the output lines shown under it; `…` stands for anything. */
function stops(): Stop[] {
  return [...readme.matchAll(/```console\n([\s\S]*?)```/g)].flatMap(([, block = ""]) =>
    block
      .split(/^\$ /m)
      .slice(1)
      .map((part) => {
        const [command = "", ...lines] = part.trimEnd().split("\n");
        return { command, expected: lines.map((line) => line.trim()).filter((line) => line !== "" && line !== "…") };
      }),
  );
}

/** Splits a command line with double quotes as a shell does. */
function words(command: string): string[] {
  return [...command.matchAll(/(?:[^\s"]+|"[^"]*")+/g)].map(([word]) => word.replaceAll('"', ""));
}

describe("the tour of the README", () => {
  const out = mkdtempSync(join(tmpdir(), "fettle-tour-"));

  it.each(stops())("$command", ({ command, expected }) => {
    const [npx, fettle, ...args] = words(command);
    expect([npx, fettle]).toEqual(["npx", "fettle"]);
    const here = args.map((arg) => arg.replace(/^out\//, `${out}/`));
    const run = spawnSync(process.execPath, ["bin/fettle.js", ...here], {
      encoding: "utf8",
      env: { ...process.env, NO_COLOR: "1", COLUMNS: "100" },
    });
    expect([0, 1], run.stderr).toContain(run.status);
    const printed = run.stdout.replace(/\s+/g, " ");
    for (const line of expected) expect(printed).toContain(line.replace(/\s+/g, " "));
  });

  it("shows pictures that are there", () => {
    const pictures = [...readme.matchAll(/!\[[^\]]+\]\(([^)]+)\)/g)].map(([, path = ""]) => path);
    expect(pictures.length).toBeGreaterThanOrEqual(2);
    for (const path of pictures) expect(existsSync(path), path).toBe(true);
  });
});
