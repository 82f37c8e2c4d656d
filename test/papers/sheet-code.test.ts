/** A printed sheet says what it was drawn as, and what is measured on it is compared with that and with nothing else. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { printCorrection } from "../../src/app/print-correction.ts";
import { layOut, type PrintFactors } from "../../src/core/drawing/index.ts";
import { ask, drawings, gatesOf, type Job, loadJob, travellerOf } from "../../src/core/index.ts";
import { showPhrase } from "../../src/core/quantity/index.ts";
import { installedFonts } from "../../src/papers/font-node.ts";
import { textMeasure } from "../../src/papers/index.ts";

const measure = textMeasure(installedFonts());

interface Boxes {
  readonly down: string;
  readonly across: string;
  readonly code: string;
}

function jobOf(tailpieceWidth = 95, printed?: Record<string, string>): Job {
  const data = parse(readFileSync("test/fixtures/jobs/six-string-two-posts.yaml", "utf8"));
  data.parts.bollard.tailpiece.width = tailpieceWidth;
  return loadJob(printed ? { ...data, record: { printed } } : data);
}

/** The boxes of the template as a person reads them off the paper. */
function boxesOf(job: Job, printFactors?: PrintFactors): Boxes {
  const options = { paper: "A4", date: "2026-03-14", version: "1", ...(printFactors ? { printFactors } : {}) } as const;
  const [sheet] = drawings(job, [ask(job, "bridge.holes")], options);
  if (!sheet) throw new Error("no sheet");
  const marks = layOut([sheet], { measure })[0]?.groups.find(({ id }) => id === "print-check")?.marks ?? [];
  const texts = marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : []));
  const after = (label: string) => texts[texts.indexOf(label) + 1] ?? "";
  const code = texts.map((text) => /code of this sheet: (\S+)/i.exec(text)?.[1]).find(Boolean) ?? "";
  return { down: after("down the left side"), across: after("across the top"), code };
}

/** What the drill gate says of a print on the record. */
function verdictOn(job: Job): string {
  const verdicts = [ask(job, "bridge.holes")];
  const traveller = travellerOf(job, verdicts);
  const reason = gatesOf(job, verdicts, traveller)
    .get("drill-bridge-posts")
    ?.reasons.find(({ ref }) => ref === "bridge-template");
  return reason?.ok ? "accepted" : showPhrase(reason?.text ?? []);
}

function recorded(boxes: Boxes, change: Record<string, string> = {}): Record<string, string> {
  const diagonal = Math.hypot(Number(boxes.down), Number(boxes.across)).toFixed(1);
  const code = boxes.code === "" ? {} : { code: boxes.code };
  return { along: boxes.down, across: boxes.across, diagonal1: diagonal, diagonal2: diagonal, ...code, ...change };
}

describe("a sheet drawn for a printer that prints at 97 %", () => {
  // 271.6 / 280 = 184.3 / 190 = 0.97: drawn × 1.0309, so that the frame shrinks to 270 and 185 true millimetres.
  const factors = printCorrection("271.6, 184.3, 328.2, 328.2", "--printed", "A4");
  const boxes = boxesOf(jobOf(), factors);

  it("is accepted when its own boxes are filled with what they ask for", () => {
    expect(boxes).toEqual({ down: "270.0", across: "185.0", code: "A4-P-10309-10309" });
    expect(verdictOn(jobOf(95, recorded(boxes)))).toBe("accepted");
  });

  it("is corrected a second time by what is left, alike on both axes, and on top of the first", () => {
    // 0.5 % short on both: 270 × 0.995 = 268.65, 185 × 0.995 = 184.08; 1.0309 / 0.995 = 1.0361.
    const text = `268.65, 184.08, 325.66, 325.66, ${boxes.code}`;
    const again = printCorrection(text, "--printed", "A4");
    expect(again?.sx).toBeCloseTo(1.0361, 3);
    expect(again?.sy).toBeCloseTo(1.0361, 3);
  });

  it("is not compared with another sheet: without its code the message asks for it", () => {
    const { code: _, ...uncoded } = recorded(boxes);
    expect(verdictOn(jobOf(95, uncoded))).toMatch(/code/);
  });
});

describe("a sheet that prints landscape", () => {
  const boxes = boxesOf(jobOf(200));

  it("is accepted with 190 down and 280 across, as its boxes say", () => {
    expect(boxes).toEqual({ down: "190.0", across: "280.0", code: "A4-L" });
    expect(verdictOn(jobOf(200, recorded(boxes)))).toBe("accepted");
  });

  it("is refused with the two lengths exchanged", () => {
    expect(verdictOn(jobOf(200, recorded(boxes, { along: "280.0", across: "190.0" })))).toMatch(/too far off/);
  });

  it("has the axis corrected that is off", () => {
    // 283 across where 280 are meant, on a sheet that lies on its side: × 280 / 283 down an upright one, nothing down.
    const factors = printCorrection("190, 283, 340.9, 340.9, A4-L", "--printed", "A4");
    expect(factors?.sy).toBeCloseTo(280 / 283, 9);
    expect(factors?.sx).toBeCloseTo(1, 9);
  });

  it("says what to do about a code that cannot be read", () => {
    expect(() => printCorrection("190, 283, 340.9, 340.9, A4-X", "--printed", "A4")).toThrow(
      /^--printed: cannot read the sheet's code "A4-X"/,
    );
  });
});

describe("[PG17] one sheet proves no other", () => {
  const boxes = boxesOf(jobOf());

  it("a true print of the control holes leaves the drill's gate shut", () => {
    expect(verdictOn(jobOf(95, recorded(boxes, { sheet: "control-holes" })))).toBe(
      "nobody has measured the sheet's rules",
    );
  });

  it("the template's own print opens it, as does one of an older record that names no sheet", () => {
    expect(verdictOn(jobOf(95, recorded(boxes, { sheet: "bridge-template" })))).toBe("accepted");
    expect(verdictOn(jobOf(95, recorded(boxes)))).toBe("accepted");
  });
});
