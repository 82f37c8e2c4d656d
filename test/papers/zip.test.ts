import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { zipOf } from "../../src/papers/index.ts";

const FILES = [
  { name: "bridge-template.pdf", content: Uint8Array.from({ length: 5000 }, (_, index) => (index * 31) % 251) },
  { name: "bridge-template.svg", content: "<svg>ø 3.2 × 20</svg>" },
  { name: "empty.dxf", content: "" },
];
const MADE = new Date(2026, 10, 25, 18, 30, 42);
const bytesOf = (content: Uint8Array | string) => Buffer.from(content);
const python = spawnSync("python3", ["--version"]).status === 0;

describe("several files in one", () => {
  it.skipIf(!python)("is read back by another program: names, times and bytes, its checksums hold", () => {
    const folder = mkdtempSync(join(tmpdir(), "fettle-zip-"));
    try {
      writeFileSync(join(folder, "papers.zip"), zipOf(FILES, MADE));
      const script = [
        "import sys, zipfile",
        "archive = zipfile.ZipFile(sys.argv[1] + '/papers.zip')",
        "assert archive.testzip() is None",
        "archive.extractall(sys.argv[1])",
        "print('\\n'.join('%s %s' % (i.filename, i.date_time) for i in archive.infolist()))",
      ].join("\n");
      const said = execFileSync("python3", ["-c", script, folder], { encoding: "utf8" });
      expect(said.trim().split("\n")).toEqual(FILES.map(({ name }) => `${name} (2026, 11, 25, 18, 30, 42)`));
      for (const { name, content } of FILES)
        expect(readFileSync(join(folder, name)).equals(bytesOf(content))).toBe(true);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });

  it("ends with a directory that leads to every file", () => {
    const zip = Buffer.from(zipOf(FILES, MADE));
    const end = zip.length - 22;
    expect(zip.readUInt32LE(end)).toBe(0x06054b50);
    expect(zip.readUInt16LE(end + 10)).toBe(FILES.length);
    let at = zip.readUInt32LE(end + 16);
    for (const { name, content } of FILES) {
      expect(zip.readUInt32LE(at)).toBe(0x02014b50);
      const [size, label, local] = [zip.readUInt32LE(at + 24), zip.readUInt16LE(at + 28), zip.readUInt32LE(at + 42)];
      expect(zip.toString("utf8", at + 46, at + 46 + label)).toBe(name);
      const data = local + 30 + zip.readUInt16LE(local + 26);
      expect(zip.subarray(data, data + size).equals(bytesOf(content))).toBe(true);
      at += 46 + label;
    }
  });

  it("has the checksum of the published check value", () => {
    // CRC-32 of "123456789" is CBF43926 (ISO 3309; the usual check value, from memory).
    const zip = Buffer.from(zipOf([{ name: "check.txt", content: "123456789" }], MADE));
    expect(zip.readUInt32LE(14)).toBe(0xcbf43926);
  });

  it("refuses a path in a name, a name that hides, and one name twice", () => {
    for (const name of ["../x.pdf", "a/b.pdf", ".hidden", "", "con\\x"])
      expect(() => zipOf([{ name, content: "" }], MADE)).toThrow(/plain file name/);
    expect(() =>
      zipOf(
        [FILES[2], FILES[2]].flatMap((file) => file ?? []),
        MADE,
      ),
    ).toThrow(/stands twice/);
  });
});
