import { describe, expect, it } from "vitest";
import { codeFiles, read, withoutComments } from "./source-files.ts";

/**
 * Names that would let the core read or touch anything but its arguments. The types of files, network, timers and page
 * are missing in tsconfig.core.json already; this also finds what the language itself brings along.
 */
const IMPURE = new RegExp(
  [
    // `Date.UTC` is plain arithmetic.
    String.raw`\bDate\s*(?:\.\s*(?!UTC\b)|\()|\bnew\s+Date\b`,
    String.raw`\bMath\s*\.\s*random\b`,
    String.raw`(?<![.\w])(?:process|console|performance|crypto|localStorage|sessionStorage|navigator)\s*[.[]`,
    String.raw`(?<![.\w])(?:fetch|setTimeout|setInterval|queueMicrotask|require|eval)\s*\(`,
    String.raw`\bglobalThis\b|\bimport\s*\.\s*meta\b|\bnew\s+Function\b`,
    // The answer would depend on the machine's language.
    String.raw`\bIntl\b|\.toLocale\w+\s*\(|\.localeCompare\s*\(`,
  ].join("|"),
);

function impurity(code: string): string | undefined {
  return IMPURE.exec(withoutComments(code, "blank"))?.[0];
}

describe("the core and its data are pure", () => {
  it.each([...codeFiles("src/core"), ...codeFiles("src/data")])("%s", (file) => {
    expect(impurity(read(file)), "do it in the caller and pass the result in").toBeUndefined();
  });

  it("keeps the types of files, network and page out of the core", () => {
    const { compilerOptions } = JSON.parse(read("tsconfig.core.json"));
    expect(compilerOptions).toMatchObject({ lib: ["es2023"], types: [] });
  });
});

describe("the rule itself", () => {
  it.each([
    "const t = Date.now();",
    "const t = new Date(2020);",
    "Date.parse(text)",
    "Math.random()",
    "console.log(1)",
    "process.env",
    'fetch("x")',
    "globalThis.x",
    "import.meta.url",
    "n.toLocaleString()",
    "setTimeout(f, 1)",
  ])("refuses %s", (code) => {
    expect(impurity(code)).toBeDefined();
  });

  it.each([
    "// console.log of the result\nconst a = 1;",
    'const text = "process.env is not read";',
    "job.process.steps",
    "const document = fold(edits); document.strings;",
    "const updated = 1; validDate(2)",
    "Date.UTC(2026, 0, 1)",
    "window.minMm",
  ])("lets %j be", (code) => {
    expect(impurity(code)).toBeUndefined();
  });
});
