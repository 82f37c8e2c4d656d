/** Sheets in the real font: nothing overflows, nothing lies on something else, whatever the names are. */
import { describe, expect, it } from "vitest";
import {
  CAPITAL_HEIGHT,
  type DrawingSheet,
  layOut,
  type Page,
  type PageRect,
  type TextMark,
  textBoxOf,
} from "../../src/core/drawing/index.ts";
import { installedFonts } from "../../src/papers/font-node.ts";
import { textMeasure, ttfFromWoff } from "../../src/papers/index.ts";
import { bridgeScene, bridgeSheet, FIELDS, guardSheet, traveller } from "./demo.ts";

const fonts = installedFonts();
const measure = textMeasure(fonts);

/** Letters only: without the room for descenders, which figures and capitals do not use. */
function boxes(page: Page): { text: string; box: PageRect; group: string }[] {
  return page.groups.flatMap(({ id, marks }) =>
    marks
      .filter((mark): mark is TextMark => mark.kind === "text")
      .map((mark) => {
        const { left, top, right, bottom } = textBoxOf(mark, measure);
        const room = mark.heightMm * 0.3;
        return {
          text: mark.text,
          group: id,
          box:
            mark.turnDegrees === 0
              ? { left, top, right, bottom: bottom - room }
              : { left, top, right: right - room, bottom },
        };
      }),
  );
}

const LONG = {
  ...FIELDS,
  title: "Template for the bridge plate and its nine holes on a refinished body",
  instrument: "Quayside four-string bass, left-handed, the one with the second neck and no number",
  jobId: "B-0017-2026-second-try",
  state: "as found, before the neck came off",
  version: "1024 (draft)",
};

const SHEETS: [string, DrawingSheet][] = [
  ["a template", bridgeSheet()],
  [
    "a back template, corrected",
    bridgeSheet({ scene: bridgeScene("behind"), printFactors: { sx: 0.9709, sy: 1.0309 } }),
  ],
  ["a template on Letter, landscape", bridgeSheet({ paper: "Letter", orientation: "landscape" })],
  ["a template with the head to the left", bridgeSheet({ turn: 90 })],
  ["names that are too long", bridgeSheet({ fields: LONG })],
  ["a tiled drawing", guardSheet()],
];

describe("[PA12] drawing sheets in the embedded font", () => {
  it.each(SHEETS)("%s: every text lies inside the frame", (_, sheet) => {
    for (const page of layOut([sheet], { measure })) {
      const [right, bottom] = [page.widthMm / page.factors.across, page.heightMm / page.factors.down];
      for (const { text, box, group } of boxes(page)) {
        if (page.groups.find(({ id }) => id === group)?.clip) continue;
        expect(box.left, text).toBeGreaterThan(7.9);
        expect(box.top, text).toBeGreaterThan(7.9);
        expect(box.right, text).toBeLessThan(right - 7.9);
        expect(box.bottom, text).toBeLessThan(bottom - 7.9);
      }
    }
  });

  it.each(SHEETS)("%s: no text lies on another", (_, sheet) => {
    for (const page of layOut([sheet], { measure })) {
      const all = boxes(page);
      const clashes = all.flatMap((a, index) =>
        all
          .slice(index + 1)
          .filter((b) => overlap(a.box, b.box) > 0.15)
          .map((b) => `${a.text} / ${b.text}`),
      );
      expect(clashes).toEqual([]);
    }
  });

  it("every text of a call-out, a table or the title block stays inside its box", () => {
    for (const [, sheet] of SHEETS) {
      for (const page of layOut([sheet], { measure })) {
        for (const { id, marks } of page.groups.filter(({ role }) =>
          ["callout", "title-block", "print-check"].includes(role),
        )) {
          const frames = marks
            .filter((mark) => mark.kind === "path" && mark.path.length === 5)
            .map((mark) =>
              mark.kind === "path"
                ? boundsOf(mark.path.flatMap((one) => (one.to === "close" ? [] : [one.at])))
                : undefined,
            );
          if (id === "print-check") continue;
          for (const { text, box } of boxes({ ...page, groups: page.groups.filter((group) => group.id === id) })) {
            if (frames.length === 0) continue;
            expect(
              frames.some(
                (frame) =>
                  frame &&
                  box.left >= frame.left &&
                  box.right <= frame.right &&
                  box.top >= frame.top &&
                  box.bottom <= frame.bottom,
              ),
              `${id}: ${text}`,
            ).toBe(true);
          }
        }
      }
    }
  });

  it("[PA5] keeps the drawing and its call-outs apart: no hole under a text", () => {
    const [page] = layOut([bridgeSheet()], { measure });
    if (page === undefined) throw new Error("no page");
    const texts = boxes(page);
    for (const { marks, data } of page.groups.filter((group) => group.data?.diameterMm !== undefined)) {
      for (const mark of marks) {
        if (mark.kind !== "circle") continue;
        const { right, down } = mark.centre;
        const under = texts.filter(
          ({ box }) => right > box.left && right < box.right && down > box.top && down < box.bottom,
        );
        expect(under, `${data?.mark}`).toEqual([]);
      }
    }
  });

  it("[PA7] states what every sheet must state", () => {
    for (const [, sheet] of SHEETS) {
      for (const page of layOut([sheet], { measure }).filter(({ groups }) =>
        groups.some(({ id }) => id === "print-check"),
      )) {
        const said = page.groups
          .flatMap(({ marks }) => marks)
          .map((mark) => (mark.kind === "text" ? mark.text : ""))
          .join("\n");
        expect(said).toMatch(/^seen from|SEEN FROM BEHIND/im);
        expect(said).toContain("1 : 1");
        expect(said).toContain("1 = thinnest");
        expect(said).toMatch(/All places count from DATUM/);
        expect(said.match(/^measured$/gm)).toHaveLength(4);
        expect(said).toMatch(
          sheet.printFactors
            ? /CORRECTED: drawn × 0\.9709 across, × 1\.0309 down/
            : /Not proved until the boxes are filled in\./,
        );
      }
    }
  });

  it("[PA15] traveller: no text lies on another or leaves its page", () => {
    for (const page of layOut([traveller()], { measure })) {
      const all = boxes(page);
      const clashes = all.flatMap((a, index) =>
        all
          .slice(index + 1)
          .filter((b) => overlap(a.box, b.box) > 0.15)
          .map((b) => `${a.text} / ${b.text}`),
      );
      expect(clashes).toEqual([]);
      for (const { box, text } of all)
        expect(box.left >= 14.9 && box.right <= 195.1 && box.bottom <= 282.1, text).toBe(true);
    }
  });
});

describe("the font", () => {
  it("has capitals of the height that layouts reckon with", () => {
    // OpenType: cmap gives the glyph of "H", glyf its box; read here by hand from the tables.
    expect(capitalHeight(fonts.regular)).toBeCloseTo(CAPITAL_HEIGHT, 6);
  });

  it("has figures of one width and tells 1 l I and 0 O apart by width or shape", () => {
    const width = (text: string) => measure(text, 10, "regular");
    for (const figure of "0123456789") expect(width(figure)).toBe(width("0"));
    expect(width("O")).not.toBe(width("0"));
    expect(width("l")).not.toBe(width("1"));
    expect(width("ab")).toBeCloseTo(width("a") + width("b"), 9);
  });

  it("refuses bytes that are no WOFF", () => {
    expect(() => ttfFromWoff(fonts.regular, (bytes) => bytes)).toThrow(/^woff: does not start like a WOFF 1 font/);
  });
});

function overlap(a: PageRect, b: PageRect): number {
  const width = Math.min(a.right, b.right) - Math.max(a.left, b.left);
  const height = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
  return width > 0 && height > 0 ? Math.min(width, height) : 0;
}

function boundsOf(points: readonly { right: number; down: number }[]): PageRect {
  const [x, y] = [points.map((p) => p.right), points.map((p) => p.down)];
  return { left: Math.min(...x), top: Math.min(...y), right: Math.max(...x), bottom: Math.max(...y) };
}

/** yMax of the glyph "H" over unitsPerEm, from a format 4 cmap. */
function capitalHeight(font: Uint8Array): number {
  const view = new DataView(font.buffer, font.byteOffset, font.byteLength);
  const tables = new Map<string, number>();
  for (let index = 0; index < view.getUint16(4); index += 1) {
    const entry = 12 + 16 * index;
    tables.set(String.fromCharCode(...font.subarray(entry, entry + 4)), view.getUint32(entry + 8));
  }
  const [cmap = 0, head = 0, loca = 0, glyf = 0] = ["cmap", "head", "loca", "glyf"].map((name) => tables.get(name));
  let glyph = 0;
  for (let index = 0; index < view.getUint16(cmap + 2); index += 1) {
    const table = cmap + view.getUint32(cmap + 4 + 8 * index + 4);
    if (view.getUint16(table) !== 4) continue;
    const count = view.getUint16(table + 6) / 2;
    const segment = Array.from({ length: count }, (_, s) => s).find((s) => view.getUint16(table + 14 + 2 * s) >= 72);
    if (segment === undefined) continue;
    const start = view.getUint16(table + 16 + 2 * (count + segment));
    const delta = view.getUint16(table + 16 + 2 * (2 * count + segment));
    const rangeAt = table + 16 + 2 * (3 * count + segment);
    const range = view.getUint16(rangeAt);
    glyph = range === 0 ? (72 + delta) & 0xffff : view.getUint16(rangeAt + range + 2 * (72 - start));
  }
  const long = view.getInt16(head + 50) === 1;
  const at = glyf + (long ? view.getUint32(loca + 4 * glyph) : 2 * view.getUint16(loca + 2 * glyph));
  return view.getInt16(at + 8) / view.getUint16(head + 18);
}
