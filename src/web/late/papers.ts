/** The writers of papers with their typeface: loaded when papers are looked at. */
import { BOLD, REGULAR } from "virtual:lettering";
import { drawingFiles, pagesOf, pdfOf, type WritingOptions } from "../../app/paper-files.ts";
import type { PaperSet } from "../../core/sheets/index.ts";

const bytes = (base64: string) => Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
const fonts = { regular: bytes(REGULAR), bold: bytes(BOLD) };

type Options = Omit<WritingOptions, "fonts">;

export const previewOf = (set: PaperSet, units: Options["units"]) => pagesOf(set, { fonts, units });
export const pdf = (set: PaperSet, options: Options) => pdfOf(set, { ...options, fonts });
export const drawings = (set: PaperSet, options: Options) => drawingFiles(set, { ...options, fonts });
