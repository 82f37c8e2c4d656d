import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Block, type FlowDocument, layOut, type Page, type TextMark } from "../../../src/core/drawing/index.ts";
import { textBox } from "../../../src/core/drawing/marks.ts";
import { squareLetters } from "./stub.ts";

const FIELDS = {
  title: "Traveller",
  jobId: "B-1",
  instrument: "invented bass",
  date: "2026-03-14",
  version: "3",
  state: "as found",
};

function pagesOf(blocks: readonly Block[]): Page[] {
  const document: FlowDocument = { kind: "text", id: "doc", fields: FIELDS, paper: "A4", blocks };
  return layOut([document], { measure: squareLetters });
}

function texts(page: Page): TextMark[] {
  return page.groups.flatMap((group) => group.marks).filter((mark): mark is TextMark => mark.kind === "text");
}

const words = fc.lorem({ mode: "sentences", maxCount: 4 });
const step = fc.record({
  kind: fc.constant("step" as const),
  number: fc.integer({ min: 1, max: 99 }).map(String),
  title: fc.lorem({ maxCount: 6 }),
  cautions: fc.array(fc.record({ words }), { maxLength: 3 }),
  body: fc.array(words, { maxLength: 3 }),
  boxes: fc.array(fc.record({ label: fc.lorem({ maxCount: 3 }), unit: fc.constant("mm") }), { maxLength: 5 }),
  permanent: fc.boolean(),
});
/** One column of long sentences between two of a fixed width. */
const table = fc.array(fc.lorem({ mode: "sentences", maxCount: 12 }), { minLength: 1, maxLength: 5 }).map((cells) => ({
  kind: "table" as const,
  table: {
    columns: [
      { head: "verdict", align: "text" as const, widthMm: 24 },
      { head: "what", align: "text" as const },
      { head: "P", align: "figure" as const, widthMm: 14 },
    ],
    rows: cells.map((cell) => ["go", cell, { value: 0.95, unit: "", digits: 2 }]),
  },
}));
const blockLists = fc
  .array(
    fc.oneof(
      step,
      table,
      words.map((text) => ({ kind: "paragraph" as const, words: text })),
      fc.lorem({ maxCount: 5 }).map((text) => ({ kind: "heading" as const, words: text })),
    ),
    { minLength: 1, maxLength: 25 },
  )
  .map((list) =>
    list.map((block, index): Block => (block.kind === "step" ? { ...block, id: `step-${index}` } : block)),
  );

describe("[PA15] flowing sheets", () => {
  it("keep every text inside the margins and above the foot", () => {
    fc.assert(
      fc.property(blockLists, (blocks) => {
        for (const page of pagesOf(blocks)) {
          for (const text of texts(page)) {
            const box = textBox(text, squareLetters);
            expect(box.left).toBeGreaterThanOrEqual(15 - 1e-6);
            expect(box.right).toBeLessThanOrEqual(195 + 1e-6);
            expect(box.bottom).toBeLessThanOrEqual(282 + 0.1);
          }
        }
      }),
      { seed: 41, numRuns: 40 },
    );
  });

  it("never part a step from its cautions, text and boxes while they fit one page", () => {
    fc.assert(
      fc.property(blockLists, (blocks) => {
        const pages = pagesOf(blocks);
        for (const block of blocks) {
          if (block.kind !== "step") continue;
          const on = pages.flatMap((page, index) =>
            page.groups.some(({ id }) => id === block.id || id.startsWith(`${block.id}-`)) ? [index] : [],
          );
          expect(on).toHaveLength(1);
          const head = pages[on[0] ?? 0]?.groups.find(({ id }) => id === block.id);
          const said = head?.marks.filter((mark) => mark.kind === "text" && mark.text === "CAUTION");
          // The caution is part of the very piece that carries the title.
          expect(said).toHaveLength(block.cautions?.length ?? 0);
        }
      }),
      { seed: 42, numRuns: 40 },
    );
  });

  it("never leave a heading alone at the foot of a page", () => {
    fc.assert(
      fc.property(blockLists, (blocks) => {
        fc.pre(blocks.at(-1)?.kind !== "heading");
        for (const page of pagesOf(blocks)) expect(page.groups.at(-1)?.role).not.toBe("heading");
      }),
      { seed: 43, numRuns: 40 },
    );
  });

  it("lose nothing: every word is printed once and in order", () => {
    fc.assert(
      fc.property(fc.array(words, { minLength: 1, maxLength: 30 }), (list) => {
        const pages = pagesOf(list.map((text) => ({ kind: "paragraph", words: text })));
        const printed = pages
          .flatMap((page) => page.groups.filter(({ role }) => role === "paragraph"))
          .flatMap(({ marks }) => marks);
        const said = printed
          .map((mark) => (mark.kind === "text" ? mark.text : ""))
          .join(" ")
          .split(/\s+/)
          .filter(Boolean);
        expect(said).toEqual(list.join(" ").split(/\s+/).filter(Boolean));
      }),
      { seed: 44, numRuns: 40 },
    );
  });

  it("repeat the head of a table on each page and number the sheets through", () => {
    const rows = Array.from({ length: 90 }, (_, index) => [
      `H${index + 1}`,
      { value: index * 1.5 - 20, unit: "mm", digits: 2 },
    ]);
    const pages = pagesOf([
      {
        kind: "table",
        table: {
          columns: [
            { head: "hole", align: "text" },
            { head: "u", unit: "mm", align: "figure" },
          ],
          rows,
        },
      },
    ]);
    expect(pages.length).toBeGreaterThan(1);
    for (const [index, page] of pages.entries()) {
      expect(page.groups.filter(({ role }) => role === "table-head")).toHaveLength(1);
      expect(texts(page).map(({ text }) => text)).toContain(`sheet ${index + 1} of ${pages.length}`);
    }
    expect(pages.flatMap(texts).filter(({ text }) => /^H\d+$/.test(text))).toHaveLength(90);
  });

  it("stand decimal points under one another", () => {
    const rows = [-28.5, 0, 9.5, 100.25].map((value) => [{ value, unit: "mm", digits: 2 }]);
    const [page] = pagesOf([{ kind: "table", table: { columns: [{ head: "y", unit: "mm", align: "figure" }], rows } }]);
    if (page === undefined) throw new Error("no page");
    const points = texts(page)
      .filter(({ text }) => /^−?\d+\.\d\d$/.test(text))
      .map(
        ({ text, at, heightMm, weight }) =>
          at.right + squareLetters(text.slice(0, text.indexOf(".")), heightMm, weight),
      );
    expect(points).toHaveLength(4);
    for (const point of points) expect(point).toBeCloseTo(points[0] ?? 0, 9);
  });

  it("keep a figure with its unit at the end of a line", () => {
    const value = { value: 412, unit: "mm", digits: 1 };
    for (let length = 50; length < 80; length += 1) {
      const [page] = pagesOf([{ kind: "paragraph", words: ["x ".repeat(length), value] }]);
      const all = page ? texts(page) : [];
      const number = all.find(({ text }) => /412\.0$/.test(text));
      const unit = all.find(({ text }) => text === "\u00a0mm");
      expect(unit?.at.down).toBe(number?.at.down);
      expect(unit?.heightMm).toBeLessThan(number?.heightMm ?? 0);
    }
  });
});
