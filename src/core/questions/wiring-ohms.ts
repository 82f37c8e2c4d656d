/**
 * What should the meter read at the jack, and does it?
 *
 * Model: direct current through coils and pots at the room's temperature; limits as in core/wiring/ohms.ts. A reading
 * outside of them is told with the usual mistake that gives it.
 */
import type { Instrument } from "../job/index.ts";
import type { Asking } from "../ledger/index.ts";
import { figure, type Phrase, type Quantity, say, standardUncertainty } from "../quantity/index.ts";
import type { Remedy, Sum, Verdict } from "../verdict/index.ts";
import {
  type OhmsCause,
  OPEN_FROM_OHMS,
  ohmsBehindCapacitors,
  ohmsCauses,
  ohmsOfCoilsAlone,
  readingAgrees,
  type StateCheck,
  type WiringCheck,
} from "../wiring/index.ts";
import { type InstrumentQuestion, makeVerdict, measureVerdict } from "./make-verdict.ts";
import { type Checked, checkOf, kohms, sentence } from "./wiring-check.ts";

export const OHMS_QUESTION: InstrumentQuestion = {
  id: "wiring.ohms",
  question: "What should the meter read at the jack?",
  answer: ohmsAnswer,
};

interface OneState {
  readonly check: WiringCheck;
  readonly state: StateCheck;
  readonly title: string;
  readonly readOhms: number | undefined;
  readonly agrees: boolean;
  readonly causes: readonly OhmsCause[];
  /** Behind a capacitor that blocks; undefined where the meter reads through. */
  readonly behind?: number;
  /** Coils without the pots beside them. */
  readonly coilsAlone: number;
}

function ohmsAnswer(asking: Asking<Instrument>): Verdict {
  const { id, question } = OHMS_QUESTION;
  const asked = { id, question, stake: 1 } as const;
  const all = checkOf(asking);
  const missing = all ? unreadCoils(all) : [];
  if (!all || missing.length > 0) return measureVerdict(asked, missing, "what the meter should show at the jack");
  const states = all.check.states.map((state, index) => oneState(all, state, index));
  const wrong = states.filter(({ agrees }) => !agrees);
  const [worst] = wrong;
  const shown = worst ?? states[0];
  return makeVerdict({
    ...asked,
    status: worst ? "no-go" : "go",
    headline: worst ? wrongWords(worst, states.length) : rightWords(states),
    detail: states.flatMap((one) => detailOf(one, states.length, all.check.celsius)),
    remedies: wrong.flatMap(remediesOf),
    sums: shown ? [sumOf(shown)] : [],
    figures: Object.assign({}, ...states.map((one) => figuresOf(one, states.length))),
  });
}

/** Coils that have a say at the jack and whose ohms nobody has given. */
function unreadCoils({ check, wiring }: Checked): Quantity[] {
  const parts = new Set(
    check.states.flatMap(({ ohms, coils }) => [...ohms.shares.map(({ part }) => part), ...coils.map(({ id }) => id)]),
  );
  return wiring.coils.filter(({ id, ohms }) => parts.has(id) && !ohms.known).map(({ ohms }) => ohms);
}

function oneState({ check, wiring }: Checked, state: StateCheck, index: number): OneState {
  const inState = wiring.states[index];
  const circuitState = check.facts.states[index]?.inside.state;
  const readOhms = inState?.read?.value;
  const agrees = readOhms === undefined || readingAgrees(state.ohms, readOhms);
  const at = circuitState && { wired: check.wired, state: circuitState, celsius: check.celsius };
  const behind = at && !Number.isFinite(state.ohms.ohms) ? ohmsBehindCapacitors(at).ohms : undefined;
  return {
    check,
    state,
    title: state.title,
    readOhms,
    agrees,
    causes: at && readOhms !== undefined && !agrees ? ohmsCauses({ ...at, readOhms, band: state.ohms }) : [],
    ...(behind === undefined ? {} : { behind }),
    coilsAlone: at ? ohmsOfCoilsAlone(at).ohms : Number.POSITIVE_INFINITY,
  };
}

function rightWords(states: readonly OneState[]): Phrase {
  const [only] = states;
  if (only && states.length === 1) {
    const { ohms } = only.state;
    if (only.readOhms !== undefined)
      return say`Agrees: ${readWords(only.readOhms)} read, ${kohms(ohms.ohms)} expected${between(only)}.`;
    if (only.behind !== undefined) return blockedWords(only.behind);
    return say`The meter should read ${kohms(ohms.ohms)} at the jack${between(only)}.`;
  }
  const read = states.filter(({ readOhms }) => readOhms !== undefined).length;
  const list = states
    .slice(0, MOST_IN_HEADLINE)
    .flatMap(({ title, state }, index) => [index === 0 ? "" : "; ", `${title} `, ...kohms(state.ohms.ohms)]);
  const more = states.length > MOST_IN_HEADLINE ? `; ${states.length - MOST_IN_HEADLINE} more below` : "";
  return say`${read > 0 ? `${read} of ${states.length} read, all as expected: ` : "At the jack: "}${list}${more}.`;
}

const MOST_IN_HEADLINE = 6;

function blockedWords(behind: number): Phrase {
  return Number.isFinite(behind)
    ? say`The meter should show open: a capacitor in series blocks direct current. Behind it stand ${kohms(behind)}.`
    : say`The meter should show open: nothing leads from tip to sleeve.`;
}

function wrongWords(one: OneState, count: number): Phrase {
  const where = count > 1 ? `${one.title}: ` : "";
  const [first] = one.causes;
  const why = first
    ? say` First to look at: ${first.what}.`
    : say` No single usual mistake gives that: read each coil by itself.`;
  return say`${where}${readWords(one.readOhms ?? 0)} read, ${kohms(one.state.ohms.ohms)} expected${between(one)}.${why}`;
}

function readWords(ohms: number): Phrase {
  return ohms >= OPEN_FROM_OHMS ? say`open` : kohms(ohms);
}

function between({ state: { ohms } }: OneState): Phrase {
  return Number.isFinite(ohms.ohms) ? say`, between ${kohms(ohms.low)} and ${kohms(ohms.high)}` : say``;
}

function detailOf(one: OneState, count: number, celsius: number): Phrase[] {
  const { state, coilsAlone, causes, readOhms, behind } = one;
  const { ohms } = state.ohms;
  const where = count > 1 ? `${one.title}: ` : "";
  const lines: Phrase[] = [];
  if (count > 1) {
    const read = readOhms === undefined ? say`` : say`; ${readWords(readOhms)} read`;
    lines.push(say`${where}${kohms(ohms)}${between(one)}${read}.`);
  }
  if (behind !== undefined && count > 1) lines.push(blockedWords(behind));
  if (Number.isFinite(coilsAlone) && Number.isFinite(ohms) && Math.abs(coilsAlone / ohms - 1) > LEAST_SAID)
    lines.push(
      say`${where}The coils alone are ${kohms(coilsAlone)} at ${figure(celsius, "°C", 0)}; the pots beside them make ${kohms(ohms)} of it.`,
    );
  const [first, ...others] = causes;
  if (first && others.length > 0) lines.push(...others.map(({ what }) => say`${where}It could also be that ${what}.`));
  for (const { part } of state.ohms.shares)
    if (one.check.wired.guesses.some((guess) => guess.part === part && guess.kind === "pot"))
      lines.push(say`${where}Nobody has given the ohms of ${part}: the limits allow for that.`);
  return lines;
}

/** Less than this a meter on its 20 kΩ range does not show. */
const LEAST_SAID = 1e-3;

function remediesOf({ causes }: OneState): Remedy[] {
  return causes.map(({ kind, remedy }, index) => ({
    id: `${kind.replaceAll(" ", "-")}-${index + 1}`,
    text: sentence(remedy),
    permanence: "reversible",
  }));
}

function sumOf({ check, state }: OneState): Sum {
  return {
    title: `Ohms at the jack, ${state.title}`,
    formula:
      "in series R = Σ R; in parallel 1/R = Σ 1/R; a coil at T has R20 (1 + 0.00393 (T - 20)); capacitors are open",
    rows: [
      ...state.ohms.shares.flatMap(({ part }) => {
        const ohms = check.wired.ohmsOf.get(part);
        return ohms?.known ? [rowOf(part, ohms)] : [];
      }),
      {
        symbol: "T",
        meaning: "temperature of the coils",
        value: check.celsius,
        unit: "°C",
        u: 0,
        origin: "rule" as const,
      },
    ],
    result: say`${kohms(state.ohms.ohms)}, between ${kohms(state.ohms.low)} and ${kohms(state.ohms.high)}`,
    source: { text: "Ohm's and Kirchhoff's laws; copper by IEC 60028", mark: "published" },
  };
}

function rowOf(part: string, quantity: Extract<Quantity, { known: true }>): Sum["rows"][number] {
  return {
    symbol: `R, ${part}`,
    meaning: `ohms of ${part}`,
    value: quantity.value,
    unit: "Ω",
    u: standardUncertainty(quantity),
    origin: quantity.origin,
    path: quantity.path,
    ...(quantity.tool === undefined ? {} : { tool: quantity.tool }),
  };
}

function figuresOf({ state, readOhms, agrees }: OneState, count: number): Record<string, number> {
  const name = (word: string) => (count > 1 ? `${word}, ${state.id}` : word);
  const { ohms, low, high } = state.ohms;
  return {
    ...(Number.isFinite(ohms) ? { [name("ohms")]: ohms, [name("ohmsLow")]: low, [name("ohmsHigh")]: high } : {}),
    ...(readOhms === undefined ? {} : { [name("readOhms")]: readOhms, [name("agrees")]: agrees ? 1 : 0 }),
  };
}
