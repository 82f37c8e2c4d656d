import { describe, expect, it } from "vitest";
import { askOf, figureOf, fixture, type JobData, text, withValue } from "./jobs.ts";

/**
 * The bridge against a pickup's cavity. Front edge at 168, plate 82 wide; cavity 72 across and 20 along, its middle at
 * u 157: square it ends at 167, one before the plate.
 */
const plate = { u: "170 mm (calliper)", length: "40 mm (calliper)", width: "80 mm (calliper)" };
const SIZE = {
  u: "157 ±0 mm",
  y: 0,
  length: 72.0,
  width: 20.0,
  depth: 19.0,
  cornerRadius: "0 ±0 mm",
  tool: "calliper",
};
const base = withValue(
  withValue(fixture("slanted-pickup"), "instrument.body.oldPlate", plate),
  "fit.pickups",
  undefined,
);
const covering = (cavity: Record<string, unknown>): JobData =>
  withValue(base, "instrument.body.cavities", { slanted: { ...SIZE, ...cavity } });
const clearOf = (data: JobData): number => figureOf(askOf(data, "bridge.cover"), "clearOfCavityMm");

describe("the bridge over a cavity", () => {
  it("stands 1.0 clear of a square one", () => {
    const cover = askOf(covering({}), "bridge.cover");
    expect(cover.status).toBe("go");
    expect(clearOf(covering({}))).toBeCloseTo(1, 9);
  });

  it("overhangs one at 12°, whose rear corner reaches further than its middle", () => {
    // Rear corner: 157 + 10 cos 12° + 36 sin 12° = 157 + 9.781 + 7.485 = 174.266, at |y| = 36 cos 12° - 10 sin 12° = 33.1,
    // under the plate: 6.27 too far.
    const cover = askOf(covering({ angle: "12°" }), "bridge.cover");
    expect(cover.status).toBe("no-go");
    expect(figureOf(cover, "clearOfCavityMm")).toBeCloseTo(-6.27, 2);
    expect(text(cover.headline)).toContain("would overhang the slanted cavity by 6.27 mm");
    // Either way round.
    expect(clearOf(covering({ angle: "-12°" }))).toBeCloseTo(-6.27, 2);
  });

  it("lets a round corner be less in the way than a sharp one", () => {
    // Radius 5: 157 + 5 cos 12° + 31 sin 12° + 5 = 173.336, so 5.34 too far.
    expect(clearOf(covering({ angle: "12°", cornerRadius: "5 ±0 mm" }))).toBeCloseTo(-5.34, 2);
  });

  it("minds the ears of a slanted cavity", () => {
    // Body at 150 and 12°: 150 + 17.266 = 167.266. Ears 120 by 10: 150 + 5 cos 12° + 60 sin 12° = 167.37, so 0.63 clear.
    //   That corner stands at y = 60 cos 12° - 5 sin 12° = 57.6, outside the plate's 41: where its rear side passes 41 it is
    //   at 150 + 5/cos 12° + 41 tan 12° = 163.83.
    const ears = { length: 120.0, width: 10.0, depth: 19.0 };
    expect(clearOf(covering({ u: "150 ±0 mm", angle: "12°" }))).toBeCloseTo(0.734, 3);
    expect(clearOf(covering({ u: "150 ±0 mm", angle: "12°", ears }))).toBeCloseTo(0.734, 3);
    // Ears 80 by 20 reach 150 + 9.781 + 40 sin 12° = 168.098, at |y| = 37.0: 0.098 too far.
    const wide = { length: 80.0, width: 20.0, depth: 19.0 };
    expect(clearOf(covering({ u: "150 ±0 mm", angle: "12°", ears: wide }))).toBeCloseTo(-0.098, 3);
  });

  it("does not mind a cavity wholly beside it", () => {
    const beside = askOf(covering({ u: "180 ±0 mm", y: "60 ±0 mm", length: 30.0 }), "bridge.cover");
    expect(beside.figures).not.toHaveProperty("clearOfCavityMm");
  });
});
