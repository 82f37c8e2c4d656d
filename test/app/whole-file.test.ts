import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openJob } from "../../src/app/assess-job.ts";
import { jobText } from "../../src/app/job-text.ts";
import { keepFile } from "../../src/app/whole-file.ts";
import { growJob } from "../../src/core/begin/index.ts";

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "fettle-keep-"));
});
afterAll(() => rm(folder, { recursive: true }));

describe("keepFile", () => {
  const options = { replace: false, where: "--keep" };

  it("writes a file that opens as a job, and leaves nothing else behind", async () => {
    const path = join(folder, "a job.yaml");
    await keepFile(path, jobText(growJob("pot", { wood: "7" }).data, "a"), options);
    expect((await openJob(path)).job.instrument.controls[0]?.wood).toMatchObject({ value: 7 });
    expect(await readdir(folder)).toEqual(["a job.yaml"]);
  });

  it("leaves nothing behind when what comes piece by piece breaks off", async () => {
    async function* pieces() {
      yield "one";
      throw new RangeError("broke off");
    }
    const before = await readdir(folder);
    await expect(keepFile(join(folder, "half.txt"), pieces(), options)).rejects.toThrow("broke off");
    expect(await readdir(folder)).toEqual(before);
  });

  it("never replaces a file unless that was said", async () => {
    const path = join(folder, "kept.yaml");
    await writeFile(path, "mine");
    await expect(keepFile(path, "yours", options)).rejects.toThrow(
      /^--keep: .* is there already\. Give another name, or/,
    );
    expect(await readFile(path, "utf8")).toBe("mine");
    await keepFile(path, "yours", { ...options, replace: true });
    expect(await readFile(path, "utf8")).toBe("yours");
  });

  it.each([
    ["no/such/folder.yaml", /there is no folder /],
    ["taken", /is there already|is a folder/],
  ])("says why %s cannot be written", async (name, why) => {
    await mkdir(join(folder, "taken"), { recursive: true });
    await expect(keepFile(join(folder, name), "x", options)).rejects.toThrow(why);
    expect((await readdir(folder)).filter((file) => file.endsWith(".part"))).toEqual([]);
  });

  it("does not put a file in the place of a folder", async () => {
    await mkdir(join(folder, "place"), { recursive: true });
    await expect(keepFile(join(folder, "place"), "x", { ...options, replace: true })).rejects.toThrow(/^--keep: /);
    expect(await readdir(join(folder, "place"))).toEqual([]);
  });
});
