/** Fixing screws of new tuners against the holes of the old ones. Rules FT20, FT20b, FT34. */
import { holdInHole, RULES, rootMm, type ScrewWall, tunerScrewWall } from "../fit/index.ts";
import type { Instrument, Tuners } from "../job/index.ts";
import type { Asking, Numbers } from "../ledger/index.ts";
import { mm, type Phrase, type Quantity, say, unknown } from "../quantity/index.ts";
import type { Sum, Verdict } from "../verdict/index.ts";
import {
  at,
  doubtLine,
  fitVerdict,
  type Judgement,
  judge,
  judgedParts,
  type Leaves,
  type Margins,
  ruleSum,
  valuesOf,
} from "./judge.ts";
import { measureVerdict } from "./make-verdict.ts";

/** New screws nearer to an old hole's middle than this use that hole. */
const SAME_HOLE_MM = 0.3;

type Asked = { readonly id: string; readonly question: string };

export function screwsAnswer(asking: Asking<Instrument>, tuners: Tuners, asked: Asked): Verdict {
  const { limits } = asking.subject;
  const fresh = tuners.screw;
  if (!fresh)
    return measureVerdict(
      { ...asked, stake: 2 },
      [unknown("parts.tuners.screw.distance", "length")],
      "where the new screws stand",
    );
  const leaves: Record<string, Quantity> = {
    distance: fresh.distance,
    angle: fresh.angle,
    diameter: fresh.diameter,
    wall: limits.holeWall,
  };
  for (const [index, old] of tuners.oldScrews.entries()) {
    Object.assign(leaves, {
      [`distance${index}`]: old.distance,
      [`angle${index}`]: old.angle,
      [`diameter${index}`]: old.diameter,
    });
  }
  const unread = Object.values(leaves).filter((leaf) => !leaf.known);
  const settles = "whether the new screws meet the old holes";
  if (unread.length > 0) return measureVerdict({ ...asked, stake: 2 }, unread, settles);
  const values = valuesOf(leaves);
  const holes = tuners.oldScrews.map((_, index) => oldHole(values, index));
  const judged = judge({
    leaves,
    margins: Object.assign({}, ...holes.map(marginsOf)),
    // Once the old holes are plugged with the headstock's wood, nothing is left to run into.
    after: { plugged: () => 1 },
    work: "permanent",
    gate: limits.gateProbability,
  });
  if (!judged.known) return measureVerdict({ ...asked, stake: 2 }, judged.missing, settles);
  return screwsVerdict(asked, leaves, holes, judged);
}

/** One old hole as the new screw meets it. */
interface OldHole {
  readonly index: number;
  readonly wall: ScrewWall;
  /** The new screw stands in this hole: then it has to hold there, and no wall is asked for. */
  readonly used: boolean;
  readonly marginMm: number;
}

function oldHole(values: Numbers, index: number): OldHole {
  const wall = wallAt(values, index);
  const used = wall.apartMm <= SAME_HOLE_MM;
  return { index, wall, used, marginMm: used ? holdAt(values, index) : wall.marginMm };
}

function marginsOf({ index, used }: OldHole): Margins {
  if (!used) return { [`screw${index}`]: (x) => wallAt(x, index).marginMm };
  return {
    [`hold${index}`]: (x) => holdAt(x, index),
    [`same${index}`]: (x) => SAME_HOLE_MM - wallAt(x, index).apartMm,
  };
}

/** Widest hole in which half the new thread's depth stands in wood, less the old hole. */
function holdAt(x: Numbers, index: number): number {
  const threadMm = at(x, "diameter");
  const root = rootMm({ shankMm: threadMm, rule: "two thirds" });
  return holdInHole({ holeMm: at(x, `diameter${index}`), threadMm, rootMm: root }).marginMm;
}

function wallAt(x: Numbers, index: number): ScrewWall {
  return tunerScrewWall({
    fresh: { distanceMm: at(x, "distance"), angleDegrees: at(x, "angle"), diameterMm: at(x, "diameter") },
    old: {
      distanceMm: at(x, `distance${index}`),
      angleDegrees: at(x, `angle${index}`),
      diameterMm: at(x, `diameter${index}`),
    },
    leastWallMm: at(x, "wall"),
  });
}

function tightest(holes: readonly OldHole[]): OldHole | undefined {
  return [...holes].sort((a, b) => a.marginMm - b.marginMm)[0];
}

function screwsVerdict(asked: Asked, leaves: Leaves, holes: readonly OldHole[], judged: Judgement): Verdict {
  const reworks = judged.status === "rework";
  const plug = "plug the old tuner screw holes with the headstock's wood, let the glue cure, then drill";
  const deciding = tightest(holes);
  const beside = tightest(holes.filter(({ used }) => !used));
  const inside = tightest(holes.filter(({ used }) => used));
  return fitVerdict({
    ...asked,
    ...judgedParts(judged),
    stake: 2,
    headline: screwsLine(judged.status, { deciding, beside, inside }, valuesOf(leaves)),
    detail: doubtLine(judged, "Mark one new screw through the tuner's own hole and look."),
    remedies: reworks
      ? [
          {
            id: "plug",
            text: say`Plug the old holes with the headstock's wood, let it cure, then drill.`,
            permanence: "permanent",
            then: "go",
            probability: judged.probability,
          },
        ]
      : [],
    work: reworks ? [{ act: "choose", what: plug }] : [],
    sums: [...(inside ? [holdSum(leaves, inside)] : []), ...(beside ? [wallSum(leaves, beside)] : [])],
    figures: deciding ? { wall: deciding.wall.wallMm, apart: deciding.wall.apartMm } : {},
  });
}

function holdSum(leaves: Leaves, { index, marginMm }: OldHole): Sum {
  return ruleSum({
    title: "New screw in the old hole",
    rule: RULES.tunerScrewHole,
    leaves,
    rows: [
      ["diameter", "thread", "across the new screw"],
      [`diameter${index}`, "old hole", "across the old hole"],
    ],
    result: say`${mm(marginMm)}`,
  });
}

function wallSum(leaves: Leaves, { index, wall }: OldHole): Sum {
  return ruleSum({
    title: "New screw against the nearest old hole",
    rule: RULES.tunerScrews,
    leaves,
    rows: [
      ["distance", "a", "new screw from the post"],
      ["angle", "angle", "its angle"],
      [`distance${index}`, "b", "the old screw from the post"],
      [`angle${index}`, "angle", "its angle"],
      ["diameter", "Ø new", "across the new screw"],
      [`diameter${index}`, "Ø old", "across the old hole"],
      ["wall", "least", "least wall"],
    ],
    result: say`${mm(wall.wallMm)}`,
  });
}

interface Seen {
  readonly deciding: OldHole | undefined;
  /** The tightest of those it stands beside, and of those it stands in. */
  readonly beside: OldHole | undefined;
  readonly inside: OldHole | undefined;
}

function screwsLine(status: Verdict["status"], { deciding, beside, inside }: Seen, values: Numbers): Phrase {
  const clear = mm(beside?.wall.wallMm ?? Number.NaN, 1);
  if (status === "go" && inside)
    return say`The new screws use the old holes${beside ? say` and stand ${clear} clear of the others` : ""}.`;
  if (status === "go") return say`The new screws stand ${clear} clear of the nearest old hole.`;
  if (status === "measure")
    return say`Too close to call whether the new screws clear the old holes or hold in them: measure before you drill.`;
  if (deciding?.used)
    return say`The new screws would stand in old holes of ${mm(at(values, `diameter${deciding.index}`), 1)}, too wide to hold a screw of ${mm(at(values, "diameter"), 1)}: plug those first.`;
  const wallMm = deciding?.wall.wallMm ?? Number.NaN;
  if (wallMm < 0) return say`The new screws run into the old holes by ${mm(-wallMm)}: plug those first.`;
  return say`The new screws leave only ${mm(wallMm)} to the old holes: plug those first.`;
}
