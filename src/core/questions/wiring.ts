/** Wiring: does each state sound as it should, is everything that is metal at ground, do the knobs do what they should? */
import type { Finding, FindingKind } from "../circuit/index.ts";
import type { Instrument } from "../job/index.ts";
import type { Asking } from "../ledger/index.ts";
import { figure, type Phrase, say } from "../quantity/index.ts";
import type { Remedy, Source, Sum, Verdict } from "../verdict/index.ts";
import type { WiringCheck } from "../wiring/index.ts";
import { type InstrumentQuestion, makeVerdict, measureVerdict } from "./make-verdict.ts";
import { checkOf, kohms, sentence } from "./wiring-check.ts";
import { OHMS_QUESTION } from "./wiring-ohms.ts";
import { unreadSigns } from "./wiring-signs.ts";
import { thinQuestion } from "./wiring-thin.ts";

type Asked = { readonly id: string; readonly question: string };

const SOURCE: Source = { text: "docs/spec/wiring.md, WI4 to WI9", mark: "derived" };

/** Findings that are told by the state in which they are so. */
const OF_STATE: readonly FindingKind[] = [
  "hot shorted",
  "silent",
  "coil shorted",
  "out of phase",
  "hums",
  "other sound",
  "signs not known",
  "coil hangs from hot",
];
const OF_GROUND: readonly FindingKind[] = [
  "metal not grounded",
  "metal live",
  "tip and sleeve swapped",
  "string ground missing",
  "ground through one wire",
  "battery not cut off",
  "battery never on",
];
const OF_KNOBS: readonly FindingKind[] = ["one knob silences all", "knob does nothing", "knob all at one end"];

export function wiringQuestions(instrument: Instrument): InstrumentQuestion[] {
  const { wiring } = instrument;
  if (!wiring || wiring.coils.length === 0) return [];
  const group = (id: string, question: string, kinds: readonly FindingKind[], fine: Phrase): InstrumentQuestion => {
    const asked = { id: `wiring.${id}`, question };
    return { ...asked, answer: (asking) => groupAnswer(asking, asked, kinds, fine) };
  };
  return [
    ...wiring.states.map((state): InstrumentQuestion => {
      const asked = { id: `wiring.state.${state.id}`, question: `Does ${state.title} sound as it should?` };
      return { ...asked, answer: (asking) => stateAnswer(asking, asked, state.id) };
    }),
    ...wiring.states.filter(({ complaint }) => complaint === "thin").map(thinQuestion),
    ...(wiring.states.length === 0 ? [] : [OHMS_QUESTION]),
    group(
      "ground",
      "Is all metal at ground, and nothing else?",
      OF_GROUND,
      say`Strings, cases and shields are at ground in every state.`,
    ),
    ...(wiring.tracks.length === 0
      ? []
      : [
          group(
            "knobs",
            "Does each knob do what it should?",
            OF_KNOBS,
            say`Each knob does something, and none silences what is not its own.`,
          ),
        ]),
    group(
      "ends",
      "Is every lug and conductor used?",
      ["not there", "loose end", "pole not used", "coil never heard", "short while switching"],
      say`No conductor hangs loose and no pole is left over.`,
    ),
  ];
}

function stateAnswer(asking: Asking<Instrument>, asked: Asked, id: string): Verdict {
  const all = checkOf(asking);
  const state = all?.check.states.find((one) => one.id === id);
  if (!all || !state) return measureVerdict({ ...asked, stake: 1 }, [], "how it sounds");
  const { check } = all;
  const mine = check.findings.filter(
    ({ kind, states }) => OF_STATE.includes(kind) && (states.length === 0 || states.includes(id)),
  );
  const dB = state.humDb === undefined ? undefined : Math.max(...state.humDb);
  const fine = say`${state.sound}${phaseWords(state)}${humWords(state.hum, dB, check.humAgainst)}; ${kohms(state.ohms.ohms)} at the jack.`;
  return verdictOf(asked, mine, fine, {
    detail: [
      say`Ohms at the jack, knobs as stated: ${kohms(state.ohms.ohms)}, between ${kohms(state.ohms.low)} and ${kohms(state.ohms.high)} by the limits of the parts.`,
    ],
    sums: [signSum(state, dB)],
    ...signsToRead(unreadSigns(all, state)),
    figures: {
      ohms: state.ohms.ohms,
      ohmsLow: state.ohms.low,
      ohmsHigh: state.ohms.high,
      ...(dB === undefined ? {} : { humDb: dB }),
    },
  });
}

function signsToRead(missing: Verdict["missing"]): Partial<Verdict> {
  const [next] = missing;
  return next === undefined ? {} : { missing, next };
}

type CheckedState = WiringCheck["states"][number];

function phaseWords({ phases }: CheckedState): string {
  if (phases.some((phase) => phase === "out of phase")) return ", out of phase";
  if (phases.some((phase) => phase === "in phase")) return ", in phase";
  return "";
}

function humWords(hum: CheckedState["hum"], dB: number | undefined, against: string): Phrase {
  if (hum === undefined || dB === undefined) return say``;
  return hum === "hums" && Math.abs(dB) < 0.05
    ? say`, hums as ${against} alone does`
    : say`, ${hum} (${figure(dB, "dB", 1)} against ${against} alone)`;
}

function signSum({ coils }: CheckedState, dB: number | undefined): Sum {
  return {
    title: "Signs of the coils heard",
    formula:
      "string s = winding × magnet × way round; hum h = winding × way round; alike s: in phase; opposite h: quiet",
    rows: coils.flatMap(({ name, stringSign, humSign }) => [
      ...(stringSign === undefined ? [] : [row(`s, ${name}`, `string sign of ${name}`, stringSign)]),
      ...(humSign === undefined ? [] : [row(`h, ${name}`, `hum sign of ${name}`, humSign)]),
    ]),
    result: dB === undefined ? say`hum not known` : say`hum ${figure(dB, "dB", 1)}, by the whole circuit`,
    source: SOURCE,
  };
}

function row(symbol: string, meaning: string, value: number): Sum["rows"][number] {
  return { symbol, meaning, value, unit: "", u: 0, origin: "data sheet" };
}

function groupAnswer(asking: Asking<Instrument>, asked: Asked, kinds: readonly FindingKind[], fine: Phrase): Verdict {
  const check = checkOf(asking)?.check;
  return verdictOf(asked, check?.findings.filter(({ kind }) => kinds.includes(kind)) ?? [], fine, {});
}

function verdictOf(asked: Asked, findings: readonly Finding[], fine: Phrase, more: Partial<Verdict>): Verdict {
  const [worst] = findings;
  const status =
    worst === undefined
      ? "go"
      : worst.grade === "fault"
        ? "no-go"
        : findings.some(({ kind }) => kind === "signs not known")
          ? "measure"
          : "go";
  return makeVerdict({
    ...asked,
    status,
    headline: worst ? sentence(worst.what) : fine,
    ...more,
    detail: [
      ...findings.flatMap(({ what, why }, index) => [...(index === 0 ? [] : [sentence(what)]), sentence(why)]),
      ...(more.detail ?? []),
    ],
    remedies: findings.map((finding, index) => remedyOf(finding, index)),
    figures: { findings: findings.length, ...more.figures },
  });
}

function remedyOf({ kind, remedy }: Finding, index: number): Remedy {
  return { id: `${kind.replaceAll(" ", "-")}-${index + 1}`, text: sentence(remedy), permanence: "reversible" };
}
