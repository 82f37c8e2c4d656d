/**
 * A shim that is already in the pocket. The heel's end stands 468 from the nut, the pocket is 76 long, the contacts stand
 * at 650: every mm of shim lifts them by (650 - 392)/76 = 3.3947. Without one they need 10.57 (string 1) to 11.86.
 */
import { describe, expect, it } from "vitest";
import { assess, loadJob, travellerOf } from "../../../src/core/index.ts";
import { showPhrase } from "../../../src/core/quantity/index.ts";
import { askOf, figureOf, fixture, type JobData, text, withValue } from "./jobs.ts";

const GAIN = (650 - (468 - 76)) / 76;
const job = fixture("slanted-pickup");
const withShim = (thickness: string, data: JobData = job): JobData => withValue(data, "fit.setup.shim", thickness);
const bare = figureOf(askOf(job, "bridge.height"), "needed1Mm");

describe("a shim of 1.5 where none is wanted", () => {
  const verdict = askOf(withShim("1.5 mm"), "bridge.height");

  it("is said to be too high, not too low: string 1 needs 10.57 + 1.5 × 3.39 = 15.66", () => {
    expect(figureOf(verdict, "needed1Mm")).toBeCloseTo(bare + 1.5 * GAIN, 6);
    expect(text(verdict.headline)).toMatch(/^The saddles do not reach: string \d needs its contact at 16\.\d\d mm/);
    expect(text(verdict.headline)).not.toMatch(/10\.57|no shim brings/);
    expect(text(verdict.remedies.at(-1)?.text)).toMatch(/go down to 15\.2 mm and up to 17\.\d mm/);
  });

  it("is cured by taking it out, or by one no thicker than the range lets", () => {
    expect(verdict.status).toBe("rework");
    expect(text(verdict.headline)).toMatch(/Take the shim of 1\.50 mm out/);
    const needed = [1, 2, 3, 4, 5, 6].map((n) => figureOf(verdict, `needed${n}Mm`) - 1.5 * GAIN);
    // The highest string may stand at 16 - 0.5; thicknesses in steps of 0.05.
    const most = Math.floor((15.5 - Math.max(...needed)) / GAIN / 0.05) * 0.05;
    expect(figureOf(verdict, "shimMostMm")).toBeCloseTo(most, 9);
    expect(verdict.work).toEqual([{ act: "choose", what: expect.stringMatching(/^the neck without its shim/) }]);
    expect(verdict.remedies.map(({ id }) => id)).toEqual(["no-shim", "another-bridge"]);
    for (const n of [1, 2, 3, 4, 5, 6])
      expect(figureOf(verdict, `withShim${n}Mm`)).toBeCloseTo(needed[n - 1] ?? Number.NaN, 6);
  });
});

describe("a shim of 0.3 where 0.65 is wanted", () => {
  // The straightedge reads 7.5 instead of 9.6: every contact 2.1 lower, string 1 at 8.47 without and 9.49 with the shim.
  const low = withValue(job, "instrument.neck.straightedge", [
    { u: "0 ±0 mm", z: "7.5 mm (calliper)" },
    { u: "180 ±0 mm", z: "7.5 mm (calliper)" },
  ]);
  const verdict = askOf(withShim("0.3 mm", low), "bridge.height");

  it("is short by 10 - 9.49 = 0.51, not by 1.53", () => {
    expect(figureOf(verdict, "needed1Mm")).toBeCloseTo(bare - 2.1 + 0.3 * GAIN, 6);
    expect(text(verdict.headline)).toMatch(/string 1 needs its contact at 9\.49 mm.*short by 0\.51 mm/);
    expect(figureOf(verdict, "short1Mm")).toBeCloseTo(10 - (bare - 2.1 + 0.3 * GAIN), 6);
  });

  it("asks for 0.65 in all, in place of the old one: (10.5 - 8.47)/3.39 = 0.598, and 0.05 over, in steps of 0.05", () => {
    expect(figureOf(verdict, "shimTakeMm")).toBeCloseTo(0.65, 9);
    expect(text(verdict.headline)).toMatch(/0\.65 mm in all, in place of the old one of 0\.30 mm, which comes out/);
    expect(text(verdict.remedies[0]?.text)).toMatch(/in place of the old one/);
  });

  it("says so at the bench too", () => {
    const loaded = loadJob(withShim("0.3 mm", low));
    const step = travellerOf(loaded, assess(loaded)).steps.find(({ kind }) => kind === "shim");
    expect(step?.instructions.map((line) => showPhrase(line)).join("\n")).toMatch(
      /Take the old shim of 0\.30 mm out: 0\.65 mm is the whole thickness/,
    );
  });
});

describe("a shim in a pocket that nobody measured", () => {
  const open = withValue(withShim("1.5 mm"), "instrument.body.pocket.length", undefined);

  it("is not left out of the sum: the pocket's length is asked for", () => {
    const verdict = askOf(open, "bridge.height");
    expect(verdict.status).toBe("measure");
    expect(verdict.missing.map(({ path }) => path)).toEqual(["body.pocket.length"]);
  });

  it("asks for nothing where there is no shim", () => {
    expect(askOf(withValue(job, "instrument.body.pocket.length", undefined), "bridge.height").status).toBe("go");
  });
});
