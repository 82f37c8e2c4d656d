import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { MAX_JOB_BYTES, parseJobText, readJobFile } from "../../src/app/job-files.ts";

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "fettle-job-files-"));
});
afterAll(() => rm(folder, { recursive: true }));

async function fileWith(content: string | Uint8Array, name = "job.yaml"): Promise<string> {
  const path = join(folder, name);
  await writeFile(path, content);
  return path;
}

describe("readJobFile", () => {
  it("gives plain data with what people write left as text", async () => {
    const path = await fileWith("title: Lowtide\nscale: 25 1/2 in\nstrings: [{ id: low, gauge: 1.575 }]\nsure: yes\n");
    const { name, data } = await readJobFile(path);
    expect(name).toBe("job.yaml");
    expect(data).toEqual({
      title: "Lowtide",
      scale: "25 1/2 in",
      strings: [{ id: "low", gauge: 1.575 }],
      sure: "yes",
    });
  });

  it("reads JSON, and text that starts with a byte order mark", async () => {
    expect((await readJobFile(await fileWith('{"a": [1, null, true]}', "job.json"))).data).toEqual({
      a: [1, null, true],
    });
    expect((await readJobFile(await fileWith("\ufeffa: 1\n"))).data).toEqual({ a: 1 });
  });

  it("says that there is no such file", async () => {
    const path = join(folder, "nowhere.yaml");
    await expect(readJobFile(path)).rejects.toMatchObject({ where: path, problem: "there is no such file" });
  });

  it("refuses a folder", async () => {
    await expect(readJobFile(folder)).rejects.toMatchObject({ problem: "is a folder, not a job file" });
  });

  it("refuses one byte more than the limit, and reads exactly the limit", async () => {
    const filled = (bytes: number): string => `a: 1\n#${"x".repeat(bytes - 6)}`;
    expect((await readJobFile(await fileWith(filled(MAX_JOB_BYTES)))).data).toEqual({ a: 1 });
    await expect(readJobFile(await fileWith(filled(MAX_JOB_BYTES + 1)))).rejects.toThrow(
      /is larger than 1000000 bytes/,
    );
  });

  it("refuses what is not UTF-8", async () => {
    const path = await fileWith(new Uint8Array([0x61, 0x3a, 0x20, 0xff, 0xfe]));
    await expect(readJobFile(path)).rejects.toThrow(/is not UTF-8 text/);
  });
});

describe("parseJobText", () => {
  it.each([
    ["a key written twice", "a: 1\nb: 2\na: 3\n", /^job\.yaml, line 3, column 1: .*Keep one of the two\.$/],
    ["two documents", "a: 1\n---\nb: 2\n", /^job\.yaml, line \d: a second document starts\. Keep one job to a file/],
    ["a tab as indent", "a:\n\tb: 2\n", /line 2, column 1: /],
    ["a tag that asks for code", "a: !!js/function 'x'\n", /line 1, column 4: .*plain values only\.$/],
    ["an open bracket", "a: [1, 2\n", /^job\.yaml, line \d, column \d+: /],
  ])("names line, column and remedy for %s", (_what, text, message) => {
    expect(() => parseJobText(text, "jobs/job.yaml")).toThrow(message);
  });

  it("refuses aliases that would unfold without bound", () => {
    const levels = Array.from({ length: 9 }, (_, n) => `l${n + 1}: &l${n + 1} [${`*l${n}, `.repeat(9)}]`);
    expect(() => parseJobText(["l0: &l0 [x]", ...levels].join("\n"), "job.yaml")).toThrow(
      /its aliases cannot be resolved/,
    );
  });

  it.each([
    ["brackets", "[".repeat(100_000)],
    ["braces", "{a: ".repeat(100_000)],
    ["hyphens", "- ".repeat(100_000)],
    ["question marks", "? ".repeat(100_000)],
    ["indents", Array.from({ length: 1000 }, (_, n) => `${" ".repeat(n)}a:\n`).join("")],
  ])("refuses a file nested too deeply by %s instead of running out of stack", (_what, text) => {
    expect(() => parseJobText(text, "job.yaml")).toThrow("job.yaml: is nested more than 100 deep.");
  });

  it("reads a file nested as deep as allowed, and no deeper", () => {
    const nested = (depth: number): string => `${"[".repeat(depth)}1${"]".repeat(depth)}`;
    expect(() => parseJobText(nested(100), "job.yaml")).not.toThrow();
    expect(() => parseJobText(nested(101), "job.yaml")).toThrow("is nested more than 100 deep");
  });

  it("does not let a key reach the prototype of objects", () => {
    const { data } = parseJobText("__proto__: { polluted: true }\n", "job.yaml");
    expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
    expect(Object.getPrototypeOf(data)).toBe(Object.prototype);
  });
});

describe("lineOf", () => {
  const { lineOf } = parseJobText(
    [
      "body:",
      "  thickness: 44.5 mm",
      "strings:",
      "  - id: s1",
      "    gauge: 0.330",
      "  - id: s2",
      "    gauge: -1",
      "",
    ].join("\n"),
    "job.yaml",
  );

  it.each([
    ["body.thickness", 2],
    ["strings[1].gauge", 7],
    ["strings.s2.gauge", 7],
    ["strings.1.gauge", 7],
    ["body.nothing.here", 2],
    ["strings[1]", 6],
    ["elsewhere", undefined],
  ])("finds %s on line %s", (where, line) => {
    expect(lineOf(where)).toBe(line);
  });
});
