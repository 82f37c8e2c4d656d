import { describe, expect, it } from "vitest";
import {
  askOf,
  example,
  figureOf,
  text,
  verdictsOf,
  wholeText,
  withoutReading,
  withValue,
} from "../../core/questions/jobs.ts";
import { expectEachPrinted, expectPrinted } from "./printed.ts";

/**
 * Figures printed for the demo job A-107 "Lowtide" (README.md): the source of every number below unless it says so.
 * A-T1 … are the printed numbers of its traps.
 */
const job = example("lowtide");
const verdicts = verdictsOf(job);
const fig = (id: string, name: string): number => figureOf(verdicts.get(id), name);

/** The same job with the setbacks that a string model gives in place of those from the trial. */
const MODEL_SETBACKS = ["2.01", "3.84", "6.66", "2.92", "3.37", "4.23"];
const byModel = MODEL_SETBACKS.reduce(
  (data, setback, index) => {
    const path = `fit.setup.strings.${index + 1}`;
    return withValue(withValue(data, `${path}.cents`, undefined), `${path}.setback`, `${setback} mm (data sheet)`);
  },
  withValue(
    withValue(job, "fit.setup.spares.3.cents", undefined),
    "fit.setup.spares.3.setback",
    "2.24 mm (data sheet)",
  ),
);

describe("scale line", () => {
  it("[A-T1] lies 4.0 further back than the old one: the old plate's place is useless", () => {
    const verdict = verdicts.get("scale.line");
    expect(verdict?.status).toBe("go");
    expectPrinted(fig("scale.line", "scaleLineMm"), "182.0");
    expectPrinted(fig("scale.line", "oldScaleLineMm"), "178.0");
    expectPrinted(fig("scale.line", "shiftMm"), "4.0");
    expect(text(verdict?.headline)).toContain("of no use");
  });

  it("has the doubt of its way of measuring", () => {
    expectPrinted(fig("scale.line", "u heel chain"), "0.46");
    expectPrinted(fig("scale.line", "u carried over"), "0.15");
  });
});

describe("bridge.window", () => {
  const window = verdicts.get("bridge.window");

  it("[A-T2] is empty by 1.83 with the plain third, by 0.83 even without reserve", () => {
    expect(window?.status).toBe("rework");
    expectPrinted(fig("bridge.window", "minMm"), "173.32");
    expectPrinted(fig("bridge.window", "maxMm"), "171.49");
    expectPrinted(fig("bridge.window", "emptyByMm"), "1.83");
    expectPrinted(-fig("bridge.window", "widthWithoutReserveMm"), "0.83");
  });

  it("[A-T2] opens with the wound third, or with saddle 3 turned round", () => {
    const wound = window?.remedies.find((remedy) => remedy.id === "string-3");
    expect(wound?.then).toBe("go");
    expectPrinted(wound?.figures?.minMm, "170.25");
    expectPrinted(wound?.figures?.maxMm, "171.49");
    const turned = window?.remedies.find((remedy) => remedy.id === "turn-3");
    expect(turned?.then).toBe("go");
    expectPrinted(turned?.figures?.minMm, "170.92");
    expectPrinted(turned?.figures?.maxMm, "171.49");
  });

  it("[A-T2] says so much by the model's setbacks as well", () => {
    const modelled = askOf(byModel, "bridge.window");
    expect(modelled.status).toBe("rework");
    expectPrinted(figureOf(modelled, "emptyByMm"), "1.74");
    const wound = modelled.remedies.find((remedy) => remedy.id === "string-3")?.figures;
    expectPrinted(wound?.minMm, "170.34");
    expectPrinted(wound?.maxMm, "171.42");
    const turned = modelled.remedies.find((remedy) => remedy.id === "turn-3")?.figures;
    expectPrinted(turned?.minMm, "170.76");
    expectPrinted(turned?.maxMm, "171.42");
  });

  it("takes each string's setback from its trial", () => {
    const printed = ["2.11", "3.75", "6.82", "2.99", "3.27", "4.26"];
    expectEachPrinted(printed, (n) => fig("bridge.window", `setback${n}Mm`));
    expectPrinted(fig("bridge.window", "spareSetback3Mm"), "2.11");
  });

  it("gives the chance that holds after its rework", () => {
    // The widest printed window is 1.24 wide and each of its two ends is good to about 0.2: over 0.99.
    expect(window?.probability).toBeGreaterThan(0.99);
  });
});

describe("bridge.place", () => {
  it("[A-T2] is 170.9, inside the windows by trial and by model", () => {
    expectPrinted(fig("bridge.place", "placeMm"), "170.9");
    expect(fig("bridge.place", "yawDegrees")).toBe(0);
    expect(fig("bridge.place", "sideMm")).toBe(0);
    expectPrinted(figureOf(askOf(byModel, "bridge.place"), "placeMm"), "170.9");
  });

  it("holds with P 0.63 by rule and hand drill, 0.98 by transfer and self-centring bit", () => {
    expectPrinted(fig("bridge.place", "pRuleHandDrill"), "0.63");
    expectPrinted(fig("bridge.place", "pTransferSelfCentring"), "0.98");
  });

  it("does not go by hand drill: better drilling is the way out", () => {
    const place = verdicts.get("bridge.place");
    expect(place?.status).toBe("rework");
    expect(place?.remedies.map((remedy) => [remedy.id, remedy.then])).toEqual([["drill-better", "go"]]);
    const better = askOf(withValue(job, "settings.drilling", "self-centring bit through the plate"), "bridge.place");
    expect(better.status).toBe("go");
    expectPrinted(better.probability, "0.98");
  });

  it("asks for the better way of measuring where the line was read by rule alone", () => {
    const rule = askOf(withoutReading(job, "line-carried", "row-plate"), "bridge.place");
    expectPrinted(rule.probability, "0.63");
    expect(rule.status).toBe("measure");
    expect(rule.remedies[0]).toMatchObject({ id: "measure-and-drill-better", then: "go" });
  });
});

describe("bridge.holes", () => {
  const holes = verdicts.get("bridge.holes");

  it("[A-T3] has walls 0.44, 0.34, 0.30, 0.34, 0.44 to the thread: plug all five first", () => {
    expect(holes?.status).toBe("rework");
    const walls = ["0.44", "0.34", "0.30", "0.34", "0.44"];
    expectEachPrinted(walls, (n) => fig("bridge.holes", `wall bridge-screws#${n}`));
    expect(fig("bridge.holes", "plugs")).toBe(5);
    const plug = holes?.work.find((work) => work.act === "plug");
    expect(plug).toMatchObject({ diameter: 6 });
    expect(plug?.act === "plug" && plug.holes.map((hole) => hole.id)).toEqual(
      [1, 2, 3, 4, 5].map((n) => `old-screws#${n}`),
    );
    const drill = holes?.work.find((work) => work.act === "drill");
    expect(drill?.act === "drill" && drill.holes.map((hole) => hole.u)).toEqual(Array(5).fill(expect.closeTo(204.9)));
    expect(drill).toMatchObject({ intoPlugs: true });
  });

  it("[A-T3] finds no place that clears them, 0.9 at best", () => {
    expect(wholeText(holes)).toContain("No place of the saddles' window clears the old holes");
    expectPrinted(fig("bridge.holes", "widestWallMm"), "0.9");
  });

  it("[A-T3] runs the screws into the plugs by 0.96 to 1.10, plugs 4.0 apart and 4.1 from the open holes", () => {
    const runIns = [1, 2, 3, 4, 5].map((n) => fig("bridge.holes", `runIn bridge-screws#${n}`));
    expectPrinted(Math.min(...runIns), "0.96");
    expectPrinted(Math.max(...runIns), "1.10");
    expectPrinted(fig("bridge.holes", "plugToPlugMm"), "4.0");
    expectPrinted(fig("bridge.holes", "plugToOpenHoleMm"), "4.1");
    expect(wholeText(holes)).toContain("let the glue cure, and guide the bit");
  });
});

describe("bridge.string-holes", () => {
  const holes = verdicts.get("bridge.string-holes");

  it("[A-T4] overlap the old ones by 0.6, all six, and no plug helps: load from the top", () => {
    expect(holes?.status).toBe("rework");
    expectPrinted(fig("bridge.string-holes", "overlapMm"), "0.6");
    expect(fig("bridge.string-holes", "overlapCount")).toBe(6);
    expectPrinted(fig("bridge.string-holes", "plugToStringHoleMm"), "1.26");
    expect(holes?.remedies).toMatchObject([{ id: "load-top", permanence: "reversible", then: "go" }]);
    expect(text(holes?.headline)).toContain("load the strings from the top");
  });

  it("[A-T4] would cut an 8.0 plug open 2.1 deep, and leave 0.26 to plugs of 8.0", () => {
    expectPrinted(fig("bridge.string-holes", "plugCutMm"), "2.1");
    const larger = askOf(withValue(job, "settings.plugDiameter", 8), "bridge.string-holes");
    expectPrinted(figureOf(larger, "plugToStringHoleMm"), "0.26");
  });
});

describe("the rest of the bridge", () => {
  it("[A-T15] reads open under a powder-coated plate: scrape a spot, or a lug on a screw", () => {
    const ground = verdicts.get("bridge.ground");
    expect(ground?.status).toBe("rework");
    expect(text(ground?.headline)).toMatch(/reads open.*[Ss]crape.*lug on a screw/);
    expect(ground?.work).toEqual([{ act: "bare contact", where: "underside of the bridge plate" }]);
  });

  it("[A-T19] moves the third's setback by 4.70 when it is changed, by the model 4.42", () => {
    expect(verdicts.get("strings.change")?.status).toBe("go");
    expectPrinted(Math.abs(fig("strings.change", "string3MovesMm")), "4.70");
    expectPrinted(Math.abs(figureOf(askOf(byModel, "strings.change"), "string3MovesMm")), "4.42");
    expect(text(verdicts.get("strings.change")?.headline)).toContain("set the intonation again");
  });
});

describe("negative controls: go, and nothing else to do", () => {
  it("bridge height: what each string needs lies inside the range and its reserve", () => {
    const printed = ["11.31", "12.03", "12.45", "12.58", "12.42", "11.96"];
    expectEachPrinted(printed, (n) => fig("bridge.height", `needed${n}Mm`));
    expectPrinted(fig("bridge.height", "lowestMm"), "10.5");
    expectPrinted(fig("bridge.height", "highestMm"), "15.0");
  });

  it("the plate's front stands 4.4 clear of the bridge cavity", () => {
    expectPrinted(fig("bridge.cover", "clearOfCavityMm"), "4.4");
  });

  it.each(["scale.line", "bridge.height", "bridge.depth", "bridge.cover", "sheet.side"])("%s", (id) => {
    const verdict = verdicts.get(id);
    expect(verdict?.status).toBe("go");
    expect(verdict?.work).toEqual([]);
    expect(verdict?.missing).toEqual([]);
    expect(verdict?.remedies).toEqual([]);
  });
});

// ---- Fit: pickups, controls, lever, tuners, nut ----

describe("pickups", () => {
  it("[A-T5] bridge pickup's ears need 90.0 x 14.5, have 88.0 x 12.0: rout 1.0 at each end and 2.5 of width", () => {
    const ears = verdicts.get("pickup.bridge.drop-in");
    expect(ears?.status).toBe("rework");
    expectPrinted(fig("pickup.bridge.drop-in", "earEndsNeed"), "90.0");
    expectPrinted(fig("pickup.bridge.drop-in", "earSidesNeed"), "14.5");
    expectPrinted(fig("pickup.bridge.drop-in", "earEndsHave"), "88.0");
    expectPrinted(fig("pickup.bridge.drop-in", "earSidesHave"), "12.0");
    expectPrinted(fig("pickup.bridge.drop-in", "earEndsCut"), "1.0");
    expectPrinted(fig("pickup.bridge.drop-in", "earSidesCut"), "2.5");
    // Depth 21.0 against 18.5 and its clearance.
    expectPrinted(fig("pickup.bridge.drop-in", "earDepthHave"), "21.0");
    expect(fig("pickup.bridge.drop-in", "earDepthGap")).toBeGreaterThanOrEqual(0.5);
    expect(ears?.work).toEqual([
      expect.objectContaining({
        act: "rout",
        cavity: "bridge",
        lengthBy: expect.closeTo(2),
        widthBy: expect.closeTo(2.5),
        depthBy: 0,
      }),
    ]);
  });

  it("[A-T6] poles: neck 48.62 (-0.69), middle 50.19 (+0.09), bridge 51.57 (+1.18, a warning)", () => {
    const printed = {
      neck: ["48.62", "-0.69", 0],
      middle: ["50.19", "0.09", 0],
      bridge: ["51.57", "1.18", 1],
    } as const;
    for (const [id, [spread, offset, warn]] of Object.entries(printed)) {
      expectPrinted(fig(`pickup.${id}.poles`, "spread"), spread);
      expectPrinted(fig(`pickup.${id}.poles`, "offset"), offset);
      expect(fig(`pickup.${id}.poles`, "warn"), id).toBe(warn);
    }
    expect(text(verdicts.get("pickup.bridge.poles")?.headline)).toContain("1.18 mm outside");
    // Still inside the pole's radius.
    expectPrinted(fig("pickup.bridge.poles", "poleRadius"), "2.4");
    expect(verdicts.get("pickup.bridge.poles")?.status).not.toBe("no-go");
  });
});

describe("controls", () => {
  const CONTROLS = [
    { id: "volume", need: "11.2", short: "1.7", face: "2.0", proud: "7.8" },
    { id: "treble-cut", need: "10.2", short: "0.7", face: "1.0", proud: "8.8" },
    { id: "bass-cut", need: "10.7", short: "1.2", face: "1.5", proud: "8.3" },
  ];

  it.each(CONTROLS)("[A-T7] $id: bushing needs $need, is short by $short; spot-face $face leaves 5.0", (control) => {
    const id = `control.${control.id}.bushing`;
    expect(verdicts.get(id)?.status).toBe("rework");
    expectPrinted(fig(id, "need"), control.need);
    expectPrinted(fig(id, "have"), "9.5");
    expectPrinted(fig(id, "short"), control.short);
    expectPrinted(fig(id, "spotFace"), control.face);
    expectPrinted(fig(id, "woodLeft"), "5.0");
    expectPrinted(fig(id, "alternativeProud"), control.proud);
    expect(verdicts.get(id)?.remedies.map((remedy) => remedy.then)).toEqual(["go", "go"]);
  });

  it.each(CONTROLS)("[A-T8] $id: hole from 8.0 to 9.6", (control) => {
    const id = `control.${control.id}.hole`;
    expect(verdicts.get(id)?.status).toBe("rework");
    expect(verdicts.get(id)?.work).toMatchObject([{ act: "ream", from: 8, to: expect.closeTo(9.6) }]);
  });

  it("[A-T8] tuner holes from 8.8 to 10.0", () => {
    expect(verdicts.get("tuners.hole")?.status).toBe("rework");
    expect(verdicts.get("tuners.hole")?.work).toMatchObject([{ act: "ream", count: 6, from: 8.8, to: 10 }]);
  });

  it("[A-T9] lever: slot 26.0 to 30.5, screws 2.35 apart and overlapping by 0.85 in the visible face: escutcheon", () => {
    const slot = verdicts.get("lever.slot");
    expect(slot?.status).toBe("rework");
    expectPrinted(fig("lever.slot", "slotHave"), "26.0");
    expectPrinted(fig("lever.slot", "slotNeed"), "30.5");
    expectPrinted(fig("lever.slot", "apart"), "2.35");
    expectPrinted(fig("lever.slot", "overlap"), "0.85");
    expect(text(slot?.headline)).toMatch(/visible face.*escutcheon/);
  });

  it("[A-T10] lever: 1.4 from lugs to foil, under 2.0: insulate the wall", () => {
    expect(verdicts.get("lever.width")?.status).toBe("rework");
    expectPrinted(fig("lever.width", "gap"), "1.4");
    expectPrinted(fig("lever.width", "least"), "2.0");
    expect(verdicts.get("lever.width")?.work).toMatchObject([{ act: "insulate" }]);
  });
});

describe("nut", () => {
  it("[A-T16] all six slots are to be widened, to 0.38, 0.51, 0.66, 0.96, 1.27, 1.63; wound third 0.71", () => {
    expect(verdicts.get("nut.slots")?.status).toBe("rework");
    expect(fig("nut.slots", "tooNarrow")).toBe(6);
    const printed = ["0.38", "0.51", "0.66", "0.96", "1.27", "1.63"];
    expectEachPrinted(printed, (n) => fig("nut.slots", `need${n}`));
    const wound = withValue(job, "parts.deep-six.strings.3.gauge", "0.660 mm");
    expectPrinted(figureOf(askOf(wound, "nut.slots"), "need3"), "0.71");
  });
});

describe("negative controls of the fit: go, and nothing else to do", () => {
  it("print their figures", () => {
    // Neck pickup's ears 85.0 x 14.0 in 92.0 x 15.0.
    expectPrinted(fig("pickup.neck.drop-in", "earEndsNeed"), "85.0");
    expectPrinted(fig("pickup.neck.drop-in", "earSidesNeed"), "14.0");
    expectPrinted(fig("pickup.neck.drop-in", "earEndsHave"), "92.0");
    expectPrinted(fig("pickup.neck.drop-in", "earSidesHave"), "15.0");
    // Post slot 1.8 against 1.575; lever depth 27.5 + 2 against 33.0.
    expectPrinted(fig("tuners.post", "slot"), "1.8");
    expectPrinted(fig("tuners.post", "thickest"), "1.575");
    expectPrinted(fig("lever.depth", "need"), "29.5");
    expectPrinted(fig("lever.depth", "have"), "33.0");
  });

  it.each([
    "tuners.thickness",
    "pickup.neck.drop-in",
    "pickup.middle.drop-in",
    "pickup.neck.poles",
    "pickup.middle.poles",
    "tuners.post",
    "lever.depth",
  ])("%s", (id) => {
    const verdict = verdicts.get(id);
    expect(verdict?.status).toBe("go");
    expect(verdict?.work).toEqual([]);
    expect(verdict?.missing).toEqual([]);
    expect(verdict?.remedies).toEqual([]);
  });
});
