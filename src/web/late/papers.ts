/** The writers of papers with their typeface: loaded when papers are looked at. */
import { BOLD, REGULAR } from "virtual:lettering";
import { drawingFiles, pagesOf, paperFiles, pdfOf, type WritingOptions } from "../../app/paper-files.ts";
import type { PaperSet } from "../../core/sheets/index.ts";
import { zipOf } from "../../papers/index.ts";

const bytes = (base64: string) => Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
const fonts = { regular: bytes(REGULAR), bold: bytes(BOLD) };

type Options = Omit<WritingOptions, "fonts">;

export const previewOf = (set: PaperSet, units: Options["units"]) => pagesOf(set, { fonts, units });
export const pdf = (set: PaperSet, options: Options) => pdfOf(set, { ...options, fonts });
export const drawings = (set: PaperSet, options: Options) => drawingFiles(set, { ...options, fonts });

/** All papers one behind the other: to read on a tablet, or to print in one go. */
export const wholePdf = (sets: readonly PaperSet[], options: Options) =>
  pdf({ id: "papers", title: "Papers", documents: sets.flatMap(({ documents }) => documents) }, options);
/** Every file of every paper. */
export const zip = async (sets: readonly PaperSet[], options: Options) =>
  zipOf(await paperFiles(sets, { ...options, fonts }), options.created);
