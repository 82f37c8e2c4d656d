/** "Can the strings go through the body?": string holes at the place chosen for the screws. */
import { holesAtPose, judgeHoles } from "../bridge/index.ts";
import type { Instrument } from "../job/index.ts";
import type { Asking } from "../ledger/index.ts";
import { mm, say } from "../quantity/index.ts";
import type { Remedy, Verdict } from "../verdict/index.ts";
import { patternOf } from "./bridge-model.ts";
import { type InstrumentQuestion, listed, makeVerdict, measureVerdict } from "./make-verdict.ts";
import { placement } from "./placement.ts";

const STRINGS = { id: "bridge.string-holes", question: "Can the strings go through the body?", stake: 3 } as const;

export function stringHoleQuestions({ bridge }: Instrument): InstrumentQuestion[] {
  if (!bridge || bridge.anchor === "top" || !bridge.pieces.some((piece) => piece.stringHoles.length > 0)) return [];
  return [{ id: STRINGS.id, question: STRINGS.question, answer: answerStringHoles }];
}

/** String holes at the place chosen for the screws: judged together with the screws and the plugs they ask for. */
function answerStringHoles(asking: Asking<Instrument>): Verdict {
  const placed = placement(asking);
  if (!placed.known) return measureVerdict(STRINGS, placed.missing, "where the string holes would fall");
  const { bridge } = placed.model;
  const pieces = placed.pieces
    .filter((piece) => piece.saddles.length > 0)
    .map(({ piece, pose }) => ({ pose, ...patternOf(piece, bridge.kind, true) }));
  if (pieces.some(({ pose }) => !pose))
    return makeVerdict({ ...STRINGS, status: "no-go", headline: say`There is no place to judge: see bridge.place.` });
  const missing = pieces.flatMap((piece) => piece.missing);
  if (missing.length > 0) return measureVerdict(STRINGS, missing, "where the string holes would fall");
  const newHoles = pieces.flatMap(({ holes, pose }) => (pose ? holesAtPose(holes, pose) : []));
  const judged = judgeHoles({ ...placed.scene, newHoles });
  const own = judged.conflicts.filter((conflict) => /strings#/.test(conflict.aId) || /strings#/.test(conflict.bId));
  const overlaps = judged.walls.filter((wall) => /strings#/.test(wall.newId)).sort((a, b) => a.wallMm - b.wallMm);
  const worst = overlaps[0];
  const toPlug = own
    .filter((conflict) => conflict.rule === "new hole too near a plug")
    .sort((a, b) => a.wallMm - b.wallMm)[0];
  const cut = own.map((conflict) => conflict.plugCutMm ?? 0).reduce((a, b) => Math.max(a, b), 0);
  if (own.length === 0) {
    const headline = worst
      ? say`The string holes clear every old hole: least wall ${mm(worst.wallMm)}.`
      : say`There are no old holes near the string holes.`;
    return makeVerdict({ ...STRINGS, status: "go", headline, figures: worst ? { leastWallMm: worst.wallMm } : {} });
  }
  const top = bridge.loadsOnTop && bridge.anchor !== "through";
  const remedy: Remedy = {
    id: "load-top",
    text: say`Load the strings from the top: reversible, and the old holes stay as they are`,
    permanence: "reversible",
    then: "go",
  };
  return makeVerdict({
    ...STRINGS,
    status: top ? "rework" : "no-go",
    headline: say`New string holes would ${(worst?.wallMm ?? 0) < 0 ? "overlap" : "stand too near"} the old ones (${mm(Math.abs(worst?.wallMm ?? 0))})${top ? ": load the strings from the top" : ""}.`,
    detail: [
      ...(cut > 0 ? [say`A plug in the old string hole would be cut open ${mm(cut)} deep by the new one.`] : []),
      ...(toPlug
        ? [
            say`The plugs of the old screw holes would stand ${mm(toPlug.wallMm)} from the new string holes, under ${mm(toPlug.needMm, 1)}.`,
          ]
        : []),
      say`In the way: ${listed([...new Set(own.map((conflict) => conflict.rule))])}.`,
    ],
    remedies: top ? [remedy] : [],
    work: top ? [{ act: "choose", what: "strings loaded from the top" }] : [],
    figures: {
      overlapMm: Math.max(0, -(worst?.wallMm ?? 0)),
      overlapCount: overlaps.filter((wall) => wall.wallMm < 0).length,
      ...(cut > 0 ? { plugCutMm: cut } : {}),
      ...(toPlug ? { plugToStringHoleMm: toPlug.wallMm } : {}),
    },
  });
}
