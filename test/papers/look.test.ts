/** With LOOK=<folder> the demonstration pages are also written there as PDF and pictures, for eyes. */
import { mkdirSync, writeFileSync } from "node:fs";
import { expect, it } from "vitest";
import { sceneFigure } from "../../src/core/drawing/index.ts";
import { installedFonts } from "../../src/papers/font-node.ts";
import { printPdf, textMeasure, writeDxf, writeSvg } from "../../src/papers/index.ts";
import { bridgeScene, bridgeSheet, guardSheet, traveller } from "./demo.ts";

it("writes the demonstration set", async () => {
  const documents = [
    bridgeSheet(),
    bridgeSheet({ id: "back", scene: bridgeScene("behind"), printFactors: { sx: 1.0309, sy: 1.0204 } }),
    guardSheet(),
    traveller(),
    bridgeSheet({ id: "letter", paper: "Letter", orientation: "landscape" }),
  ];
  const bytes = await printPdf(documents, {
    fonts: installedFonts(),
    created: new Date("2026-03-14T09:00:00Z"),
    title: "Demonstration",
  });
  const folder = process.env.LOOK;
  if (folder) {
    mkdirSync(folder, { recursive: true });
    writeFileSync(`${folder}/demo.pdf`, bytes);
    const measure = textMeasure(installedFonts());
    writeFileSync(`${folder}/bridge.dxf`, writeDxf(bridgeScene(), { measure }));
    writeFileSync(`${folder}/bridge.svg`, writeSvg(sceneFigure(bridgeScene(), { measure })));
  }
  expect(bytes.length).toBeGreaterThan(10_000);
});
