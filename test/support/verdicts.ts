/** Verdicts made by hand, for tests of what is done with verdicts. */
import { mm, say } from "../../src/core/quantity/index.ts";
import type { NextReading, Remedy, Verdict } from "../../src/core/verdict/index.ts";

export function verdict(given: Partial<Verdict> & Pick<Verdict, "id">): Verdict {
  return {
    question: `Does ${given.id} fit?`,
    status: "go",
    headline: say`${given.id} fits`,
    detail: [],
    stake: 1,
    remedies: [],
    work: [],
    sums: [],
    shares: [],
    missing: [],
    figures: {},
    ...given,
  };
}

export function remedy(given: Partial<Remedy> & Pick<Remedy, "id">): Remedy {
  return { text: say`take ${given.id}`, permanence: "reversible", ...given };
}

export function reading(given: Partial<NextReading> = {}): NextReading {
  return {
    path: "scaleLine.read",
    what: "the scale line on the body",
    tool: "a story stick",
    how: "bolt the neck on, pull the outer strings tight, mark at fret 12 twice over",
    minutes: 10,
    settles: "where the plate may stand",
    ...given,
  };
}

/** The plate of demo A with its plain third: the window is empty by 1.83 mm. */
export const EMPTY_WINDOW = verdict({
  id: "bridge.window",
  question: "Where must this bridge stand?",
  status: "no-go",
  headline: say`Nowhere: the window is empty by ${mm(1.83)}, between string 3 and string 6.`,
  detail: [say`String 3 needs the plate behind ${mm(173.32)}, string 6 before ${mm(171.49)}.`],
  stake: 3,
  probability: 0.004,
  remedies: [
    remedy({
      id: "wound-third",
      text: say`string a wound third: the window is then ${mm(170.25)} to ${mm(171.49)}`,
      then: "go",
      probability: 0.98,
    }),
  ],
  next: reading({ probabilityAfter: 0.02 }),
  sums: [
    {
      title: "Furthest back that the plate may stand",
      formula: "P_max = min over the strings of (S + s_i - r - a_i)",
      rows: [
        {
          symbol: "S",
          meaning: "scale line on the body",
          value: 182,
          unit: "mm",
          u: 0.15,
          origin: "measured",
          tool: "story stick",
        },
        {
          symbol: "s_6",
          meaning: "setback of string 6",
          value: 4.26,
          unit: "mm",
          u: 0.2,
          origin: "measured",
          tool: "tuner",
        },
        { symbol: "a_6", meaning: "saddle 6 at its front stop", value: 13, unit: "mm", u: 0.029, origin: "data sheet" },
        { symbol: "r", meaning: "reserve at each end of the travel", value: 0.5, unit: "mm", u: 0, origin: "rule" },
      ],
      result: say`${mm(172.76)}`,
      source: { text: "plain geometry", mark: "derived" },
    },
  ],
  shares: [
    { path: "drilling", what: "drilling by hand", share: 0.52, sensitivity: 1 },
    { path: "scaleLine.read", what: "the scale line on the body", share: 0.48, sensitivity: 1 },
  ],
});
