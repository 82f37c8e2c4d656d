import { describe, expect, it } from "vitest";
import {
  areJoined,
  type ContactMap,
  faultsOf,
  joinedIn,
  requireContactMap,
  sameBehaviour,
} from "../../../src/core/circuit/contact-map.ts";

const MAP: ContactMap = {
  lugs: ["w", "x", "y", "z"],
  positions: [
    { name: "left", joined: [["w", "x"]] },
    {
      name: "right",
      joined: [
        ["w", "y"],
        ["x", "z"],
      ],
    },
  ],
  timing: "not known",
};

const withLeft = (...joined: string[][]): ContactMap => ({
  ...MAP,
  positions: [{ name: "left", joined }, ...MAP.positions.slice(1)],
});

describe("requireContactMap", () => {
  it("returns a map that can be one", () => {
    expect(requireContactMap(MAP)).toBe(MAP);
    expect(requireContactMap(withLeft())).toBeDefined();
  });

  it.each<[string, ContactMap, RegExp]>([
    ["a lug that is not there", withLeft(["w", "v"]), /^positions\[0\]\.joined\[0\]: position left joins "v"/],
    ["a lug in two groups", withLeft(["w", "x"], ["x", "y"]), /^positions\[0\]\.joined\[1\]: .* names "x" twice/],
    ["a lug twice in a group", withLeft(["w", "w"]), /names "w" twice/],
    ["a group of one", withLeft(["w"]), /has a group of 1 lugs/],
    ["no positions", { ...MAP, positions: [] }, /^positions: must not be empty/],
    ["no lugs", { ...MAP, lugs: [] }, /^lugs: must not be empty/],
    ["a lug named twice", { ...MAP, lugs: ["w", "x", "y", "z", "w"] }, /^lugs\[4\]: "w" stands twice/],
    ["a lug without a name", { ...MAP, lugs: ["w", "x", "y", "z", " "] }, /^lugs\[4\]: has no name/],
    [
      "a position named twice",
      { ...MAP, positions: [...MAP.positions, { name: "left", joined: [] }] },
      /^positions\[2\]: "left" stands twice/,
    ],
  ])("refuses %s", (_what, map, message) => {
    expect(() => requireContactMap(map)).toThrow(message);
  });
});

describe("what a map says", () => {
  it("tells the groups of a position and whether two lugs are joined", () => {
    expect(joinedIn(MAP, "left")).toEqual([["w", "x"]]);
    expect(areJoined(MAP, { position: "right", a: "z", b: "x" })).toBe(true);
    expect(areJoined(MAP, { position: "right", a: "w", b: "x" })).toBe(false);
    expect(areJoined(MAP, { position: "right", a: "w", b: "w" })).toBe(true);
  });

  it("names what there is when asked for what is not", () => {
    expect(() => joinedIn(MAP, "up")).toThrow('position: there is no "up". Use one of left, right.');
    expect(() => areJoined(MAP, { position: "left", a: "w", b: "q" })).toThrow(/^lug: there is no "q"/);
  });

  it("is the same behaviour in any order, whatever the timing", () => {
    const other: ContactMap = {
      lugs: ["z", "y", "x", "w"],
      positions: [
        {
          name: "right",
          joined: [
            ["z", "x"],
            ["y", "w"],
          ],
        },
        { name: "left", joined: [["x", "w"]] },
      ],
      timing: "make before break",
    };
    expect(sameBehaviour(MAP, other)).toBe(true);
    expect(sameBehaviour(other, MAP)).toBe(true);
  });

  it("is another behaviour with other lugs, names or groups", () => {
    expect(sameBehaviour(MAP, withLeft(["w", "y"]))).toBe(false);
    expect(sameBehaviour(MAP, withLeft(["w", "x", "y"]))).toBe(false);
    expect(sameBehaviour(MAP, withLeft())).toBe(false);
    expect(sameBehaviour(MAP, { ...MAP, lugs: [...MAP.lugs, "v"] })).toBe(false);
    expect(sameBehaviour(MAP, { ...MAP, positions: MAP.positions.slice(1) })).toBe(false);
  });

  it("keeps names with commas apart", () => {
    const lugs = ["a", "b", "a,b", "c", "b,c"];
    const one: ContactMap = { lugs, positions: [{ name: "1", joined: [["a,b", "c"]] }], timing: "not known" };
    const other: ContactMap = { lugs, positions: [{ name: "1", joined: [["a", "b,c"]] }], timing: "not known" };
    expect(sameBehaviour(one, other)).toBe(false);
  });
});

describe("faultsOf", () => {
  it("finds nothing in a sound map", () => {
    expect(faultsOf(MAP)).toEqual([]);
  });

  it("names a lug that is never joined", () => {
    expect(faultsOf({ ...MAP, lugs: [...MAP.lugs, "v"] })).toEqual([
      expect.objectContaining({ kind: "lug never joined", lug: "v", words: expect.stringMatching(/^Lug v is joined/) }),
    ]);
  });

  it("names positions that join the same", () => {
    const map = withLeft(["x", "z"], ["y", "w"]);
    expect(faultsOf(map)).toContainEqual(
      expect.objectContaining({ kind: "positions alike", positions: ["left", "right"] }),
    );
  });

  it("names lugs that are never apart", () => {
    expect(faultsOf(withLeft(["w", "y"]))).toContainEqual(
      expect.objectContaining({ kind: "lugs always joined", lugs: ["w", "y"] }),
    );
  });
});
