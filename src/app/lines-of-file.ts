/** A long file line by line, however long it is: one line is held at a time, and no line may be longer than said. */
import { createReadStream } from "node:fs";
import { InputError } from "../core/errors.ts";

const LINE_END = 0x0a;

export interface Line {
  /** From 1. */
  readonly number: number;
  readonly text: string;
  /** With its end. */
  readonly bytes: Uint8Array;
  /** The file ended before the line did. */
  readonly cutOff: boolean;
}

/** @throws InputError naming the line that is too long or is not UTF-8, or the file if it cannot be read */
export async function* linesOf(path: string, name: string, mostBytes: number): AsyncGenerator<Line> {
  let number = 0;
  let held: Buffer[] = [];
  let length = 0;
  const take = (piece: Buffer): void => {
    held.push(piece);
    length += piece.length;
    if (length > mostBytes)
      throw new InputError(`${name}, line ${number + 1}`, "is longer than any line of an archive", REMEDY);
  };
  const finished = (cutOff: boolean): Line => {
    const bytes = Buffer.concat(held);
    [number, held, length] = [number + 1, [], 0];
    return { number, bytes, cutOff, text: decoded(bytes, `${name}, line ${number}`) };
  };
  try {
    for await (const chunk of createReadStream(path, { highWaterMark: 1 << 18 }) as AsyncIterable<Buffer>) {
      let start = 0;
      for (let end = chunk.indexOf(LINE_END); end >= 0; end = chunk.indexOf(LINE_END, start)) {
        take(chunk.subarray(start, end + 1));
        start = end + 1;
        yield finished(false);
      }
      if (start < chunk.length) take(chunk.subarray(start));
    }
  } catch (error) {
    if (!(error instanceof Error && "syscall" in error && "code" in error)) throw error;
    const problem = error.code === "ENOENT" ? "there is no such file" : `cannot be read (${error.code})`;
    throw new InputError(path, problem, "Name an archive that exists and may be read");
  }
  if (length > 0) yield finished(true);
}

const REMEDY = "Use another copy of the file";

function decoded(bytes: Uint8Array, where: string): string {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes).replace(/\n$/, "");
  } catch (error) {
    if (!(error instanceof TypeError)) throw error;
    throw new InputError(where, "is damaged: it is not UTF-8 text", REMEDY);
  }
}
