/** Fit questions on parts that the demo jobs do not have, or have only in part. */
import { describe, expect, it } from "vitest";
import { exact, type Quantity, showPhrase } from "../../../src/core/quantity/index.ts";
import { ask, demo, length } from "./demo.ts";

const lowtide = demo("lowtide");

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

describe("pickup ears", () => {
  it("no longer than the body's rout, and no rout of their own: they stand in the body's", () => {
    const cavities = lowtide.body.cavities.map(({ ears: _ears, ...cavity }) => cavity);
    const inBody = { ...lowtide, body: { ...lowtide.body, cavities } };
    const pickups = lowtide.pickups.map((pickup) =>
      pickup.ears ? { ...pickup, ears: { ...pickup.ears, length: length(70.4), width: length(10) } } : pickup,
    );
    expect(ask({ ...inBody, pickups }, "pickup.neck.drop-in").figures.earEndsGap).toBeCloseTo(0.8, 9);
    // Longer ears want a rout of their own, and nobody has measured one.
    const verdict = ask(inBody, "pickup.neck.drop-in");
    expect(verdict.status).toBe("measure");
    expect(verdict.missing.map(({ path }) => path)).toContain("body.cavities.neck.ears.length");
  });
  it("round corners of the rout are said where they matter", () => {
    const cavities = lowtide.body.cavities.map((cavity) => ({ ...cavity, cornerRadius: length(6) }));
    const verdict = ask({ ...lowtide, body: { ...lowtide.body, cavities } }, "pickup.middle.drop-in");
    // 6 - 0.85 - 0.90 - √(2 x 0.85 x 0.90) = 3.01.
    expect(verdict.detail.map((line) => showPhrase(line)).join(" ")).toContain("round by 3.01 mm or more");
  });
});

describe("tuners", () => {
  const tuners = lowtide.tuners;
  if (!tuners) throw new Error("no tuners");
  const degrees = (value: number): Quantity => exact(value, "angle", "angle");

  it("a headstock too thin or too thick", () => {
    const thick = (value: number) =>
      ask({ ...lowtide, tuners: { ...tuners, headstockThickness: length(value) } }, "tuners.thickness");
    expect([thick(12).status, showPhrase(thick(12).headline)]).toEqual([
      "no-go",
      "The headstock is 0.5 mm too thin for these tuners.",
    ]);
    expect([thick(17).status, showPhrase(thick(17).headline)]).toEqual([
      "no-go",
      "The headstock is 1.0 mm too thick for these tuners.",
    ]);
  });

  it("holes far too wide take rings", () => {
    const verdict = ask({ ...lowtide, tuners: { ...tuners, oldHole: length(11.2) } }, "tuners.hole");
    expect([verdict.status, verdict.work]).toMatchObject(["rework", [{ act: "buy", what: "tuner adapter rings" }]]);
    expect(verdict.figures.ringWall).toBeCloseTo(0.6, 9);
    expect(verdict.remedies.map(({ id }) => id)).toEqual(["adapter", "other-tuners"]);
    const tight = ask({ ...lowtide, tuners: { ...tuners, oldHole: length(10.6) } }, "tuners.hole");
    expect([tight.status, tight.work]).toMatchObject(["rework", [{ act: "choose" }]]);
  });

  it("holes too narrow for a ring were told to take rings or plugs, reversible: only a plug does, and it stays", () => {
    // (10.6 - 10.0) / 2 = 0.3 of ring, under 0.5.
    const { headline, remedies } = ask({ ...lowtide, tuners: { ...tuners, oldHole: length(10.6) } }, "tuners.hole");
    expect(showPhrase(headline)).toContain("too little for a ring: plug them");
    expect(remedies.map(({ id, permanence }) => [id, permanence])).toEqual([
      ["plug", "permanent"],
      ["other-tuners", "reversible"],
    ]);
    expect(remedies.map(({ text }) => showPhrase(text)).join(" ")).not.toMatch(/ring/i);
  });

  it("old screws: clear, in the way, or the same hole", () => {
    const old = (distance: number, angle: number, diameter = 1.8) => ({
      distance: length(distance),
      angle: degrees(angle),
      diameter: length(diameter),
    });
    const asked = (distance: number, angle: number, diameter?: number) =>
      ask({ ...lowtide, tuners: { ...tuners, oldScrews: [old(distance, angle, diameter)] } }, "tuners.screws");
    // At a right angle: 9.5 √2 = 13.44 apart.
    expect(asked(9.5, -45)).toMatchObject({ status: "go", work: [], remedies: [] });
    expect(showPhrase(asked(9.5, -45).headline)).toBe("The new screws stand 11.6 mm clear of the nearest old hole.");
    // 1.5 apart: they run into one another by 0.3.
    expect(showPhrase(asked(11, 45).headline)).toBe(
      "The new screws run into the old holes by 0.30 mm: plug those first.",
    );
    expect(asked(11, 45).work).toMatchObject([{ act: "choose" }]);
    expect(asked(9.5, -45).figures.apart).toBeCloseTo(9.5 * Math.SQRT2, 4);
    // In line, 2.0 apart with 1.8 holes: 0.2 of wall.
    expect(asked(11.5, 45)).toMatchObject({ status: "rework", figures: { wall: expect.closeTo(0.2, 6) } });
    expect(showPhrase(asked(11.5, 45).headline)).toBe(
      "The new screws leave only 0.20 mm to the old holes: plug those first.",
    );
    // A screw of 1.8 has a core of 1.2: it holds in an old hole of that size, and falls through one as wide as itself.
    expect(showPhrase(asked(9.5, 45, 1.2).headline)).toBe("The new screws use the old holes.");
    expect(asked(9.5, 45, 1.2).status).toBe("go");
    expect(asked(9.5, 45, 1.8).status).toBe("rework");
    // The nearest of several decides.
    const both = ask({ ...lowtide, tuners: { ...tuners, oldScrews: [old(9.5, -45), old(11.5, 45)] } }, "tuners.screws");
    expect(both.figures.wall).toBeCloseTo(0.2, 6);
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
    // 108.25 x 0.6² x 4.1656 x two thirds of 32; 5.51 times below to work with.
    expect(verdict.figures.pullOutN).toBeCloseTo(108.2477 * 0.36 * 4.1656 * (64 / 3), 0);
    expect(verdict.figures.workingN).toBeCloseTo((108.2477 * 0.36 * 4.1656 * (64 / 3)) / 5.5088, 0);
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
