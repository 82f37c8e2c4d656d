/**
 * Several files in one, as any archive program opens them.
 *
 * Model: every file stored as it is (the PDFs are packed already), one local header each, the directory at the end;
 * names in UTF-8, times in steps of two seconds, all fields little-endian.
 * Left out: packing, and archives past 4 GB or 65 535 files, which papers never come to.
 * Source: .ZIP File Format Specification (APPNOTE.TXT), 4.3 and 4.4 (from memory; read back by another program in the
 * tests).
 */
import { InputError } from "../core/errors.ts";

export interface FileInZip {
  readonly name: string;
  readonly content: Uint8Array | string;
}

const MOST_FILES = 0xffff;
const MOST_BYTES = 0xffffffff;
const VERSION = 20;
const NAMES_IN_UTF8 = 0x0800;

/** @throws InputError for a name with a path in it, the same name twice, or too much for one archive */
export function zipOf(files: readonly FileInZip[], made: Date): Uint8Array {
  refuse(files);
  const written: { readonly directory: Uint8Array; readonly bytes: readonly Uint8Array[] }[] = [];
  let offset = 0;
  for (const { name, content } of files) {
    const data = typeof content === "string" ? new TextEncoder().encode(content) : content;
    const label = new TextEncoder().encode(name);
    const common = [VERSION, NAMES_IN_UTF8, 0, ...dosTime(made)];
    const sizes = [crc32(data), data.length, data.length];
    const local = fields([0x04034b50], common, sizes, [label.length, 0]);
    const directory = fields([0x02014b50], [VERSION, ...common], sizes, [label.length, 0, 0, 0, 0], [0, offset]);
    written.push({ directory: joined([directory, label]), bytes: [local, label, data] });
    offset += local.length + label.length + data.length;
  }
  const directory = joined(written.map((one) => one.directory));
  if (offset + directory.length > MOST_BYTES) throw new InputError("the archive", "is too large", "Take fewer papers");
  const end = fields([0x06054b50], [0, 0, files.length, files.length], [directory.length, offset], [0]);
  return joined([...written.flatMap(({ bytes }) => bytes), directory, end]);
}

function refuse(files: readonly FileInZip[]): void {
  if (files.length > MOST_FILES) throw new InputError("the archive", "holds too many files", "Take fewer papers");
  const seen = new Set<string>();
  for (const { name } of files) {
    if (!/^[\w.-]+$/.test(name) || name.startsWith("."))
      throw new InputError(name, "is no plain file name", "Use letters, digits, dots and hyphens");
    if (seen.has(name)) throw new InputError(name, "stands twice", "Give each file a name of its own");
    seen.add(name);
  }
}

/** Groups of numbers one after another: four bytes each in the first, third and fifth group, two in the others. */
function fields(...groups: readonly (readonly number[])[]): Uint8Array {
  const width = (group: number) => (group % 2 === 0 ? 4 : 2);
  const bytes = new Uint8Array(groups.reduce((sum, group, index) => sum + group.length * width(index), 0));
  const view = new DataView(bytes.buffer);
  let at = 0;
  groups.forEach((group, index) => {
    for (const value of group) {
      if (width(index) === 4) view.setUint32(at, value, true);
      else view.setUint16(at, value, true);
      at += width(index);
    }
  });
  return bytes;
}

/** Time and date as the format has them; years before 1980 do not exist there. */
function dosTime(made: Date): [time: number, date: number] {
  const time = (made.getHours() << 11) | (made.getMinutes() << 5) | (made.getSeconds() >> 1);
  const year = Math.max(1980, made.getFullYear()) - 1980;
  return [time, (year << 9) | ((made.getMonth() + 1) << 5) | made.getDate()];
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

let table: Uint32Array | undefined;

/** The checksum of ISO 3309, as archives use it. */
function crc32(data: Uint8Array): number {
  table ??= Uint32Array.from({ length: 256 }, (_, index) => {
    let value = index;
    for (let bit = 0; bit < 8; bit += 1) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
    return value;
  });
  let sum = 0xffffffff;
  for (const byte of data) sum = (sum >>> 8) ^ (table[(sum ^ byte) & 0xff] as number);
  return (sum ^ 0xffffffff) >>> 0;
}
