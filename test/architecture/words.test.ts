import { describe, expect, it } from "vitest";
import { projectFiles, read } from "./source-files.ts";

/**
 * What must not stand in any file of the project: paths of somebody's machine, hosts of package registries, talk of how
 * the text came about. Each is put together from pieces, so that this file does not hold what it looks for.
 */
const UNWANTED: readonly (readonly [what: string, pattern: RegExp])[] = [
  [
    "a path of somebody's machine",
    pattern(["/ho", "me/[a-z]"], ["/Us", "ers/[a-z]"], ["[A-Z]:\\\\Us", "ers"], ["/ro", "ot/"]),
  ],
  [
    "a path of somebody's machine",
    pattern(["/wo", "rk/(?:main|shared|steering|\\.library)"], ["/fa", "rm/"], ["(?<![\\w.])/tm", "p/"]),
  ],
  [
    "a host of a package registry",
    pattern(["registry\\.npm", "js"], ["npm", "mirror"], ["deb\\.deb", "ian"], ["registry\\.yarn", "pkg"]),
  ],
  [
    "talk of how the text came about",
    pattern(["\\bsub", "-?agents?\\b"], ["\\bAI ag", "ents?\\b"], ["\\btrans", "cript\\b"]),
  ],
  [
    "talk of how the text came about",
    pattern(["\\blanguage mo", "dels?\\b"], ["\\bL", "LMs?\\b"], ["\\bchat", "bots?\\b"]),
  ],
  [
    "talk of how the text came about",
    pattern(["\\b(?:this|previous|earlier|next|parallel) ses", "sions?\\b"], ["\\bAI[- ]gen", "erated\\b"]),
  ],
  [
    "talk of how the text came about",
    pattern(["\\bas (?:the|your) br", "ief\\b"], ["\\bthe int", "egrator\\b"], ["\\bhelper", "s? (?:wrote|will)\\b"]),
  ],
  ["a mark left for later", pattern(["\\bTO", "DO\\b"], ["\\bFIX", "ME\\b"], ["\\bXX", "X\\b"])],
];

function pattern(...pieces: readonly (readonly [string, string])[]): RegExp {
  return new RegExp(pieces.map(([head, tail]) => head + tail).join("|"), "i");
}

function unwanted(text: string): string[] {
  return UNWANTED.flatMap(([what, wrong]) => {
    const found = wrong.exec(text);
    return found ? [`${what}: "${found[0]}"`] : [];
  });
}

const texts = projectFiles().filter((file) => !/\.(png|jpe?g|pdf|woff2?|wav|ico)$/.test(file));

describe("no file holds what does not belong into it", () => {
  it("looks at the project's files", () => {
    expect(texts).toEqual(expect.arrayContaining(["package.json", "test/architecture/words.test.ts"]));
  });

  it.each(texts)("%s", (file) => {
    expect(unwanted(`${file}\n${read(file)}`)).toEqual([]);
  });
});

describe("the rule itself", () => {
  it.each([
    ["/ho", "me/anna/guitar"],
    ["C:\\Us", "ers\\anna"],
    ["see https://registry.npm", "js.org/x"],
    ["as the sub", "agent wrote"],
    ["in the previous ses", "sion"],
    ["TO", "DO: more"],
  ])("refuses %s%s", (head, tail) => {
    expect(unwanted(head + tail)).toHaveLength(1);
  });

  it.each([
    "a measuring session",
    "a wetting agent",
    "templates/",
    "the home key",
    "work/main street",
    "https://nodejs.org",
  ])("lets %j be", (text) => {
    expect(unwanted(text)).toEqual([]);
  });
});

describe("the lock file", () => {
  it("holds no address to fetch from, only what to check the fetched against", () => {
    const lock: { packages: Record<string, { resolved?: string; integrity?: string; link?: boolean }> } = JSON.parse(
      read("package-lock.json"),
    );
    const packages = Object.entries(lock.packages).filter(([name]) => name !== "");
    expect(packages.filter(([, { resolved }]) => resolved !== undefined).map(([name]) => name)).toEqual([]);
    expect(packages.filter(([, { integrity }]) => !integrity).map(([name]) => name)).toEqual([]);
  });

  it("is kept so by the project's own settings", () => {
    expect(read(".npmrc").split("\n")).toContain("omit-lockfile-registry-resolved=true");
  });
});
