/** Steps about the bridge that no verdict asks for: the scale line carried over, the strings laid, the bridge fitted. */
import { type Phrase, say, standardUncertainty } from "../quantity/index.ts";
import { type Draft, draft, putOn, tool, value } from "./draft.ts";
import { uCountsFrom } from "./told-from.ts";
import { turnAngle, turnWords } from "./turn-words.ts";
import type { PlanInput } from "./types.ts";

export function carryScaleLineStep(input: PlanInput): Draft {
  const expected = expectedScaleLine(input);
  const from = uCountsFrom(input);
  return draft(input, {
    id: "carry-scale-line",
    kind: "carry scale line",
    target: "bridge",
    title: say`Carry the scale line over to the body`,
    tools: [tool(say`straight story stick`), tool(say`knife or needle`), tool(say`steel rule`)],
    instructions: [
      input.instrument.neck.boltOn
        ? say`Neck bolted, outer strings or threads tight.`
        : say`Outer strings or threads tight.`,
      say`Mark nut and fret 12 on the stick. Turn the stick end for end on fret 12: the nut's mark now shows the scale line.`,
      input.places?.fanned
        ? say`The stick lies along the centre line. Mark it on tape on the body, on the centre line only: every string has a scale line of its own.`
        : say`Mark it on tape on the body, on both sides of the centre line.`,
      say`Read it from ${from}. Lift the stick, do it again, enter both.`,
    ],
    readings: [
      value("scale-line", "scaleLine.u", {
        what: say`scale line, back from ${from}`,
        tool: "transfer",
        how: say`Story stick from nut to fret 12, turned over on fret 12.`,
        twice: true,
        ...(expected === undefined ? {} : { expected }),
      }),
    ],
  });
}

/** Standard doubt of a heel pushed home (the demos' rule, common practice), and of the transfer. */
const HEEL_U_MM = 0.3;
const TRANSFER_U_MM = 0.15;

/** Scale length less nut to heel end and less the gap: what the transfer should give, within twice the doubt of the two. */
function expectedScaleLine({ places, instrument }: PlanInput): { value: number; tolerance: number } | undefined {
  const tolerance = (doubtMm: number) => 2 * Math.hypot(doubtMm, TRANSFER_U_MM);
  const line = places?.scaleLine;
  if (line) return { value: line.uMm, tolerance: tolerance(line.doubtMm) };
  const { scaleLengths, nutToHeelEnd, heelGap } = instrument.neck;
  const scale = scaleLengths[0];
  const oneScale = scaleLengths.every((length) => length.known && scale?.known && length.value === scale.value);
  if (!scale?.known || !nutToHeelEnd.known || !oneScale) return undefined;
  // A gap without doubt is a heel that somebody says is pushed home, not one that was measured.
  const read = heelGap.known ? standardUncertainty(heelGap) : 0;
  const gap = { mm: heelGap.known ? heelGap.value : 0, u: read > 0 ? read : HEEL_U_MM };
  return {
    value: scale.value - nutToHeelEnd.value - gap.mm,
    tolerance: tolerance(Math.hypot(standardUncertainty(scale), standardUncertainty(nutToHeelEnd), gap.u)),
  };
}

export function layStringsStep(input: PlanInput): Draft {
  const margins = expectedMargins(input);
  const one = (side: "treble" | "bass") => {
    const expected = margins?.[side];
    return value(`lay-${side}`, `bench.margin.${side}`, {
      what: say`${side} side: string's middle to the edge of the board, at the last fret`,
      tool: "calliper",
      how: say`Bridge laid on its place, thread through the outer saddle and the nut slot, tight.`,
      ...(expected === undefined ? {} : { expected: { value: expected, tolerance: 0.5 } }),
    });
  };
  return draft(input, {
    id: "lay-strings",
    kind: "lay strings",
    target: "bridge",
    hold: 4,
    title: say`Lay the outer strings over the bridge before any hole`,
    tools: [tool(say`the two outer strings, or thread`), tool(say`tape for the bridge`)],
    instructions: [
      tapeLine(input),
      say`Both margins at the last fret alike, or as planned.`,
      onPosts(input)
        ? say`Mark the post holes from the sheet or the list only when both agree: nothing can be pricked through this bridge.`
        : say`Prick the outer screw holes through the bridge only when both agree.`,
    ],
    readings: [one("treble"), one("bass")],
  });
}

function onPosts({ instrument }: PlanInput): boolean {
  return instrument.bridge?.kind === "two posts";
}

/** Taped square, a bridge that has to stand askew puts both of its outer holes wrong. */
function tapeLine({ places }: PlanInput): Phrase {
  const turn = places?.turn;
  return turn
    ? say`Tape the bridge to its place, turned as on the sheet, ${turnAngle(turn)} (${turnWords(turn)}); it counts from the centre line of the neck, not of the body.`
    : say`Tape the bridge to its place, square to the centre line of the neck, not of the body.`;
}

/**
 * Half the board less the outer string's y, on a straight line from nut slot to saddle. Where the bridge has a place,
 * the place tells it; before that, the part stands square on the centre line, each single unit beside it.
 */
function expectedMargins(input: PlanInput): { treble: number; bass: number } | undefined {
  if (input.places?.margins) return input.places.margins;
  const { neck, bridge, stringCount } = input.instrument;
  const scale = neck.scaleLengths[0];
  if (!bridge || !scale?.known || !neck.frets.known || !neck.boardWidthAtLastFret.known) return undefined;
  const along = 1 - 2 ** (-neck.frets.value / 12);
  const half = neck.boardWidthAtLastFret.value / 2;
  const margin = (string: number): number | undefined => {
    const nut = neck.nutY[string - 1];
    const piece = bridge.pieces.find(({ saddles }) => saddles.some((one) => one.string === string));
    const saddle = piece?.saddles.find((one) => one.string === string)?.q;
    if (!nut?.known || !saddle?.known) return undefined;
    const bridgeY = (piece?.side.known ? piece.side.value : 0) + saddle.value;
    return half - Math.abs(nut.value + (bridgeY - nut.value) * along);
  };
  const [treble, bass] = [margin(1), margin(stringCount)];
  return treble === undefined || bass === undefined ? undefined : { treble, bass };
}

export function fitBridgeStep(input: PlanInput): Draft {
  return draft(input, {
    id: "fit-bridge",
    kind: "fit bridge",
    target: "bridge",
    title: say`Fit the bridge`,
    work: putOn("bridge"),
    tools: onPosts(input)
      ? [tool(say`press, or a bolt with nut and washers, to draw the bushings in`), tool(say`key for the posts`)]
      : [tool(say`screwdriver that fits`), tool(say`soap or wax for the screws`)],
    instructions: [
      ...(onPosts(input)
        ? [
            say`Press the bushings in square, each down to its rim. Turn the posts in by hand, then hang the bridge on them.`,
          ]
        : [say`All screws by hand first, then tighten in turn.`]),
      say`The bare end of the ground wire lies on bare metal.`,
    ],
  });
}
