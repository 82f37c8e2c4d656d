/**
 * Fit questions on the two invented demo jobs. Expected figures were worked out from the jobs' declared and measured
 * values with the rules of docs/spec/fit.md by hand and by script, apart from this program.
 */
import { describe, expect, it } from "vitest";
import { foldInstrument, type Operation } from "../../../src/core/job/index.ts";
import { showPhrase } from "../../../src/core/quantity/index.ts";
import type { Verdict } from "../../../src/core/verdict/index.ts";
import { demo, fitVerdicts, the } from "./demo.ts";

/** Printed to two decimals. */
const HALF_DIGIT = 0.0051;

function figuresNear(verdict: Verdict, expected: Readonly<Record<string, number>>): void {
  for (const [name, value] of Object.entries(expected)) {
    const got = verdict.figures[name];
    expect(got, `${verdict.id} has no figure ${name}: ${Object.keys(verdict.figures).join(", ")}`).toBeDefined();
    expect(Math.abs((got ?? Number.NaN) - value), `${verdict.id} ${name} ${got}`).toBeLessThan(HALF_DIGIT);
  }
}

const lowtide = demo("lowtide");
const low = fitVerdicts(lowtide);
const ferry = demo("ferry");
const fer = fitVerdicts(ferry);

describe("Lowtide: traps", () => {
  it("bridge pickup ears: rout 1.0 at each end, 2.5 wider; depth fits", () => {
    const verdict = the(low, "pickup.bridge.drop-in");
    expect(verdict.status).toBe("rework");
    figuresNear(verdict, {
      earEndsNeed: 90,
      earSidesNeed: 14.5,
      earEndsCut: 1,
      earSidesCut: 2.5,
      earDepthCut: 0,
      earDepthGap: 2.5,
    });
    expect(verdict.work).toEqual([
      { act: "rout", cavity: "bridge", what: "ears", lengthBy: 2, widthBy: 2.5, depthBy: 0 },
    ]);
    expect(showPhrase(verdict.headline)).toBe(
      "The Marram Reef does not drop in: rout the ears 1.00 mm longer at each end and 2.50 mm wider.",
    );
    expect(verdict.probability).toBeGreaterThan(0.95);
  });

  it.each([
    { id: "neck", spread: 48.62, offset: -0.69, warn: 0 },
    { id: "middle", spread: 50.19, offset: 0.09, warn: 0 },
    { id: "bridge", spread: 51.57, offset: 1.18, warn: 1 },
  ])("poles of the $id pickup", ({ id, spread, offset, warn }) => {
    const verdict = the(low, `pickup.${id}.poles`);
    expect(verdict.status).toBe("go");
    figuresNear(verdict, { spread, offset, warn, poleRadius: 2.4 });
  });

  it.each([
    { id: "volume", need: 11.2, short: 1.7, spotFace: 2, alternativeProud: 7.8 },
    { id: "treble-cut", need: 10.2, short: 0.7, spotFace: 1, alternativeProud: 8.8 },
    { id: "bass-cut", need: 10.7, short: 1.2, spotFace: 1.5, alternativeProud: 8.3 },
  ])("bushing of $id is short by $short", ({ id, ...figures }) => {
    const verdict = the(low, `control.${id}.bushing`);
    expect(verdict.status).toBe("rework");
    figuresNear(verdict, { ...figures, have: 9.5, woodLeft: 5 });
    expect(verdict.remedies.map((remedy) => remedy.id)).toEqual(["spot-face", "longer-bushing"]);
    expect(verdict.work).toEqual([{ act: "spot-face", where: `controls.${id}`, depth: figures.spotFace, leaves: 5 }]);
  });

  it("holes: 8.0 to 9.6, tuners 8.8 to 10.0", () => {
    for (const id of ["volume", "treble-cut", "bass-cut"]) {
      const verdict = the(low, `control.${id}.hole`);
      expect(verdict.status).toBe("rework");
      expect(verdict.work).toEqual([{ act: "ream", where: `controls.${id}`, count: 1, from: 8, to: 9.6 }]);
    }
    const tuners = the(low, "tuners.hole");
    expect(tuners.status).toBe("rework");
    expect(tuners.work).toEqual([{ act: "ream", where: "tuners", count: 6, from: 8.8, to: 10 }]);
    figuresNear(tuners, { have: 8.8, target: 10, reamBy: 1.2 });
    expect(tuners.probability).toBeGreaterThan(0.99);
  });

  it("lever: slot 26.0 to 30.5, screws overlap by 0.85: cover; 1.4 to the foil: insulate", () => {
    const slot = the(low, "lever.slot");
    expect(slot.status).toBe("rework");
    figuresNear(slot, { slotHave: 26, slotNeed: 30.5, apart: 2.35, overlap: 0.85 });
    expect(slot.work).toMatchObject([{ act: "slot", from: 26, to: 30.5, screwOffset: 23 }]);
    expect(slot.stake).toBe(3);
    const width = the(low, "lever.width");
    expect(width.status).toBe("rework");
    figuresNear(width, { gap: 1.4, least: 2 });
    expect(width.work).toMatchObject([{ act: "insulate" }]);
    expect(width.remedies.map((remedy) => remedy.id)).toEqual(["insulate"]);
  });

  it("nut slots: all six", () => {
    const verdict = the(low, "nut.slots");
    expect(verdict.status).toBe("rework");
    figuresNear(verdict, {
      tooNarrow: 6,
      need1: 0.38,
      need2: 0.51,
      need3: 0.66,
      need4: 0.96,
      need5: 1.27,
      need6: 1.63,
    });
    expect(verdict.work).toMatchObject([
      { act: "nut slots", widths: [1, 2, 3, 4, 5, 6].map((string) => ({ string })) },
    ]);
  });

  it("bridge screws: the sheet's lead hole is above the core by every rule", () => {
    const verdict = the(low, "fasteners.bridge");
    expect(verdict.status).toBe("rework");
    // 2/3 of 3.0; between #4 (0.112 in) and #5 the chart's ratio is 0.75 to 0.76; NDS #6: 0.113/0.138.
    figuresNear(verdict, { rootLeast: 2, rootMost: 3 * (0.113 / 0.138), declared: 2.5, gravity: 0.6 });
    expect(verdict.next?.tool).toBe("calliper");
    expect(showPhrase(verdict.headline)).toContain("is wider than the screw's core, 2.00 mm to 2.46 mm");
    expect(verdict.detail.map((line) => showPhrase(line)).join(" ")).toContain(
      "white ash, G 0.60: 90% of the core by the density rule",
    );
    // Ferry: 2.8 lies inside the span of the rules for a 3.5 screw, 2.33 to 2.87; alder is under G 0.5.
    const alder = the(fer, "fasteners.bridge");
    expect(showPhrase(alder.headline)).toContain("may be wider than the screw's core, 2.33 mm to 2.87 mm");
    expect(alder.detail.map((line) => showPhrase(line)).join(" ")).toContain(
      "asks for no lead hole; a body always gets one, 70% of the core",
    );
  });
});

describe("Lowtide: what must pass without fuss", () => {
  it.each([
    ["tuners.thickness", { spareThin: 1.7, spareThick: 1.8 }],
    ["tuners.post", { slot: 1.8, thickest: 1.575, spare: 0.225 }],
    ["pickup.neck.drop-in", { earEndsNeed: 85, earSidesNeed: 14 }],
    ["pickup.middle.drop-in", { bodyEndsGap: 0.85, bodySidesGap: 0.9 }],
    ["lever.depth", { need: 29.5, have: 33 }],
    ["control.volume.knob", { wobble: 0 }],
    ["control.volume.depth", { have: 33 }],
    ["control.bass-cut.taper", { halfTurn: 0.9 }],
  ])("%s", (id, figures) => {
    const verdict = the(low, id);
    expect(verdict.status).toBe("go");
    expect(verdict.probability ?? 1).toBeGreaterThanOrEqual(0.95);
    expect([verdict.work, verdict.remedies, verdict.missing, verdict.next]).toEqual([[], [], [], undefined]);
    figuresNear(verdict, figures);
  });
});

describe("Ferry: traps", () => {
  it.each(["one", "two"])("stacked pot %s: too deep by 1.0, bushing short by 2.7; one spot face cures both", (id) => {
    const depth = the(fer, `control.${id}.depth`);
    const bushing = the(fer, `control.${id}.bushing`);
    expect([depth.status, bushing.status]).toEqual(["rework", "rework"]);
    figuresNear(depth, { need: 30.5, have: 29.5, short: 1, spotFace: 3, freeDepthAfter: 32.5 });
    figuresNear(bushing, { need: 10.2, have: 7.5, short: 2.7, spotFace: 3, woodLeft: 3 });
    expect(depth.work).toEqual(bushing.work);
    expect(bushing.detail.map((line) => showPhrase(line)).join(" ")).toContain("limit of 3.0 mm");
  });

  it("left-handed audio pots: 90 % at half turn; other hand, linear, or keep clockwise", () => {
    const verdict = the(fer, "control.one.taper");
    expect(verdict.status).toBe("rework");
    figuresNear(verdict, { halfTurn: 0.9, asMade: 0.1 });
    expect(verdict.remedies.map((remedy) => remedy.id)).toEqual(["other-hand", "linear", "keep-direction"]);
    expect(showPhrase(verdict.remedies[0]?.text ?? [])).toContain("3 weeks, +9 cu");
  });

  it.each([
    { id: "set-1-low", pitch: 16.63, centres: 17 },
    { id: "set-1-high", pitch: 16.93, centres: 17 },
    { id: "set-2-high", pitch: 17.46, centres: 17.5 },
    { id: "set-2-low", pitch: 17.71, centres: 17.5 },
  ])("pole pairs of $id", ({ id, pitch, centres }) => {
    const verdict = the(fer, `pickup.${id}.poles`);
    expect(verdict.status).toBe("go");
    figuresNear(verdict, { pitch, pairCentres: centres });
    expect(verdict.figures.offset).toBeLessThan(0.195);
  });

  it("worst offset of a pole in its pair 0.19", () => {
    const offsets = [...fer.values()]
      .filter(({ id }) => id.endsWith(".poles"))
      .map(({ figures }) => figures.offset ?? 9);
    expect(Math.abs(Math.max(...offsets) - 0.19)).toBeLessThan(HALF_DIGIT);
  });

  it("inner knob wobbles by 0.35: sleeve", () => {
    const verdict = the(fer, "control.one.knob");
    expect(verdict.status).toBe("rework");
    figuresNear(verdict, { wobble: 0.35, wobble2: 0, sleeveWall: 0.175 });
    expect(verdict.work).toEqual([{ act: "buy", what: "shaft sleeve", spec: "inside 6.00 mm, outside 6.35 mm" }]);
  });

  it("halves drop in with 0.75 all round, tight when lowered", () => {
    const verdict = the(fer, "pickup.set-1-low.drop-in");
    expect(verdict.status).toBe("go");
    figuresNear(verdict, { bodyEndsGap: 0.75, bodySidesGap: 0.75, bodyDepthGap: 1.5 });
    expect(showPhrase(verdict.headline)).toBe("The Tern Skiff half drops in, with 0.75 mm all round.");
    expect(verdict.detail.map((line) => showPhrase(line)).join(" ")).toContain("Tight when lowered: 1.50 mm below it");
    // G at the saddle 9.45, at the nut 8.8 + 4 x 0.30 - (241 - √(241² - 15²)) + 0.50 = 10.03; at x 667 of 866: 9.58 less 0.5.
    const high = the(fer, "pickup.set-1-high.drop-in");
    expect(high.detail.map((line) => showPhrase(line)).join(" ")).toContain("pass 9.1 mm above it");
  });

  it("holes of 9.6 take the 9.5 thread", () => {
    expect(the(fer, "control.one.hole").status).toBe("go");
  });
});

describe("margins: what is there less what is needed, clearance included", () => {
  it.each([
    ["pickup.neck.drop-in", 0.5],
    ["pickup.middle.drop-in", 0.35],
    ["pickup.bridge.drop-in", -1.25],
    ["pickup.neck.poles", 1.71],
    ["pickup.middle.poles", 2.31],
    ["pickup.bridge.poles", 1.22],
    ["control.volume.bushing", -1.7],
    ["control.treble-cut.bushing", -0.7],
    ["control.bass-cut.bushing", -1.2],
    ["control.volume.hole", -1.6],
    ["control.volume.depth", 18.5],
    ["control.volume.knob", 0.15],
    ["lever.slot", -4.5],
    ["lever.width", -0.6],
    ["lever.depth", 3.5],
    ["tuners.hole", -1.2],
    ["tuners.thickness", 1.7],
    ["tuners.post", 0.225],
    ["nut.slots", -0.425],
  ])("Lowtide %s %s", (id, margin) => {
    expect(Math.abs((the(low, id).margin?.value ?? 9) - margin)).toBeLessThan(HALF_DIGIT);
  });
  it.each([
    ["pickup.set-1-low.drop-in", 0.25],
    ["control.one.bushing", -2.7],
    ["control.one.depth", -1],
    ["control.one.hole", 0],
    ["control.one.knob", -0.2],
  ])("Ferry %s %s", (id, margin) => {
    expect(the(fer, id).margin?.value).toBeCloseTo(margin, 9);
  });
  it("the sums come to the same", () => {
    const results = (verdict: Verdict) => verdict.sums.map((sum) => `${sum.title}: ${showPhrase(sum.result)}`);
    expect(results(the(low, "pickup.bridge.drop-in"))).toEqual([
      "Body, ends: 0.50 mm",
      "Body, sides: 0.75 mm",
      "Body, depth: 3.50 mm",
      "Ears, ends: -1.00 mm",
      "Ears, sides: -1.25 mm",
      "Ears, depth: 2.00 mm",
    ]);
    expect(results(the(low, "tuners.post"))).toEqual(["Slot of the post: 0.23 mm"]);
    expect(results(the(low, "lever.slot"))).toEqual(["Slot: -4.5 mm", "New screw holes against the old: -0.85 mm"]);
    expect(results(the(fer, "control.one.bushing"))).toEqual([
      "Bushing through the top: -2.7 mm",
      "Wood left: 3.0 mm deep, 3.0 mm left",
    ]);
  });
  it("shares of the doubt add up to 1", () => {
    for (const { id, shares } of [...low.values(), ...fer.values()]) {
      if (shares.length > 0)
        expect(
          shares.reduce((sum, { share }) => sum + share, 0),
          id,
        ).toBeCloseTo(1, 6);
    }
    expect(the(low, "lever.depth").shares[0]?.path).toContain("lugs");
  });
});

describe("one plain sentence with the number that decides", () => {
  it.each([
    [
      "control.volume.bushing",
      "The bushing is 1.7 mm too short for the top: thin the wood from inside by 2.0 mm, which leaves 5.0 mm.",
    ],
    ["control.volume.hole", "Ream the hole from 8.0 mm to 9.6 mm."],
    ["control.volume.depth", "There is room below, with 18.5 mm to spare."],
    [
      "pickup.bridge.poles",
      "The outer strings stand 1.18 mm outside the pole centres: it shows, but they are still over the poles.",
    ],
    ["pickup.neck.poles", "The poles stand under the strings: the outer ones are 0.69 mm inside the pole centres."],
    ["pickup.middle.drop-in", "The Tern Eddy drops in, with 0.85 mm at the tightest place, the ends of the body."],
    ["pickup.neck.drop-in", "The Tern Shoal drops in, with 1.00 mm at the tightest place, the sides of the ears."],
    ["lever.width", "Only 1.4 mm between lugs and foil, under 2.0 mm: cover the foil there."],
    ["lever.depth", "There is room below the lever, with 3.5 mm to spare."],
    ["tuners.hole", "Ream the 6 holes from 8.8 mm to 10.0 mm."],
    ["tuners.thickness", "The headstock, 14.2 mm, lies inside the tuners' range of 12.5 mm to 16.0 mm."],
    ["tuners.post", "The thickest string, 1.575 mm, goes into the post's slot of 1.8 mm."],
  ])("Lowtide %s", (id, sentence) => {
    expect(showPhrase(the(low, id).headline)).toBe(sentence);
  });
  it.each([
    [
      "control.one.depth",
      "Too deep by 1.0 mm: the cover will not close as it is. Thinning the wood by 3.0 mm brings the part up and leaves 2.0 mm to spare.",
    ],
    ["control.one.hole", "The bushing passes its hole of 9.6 mm, 0.10 mm wider than the thread."],
    ["control.one.knob", "Inner shaft: a bore of 6.35 mm on 6.00 mm wobbles by 0.35 mm: put a sleeve between."],
    [
      "control.one.taper",
      "Rising anticlockwise, this audio pot gives 90% at half turn: nearly all of it happens near the start.",
    ],
    ["pickup.set-1-low.poles", "Each string runs between its two poles, at most 0.19 mm off the middle of the pair."],
  ])("Ferry %s", (id, sentence) => {
    expect(showPhrase(the(fer, id).headline)).toBe(sentence);
  });
  it("follows the switch to inches", () => {
    expect(showPhrase(the(low, "control.volume.hole").headline, "inch")).toBe(
      "Ream the hole from 0.315 in to 0.378 in.",
    );
  });
});

describe("once the work is done as stated", () => {
  it.each(["lowtide", "ferry"] as const)("%s: what was rework by cutting goes", (name) => {
    const before = demo(name);
    const cutting = new Set(["rout", "ream", "spot-face", "slot", "nut slots", "insulate"]);
    const asked = [...fitVerdicts(before).values()].filter(({ work }) => work.some(({ act }) => cutting.has(act)));
    const distinct = new Map(asked.flatMap(({ work }) => work.map((one) => [JSON.stringify(one), one] as const)));
    const log = [...distinct.values()].map(
      (work, index): Operation => ({ id: `op-${index}`, work, doneAt: "2024-05-01T10:00:00Z" }),
    );
    const after = fitVerdicts(foldInstrument(before, log).instrument);
    expect(asked.length).toBeGreaterThan(3);
    for (const { id } of asked) {
      const verdict = the(after, id);
      expect([id, verdict.status]).toEqual([id, "go"]);
      expect(verdict.probability, id).toBeGreaterThanOrEqual(0.95);
    }
  });
});

describe("every verdict", () => {
  const all = [...low.values(), ...fer.values()];
  it("has a headline that ends, and figures that are numbers", () => {
    for (const verdict of all) {
      expect(showPhrase(verdict.headline), verdict.id).toMatch(/\.$/);
      expect(showPhrase(verdict.headline, "inch"), verdict.id).not.toContain(" mm");
      for (const [name, value] of Object.entries(verdict.figures))
        expect(Number.isFinite(value), `${verdict.id} ${name}`).toBe(true);
    }
  });
  it("opens to sums with formula, rows and source, unless a value is missing", () => {
    for (const verdict of all) {
      if (verdict.status === "measure") continue;
      expect(verdict.sums.length, verdict.id).toBeGreaterThan(0);
      for (const sum of verdict.sums) {
        expect(sum.formula, verdict.id).not.toBe("");
        expect(sum.rows.length, `${verdict.id} ${sum.title}`).toBeGreaterThan(0);
        expect(sum.source.text, verdict.id).not.toBe("");
      }
    }
  });
  it("names its work where it says rework, and none where it goes", () => {
    for (const { id, status, work } of all) {
      if (status === "rework") expect(work.length, id).toBeGreaterThan(0);
      else expect(work, id).toEqual([]);
    }
  });
});
