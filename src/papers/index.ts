export { type DxfOptions, writeDxf } from "./dxf.ts";
export { type PaperFonts, textMeasure } from "./fonts.ts";
export { type PdfOptions, printPdf, writePdf } from "./pdf.ts";
export { type SvgOptions, writeSvg } from "./svg.ts";
export { ttfFromWoff } from "./woff.ts";
export { type FileInZip, zipOf } from "./zip.ts";
