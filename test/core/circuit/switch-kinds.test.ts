import { describe, expect, it } from "vitest";
import { type ContactMap, faultsOf, requireContactMap } from "../../../src/core/circuit/contact-map.ts";
import {
  fiveDetentLever,
  jack,
  leafToggle,
  lever,
  pushPull,
  rotary,
  type ToggleKind,
  toggle,
} from "../../../src/core/circuit/switch-kinds.ts";
import { netsOf } from "./nets.ts";
import { caseNamed } from "./reference-cases.ts";

/** Lugs of a double-pole switch as the cases count them: 1 2 3 and 4 5 6 with 2 and 5 as commons. */
const NUMBER: Readonly<Record<string, number>> = { "p1-1": 1, "p1-c": 2, "p1-2": 3, "p2-1": 4, "p2-c": 5, "p2-2": 6 };

/** Groups of numbers, position by position, in a fixed order. */
function numbered(map: ContactMap): Record<string, number[][]> {
  return Object.fromEntries(
    map.positions.map(({ name, joined }) => [name, ordered(joined.map((group) => group.map((lug) => NUMBER[lug]!)))]),
  );
}

function ordered(groups: readonly (readonly number[])[]): number[][] {
  return groups.map((group) => [...group].sort((a, b) => a - b)).sort((a, b) => a[0]! - b[0]!);
}

function fromCase(id: string, names: Readonly<Record<string, string>> = {}): Record<string, number[][]> {
  const map = caseNamed(id).expected.map as Record<string, number[][]>;
  return Object.fromEntries(Object.entries(map).map(([name, groups]) => [names[name] ?? name, ordered(groups)]));
}

/** Groups of one pole as the cases write them: "C" and the throws. */
function perPole(map: ContactMap, pole: number): (string | number)[][][] {
  return map.positions.map(({ joined }) =>
    joined
      .filter((group) => group[0]?.startsWith(`p${pole}-`))
      .map((group) => group.map((lug) => (lug.endsWith("-c") ? "C" : Number(lug.split("-")[1])))),
  );
}

describe("levers", () => {
  it.each([
    ["switch-lever-2p3t-5pos", fiveDetentLever(), 2],
    ["switch-lever-2p3t-3pos", lever({ poles: 2, throws: 3 }), 2],
    ["switch-lever-4p5t", lever({ poles: 4, throws: 5 }), 4],
  ] as const)("agrees with %s, pole by pole", (id, map, poles) => {
    const expected = Object.values(caseNamed(id).expected.perPole as Record<string, unknown>);
    for (let pole = 1; pole <= poles; pole += 1) expect(perPole(map, pole)).toEqual(expected);
    expect(map.positions.map(({ name }) => name)).toEqual(
      Object.keys(caseNamed(id).expected.perPole as Record<string, unknown>),
    );
  });

  it("keeps the poles apart", () => {
    const map = fiveDetentLever(2);
    expect(map.lugs).toEqual(["p1-c", "p1-1", "p1-2", "p1-3", "p2-c", "p2-1", "p2-2", "p2-3"]);
    for (const { joined } of map.positions) expect(joined).toHaveLength(2);
  });
});

describe("toggles", () => {
  it.each<[ToggleKind, string]>([
    ["on-off-on", "switch-toggle-on-off-on-dpdt"],
    ["on-on-on type 1", "switch-dpdt-on-on-on-type1"],
    ["on-on-on type 2", "switch-dpdt-on-on-on-type2"],
  ])("agrees with the case of %s", (kind, id) => {
    expect(numbered(toggle({ kind, poles: 2 }))).toEqual(fromCase(id, { mid: "middle" }));
  });

  it("agrees with the case of on-on", () => {
    expect(numbered(toggle({ kind: "on-on", poles: 2 }))).toEqual(
      fromCase("switch-dpdt-on-on", { a: "down", b: "up" }),
    );
  });

  it("agrees with the case of on-both-on", () => {
    const { perPole: positions } = caseNamed("switch-toggle-on-both-on").expected as {
      perPole: Record<string, string[][]>;
    };
    const LETTER: Readonly<Record<string, string>> = { "p1-c": "C", "p1-1": "A", "p1-2": "B" };
    const letters = (map: ContactMap) => map.positions.map(({ joined }) => joined.map((g) => g.map((l) => LETTER[l])));
    expect(letters(leafToggle())).toEqual(Object.values(positions));
    const both = toggle({ kind: "on-both-on", poles: 1 });
    expect(letters(both).reverse()).toEqual(Object.values(positions));
  });

  it("agrees with the case of the push-pull, either way round", () => {
    const expected = fromCase("switch-push-pull-dpdt", { pushed: "down", pulled: "up" });
    expect(numbered(pushPull(1))).toEqual(expected);
    expect(numbered(pushPull(2))).toEqual({ down: expected.up, up: expected.down });
  });

  it("refuses on-on-on with a single pole", () => {
    expect(() => toggle({ kind: "on-on-on type 1", poles: 1 })).toThrow(/^poles: must be 2 or more .* got 1/);
  });
});

describe("rotary switches", () => {
  // Poles times throws is constant on a wafer of twelve: case "switch-rotary".
  it.each([
    [1, 12],
    [2, 6],
    [3, 4],
    [4, 3],
  ])("has %d poles by %d throws on one wafer", (poles, throws) => {
    const map = rotary({ poles, throws, shorting: false });
    expect(map.lugs).toHaveLength(poles + 12);
    expect(map.positions).toHaveLength(throws);
    expect(map.positions[throws - 1]?.joined).toContainEqual(["p1-c", `p1-${throws}`]);
    expect(map.timing).toBe("break before make");
    expect(rotary({ poles, throws, shorting: true }).timing).toBe("make before break");
  });

  it.each([
    [{ poles: 0, throws: 3 }, /^poles: must be a whole number from 1, got 0/],
    [{ poles: 1, throws: 1.5 }, /^throws: must be a whole number from 2, got 1.5/],
  ])("refuses %j", (counts, message) => {
    expect(() => lever(counts)).toThrow(message);
  });
});

// Common practice, no source.
describe("jacks", () => {
  it("joins ring to sleeve for the battery only while plugged in", () => {
    expect(jack("stereo").positions).toEqual([
      { name: "empty", joined: [] },
      { name: "plugged in", joined: [["ring", "sleeve"]] },
    ]);
  });

  it("joins the tip to its switch contact only while empty", () => {
    expect(jack("switched mono").positions).toEqual([
      { name: "empty", joined: [["tip", "tip switch"]] },
      { name: "plugged in", joined: [] },
    ]);
  });

  it("joins nothing in a mono jack", () => {
    expect(jack("mono").positions.flatMap(({ joined }) => joined)).toEqual([]);
  });
});

const SWITCHES: readonly (readonly [string, ContactMap])[] = [
  ["lever 1 by 3", lever({ poles: 1, throws: 3 })],
  ["five-detent lever", fiveDetentLever()],
  ["rotary 3 by 4", rotary({ poles: 3, throws: 4, shorting: true })],
  ...(["on-on", "on-off-on", "on-on-on type 1", "on-on-on type 2", "on-both-on"] as const).map(
    (kind) => [kind, toggle({ kind, poles: 2 })] as const,
  ),
  ["leaf toggle", leafToggle()],
  ["push-pull", pushPull(1)],
];

describe("every kind of switch", () => {
  it.each(SWITCHES)("%s is a map without faults", (_name, map) => {
    expect(requireContactMap(map)).toBe(map);
    expect(faultsOf(map)).toEqual([]);
  });
});

describe("two coils on a double-pole switch", () => {
  // Case "use-series-parallel": 2 = A-, 5 = B+, 1 joined to 4, 3 = ground, 6 = hot.
  const wires = [
    ["A-", "p1-c"],
    ["B+", "p2-c"],
    ["p1-1", "p2-1"],
    ["p1-2", "ground"],
    ["p2-2", "hot"],
    ["A+", "hot"],
    ["B-", "ground"],
  ];
  const joined = (kind: ToggleKind, position: string) => netsOf(toggle({ kind, poles: 2 }), position, wires);

  it("are in series with 2-1 and 5-4", () => {
    const one = joined("on-on", "down");
    expect([one("A-", "B+"), one("A-", "ground"), one("B+", "hot"), one("hot", "ground")]).toEqual([
      true,
      false,
      false,
      false,
    ]);
  });

  it("are in parallel with 2-3 and 5-6", () => {
    const one = joined("on-on", "up");
    expect([one("A-", "ground"), one("B+", "hot"), one("hot", "ground")]).toEqual([true, true, false]);
  });

  it("leave coil A alone at the middle of type 1, and coil B of type 2", () => {
    const first = joined("on-on-on type 1", "middle");
    expect([first("A-", "ground"), first("B+", "hot"), first("B+", "A-")]).toEqual([true, false, false]);
    const second = joined("on-on-on type 2", "middle");
    expect([second("B+", "hot"), second("A-", "ground"), second("B+", "A-")]).toEqual([true, false, false]);
  });

  // Case "use-phase": coil to 2 and 5, 1 joined to 6 = hot, 3 joined to 4 = ground.
  it("swap their ends for phase", () => {
    const ends = [
      ["start", "p1-c"],
      ["finish", "p2-c"],
      ["p1-1", "p2-2", "hot"],
      ["p1-2", "p2-1", "ground"],
    ];
    const map = toggle({ kind: "on-on", poles: 2 });
    const down = netsOf(map, "down", ends);
    const up = netsOf(map, "up", ends);
    expect([down("start", "hot"), down("finish", "ground"), down("hot", "ground")]).toEqual([true, true, false]);
    expect([up("finish", "hot"), up("start", "ground"), up("hot", "ground")]).toEqual([true, true, false]);
  });
});
