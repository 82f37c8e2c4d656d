import { describe, expect, it } from "vitest";
import { refusal } from "./layers.ts";
import { codeFiles, importsOf } from "./source-files.ts";

describe("imports point one way", () => {
  it.each(codeFiles("src"))("%s", (file) => {
    const refused = importsOf(file).flatMap((one) => {
      const why = refusal(file, one);
      return why ? [`"${one.from}": ${why}`] : [];
    });
    expect(refused).toEqual([]);
  });
});

describe("the rule itself", () => {
  const judge = (file: string, code: string): string | undefined => {
    const [one] = importsOf(file, code);
    return one ? refusal(file, one) : "no import was seen";
  };

  it.each([
    ["an area that looks into another", "src/core/fit/a.ts", 'import { x } from "../scale/index.ts";'],
    ["an area that looks up", "src/core/fit/a.ts", 'import type { X } from "../job/index.ts";'],
    ["a lower layer that looks up", "src/core/quantity/a.ts", 'import type { X } from "../verdict/index.ts";'],
    ["the plan that looks into the sheets", "src/core/plan/a.ts", 'import { x } from "../sheets/index.ts";'],
    ["a way past the index", "src/core/job/a.ts", 'import { x } from "../quantity/value.ts";'],
    ["a way past the index from outside", "src/cli/a.ts", 'import { x } from "../core/fit/bushing.ts";'],
    ["the core that looks out", "src/core/job/a.ts", 'import { x } from "../../app/a.ts";'],
    ["a face that skips the use cases", "src/cli/a.ts", 'import { x } from "../papers/index.ts";'],
    ["papers that know a use case", "src/papers/a.ts", 'import { x } from "../app/a.ts";'],
    ["Node in the core", "src/core/job/a.ts", 'import { x } from "node:fs";'],
    ["Node in the core, late", "src/core/job/a.ts", 'const x = await import("node:fs");'],
    ["Node in the page's own store", "src/store/browser.ts", 'import { x } from "node:fs";'],
    ["a package nobody gave a reason for", "src/core/fit/a.ts", 'import { z } from "zod";'],
    ["a package's inner file", "src/core/fit/a.ts", 'import x from "@tarikjabiri/dxf/lib/x.js";'],
    ["an import over several lines", "src/core/fit/a.ts", 'import {\n  x,\n  type Y,\n} from "../scale/index.ts";'],
    ["a re-export", "src/core/fit/index.ts", 'export { x } from "../scale/index.ts";'],
    ["a folder without a layer", "src/core/tuning/a.ts", 'import { x } from "../errors.ts";'],
    ["the tests", "src/cli/a.ts", 'import { x } from "../../test/a.ts";'],
    ["data that computes", "src/data/a.ts", 'import { x } from "../core/quantity/index.ts";'],
  ])("refuses %s", (_what, file, code) => {
    expect(judge(file, code)).toEqual(expect.any(String));
    expect(judge(file, code)).not.toBe("no import was seen");
  });

  it.each([
    ["src/core/fit/a.ts", 'import { requirePositive } from "../checks.ts";'],
    ["src/core/fit/a.ts", 'import { THREADS } from "../../data/threads.ts";'],
    ["src/core/fit/a.ts", 'import { x } from "./bushing.ts";'],
    ["src/core/questions/a.ts", 'import { x } from "../fit/index.ts";'],
    ["src/core/quantity/a.ts", 'import Fraction from "fraction.js";'],
    ["src/app/a.ts", 'import { x } from "../core/index.ts";'],
    ["src/app/a.ts", 'import type { Keeper } from "../store/index.ts";'],
    ["src/web/a.ts", 'import { x } from "../store/browser.ts";'],
    ["src/cli/commands/a.ts", 'import { x } from "../../app/a.ts";'],
    ["src/data/a.ts", 'import type { Source } from "../core/verdict/index.ts";'],
  ])("lets %s have %s", (file, code) => {
    expect(judge(file, code)).toBeUndefined();
  });
});
