import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { writePapers } from "../../src/app/write-papers.ts";

let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "fettle-papers-"));
});
afterEach(() => rm(folder, { recursive: true }));

describe("writePapers", () => {
  it("makes the folder, writes all papers and leaves nothing else in it", async () => {
    const out = join(folder, "new", "lowtide");
    const papers = [
      { name: "traveller.pdf", content: new Uint8Array([37, 80, 68, 70]) },
      { name: "template.svg", content: "<svg/>" },
    ];
    expect(await writePapers(papers, out)).toEqual([join(out, "traveller.pdf"), join(out, "template.svg")]);
    expect(await readdir(out)).toEqual(["template.svg", "traveller.pdf"]);
    expect(await readFile(join(out, "template.svg"), "utf8")).toBe("<svg/>");
    expect([...(await readFile(join(out, "traveller.pdf")))]).toEqual([37, 80, 68, 70]);
  });

  it("keeps the old papers whole when one of the new ones cannot be put in place", async () => {
    await writeFile(join(folder, "a.svg"), "old");
    await mkdir(join(folder, `.b.svg.${process.pid}.part`));
    const papers = [
      { name: "a.svg", content: "new" },
      { name: "b.svg", content: "new" },
    ];
    await expect(writePapers(papers, folder)).rejects.toThrow();
    expect(await readFile(join(folder, "a.svg"), "utf8")).toBe("old");
    expect((await readdir(folder)).filter((name) => name.startsWith(".a"))).toEqual([]);
  });

  it.each(["../outside.pdf", "a/b.pdf", "a\\b.pdf", ".hidden", "", "nul\u0000.pdf"])(
    "refuses the name %j",
    async (name) => {
      await expect(writePapers([{ name, content: "x" }], folder)).rejects.toThrow(/cannot be a file name/);
      expect(await readdir(folder)).toEqual([]);
    },
  );

  it("says what to do when the folder is a file", async () => {
    const path = join(folder, "file");
    await writeFile(path, "");
    await expect(writePapers([{ name: "a.svg", content: "x" }], path)).rejects.toThrow(
      /Choose a folder with --out, not a file/,
    );
  });
});
