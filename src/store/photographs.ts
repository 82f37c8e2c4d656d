/** What every keeper asks of a photograph before it keeps it: its name is what its bytes say, and so is its type. */
import { InputError } from "../core/errors.ts";
import { sha256 } from "../core/log/index.ts";
import { MOST_PHOTOGRAPH_BYTES, type Photograph } from "./keeper.ts";

const HASH = /^[0-9a-f]{64}$/;

/** @throws InputError unless it has the form of a photograph's name: no path, no other name gets further */
export function checkedHash(hash: unknown): string {
  if (typeof hash === "string" && HASH.test(hash)) return hash;
  const remedy = "Ask by the name under which it was kept";
  throw new InputError("photograph.hash", "is not 64 hexadecimal digits in small letters", remedy);
}

/** @throws InputError naming the field that is wrong */
export function checkedPhotograph({ hash, type, bytes }: Photograph): Photograph {
  checkedHash(hash);
  const megabytes = MOST_PHOTOGRAPH_BYTES / 1e6;
  if (bytes.length > MOST_PHOTOGRAPH_BYTES) {
    const problem = `has ${bytes.length} bytes, more than ${megabytes} million`;
    throw new InputError("photograph.bytes", problem, "Take it with fewer dots, or make it smaller first");
  }
  const seen = typeOf(bytes);
  if (seen !== type) {
    throw new InputError("photograph.type", `says ${type}, but the bytes are ${seen}`, "Give the type of the bytes");
  }
  if (sha256(bytes) !== hash) {
    const problem = "is not the SHA-256 of the bytes";
    throw new InputError("photograph.hash", problem, "Send it again; it was damaged on the way or misnamed");
  }
  return { hash, type, bytes };
}

/**
 * A photograph as keepers take it, from its bytes alone.
 *
 * @throws InputError if the bytes are no picture of a known type
 */
export function photographOf(bytes: Uint8Array): Photograph {
  return { hash: sha256(bytes), type: typeOf(bytes), bytes };
}

function typeOf(bytes: Uint8Array): Photograph["type"] {
  const type = photographType(bytes);
  if (type) return type;
  const problem = "do not begin like a JPEG, PNG or WebP picture";
  throw new InputError("photograph.bytes", problem, "Save the picture as JPEG and give that");
}

/**
 * The type that a picture's first bytes tell; undefined for anything else.
 * Source: JPEG ITU-T T.81 B.1.1.3 (SOI); PNG W3C 2003 5.2; WebP container (RIFF …. WEBP) (all from memory).
 */
export function photographType(bytes: Uint8Array): Photograph["type"] | undefined {
  const starts = (numbers: readonly number[], offset = 0): boolean =>
    numbers.every((number, index) => bytes[offset + index] === number);
  if (starts([0xff, 0xd8, 0xff])) return "image/jpeg";
  if (starts([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])) return "image/png";
  if (starts([0x52, 0x49, 0x46, 0x46]) && starts([0x57, 0x45, 0x42, 0x50], 8)) return "image/webp";
  return undefined;
}
