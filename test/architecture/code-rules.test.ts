import { describe, expect, it } from "vitest";
import { codeFiles, projectFiles, read, withoutComments } from "./source-files.ts";

const LONGEST_FILE = 400;

/** Longer files and why each may be. */
const LONGER: Readonly<Record<string, string>> = {};

describe("an area is what its index lists", () => {
  const indexes = codeFiles("src").filter((file) => file.endsWith("/index.ts"));

  it("has an index in every folder of the core that holds code", () => {
    const folders = new Set(codeFiles("src/core").map((file) => file.split("/").slice(0, -1).join("/")));
    expect([...folders].filter((folder) => folder !== "src/core" && !indexes.includes(`${folder}/index.ts`))).toEqual(
      [],
    );
  });

  it.each(indexes)("%s names each name", (file) => {
    expect(withoutComments(read(file))).not.toMatch(/export\s*(type\s*)?\*/);
  });

  it("keeps verdicts to types", () => {
    for (const file of codeFiles("src/core/verdict")) {
      const exported = [...withoutComments(read(file)).matchAll(/^export\s+(\w+)/gm)].map(([, kind]) => kind);
      expect(
        exported.filter((kind) => kind !== "type" && kind !== "interface"),
        file,
      ).toEqual([]);
    }
  });
});

describe("a file explains itself", () => {
  const code = projectFiles().filter((file) => /^(src|test|bench|scripts|bin)\/.*\.(ts|tsx|mjs|js)$/.test(file));

  it(`has at most ${LONGEST_FILE} lines, or a reason to have more`, () => {
    const lines = (file: string): number => read(file).trimEnd().split("\n").length;
    expect(
      code.filter((file) => lines(file) > LONGEST_FILE && !(file in LONGER)).map((file) => `${file}: ${lines(file)}`),
    ).toEqual([]);
    expect(Object.keys(LONGER).filter((file) => !code.includes(file) || lines(file) <= LONGEST_FILE)).toEqual([]);
  });
});

describe("types are not argued away", () => {
  // In two pieces each, so that this file does not hold what it looks for.
  const SILENCERS = new RegExp(["ignore", "nocheck", "expect-error"].map((word) => `@ts-${word}`).join("|"));
  const ANYTHING = /(?:[:<,(|&]|\bas|\bextends)\s*any\b|\bany\s*(?:\[\]|>|\|)/;

  it.each(codeFiles("src"))("%s", (file) => {
    const text = read(file);
    expect(SILENCERS.exec(text)?.[0]).toBeUndefined();
    expect(ANYTHING.exec(withoutComments(text, "blank"))?.[0]).toBeUndefined();
  });

  it.each(["const a: any = 1;", "x as any", "Map<string, any>", "function f(a: any[]) {}", "<T extends any>"])(
    "refuses %s",
    (code) => {
      expect(ANYTHING.test(withoutComments(code, "blank"))).toBe(true);
    },
  );

  it.each(["const anyBit = 1;", "// any place\n", 'say("as any")', "strings.some(any1)"])("lets %j be", (code) => {
    expect(ANYTHING.test(withoutComments(code, "blank"))).toBe(false);
  });
});
