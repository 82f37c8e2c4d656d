/** PDF objects from bytes: own tokenizer, zlib from the platform. Shares no code with the writer. */
import { inflateSync } from "node:zlib";

export type Value = number | string | boolean | null | Name | Ref | Hex | Value[] | { [key: string]: Value };
export class Name {
  constructor(readonly name: string) {}
}
export class Ref {
  constructor(readonly number: number) {}
}
export class Hex {
  constructor(readonly digits: string) {}
}

export interface PdfObject {
  readonly value: Value;
  readonly stream?: Uint8Array;
}

export class Reader {
  at = 0;
  constructor(
    readonly text: string,
    readonly inContent = false,
  ) {}

  skip(): void {
    for (;;) {
      const c = this.text[this.at];
      if (c === "%") while (this.at < this.text.length && this.text[this.at] !== "\n") this.at += 1;
      else if (c !== undefined && /[\s\0]/.test(c)) this.at += 1;
      else return;
    }
  }

  /** A value, or an operator as a bare string. */
  next(): Value | undefined {
    this.skip();
    const c = this.text[this.at];
    if (c === undefined) return undefined;
    if (this.text.startsWith("<<", this.at)) return this.dict();
    if (c === "<") {
      const end = this.text.indexOf(">", this.at);
      const digits = this.text.slice(this.at + 1, end).replace(/\s/g, "");
      this.at = end + 1;
      return new Hex(digits);
    }
    if (c === "[") {
      this.at += 1;
      const list: Value[] = [];
      for (this.skip(); this.text[this.at] !== "]"; this.skip()) list.push(this.next() ?? null);
      this.at += 1;
      return list;
    }
    if (c === "(") return this.literal();
    const word = /[^\s\0<>[\]()/%]+/y;
    if (c === "/") {
      word.lastIndex = this.at + 1;
      const found = word.exec(this.text)?.[0] ?? "";
      this.at += 1 + found.length;
      return new Name(found);
    }
    word.lastIndex = this.at;
    const found = word.exec(this.text)?.[0];
    if (found === undefined) throw new Error(`unreadable at ${this.at}: ${this.text.slice(this.at, this.at + 20)}`);
    this.at += found.length;
    if (!/^[-+.\d]/.test(found)) return found;
    if (!this.inContent) {
      const ref = /\s+\d+\s+R\b/y;
      ref.lastIndex = this.at;
      const tail = ref.exec(this.text)?.[0];
      if (tail) {
        this.at += tail.length;
        return new Ref(Number(found));
      }
    }
    return Number(found);
  }

  private dict(): Value {
    this.at += 2;
    const out: { [key: string]: Value } = {};
    for (this.skip(); !this.text.startsWith(">>", this.at); this.skip()) {
      const key = this.next();
      if (key instanceof Name) out[key.name] = this.next() ?? null;
      else throw new Error("dictionary key is not a name");
    }
    this.at += 2;
    return out;
  }

  private literal(): string {
    let depth = 0;
    let out = "";
    for (; this.at < this.text.length; this.at += 1) {
      const c = this.text[this.at] ?? "";
      if (c === "\\") {
        out += this.text[this.at + 1] ?? "";
        this.at += 1;
        continue;
      }
      if (c === "(") depth += 1;
      if (c === ")") depth -= 1;
      if (depth === 0) break;
      if (!(c === "(" && depth === 1)) out += c;
    }
    this.at += 1;
    return out;
  }
}

/** Every object of the file; a later one with the same number wins, as in files that were updated. */
export function objectsOf(bytes: Uint8Array): { objects: Map<number, PdfObject>; trailer: { [key: string]: Value } } {
  const text = Buffer.from(bytes).toString("latin1");
  const objects = new Map<number, PdfObject>();
  const header = /(\d+) 0 obj/g;
  for (let found = header.exec(text); found; found = header.exec(text)) {
    const reader = new Reader(text);
    reader.at = header.lastIndex;
    const value = reader.next() ?? null;
    reader.skip();
    const isStream = text.startsWith("stream", reader.at);
    if (!isStream || !isDict(value)) {
      objects.set(Number(found[1]), { value });
      header.lastIndex = reader.at;
      continue;
    }
    const start = reader.at + (text.startsWith("stream\r\n", reader.at) ? 8 : 7);
    const length = Number(value.Length);
    const raw = bytes.subarray(start, start + length);
    const stream = value.Filter === undefined ? raw : inflateSync(raw);
    objects.set(Number(found[1]), { value, stream });
    header.lastIndex = start + length;
  }
  const reader = new Reader(text);
  reader.at = text.lastIndexOf("trailer") + 7;
  return { objects, trailer: dictOf(reader.next()) };
}

export function isDict(value: Value | undefined): value is { [key: string]: Value } {
  return (
    typeof value === "object" &&
    value !== null &&
    !Array.isArray(value) &&
    !(value instanceof Name) &&
    !(value instanceof Ref) &&
    !(value instanceof Hex)
  );
}

export function dictOf(value: Value | undefined): { [key: string]: Value } {
  if (!isDict(value)) throw new Error("not a dictionary");
  return value;
}
