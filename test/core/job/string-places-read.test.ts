/** Where the strings cross nut and bridge, read string by string, on parts that say little of themselves. */
import { describe, expect, it } from "vitest";
import { loadJob } from "../../../src/core/index.ts";
import { covers } from "../../../src/core/job/index.ts";
import { askOf, example, fixture, type JobData, withReading } from "../questions/jobs.ts";
import { mmOf } from "./fixture.ts";

const bare = fixture("nearly-nothing");

function instrumentOf(data: JobData) {
  return loadJob(data).instrument;
}

describe("a bridge without saddles or pitch", () => {
  it("was asked for the place of each string under names that no reading could have: it wants the pitch", () => {
    const asked = askOf(bare, "bridge.window").missing.map(({ path }) => path);
    expect(asked).toContain("parts.plate.saddles.1.from");
    expect(asked).toContain("parts.plate.pitch");
    expect(asked.join(" ")).not.toContain("saddleQ");
  });

  it("stands by its pitch, once that is read: six strings at 10.5 reach 26.25 either way", () => {
    const read = withReading(bare, { id: "pitch", of: "parts.plate.pitch", value: "10.5 mm (calliper)" });
    // (6 - 1) x 10.5 / 2 = 26.25.
    const saddles = instrumentOf(read).bridge?.pieces[0]?.saddles ?? [];
    expect(Math.abs(mmOf(saddles[0]?.q))).toBeCloseTo(26.25, 9);
    expect(mmOf(saddles[0]?.q) + mmOf(saddles[5]?.q)).toBeCloseTo(0, 9);
  });

  it("takes the travel of a saddle by its string's number", () => {
    const read = withReading(bare, { id: "from", of: "parts.plate.saddles.2.from", value: "11.5 mm (calliper)" });
    expect(mmOf(instrumentOf(read).bridge?.pieces[0]?.saddles[1]?.from)).toBe(11.5);
  });

  it("does not take the second row of saddles for string 1 or 2", () => {
    expect(covers("parts.plate.saddles.1.from", "parts.plate.saddles[1].from")).toBe(false);
    expect(covers("neck.nutSlots", "neck.nutSlots[1]")).toBe(true);
  });
});

describe("a string's own place at the nut", () => {
  const job = example("lowtide");
  const even = mmOf(instrumentOf(job).neck.nutY[1]);

  function readAt(valueMm: number): JobData {
    return withReading(job, { id: "nut-2", of: "neck.nutY[1]", value: `${valueMm} mm (calliper)` });
  }

  it("goes before the even spacing", () => {
    const neck = instrumentOf(readAt(even * 1.02)).neck;
    expect(mmOf(neck.nutY[1])).toBeCloseTo(even * 1.02, 9);
    expect(mmOf(neck.nutY[2])).toBeCloseTo(mmOf(instrumentOf(job).neck.nutY[2]), 9);
  });

  it("is refused without its sign: the string would stand on the other side", () => {
    expect(() => loadJob(readAt(-even))).toThrow(/stands on the side of y [<>] 0.*minus/s);
  });
});
