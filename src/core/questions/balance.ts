/** How a refit changes the balance on the strap. Rule FT38. */
import { balanceChange, RULES } from "../fit/index.ts";
import type { Instrument } from "../job/index.ts";
import { type Asking, type Numbers, weigh } from "../ledger/index.ts";
import { figure, mm, type Phrase, type Quantity, say, valueOr } from "../quantity/index.ts";
import type { Verdict } from "../verdict/index.ts";
import { assumed, at, fitVerdict, ruleSum } from "./judge.ts";
import { type InstrumentQuestion, measureVerdict } from "./make-verdict.ts";

const ASKED = { id: "balance", question: "How does the balance on the strap change?" } as const;
/** So much more at the nut is felt. Common practice, no source. */
const FELT_G = 40;
/** The middle of a row of tuners lies about this far beyond the nut. Common practice, no source. */
const TUNERS_X_MM = -90;
const TUNERS_X_U_MM = 30;

export function balanceQuestions(instrument: Instrument): InstrumentQuestion[] {
  const { masses, tuners } = instrument;
  const weighed = masses.length > 0 || (tuners?.mass.known === true && tuners.oldMass.known);
  return weighed ? [{ ...ASKED, answer: balanceAnswer }] : [];
}

interface Moved {
  readonly what: string;
  readonly count: number;
  readonly x: Quantity;
  readonly off: Quantity;
  readonly on: Quantity;
}

function movedOf({ masses, tuners }: Instrument): Moved[] {
  const moved: Moved[] = masses.map((mass) => ({ ...mass, count: 1 }));
  if (!tuners?.mass.known || !tuners.oldMass.known) return moved;
  const x = assumed("headstock.tunerX", TUNERS_X_MM, TUNERS_X_U_MM, "the middle of the tuners, common practice");
  return [...moved, { what: "tuners", count: tuners.count, x, off: tuners.oldMass, on: tuners.mass }];
}

function balanceAnswer(asking: Asking<Instrument>): Verdict {
  const { subject } = asking;
  const moved = movedOf(subject);
  const leaves: Record<string, Quantity> = { strap: subject.strapButtonX };
  for (const [index, { x, off, on }] of moved.entries()) {
    Object.assign(leaves, { [`x${index}`]: x, [`off${index}`]: off, [`on${index}`]: on });
  }
  const changeAt = (values: Numbers) =>
    balanceChange({
      strapButtonXMm: at(values, "strap"),
      moved: moved.map(({ count }, index) => ({
        xMm: at(values, `x${index}`),
        offG: count * at(values, `off${index}`),
        onG: count * at(values, `on${index}`),
      })),
    });
  const weighed = weigh({ leaves, margin: (x) => changeAt(x).atNutG, unit: "g" });
  if (!weighed.known) return measureVerdict({ ...ASKED, stake: 1 }, weighed.missing, "how the balance changes");
  const now = changeAt(
    Object.fromEntries(Object.entries(leaves).map(([name, leaf]) => [name, valueOr(leaf, Number.NaN)])),
  );
  const felt = Math.abs(now.atNutG) >= FELT_G;
  return fitVerdict({
    ...ASKED,
    status: "go",
    headline: balanceLine(now.atNutG, now.massG, felt),
    detail: [
      ...moved.map(
        ({ what, count, off, on }) => say`${what}: ${figure(count * (valueOr(on, 0) - valueOr(off, 0)), "g", 0)}.`,
      ),
      say`Pivot: the strap button, ${mm(valueOr(subject.strapButtonX, 0), 0)} from the nut. Standard uncertainty of the figure at the nut: ${figure(weighed.u, "g", 0)}.`,
      ...(felt ? [say`Hang it from the strap with the parts taped on before you fit them.`] : []),
    ],
    shares: weighed.shares,
    sums: [
      ruleSum({
        title: "Balance",
        rule: RULES.balance,
        leaves,
        rows: [
          ["strap", "strap button", "strap button from the nut"],
          ...moved.flatMap(
            ({ what }, index) =>
              [
                [`x${index}`, "x", `${what}, from the nut`],
                [`off${index}`, "off", `${what}, taken off`],
                [`on${index}`, "on", `${what}, put on`],
              ] as const,
          ),
        ],
        result: say`${figure(now.atNutG, "g", 0)} at the nut`,
      }),
    ],
    figures: { atNut: now.atNutG, atNutU: weighed.u, mass: now.massG, headward: now.headwardGMm },
  });
}

function balanceLine(atNutG: number, massG: number, felt: boolean): Phrase {
  const way = atNutG >= 0 ? "heavier" : "lighter";
  const much = figure(Math.abs(atNutG), "g", 0);
  const whole = say`${figure(Math.abs(massG), "g", 0)} ${massG >= 0 ? "more" : "less"} in all`;
  if (!felt) return say`The balance hardly changes: the head gets ${way} as if by ${much} at the nut, ${whole}.`;
  return say`The head gets ${way} as if ${much} were ${atNutG >= 0 ? "hung on" : "taken from"} the nut, ${whole}: expect to feel it.`;
}
