import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { assess, loadJob } from "../../../src/core/index.ts";
import { type Change, createFold, entriesFor, type Fold, type Json } from "../../../src/core/log/index.ts";
import { createMemoryKeeper } from "../../../src/store/index.ts";
import { ownParts, type PartWanted, partAdded } from "../../../src/web/state/add-part.ts";
import type { Desk } from "../../../src/web/state/desk.ts";

const stamp = { job: "A-107", device: "bench", from: Date.UTC(2026, 4, 1), at: "2026-05-01T08:00:00.000Z" };
const write = (fold: Fold, changes: readonly Change[]): Fold => {
  fold.add(entriesFor(fold, { ...stamp, from: stamp.from + fold.entries.size }, "changed", [...changes]));
  return fold;
};
const example = (name: string) =>
  write(createFold(), [{ path: "", value: parse(readFileSync(`examples/${name}.yaml`, "utf8")) as Json }]);
const dataOf = (fold: Fold) => fold.read().data;

const POT: PartWanted = {
  kind: "pot",
  name: "Short pot",
  sizes: { threadLength: "6.0", threadDiameter: "3/8 in", depth: "", lugs: "" },
  place: "Second tone",
  at: { hole: "8.0", wood: "6.0", freeDepth: "30" },
  tool: "calliper",
};

describe("[PG15] a part added on the page", () => {
  it("is asked about at once, at its place, with what was read there", () => {
    const fold = example("lowtide");
    write(fold, partAdded(dataOf(fold), POT));
    const verdicts = assess(loadJob(dataOf(fold))).filter(({ id }) => id.startsWith("control.second-tone."));
    // 6.0 of thread through 6.0 of wood leaves nothing for the nut; 9.525 does not pass a hole of 8.0.
    expect(verdicts.find(({ id }) => id.endsWith(".bushing"))?.status).not.toBe("go");
    expect(verdicts.find(({ id }) => id.endsWith(".hole"))?.status).toBe("rework");
  });

  it("keeps what is not known unknown", () => {
    const fold = example("lowtide");
    write(fold, partAdded(dataOf(fold), { ...POT, sizes: {}, at: {} }));
    const verdict = assess(loadJob(dataOf(fold))).find(({ id }) => id === "control.second-tone.bushing");
    expect(verdict?.status).toBe("measure");
  });

  it("is refused without a name, without a place, and where a part stands already", () => {
    const data = dataOf(example("lowtide"));
    expect(() => partAdded(data, { ...POT, name: " " })).toThrow(/has no name/);
    expect(() => partAdded(data, { ...POT, place: "Volume" })).toThrow(/has a part already/);
    expect(() => partAdded(data, { ...POT, kind: "pickup", place: "" })).toThrow(/has no place/);
  });

  it("gets an id of its own where the name is there already", () => {
    const fold = example("lowtide");
    write(fold, partAdded(dataOf(fold), POT));
    write(fold, partAdded(dataOf(fold), { ...POT, place: "third tone" }));
    const parts = dataOf(fold).parts as Readonly<Record<string, Json>>;
    expect(Object.keys(parts).filter((id) => id.startsWith("short-pot"))).toEqual(["short-pot", "short-pot-2"]);
  });
});

describe("[PG15] parts of the own jobs", () => {
  it("are there for the next job, each once, with all that is known of them", async () => {
    const keeper = createMemoryKeeper();
    for (const [job, name, number] of [
      ["A-107", "lowtide", 0],
      ["B-112", "ferry", 1],
    ] as const) {
      const value = parse(readFileSync(`examples/${name}.yaml`, "utf8")) as Json;
      await keeper.append(
        entriesFor(createFold(), { ...stamp, job, from: stamp.from + number * 1e6 }, "opened", [{ path: "", value }]),
      );
    }
    const parts = await ownParts({ keeping: { keeper, device: "bench", lasts: true } } as unknown as Desk);
    const twin = parts.find(({ name }) => name === "Wrackline Twin");
    expect(twin?.job).toBe("Ferry, a left-handed bass");
    const fold = example("lowtide");
    const wanted = { ...POT, name: "Wrackline Twin", sizes: {}, place: "blend", from: twin?.part ?? {} };
    write(fold, partAdded(dataOf(fold), wanted));
    expect((dataOf(fold).parts as Record<string, Json>)["wrackline-twin"]).toEqual(twin?.part);
    expect(() => loadJob(dataOf(fold))).not.toThrow();
  });
});
