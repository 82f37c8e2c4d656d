import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { layOut, line, makeScene, type Scene, sceneFigure } from "../../src/core/drawing/index.ts";
import { installedFonts } from "../../src/papers/font-node.ts";
import { textMeasure, writeSvg } from "../../src/papers/index.ts";
import { numberOf, referenceCase } from "../reference/papers/cases.ts";
import { bridgeScene, bridgeSheet, guardSheet } from "./demo.ts";
import { anyScene } from "./random-scenes.ts";

const measure = textMeasure(installedFonts());

interface Group {
  readonly attributes: ReadonlyMap<string, string>;
  readonly body: string;
}

/** Groups of the drawing by a small reader of the XML that we write: flat groups, no nesting. */
function groups(svg: string): Group[] {
  return [...svg.matchAll(/<g ([^>]*)>(.*?)<\/g>/gs)].map(([, head = "", body = ""]) => ({
    attributes: attributes(head),
    body,
  }));
}

function attributes(head: string): Map<string, string> {
  return new Map([...head.matchAll(/([\w-]+)="([^"]*)"/g)].map(([, key = "", value = ""]) => [key, value]));
}

function circles(body: string): { x: number; y: number; rx: number; ry: number; width: string | undefined }[] {
  return [...body.matchAll(/<(?:circle|ellipse) ([^>]*)\/>/g)].map(([, head = ""]) => {
    const own = attributes(head);
    const number = (key: string) => Number(own.get(key));
    return {
      x: number("cx"),
      y: number("cy"),
      rx: own.has("r") ? number("r") : number("rx"),
      ry: own.has("r") ? number("r") : number("ry"),
      width: own.get("stroke-width"),
    };
  });
}

/** Holes as drawn, from the datum's centre, in page directions turned back into the frame. */
function expectHoles(svg: string, scene: Scene, factors = { across: 1, down: 1 }): void {
  const all = groups(svg);
  const [datum] = circles(all.find(({ attributes: own }) => own.get("data-role") === "datum")?.body ?? "");
  if (datum === undefined) throw new Error("no datum");
  const side = scene.view === "front" ? 1 : -1;
  for (const { geometry, id } of scene.items) {
    if (geometry.kind !== "hole") continue;
    const group = all.find(({ attributes: own }) => own.get("data-id") === id);
    const edge = circles(group?.body ?? "").find(
      ({ rx }) => Math.abs(rx / factors.across - geometry.diameterMm / 2) < 0.002,
    );
    if (edge === undefined) throw new Error(`no circle for ${id}`);
    // Head up: x runs down the page, y across it.
    expect(Math.abs((edge.y - datum.y) / factors.down - (geometry.centre.x - scene.datum.at.x))).toBeLessThan(0.01);
    expect(
      Math.abs(((edge.x - datum.x) / factors.across) * side - (geometry.centre.y - scene.datum.at.y)),
    ).toBeLessThan(0.01);
    expect(Math.abs(edge.ry / factors.down - geometry.diameterMm / 2)).toBeLessThan(0.002);
    expect(group?.attributes.get("data-datum")).toBe(geometry.datum.replace("'", "&#39;"));
    expect(group?.attributes.get("data-depth-mm")).toBe(String(geometry.depthMm));
  }
}

describe("[PA16] writeSvg", () => {
  it("is as large as its paper in mm, with a view box in mm", () => {
    const [page] = layOut([bridgeSheet()], { measure });
    if (page === undefined) throw new Error("no page");
    const head = attributes(/<svg ([^>]*)>/.exec(writeSvg(page))?.[1] ?? "");
    expect([head.get("width"), head.get("height"), head.get("viewBox")]).toEqual(["210mm", "297mm", "0 0 210 297"]);
    // CSS: 96 px to the inch, so the browser shows these sizes.
    const px = (mm: number) => (mm * numberOf(referenceCase("svg-px-inch"), "px")) / 25.4;
    const a4 = referenceCase("svg-a4-px");
    expect(Math.abs(px(Number.parseFloat(head.get("width") ?? "")) - numberOf(a4, "w_px"))).toBeLessThan(
      a4.tolerance ?? 0,
    );
    expect(Math.abs(px(Number.parseFloat(head.get("height") ?? "")) - numberOf(a4, "h_px"))).toBeLessThan(
      a4.tolerance ?? 0,
    );
    const bar = referenceCase("svg-100mm");
    expect(Math.abs(px(100) - numberOf(bar, "px"))).toBeLessThan(bar.tolerance ?? 0);
  });

  it("holds the numbers of any scene to 0.01 mm, from either side", () => {
    fc.assert(
      fc.property(anyScene, (scene) => {
        expectHoles(writeSvg(sceneFigure(scene, { measure })), scene);
      }),
      { seed: 51, numRuns: 25 },
    );
  });

  it("draws corrected sheets as ellipses of the right size", () => {
    const sheet = bridgeSheet({ printFactors: { sx: 1.02, sy: 0.99 } });
    const [page] = layOut([sheet], { measure });
    if (page === undefined) throw new Error("no page");
    const svg = writeSvg(page);
    expect(svg).toContain("<ellipse");
    expectHoles(svg, sheet.scene, { across: 1.02, down: 0.99 });
  });

  it("names every thing once, with its role, for machines and for ears", () => {
    for (const page of layOut([bridgeSheet(), guardSheet()], { measure })) {
      const svg = writeSvg(page);
      const ids = [...svg.matchAll(/ id="([^"]*)"/g)].map(([, id = ""]) => id);
      expect(new Set(ids).size).toBe(ids.length);
      for (const id of ids) expect(id).toMatch(/^[A-Za-z_][\w.-]*$/);
      for (const { attributes: own } of groups(svg)) expect(own.get("data-role")).toBeTruthy();
      expect(svg).toMatch(/^<svg [^>]*role="img" aria-labelledby="([^ ]+) ([^"]+)"/);
      expect(svg).toMatch(/<title id="[^"]+">[^<]+<\/title>\n<desc id="[^"]+">[^<]+<\/desc>/);
    }
    const figure = writeSvg(sceneFigure(bridgeScene(), { measure }), { idPrefix: "main-" });
    expect(figure).toContain("<title>H1: hole to drill, ⌀ 2.80 mm, 26.00 mm deep from body top</title>");
    expect(figure).toContain('id="main-screw_1"');
  });

  it("lets no text out of its element", () => {
    const [first, ...rest] = bridgeScene().items;
    if (first === undefined) throw new Error("empty");
    const scene = makeScene({
      ...bridgeScene(),
      title: '</title><script>alert("x")</script>',
      items: [...rest, line("note", 'a"><b', { x: 200, y: 0 }, { x: 220, y: 0 }, `<&>"'`)],
    });
    const svg = writeSvg(sceneFigure(scene, { measure }));
    expect(svg).not.toMatch(/<script|<b\b/);
    expect(svg).toMatch(/<text[^>]*>&lt;&amp;&gt;&quot;&#39;<\/text>/);
    // Every tag that opens closes: what is left after removing pairs and empty elements is no tag.
    const tags = [...svg.matchAll(/<(\/?)([a-zA-Z]+)([^>]*)>/g)];
    const open: string[] = [];
    for (const [, slash, name = "", rest2 = ""] of tags) {
      if (slash) expect(open.pop()).toBe(name);
      else if (!rest2.endsWith("/")) open.push(name);
    }
    expect(open).toEqual([]);
  });

  it("leaves ink and paper to the page that shows it", () => {
    const svg = writeSvg(sceneFigure(bridgeScene(), { measure }));
    const inks = [...svg.matchAll(/ (?:stroke|fill)="([^"]*)"/g)].map(([, ink]) => ink);
    expect(new Set(inks)).toEqual(new Set(["currentColor", "none", "#fff"]));
    for (const [element] of svg.matchAll(/<[^>]*fill="#fff"[^>]*>/g)) expect(element).toContain('class="paper"');
  });
});
