/** Measures printed rules in pixels, by another program's eyes: a page rendered at more than 300 dpi. */
import { PDFiumLibrary } from "@hyzyla/pdfium";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { installedFonts } from "../../src/papers/font-node.ts";
import { printPdf } from "../../src/papers/index.ts";
import { bridgeSheet } from "./demo.ts";

/** 12 pixels to the millimetre: 304.8 dpi, and whole pixels for A4. */
const PX_PER_MM = 12;

interface Picture {
  readonly width: number;
  readonly height: number;
  /** 0 black to 255 white. */
  readonly grey: (x: number, y: number) => number;
}

let library: PDFiumLibrary;
beforeAll(async () => {
  library = await PDFiumLibrary.init();
});
afterAll(() => library.destroy());

async function render(bytes: Uint8Array): Promise<Picture> {
  const document = await library.loadDocument(bytes);
  const image = await document.getPage(0).render({ width: 210 * PX_PER_MM, height: 297 * PX_PER_MM, render: "bitmap" });
  const { data, width, height } = image;
  document.destroy();
  return {
    width,
    height,
    grey: (x, y) =>
      ((data[(y * width + x) * 4] ?? 255) +
        (data[(y * width + x) * 4 + 1] ?? 255) +
        (data[(y * width + x) * 4 + 2] ?? 255)) /
      3,
  };
}

/** Centres of dark strokes met along one row or column, to a fraction of a pixel by their weight. */
function strokes(length: number, grey: (at: number) => number): number[] {
  const out: number[] = [];
  let [sum, weight] = [0, 0];
  for (let at = 0; at <= length; at += 1) {
    const dark = at < length ? 255 - grey(at) : 0;
    if (dark > 60) {
      sum += at * dark;
      weight += dark;
    } else if (weight > 0) {
      out.push(sum / weight + 0.5);
      [sum, weight] = [0, 0];
    }
  }
  return out;
}

describe("[PA13] a page seen by another program", () => {
  it("measures right: longest rules and 100 mm inner marks, to a pixel", async () => {
    const picture = await render(
      await printPdf([bridgeSheet()], { fonts: installedFonts(), created: new Date(0), title: "raster" }),
    );
    // 3.7 mm inside the frame only the heavy inner marks (4 mm long) and the frame itself cross the line of sight.
    const row = Math.round((8.5 + 3.7) * PX_PER_MM);
    const across = strokes(picture.width, (x) => picture.grey(x, row));
    const column = Math.round((10 + 3.7) * PX_PER_MM);
    const along = strokes(picture.height, (y) => picture.grey(column, y));
    for (const [list, start, longest] of [
      [across, 10, 190],
      [along, 8.5, 280],
    ] as const) {
      const at = (mm: number) => {
        const wanted = (start + mm) * PX_PER_MM;
        return list.reduce((best, one) => (Math.abs(one - wanted) < Math.abs(best - wanted) ? one : best), Infinity);
      };
      expect(Math.abs(at(longest) - at(0) - longest * PX_PER_MM)).toBeLessThan(1);
      expect(Math.abs(at(150) - at(50) - 100 * PX_PER_MM)).toBeLessThan(1);
    }
  });

  it("shows a corrected print larger by its factor", async () => {
    const picture = await render(
      await printPdf([bridgeSheet({ printFactors: { sx: 1.02, sy: 1 } })], {
        fonts: installedFonts(),
        created: new Date(0),
        title: "raster",
      }),
    );
    // 210 / 1.02 = 205.88 true mm leave a frame of 185, centred: drawn 185 × 1.02 = 188.7 mm.
    const row = Math.round((8.5 + 3.7) * PX_PER_MM);
    const across = strokes(picture.width, (x) => picture.grey(x, row));
    const left = (105 - 94.35) * PX_PER_MM;
    const near = (wanted: number) =>
      across.reduce((best, one) => (Math.abs(one - wanted) < Math.abs(best - wanted) ? one : best), Infinity);
    expect(Math.abs(near(left + 188.7 * PX_PER_MM) - near(left) - 188.7 * PX_PER_MM)).toBeLessThan(1);
  });
});
