import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { loadJob, wiringOf } from "../../../src/core/index.ts";
import { type Change, createFold, entriesFor, type Fold, type Json } from "../../../src/core/log/index.ts";
import {
  nameForWire,
  ohmsRead,
  ohmsText,
  wireBetween,
  wiresIn,
  wireTakenAway,
  wireWritten,
} from "../../../src/web/state/wiring-edit.ts";

const stamp = { job: "A-107", device: "bench", from: Date.UTC(2026, 4, 1), at: "2026-05-01T08:00:00.000Z" };
const write = (fold: Fold, changes: readonly Change[]): Fold => {
  fold.add(entriesFor(fold, { ...stamp, from: stamp.from + fold.entries.size }, "changed", [...changes]));
  return fold;
};
const lowtide = () =>
  write(createFold(), [{ path: "", value: parse(readFileSync("examples/lowtide.yaml", "utf8")) as Json }]);
const dataOf = (fold: Fold) => fold.read().data;
const reportOf = (fold: Fold) => wiringOf(loadJob(dataOf(fold)));
const stateOf = (fold: Fold, id: string) => reportOf(fold)?.states.find((state) => state.id === id);

describe("[PG18] wires in words", () => {
  it("are read as they are written, one in full as well", () => {
    const fold = lowtide();
    const whole = { from: "bridge.blue", to: "lever.p1-1", colour: "blue", length: "120 mm" };
    write(fold, [{ path: "/wiring/wires/hot-1", value: whole }]);
    const texts = new Map(wiresIn(dataOf(fold)).map(({ id, text }) => [id, text]));
    expect(texts.get("neck-5-6")).toBe("lever.p3-5 to lever.p3-6, white");
    expect(texts.get("hot-1")).toBe("bridge.blue to lever.p1-1, blue, 120 mm");
  });

  it("taken away: position 6 is silent; put back, it sounds", () => {
    const fold = lowtide();
    write(fold, [wireTakenAway("neck-5-6")]);
    expect(stateOf(fold, "6")?.sound).toBe("silence");
    expect(reportOf(fold)?.findings.map(({ kind }) => kind)).toContain("silent");
    const text = "lever.p3-5 to lever.p3-6, white";
    write(fold, wireWritten(dataOf(fold), nameForWire(dataOf(fold), text), text));
    expect(stateOf(fold, "6")?.sound).toBe("Shoal A then Shoal B");
    expect(wiresIn(dataOf(fold)).map(({ id }) => id)).toContain("lever-p3-5-to-lever-p3-6");
  });

  it("are one act at one path, and state the version of a section that is new", () => {
    const fold = lowtide();
    const change = wireWritten(dataOf(fold), "hot-1", " bridge.blue to lever.p1-2 ");
    expect(change.at(-1)).toEqual({ path: "/wiring/wires/hot-1", value: "bridge.blue to lever.p1-2" });
    expect(wireWritten({}, "a", "b.1 to c.2")[0]).toEqual({ path: "/fettle/wiring", value: 1 });
  });

  it.each([
    ["bridge.nope to jack.tip", /is not a lug of the bridge/],
    ["rubbish", /cannot read/],
    ["jack.tip to jack.tip", /joins jack\.tip with itself/],
  ])("%j is refused in words", (text, words) => {
    const fold = lowtide();
    write(fold, wireWritten(dataOf(fold), "hot-1", text));
    expect(() => loadJob(dataOf(fold))).toThrow(words);
  });

  it("get a name that nobody has", () => {
    const data = dataOf(lowtide());
    expect(nameForWire(data, "neck-5 6")).toBe("neck-5-6-2");
    expect(nameForWire(data, "?")).toBe("wire");
    expect(wireBetween("a.1", "b.2", " red ")).toBe("a.1 to b.2, red");
    expect(wireBetween("a.1", "b.2", "")).toBe("a.1 to b.2");
  });
});

describe("[PG18] ohms read in a state", () => {
  it.each([
    ["12.4", "12.4 k (meter)"],
    ["12,43", "12,43 k (meter)"],
    ["12.4 k", "12.4 k (meter)"],
    ["12400 Ω", "12400 Ω (meter)"],
    ["12.4 k (the good meter)", "12.4 k (the good meter)"],
  ])("%j is kept as %j", (typed, kept) => {
    expect(ohmsText(typed)).toBe(kept);
  });

  it("agree or differ, and the last one counts", () => {
    const fold = lowtide();
    expect(stateOf(fold, "1")?.reading).toBeUndefined();
    write(fold, ohmsRead(fold, "1", "9.9", "2026-05-01T09:00:00.000Z"));
    expect(stateOf(fold, "1")?.reading).toEqual({ ohms: 9900, agrees: false });
    write(fold, ohmsRead(fold, "1", "12.4 k", "2026-05-01T09:05:00.000Z"));
    expect(stateOf(fold, "1")?.reading).toEqual({ ohms: 12_400, agrees: true });
  });
});
