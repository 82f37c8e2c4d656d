import { existsSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { projectFiles, ROOT, read } from "./source-files.ts";

const decisions = projectFiles().filter((file) => file.startsWith("docs/decisions/"));
const manifest: Record<"scripts" | "dependencies" | "devDependencies" | "bin", Record<string, string>> = JSON.parse(
  read("package.json"),
);

describe("decisions", () => {
  it("are numbered from 1 without gaps, one number one page", () => {
    const numbers = decisions.map((file) => Number(/\/(\d{4})-[a-z0-9-]+\.md$/.exec(file)?.[1]));
    expect(numbers.sort((a, b) => a - b)).toEqual(decisions.map((_, index) => index + 1));
  });

  it.each(decisions)("%s has a title with its number, a date, context, choice and consequences", (file) => {
    const text = read(file);
    expect(text).toMatch(new RegExp(`^# ${/\d{4}/.exec(file)?.[0]} `));
    expect(text).toMatch(/^\d{4}-\d{2}-\d{2}/m);
    for (const heading of ["Context", "Choice", "Consequences"]) expect(text).toContain(`\n## ${heading}\n`);
  });

  it("give a reason for each package that the project depends on", () => {
    const reasons = decisions.map(read).join("\n");
    const packages = Object.keys({ ...manifest.dependencies, ...manifest.devDependencies });
    expect(packages.filter((name) => !reasons.includes(`\`${name}\``))).toEqual([]);
  });

  it("name no package that is not there", () => {
    const table = [...read("docs/decisions/0003-dependencies.md").matchAll(/^\| `([^`]+)` \|/gm)].map(
      ([, name]) => name,
    );
    const packages = Object.keys({ ...manifest.dependencies, ...manifest.devDependencies });
    expect(table.filter((name) => name && !packages.includes(name))).toEqual([]);
  });
});

describe("packages", () => {
  it("have exact versions", () => {
    const versions = Object.entries({ ...manifest.dependencies, ...manifest.devDependencies });
    expect(versions.filter(([, version]) => !/^\d+\.\d+\.\d+$/.test(version))).toEqual([]);
  });
});

describe("documents", () => {
  const pages = projectFiles().filter((file) => file.endsWith(".md"));

  it.each(pages)("%s points to files that are there", (file) => {
    const links = [...read(file).matchAll(/\]\((?!https?:|#|mailto:)([^)#\s]+)[^)]*\)/g)].map(([, link = ""]) => link);
    const folder = join(ROOT, file, "..");
    expect(links.filter((link) => !existsSync(join(folder, link)))).toEqual([]);
  });

  it("the README's commands are there", () => {
    const blocks = [...read("README.md").matchAll(/```(?:sh|bash|console)\n([\s\S]*?)```/g)].map(
      ([, block = ""]) => block,
    );
    const lines = blocks.flatMap((block) => block.split("\n")).map((line) => line.replace(/^\$ /, "").trim());
    const commands = lines.filter((line) => /^(npm|npx|node)\b/.test(line));
    expect(commands.length).toBeGreaterThan(0);
    expect(commands.filter((command) => !isThere(command))).toEqual([]);
  });
});

/** A script of package.json, or a command of the program, with files that exist. */
function isThere(command: string): boolean {
  const [tool, name = "", ...rest] = command.replace(/\s+#.*$/, "").split(/\s+/);
  const files = rest.filter((word) => /^(examples|docs|scripts|bench)\//.test(word));
  if (files.some((file) => !existsSync(join(ROOT, file)))) return false;
  if (tool === "node") return existsSync(join(ROOT, name));
  if (tool === "npm") return name === "ci" || ["start", "test"].includes(name) || (rest[0] ?? "") in manifest.scripts;
  const [subcommand = ""] = rest;
  return (
    name in manifest.bin && (subcommand.startsWith("--") || existsSync(join(ROOT, `src/cli/commands/${subcommand}.ts`)))
  );
}
