import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { parseJob, resolveActual, type Wiring } from "../../../src/core/job/index.ts";
import { readBack } from "../../../src/core/plate/index.ts";
import { drawWiring, plateLayout, wiringPage } from "../../../src/core/wiring/index.ts";
import { writeSvg } from "../../../src/papers/index.ts";

function wiringOf(name: string): Wiring {
  const data = parse(readFileSync(new URL(`../../../examples/${name}.yaml`, import.meta.url), "utf8"));
  const { instrument } = resolveActual(parseJob(data).file, {});
  if (!instrument.wiring) throw new Error(`${name} describes no wiring`);
  return instrument.wiring;
}

/** Pads and lines of the written file: its geometry alone, with the lugs' names as a person reads them beside the pads. */
function readFile(svg: string) {
  const groups = [...svg.matchAll(/<g id="[^"]*" data-id="([^"]*)" data-role="([^"]*)"([^>]*)>(.*?)<\/g>/gs)];
  const lugs = groups.flatMap(([, id = "", role, data = "", inner = ""]) => {
    const circle = /<circle cx="([\d.]+)" cy="([\d.]+)" r="([\d.]+)"/.exec(inner);
    if (role !== "lug" || !circle) return [];
    const [, x, y, r] = circle.map(Number);
    return [{ id, lug: /data-lug="([^"]*)"/.exec(data)?.[1] ?? "", at: { x: x ?? 0, y: y ?? 0 }, radiusMm: r ?? 0 }];
  });
  const lines = groups.flatMap(([, , role, , inner = ""]) => {
    const path = /<path d="([^"]*)"/.exec(inner)?.[1];
    if ((role !== "wire" && role !== "ground wire") || !path) return [];
    return [[...path.matchAll(/[ML]([\d.]+) ([\d.]+)/g)].map(([, x, y]) => ({ x: Number(x), y: Number(y) }))];
  });
  return { lugs, lines };
}

/** Each wire as its two lugs, in one order. */
const pair = (a: string, b: string) => [a, b].sort().join(" – ");

// Best found at twice the effort where a crossing is worth 150 mm of wire; no bound is proved. Lines that go a third longer
// come down to 14 and 4, and nobody can follow them.
const BEST_CROSSINGS = { lowtide: 22, ferry: 6 } as const;

describe.each(["lowtide", "ferry"] as const)("the control plate of %s", (name) => {
  const wiring = wiringOf(name);
  const picture = drawWiring(wiring);
  const svg = writeSvg(wiringPage(wiring, name));

  it("has a way for every wire", () => {
    expect(picture.routed.refused).toEqual([]);
    expect(picture.routed.wires).toHaveLength(wiring.wires.length);
  });

  it("is read back from the file's geometry as the wiring that was drawn, without a doubt", () => {
    const { lugs, lines } = readFile(svg);
    const read = readBack(lines, lugs);
    expect(read.doubts).toEqual([]);
    const lugOf = (id: string) => lugs.find((lug) => lug.id === id)?.lug ?? id;
    const joined = read.joined.map(({ lugs: [from, to] }) => pair(lugOf(from), lugOf(to)));
    expect(joined.sort()).toEqual(wiring.wires.map(({ from, to }) => pair(from, to)).sort());
  });

  it("is read otherwise where a wire is drawn to another lug", () => {
    const { lugs, lines } = readFile(svg);
    const [first] = lines;
    // Ends of two wires that meet on no pad change places.
    const end = first?.at(-1);
    const other = lines.find(
      (line) =>
        line !== first && Math.hypot((line.at(-1)?.x ?? 0) - (end?.x ?? 0), (line.at(-1)?.y ?? 0) - (end?.y ?? 0)) > 20,
    );
    const there = other?.at(-1);
    if (!first || !there) throw new Error("too few wires");
    const moved = lines.map((line) => (line === first ? [...line.slice(0, -1), there] : line));
    const read = readBack(moved, lugs);
    const lugOf = (id: string) => lugs.find((lug) => lug.id === id)?.lug ?? id;
    const joined = read.joined.map(({ lugs: [from, to] }) => pair(lugOf(from), lugOf(to)));
    expect(joined.sort()).not.toEqual(wiring.wires.map(({ from, to }) => pair(from, to)).sort());
  });

  it("crosses no more than a tenth above the best known", () => {
    expect(picture.routed.crossings).toBeLessThanOrEqual(Math.ceil(1.1 * BEST_CROSSINGS[name]));
  });

  it("labels every wire with its number, and its letters where a colour is said", () => {
    const labels = picture.groups.flatMap(({ role, marks }) =>
      role === "label" ? marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : [])) : [],
    );
    expect(labels).toHaveLength(wiring.wires.length);
    expect(new Set(labels.map((label) => label.split(" ")[0])).size).toBe(wiring.wires.length);
    const coloured = wiring.wires.filter(({ colour }) => colour !== "" && colour !== "own lead");
    expect(labels.filter((label) => / [A-Z]{2}$/.test(label))).toHaveLength(coloured.length);
  });

  it("keeps the names of the devices clear of wires", () => {
    const boxes = picture.groups
      .filter(({ role }) => role === "device")
      .flatMap(({ marks }) => marks.flatMap((mark) => (mark.kind === "text" && mark.turnDegrees === 0 ? [mark] : [])));
    for (const { at, text, heightMm } of boxes)
      for (const { points, id, from, to } of picture.routed.wires)
        for (const [index, end] of points.slice(1).entries()) {
          const start = points[index];
          if (!start || text.includes("→")) continue;
          const [left, right] = [Math.min(start.x, end.x), Math.max(start.x, end.x)];
          const [top, bottom] = [Math.min(start.y, end.y), Math.max(start.y, end.y)];
          const half = 0.4 * heightMm * text.length;
          const over =
            left < at.right + half && right > at.right - half && top < at.down && bottom > at.down - heightMm;
          expect(over, `${id} (${from} to ${to}) over "${text}"`).toBe(false);
        }
  });

  it("stands at 1:1 on an upright A4", () => {
    expect(picture.widthMm).toBeLessThanOrEqual(180);
    expect(picture.heightMm).toBeLessThanOrEqual(215);
  });
});

describe("the signal of a state", () => {
  it("is drawn wider along its way, and nothing else is", () => {
    const wide = drawWiring(wiringOf("lowtide"), "4").groups.flatMap(({ id, marks }) =>
      marks.some((mark) => mark.kind === "path" && (mark.stroke?.widthMm ?? 0) > 1) ? [id] : [],
    );
    // Eddy to the tip by p2, and to the sleeve by the volume's case.
    expect(wide.sort()).toEqual(
      [
        "wire-jack-ground",
        "wire-middle-2-4",
        "wire-middle-ground",
        "wire-middle-hot",
        "wire-out-1-2",
        "wire-to-bass",
        "wire-to-jack",
        "wire-to-volume",
      ].sort(),
    );
  });
});

describe("places that the owner gives", () => {
  it("are kept, from the middle of the plate", () => {
    const data = parse(readFileSync(new URL("../../../examples/ferry.yaml", import.meta.url), "utf8"));
    data.wiring.places = { jack: { right: 60, up: -20 } };
    const { instrument } = resolveActual(parseJob(data).file, {});
    const layout = plateLayout(instrument.wiring as Wiring);
    const jack = layout.devices.find(({ device }) => device.id === "jack");
    expect(jack?.at.x).toBeCloseTo(layout.widthMm / 2 + 60, 9);
    expect(jack?.at.y).toBeCloseTo(layout.heightMm / 2 + 20, 9);
  });
});
