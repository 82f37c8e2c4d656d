import { expect, it } from "vitest";
import { createMemoryKeeper, photographOf } from "../../src/store/index.ts";
import { pictureOf } from "../support/log-entries.ts";
import { keepsItsPromises } from "./contract.ts";

keepsItsPromises("memory", { fresh: async () => createMemoryKeeper() });

it("keeps its own copy of a photograph's bytes", async () => {
  const keeper = createMemoryKeeper();
  const { hash, type, bytes } = pictureOf("image/png", 1);
  await keeper.keepPhotograph({ hash, type, bytes });
  bytes[20] = 0;
  expect((await keeper.photograph(hash))?.bytes[20]).not.toBe(0);
});

it("[LO15] makes a photograph of bytes alone, or says that they are none", async () => {
  for (const type of ["image/jpeg", "image/png", "image/webp"] as const) {
    const { bytes, hash } = pictureOf(type, 5);
    expect(photographOf(bytes)).toEqual({ bytes, hash, type });
  }
  expect(() => photographOf(new Uint8Array([0x25, 0x50, 0x44, 0x46]))).toThrow(
    "photograph.bytes: do not begin like a JPEG, PNG or WebP picture. Save the picture as JPEG and give that.",
  );
});
