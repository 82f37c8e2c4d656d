/**
 * Lead holes of the bridge's screws: which bit, in this wood. Rules FT23 to FT30, FT42.
 *
 * The core of a screw decides, and nobody prints it. Three rules give it as a part of the shank and disagree by a fifth;
 * the answer spans all three, and asks for the core of one screw.
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
import type { Asking } from "../ledger/index.ts";
import { figure, type Known, mm, type Phrase, say, unknown } from "../quantity/index.ts";
import type { NextReading, Sum, Verdict } from "../verdict/index.ts";
import { at, fitVerdict, type Judgement, judge, judgedParts, ruleSum } from "./judge.ts";
import { type InstrumentQuestion, measureVerdict } from "./make-verdict.ts";
import { bitsOf, ownBitLine } from "./own-bits.ts";
import { type Gravity, gravityOf } from "./wood.ts";

const ASKED = { id: "fasteners.bridge", question: "Which bit for the lead holes of the bridge screws?" } as const;

export function fastenerQuestions(instrument: Instrument): InstrumentQuestion[] {
  const { bridge } = instrument;
  const screwed =
    bridge !== undefined && bridge.kind !== "two posts" && bridge.pieces.some(({ screws }) => screws.length > 0);
  return screwed ? [{ ...ASKED, answer: leadAnswer }] : [];
}

interface Screw {
  readonly thread: Known;
  readonly pilot: Known | undefined;
  readonly depth: Known | undefined;
}

/** The thinnest screw of the bridge: what does for it is checked for the others by their own drawing. */
function screwOf(instrument: Instrument): Screw | undefined {
  const screws = (instrument.bridge?.pieces ?? []).flatMap((piece) => piece.screws);
  const known = screws.flatMap(({ thread, pilot, depth }): Screw[] =>
    thread.known ? [{ thread, pilot: pilot.known ? pilot : undefined, depth: depth.known ? depth : undefined }] : [],
  );
  return [...known].sort((a, b) => a.thread.value - b.thread.value)[0];
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
  /** Core by each rule of `ROOTS`, in its order. */
  readonly roots: readonly number[];
  /** Their span, as one doubtful value. */
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
  const screw = screwOf(subject);
  const wood = gravityOf(subject);
  if (!screw)
    return measureVerdict(
      { ...ASKED, stake: 2 },
      [unknown("parts.bridge.screws.thread", "length")],
      "which bit to take",
    );
  if (!wood.quantity.known) return measureVerdict({ ...ASKED, stake: 2 }, [wood.quantity], "which bit to take");
  const found = leadCase(screw, wood, wood.quantity.value, bitsOf(subject));
  const { root, takeMm } = found;
  const pilot: Known = screw.pilot ?? { ...root, path: `${screw.thread.path}.lead`, value: takeMm, doubt: [] };
  const judged = judge({
    leaves: { root, pilot },
    margins: { root: (x) => at(x, "root") - at(x, "pilot") },
    after: { root: (x) => at(x, "root") - takeMm },
    work: "reversible",
    gate: subject.limits.gateProbability,
  });
  if (!judged.known) return measureVerdict({ ...ASKED, stake: 2 }, judged.missing, "which bit to take");
  return leadVerdict(found, judged, spacingLines(subject));
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
  const roots = ROOTS.map(([rule]) => rootMm({ shankMm, rule }));
  const [least, most] = [Math.min(...roots), Math.max(...roots)];
  const term = {
    id: `${path}.root`,
    u: (most - least) / Math.sqrt(12),
    shape: "uniform",
    what: "three rules for the core disagree",
  } as const;
  const root: Known = {
    known: true,
    path: `${path}.root`,
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

function leadVerdict(found: LeadCase, judged: Judgement, spacing: readonly Phrase[]): Verdict {
  const { screw, least, most, lead, bit, takeMm, root } = found;
  const rework = judged.status === "rework";
  const work = `measure the core of one bridge screw, then take a bit not above it (${takeMm.toFixed(1)} mm by the rules), and try it in scrap`;
  return fitVerdict({
    ...ASKED,
    ...judgedParts(judged),
    stake: 2,
    headline: leadLine(rework, found),
    detail: [...leadDetail(found), ...spacing],
    remedies: rework
      ? [
          {
            id: "smaller-bit",
            text: say`Take ${mm(takeMm, 1)} instead, after trying it in scrap.`,
            permanence: "reversible",
            then: "go",
            probability: judged.probability,
          },
        ]
      : [],
    work: rework ? [{ act: "choose", what: work }] : [],
    sums: leadSums(found),
    ...(rework || judged.doubtful ? { next: coreReading(root.path) } : {}),
    figures: {
      thread: screw.thread.value,
      rootLeast: least,
      rootMost: most,
      lead: lead.leadMm,
      take: takeMm,
      gravity: found.gravity,
      ...(screw.pilot ? { declared: screw.pilot.value } : {}),
      ...(bit === undefined ? {} : { ownBit: bit }),
    },
  });
}

function leadDetail({ screw, wood, gravity, roots, lead, ownBits, bit, ruleMm, takeMm }: LeadCase): Phrase[] {
  const percent = figure(100 * lead.fraction, "%", 0);
  const byDensity = lead.required
    ? say`${percent} of the core by the density rule`
    : say`the density rule asks for no lead hole; a body always gets one, ${percent} of the core`;
  return [
    say`Core of a ${mm(screw.thread.value, 1)} screw: ${rootWords(roots)}. Measured on the screw itself it beats all three.`,
    say`${wood.words}: ${byDensity}, ${mm(lead.leadMm)}.`,
    ...ownBitLine(bit, ownBits, ruleMm),
    say`Rehearse in scrap of the same wood: the screw bites, holds at hand torque and does not squeak. Soap on the thread.`,
    finishLine(takeMm, screw.thread.value),
    ...holdLine(screw.depth, screw.thread.value, gravity),
  ];
}

function leadSums({ screw, wood, roots, root, lead }: LeadCase): Sum[] {
  const rows = [["thread", "shank", "across the thread, taken as the shank"]] as const;
  return [
    ...ROOTS.map(([, , rule], index) =>
      ruleSum({
        title: "Core of the screw",
        rule: RULES[rule],
        leaves: { thread: screw.thread },
        rows,
        result: say`${mm(roots[index] ?? Number.NaN)}`,
      }),
    ),
    ruleSum({
      title: "Lead hole",
      rule: lead.required ? RULES.leadHole : RULES.leadHoleLight,
      leaves: { root, gravity: wood.quantity },
      rows: [
        ["root", "root", "middle of the three rules"],
        ["gravity", "G", wood.words],
      ],
      result: say`${mm(lead.leadMm)}`,
    }),
  ];
}

function leadLine(rework: boolean, { screw, wood, least, most, ruleMm, takeMm }: LeadCase): Phrase {
  const { pilot } = screw;
  if (rework && pilot) {
    const sure = pilot.value > most ? "is" : "may be";
    return say`The ${mm(pilot.value, 1)} lead hole on the sheet ${sure} wider than the screw's core, ${mm(least)} to ${mm(most)} by the usual rules: measure one screw, and drill no wider than its core. The rule for ${wood.words} gives ${mm(ruleMm, 1)}.`;
  }
  if (pilot) return say`The ${mm(pilot.value, 1)} lead hole on the sheet is not above the screw's core.`;
  return say`Take ${mm(takeMm, 1)} for the lead holes in ${wood.words}.`;
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

function holdLine(depth: Known | undefined, threadMm: number, gravity: number): Phrase[] {
  if (!depth) return [];
  const { ultimateN, workingN } = pullOut({ gravity, shankMm: threadMm, heldMm: depth.value });
  const least = engagementMm({ diameterMm: threadMm, into: "wood" });
  const short = depth.value < least ? say` The hold is short: ${mm(least, 0)} of thread is usual.` : [];
  return [
    say`Each screw pulls out of side grain at about ${figure(ultimateN, "N", 0)}; work with ${figure(workingN, "N", 0)}.${short}`,
  ];
}

function coreReading(path: string): NextReading {
  return {
    path,
    what: "the core of one bridge screw",
    tool: "calliper",
    how: "Knife edges of the jaws down into the thread, square to the screw",
    minutes: 1,
    settles: "which bit is not above the core",
  };
}
