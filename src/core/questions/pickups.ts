/** Does each pickup drop in, and do its poles stand under the strings? Rules FT1 to FT7. */
import { leastCornerRadiusMm, RULES } from "../fit/index.ts";
import type { Cavity, Instrument, Pickup } from "../job/index.ts";
import type { Asking, Numbers } from "../ledger/index.ts";
import { mm, type Phrase, type Quantity, say, unknown, valueOr } from "../quantity/index.ts";
import type { Remedy, Verdict, Work } from "../verdict/index.ts";
import {
  assumed,
  at,
  clean,
  doubtLine,
  fitVerdict,
  judge,
  judgedParts,
  type Leaves,
  type Margins,
  ruleSum,
  wanted,
} from "./judge.ts";
import { type InstrumentQuestion, measureVerdict } from "./make-verdict.ts";
import { lowestLines } from "./pickup-height.ts";
import { poleQuestion } from "./poles.ts";
import { type Check, gapAt, gapNow, type Part, type Way } from "./rout-check.ts";
import { floorFigures, floorLines, floorSums, floorUnder } from "./rout-floor.ts";

/** How true a rout is cut by template, at each side. Common practice, no source. */
const ROUTING_U_MM = 0.15;
/** A smaller corner than this is on every pickup. Common practice, no source. */
const ANY_CORNER_MM = 0.5;

export function pickupQuestions(instrument: Instrument): InstrumentQuestion[] {
  return instrument.pickups.flatMap(({ id, name }) => [dropInQuestion(id, name), poleQuestion(id, name)]);
}

function dropInQuestion(id: string, name: string): InstrumentQuestion {
  const question = { id: `pickup.${id}.drop-in`, question: `Does the ${name} (${id}) drop in?` };
  return { ...question, answer: (asking) => dropIn(asking, id, question) };
}

function dropIn(asking: Asking<Instrument>, id: string, question: { id: string; question: string }): Verdict {
  const instrument = asking.subject;
  const pickup = instrument.pickups.find((one) => one.id === id);
  if (!pickup) return measureVerdict({ ...question, stake: 2 }, [unknown(`fit.pickups.${id}`, "length")], "Name it");
  const cavity = instrument.body.cavities.find((one) => one.id === pickup.cavityId);
  const all = checksOf(pickup, cavity);
  const missing = all.filter((check) => check.needed).flatMap(({ size, rout }) => [size, rout].filter((q) => !q.known));
  if (missing.length > 0) return measureVerdict({ ...question, stake: 2 }, missing, "whether it drops in");
  const checks = all.filter((check) => check.size.known && check.rout.known);
  const left = all.filter((check) => !checks.includes(check) && check.size.path !== "");
  const fit = fitOf(checks, instrument);
  const judged = judge({ ...fit, work: "permanent", gate: instrument.limits.gateProbability });
  if (!judged.known) return measureVerdict({ ...question, stake: 2 }, judged.missing, "whether it drops in");
  const cuts = cutsOf(checks, fit.clearanceMm);
  const goes = judged.status === "go";
  const measures = judged.status === "measure";
  return fitVerdict({
    ...question,
    ...judgedParts(judged),
    stake: 2,
    headline: goes ? goesLine(pickup.name, checks) : cutLine(pickup.name, cuts, measures, fit.after !== undefined),
    detail: [
      ...checks.map((check) => checkLine(check, fit.clearanceMm)),
      ...doubtLine(judged, "Try it in by hand before you cut anything."),
      ...(goes ? [] : floorLines(checks, fit.clearanceMm, instrument)),
      ...lowestLines(asking, pickup, cavity),
      ...cornerLine(checks, cavity),
      ...(left.length > 0 ? [say`Not checked: ${left.map(nameOf).join(", ")}. Try it in by hand.`] : []),
    ],
    work: goes || measures || !fit.after ? [] : workOf(cuts, pickup.cavityId),
    remedies: goes ? [] : remediesOf(cuts, fit.after !== undefined, judged.probability),
    sums: [
      ...checks.map((check) => checkSum(check, fit.leaves, fit.clearanceMm)),
      ...floorSums(checks, fit.clearanceMm, instrument),
    ],
    missing: wanted(
      left.flatMap(({ size, rout }) => [size, rout]),
      "the part of the fit that was not checked",
    ),
    figures: { ...figuresOf(checks, fit.clearanceMm), ...floorFigures(checks, fit.clearanceMm, instrument) },
  });
}

function checksOf(pickup: Pickup, cavity: Cavity | undefined): Check[] {
  const { body, ears, cavityId } = pickup;
  const none = (key: string): Quantity => unknown(`body.cavities.${cavityId}.${key}`, "length");
  const out = [
    checkOf("body", "ends", body.length, cavity?.length ?? none("length"), true),
    checkOf("body", "sides", body.width, cavity?.width ?? none("width"), true),
    checkOf("body", "depth", body.depth, cavity?.depth ?? none("depth"), false),
  ];
  if (!ears) return out;
  // Ears no longer than the body's own rout stand in that; longer ones want a rout of their own.
  const within = !cavity?.ears && ears.length.known && cavity?.length.known && ears.length.value <= cavity.length.value;
  const rout = within ? cavity : cavity?.ears;
  return [
    ...out,
    checkOf("ears", "ends", ears.length, rout?.length ?? none("ears.length"), ears.length.known),
    checkOf("ears", "sides", ears.width, rout?.width ?? none("ears.width"), ears.width.known),
    checkOf("ears", "depth", ears.bottom, rout?.depth ?? none("ears.depth"), false),
  ];
}

function checkOf(part: Part, way: Way, size: Quantity, rout: Quantity, needed: boolean): Check {
  const name = `${part === "ears" ? "ear" : "body"}${way.charAt(0).toUpperCase()}${way.slice(1)}`;
  return { name, part, way, size, rout, needed };
}

interface DropInFit {
  readonly leaves: Leaves;
  readonly margins: Margins;
  readonly bare: Margins;
  readonly after?: Margins;
  readonly clearanceMm: number;
}

function fitOf(checks: readonly Check[], instrument: Instrument): DropInFit {
  const clearance = instrument.limits.pickupClearance;
  const clearanceMm = valueOr(clearance, 0.5);
  const routing = assumed("workshop.routing", 0, ROUTING_U_MM, "how true a rout is cut by template, common practice");
  const leaves: Record<string, Quantity> = { clearance };
  const margins: Record<string, (x: Numbers) => number> = {};
  const bare: typeof margins = {};
  const after: typeof margins = {};
  for (const check of checks) {
    const { name } = check;
    leaves[name] = check.size;
    const rout = `${name}Rout`;
    leaves[rout] = check.rout;
    const gap = (x: Numbers) => gapAt(check, at(x, name), at(x, rout));
    const cut = Math.max(0, clearanceMm - gapNow(check));
    margins[name] = (x) => gap(x) - at(x, "clearance");
    bare[name] = gap;
    after[name] = cut === 0 ? gap : (x) => gap(x) + cut + at(x, "routing");
  }
  const floor = floorUnder(checks, clearanceMm, instrument);
  const fit = { leaves: { ...leaves, routing, ...floor.leaves }, margins, bare, clearanceMm };
  return floor.stays ? { ...fit, after: { ...after, ...floor.margins } } : fit;
}

interface Cut {
  readonly part: Part;
  readonly eachEndMm: number;
  readonly widthByMm: number;
  readonly deeperMm: number;
}

function cutsOf(checks: readonly Check[], clearanceMm: number): Cut[] {
  return (["body", "ears"] as const).flatMap((part) => {
    const by = (way: Way): number => {
      const check = checks.find((one) => one.part === part && one.way === way);
      return check === undefined ? 0 : clean(Math.max(0, clearanceMm - gapNow(check)));
    };
    const cut = { part, eachEndMm: by("ends"), widthByMm: 2 * by("sides"), deeperMm: by("depth") };
    return cut.eachEndMm + cut.widthByMm + cut.deeperMm > 0 ? [cut] : [];
  });
}

function workOf(cuts: readonly Cut[], cavity: string): Work[] {
  return cuts.map(({ part, eachEndMm, widthByMm, deeperMm }) => ({
    act: "rout",
    cavity,
    what: part,
    lengthBy: 2 * eachEndMm,
    widthBy: widthByMm,
    depthBy: deeperMm,
  }));
}

function remediesOf(cuts: readonly Cut[], canCut: boolean, probability: number): Remedy[] {
  const rout: Remedy = {
    id: "rout",
    text: say`Rout ${cutWords(cuts)}.`,
    permanence: "permanent",
    then: "go",
    probability,
  };
  const other: Remedy = {
    id: "other-part",
    text: say`Take a pickup that fits the rout as it is.`,
    permanence: "reversible",
  };
  return canCut ? [rout, other] : [other];
}

function goesLine(name: string, checks: readonly Check[]): Phrase {
  const sideways = checks.filter((check) => check.way !== "depth");
  const gaps = sideways.map(gapNow);
  const least = Math.min(...gaps);
  const even = Math.max(...gaps) - least < 0.005;
  if (even) return say`The ${name} drops in, with ${mm(least)} all round.`;
  const tightest = sideways[gaps.indexOf(least)];
  return say`The ${name} drops in, with ${mm(least)} at the tightest place, the ${tightest ? place(tightest) : "rout"}.`;
}

function cutLine(name: string, cuts: readonly Cut[], doubtful: boolean, canCut: boolean): Phrase {
  const much = cutWords(cuts);
  if (doubtful) return say`Too close to call whether the ${name} drops in: measure before you rout ${much}.`;
  if (!canCut) return say`The ${name} does not drop in, and a rout for it (${much}) would go through the body.`;
  return say`The ${name} does not drop in: rout ${much}.`;
}

/** "the ears 1.00 mm longer at each end and 2.50 mm wider" */
function cutWords(cuts: readonly Cut[]): Phrase {
  return joined(cuts.map(wordsOf), "; ");
}

function wordsOf({ part, eachEndMm, widthByMm, deeperMm }: Cut): Phrase {
  const words: Phrase[] = [];
  if (eachEndMm > 0) words.push(say`${mm(eachEndMm)} longer at each end`);
  if (widthByMm > 0) words.push(say`${mm(widthByMm)} wider`);
  if (deeperMm > 0) words.push(say`${mm(deeperMm)} deeper`);
  return say`the ${part} ${joined(words, " and ")}`;
}

function joined(parts: readonly Phrase[], by: string): Phrase {
  return parts.reduce<Phrase>((all, part, index) => (index === 0 ? part : say`${all}${by}${part}`), []);
}

function place(check: Check): string {
  const part = check.part === "ears" ? "ears" : "body";
  return check.way === "depth" ? `depth of the ${part}` : `${check.way} of the ${part}`;
}

function nameOf(check: Check): string {
  return check.way === "depth" ? `how deep the ${check.part} go${check.part === "ears" ? "" : "es"}` : place(check);
}

function checkLine(check: Check, clearanceMm: number): Phrase {
  const gap = gapNow(check);
  const where = check.way === "depth" ? "below" : check.way === "ends" ? "at each end" : "at each side";
  const part = check.part === "ears" ? "Ears" : "Body";
  const verdict = gap >= clearanceMm - 1e-9 ? "" : say`, short of the ${mm(clearanceMm)} wanted`;
  return say`${part}: ${mm(gap)} ${where}${verdict}.`;
}

function cornerLine(checks: readonly Check[], cavity: Cavity | undefined): Phrase[] {
  const ends = checks.find(({ name }) => name === "bodyEnds");
  const sides = checks.find(({ name }) => name === "bodySides");
  if (!ends || !sides || !cavity?.cornerRadius.known) return [];
  const corner = { routRadiusMm: cavity.cornerRadius.value, gapEndMm: gapNow(ends), gapSideMm: gapNow(sides) };
  const least = leastCornerRadiusMm(corner);
  if (least === undefined || least <= ANY_CORNER_MM) return [];
  return [say`Corners: the rout's are round, so the pickup's own must be round by ${mm(least)} or more.`];
}

function checkSum(check: Check, leaves: Leaves, clearanceMm: number) {
  const deep = check.way === "depth";
  const { name } = check;
  return ruleSum({
    title: `${check.part === "ears" ? "Ears" : "Body"}, ${check.way}`,
    rule: deep ? RULES.routDepth : RULES.rout,
    leaves,
    rows: [
      [`${name}Rout`, "rout", `the rout, ${place(check)}`],
      [name, "part", `the part, ${place(check)}`],
      ["clearance", "clearance", deep ? "wanted below" : "wanted at each side"],
    ],
    result: say`${mm(gapNow(check) - clearanceMm)}`,
  });
}

function figuresOf(checks: readonly Check[], clearanceMm: number): Record<string, number> {
  const out: Record<string, number> = { clearance: clearanceMm };
  for (const check of checks) {
    const { name, way } = check;
    const size = valueOr(check.size, Number.NaN);
    const cut = clean(Math.max(0, clearanceMm - gapNow(check)));
    const sides = way === "depth" ? 1 : 2;
    out[`${name}Gap`] = gapNow(check);
    out[`${name}Need`] = size + sides * clearanceMm;
    out[`${name}Have`] = valueOr(check.rout, Number.NaN);
    out[`${name}Cut`] = way === "sides" ? 2 * cut : cut;
  }
  return out;
}
