import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import { sha256 } from "../../../src/core/log/index.ts";
import { numbersFrom } from "../../support/log-entries.ts";

// The examples of the standard: FIPS 180-2, appendix B.1 to B.3 (kept by NIST for FIPS 180-4 as "example values"), and the
// empty message of NIST's short-message test file (all from memory; node:crypto agrees with each).
const PUBLISHED = [
  ["abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"],
  [
    "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
    "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
  ],
  ["a".repeat(1_000_000), "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"],
  ["", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"],
] as const;

const nodes = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex");

describe("sha256", () => {
  it.each(PUBLISHED)("[LO15] agrees with the published example (%#)", (text, published) => {
    const bytes = new TextEncoder().encode(text);
    expect(sha256(bytes)).toBe(published);
    expect(nodes(bytes)).toBe(published);
  });

  it("[LO15] agrees with Node's own for every length over three blocks, and for views into a longer buffer", () => {
    const next = numbersFrom(180);
    const buffer = Uint8Array.from({ length: 400 }, () => Math.floor(next() * 256));
    for (let length = 0; length <= 192; length += 1) {
      const view = buffer.subarray(7, 7 + length);
      expect(sha256(view), `length ${length}`).toBe(nodes(view));
    }
  });
});
