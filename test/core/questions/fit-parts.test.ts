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

describe("tuners", () => {
  const tuners = lowtide.tuners;
  if (!tuners) throw new Error("no tuners");
  const degrees = (value: number): Quantity => exact(value, "angle", "angle");

  it("holes far too wide take rings", () => {
    const verdict = ask({ ...lowtide, tuners: { ...tuners, oldHole: length(11.2) } }, "tuners.hole");
    expect([verdict.status, verdict.work]).toMatchObject(["rework", [{ act: "buy", what: "tuner adapter rings" }]]);
    expect(verdict.figures.ringWall).toBeCloseTo(0.6, 9);
    expect(verdict.remedies.map(({ id }) => id)).toEqual(["adapter", "other-tuners"]);
    const tight = ask({ ...lowtide, tuners: { ...tuners, oldHole: length(10.6) } }, "tuners.hole");
    expect([tight.status, tight.work]).toMatchObject(["rework", [{ act: "choose" }]]);
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
