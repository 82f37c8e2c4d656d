/** Strap buttons in their holes and the battery in its room. Rules FT23 to FT28, FT34, FT37. */
import {
  type BoxFit,
  boxFit,
  holdInHole,
  type LeadHole,
  leadHole,
  nearestBitMm,
  pullOut,
  RULES,
  rootMm,
  woodScrew,
} from "../fit/index.ts";
import type { Battery, Instrument, StrapButton } from "../job/index.ts";
import type { Asking, Numbers } from "../ledger/index.ts";
import { figure, mm, type Phrase, type Quantity, say, unknown, valueOr } from "../quantity/index.ts";
import type { Sum, Verdict } from "../verdict/index.ts";
import {
  at,
  doubtLine,
  fitVerdict,
  type Judgement,
  judge,
  judgedParts,
  type Leaves,
  ruleSum,
  valuesOf,
} from "./judge.ts";
import { type InstrumentQuestion, measureVerdict } from "./make-verdict.ts";
import { bitsOf, ownBitLine } from "./own-bits.ts";
import { type Gravity, gravityOf } from "./wood.ts";

/** Part of a wood screw that is threaded. Common practice, no source. */
const THREADED = 2 / 3;
/** For a lining round the battery. Common practice, no source. */
const LINING_MM = 0.5;

type Asked = { readonly id: string; readonly question: string };

export function strapBatteryQuestions(instrument: Instrument): InstrumentQuestion[] {
  const straps = instrument.strapButtons.map(({ id }): InstrumentQuestion => {
    const asked = { id: `strap.${id}`, question: `Does the strap button (${id}) hold in its hole?` };
    return { ...asked, answer: (asking) => strapAnswer(asking, id, asked) };
  });
  const battery = { id: "battery.room", question: "Does the battery go into its room?" };
  return instrument.battery ? [...straps, { ...battery, answer: (asking) => batteryAnswer(asking, battery) }] : straps;
}

/** The screw, the wood and the hole as they are. */
interface StrapCase {
  readonly holeMm: number;
  readonly shankMm: number;
  readonly root: number;
  readonly lead: LeadHole;
  readonly gravity: number;
  readonly wood: Gravity;
  readonly heldMm: number;
  /** Too wide to hold, not merely narrow. */
  readonly tooWide: boolean;
}

function strapAnswer(asking: Asking<Instrument>, id: string, asked: Asked): Verdict {
  const { subject } = asking;
  const wood = gravityOf(subject);
  const { screwGauge, holeDiameter, screwLength } = subject.strapButtons.find((one) => one.id === id) ?? noButton(id);
  const missing = [holeDiameter, screwGauge, screwLength, wood.quantity].filter((quantity) => !quantity.known);
  if (missing.length > 0) return measureVerdict({ ...asked, stake: 2 }, missing, "whether the strap button holds");
  const { shankMm } = woodScrew(valueOr(screwGauge, Number.NaN));
  const root = rootMm({ shankMm, rule: "two thirds" });
  const gravity = valueOr(wood.quantity, Number.NaN);
  const lead = leadHole({ rootMm: root, gravity });
  const holeMm = valueOr(holeDiameter, Number.NaN);
  const heldMm = THREADED * valueOr(screwLength, Number.NaN);
  const strap = { holeMm, shankMm, root, lead, gravity, wood, heldMm, tooWide: holdOf(holeMm, shankMm, root) < 0 };
  const judged = judge({
    leaves: { hole: holeDiameter },
    margins: { hold: (x) => holdOf(at(x, "hole"), shankMm, root), lead: (x) => at(x, "hole") - lead.leadMm },
    // An old hole a little narrow still takes the screw; one drilled to its lead hole does.
    bare: { hold: (x) => holdOf(at(x, "hole"), shankMm, root) },
    after: { hold: () => holdOf(lead.leadMm, shankMm, root) },
    work: "permanent",
    gate: subject.limits.gateProbability,
  });
  if (!judged.known) return measureVerdict({ ...asked, stake: 2 }, judged.missing, "whether the strap button holds");
  return strapVerdict(asked, id, strap, { hole: holeDiameter }, judged, bitsOf(subject));
}

function holdOf(holeMm: number, threadMm: number, root: number): number {
  return holdInHole({ holeMm: Math.max(0, holeMm), threadMm, rootMm: root }).marginMm;
}

function strapVerdict(
  asked: Asked,
  id: string,
  strap: StrapCase,
  leaves: Leaves,
  judged: Judgement,
  bits: readonly number[],
): Verdict {
  const { holeMm, shankMm, root, lead, gravity, wood, tooWide } = strap;
  const bit = nearestBitMm({ wantedMm: lead.leadMm, notAboveMm: lead.notAboveMm, bitsMm: bits });
  const load = pullOut({ gravity, shankMm, heldMm: strap.heldMm });
  const rework = judged.status === "rework";
  const act = tooWide ? "fill the hole with a glued plug of hard wood, let it cure, drill" : "drill a lead hole of";
  return fitVerdict({
    ...asked,
    ...judgedParts(judged),
    stake: 2,
    headline: strapLine(judged.status, tooWide, holeMm, lead.leadMm),
    detail: [
      say`Root taken as two thirds of the shank, ${mm(root)}; lead hole ${mm(lead.leadMm)} in ${wood.words}. Never wider than the root.`,
      ...ownBitLine(bit, bits, lead.leadMm),
      say`Pulls out of sound side grain at about ${figure(load.ultimateN, "N", 0)}; work with ${figure(load.workingN, "N", 0)}.`,
      ...doubtLine(judged, "Turn the screw in by hand: it must bite."),
    ],
    remedies: rework
      ? [
          {
            id: tooWide ? "fill" : "drill",
            text: say`${tooWide ? "Fill the hole with a glued plug of hard wood, let it cure, and drill" : "Drill to"} ${mm(lead.leadMm)}.`,
            permanence: "permanent",
            then: "go",
            probability: judged.probability,
          },
        ]
      : [],
    work: rework ? [{ act: "choose", what: `strap button ${id}: ${act} ${lead.leadMm.toFixed(1)} mm` }] : [],
    sums: strapSums(strap, leaves),
    figures: {
      hole: holeMm,
      thread: shankMm,
      root,
      lead: lead.leadMm,
      pullOutN: load.ultimateN,
      workingN: load.workingN,
      ...(bit === undefined ? {} : { ownBit: bit }),
    },
  });
}

function strapSums({ holeMm, shankMm, root, lead, wood }: StrapCase, leaves: Leaves): Sum[] {
  return [
    ruleSum({
      title: "Hold in the hole",
      rule: RULES.stripped,
      leaves,
      rows: [["hole", "hole", "the hole there is"]],
      result: say`${mm(holdOf(holeMm, shankMm, root))}`,
    }),
    ruleSum({
      title: "Lead hole",
      rule: lead.required ? RULES.leadHole : RULES.leadHoleLight,
      leaves: { gravity: wood.quantity },
      rows: [["gravity", "G", wood.words]],
      result: say`${mm(lead.leadMm)}`,
    }),
  ];
}

function noButton(id: string): Pick<StrapButton, "screwGauge" | "holeDiameter" | "screwLength"> {
  const none = (key: string, kind: "count" | "length") => unknown(`fit.strapButtons.${id}.${key}`, kind);
  return {
    screwGauge: none("screwGauge", "count"),
    holeDiameter: none("hole", "length"),
    screwLength: none("screwLength", "length"),
  };
}

function strapLine(status: Verdict["status"], tooWide: boolean, holeMm: number, leadMm: number): Phrase {
  if (status === "go") return say`The strap button's screw holds in its hole of ${mm(holeMm, 1)}.`;
  if (status === "measure")
    return say`Too close to call whether the screw still holds in a hole of ${mm(holeMm, 1)}: measure it.`;
  if (tooWide)
    return say`The hole, ${mm(holeMm, 1)}, leaves the screw too little thread: fill it and drill ${mm(leadMm)}.`;
  return say`The hole, ${mm(holeMm, 1)}, is narrower than the lead hole of ${mm(leadMm)}: open it, or the wood may split.`;
}

function batteryAnswer(asking: Asking<Instrument>, asked: Asked): Verdict {
  const { battery, limits } = asking.subject;
  if (!battery)
    return measureVerdict(
      { ...asked, stake: 1 },
      [unknown("fit.battery.room.length", "length")],
      "whether the battery fits",
    );
  const leaves = leavesOf(battery);
  const judged = judge({
    leaves,
    margins: { room: (x) => roomAt(x, LINING_MM).marginMm },
    bare: { room: (x) => roomAt(x, 0).marginMm },
    work: "reversible",
    gate: limits.gateProbability,
  });
  if (!judged.known) return measureVerdict({ ...asked, stake: 1 }, judged.missing, "whether the battery fits");
  return batteryVerdict(asked, leaves, judged);
}

function roomAt(x: Numbers, clearanceMm: number): BoxFit {
  return boxFit({
    room: { lengthMm: at(x, "roomLength"), widthMm: at(x, "roomWidth"), depthMm: at(x, "roomDepth") },
    part: { lengthMm: at(x, "length"), widthMm: at(x, "width"), depthMm: at(x, "thickness") },
    clearanceMm,
  });
}

const ROOM_ROWS = [
  ["roomLength", "room", "length of the room"],
  ["roomWidth", "room", "width of the room"],
  ["roomDepth", "room", "depth of the room"],
  ["length", "battery", "its length"],
  ["width", "battery", "its width"],
  ["thickness", "battery", "its thickness"],
] as const;

function batteryVerdict(asked: Asked, leaves: Leaves, judged: Judgement): Verdict {
  const { marginMm, lies } = roomAt(valuesOf(leaves), LINING_MM);
  const spare = marginMm + LINING_MM;
  const goes = judged.status === "go";
  return fitVerdict({
    ...asked,
    ...judgedParts(judged),
    headline: goes
      ? say`The battery goes into its room, with ${mm(spare, 1)} at the tightest.`
      : say`The room is ${mm(-marginMm, 1)} too small for the battery and its lining.`,
    detail: [
      say`It lies best ${mm(lies.lengthMm, 1)} by ${mm(lies.widthMm, 1)}, ${mm(lies.depthMm, 1)} deep.`,
      say`Nothing metal may bridge its two terminals: line the room.`,
      ...doubtLine(judged, "Try it in with its clip on."),
    ],
    remedies: goes
      ? []
      : [
          {
            id: "larger-room",
            text: say`Enlarge the room by ${mm(-marginMm, 1)}, or find the battery another place.`,
            permanence: "permanent",
          },
        ],
    sums: [
      ruleSum({
        title: "Battery in its room",
        rule: RULES.battery,
        leaves,
        rows: ROOM_ROWS,
        result: say`${mm(marginMm, 1)}`,
      }),
    ],
    figures: { spare, margin: marginMm },
  });
}

function leavesOf(battery: Battery): Record<string, Quantity> {
  const { length, width, thickness, room } = battery;
  return { length, width, thickness, roomLength: room.length, roomWidth: room.width, roomDepth: room.depth };
}
