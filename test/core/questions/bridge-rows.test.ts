import { describe, expect, it } from "vitest";
import { assess, loadJob } from "../../../src/core/index.ts";
import { showPhrase } from "../../../src/core/quantity/index.ts";
import type { Verdict } from "../../../src/core/verdict/index.ts";
import { example, fixture, type JobData, withValue } from "./jobs.ts";

function verdict(data: JobData, id: string): Verdict {
  const found = assess(loadJob(data)).find((one) => one.id === id);
  if (!found) throw new Error(`${id} was not asked`);
  return found;
}

const ids = (data: JobData) => assess(loadJob(data)).map(({ id }) => id);

describe("rows asked only where their data is", () => {
  it.each(["lowtide", "ferry"] as const)("%s has none of them", (name) => {
    expect(ids(example(name))).not.toEqual(expect.arrayContaining(["bridge.side"]));
    expect(ids(example(name)).filter((id) => /shared|through|post-thread/.test(id))).toEqual([]);
  });
});

describe("bridge.side", () => {
  // Lowtide: last fret 22 at 690 (1 - 2^(-22/12)) = 496.37. String 6: contact 694.26, y = -18 - 8.25 * 496.37/694.26 =
  // -23.898; string 1: contact 692.11, y = 23.917. A board 54 wide leaves 27 - 2.5 - 23.917 = 0.583.
  it("keeps the outer strings off the board's edge", () => {
    const { status, margin, figures } = verdict(
      withValue(example("lowtide"), "instrument.neck.boardWidthAtLastFret", "54.0 mm (calliper)"),
      "bridge.side",
    );
    expect(status).toBe("go");
    expect(margin?.value).toBeCloseTo(0.583, 2);
    expect(figures.lastFretXMm).toBeCloseTo(496.37, 1);
  });

  it("says that a board is too narrow for the spread wherever the bridge stands", () => {
    // 50 wide: room 22.5 to either side, strings 23.9: 2.8 too wide at the last fret, carried to the bridge by 1/share.
    const { status, headline } = verdict(
      withValue(example("lowtide"), "instrument.neck.boardWidthAtLastFret", "50.0 mm (calliper)"),
      "bridge.side",
    );
    expect(status).toBe("no-go");
    expect(showPhrase(headline)).toMatch(/spread too wide/);
  });
});

describe("bridge.shared-saddles", () => {
  const sharing = (data: JobData) =>
    withValue(data, "parts.groyne.saddles", [
      { strings: [1, 2], from: 11.5, to: 16, shared: true },
      { strings: [3], from: 11.5, to: 16 },
      { strings: [4, 5, 6], from: 13, to: 18 },
    ]);

  it("leaves half the difference on each string", () => {
    // Trial cents 5.3 and 9.4: half the difference is 2.05 cents, the common setback (2.112 + 3.746)/2 = 2.929.
    const shared = verdict(sharing(example("lowtide")), "bridge.shared-saddles");
    expect(shared.status).toBe("go");
    expect(shared.figures.centsLeft).toBeCloseTo(2.05, 2);
    expect(shared.figures.setbackMm).toBeCloseTo(2.929, 3);
  });

  it("moves both strings' places to the compromise", () => {
    const { figures } = verdict(sharing(example("lowtide")), "bridge.window");
    expect(figures.setback1Mm).toBeCloseTo(2.929, 3);
    expect(figures.setback2Mm).toBeCloseTo(2.929, 3);
  });

  it("asks for an angled saddle where too much is left", () => {
    // 5.3 and 17.4 cents: 6.05 left; setbacks 2.112 and 6.935, strings 10.5 apart: atan(4.823/10.5) = 24.7°.
    const far = withValue(sharing(example("lowtide")), "fit.setup.strings.2.cents", "17.4 cents (trial)");
    const { status, figures, work } = verdict(far, "bridge.shared-saddles");
    expect(status).toBe("rework");
    expect(figures.centsLeft).toBeCloseTo(6.05, 2);
    expect(Math.abs(figures.angleDegrees ?? 0)).toBeCloseTo(24.7, 1);
    expect(work).toMatchObject([{ act: "buy", what: "angled saddle" }]);
  });
});

describe("bridge.through", () => {
  const through = (reach: string | undefined) =>
    withValue(withValue(example("lowtide"), "fit.bridge.anchor", "through"), "settings.bitReach", reach);

  it("asks for the bit, then wants half the body and 1 more from each face", () => {
    expect(verdict(through(undefined), "bridge.through").status).toBe("measure");
    // 44.5/2 + 1 = 23.25 from each face.
    const enough = verdict(through("30 mm"), "bridge.through");
    expect(enough.status).toBe("go");
    expect(enough.figures.eachFaceMm).toBeCloseTo(23.25, 6);
    expect(verdict(through("20 mm"), "bridge.through").status).toBe("no-go");
  });
});

describe("bridge.post-thread", () => {
  const posts = (post: string, bushing: string) => {
    const named = withValue(fixture("six-string-two-posts"), "instrument.body.holes.old-studs", {
      purpose: "post",
      u: 400,
      y: [-37, 37],
      diameter: "11 mm (calliper)",
      depth: "18 mm (calliper)",
      thread: bushing,
    });
    const data = loadJob(named).parsed.file;
    const part = Object.entries(data.parts ?? {}).find(([, one]) => one.kind === "bridge")?.[0] ?? "";
    return verdict(withValue(named, `parts.${part}.postThread`, post), "bridge.post-thread");
  };

  it("lets like into like, and refuses metric into inch", () => {
    expect(posts("M4", "M4").status).toBe("go");
    // M4: 4.0 at 0.70; #8-32: 4.166 at 0.79375: 0.166 apart, 0.94 of slip over ten turns.
    const mixed = posts("M4", "#8-32");
    expect(mixed.status).toBe("rework");
    expect(mixed.figures.diameterDifferenceMm).toBeCloseTo(0.166, 3);
    expect(mixed.figures.slipOverTenTurnsMm).toBeCloseTo(0.9375, 4);
  });

  it("asks for a thread that is not in the table", () => {
    expect(posts("M4", "some thread").status).toBe("measure");
  });
});
