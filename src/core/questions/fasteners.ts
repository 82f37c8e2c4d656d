/**
 * Lead holes of the bridge's screws: which bit, in this wood. Rules FT23 to FT30, FT42.
 *
 * The core of a screw decides, and nobody prints it. Three rules give it as a part of the shank and disagree by a fifth;
 * the answer spans all three, and asks for the core of one screw. Every size of screw is judged; the worst decides.
 */
import {
  engagementMm,
  finishAdvice,
  type LeadHole,
  leadHole,
  nearestBitMm,
  pullOut,
  type RootRule,
  RULES,
  rootMm,
  screwSpacing,
} from "../fit/index.ts";
import type { Instrument } from "../job/index.ts";
import type { Asking, Numbers } from "../ledger/index.ts";
import { figure, type Known, mm, type Phrase, type Quantity, say, unknown } from "../quantity/index.ts";
import type { NextReading, Sum, Verdict } from "../verdict/index.ts";
import { at, fitVerdict, type Judgement, judge, judgedParts, type Leaves, type Margins, ruleSum } from "./judge.ts";
import { type InstrumentQuestion, measureVerdict } from "./make-verdict.ts";
import { bitsOf, ownBitLine } from "./own-bits.ts";
import { acrossCrests, crestLine, thinnerCore } from "./screw-core.ts";
import { type Gravity, gravityOf } from "./wood.ts";

const ASKED = { id: "fasteners.bridge", question: "Which bit for the lead holes of the bridge screws?" } as const;

export function fastenerQuestions(instrument: Instrument): InstrumentQuestion[] {
  const { bridge } = instrument;
  const screwed =
    bridge !== undefined && bridge.kind !== "two posts" && bridge.pieces.some(({ screws }) => screws.length > 0);
  return screwed ? [{ ...ASKED, answer: leadAnswer }] : [];
}

/** Screws of one thread and one lead hole: they are judged together. */
interface Screw {
  readonly thread: Known;
  readonly pilot: Known | undefined;
  /** As measured on the screw, or not known. */
  readonly core: Quantity;
  /** The least of them all. */
  readonly depth: Known | undefined;
}

function screwsIn({ bridge }: Instrument) {
  return (bridge?.pieces ?? []).flatMap((piece) => piece.screws);
}

/** Each thread with each of its lead holes once, the thinnest first. */
function sizesOf(instrument: Instrument): Screw[] {
  const sizes = new Map<string, Screw>();
  for (const { thread, pilot, core, depth } of screwsIn(instrument)) {
    if (!thread.known) continue;
    const key = `${thread.value} ${pilot.known ? pilot.value : "none"}`;
    const before = sizes.get(key);
    const shallower = depth.known && !(before?.depth && before.depth.value <= depth.value) ? depth : before?.depth;
    sizes.set(
      key,
      before
        ? { ...before, core: thinnerCore(before.core, core), depth: shallower }
        : { thread, ...knownOnly(pilot), core, depth: shallower },
    );
  }
  return [...sizes.values()].sort((a, b) => a.thread.value - b.thread.value);
}

function knownOnly(pilot: Quantity): Pick<Screw, "pilot"> {
  return { pilot: pilot.known ? pilot : undefined };
}

const ROOTS: readonly (readonly [RootRule, string, keyof typeof RULES])[] = [
  ["two thirds", "two thirds of the shank", "rootTwoThirds"],
  ["chart", "a distributor's chart", "rootChart"],
  ["nds", "a standard's table, from memory", "rootNds"],
];

/** What the rules and the wood say of one screw. */
interface LeadCase {
  readonly screw: Screw;
  readonly wood: Gravity;
  readonly gravity: number;
  /** Core by each rule of `ROOTS`, in its order; none where it was measured. */
  readonly roots: readonly number[];
  /** As measured, else their span as one doubtful value. */
  readonly root: Known;
  readonly least: number;
  readonly most: number;
  readonly lead: LeadHole;
  /** By the rule for the wood, to a tenth. */
  readonly ruleMm: number;
  readonly ownBits: readonly number[];
  /** Own bit, if one is listed that is near the lead hole and not above the least core. */
  readonly bit: number | undefined;
  readonly takeMm: number;
}

function leadAnswer(asking: Asking<Instrument>): Verdict {
  const { subject } = asking;
  const wood = gravityOf(subject);
  const sizes = sizesOf(subject);
  const unread = screwsIn(subject).flatMap(({ thread }) => (thread.known ? [] : [thread]));
  if (sizes.length === 0 || unread.length > 0)
    return measureVerdict(
      { ...ASKED, stake: 2 },
      unread.length > 0 ? unread : [unknown("parts.bridge.screws.thread", "length")],
      "which bit to take",
    );
  const crests = sizes.filter(acrossCrests);
  if (crests.length > 0) {
    const again = crests.map(({ core }) => core);
    return {
      ...measureVerdict({ ...ASKED, stake: 2 }, again, "which bit is not above the core"),
      detail: crests.map(crestLine),
    };
  }
  if (!wood.quantity.known) return measureVerdict({ ...ASKED, stake: 2 }, [wood.quantity], "which bit to take");
  const gravity = wood.quantity.value;
  const cases = sizes.map((screw) => leadCase(screw, wood, gravity, bitsOf(subject)));
  const judged = judge({ ...leadProblem(cases), work: "reversible", gate: subject.limits.gateProbability });
  if (!judged.known) return measureVerdict({ ...ASKED, stake: 2 }, judged.missing, "which bit to take");
  return leadVerdict(cases, judged, spacingLines(subject));
}

/** Every size has its own margin: a hole right for the thin screws is no answer for the thick ones. */
function leadProblem(cases: readonly LeadCase[]): {
  readonly leaves: Leaves;
  readonly margins: Margins;
  readonly after: Margins;
} {
  const leaves: Record<string, Quantity> = {};
  const margins: Record<string, (x: Numbers) => number> = {};
  const after: typeof margins = {};
  for (const [index, one] of cases.entries()) {
    const { screw, root, takeMm } = one;
    const [name, pilot] = [`root${index}`, `pilot${index}`];
    leaves[name] = root;
    leaves[pilot] = screw.pilot ?? { ...root, path: `${screw.thread.path}.lead`, value: takeMm, doubt: [] };
    margins[name] = (x) => at(x, name) - at(x, pilot);
    after[name] = tooWide(one) ? (x) => at(x, name) - takeMm : margins[name];
  }
  return { leaves, margins, after };
}

/** The core of the size as it is known now, less its lead hole. */
function spareOf({ root, screw, takeMm }: LeadCase): number {
  return root.value - (screw.pilot?.value ?? takeMm);
}

function tooWide(one: LeadCase): boolean {
  return spareOf(one) < 0;
}

/**
 * Neighbours closer than structural practice likes, along the grain (taken as running along the strings) and across it
 * at once. Rule FT29: guitar hardware often is closer, so it is said and never judged.
 */
function spacingLines({ bridge }: Instrument): Phrase[] {
  const close = (bridge?.pieces ?? []).flatMap(({ screws }) =>
    screws.flatMap((a, index) =>
      screws.slice(index + 1).flatMap((b) => {
        if (!a.p.known || !a.q.known || !b.p.known || !b.q.known || !a.thread.known || !b.thread.known) return [];
        const alongMm = Math.abs(a.p.value - b.p.value);
        const acrossMm = Math.abs(a.q.value - b.q.value);
        const level = screwSpacing(Math.max(a.thread.value, b.thread.value));
        const under = alongMm < level.alongGrainMm && acrossMm < level.acrossGrainMm;
        return under ? [{ alongMm, acrossMm, level, apartMm: Math.hypot(alongMm, acrossMm) }] : [];
      }),
    ),
  );
  const nearest = close.sort((a, b) => a.apartMm - b.apartMm)[0];
  if (!nearest) return [];
  const { alongMm, acrossMm, level } = nearest;
  return [
    say`Two screws stand ${mm(acrossMm, 1)} apart across the grain and ${mm(alongMm, 1)} along it; carpentry looks twice under ${mm(level.acrossGrainMm, 1)} and ${mm(level.alongGrainMm, 1)}. Do not skip the rehearsal in scrap.`,
  ];
}

function leadCase(screw: Screw, wood: Gravity, gravity: number, bitsMm: readonly number[]): LeadCase {
  const { path, value: shankMm } = screw.thread;
  const { core } = screw;
  const roots = core.known ? [] : ROOTS.map(([rule]) => rootMm({ shankMm, rule }));
  const [least, most] = core.known ? [core.value, core.value] : [Math.min(...roots), Math.max(...roots)];
  const term = {
    id: `${path}.root`,
    u: (most - least) / Math.sqrt(12),
    shape: "uniform",
    what: "three rules for the core disagree",
  } as const;
  const root: Known = core.known
    ? core
    : {
        known: true,
        path: core.path,
        kind: "length",
        value: (least + most) / 2,
        origin: "assumed",
        said: "",
        doubt: [term],
      };
  const lead = leadHole({ rootMm: root.value, gravity });
  const wantedMm = Math.min(lead.leadMm, least);
  const ruleMm = Math.floor(wantedMm * 10 + 0.5) / 10;
  const bit = nearestBitMm({ wantedMm, notAboveMm: least, bitsMm });
  return {
    screw,
    wood,
    gravity,
    roots,
    root,
    least,
    most,
    lead,
    ruleMm,
    ownBits: bitsMm,
    bit,
    takeMm: bit ?? ruleMm,
  };
}

function leadVerdict(cases: readonly LeadCase[], judged: Judgement, spacing: readonly Phrase[]): Verdict {
  const rework = judged.status === "rework";
  const worst = cases.reduce((least, one) => (spareOf(one) < spareOf(least) ? one : least));
  const wide = rework ? cases.filter(tooWide) : [];
  const several = cases.length > 1;
  const others = cases.filter((one) => one !== worst);
  return fitVerdict({
    ...ASKED,
    ...judgedParts(judged),
    stake: 2,
    headline: leadLine(rework, worst, cases),
    detail: [
      ...(several ? cases.map(sizeLine) : []),
      ...cases.flatMap((one) => leadDetail(one)),
      rehearsalLine(),
      ...cases.map(({ takeMm, screw }) => finishLine(takeMm, screw.thread.value)),
      ...cases.flatMap(({ screw, gravity }) => holdLine(screw.depth, screw.thread.value, gravity, several)),
      ...spacing,
    ],
    remedies: rework
      ? [
          {
            id: "smaller-bit",
            text: say`Take ${bitsToTake(wide, several)} instead, after trying it in scrap.`,
            permanence: "reversible",
            then: "go",
            probability: judged.probability,
          },
        ]
      : [],
    work: [...new Set(wide.map((one) => workOf(one, several)))].map((what) => ({ act: "choose", what })),
    sums: cases.flatMap((one) => leadSums(one, several)),
    ...((rework || judged.doubtful) && !worst.screw.core.known ? { next: coreReading(worst, several) } : {}),
    figures: Object.assign({}, ...[worst, ...others].map((one, index) => figuresOf(one, index === 0 ? "" : index + 1))),
  });
}

function workOf({ screw, takeMm }: LeadCase, several: boolean): string {
  const size = several ? `${screw.thread.value.toFixed(1)} mm ` : "";
  if (screw.core.known)
    return `take a bit of ${takeMm.toFixed(1)} mm for the ${size}bridge screws, not above their core, and try it in scrap`;
  return `measure the core of one ${size}bridge screw, then take a bit not above it (${takeMm.toFixed(1)} mm by the rules), and try it in scrap`;
}

function figuresOf(one: LeadCase, suffix: string | number): Record<string, number> {
  const { screw, least, most, lead, takeMm, gravity, bit } = one;
  const figures = {
    thread: screw.thread.value,
    rootLeast: least,
    rootMost: most,
    lead: lead.leadMm,
    take: takeMm,
    gravity,
    ...(screw.pilot ? { declared: screw.pilot.value } : {}),
    ...(bit === undefined ? {} : { ownBit: bit }),
  };
  return Object.fromEntries(Object.entries(figures).map(([name, value]) => [`${name}${suffix}`, value]));
}

/** "2.1 mm for the 3.0 mm screws and 3.0 mm for the 4.5 mm screws" */
function bitsToTake(cases: readonly LeadCase[], several: boolean): Phrase {
  return cases.reduce<Phrase>(
    (all, { takeMm, screw }, index) =>
      say`${all}${index === 0 ? "" : " and "}${mm(takeMm, 1)}${several ? say` for the ${mm(screw.thread.value, 1)} screws` : ""}`,
    [],
  );
}

function sizeLine(one: LeadCase): Phrase {
  const { screw, least, most, takeMm } = one;
  const held = screw.core.known
    ? say`core ${mm(least)} as measured`
    : say`core ${mm(least)} to ${mm(most)} by the usual rules`;
  const name = say`The ${mm(screw.thread.value, 1)} screws`;
  if (!screw.pilot) return say`${name}: ${held}; take ${mm(takeMm, 1)}.`;
  const judged = tooWide(one) ? "too wide" : "not above the core";
  return say`${name}: ${mm(screw.pilot.value, 1)} on the sheet, ${held}: ${judged}.`;
}

function leadDetail({ screw, wood, roots, lead, ownBits, bit, ruleMm }: LeadCase): Phrase[] {
  const percent = figure(100 * lead.fraction, "%", 0);
  const byDensity = lead.required
    ? say`${percent} of the core by the density rule`
    : say`the density rule asks for no lead hole; a body always gets one, ${percent} of the core`;
  return [
    screw.core.known
      ? say`Core of a ${mm(screw.thread.value, 1)} screw: ${mm(screw.core.value)} as measured.`
      : say`Core of a ${mm(screw.thread.value, 1)} screw: ${rootWords(roots)}. Measured on the screw itself it beats all three.`,
    say`${wood.words}: ${byDensity}, ${mm(lead.leadMm)}.`,
    ...ownBitLine(bit, ownBits, ruleMm),
  ];
}

function rehearsalLine(): Phrase {
  return say`Rehearse in scrap of the same wood: the screw bites, holds at hand torque and does not squeak. Soap on the thread.`;
}

function leadSums({ screw, wood, roots, root, lead }: LeadCase, several: boolean): Sum[] {
  const size = several ? ` ${screw.thread.value.toFixed(1)} mm` : "";
  const rows = [["thread", "shank", "across the thread, taken as the shank"]] as const;
  return [
    ...ROOTS.slice(0, roots.length).map(([, , rule], index) =>
      ruleSum({
        title: `Core of the${size} screw`,
        rule: RULES[rule],
        leaves: { thread: screw.thread },
        rows,
        result: say`${mm(roots[index] ?? Number.NaN)}`,
      }),
    ),
    ruleSum({
      title: several ? `Lead hole of the${size} screws` : "Lead hole",
      rule: lead.required ? RULES.leadHole : RULES.leadHoleLight,
      leaves: { root, gravity: wood.quantity },
      rows: [
        ["root", "root", screw.core.known ? "core, as measured" : "middle of the three rules"],
        ["gravity", "G", wood.words],
      ],
      result: say`${mm(lead.leadMm)}`,
    }),
  ];
}

function leadLine(rework: boolean, worst: LeadCase, cases: readonly LeadCase[]): Phrase {
  const { screw, wood, least, most, ruleMm } = worst;
  const several = cases.length > 1;
  if (rework && screw.pilot) {
    const sure = screw.pilot.value > most ? "is" : "may be";
    const whose = several ? say` for the ${mm(screw.thread.value, 1)} screws` : "";
    if (screw.core.known)
      return say`The ${mm(screw.pilot.value, 1)} lead hole on the sheet${whose} is wider than the screw's core, ${mm(least)} as measured: drill no wider than that. The rule for ${wood.words} gives ${mm(ruleMm, 1)}.`;
    return say`The ${mm(screw.pilot.value, 1)} lead hole on the sheet${whose} ${sure} wider than the screw's core, ${mm(least)} to ${mm(most)} by the usual rules: measure one screw, and drill no wider than its core. The rule for ${wood.words} gives ${mm(ruleMm, 1)}.`;
  }
  const open = cases.filter(({ screw: one }) => !one.pilot);
  if (open.length > 0) return say`Take ${bitsToTake(open, several)} for the lead holes in ${wood.words}.`;
  if (several) return say`None of the lead holes on the sheet is above its screw's core.`;
  return say`The ${mm(screw.pilot?.value ?? Number.NaN, 1)} lead hole on the sheet is not above the screw's core.`;
}

function rootWords(roots: readonly number[]): Phrase {
  return ROOTS.reduce<Phrase>(
    (words, [, name], index) => say`${words}${index === 0 ? "" : ", "}${mm(roots[index] ?? Number.NaN)} by ${name}`,
    [],
  );
}

function finishLine(drillMm: number, threadMm: number): Phrase {
  const { bit, relieveToMm } = finishAdvice({ drillMm, threadMm });
  return say`Break the finish first: countersink by hand to ${mm(relieveToMm, 1)}, a turn or two, light. ${bit === "brad point" ? "Brad-point bit." : "A twist bit does at this size."}`;
}

function holdLine(depth: Known | undefined, threadMm: number, gravity: number, several: boolean): Phrase[] {
  if (!depth) return [];
  const { ultimateN, workingN } = pullOut({ gravity, shankMm: threadMm, heldMm: depth.value });
  const least = engagementMm({ diameterMm: threadMm, into: "wood" });
  const short = depth.value < least ? say` The hold is short: ${mm(least, 0)} of thread is usual.` : [];
  return [
    say`Each ${several ? say`${mm(threadMm, 1)} ` : ""}screw pulls out of side grain at about ${figure(ultimateN, "N", 0)}; work with ${figure(workingN, "N", 0)}.${short}`,
  ];
}

function coreReading({ root, screw }: LeadCase, several: boolean): NextReading {
  return {
    path: root.path,
    what: `the core of one ${several ? `${screw.thread.value.toFixed(1)} mm ` : ""}bridge screw`,
    tool: "calliper",
    how: "Knife edges of the jaws down into the thread, square to the screw",
    minutes: 1,
    settles: "which bit is not above the core",
  };
}
