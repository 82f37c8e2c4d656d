/** "Can the string holes be drilled right through?": the bit's reach from both faces, and the places on the back. */
import { fromBothFaces, onTheBack, RULES } from "../fit/index.ts";
import type { Instrument } from "../job/index.ts";
import type { Asking } from "../ledger/index.ts";
import { mm, type Phrase, say, unknown } from "../quantity/index.ts";
import type { Verdict } from "../verdict/index.ts";
import { throughBody } from "./bridge-model.ts";
import { at, doubtLine, fitVerdict, judge, judgedParts, type Leaves, ruleSum } from "./judge.ts";
import { type InstrumentQuestion, measureVerdict } from "./make-verdict.ts";
import { placePhrase, sideWords } from "./place-words.ts";
import { placement } from "./placement.ts";

const THROUGH = { id: "bridge.through", question: "Can the string holes be drilled right through?", stake: 3 } as const;
const SETTLES = "whether the bit reaches half way from each face";

export function bridgeThroughQuestions({ bridge }: Instrument): InstrumentQuestion[] {
  if (!bridge) return [];
  const loadsOnTop = bridge.topAnchor !== undefined;
  const { kind, partId, anchor, pieces } = bridge;
  const through = throughBody(
    { kind, partId, anchor, loadsOnTop },
    pieces.map((piece) => ({ piece, saddles: [] })),
  );
  return through && pieces.some((piece) => piece.stringHoles.length > 0)
    ? [{ id: THROUGH.id, question: THROUGH.question, answer: answerThrough }]
    : [];
}

function answerThrough(asking: Asking<Instrument>): Verdict {
  const { body, workshop, limits, bridge } = asking.subject;
  const leaves: Leaves = { body: body.thickness, reach: workshop.bitReach };
  const needMm = (bodyMm: number) => fromBothFaces({ bodyMm, bitReachMm: bodyMm }).reachMm;
  const judged = judge({
    leaves,
    margins: { reach: (x) => at(x, "reach") - needMm(at(x, "body")) },
    // A bit is bought long enough to spare: nothing of the present one can fail it.
    after: { reach: () => SPARE_MM },
    work: "reversible",
    gate: limits.gateProbability,
  });
  if (!judged.known) return measureVerdict(THROUGH, judged.missing, SETTLES);
  if (!body.thickness.known || !workshop.bitReach.known)
    return measureVerdict(THROUGH, [unknown("settings.bitReach", "length")], SETTLES);
  const [eachMm, reachMm] = [needMm(body.thickness.value), workshop.bitReach.value];
  const longer = Math.ceil(eachMm + SPARE_MM);
  const go = judged.status === "go";
  const top = bridge?.topAnchor !== undefined;
  const back = backPlaces(asking);
  return fitVerdict({
    ...THROUGH,
    ...judgedParts(judged),
    headline: go
      ? say`Drill ${mm(eachMm, 1)} deep from each face, to meet in the middle: the bit reaches ${mm(reachMm, 1)}.`
      : say`The bit reaches ${mm(reachMm, 1)}; from each face ${mm(eachMm, 1)} is needed.`,
    detail: [
      say`Use a drill press. A wandering bit then shows on neither face; lay a straight edge along the holes of each.`,
      ...doubtLine(judged, "Hold the bit against the body's edge before drilling."),
      ...back.lines,
    ],
    remedies: go
      ? []
      : [
          {
            id: "longer-bit",
            text: say`A bit with ${mm(longer, 0)} free below the chuck`,
            permanence: "reversible",
            then: "go",
            figures: { reachMm: longer },
          },
          ...(top
            ? [
                {
                  id: "load-top",
                  text: say`Load the strings from the top`,
                  permanence: "reversible",
                  then: "go",
                } as const,
              ]
            : []),
        ],
    work: go ? [] : [{ act: "buy", what: "longer drill bit", spec: `${longer} mm free below the chuck` }],
    sums: [
      ruleSum({
        title: "Reach of the bit",
        rule: RULES.fromBothFaces,
        leaves,
        rows: [
          ["body", "body", "thickness of the body"],
          ["reach", "reach", "free length of the bit"],
        ],
        result: say`${mm(eachMm)} needed, ${mm(judged.margin.value)} to spare`,
      }),
    ],
    figures: { eachFaceMm: eachMm, bitReachMm: reachMm, ...back.figures },
  });
}

/** Of a bit that is bought, beyond what is needed (common practice, no source). */
const SPARE_MM = 2;

/** The string holes as they lie on the back, seen from the back: along as on the top, the sides changed. */
function backPlaces(asking: Asking<Instrument>): { lines: Phrase[]; figures: Record<string, number> } {
  const placed = placement(asking);
  const holes = placed.known
    ? placed.pieces
        .flatMap((piece) => piece.holes)
        .filter(({ depthMm, id }) => depthMm === "through" && /strings#/.test(id))
    : [];
  if (!placed.known || holes.length === 0) return { lines: [], figures: {} };
  const figures: Record<string, number> = {};
  const lines = [say`On the back, seen from the back with the head up:`];
  holes.forEach(({ uMm, yMm }, index) => {
    const back = onTheBack({ uMm, yMm });
    Object.assign(figures, { [`back${index + 1}UMm`]: back.uMm, [`back${index + 1}YMm`]: back.yMm });
    lines.push(say`Hole ${index + 1}: ${placePhrase(placed.model.frame, back.uMm)}, ${sideWords(back.yMm)}.`);
  });
  return { lines, figures };
}
