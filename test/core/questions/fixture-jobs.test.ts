import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { loadJob } from "../../../src/core/index.ts";
import { toolNamed } from "../../../src/core/quantity/index.ts";
import { howToMeasure } from "../../../src/core/questions/index.ts";
import {
  askOf,
  figureOf,
  fixture,
  placementOf,
  text,
  verdictsOf,
  wholeText,
  withoutReading,
  withReading,
  withValue,
} from "./jobs.ts";

const CENT = Math.LN2 / 1200;

describe("every fixture job", () => {
  const names = readdirSync("test/fixtures/jobs").map((file) => file.replace(/\.yaml$/, ""));

  it.each(names)("%s: is assessed, and every verdict has what its status promises", (name) => {
    const verdicts = verdictsOf(fixture(name));
    for (const [id, verdict] of verdicts) {
      expect(text(verdict.headline).length, id).toBeGreaterThan(10);
      expect(wholeText(verdict), id).not.toMatch(/NaN|undefined|Infinity/);
      for (const value of Object.values(verdict.figures)) expect(Number.isFinite(value), id).toBe(true);
      if (verdict.status === "measure") expect(verdict.missing.length + (verdict.next ? 1 : 0), id).toBeGreaterThan(0);
      if (verdict.probability !== undefined)
        expect(verdict.probability >= 0 && verdict.probability <= 1, id).toBe(true);
    }
  });

  it.each(names.filter((name) => name !== "nearly-nothing"))("%s: has a place for every piece", (name) => {
    const { pieces } = placementOf(loadJob(fixture(name)).instrument);
    expect(pieces.length).toBeGreaterThan(0);
    for (const piece of pieces) expect(piece.pose, piece.piece.id).toBeDefined();
  });
});

describe("nine-string-plate", () => {
  const verdicts = verdictsOf(fixture("nine-string-plate"));

  it("has the window of nine saddles that travel 10 to 20", () => {
    // Setbacks c L ln 2 / 1200 with c 4 to 10 cents on 711: the widest apart bind.
    const shortest = 4 * 711 * CENT;
    const longest = 10 * 711 * CENT;
    expect(figureOf(verdicts.get("bridge.window"), "maxMm")).toBeCloseTo(195 + shortest - 10.5, 9);
    expect(figureOf(verdicts.get("bridge.window"), "minMm")).toBeCloseTo(195 + longest - 19.5, 9);
    expect(verdicts.get("bridge.window")?.status).toBe("go");
  });

  it("stands nearest to the middle of it, clear of the old pair", () => {
    // Middle 195 + 7 · 711 CENT - 15 = 182.87; old holes at u 232, y ±30 straight behind the outer screws at place + 38.
    const place = figureOf(verdicts.get("bridge.place"), "placeMm");
    expect(Math.abs(place - (195 + 7 * 711 * CENT - 15))).toBeLessThanOrEqual(0.0501);
    expect(verdicts.get("bridge.place")?.status).toBe("go");
    expect(figureOf(verdicts.get("bridge.holes"), "leastWallMm")).toBeCloseTo(232 - (place + 38) - 3, 9);
    expect(verdicts.get("bridge.holes")?.status).toBe("go");
  });
});

describe("bass-channel", () => {
  const job = fixture("bass-channel");
  const verdicts = verdictsOf(job);
  const place = verdicts.get("bridge.place");

  it("would run the front row into the wire's channel at the place first thought of", () => {
    // The row at 251.2 + 47 = 298.2 stands right over the channel: wall 0 - 3.5/2 - 3.0/2.
    for (const n of [1, 2, 3])
      expect(figureOf(verdicts.get("bridge.holes"), `wishWall bridge-screws#${n}`)).toBeCloseTo(-3.25, 6);
    expect(wholeText(place)).toMatch(/first thought of, 851\.2 mm from the nut, leaves walls down to -3\.25 mm/);
  });

  it("goes where wall beyond 1.5 and travel beyond the reserve are best shared", () => {
    // Window 264 + 4.0 - 23.5 = 244.5 to 264 + 2.0 - 8.5 = 257.5. Toward the neck by d from 251.2: wall d - 3.25 - 1.5,
    // travel 6.7 - d: alike at d = 5.725, and of the tenths 5.7 has the greater least, 0.95.
    expect(figureOf(place, "windowMinMm")).toBeCloseTo(244.5, 9);
    expect(figureOf(place, "windowMaxMm")).toBeCloseTo(257.5, 9);
    expect(figureOf(place, "placeMm")).toBeCloseTo(245.5, 9);
    expect(figureOf(verdicts.get("bridge.holes"), "leastWallMm")).toBeCloseTo(5.7 - 3.25, 6);
    expect(text(verdicts.get("bridge.holes")?.headline)).toMatch(/to the wire channel ground/);
    expect(verdicts.get("bridge.holes")?.work.some((work) => work.act === "plug")).toBe(false);
  });

  it("counts a bit that wanders into the channel", () => {
    // By hand drill (0.45): travel 1.0 and wall 0.95 away; with no channel only the travel is left to lose.
    const byHand = withValue(job, "settings.drilling", "hand drill");
    const free = withValue(withValue(byHand, "instrument.body.channels", undefined), "fit.bridge.u", 245.5);
    const near = askOf(byHand, "bridge.place").probability ?? 1;
    const clear = askOf(free, "bridge.place").probability ?? 0;
    expect(figureOf(askOf(free, "bridge.place"), "placeMm")).toBe(245.5);
    // P(z > -0.95/0.45) is 0.983; what the channel costs lies near that.
    expect(clear - near).toBeGreaterThan(0.01);
    expect(clear - near).toBeLessThan(0.03);
  });

  it("reckons heights on the compound radius", () => {
    // R(x) = 241 + 160 x/600; string 4 runs from y -15 to -28.5; plane 12.0; relief 0.3 over 505.
    const drop = (radius: number, y: number) => radius - Math.sqrt(radius * radius - y * y);
    const contact = 864 + 4.0;
    const y12 = -15 + (-28.5 + 15) * (432 / contact);
    const zNut = 12 + 4 * 0.3 - drop(241, 15) + 0.6;
    const z12 = 12 + 4 * 0.3 * (1 - 432 / 505) ** 2 - drop(241 + (160 * 432) / 600, y12) + 2.3;
    expect(figureOf(verdicts.get("bridge.height"), "needed4Mm")).toBeCloseTo(zNut + ((z12 - zNut) * contact) / 432, 9);
    expect(verdicts.get("bridge.height")?.status).toBe("go");
  });
});

describe("glued-neck", () => {
  const job = fixture("glued-neck");
  const verdicts = verdictsOf(job);

  it("tells the line from fret 12, and every place from the nut", () => {
    expect(figureOf(verdicts.get("scale.line"), "scaleLineMm")).toBe(628);
    expect(text(verdicts.get("scale.line")?.headline)).toMatch(/from the nut, half the scale beyond fret 12/);
    // 628 + 3.3 - 18.5 and 628 + 1.5 - 9.5.
    expect(figureOf(verdicts.get("bridge.window"), "minMm")).toBeCloseTo(612.8, 9);
    expect(figureOf(verdicts.get("bridge.window"), "maxMm")).toBeCloseTo(620.0, 9);
    const place = verdicts.get("bridge.place");
    expect(figureOf(place, "xMm")).toBe(figureOf(place, "placeMm"));
    for (const verdict of verdicts.values()) expect(wholeText(verdict)).not.toMatch(/end wall|bolted/);
  });

  it("meets the old row where it stands, 680 from the nut", () => {
    const place = figureOf(verdicts.get("bridge.place"), "placeMm");
    expect(figureOf(verdicts.get("bridge.holes"), "wall bridge-screws#3")).toBeCloseTo(680 - (place + 34) - 3, 9);
  });

  it("offers no shim though the saddles bottom out, and says what to buy", () => {
    const height = verdicts.get("bridge.height");
    expect(height?.status).toBe("no-go");
    expect(height?.work).toEqual([]);
    expect(height?.remedies.map((remedy) => remedy.id)).toEqual(["another-bridge"]);
    const bolted = withValue(withValue(job, "instrument.neck.boltOn", true), "instrument.body.endWallX", 510);
    expect(askOf(bolted, "bridge.height").work).toMatchObject([{ act: "shim" }]);
  });

  it("does not reckon the winding with a shim either", () => {
    // Contact of string 1 at x 629.5 and its needed height; ball stop 42 behind the front edge at z 4.
    const z = figureOf(verdicts.get("bridge.height"), "needed1Mm");
    const place = figureOf(verdicts.get("bridge.place"), "placeMm");
    const past = 700 - 629.5 - Math.hypot(place + 42 - 629.5, z - 4);
    expect(figureOf(verdicts.get("strings.winding"), "topMostMm")).toBeGreaterThanOrEqual(past - 1e-9);
    expect(figureOf(verdicts.get("strings.winding"), "topLeastMm")).toBeLessThanOrEqual(past + 1e-9);
  });
});

describe("saddles near or beyond the ends of their screws", () => {
  const job = fixture("slanted-pickup");
  const needed = [1, 2, 3, 4, 5, 6].map((n) => figureOf(askOf(job, "bridge.height"), `needed${n}Mm`));
  const range = (lowest: number, highest: number) =>
    askOf(withValue(withValue(job, "parts.groyne.lowest", lowest), "parts.groyne.highest", highest), "bridge.height");

  it("are not called short where only the reserve is eaten into", () => {
    const lowest = Number(((needed[0] ?? 0) - 0.2).toFixed(2));
    const near = range(lowest, 16);
    expect(near.status).toBe("rework");
    expect(text(near.headline)).toMatch(/Too near the end of the saddles' screws: string 1 .* 0\.5 mm is to stay free/);
    expect(wholeText(near)).not.toMatch(/short by/);
  });

  it("too high: the shim is thick at the pocket's mouth, and is not handed on as one that is thick at the heel", () => {
    const highest = Number((Math.max(...needed) - 0.3).toFixed(2));
    const high = range(6, highest);
    expect(high.status).toBe("rework");
    expect(high.work).toEqual([{ act: "choose", what: expect.stringMatching(/thick at the pocket's mouth/) }]);
    // Heel's end 468 from the nut, pocket 76 long, contacts at 650: down by 182/76 of the thickness.
    const take = figureOf(high, "shimTakeMm");
    for (const [index, z] of needed.entries())
      expect(figureOf(high, `withShim${index + 1}Mm`)).toBeCloseTo(z - (take * 182) / 76, 6);
    expect(high.probability).toBeGreaterThan(0.5);
  });
});

describe("printed-scale", () => {
  const job = fixture("printed-scale");
  const verdicts = verdictsOf(job);

  it("takes the line as assumed, and asks for fret 12", () => {
    const line = verdicts.get("scale.line");
    expect(line?.status).toBe("measure");
    expect(line?.next).toMatchObject({ path: "neck.nutToFret12", tool: "steel rule" });
    expect(figureOf(line, "scaleLineMm")).toBe(264);
    // A printed length is good to 0.5, the neck's length by rule to 0.25, the heel pushed home to 0.3.
    expect(figureOf(line, "uMm")).toBeCloseTo(Math.hypot(0.5, 0.25, 0.3), 9);
  });

  it("does not let the place go, however wide the window", () => {
    const place = verdicts.get("bridge.place");
    expect(place?.probability).toBeGreaterThan(0.99);
    expect(place?.status).toBe("measure");
    expect(place?.next).toMatchObject({ path: "scaleLine.u", tool: "transfer" });
  });

  it("goes once fret 12 is read, or the line carried over", () => {
    const read = withReading(job, { id: "nut-12", of: "neck.nutToFret12", value: "432.0 mm (rule)" });
    expect(askOf(read, "scale.line").status).toBe("go");
    expect(askOf(read, "bridge.place").status).toBe("go");
    const carried = withReading(job, { id: "line", of: "scaleLine.u", value: "264.0 mm (transfer)" });
    expect(askOf(carried, "bridge.place").status).toBe("go");
  });

  it("does not take u from an end wall for u from the nut", () => {
    // A hole is placed from the end wall, and nothing ties the end wall to the nut: no line at 864 behind it.
    const untied = withoutReading(
      withValue(withValue(job, "instrument.neck.nutToHeelEnd", undefined), "instrument.neck.straightedge", undefined),
      "relief",
    );
    const holed = withValue(untied, "instrument.body.holes", {
      old: { purpose: "screw", u: 300, y: 0, diameter: 3, depth: 20 },
    });
    expect(askOf(holed, "scale.line").status).toBe("measure");
    expect(askOf(holed, "scale.line").missing.map(({ path }) => path)).toContain("neck.fret12ToHeelEnd");
    // With nothing placed from it, all counts from the nut.
    expect(figureOf(askOf(untied, "scale.line"), "scaleLineMm")).toBe(864);
  });
});

describe("nearly-nothing", () => {
  const verdicts = verdictsOf(fixture("nearly-nothing"));

  it("answers measure wherever a value is missing, with tool, place and method, at most six at first", () => {
    const asked = [...verdicts.values()].filter((verdict) => verdict.status === "measure");
    expect(asked.map((verdict) => verdict.id)).toEqual(
      expect.arrayContaining([
        "scale.line",
        "bridge.window",
        "bridge.place",
        "bridge.holes",
        "bridge.string-holes",
        "bridge.depth",
        "bridge.height",
        "bridge.cover",
        "strings.change",
      ]),
    );
    for (const { id, missing, next } of asked) {
      expect(missing.length, id).toBeGreaterThan(0);
      expect(missing.length, id).toBeLessThanOrEqual(6);
      expect(next, id).toEqual(missing[0]);
      for (const reading of missing) {
        expect(reading.how.length, `${id}: ${reading.path}`).toBeGreaterThan(10);
        expect(reading.what, id).not.toContain(".");
        expect(reading.minutes, id).toBeGreaterThan(0);
        expect(reading.settles.length, id).toBeGreaterThan(5);
      }
    }
  });

  it("never says go of what needs a measure", () => {
    const going = [...verdicts.values()].filter((verdict) => verdict.status === "go").map((verdict) => verdict.id);
    // How a sheet lies is told whatever is known.
    expect(going.filter((id) => id.startsWith("bridge") || id.startsWith("scale"))).toEqual([]);
    expect(wholeText(verdicts.get("sheet.side"))).toMatch(/not known yet/);
  });

  it("knows a tool by name for every value that a rule, calliper or feeler reads", () => {
    for (const path of [
      "neck.nutToFret12",
      "body.channels.ground.from.u",
      "parts.x.saddles[0].from",
      "body.tailEdge",
      "scaleLine.u",
      "parts.x.tailpiece.distance",
    ]) {
      expect(toolNamed(howToMeasure(path).tool), path).toBeDefined();
    }
  });
});

describe("slanted-pickup", () => {
  const job = fixture("slanted-pickup");
  const verdicts = verdictsOf(job);

  it("drops in as it would square: 70 x 18 in 72 x 20, ears 86 x 8 in 88 x 10", () => {
    const fits = verdicts.get("pickup.slanted.drop-in");
    expect(fits?.status).toBe("go");
    for (const gap of ["bodyEndsGap", "bodySidesGap", "earEndsGap", "earSidesGap"]) {
      expect(figureOf(fits, gap)).toBeCloseTo(1, 6);
    }
  });

  it("has its poles reckoned along the slant", () => {
    // The line lies at u 180 for x 648; contacts at x 650 and y ±26.25, nut ±18: y = ±(18 + 8.25 x/650). Along the
    // pickup's line x = 608 + y tan 8°, so y1 = A / (1 - B), y6 = -A / (1 + B), spread (y1 - y6) / cos 8°.
    const tan = Math.tan((8 * Math.PI) / 180);
    const a = 18 + (8.25 * 608) / 650;
    const b = (8.25 * tan) / 650;
    const spread = (a / (1 - b) + a / (1 + b)) / Math.cos((8 * Math.PI) / 180);
    expect(figureOf(verdicts.get("pickup.slanted.poles"), "spread")).toBeCloseTo(spread, 5);
    expect(figureOf(verdicts.get("pickup.slanted.poles"), "offset")).toBeCloseTo((spread - 52) / 2, 5);
    // Square, the strings would lie nearer together.
    const square = askOf(withValue(job, "instrument.body.cavities.slanted.angle", "0°"), "pickup.slanted.poles");
    expect(figureOf(square, "spread")).toBeCloseTo(2 * a, 5);
  });

  it("keeps the new screws from the slanted rout: the wall to its rear side, on the y > 0 end", () => {
    // Ears 88 x 10 turned by 8°, so that the y > 0 end lies toward the tail: the rear side of that end runs through
    // (140 + 44 sin 8° + 5 cos 8°, 44 cos 8° - 5 sin 8°), and the nearest screw stands at (place + 34, 21).
    const place = figureOf(verdicts.get("bridge.place"), "placeMm");
    const [sin, cos] = [Math.sin((8 * Math.PI) / 180), Math.cos((8 * Math.PI) / 180)];
    const body = { u: place + 34 - 140, y: 21 };
    // Body part 72 x 20 reaches further back at y 21 than the ears do: its rear side lies 10 behind the middle line.
    const behind = body.u * cos - body.y * sin - 10;
    expect(figureOf(verdicts.get("bridge.holes"), "wall bridge-screws#5")).toBeCloseTo(behind - 1.5, 6);
    expect(verdicts.get("bridge.holes")?.status).toBe("go");
  });
});
