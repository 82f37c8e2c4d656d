/** All papers of a job, against pdfkit drawing as many strokes and texts without layout. */
import PDFDocument from "pdfkit";
import { makePapers } from "../dist/app/make-papers.js";
import { layOut } from "../dist/core/drawing/index.js";
import { assess, papers } from "../dist/core/index.js";
import { installedFonts } from "../dist/papers/font-node.js";
import { textMeasure } from "../dist/papers/index.js";
import { JOBS, load, median, timedAsync, versionOf } from "./measure.mjs";

const VERSION = versionOf("pdfkit");
const NOW = new Date(Date.UTC(2026, 0, 1));

export async function papersBench() {
  const rows = [];
  for (const name of JOBS) {
    const job = load(name);
    const times = [];
    for (let round = 0; round < 3; round += 1)
      times.push(await timedAsync(() => makePapers(job, { paper: "A4", units: "mm", now: NOW })));
    const marks = countMarks(job);
    const peers = [];
    for (let round = 0; round < 3; round += 1) peers.push(await timedAsync(() => drawBare(marks)));
    rows.push({
      what: `${name}: all papers (${marks.texts} texts, ${marks.strokes} strokes)`,
      own: median(times),
      peer: median(peers),
      against: `pdfkit ${VERSION} alone`,
      goal: 2000,
    });
  }
  return rows;
}

function countMarks(job) {
  const measure = textMeasure(installedFonts());
  let texts = 0;
  let strokes = 0;
  for (const { documents } of papers(job, assess(job), { paper: "A4", date: "2026-01-01", version: "1" })) {
    for (const page of layOut(documents, { measure })) {
      for (const { kind } of page.groups.flatMap((group) => group.marks)) {
        if (kind === "text") texts += 1;
        else strokes += 1;
      }
    }
  }
  return { texts, strokes };
}

function drawBare({ texts, strokes }) {
  const fonts = installedFonts();
  const document = new PDFDocument({ size: "A4", autoFirstPage: true, font: null });
  document.registerFont("regular", fonts.regular);
  document.font("regular").fontSize(8);
  const done = new Promise((resolve) => {
    document.on("data", () => {});
    document.on("end", resolve);
  });
  for (let n = 0; n < strokes; n += 1)
    document
      .moveTo(n % 500, 10)
      .lineTo((n * 7) % 500, 700)
      .stroke();
  for (let n = 0; n < texts; n += 1)
    document.text(`line ${n} of text`, n % 400, (n * 3) % 800, { lineBreak: false, features: { kern: false } });
  document.end();
  return done;
}
