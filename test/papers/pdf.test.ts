import { deflateSync, inflateSync as inflate } from "node:zlib";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type DrawingSheet, layOut, type Mark, type Page, type Scene } from "../../src/core/drawing/index.ts";
import { installedFonts } from "../../src/papers/font-node.ts";
import { printPdf, textMeasure, writePdf } from "../../src/papers/index.ts";
import { numberOf, referenceCase } from "../reference/papers/cases.ts";
import { bridgeScene, bridgeSheet, guardSheet, traveller } from "./demo.ts";
import { mirrored } from "./mirror.ts";
import { readPdf } from "./pdf-content.ts";
import { anyScene } from "./random-scenes.ts";
import { recoverSheets } from "./recover-pdf.ts";

const fonts = installedFonts();
const measure = textMeasure(fonts);
const options = { fonts, created: new Date("2026-03-14T09:00:00Z"), title: "Test" };

/** Every hole of the scene against what the bytes say. */
function expectHoles(bytes: Uint8Array, scene: Scene): void {
  const sheet = recoverSheets(bytes);
  expect(sheet.complaints).toEqual([]);
  for (const { geometry, mark } of scene.items) {
    if (geometry.kind !== "hole") continue;
    const found = sheet.holes.find((one) => one.mark === mark);
    if (found === undefined) throw new Error(`${mark} is missing`);
    expect(Math.abs(found.x - (geometry.centre.x - scene.datum.at.x)), `${mark} x`).toBeLessThan(0.01);
    expect(Math.abs(found.y - (geometry.centre.y - scene.datum.at.y)), `${mark} y`).toBeLessThan(0.01);
    expect(Math.abs(found.diameterMm - geometry.diameterMm), `${mark} diameter`).toBeLessThan(0.01);
    if (typeof geometry.depthMm !== "number") expect(found.depth).toBe(geometry.depthMm);
    else expect(Math.abs(Number(found.depth) - geometry.depthMm), `${mark} depth`).toBeLessThan(0.01);
    expect(found.datum).toBe(geometry.datum);
  }
}

describe("[PA13] writePdf, read back from its bytes", () => {
  it("keeps every hole of any scene to 0.01 mm, either side, either hand, corrected or not", async () => {
    const factor = fc.double({ min: 0.97, max: 1.03, noNaN: true });
    await fc.assert(
      fc.asyncProperty(
        anyScene,
        fc.option(fc.record({ sx: factor, sy: factor }), { nil: undefined }),
        fc.constantFrom<DrawingSheet["paper"]>("A4", "Letter"),
        async (scene, printFactors, paper) => {
          const sheet = bridgeSheet({ scene, paper, ...(printFactors ? { printFactors } : {}) });
          const pages = layOut([sheet], { measure });
          expectHoles(await writePdf(pages, options), scene);
        },
      ),
      { seed: 31, numRuns: 15 },
    );
  });

  it("keeps the demonstration templates, table beside the drawing, and names the strings' sides", async () => {
    for (const view of ["front", "behind"] as const) {
      const scene = bridgeScene(view);
      const bytes = await printPdf([bridgeSheet({ scene })], options);
      expectHoles(bytes, scene);
      const { strings, statement } = recoverSheets(bytes);
      // Left-handed: the thickest string at y +28.5, whichever side is looked at.
      // A label is found at its start, half its width (2.4 mm) off its string.
      expect(Math.abs((strings.get(4) ?? 0) - 28.5)).toBeLessThan(3);
      expect(statement).toBe(
        view === "front"
          ? "seen from the front, head up, bass side right (y > 0)"
          : "SEEN FROM BEHIND, head up, bass side left (y > 0)",
      );
    }
  });

  it("[PA11] joins tiles by their crosses and finds every hole of a drawing larger than its paper", async () => {
    const sheet = guardSheet();
    const bytes = await printPdf([sheet], options);
    const drawn = readPdf(bytes).pages.filter(({ written }) => written.some(({ text }) => text === "PRINT CHECK"));
    expect(drawn).toHaveLength(4);
    expectHoles(bytes, sheet.scene);
  });

  it("[PA10] draws a corrected sheet larger by its factors and says so", async () => {
    const bytes = await printPdf([bridgeSheet({ printFactors: { sx: 1.0309, sy: 1.0204 } })], options);
    const { corrected, scale } = recoverSheets(bytes);
    expect(corrected).toEqual({ across: 1.0309, down: 1.0204 });
    expect(scale.across).toBeCloseTo(1, 4);
    expectHoles(bytes, bridgeScene());
  });

  it("has exact boxes at user unit 1, the fonts inside, and asks not to be scaled", async () => {
    const bytes = await printPdf([bridgeSheet(), bridgeSheet({ id: "second", paper: "Letter" })], options);
    const file = readPdf(bytes);
    const inPoints = (mm: number) => (mm * 72) / 25.4;
    const [a4, letter] = [referenceCase("a4-points"), referenceCase("letter-points")];
    const page = (paper: number) => file.pages.find(({ widthMm }) => Math.abs(inPoints(widthMm) - paper) < 1e-3);
    expect(Math.abs(inPoints(page(numberOf(a4, "w_pt"))?.heightMm ?? 0) - numberOf(a4, "h_pt"))).toBeLessThan(
      a4.tolerance ?? 0,
    );
    expect(inPoints(page(numberOf(letter, "w_pt"))?.heightMm ?? 0)).toBeCloseTo(numberOf(letter, "h_pt"), 5);
    expect(file.pages.every(({ userUnit }) => userUnit === 1)).toBe(true);
    expect(file.printScaling).toBe("None");
    expect(file.fontNames.map((name) => name.replace(/^[A-Z]{6}\+/, "")).sort()).toEqual([
      "DejaVuSans",
      "DejaVuSans-Bold",
    ]);
    expect(file.pages[0]?.widthMm).toBeLessThan(numberOf(referenceCase("pdf-max-page"), "max_in") * 25.4);
  });

  it("writes 100 mm as the published number of points", async () => {
    const mark: Mark = {
      kind: "path",
      path: [
        { to: "move", at: { right: 20, down: 50 } },
        { to: "line", at: { right: 120, down: 50 } },
      ],
      stroke: { widthMm: 0.5, dashMm: [] },
    };
    const page: Page = {
      id: "p",
      widthMm: 210,
      heightMm: 297,
      factors: { across: 1, down: 1 },
      title: "t",
      description: "d",
      groups: [{ id: "bar", role: "note", marks: [mark] }],
    };
    const [bar] = readPdf(await writePdf([page], options)).pages[0]?.painted ?? [];
    const [a, b] = bar?.subpaths[0]?.points ?? [];
    const one = referenceCase("pdf-mm");
    expect(Math.abs((((b?.x ?? 0) - (a?.x ?? 0)) * 72) / 25.4 - numberOf(one, "pt"))).toBeLessThan(one.tolerance ?? 0);
    expect(bar?.widthMm).toBeCloseTo(0.5, 6);
  });

  it("is the same bytes for the same sheets and date", async () => {
    const documents = [bridgeSheet(), traveller()];
    const [one, two] = [await printPdf(documents, options), await printPdf(documents, options)];
    expect(Buffer.compare(Buffer.from(one), Buffer.from(two))).toBe(0);
    expect(readPdf(one).info).toMatchObject({ Title: "Test", CreationDate: "D:20260314090000Z" });
  });

  it("shows no sign that the font lacks", async () => {
    const written = readPdf(await printPdf([bridgeSheet(), traveller()], options)).pages.flatMap(
      (page) => page.written,
    );
    expect(written.length).toBeGreaterThan(300);
    expect(written.filter(({ text }) => /[\ufffd\0]/.test(text))).toEqual([]);
    const said = written.map(({ text }) => text).join(" ");
    for (const sign of ["⌀", "−", "·", "×", "1 : 1"]) expect(said).toContain(sign);
  });

  it("refuses no pages and no date", async () => {
    await expect(writePdf([], options)).rejects.toThrow(/^pages: is empty/);
    await expect(printPdf([bridgeSheet()], { ...options, created: new Date("never") })).rejects.toThrow(
      /^created: is not a date/,
    );
  });
});

describe("planted faults are noticed", () => {
  const changed = async (change: (page: Page) => Page) => {
    const [page] = layOut([bridgeSheet()], { measure });
    if (page === undefined) throw new Error("no page");
    return recoverSheets(await writePdf([change(page)], options)).complaints;
  };

  it("a sheet printed at 97 % by its own file", async () => {
    expect(await changed((page) => ({ ...page, factors: { across: 0.97, down: 0.97 } }))).toEqual(
      expect.arrayContaining(["scale across is 0.9700", "scale down is 0.9700"]),
    );
  });

  it("a page box shrunk to 97 % round a sound drawing", async () => {
    const complaints = await changed((page) => ({
      ...page,
      widthMm: 0.97 * page.widthMm,
      heightMm: 0.97 * page.heightMm,
    }));
    expect(complaints.join()).toMatch(/the page of 203\.70 × 288\.09 mm is no paper/);
  });

  it("one axis at 98.5 %", async () => {
    expect(await changed((page) => ({ ...page, factors: { across: 1, down: 0.985 } }))).toContain(
      "scale down is 0.9850",
    );
  });

  it("a drawing mirrored under upright lettering", async () => {
    const complaints = await changed(mirrored);
    expect(complaints.join()).toMatch(/the drawing is mirrored: it says "seen from the front/);
  });

  it("a scene whose strings stand on the wrong side", async () => {
    const scene = bridgeScene();
    const items = scene.items.map((item) =>
      item.geometry.kind === "line" && item.role === "string line"
        ? {
            ...item,
            geometry: {
              ...item.geometry,
              from: { ...item.geometry.from, y: -item.geometry.from.y },
              to: { ...item.geometry.to, y: -item.geometry.to.y },
            },
          }
        : item,
    );
    const { complaints } = recoverSheets(await printPdf([bridgeSheet({ scene: { ...scene, items } })], options));
    expect(complaints.join()).toMatch(/string 4 stands on the wrong side/);
  });

  it("a whole page turned inside out or scaled in its content", async () => {
    const bytes = await printPdf([bridgeSheet()], options);
    expect(recoverSheets(withContentPrefix(bytes, "-1 0 0 1 595.275591 0 cm")).complaints).toContain(
      "lettering is mirrored",
    );
    expect(recoverSheets(withContentPrefix(bytes, "0.97 0 0 0.97 8 12 cm")).complaints.join()).toMatch(
      /scale across is 0\.9700/,
    );
    expect(recoverSheets(withContentPrefix(bytes, "1 0 0 1 0 0 cm")).complaints).toEqual([]);
  });

  it("a hole drawn 0.05 mm off its row in the table", async () => {
    const [page] = layOut([bridgeSheet()], { measure });
    if (page === undefined) throw new Error("no page");
    const groups = page.groups.map((group) =>
      group.id === "screw#1"
        ? {
            ...group,
            marks: group.marks.map((mark) =>
              mark.kind === "circle" ? { ...mark, centre: { ...mark.centre, right: mark.centre.right + 0.05 } } : mark,
            ),
          }
        : group,
    );
    const bytes = await writePdf([{ ...page, groups }], options);
    expect(() => expectHoles(bytes, bridgeScene())).toThrow(/H1 y/);
  });
});

/** The file with a later version of its page content appended, as an edited PDF has it. */
function withContentPrefix(bytes: Uint8Array, prefix: string): Uint8Array {
  const text = Buffer.from(bytes).toString("latin1");
  const number = /\/Contents (\d+) 0 R/.exec(text)?.[1];
  const header = text.indexOf(`\n${number} 0 obj`);
  const start = text.indexOf("stream\n", header) + 7;
  const length = Number(/\/Length (\d+)/.exec(text.slice(header, start))?.[1]);
  const content = Buffer.concat([Buffer.from(`${prefix}\n`), inflate(bytes.subarray(start, start + length))]);
  const packed = deflateSync(content);
  const later = Buffer.concat([
    Buffer.from(`\n${number} 0 obj\n<< /Length ${packed.length} /Filter /FlateDecode >>\nstream\n`),
    packed,
    Buffer.from("\nendstream\nendobj\n"),
  ]);
  const trailer = text.lastIndexOf("trailer");
  return Buffer.concat([bytes.subarray(0, trailer), later, bytes.subarray(trailer)]);
}
