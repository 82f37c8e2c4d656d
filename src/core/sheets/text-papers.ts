/** Text papers: what stands in the way, the traveller, the marking-out list, and the slip for the shop. */
import { bestRemedy, briefing, workInWords, worstFirst } from "../briefing/index.ts";
import { type Block, type FlowDocument, markingOutTable, type WriteBox } from "../drawing/index.ts";
import { chanceFigure, inWords } from "../ledger/index.ts";
import { type Gate, type GateReason, type Step, type Traveller, turnAngle, turnWords } from "../plan/index.ts";
import { figure, mm, type Phrase, say } from "../quantity/index.ts";
import type { PartWant, Verdict } from "../verdict/index.ts";
import { bridgeScene } from "./bridge-sheet.ts";
import { drillCautions } from "./cautions.ts";
import { registerOf, type SheetContext, titleFields } from "./context.ts";
import { turnOf } from "./plan-places.ts";

function paper(context: SheetContext, id: string, title: string, blocks: Block[], strings = true): FlowDocument {
  return { kind: "text", id, fields: titleFields(context, title), paper: context.options.paper, blocks, strings };
}

const STATUS_WORDS = { go: "GO", rework: "REWORK", "no-go": "NO-GO", measure: "MEASURE" } as const;

export function findingsPaper(context: SheetContext): FlowDocument {
  const brief = briefing(context.verdicts);
  const blocks: Block[] = [];
  const stopping = [...brief.inFull, ...brief.inBrief];
  blocks.push({
    kind: "paragraph",
    words: say`${figure(stopping.length, "", 0)} of ${figure(context.verdicts.length, "", 0)} questions stand in the way, worst first. ${figure(brief.go.length, "", 0)} go. Probabilities say how likely it is to go, after the stated work where there is some; ± is about 95 % (k = 2).`,
  });
  if (brief.inFull.length > 0) blocks.push({ kind: "heading", words: "What stands in the way" });
  for (const verdict of brief.inFull) blocks.push(...verdictInFull(verdict));
  if (brief.inBrief.length > 0) {
    blocks.push({ kind: "heading", words: "Also" });
    blocks.push({
      kind: "table",
      table: {
        columns: [
          { head: "verdict", align: "text", bold: true, widthMm: 24 },
          { head: "what", align: "text" },
          { head: "P", align: "figure", widthMm: 20 },
        ],
        rows: brief.inBrief.map((verdict) => [
          STATUS_WORDS[verdict.status],
          verdict.headline,
          verdict.probability === undefined ? undefined : chanceFigure(verdict.probability),
        ]),
      },
    });
  }
  if (brief.go.length > 0) {
    blocks.push({ kind: "heading", words: "Goes" });
    blocks.push({
      kind: "table",
      table: {
        columns: [
          { head: "question", align: "text" },
          { head: "margin", unit: "mm", align: "figure", widthMm: 20 },
        ],
        rows: brief.go.map((verdict) => [
          verdict.question,
          verdict.margin?.unit === "mm" ? mm(verdict.margin.value) : undefined,
        ]),
      },
    });
  }
  return paper(context, "findings", "What stands in the way", blocks);
}

function verdictInFull(verdict: Verdict): Block[] {
  const odds =
    verdict.probability === undefined
      ? say``
      : say` P ${chanceFigure(verdict.probability)}, ${inWords(verdict.probability)}.`;
  const best = bestRemedy(verdict.remedies);
  return [
    { kind: "heading", level: 2, words: say`${STATUS_WORDS[verdict.status]}: ${verdict.question}` },
    { kind: "paragraph", words: say`${verdict.headline}${odds}` },
    ...verdict.detail.map((words): Block => ({ kind: "paragraph", words, small: true })),
    ...verdict.remedies.map(
      (remedy): Block => ({
        kind: "paragraph",
        words: say`– ${remedy.text} (${remedy.permanence}${remedy.probability === undefined ? "" : `, P ${chanceFigure(remedy.probability)}`})${remedy === best && verdict.remedies.length > 1 ? ": best of these" : ""}.`,
      }),
    ),
    ...(verdict.remedies.length === 0
      ? verdict.work.map((work): Block => ({ kind: "paragraph", words: say`– ${workInWords(work)}.` }))
      : []),
    ...(verdict.next
      ? [
          {
            kind: "paragraph" as const,
            words: say`Measure next: ${verdict.next.what}, ${verdict.next.tool}. ${verdict.next.how}.`,
          },
        ]
      : []),
    ...verdict.missing.slice(0, 4).map(
      (reading): Block => ({
        kind: "paragraph",
        small: true,
        words: say`Missing: ${reading.what}; ${reading.tool}: ${reading.how}.`,
      }),
    ),
  ];
}

export function travellerPaper(
  context: SheetContext,
  traveller: Traveller,
  gates: ReadonlyMap<string, Gate>,
): FlowDocument {
  const hours = (minutes: number) => figure(minutes / 60, "h", 1);
  const permanent = traveller.steps.filter((step) => step.permanence === "permanent").length;
  const blocks: Block[] = [
    {
      kind: "paragraph",
      words: say`${figure(traveller.steps.length, "", 0)} steps, about ${hours(traveller.workMinutes)} of work over ${hours(traveller.elapsedMinutes)} with the waits, nights not counted out; ${figure(permanent, "", 0)} cannot be undone. Work down the list. Write readings as you read them: expected values stay off this paper until you have.`,
    },
    { kind: "caution", words: traveller.preface },
  ];
  if (traveller.stopped.length > 0) {
    blocks.push({ kind: "heading", words: "Stopped: nothing of this is planned" });
    for (const stop of traveller.stopped) blocks.push({ kind: "paragraph", words: stop.text });
  }
  blocks.push({ kind: "heading", words: "Steps" });
  traveller.steps.forEach((step, index) => {
    blocks.push(stepBlock(step, index, gates.get(step.id), traveller));
  });
  if (traveller.shopping.length > 0) {
    blocks.push({ kind: "heading", words: "To have on the bench before the first step" });
    blocks.push({
      kind: "table",
      table: {
        columns: [
          { head: "pieces", align: "figure", widthMm: 16 },
          { head: "what", align: "text" },
          { head: "there", align: "tick" },
        ],
        rows: traveller.shopping.map((item) => [figure(item.quantity, "", 0), item.what, undefined]),
      },
    });
  }
  if (traveller.keep.length > 0) {
    blocks.push({ kind: "heading", words: "Keep these parts" });
    blocks.push({
      kind: "table",
      table: {
        columns: [
          { head: "bag", align: "text", bold: true, widthMm: 30 },
          { head: "what", align: "text" },
          { head: "kept", align: "tick" },
        ],
        rows: traveller.keep.map((item) => [item.label, item.what, undefined]),
      },
    });
  }
  return paper(context, "traveller", "Traveller", blocks);
}

function stepBlock(step: Step, index: number, gate: Gate | undefined, traveller: Traveller): Block {
  const boxes: WriteBox[] = step.readings.flatMap((reading): WriteBox[] => {
    if (reading.answer === "confirm") return [];
    const unit = reading.unit === "" ? {} : { unit: reading.unit };
    return reading.twice
      ? [
          { label: say`${reading.what}, first`, ...unit },
          { label: say`${reading.what}, again`, ...unit },
        ]
      : [{ label: reading.what, ...unit }];
  });
  const ticks = step.readings.filter((reading) => reading.answer === "confirm").map((reading) => reading.what);
  const large = step.tools.filter((tool) => tool.large);
  const small = step.tools.filter((tool) => !tool.large);
  const shut =
    gate && gate.state === "shut" ? gate.reasons.filter((reason) => !reason.ok && context(reason.ref, step)) : [];
  const number = new Map(traveller.steps.map((other, at) => [other.id, at + 1]));
  const waits = step.needsBefore.filter((need) => need.waitMinutes > 0);
  return {
    kind: "step",
    id: step.id,
    number: String(index + 1),
    title: step.hold === undefined ? step.title : say`${step.title} (hold ${step.hold})`,
    permanent: step.permanence === "permanent",
    cautions: step.cautions.map((caution) => ({ words: caution.text, source: caution.source.text })),
    figures: large.map((tool) => bigFigure(tool.text)),
    body: [
      ...waits.map(
        (need) =>
          say`Not before ${figure(need.waitMinutes / 60, "h", need.waitMinutes % 60 === 0 ? 0 : 1)} after step ${number.get(need.step) ?? "?"}: ${need.because}.`,
      ),
      ...(step.rehearsal ? [step.rehearsal] : []),
      ...step.instructions,
      ...(small.length > 0
        ? [say`Tools: ${small.flatMap((tool, at) => (at === 0 ? tool.text : ["; ", ...tool.text]))}.`]
        : []),
      ...gateLines(shut),
    ],
    ticks,
    boxes,
  };
}

/** Steps that come first stand above on the paper: only what the numbers say is worth a line. */
function context(ref: string, step: Step): boolean {
  return !step.needsBefore.some((need) => need.step === ref);
}

/** "drill 2.5 mm" as a label and the figure behind it. */
function bigFigure(text: Phrase): { label: string; value: Phrase } {
  const [first, ...rest] = text;
  if (typeof first === "string" && rest.length > 0)
    return { label: first.trim().toUpperCase().replace(/[:,]$/, ""), value: rest };
  const [, what] = /^(.*) not settled$/.exec(typeof first === "string" ? first : "") ?? [];
  if (what !== undefined) return { label: what.toUpperCase(), value: say`not settled` };
  return { label: "", value: text };
}

export function markingOutPaper(context: SheetContext): FlowDocument | undefined {
  const scene = bridgeScene(context, "fret");
  const { placement: placed, instrument } = context;
  if (!scene || !placed) return undefined;
  const register = registerOf(placed, instrument);
  const side = instrument.bassSide === -1 ? "left" : "right";
  const blocks: Block[] = [
    {
      kind: "paragraph",
      words: say`For working without a printer. ${instrument.neck.boltOn ? "Neck bolted and outer" : "Outer"} strings tight. Every place counts along the neck's centre line from ${register.words} (steel rule, marks touching the work), and across from the centre line: − is to the left with the head up, + to the right; the bass side is ${side}.`,
    },
    ...drillCautions(context).map((words): Block => ({ kind: "caution", words })),
    ...placed.pieces.flatMap((piece): Block[] => {
      if (!piece.pose) return [];
      const what =
        piece.piece.id === "bridge" ? "Front edge of the plate" : `Front edge, ${piece.piece.id.replace("-", " ")}`;
      const turn = turnOf(piece, instrument);
      const standing = turn ? say` The plate stands turned by ${turnAngle(turn)}: ${turnWords(turn)}.` : say``;
      const words = say`${what}${turn ? ", on the centre line" : ""}: ${mm(frontOf(context, piece.pose.placeMm))} from ${register.words}.${standing}`;
      return [{ kind: "paragraph", words }];
    }),
    { kind: "table", table: markingOutTable(scene), large: true },
    { kind: "heading", words: "Old holes, to check the marking against" },
    { kind: "table", table: markingOutTable(scene, { roles: ["old hole", "plug"] }) },
    { kind: "sketch", scene, caption: "Not to scale: see the list for the figures", mostHighMm: 90 },
  ];
  return paper(context, "marking-out", "Marking-out list", blocks);
}

function frontOf({ placement: placed, instrument }: SheetContext, u: number): number {
  if (!placed) return u;
  return u - placed.model.frame.offsetMm - registerOf(placed, instrument).xMm;
}

/** Buy by numbers: what each part must measure to go, and what else the verdicts want bought. */
/** What is asked for in the same words is said once, behind all that it opens; nothing is said twice. */
function gateLines(reasons: readonly GateReason[]): Phrase[] {
  const byWay = new Map<string, { texts: Map<string, Phrase>; opens: Phrase | undefined }>();
  for (const reason of reasons) {
    const way = reason.opens ? JSON.stringify(reason.opens) : "";
    const group = byWay.get(way) ?? { texts: new Map<string, Phrase>(), opens: reason.opens };
    group.texts.set(JSON.stringify(reason.text), reason.text);
    byWay.set(way, group);
  }
  return [...byWay.values()].map(({ texts, opens }) => {
    const listed = stringsTogether([...texts.values()]).flatMap((text, at) => (at === 0 ? text : ["; ", ...text]));
    return say`Gate: ${listed}${opens ? say` – ${opens}` : say``}.`;
  });
}

/** "string 1: x", "string 2: x" as "strings 1, 2: x". */
function stringsTogether(texts: readonly Phrase[]): Phrase[] {
  const numbers = new Map<string, string[]>();
  const others: Phrase[] = [];
  for (const text of texts) {
    const plain = text.every((piece) => typeof piece === "string") ? text.join("") : "";
    const [, number, rest] = /^string (\d+): (.*)$/s.exec(plain) ?? [];
    if (number === undefined || rest === undefined) others.push(text);
    else numbers.set(rest, [...(numbers.get(rest) ?? []), number]);
  }
  const together = [...numbers].map(
    ([rest, list]) => say`string${list.length > 1 ? "s" : ""} ${list.join(", ")}: ${rest}`,
  );
  return [...together, ...others];
}

export function slipPaper(context: SheetContext): FlowDocument | undefined {
  const wants = tightest(
    context.verdicts.flatMap((verdict) => verdict.wants ?? []),
    context.partNames,
  );
  const bought = counted(
    worstFirst(context.verdicts).flatMap((verdict) =>
      verdict.work.flatMap((work) => (work.act === "buy" ? [{ what: work.what, spec: work.spec }] : [])),
    ),
  );
  const bridges = context.verdicts.flatMap((verdict) =>
    verdict.remedies.filter((remedy) => remedy.id === "another-bridge").map((remedy) => remedy.text),
  );
  if (wants.length + bought.length + bridges.length === 0) return undefined;
  const blocks: Block[] = [
    {
      kind: "paragraph",
      words: say`Take this to the shop with a calliper. A part whose measured dimension keeps these figures goes with a probability of ${figure(0.95, "", 2)} or better. Measure the part, not the box.`,
    },
    ...(wants.length > 0
      ? [
          {
            kind: "table" as const,
            table: {
              columns: [
                { head: "part", align: "text" as const, bold: true },
                { head: "dimension", align: "text" as const },
                { head: "must be", align: "text" as const, widthMm: 20 },
                { head: "figure", align: "figure" as const, bold: true },
                { head: "measured", align: "write" as const },
              ],
              rows: wants.map((want) => [
                want.part,
                want.dimension,
                want.bound,
                want.unit === "mm" ? mm(want.value) : figure(want.value, want.unit, 2),
                undefined,
              ]),
            },
          },
        ]
      : []),
    ...(bridges.length > 0
      ? [
          { kind: "heading" as const, words: "If another bridge is to be bought" },
          ...bridges.map((words) => ({ kind: "paragraph" as const, words })),
        ]
      : []),
    ...(bought.length > 0
      ? [
          { kind: "heading" as const, words: "To buy" },
          {
            kind: "table" as const,
            table: {
              columns: [
                { head: "what", align: "text" as const, bold: true },
                { head: "how many", align: "figure" as const },
                { head: "which", align: "text" as const },
                { head: "got", align: "tick" as const },
              ],
              rows: bought.map((item) => [item.what, figure(item.count, "", 0), item.spec, undefined]),
            },
          },
        ]
      : []),
    { kind: "lines", count: 4, label: "Notes" },
  ];
  return paper(context, "slip", "Slip for the shop", blocks, false);
}

interface Bought {
  readonly what: string;
  readonly spec: string;
}

/** What several places want alike, once, with how many. */
function counted(items: readonly Bought[]): (Bought & { readonly count: number })[] {
  const byKey = new Map<string, Bought & { readonly count: number }>();
  for (const item of items) {
    const key = JSON.stringify(item);
    byKey.set(key, { ...item, count: (byKey.get(key)?.count ?? 0) + 1 });
  }
  return [...byKey.values()];
}

/** One line a dimension: the stricter of several questions. */
function tightest(wants: readonly PartWant[], names: Readonly<Record<string, string>>): PartWant[] {
  const byKey = new Map<string, PartWant>();
  for (const one of wants) {
    const want = { ...one, part: names[one.part] ?? one.part };
    const key = `${want.part}|${want.dimension}|${want.bound}`;
    const before = byKey.get(key);
    const stricter = !before || (want.bound === "at least" ? want.value > before.value : want.value < before.value);
    if (stricter) byKey.set(key, want);
  }
  return [...byKey.values()];
}
