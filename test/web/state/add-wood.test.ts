import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { loadJob } from "../../../src/core/index.ts";
import { type Change, createFold, entriesFor, type Fold, type Json } from "../../../src/core/log/index.ts";
import { type HolesWanted, holesAdded, routAdded, takenAway, woodIn } from "../../../src/web/state/add-wood.ts";

let minutes = 0;
function write(fold: Fold, changes: readonly Change[]): Fold {
  minutes += 1;
  const at = new Date(Date.UTC(2026, 4, 1, 8, minutes)).toISOString();
  fold.add(entriesFor(fold, { job: "A-107", device: "bench", from: Date.parse(at), at }, "changed", [...changes]));
  return fold;
}

const example = (name: string) =>
  write(createFold(), [{ path: "", value: parse(readFileSync(`examples/${name}.yaml`, "utf8")) as Json }]);
const lowtide = () => example("lowtide");
const dataOf = (fold: Fold) => fold.read().data;
const holesOf = (fold: Fold) => loadJob(dataOf(fold)).instrument.body.holes;

const ROW: HolesWanted = {
  name: "Old Screws",
  text: "230: 5 at 10 dia 3.2 deep 22",
  from: "u",
  tool: "steel rule",
  purpose: "screw",
};
const SIZES = { along: "", across: "", length: "", width: "", depth: "", cornerRadius: "" };

describe("[PG14] old holes added on the page", () => {
  it("stand where the line says, under a name of their own, read with the tool in hand", () => {
    const fold = lowtide();
    const before = holesOf(fold).length;
    write(fold, holesAdded(dataOf(fold), ROW));
    const added = holesOf(fold).filter(({ id }) => id.startsWith("old-screws-2#"));
    expect(holesOf(fold).length).toBe(before + 5);
    expect(added.map(({ at }) => [at.u.known && at.u.value, at.y.known && at.y.value])).toEqual(
      [-20, -10, 0, 10, 20].map((y) => [230, y]),
    );
    expect(added.every(({ at, diameter }) => at.u.known && at.u.tool === "steel rule" && diameter.known)).toBe(true);
  });

  it("are several rows where a semicolon stands between, through the body where it says so", () => {
    const fold = lowtide();
    write(fold, holesAdded(dataOf(fold), { ...ROW, name: "", text: "230: 2 at 50 through; 250: 0 10 20" }));
    expect(woodIn(dataOf(fold)).map(({ id }) => id)).toEqual(expect.arrayContaining(["old-holes", "old-holes-2"]));
    expect(
      holesOf(fold)
        .filter(({ id }) => id.startsWith("old-holes#"))
        .map(({ depth }) => depth),
    ).toEqual(["through", "through"]);
  });

  it.each(["", "nonsense", "5 at 10", "9000: 0", "230: 99 at 10"])("refuse %j in words", (text) => {
    expect(() => holesAdded(dataOf(lowtide()), { ...ROW, text })).toThrow(/^the places of the holes: /);
  });

  it("are counted from the nut where that is said", () => {
    const fold = example("ferry");
    write(fold, holesAdded(dataOf(fold), { ...ROW, name: "far", text: "830: 0 dia 3", from: "x" }));
    // The end wall lies 600.0 from the nut.
    const [hole] = holesOf(fold).filter(({ id }) => id.startsWith("far"));
    expect(hole?.at.u.known && hole.at.u.value).toBeCloseTo(230, 6);
  });
});

describe("[PG14] a rout added on the page", () => {
  it("has what was said of it and nothing else, and is taken away again", () => {
    const fold = lowtide();
    const sizes = { ...SIZES, length: "71.5", width: "1 1/2 in", depth: "19" };
    write(fold, routAdded(dataOf(fold), { name: "Spare rout", face: "top", from: "u", tool: "calliper", sizes }));
    const cavity = loadJob(dataOf(fold)).instrument.body.cavities.find(({ id }) => id === "spare-rout");
    expect(cavity?.width.known && cavity.width.value).toBeCloseTo(38.1, 9);
    expect(cavity?.length.known && cavity.length.tool).toBe("calliper");
    write(fold, [takenAway({ kind: "cavities", id: "spare-rout" })]);
    expect(woodIn(dataOf(fold)).some(({ id }) => id === "spare-rout")).toBe(false);
  });

  it("is refused where nothing is said of it", () => {
    const wanted = { name: "x", face: "top", from: "u", tool: "calliper", sizes: SIZES } as const;
    expect(() => routAdded(dataOf(lowtide()), wanted)).toThrow(/^the rout: has no size/);
  });
});
