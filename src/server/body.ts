/** What was sent along, never more of it than may be, whatever its headers say of its length. */
import type { IncomingMessage } from "node:http";
import { boundedJson } from "../app/bounded-json.ts";
import { InputError } from "../core/errors.ts";
import { Refusal } from "./refusal.ts";

/** @throws Refusal 413 as soon as more than `most` bytes have come or were announced */
export async function readBody(incoming: IncomingMessage, most: number): Promise<Uint8Array> {
  const { "content-length": announced, "content-encoding": encoding } = incoming.headers;
  if (encoding !== undefined && encoding !== "identity")
    throw new Refusal(415, "Content-Encoding", "is not taken here", "Send it as it is, not packed");
  if (announced !== undefined && Number(announced) > most) throw tooLarge(most);
  const pieces: Uint8Array[] = [];
  let length = 0;
  try {
    // Leaving the loop must not close the line, or nobody could be told why.
    for await (const piece of incoming.iterator({ destroyOnReturn: false }) as AsyncIterable<Uint8Array>) {
      length += piece.length;
      if (length > most) throw tooLarge(most);
      pieces.push(piece);
    }
  } catch (error) {
    if (error instanceof Refusal || incoming.complete) throw error;
    throw new Refusal(400, "body", "ended before it was whole", "Send it again");
  }
  return Buffer.concat(pieces, length);
}

/** @throws Refusal unless it is JSON that says so, of bounded length and depth */
export async function readJson(incoming: IncomingMessage, most: number): Promise<unknown> {
  const type = incoming.headers["content-type"] ?? "";
  if (!/^application\/json\s*(?:;\s*charset="?utf-8"?\s*)?$/i.test(type))
    throw new Refusal(415, "Content-Type", "is not application/json", "Send JSON and say so");
  const bytes = await readBody(incoming, most);
  try {
    return boundedJson(new TextDecoder("utf-8", { fatal: true }).decode(bytes), "body", "Send it as it was written");
  } catch (error) {
    if (error instanceof InputError) throw new Refusal(400, error.where, error.problem, error.remedy);
    if (error instanceof TypeError) throw new Refusal(400, "body", "is not UTF-8 text", "Send it as UTF-8");
    throw error;
  }
}

function tooLarge(most: number): Refusal {
  return new Refusal(413, "body", `is larger than ${most} bytes`, "Send it in smaller parts");
}
