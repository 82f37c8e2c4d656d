import { expect, it } from "vitest";
import { createMemoryKeeper } from "../../src/store/index.ts";
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
