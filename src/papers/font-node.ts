/** Reads the fonts from the installed package: the one file of this folder that touches the disk. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { inflateSync } from "node:zlib";
import type { PaperFonts } from "./fonts.ts";
import { ttfFromWoff } from "./woff.ts";

const FILES = "@fontsource/dejavu-sans/files/dejavu-sans-latin";

export function installedFonts(): PaperFonts {
  const { resolve } = createRequire(import.meta.url);
  const read = (weight: number) => ttfFromWoff(readFileSync(resolve(`${FILES}-${weight}-normal.woff`)), inflateSync);
  return { regular: read(400), bold: read(700) };
}
