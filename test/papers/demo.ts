/** An invented bass and an invented bridge plate, for looking at and for the tests. No real maker's part. */
import {
  type DrawingSheet,
  dimension,
  type FlowDocument,
  hole,
  line,
  makeScene,
  markingOutTable,
  note,
  outline,
  rectangle,
  runningDimension,
  type Scene,
  type TitleFields,
} from "../../src/core/drawing/index.ts";
import { mm, say } from "../../src/core/quantity/index.ts";

export const FIELDS: TitleFields = {
  title: "Bridge template",
  jobId: "B-0017",
  instrument: "Quayside four-string bass, left-handed",
  date: "2026-03-14",
  version: "7",
  state: "as found",
};

const STRINGS = [
  { number: 1, name: "G", y: -28.5 },
  { number: 2, name: "D", y: -9.5 },
  { number: 3, name: "A", y: 9.5 },
  { number: 4, name: "E", y: 28.5 },
];

/** Body frame, left-handed (bass side y > 0), plate front 12 behind the register line. */
export function bridgeScene(view: "front" | "behind" = "front"): Scene {
  const front = 212;
  const at = (p: number, q: number) => ({ x: front + p, y: q });
  const screws = [at(47, -20), at(47, 0), at(47, 20), at(58, -10), at(58, 10)];
  const strings = STRINGS.map(({ y }) => at(30, y));
  const old = [at(52.5, -21.5), at(52.5, 0), at(52.5, 21.5)];
  return makeScene({
    id: view === "front" ? "bridge" : "bridge-behind",
    title: "Bridge template",
    view,
    frame: { name: "body", origin: "end wall of the neck pocket, on the centre line", axes: ["u", "y"], bassSide: 1 },
    datum: { at: { x: 200, y: 0 }, name: "register line on the centre line, 412.0 from fret 12 by steel rule" },
    items: [
      line("centre line", "centre", { x: 188, y: 0 }, { x: 290, y: 0 }, "centre line"),
      line("register line", "register", { x: 200, y: -50 }, { x: 200, y: 50 }, say`register line`),
      ...STRINGS.map(({ number, name, y }) =>
        line("string line", `string-${number}`, { x: 192, y }, { x: 252, y }, `${number} ${name}`),
      ),
      outline(
        "plate outline",
        "plate",
        rectangle({ centre: at(33, 0), alongMm: 66, acrossMm: 82, cornerRadiusMm: 4 }),
        "new plate 82 × 66",
      ),
      outline(
        "old outline",
        "old-plate",
        rectangle({ centre: at(36, 0), alongMm: 60, acrossMm: 88 }),
        "mark of the old plate",
      ),
      outline("keep-out", "channel", rectangle({ centre: { x: 206, y: 38 }, alongMm: 8, acrossMm: 16 })),
      ...screws.map((centre, index) =>
        hole("new hole", `screw#${index + 1}`, { centre, diameterMm: 2.8, depthMm: 26, datum: "body top" }),
      ),
      ...strings.map((centre, index) =>
        hole("string hole", `string-hole#${index + 1}`, {
          centre,
          diameterMm: 3.2,
          depthMm: "through",
          datum: "body top",
        }),
      ),
      ...old.map((centre, index) =>
        hole(index === 1 ? "plug" : "old hole", `old#${index + 1}`, {
          centre,
          diameterMm: index === 1 ? 6 : 3.4,
          depthMm: index === 1 ? 20 : 22,
          datum: "body top",
        }),
      ),
      dimension("width", { from: at(66, -41), to: at(66, 41), along: "y", lineAt: front + 66 + 10 }),
      dimension("pitch", {
        from: { x: 192, y: 9.5 },
        to: { x: 192, y: 28.5 },
        along: "y",
        lineAt: 182,
        words: say`${mm(19, 1)} × 3`,
      }),
      runningDimension("running", {
        origin: { x: 200, y: 0 },
        points: [at(0, -41), at(30, -28.5), at(47, -20), at(58, -10), at(66, -41)],
        along: "x",
        lineAt: -56,
      }),
      note("n1", { at: { x: 256, y: 52 }, words: "edge of the\nnew plate", pointsAt: at(38, 41) }),
    ],
  });
}

export function bridgeSheet(extra: Partial<DrawingSheet> = {}): DrawingSheet {
  return {
    kind: "drawing",
    id: "bridge-template",
    scene: bridgeScene(),
    fields: FIELDS,
    paper: "A4",
    notes: [
      say`Scribe the register line ${mm(412, 1)} from fret 12 with a steel rule, square to the centre line. Never carry the scale length on paper.`,
      "Tape the sheet down with both lines on their scribed lines, then prick every bold centre with a sharp point.",
      "Drill the first hole in scrap of the same wood and try the screw.",
    ],
    ...extra,
  };
}

export function longScene(): Scene {
  return makeScene({
    id: "pickguard",
    title: "Pickguard outline",
    view: "front",
    frame: { name: "body", origin: "end wall of the neck pocket, on the centre line", axes: ["u", "y"], bassSide: -1 },
    datum: { at: { x: 0, y: 0 }, name: "end wall of the neck pocket, on the centre line" },
    items: [
      line("centre line", "centre", { x: -20, y: 0 }, { x: 340, y: 0 }, "centre line"),
      outline(
        "cut line",
        "guard",
        rectangle({ centre: { x: 150, y: 10 }, alongMm: 330, acrossMm: 240, cornerRadiusMm: 30 }),
        "pickguard",
      ),
      outline(
        "rework area",
        "slot",
        rectangle({ centre: { x: 120, y: 0 }, alongMm: 40, acrossMm: 90, cornerRadiusMm: 6, turnDegrees: 8 }),
        "rout for the pickup",
      ),
      ...[0, 1, 2, 3, 4, 5, 6, 7].map((index) =>
        hole("new hole", `guard#${index + 1}`, {
          centre: { x: 150 + 150 * Math.cos((index * Math.PI) / 4), y: 10 + 105 * Math.sin((index * Math.PI) / 4) },
          diameterMm: 3,
          depthMm: "through",
          datum: "guard's face",
        }),
      ),
    ],
  });
}

export function guardSheet(): DrawingSheet {
  return {
    kind: "drawing",
    id: "guard",
    scene: longScene(),
    fields: { ...FIELDS, title: "Pickguard" },
    paper: "A4",
    notes: ["Cut 1 mm outside the line and sand to it."],
  };
}

export function traveller(): FlowDocument {
  return {
    kind: "text",
    id: "traveller",
    fields: { ...FIELDS, title: "Traveller" },
    paper: "A4",
    blocks: [
      {
        kind: "paragraph",
        words:
          "Work down the list. A step may start when every box of its gate is filled in and holds. Write readings as you read them; do not copy the expected value.",
      },
      { kind: "heading", words: "Before anything is cut" },
      {
        kind: "step",
        id: "op-1",
        number: "1",
        title: "Read the old screw holes",
        body: [
          say`Lay the rule along the centre line with its end on the register line. Read each hole's middle to ${mm(0.5, 1)}.`,
        ],
        boxes: [
          { label: "X1 along", unit: "mm" },
          { label: "X1 across", unit: "mm" },
          { label: "X2 along", unit: "mm" },
          { label: "X2 across", unit: "mm" },
        ],
      },
      {
        kind: "step",
        id: "op-2",
        number: "2",
        title: "Try pilot and stop in scrap",
        cautions: [
          {
            words: "Eye protection when drilling. Clamp the scrap; never hold it.",
            source: "common practice; local rules go before this",
          },
        ],
        figures: [
          { label: "DRILL", value: [mm(2.8, 1)] },
          { label: "STOP", value: [mm(26, 1)] },
        ],
        body: ["Same wood, same bit. The screw must turn in with a hand driver and wax, and hold."],
        boxes: [{ label: "Screw held without splitting: yes / no" }],
      },
      { kind: "heading", words: "Permanent work" },
      {
        kind: "step",
        id: "op-3",
        number: "3",
        title: "Plug the middle old hole",
        permanent: true,
        cautions: [{ words: "Do not drill near the plug before the glue has cured: overnight at room temperature." }],
        body: ["Grain of the plug along the grain of the body. Pare flush."],
      },
      {
        kind: "step",
        id: "op-4",
        number: "4",
        title: "Drill the five screw holes",
        permanent: true,
        cautions: [
          {
            words: "Set the stop before the first hole and check it after each: the body is 40.0 mm thick.",
            source: "own limit",
          },
          { words: "Dust: mask and extraction; local rules go first." },
        ],
        figures: [
          { label: "DRILL", value: [mm(2.8, 1)] },
          { label: "STOP", value: [mm(26, 1)] },
          { label: "HOLES", value: "H1–H5" },
        ],
        body: ["Prick through the template, take it off, drill square to the top."],
        boxes: [
          { label: "H1 as drilled, along", unit: "mm" },
          { label: "H1 as drilled, across", unit: "mm" },
        ],
      },
      { kind: "heading", words: "Marking out without a printer" },
      {
        kind: "paragraph",
        words:
          "Every place counts from the register line and the centre line. Mark all along places first, then across.",
      },
      { kind: "table", table: markingOutTable(bridgeScene()), large: true },
      {
        kind: "table",
        caption: "Readings of the strings",
        table: {
          columns: [
            { head: "string", align: "centre" },
            { head: "setback", unit: "mm", align: "figure" },
            { head: "doubt", unit: "mm", align: "figure" },
            { head: "what it rests on", align: "text" },
            { head: "read", align: "write" },
          ],
          rows: STRINGS.map(({ number, name }, index) => [
            `${number} ${name}`,
            mm(1.25 + index * 1.1, 2),
            mm(0.4, 2),
            "old saddle as intonated, with the change that the model predicts for the new string and a long remark that must wrap inside its column",
            undefined,
          ]),
        },
      },
      { kind: "sketch", scene: bridgeScene(), caption: "The plate on the body", mostHighMm: 80 },
      { kind: "lines", count: 3, label: "Notes for the shop" },
    ],
  };
}
