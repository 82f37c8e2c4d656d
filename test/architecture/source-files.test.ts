import { describe, expect, it } from "vitest";
import { importsOf, projectFiles, withoutComments } from "./source-files.ts";

describe("withoutComments", () => {
  it.each([
    ["a // b", "a     "],
    ["a /* b\n c */ d", "a     \n      d"],
    ['say("// no")', 'say("// no")'],
    ['x = /["`]/; // b', 'x = /["`]/;     '],
    ["a / b / c // d", "a / b / c     "],
    ["return /'/.test(x) // d", "return /'/.test(x)     "],
    ["`//a` // b", "`//a`     "],
    ["// don't\nconst a = 'b';", "        \nconst a = 'b';"],
  ])("turns %j into %j", (code, bare) => {
    expect(withoutComments(code)).toBe(bare);
  });

  it("blanks the insides of texts on demand", () => {
    expect(withoutComments('say("console.log", `a\nb`, /c/)', "blank")).toBe('say("           ", ` \n `, / /)');
  });
});

describe("importsOf", () => {
  it("sees every way to import, and none in a comment", () => {
    const code = [
      'import a, { type B } from "./a.ts";',
      'import type { C } from "../c/index.ts";',
      'import "./d.ts";',
      'export { e } from "./e.ts";',
      'export * from "./f.ts";',
      'const g = await import("node:fs");',
      'import * as h from "zod";',
      '// import i from "./i.ts";',
      'import {\n  j,\n} from "./j.ts";',
    ].join("\n");
    expect(importsOf("src/x/y.ts", code).map(({ target, typeOnly }) => [target, typeOnly])).toEqual([
      ["src/x/a.ts", false],
      ["src/c/index.ts", true],
      ["src/x/d.ts", false],
      ["src/x/e.ts", false],
      ["src/x/f.ts", false],
      ["zod", false],
      ["src/x/j.ts", false],
      ["node:fs", false],
    ]);
  });
});

it("finds the project's files without what is made or fetched", () => {
  const files = projectFiles();
  expect(files).toEqual(expect.arrayContaining(["package.json", "src/core/errors.ts", "scripts/ready.mjs"]));
  expect(files.filter((file) => /^(node_modules|dist|out)\//.test(file))).toEqual([]);
});
