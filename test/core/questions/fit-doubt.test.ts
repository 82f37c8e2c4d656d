/** Fit questions where values are missing, doubtful or plainly wrong. */
import { describe, expect, it } from "vitest";
import type { Instrument } from "../../../src/core/job/index.ts";
import { exact, type Quantity, showPhrase, unknown } from "../../../src/core/quantity/index.ts";
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

describe("what no work cures", () => {
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
    expect([longer.status, longer.work[0]?.act]).toEqual(["rework", "buy"]);
    expect(longer.remedies.map(({ id }) => id)).toEqual(["longer-bushing"]);
    const none = ask(thin(false), "control.volume.bushing");
    expect([none.status, none.work]).toEqual(["no-go", []]);
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

describe("lever and nut, in part", () => {
  it("the same screws and a longer slot: only the slot is cut", () => {
    if (!lowtide.lever) throw new Error("no lever");
    const verdict = ask({ ...lowtide, lever: { ...lowtide.lever, screws: lowtide.lever.oldScrews } }, "lever.slot");
    expect(showPhrase(verdict.headline)).toBe("Lengthen the slot from 26.0 mm to 30.5 mm.");
    expect(verdict.work).toEqual([{ act: "slot", where: "lever", from: 26, to: 30.5, screwOffset: 0, cover: "" }]);
  });
  it("other screws and a slot that will do: drilled under a cover", () => {
    if (!lowtide.lever) throw new Error("no lever");
    const verdict = ask({ ...lowtide, lever: { ...lowtide.lever, oldSlot: length(31) } }, "lever.slot");
    expect(showPhrase(verdict.headline)).toContain("overlap the old ones by 0.85 mm");
    expect(verdict.work).toMatchObject([{ from: 31, to: 31, screwOffset: 23 }]);
  });
  it("one narrow nut slot of six, and the own file for it", () => {
    const nutSlots = [0.4, 0.36, 0.7, 1, 1.3, 1.7].map((width) => length(width));
    const workshop = { ...lowtide.workshop, nutFiles: [0.33, 0.41, 0.48, 0.56].map((width) => length(width)) };
    const verdict = ask({ ...lowtide, neck: { ...lowtide.neck, nutSlots }, workshop }, "nut.slots");
    expect(showPhrase(verdict.headline)).toBe(
      "The nut slot of string 2 is 0.15 mm too narrow: file it to gauge + 0.05 mm.",
    );
    expect(verdict.work).toEqual([{ act: "nut slots", widths: [{ string: 2, from: 0.36, to: 0.507 }] }]);
    expect(verdict.detail.map((line) => showPhrase(line))[0]).toBe(
      "String 2: 0.36 mm to 0.51 mm, with your 0.48 mm file, rolled from side to side for the last 0.03 mm.",
    );
  });
});

describe("tuners", () => {
  const tuners = lowtide.tuners;
  if (!tuners) throw new Error("no tuners");
  const degrees = (value: number): Quantity => exact(value, "angle", "angle");

  it("holes far too wide take rings", () => {
    const verdict = ask({ ...lowtide, tuners: { ...tuners, oldHole: length(11.2) } }, "tuners.hole");
    expect([verdict.status, verdict.work]).toMatchObject(["rework", [{ act: "buy", what: "tuner adapter rings" }]]);
    expect(verdict.figures.ringWall).toBeCloseTo(0.6, 9);
  });

  it("old screws: clear, in the way, or the same hole", () => {
    const old = (distance: number, angle: number) => ({
      distance: length(distance),
      angle: degrees(angle),
      diameter: length(1.8),
    });
    const asked = (distance: number, angle: number) =>
      ask({ ...lowtide, tuners: { ...tuners, oldScrews: [old(distance, angle)] } }, "tuners.screws");
    // At a right angle: 9.5 √2 = 13.44 apart.
    expect(asked(9.5, -45).status).toBe("go");
    expect(asked(9.5, -45).figures.apart).toBeCloseTo(9.5 * Math.SQRT2, 4);
    // In line, 2.0 apart with 1.8 holes: 0.2 of wall.
    expect(asked(11.5, 45)).toMatchObject({ status: "rework", figures: { wall: expect.closeTo(0.2, 6) } });
    expect(asked(9.5, 45).status).toBe("go");
  });
});

describe("strap button, battery, balance", () => {
  const button = (holeMm: number) => ({
    id: "upper",
    holeDiameter: length(holeMm),
    screwGauge: exact(8, "gauge", "count"),
    screwLength: length(32),
    at: { u: length(0), y: length(0) },
  });
  // #8: shank 4.166, two thirds 2.777, white ash (G 0.60) 90 %: 2.50; widest that still holds (4.166 + 2.777)/2 = 3.47.
  it.each([
    { holeMm: 2.6, status: "go" },
    { holeMm: 1.5, status: "rework" },
    { holeMm: 4, status: "rework" },
  ])("a #8 screw in a hole of $holeMm: $status", ({ holeMm, status }) => {
    const verdict = ask({ ...lowtide, strapButtons: [button(holeMm)] }, "strap.upper");
    expect(verdict.status).toBe(status);
    expect(verdict.figures.lead).toBeCloseTo(2.499, 2);
    if (status === "rework")
      expect(JSON.stringify(verdict.work)).toContain(holeMm > 3 ? "fill the hole" : "drill a lead hole");
  });

  it("battery", () => {
    const room = { length: length(55), width: length(29), depth: length(20) };
    const battery = { length: length(48.5), width: length(26.5), thickness: length(17.5), room };
    expect(ask({ ...lowtide, battery }, "battery.room")).toMatchObject({
      status: "go",
      figures: { spare: 2.5 },
    });
    const short = { ...battery, room: { ...room, depth: length(17) } };
    expect(ask({ ...lowtide, battery: short }, "battery.room").status).toBe("no-go");
  });

  it("balance", () => {
    const mass = (value: number) => exact(value, "mass", "mass");
    const masses = [{ what: "bridge", x: length(720), off: mass(200), on: mass(300) }];
    const verdict = ask({ ...lowtide, masses, strapButtonX: length(420) }, "balance");
    // 100 g at 300 behind the button: the head gets lighter as by 100 x 300 / 420 g.
    expect(verdict.figures.atNut).toBeCloseTo(-71.43, 2);
    expect(showPhrase(verdict.headline)).toContain("lighter");
  });
});
