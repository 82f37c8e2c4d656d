import { describe, expect, it } from "vitest";
import { ask, loadJob } from "../../../src/core/index.ts";
import { showPhrase } from "../../../src/core/quantity/index.ts";

const PLATE = {
  kind: "bridge",
  type: "flat plate",
  pitch: 10.5,
  saddles: [{ strings: [1, 2, 3, 4, 5, 6], from: 8, to: 20 }],
} as const;

function job(more: { body?: object; neck?: object; scaleLine?: object }, plate: object = PLATE) {
  const { body, neck, scaleLine } = more;
  return loadJob({
    fettle: { instrument: 1, parts: 1, fit: 1 },
    instrument: {
      kind: "guitar",
      strings: 6,
      neck: { nutToFret12: "324 mm (rule)", ...neck },
      ...(body ? { body } : {}),
      ...(scaleLine ? { scaleLine } : {}),
    },
    parts: { plate },
    fit: { bridge: { part: "plate" } },
  });
}

const headline = (of: ReturnType<typeof job>, id: string) => showPhrase(ask(of, id).headline);

/** Middle of the window by the fixed rule: 324 + 1.6 - 8.5 = 317.1 and 324 + 4 + 0.5 - 20 = 308.5, so 312.8 from fret 12. */
describe("places are told from what was measured", () => {
  it("from fret 12 and the nut, where nobody has measured the pocket", () => {
    const of = job({ body: { endWallX: 0 } });
    expect(headline(of, "bridge.place")).toMatch(
      /^Front edge 312\.8 mm from the middle of fret 12 \(636\.8 mm from the nut\)/,
    );
    expect(headline(of, "bridge.window")).toContain("from 308.5 mm to 317.1 mm from the middle of fret 12");
    expect(headline(of, "scale.line")).toContain("from the nut");
  });

  it("from the end wall and the nut, where the heel was measured", () => {
    // 324 - 150 = 174 from the end wall; the nut lies 474 before it.
    const of = job({ neck: { fret12ToHeelEnd: "150 mm (rule)" } });
    expect(headline(of, "bridge.place")).toMatch(
      /^Front edge at 162\.8 mm behind the pocket's end wall \(636\.8 mm from the nut\)/,
    );
    expect(headline(of, "bridge.window")).toContain("from 158.50 mm to 167.10 mm behind the end wall");
    expect(headline(of, "scale.line")).toContain("behind the pocket's end wall");
  });

  it("from fret 12 still, when the line was carried over but places count from the nut", () => {
    const of = job({ body: { endWallX: 0 }, scaleLine: { x: "648.3 mm (transfer)" } });
    expect(headline(of, "bridge.place")).toMatch(/^Front edge 312\.8 mm from the middle of fret 12/);
  });

  it("does not mix a heel that was measured later with places that count from the nut", () => {
    const of = job({
      body: { endWallX: 0 },
      neck: { fret12ToHeelEnd: "150 mm (rule)", nutToHeelEnd: "474 mm (rule)" },
    });
    expect(headline(of, "bridge.place")).toMatch(/^Front edge 312\.8 mm from the middle of fret 12 \(636\.8 mm/);
    const tied = job({ body: { endWallX: 474 }, neck: { fret12ToHeelEnd: "150 mm (rule)" } });
    expect(headline(tied, "bridge.place")).toMatch(/^Front edge at 162\.8 mm behind the pocket's end wall \(636\.8 mm/);
  });
});

describe("old holes told from the nut", () => {
  const holes = { old: { purpose: "screw", x: 671, y: [-10, 0, 10], diameter: 3.2, depth: 20 } };
  const screws = [{ p: 34, q: [-10.5, 0, 10.5], thread: 3, pilot: 2.5, depth: 20 }];

  it("stay where they are when the heel is measured later", () => {
    const wall = (neck: object) => {
      const of = job({ body: { endWallX: 0, holes }, neck }, { ...PLATE, screws });
      return ask(of, "bridge.holes").figures["wall bridge-screws#1"];
    };
    const before = wall({});
    expect(before).toBeGreaterThan(0);
    expect(wall({ fret12ToHeelEnd: "150 mm (rule)" })).toBe(before);
  });
});

describe("the surest words are not the boldest", () => {
  it("takes a multi-scale neck read with a rule as measured", () => {
    const of = job({
      body: { endWallX: 0 },
      neck: {
        scaleLength: { string1: "635 mm (rule)", lastString: "640 mm (rule)" },
        squareFret: 7,
        nutSpread: 36,
        nutToFret12: undefined,
      },
    });
    expect(ask(of, "scale.line").status).toBe("go");
    const printed = job({
      body: { endWallX: 0 },
      neck: { scaleLength: { string1: 635, lastString: 640 }, squareFret: 7, nutSpread: 36, nutToFret12: undefined },
    });
    expect(ask(printed, "scale.line").status).toBe("measure");
  });

  it("asks for the new holes before it clears the old ones", () => {
    const verdict = ask(
      job({ body: { endWallX: 0, holes: { old: { x: 660, y: [-10, 10], diameter: 3, depth: 20 } } } }),
      "bridge.holes",
    );
    expect(verdict.status).toBe("measure");
    expect(verdict.missing.map(({ path }) => path)).toEqual(["parts.plate.screws"]);
  });
});
