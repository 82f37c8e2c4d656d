import { describe, expect, it } from "vitest";
import { assess, loadJob } from "../../../src/core/index.ts";
import { showPhrase } from "../../../src/core/quantity/index.ts";
import type { Verdict } from "../../../src/core/verdict/index.ts";
import { example, fixture, type JobData, placementOf, text, withoutReading, withValue } from "./jobs.ts";

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

  it("shifts a bridge whose strings lie to one side", () => {
    // Nut slots all 2.0 to the left of the middle, board 53.4: string 6 has k = 496.37/694.26 = 0.71496, so y =
    // -20 (1 - k) - 26.25 k = -24.469 and margin 26.7 - 2.5 - 24.469 = -0.269. Half a millimetre to the right cures it.
    const nutY = ["16 mm", "8.8 mm", "1.6 mm", "-5.6 mm", "-12.8 mm", "-20 mm"].map((y) => `${y} (calliper)`);
    const moved = withValue(
      withValue(example("lowtide"), "instrument.neck.nutY", nutY),
      "instrument.neck.boardWidthAtLastFret",
      "53.4 mm (calliper)",
    );
    const { status, margin, remedies, work } = verdict(moved, "bridge.side");
    expect(status).toBe("rework");
    expect(margin?.value).toBeCloseTo(-0.269, 2);
    expect(remedies[0]?.figures?.sideMm).toBeGreaterThan(0.269 / 0.715);
    expect(remedies[0]?.probability).toBeGreaterThan(0.95);
    expect(work).toHaveLength(1);
  });

  it("carries the heel's play on to the bridge, and has the neck lined up before it is believed", () => {
    // 0.2 over a pocket of 76, mouth at 508 - 76 = 432: (694.26 - 432) 0.2/76 = 0.690 either way, u = 0.690/√3 = 0.398.
    const loose = withValue(
      withValue(example("lowtide"), "instrument.neck.boardWidthAtLastFret", "53.0 mm (calliper)"),
      "instrument.neck.pocketPlay",
      "0.2 mm (feeler)",
    );
    const seen = verdict(loose, "bridge.side");
    expect(seen.figures.turnU).toBeCloseTo(0.398, 3);
    expect(seen.status).toBe("measure");
    expect(seen.next?.tool).toBe("thread");
    // 26.5 - 2.5 - 23.917: 0.083, sure once the neck is bolted in line.
    const bolted = verdict(withValue(loose, "instrument.neck.pocketPlay", "0 mm"), "bridge.side");
    expect(bolted.status).toBe("go");
    expect(bolted.margin?.value).toBeCloseTo(0.083, 2);
    expect(bolted.figures.turnU).toBe(0);
  });

  it("reckons single units from where each stands, and each string of a multi-scale neck by its own length", () => {
    // Turnstone: 21 at the nut and 31.5 at the bridge, fret 24. String 1: L 648 and about 2 of setback, k = 486/650 =
    // 0.7477, y = 21 + 10.5 k = 28.851; string 7: L 690, k about 517.5/694 = 0.7457. Board 66: 33 - 2.5 - 28.85 = 1.65.
    const wide = verdict(
      withValue(fixture("seven-string-units"), "instrument.neck.boardWidthAtLastFret", "66.0 mm (calliper)"),
      "bridge.side",
    );
    expect(wide.status).toBe("go");
    expect(wide.margin?.value).toBeCloseTo(1.65, 1);
  });
});

describe("a spare string on a shared saddle", () => {
  // Three saddles for six strings, travel 9 to 12 less 0.5 at either end: 2.0. The pairs want (2 + 2)/2 = 2.0,
  // (6 + 3.6)/2 = 4.8 and 2.0, which is 2.8 apart: the window is empty by 0.8. The spare third string wants 2.0.
  const pairs = [
    [1, 2],
    [3, 4],
    [5, 6],
  ].map((strings) => ({ strings, from: "9 ±0 mm", to: "12 ±0 mm", shared: true }));
  let job = withValue(fixture("slanted-pickup"), "parts.groyne.saddles", pairs);
  job = withValue(job, "fit.setup.strings.3.setback", "6.00 mm (calliper)");
  job = withValue(job, "fit.setup.strings.4.setback", "3.60 mm (calliper)");
  job = withValue(job, "parts.six", {
    kind: "strings",
    name: "Skerrow Six",
    strings: Object.fromEntries(["E4", "B3", "G3", "D3", "A2", "E2"].map((note, index) => [index + 1, { note }])),
    spares: { 3: { name: "wound third", note: "G3" } },
  });
  job = withValue(job, "fit.strings", { part: "six" });
  job = withValue(job, "fit.setup.spares", { 3: { setback: "2.00 mm (calliper)" } });

  it("opens the window by 1.2: the saddle's common place goes from 4.8 to 2.8, the partner with it", () => {
    const window = verdict(job, "bridge.window");
    expect(window.figures.widthMm).toBeCloseTo(-0.8, 9);
    expect(window.status).toBe("rework");
    expect(window.remedies.find(({ id }) => id === "string-3")?.figures?.widthMm).toBeCloseTo(1.2, 9);
    const [bar] = placementOf(loadJob(job).instrument).pieces;
    expect(bar?.saddles.map(({ setback }) => setback.value)).toEqual(
      [2, 2, 2.8, 2.8, 2, 2].map((s) => expect.closeTo(s)),
    );
  });

  it("tells the string's own change and the saddle's apart", () => {
    // The string wants 6.0 - 2.0 = 4.0 less, the saddle moves 4.8 - 2.8 = 2.0; where it stands it is 2.8 off for the spare:
    // 1200/ln 2 x 2.8/648 = 7.5 cents.
    const change = verdict(job, "strings.change");
    expect(change.figures.string3MovesMm).toBeCloseTo(-4, 9);
    expect(change.figures.saddle3MovesMm).toBeCloseTo(-2, 9);
    expect(text(change.headline)).toMatch(
      /moves its setback by 4\.00 mm forward, and the saddle it shares by 2\.00 mm: .* out by 7 cents/,
    );
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

  it("judges three strings on one saddle by the one that is furthest out, and offers no angle for them", () => {
    // 5.3, 9.4 and a third at 11.7 cents: their middle is 8.8, so 3.5 are left on the first string.
    const three = withValue(
      withValue(example("lowtide"), "parts.groyne.saddles", [
        { strings: [1, 2, 3], from: 11.5, to: 16, shared: true },
        { strings: [4, 5, 6], from: 13, to: 18 },
      ]),
      "fit.setup.strings.3.cents",
      "11.7 cents (trial)",
    );
    const { status, figures, remedies } = verdict(three, "bridge.shared-saddles");
    expect(status).toBe("rework");
    expect(figures.centsLeft).toBeCloseTo(3.5, 2);
    expect(figures.angleDegrees).toBeUndefined();
    expect(remedies.map(({ id }) => id)).toEqual(["saddle-a-string"]);
  });

  it("says how sure it is: two trials of a cent or so leave their doubt on the answer", () => {
    const { margin, probability } = verdict(sharing(example("lowtide")), "bridge.shared-saddles");
    expect(margin?.value).toBeCloseTo(3 - 2.05, 2);
    expect(margin?.u).toBeGreaterThan(0);
    expect(probability).toBeLessThan(1);
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
    // A bit of 20 is 3.25 short: one of 23.25 + 2, up to a whole millimetre, is 26.
    const short = verdict(through("20 mm"), "bridge.through");
    expect(short.status).toBe("rework");
    expect(short.margin?.value).toBeCloseTo(-3.25, 6);
    expect(short.work).toMatchObject([{ act: "buy", spec: "26 mm free below the chuck" }]);
  });

  it("gives the places on the back with the sides changed", () => {
    // String holes at 26.0 behind the plate's front edge, q from -26.25 to 26.25 in steps of 10.5.
    const holes = ((through("30 mm").readings ?? []) as { id: string; of: string }[])
      .filter(({ of }) => of.startsWith("body.holes"))
      .map(({ id }) => id);
    const bare = withoutReading(withValue(through("30 mm"), "instrument.body.holes", {}), ...holes);
    const { figures } = verdict(bare, "bridge.through");
    const front = verdict(bare, "bridge.place").figures;
    const side = front.sideMm ?? 0;
    [-26.25, -15.75, -5.25, 5.25, 15.75, 26.25].forEach((q, index) => {
      expect(figures[`back${index + 1}YMm`]).toBeCloseTo(-(q + side), 6);
      expect(figures[`back${index + 1}UMm`]).toBeCloseTo((front.placeMm ?? Number.NaN) + 26, 6);
    });
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

  it("tells a metric stud from an inch stud that looks like it, however each is written", () => {
    expect(posts("M8", "M8x1.25").status).toBe("go");
    expect(posts("5/16-24", "5/16-24 UNF").status).toBe("go");
    // 5/16 in = 7.9375, 0.0625 under 8; pitches 25.4/24 = 1.0583 and 1.25: ten turns slip 1.917.
    const alike = posts("M8x1.25", "5/16-24");
    expect(alike.status).toBe("rework");
    expect(alike.figures.diameterDifferenceMm).toBeCloseTo(0.0625, 4);
    expect(alike.figures.slipOverTenTurnsMm).toBeCloseTo(1.9167, 4);
    expect(alike.remedies.map(({ id }) => id)).toEqual(["old-posts", "new-bushings"]);
    // A fine metric stud of the same diameter does not go either.
    expect(posts("M8x1", "M8x1.25").status).toBe("rework");
    // Size 12 is 0.060 + 12 x 0.013 = 0.216 in (ASME B1.1).
    expect(posts("#12-24", "#12-24 UNC").status).toBe("go");
    expect(posts("M8x0", "M8").status).toBe("measure");
  });

  it("asks for a thread that is not in the table", () => {
    expect(posts("M4", "some thread").status).toBe("measure");
  });
});

describe("advice that is never a verdict", () => {
  it("says which bridge screws stand closer than carpentry likes", () => {
    // Lowtide: screws of 3.0 in one row, 10.5 apart: under 5 x 3 = 15 across the grain (and 7 x 3 = 21 along it).
    const { detail } = verdict(example("lowtide"), "fasteners.bridge");
    expect(detail.map((line) => showPhrase(line)).join(" ")).toMatch(/10\.5 mm apart across.*15\.0 mm and 21\.0 mm/);
  });

  it("says how wide to break the finish", () => {
    // Thread 3.0, drill 2.5: the larger and half a millimetre.
    const { detail } = verdict(example("lowtide"), "bridge.depth");
    expect(detail.map((line) => showPhrase(line)).join(" ")).toMatch(
      /2\.5 mm: break the finish first, by hand, to 3\.5 mm/,
    );
  });
});
