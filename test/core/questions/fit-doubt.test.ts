/** Fit questions where values are missing, doubtful or plainly wrong. */
import { describe, expect, it } from "vitest";
import type { Instrument } from "../../../src/core/job/index.ts";
import { exact, showPhrase, unknown } from "../../../src/core/quantity/index.ts";
import { ask, demo, fitVerdicts, length, mapQuantities } from "./demo.ts";

const lowtide = demo("lowtide");
const ferry = demo("ferry");

function withBridgePickup(change: { ears?: readonly [number, number]; u?: number; depth?: number }): Instrument {
  const { ears: [earLength, earWidth] = [86, 10.5], u = 0, depth = 15 } = change;
  const pickups = lowtide.pickups.map((pickup) =>
    pickup.id !== "bridge" || !pickup.ears
      ? pickup
      : {
          ...pickup,
          body: { ...pickup.body, depth: length(depth) },
          ears: {
            ...pickup.ears,
            length: length(earLength, u, "parts.reef.ears.length"),
            width: length(earWidth, u, "parts.reef.ears.width"),
          },
        },
  );
  return { ...lowtide, pickups };
}

describe("values nobody has given", () => {
  it.each([
    ["lowtide", lowtide],
    ["ferry", ferry],
  ])("%s with nothing known: no crash, no guess, and how to get each value", (_name, instrument) => {
    const blank = mapQuantities(instrument, ({ path, kind }) => unknown(path, kind));
    const verdicts = fitVerdicts({ ...blank, limits: instrument.limits });
    for (const verdict of verdicts.values()) {
      if (verdict.id.endsWith(".taper")) continue;
      expect([verdict.id, verdict.status]).toEqual([verdict.id, "measure"]);
      expect(verdict.missing.length, verdict.id).toBeGreaterThan(0);
      for (const reading of verdict.missing) {
        expect(
          [reading.tool, reading.how, reading.what].every((words) => words !== ""),
          verdict.id,
        ).toBe(true);
      }
      expect(verdict.next, verdict.id).toBeDefined();
    }
  });

  it("any one value missing: no crash", () => {
    const paths = new Set<string>();
    mapQuantities(lowtide, (quantity) => {
      if (quantity.known) paths.add(quantity.path);
      return quantity;
    });
    const every = [...paths].sort();
    // One in forty, always the same ones: all of them take too long for a quick test.
    for (const [index, path] of every.entries()) {
      if (index % 40 !== 0) continue;
      const holed = mapQuantities(lowtide, (quantity) =>
        quantity.path === path ? unknown(path, quantity.kind) : quantity,
      );
      expect(() => fitVerdicts(holed), path).not.toThrow();
    }
  });

  it("sizes that are no sizes: no crash, and the value is named", () => {
    for (const value of [0, -3]) {
      const wrong = mapQuantities(lowtide, (quantity) =>
        quantity.kind === "length" ? { ...exact(value, quantity.path) } : quantity,
      );
      for (const verdict of fitVerdicts({ ...wrong, limits: lowtide.limits }).values()) {
        expect(showPhrase(verdict.headline), verdict.id).not.toMatch(/NaN|undefined/);
      }
    }
    const controls = lowtide.controls.map((control) => ({ ...control, wood: length(0) }));
    const verdict = ask({ ...lowtide, controls }, "control.volume.bushing");
    expect(verdict.status).toBe("measure");
    expect(showPhrase(verdict.headline)).toContain("woodMm must be a number above 0 mm, got 0");
  });

  it("a screw number that is in no table: said, not thrown", () => {
    const odd = {
      id: "odd",
      holeDiameter: length(2),
      screwGauge: exact(9, "gauge", "count"),
      screwLength: length(25),
      at: { u: length(0), y: length(0) },
    };
    const verdict = ask({ ...lowtide, strapButtons: [odd] }, "strap.odd");
    expect(verdict.status).toBe("measure");
    expect(showPhrase(verdict.headline)).toContain("no wood screw #9");
  });

  it("a size as doubtful as it is large is still weighed", () => {
    const controls = lowtide.controls.map((control) => ({
      ...control,
      wood: length(0.3, 0.3, "controls.volume.wood"),
    }));
    const verdict = ask({ ...lowtide, controls }, "control.volume.bushing");
    expect(verdict.status).toBe("go");
    expect(verdict.probability).toBeGreaterThan(0.99);
  });

  it("names the value: the wood at a hole", () => {
    const controls = lowtide.controls.map((control) =>
      control.id === "volume" ? { ...control, wood: unknown("controls.volume.wood", "length") } : control,
    );
    const verdict = ask({ ...lowtide, controls }, "control.volume.bushing");
    expect(verdict.status).toBe("measure");
    expect(verdict.missing).toMatchObject([{ path: "controls.volume.wood", tool: "calliper" }]);
  });

  it("a pickup whose depth nobody gave drops in as far as is known, and asks for the depth", () => {
    const pickups = lowtide.pickups.map((pickup) => ({
      ...pickup,
      body: { ...pickup.body, depth: unknown(`parts.${pickup.id}.depth`, "length") },
    }));
    const verdict = ask({ ...lowtide, pickups }, "pickup.neck.drop-in");
    expect(verdict.status).toBe("go");
    expect(verdict.missing.map(({ path }) => path)).toEqual(["parts.neck.depth"]);
    expect(verdict.detail.map((line) => showPhrase(line)).join(" ")).toContain("Not checked: how deep the body goes");
  });

  it("an unknown taper asks for the meter", () => {
    const controls = ferry.controls.map((control) => ({ ...control, taper: "unknown" as const }));
    const verdict = ask({ ...ferry, controls }, "control.one.taper");
    expect(verdict.status).toBe("measure");
    expect(verdict.next?.tool).toBe("meter");
  });
});

describe("doubt", () => {
  it("short by a hair, read with a rule, and cutting cannot be undone: measure first, with the calliper", () => {
    const verdict = ask(withBridgePickup({ ears: [87.1, 10.5], u: 0.25 }), "pickup.bridge.drop-in");
    expect(verdict.status).toBe("measure");
    expect(verdict.next?.tool).toBe("calliper");
    expect(verdict.work).toEqual([]);
    expect(showPhrase(verdict.headline)).toContain("measure before you rout");
  });

  it("the same shortage read with a calliper: rework", () => {
    const verdict = ask(withBridgePickup({ ears: [87.5, 10.5], u: 0.05 }), "pickup.bridge.drop-in");
    expect(verdict.status).toBe("rework");
    // Gap (88 - 87.5)/2 = 0.25, wanted 0.5: 0.25 at each end.
    expect(verdict.work).toEqual([
      { act: "rout", cavity: "bridge", what: "ears", lengthBy: 0.5, widthBy: 0, depthBy: 0 },
    ]);
  });

  it("trying is no risk: a doubtful bushing goes, says its doubt, and names the step", () => {
    const controls = lowtide.controls.map((control) =>
      control.id === "volume" ? { ...control, wood: length(5.25, 0.25, "controls.volume.wood") } : control,
    );
    const verdict = ask({ ...lowtide, controls }, "control.volume.bushing");
    // 9.5 - 5.25 - 4.2 = 0.05 with u 0.25: about 3 in 5.
    expect(verdict.status).toBe("go");
    expect(verdict.probability).toBeGreaterThan(0.5);
    expect(verdict.probability).toBeLessThan(0.65);
    expect(verdict.detail.map((line) => showPhrase(line)).join(" ")).toContain("count the threads above the nut");
    expect(verdict.next?.path).toBe("controls.volume.wood");
  });

  it("a stricter gate turns a passing verdict into one that says its doubt", () => {
    const strict = {
      ...ferry,
      limits: { ...ferry.limits, gateProbability: exact(0.99, "settings.gateProbability", "ratio") },
    };
    // Hole 9.6 (calliper 0.05) and thread 9.5 (data sheet): P 0.96.
    const verdict = ask(strict, "control.one.hole");
    expect(verdict.probability).toBeLessThan(0.99);
    expect(verdict.detail.map((line) => showPhrase(line)).join(" ")).toContain("Try the bushing in the hole.");
    expect(ask(ferry, "control.one.hole").detail).toEqual([]);
  });
});

describe("probability after the work, against closed forms", () => {
  it("spot face: what may fail is thread less stack against the least wood", () => {
    // 7.25 - 4.2 - 3.0 = 0.05 with u 0.05: Φ(1) = 0.8413, whatever the wood was.
    const controls = ferry.controls.map((control) => ({
      ...control,
      threadLength: length(7.25, 0.05, "parts.twin.threadLength"),
    }));
    const verdict = ask({ ...ferry, controls }, "control.one.bushing");
    expect(verdict.status).toBe("rework");
    expect(verdict.probability).toBeCloseTo(0.8413, 3);
  });

  it("sleeve: the bore may miss what it was taken for by 0.15 either way", () => {
    // 0.15 / 0.1 = 1.5 standard uncertainties: 2 Φ(1.5) - 1 = 0.8664.
    const controls = ferry.controls.map((control) => ({
      ...control,
      shafts: control.shafts
        .slice(0, 1)
        .map((shaft) => ({ ...shaft, diameter: length(6), knobBore: length(6.5, 0.1, "parts.phenolic.bores[0]") })),
    }));
    const verdict = ask({ ...ferry, controls }, "control.one.knob");
    expect(verdict.status).toBe("rework");
    expect(verdict.probability).toBeCloseTo(0.8664, 2);
    expect(verdict.remedies.map(({ id }) => id)).toEqual(["sleeve", "other-knob"]);
  });

  it("rout: the clearance against how true a rout is cut", () => {
    // One ear length, known exactly: 0.5 with u 0.15 at each end: Φ(3.33) = 0.9996; sides and body have room to spare.
    const cavities = lowtide.body.cavities.map((cavity) =>
      mapQuantities(cavity, (quantity) => (quantity.known ? { ...quantity, doubt: [] } : quantity)),
    );
    const exactly = withBridgePickup({ ears: [88.5, 10] });
    const verdict = ask({ ...exactly, body: { ...lowtide.body, cavities } }, "pickup.bridge.drop-in");
    expect(verdict.status).toBe("rework");
    expect(verdict.probability).toBeCloseTo(0.99957, 4);
  });

  it("measure: the chance told is that it goes as it stands", () => {
    const verdict = ask(withBridgePickup({ ears: [87.1, 10.5], u: 0.25 }), "pickup.bridge.drop-in");
    // Gap 0.45 at each end with u √(0.25² + 0.05²)/2 = 0.127: Φ(3.5).
    expect(verdict.status).toBe("measure");
    expect(verdict.probability).toBeGreaterThan(0.999);
    expect(verdict.margin?.value).toBeCloseTo(-0.05, 9);
    expect(verdict.margin?.u).toBeCloseTo(Math.hypot(0.25, 0.05) / 2, 2);
  });
});

describe("which questions are asked", () => {
  const ids = (instrument: Instrument) => [...fitVerdicts(instrument).keys()];
  it("of a jack only what somebody has described", () => {
    const pot = lowtide.controls[0];
    if (!pot) throw new Error("no control");
    const none = unknown("x", "length");
    const jack = {
      ...pot,
      id: "jack",
      kind: "jack" as const,
      shafts: [],
      depth: none,
      freeDepth: none,
      threadLength: none,
    };
    expect(ids({ ...lowtide, controls: [jack] }).filter((id) => id.startsWith("control."))).toEqual([
      "control.jack.hole",
    ]);
    const half = { ...jack, depth: length(20) };
    expect(ids({ ...lowtide, controls: [half] }).filter((id) => id.startsWith("control."))).toEqual([
      "control.jack.hole",
    ]);
    const whole = { ...half, freeDepth: length(30), threadLength: length(9) };
    expect(ids({ ...lowtide, controls: [whole] }).filter((id) => id.startsWith("control."))).toEqual([
      "control.jack.bushing",
      "control.jack.hole",
      "control.jack.depth",
    ]);
  });
  it("of tuners without old screws nothing about screws; of posts no lead holes; of an empty job nothing", () => {
    expect(ids(lowtide)).not.toContain("tuners.screws");
    if (!lowtide.bridge) throw new Error("no bridge");
    expect(ids({ ...lowtide, bridge: { ...lowtide.bridge, kind: "two posts" } })).not.toContain("fasteners.bridge");
    const { bridge: _bridge, lever: _lever, tuners: _tuners, ...rest } = lowtide;
    expect(ids({ ...rest, pickups: [], controls: [], strings: [] })).toEqual([]);
  });
});

describe("what no work cures", () => {
  it("as deep as the body allows and no deeper: 3.0 of 44.5 must stay under it", () => {
    expect(ask(withBridgePickup({ depth: 41 }), "pickup.bridge.drop-in").status).toBe("rework");
    expect(ask(withBridgePickup({ depth: 41.1 }), "pickup.bridge.drop-in").status).toBe("no-go");
  });

  it("a pickup deeper than the body allows", () => {
    const verdict = ask(withBridgePickup({ depth: 43 }), "pickup.bridge.drop-in");
    expect(verdict.status).toBe("no-go");
    expect(showPhrase(verdict.headline)).toContain("would go through the body");
    expect(verdict.work).toEqual([]);
  });

  it("too little wood to thin: the longer version, else nothing", () => {
    const thin = (alternative: boolean): Instrument => ({
      ...lowtide,
      controls: lowtide.controls.map(({ alternative: long, ...control }) => ({
        ...control,
        threadLength: length(6),
        ...(alternative && long ? { alternative: long } : {}),
      })),
    });
    const longer = ask(thin(true), "control.volume.bushing");
    expect(showPhrase(longer.headline)).toContain("take the Wrackline Long Cog, with 19.0 mm of thread");
    expect(longer.probability).toBeGreaterThan(0.99);
    expect([longer.status, longer.work[0]?.act]).toEqual(["rework", "buy"]);
    expect(longer.remedies.map(({ id }) => id)).toEqual(["longer-bushing"]);
    const none = ask(thin(false), "control.volume.bushing");
    expect([none.status, none.work]).toEqual(["no-go", []]);
    expect(showPhrase(none.headline)).toContain("too little wood to thin");
  });

  it("a splined knob on a solid shaft, whatever the diameters", () => {
    const controls = lowtide.controls.map((control) => ({
      ...control,
      shafts: control.shafts.map((shaft) => ({ ...shaft, knobKind: "push-on" as const })),
    }));
    const verdict = ask({ ...lowtide, controls }, "control.volume.knob");
    expect(verdict.status).toBe("no-go");
    expect(showPhrase(verdict.headline)).toContain("set screw");
  });

  it("poles that the strings pass outside of", () => {
    const pickups = lowtide.pickups.map((pickup) => ({ ...pickup, poleSpread: length(46) }));
    const verdict = ask({ ...lowtide, pickups }, "pickup.bridge.poles");
    // 51.57 - 46 is 5.57: 2.78 at each end, past a radius of 2.4.
    expect(verdict.status).toBe("no-go");
    expect(verdict.margin?.value).toBeCloseTo(2.4 - (51.567 - 46) / 2, 2);
  });

  it("a lever too wide for its cavity", () => {
    if (!lowtide.lever) throw new Error("no lever");
    const verdict = ask({ ...lowtide, lever: { ...lowtide.lever, width: length(24.5) } }, "lever.width");
    expect(verdict.status).toBe("no-go");
  });
});
