/** "Where does the scale line fall on this body?": the datum, against the neck that was there before. */
import type { Instrument } from "../job/index.ts";
import { type Asking, sumOf } from "../ledger/index.ts";
import { mm, type Phrase, say, standardUncertainty, unknown } from "../quantity/index.ts";
import type { Verdict } from "../verdict/index.ts";
import { missingReading } from "./how-to-measure.ts";
import { type InstrumentQuestion, makeVerdict, measureVerdict } from "./make-verdict.ts";
import { countedFrom, type ScaleFrame, scaleFrame } from "./scale-frame.ts";
import { scaleTrouble } from "./scale-trouble.ts";

const HEAD = { id: "scale.line", question: "Where does the scale line fall on this body?", stake: 3 } as const;

export function scaleLineQuestions(instrument: Instrument): InstrumentQuestion[] {
  return instrument.bridge ? [{ id: HEAD.id, question: HEAD.question, answer }] : [];
}

function answer(asking: Asking<Instrument>): Verdict {
  const frame = scaleFrame(asking);
  if (!frame.known) return measureVerdict(HEAD, frame.missing, "where the scale line falls");
  const { best } = frame;
  const u = standardUncertainty(best.quantity);
  const old = oldLine(asking.subject);
  const shift = old === undefined ? undefined : best.quantity.value - old;
  const trouble = scaleTrouble(asking.subject, frame);
  const assumed = best.quantity.origin === "assumed";
  const moved = shift !== undefined && Math.abs(shift) > 0.05;
  return makeVerdict({
    ...HEAD,
    status: trouble || assumed ? "measure" : "go",
    headline: trouble
      ? say`${trouble.words}. Measure again before anything else.`
      : say`The scale line lies ${mm(best.quantity.value, 1, u)} ${countedFrom(frame)}, ${best.words}${moved ? say`: ${mm(Math.abs(shift), 1)} further ${shift > 0 ? "back" : "forward"} than the old neck's, so the old bridge's place is of no use` : say``}.`,
    ...(trouble ? { missing: trouble.readings, next: trouble.readings[0] } : {}),
    ...(!trouble && assumed ? readAgain(asking.subject) : {}),
    detail: [
      ...otherWays(frame),
      ...(assumed ? [say`Nobody has measured it: a printed scale length is an assumption.`] : []),
    ],
    sums: frame.candidates.map((candidate) =>
      sumOf(
        { leaves: Object.fromEntries(candidate.from.map((quantity) => [quantity.path, quantity])) },
        {
          title: `Scale line ${candidate.words}`,
          formula: candidate.formula,
          symbols: Object.fromEntries(
            candidate.from.map((quantity) => [
              quantity.path,
              { symbol: quantity.path.split(".").at(-1) ?? "", meaning: quantity.path },
            ]),
          ),
          result: say`S = ${mm(candidate.quantity.value, 1, standardUncertainty(candidate.quantity))}`,
          source: { text: "Derived: fret 12 halves the scale", mark: "derived" },
        },
      ),
    ),
    figures: {
      scaleLineMm: best.quantity.value,
      uMm: u,
      ...(old === undefined ? {} : { oldScaleLineMm: old }),
      ...(shift === undefined ? {} : { shiftMm: shift }),
      ...Object.fromEntries(
        frame.candidates.map((candidate) => [`u ${candidate.way}`, standardUncertainty(candidate.quantity)]),
      ),
    },
  });
}

/** What to read where the line is only printed. */
function readAgain({ neck, scaleLine }: Instrument): Pick<Verdict, "missing" | "next"> {
  const line = unknown("scaleLine.u", "length");
  const wanted = neck.nutToFret12.known ? [line] : [neck.nutToFret12, ...(scaleLine.read.length > 0 ? [] : [line])];
  const missing = wanted.map((quantity) => missingReading(quantity, "where the scale line falls"));
  const [next] = missing;
  return next === undefined ? { missing } : { missing, next };
}

function oldLine({ oldNeck, scaleLine }: Instrument): number | undefined {
  if (scaleLine.old.known) return scaleLine.old.value;
  if (oldNeck?.scaleLength.known && oldNeck.nutToHeelEnd.known)
    return oldNeck.scaleLength.value - oldNeck.nutToHeelEnd.value;
  return undefined;
}

function otherWays(frame: Extract<ScaleFrame, { known: true }>): Phrase[] {
  return frame.candidates
    .filter((candidate) => candidate !== frame.best)
    .map(
      (candidate) =>
        say`Checked ${candidate.words}: ${mm(candidate.quantity.value, 1, standardUncertainty(candidate.quantity))}.`,
    );
}
