import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openJob } from "../../src/app/assess-job.ts";
import { parseJobText } from "../../src/app/job-files.ts";
import { jobText, keepJob } from "../../src/app/keep-job.ts";
import { growJob, STARTERS } from "../../src/core/begin/index.ts";

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "fettle-keep-"));
});
afterAll(() => rm(folder, { recursive: true }));

describe("jobText", () => {
  const { data } = growJob("bridge-place", {
    what: "7 strings, multi-scale, single units",
    "nut-12": "317.5 330",
    travel: "8 20",
    "old-holes": "395.5: 5 at 10",
  });
  const text = jobText(data, "Where must it stand?\nBegun today.");

  it("comes back as the same data", () => {
    expect(parseJobText(text, "job.yaml").data).toEqual(data);
  });

  it.each(STARTERS.map(({ id }) => id))("holds for what %s grows from nothing", (id) => {
    const grown = growJob(id, {}).data;
    expect(parseJobText(jobText(grown, id), "job.yaml").data).toEqual(grown);
  });

  it("reads like a file that a person wrote: sections apart, small things on one line", () => {
    const lines = text.split("\n");
    expect(lines.slice(0, 5)).toEqual([
      "# Where must it stand?",
      "# Begun today.",
      "",
      "fettle: { job: 1, instrument: 1, parts: 1, fit: 1, readings: 1, settings: 1 }",
      "",
    ]);
    expect(text).toContain("\n  bridge: { part: bridge }\n");
    expect(text).toContain("y: [ -20, -10, 0, 10, 20 ]");
    expect(text).toContain(
      "\n  - id: old-holes\n    of: body.holes.old-holes.x\n    value: 719.25 ±0.5 mm (steel rule, k=2)\n",
    );
    expect(text.endsWith("\n")).toBe(true);
  });
});

describe("keepJob", () => {
  const options = { replace: false, where: "--keep" };

  it("writes a file that opens as a job, and leaves nothing else behind", async () => {
    const path = join(folder, "a job.yaml");
    await keepJob(path, jobText(growJob("pot", { wood: "7" }).data, "a"), options);
    expect((await openJob(path)).job.instrument.controls[0]?.wood).toMatchObject({ value: 7 });
    expect(await readdir(folder)).toEqual(["a job.yaml"]);
  });

  it("never replaces a file unless that was said", async () => {
    const path = join(folder, "kept.yaml");
    await writeFile(path, "mine");
    await expect(keepJob(path, "yours", options)).rejects.toThrow(
      /^--keep: .* is there already\. Give another name, or/,
    );
    expect(await readFile(path, "utf8")).toBe("mine");
    await keepJob(path, "yours", { ...options, replace: true });
    expect(await readFile(path, "utf8")).toBe("yours");
  });

  it.each([
    ["no/such/folder.yaml", /there is no folder /],
    ["taken", /is there already|is a folder/],
  ])("says why %s cannot be written", async (name, why) => {
    await mkdir(join(folder, "taken"), { recursive: true });
    await expect(keepJob(join(folder, name), "x", options)).rejects.toThrow(why);
    expect((await readdir(folder)).filter((file) => file.endsWith(".part"))).toEqual([]);
  });

  it("does not put a file in the place of a folder", async () => {
    await mkdir(join(folder, "place"), { recursive: true });
    await expect(keepJob(join(folder, "place"), "x", { ...options, replace: true })).rejects.toThrow(/^--keep: /);
    expect(await readdir(join(folder, "place"))).toEqual([]);
  });
});
