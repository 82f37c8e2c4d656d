/** A photograph from elsewhere (a page, a file): kept only if its name, its size and its form are what they should be. */
import { createHash } from "node:crypto";
import { InputError } from "../core/errors.ts";
import { MOST_PHOTOGRAPH_BYTES, type Photograph, photographType } from "../store/index.ts";

const HASH = /^[0-9a-f]{64}$/;

export function isPhotographHash(text: string): boolean {
  return HASH.test(text);
}

/** @throws InputError saying what is wrong */
export function checkedPhotograph(hash: string, bytes: Uint8Array, where: string): Photograph {
  if (!isPhotographHash(hash))
    throw new InputError(where, "does not have the form of a photograph's name", "Name it by the SHA-256 of its bytes");
  if (bytes.length > MOST_PHOTOGRAPH_BYTES)
    throw new InputError(where, `is larger than ${MOST_PHOTOGRAPH_BYTES} bytes`, "Make the photograph smaller");
  const type = photographType(bytes);
  if (!type) throw new InputError(where, "is not a JPEG, PNG or WebP picture", "Save it as one of these");
  if (createHash("sha256").update(bytes).digest("hex") !== hash)
    throw new InputError(where, "is not the photograph that its name says", "Hand it over again, whole");
  return { hash, type, bytes };
}
