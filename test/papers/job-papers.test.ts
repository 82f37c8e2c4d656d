/**
 * From a job file to its printed bridge template and back: the reader of the PDF and of the DXF shares no code with the
 * program, and the places it should find are worked out here from the placement by plain arithmetic.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { type DrawingSheet, layOut, type Page, type TextMark, textBoxOf } from "../../src/core/drawing/index.ts";
import { assess, type Job, loadJob, papers } from "../../src/core/index.ts";
import { lookUp, placement } from "../../src/core/questions/index.ts";
import { installedFonts } from "../../src/papers/font-node.ts";
import { printPdf, textMeasure, writeDxf, writePdf } from "../../src/papers/index.ts";
import { mirrored } from "./mirror.ts";
import { readPdf } from "./pdf-content.ts";
import { recoverDxf } from "./recover-dxf.ts";
import { recoverSheets } from "./recover-pdf.ts";

const fonts = installedFonts();
const measure = textMeasure(fonts);
const created = new Date("2026-03-14T09:00:00Z");
const WITHIN_MM = 0.01;

const KINDS = [
  ["a flat plate over old holes", "examples/lowtide.yaml"],
  ["a flat plate, left-handed", "examples/ferry.yaml"],
  ["single units, multi-scale, seven strings", "test/fixtures/jobs/seven-string-units.yaml"],
  ["two posts with a tailpiece", "test/fixtures/jobs/six-string-two-posts.yaml"],
  ["a stepped plate on a left-handed instrument", "test/fixtures/jobs/left-handed-stepped-plate.yaml"],
  ["nine strings", "test/fixtures/jobs/nine-string-plate.yaml"],
  ["a bass with a compound radius", "test/fixtures/jobs/bass-channel.yaml"],
  ["a slanted pickup", "test/fixtures/jobs/slanted-pickup.yaml"],
] as const;

function jobOf(file: string): Job {
  return loadJob(parse(readFileSync(file, "utf8")));
}

function templateOf(job: Job): DrawingSheet | undefined {
  const sets = papers(job, assess(job), { paper: "A4", date: "2026-03-14", version: "1" });
  const document = sets.find(({ id }) => id === "bridge-template")?.documents[0];
  return document?.kind === "drawing" ? document : undefined;
}

interface Expected {
  readonly x: number;
  readonly y: number;
  readonly diameterMm: number;
  readonly depth: number | "through";
}

/** Holes to drill, as distances from the fret and from the centre line: rotation and shift of each piece's own frame. */
function expectedHoles(job: Job): Expected[] {
  const placed = lookUp(job.instrument, placement);
  if (!placed.known) throw new Error("no placement");
  const { frame } = placed.model;
  const lengths = frame.scaleLengths.map(({ value }) => value);
  const mean = lengths.reduce((sum, length) => sum + length, 0) / lengths.length;
  const square = job.instrument.neck.squareFret;
  const fret = frame.multiScale && square.known ? square.value : 12;
  const fretMm = mean * (1 - 2 ** (-fret / 12));
  return placed.pieces.flatMap(({ pose, pattern }) => {
    if (!pose) throw new Error("a piece without a place");
    const yaw = (pose.yawDegrees * Math.PI) / 180;
    return pattern.map(({ pMm, qMm, pilotMm, depthMm }) => ({
      x: pose.placeMm + pMm * Math.cos(yaw) - qMm * Math.sin(yaw) - frame.offsetMm - fretMm,
      y: pose.sideMm + qMm * Math.cos(yaw) + pMm * Math.sin(yaw),
      diameterMm: pilotMm,
      depth: depthMm,
    }));
  });
}

/** "register line on the centre line, 310.0 from the middle of fret 12": the sheet's own word for where it is laid. */
function registerLine(bytes: Uint8Array): number {
  const words = readPdf(bytes)
    .pages.flatMap((page) => page.written.map(({ text }) => text))
    .join(" ");
  const said = /register line on the centre line, (\d+(?:\.\d+)?) from/.exec(words)?.[1];
  if (said === undefined) throw new Error("the sheet does not say where its register line is");
  return Number(said);
}

describe("a job's bridge template, read back from the PDF and the DXF alone", () => {
  it.each(KINDS)("%s", async (_, file) => {
    const job = jobOf(file);
    const sheet = templateOf(job);
    if (!sheet) throw new Error("no template");
    const bytes = await printPdf([sheet], { fonts, created, title: "Test" });
    const read = recoverSheets(bytes);
    expect(read.complaints).toEqual([]);
    const lineAt = registerLine(bytes);
    const dxf = recoverDxf(writeDxf(sheet.scene, { measure }));
    expect(dxf.complaints).toEqual([]);
    const expected = expectedHoles(job);
    expect(expected.length).toBeGreaterThan(0);
    for (const hole of expected) {
      const near = (one: { x: number; y: number; diameterMm: number }, x: number) =>
        Math.hypot(one.x - x, one.y - hole.y) < WITHIN_MM && Math.abs(one.diameterMm - hole.diameterMm) < WITHIN_MM;
      const printed = read.holes.find((one) => near(one, hole.x - lineAt));
      expect(printed, `hole at ${hole.x.toFixed(2)}, ${hole.y.toFixed(2)} on paper`).toBeDefined();
      expect(printed?.depth).toBe(hole.depth);
      expect(printed?.datum).toBe("body top");
      const cut = dxf.holes.find((one) => near(one, hole.x));
      expect(cut, `hole at ${hole.x.toFixed(2)}, ${hole.y.toFixed(2)} in the DXF`).toBeDefined();
      expect(cut?.depth).toBe(hole.depth);
    }
    // Not one hole more than there is to drill: what else the table names is old (X) or a plug (P).
    expect(read.holes.filter(({ mark }) => !/^[XP]/.test(mark))).toHaveLength(expected.length);
    expect(read.holes.filter(({ mark }) => /^X/.test(mark)).every(({ dashed }) => dashed)).toBe(true);
    // String 1 lies on the treble side: against the sign of the bass side.
    const side = job.instrument.bassSide;
    expect(Math.sign(read.strings.get(1) ?? 0)).toBe(-side);
    expect(Math.sign(read.strings.get(job.instrument.stringCount) ?? 0)).toBe(side);
  });
});

describe("a job's template printed wrongly is noticed", () => {
  const complaintsAbout = async (file: string, change: (page: Page) => Page) => {
    const sheet = templateOf(jobOf(file));
    if (!sheet) throw new Error("no template");
    const pages = layOut([sheet], { measure }).map(change);
    return recoverSheets(await writePdf(pages, { fonts, created, title: "Test" })).complaints.join("; ");
  };

  it.each(KINDS)("%s: mirrored, and at 97 %%", async (_, file) => {
    expect(await complaintsAbout(file, mirrored)).toMatch(/the drawing is mirrored/);
    const small = await complaintsAbout(file, (page) => ({ ...page, factors: { across: 0.97, down: 0.97 } }));
    expect(small).toMatch(/scale across is 0\.9700.*scale down is 0\.9700/);
  });
});

describe("jobs that cannot be drilled yet", () => {
  it("prints no template without a place, and the findings say what is missing", async () => {
    const job = jobOf("test/fixtures/jobs/nearly-nothing.yaml");
    const sets = papers(job, assess(job), { paper: "A4", date: "2026-03-14", version: "1" });
    expect(sets.map(({ id }) => id)).not.toContain("bridge-template");
    const findings = sets.find(({ id }) => id === "findings");
    if (!findings) throw new Error("no findings");
    const bytes = await printPdf(findings.documents, { fonts, created, title: "Test" });
    const words = readPdf(bytes)
      .pages.flatMap((page) => page.written.map(({ text }) => text))
      .join(" ");
    expect(words).toMatch(/MEASURE\W+Where must this bridge stand\? Not known yet/);
  });

  it.each([
    "test/fixtures/jobs/nearly-nothing.yaml",
    "test/fixtures/jobs/glued-neck.yaml",
    "test/fixtures/jobs/printed-scale.yaml",
  ])("%s prints its papers without a crash", async (file) => {
    const job = jobOf(file);
    const sets = papers(job, assess(job), { paper: "Letter", date: "2026-03-14", version: "1" });
    expect(sets.map(({ id }) => id)).toEqual(expect.arrayContaining(["findings", "traveller"]));
    for (const { documents, title } of sets) {
      const bytes = await printPdf(documents, { fonts, created, title });
      expect(bytes.length).toBeGreaterThan(1000);
    }
  });
});

describe("every paper of a job", () => {
  const JOBS = KINDS.map(([, file]) => file);
  it.each(JOBS)("%s: no text leaves its page, on A4 or Letter, in mm or inches", (file) => {
    const job = jobOf(file);
    const verdicts = assess(job);
    for (const paper of ["A4", "Letter"] as const) {
      const sets = papers(job, verdicts, { paper, date: "2026-03-14", version: "1" });
      for (const units of ["mm", "inch"] as const) {
        const outside = sets.flatMap(({ id, documents }) =>
          layOut(documents, { measure, units }).flatMap((page) =>
            page.groups
              .flatMap(({ marks }) => marks)
              .filter((mark): mark is TextMark => mark.kind === "text")
              .filter((mark) => {
                const box = textBoxOf(mark, measure);
                return box.left < 4 || box.top < 4 || box.right > page.widthMm - 4 || box.bottom > page.heightMm - 2;
              })
              .map(({ text }) => `${paper} ${units} ${id}: ${text}`),
          ),
        );
        expect(outside).toEqual([]);
      }
    }
  });
});
