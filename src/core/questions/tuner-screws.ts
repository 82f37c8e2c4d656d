/** Fixing screws of new tuners against the holes of the old ones. Rule FT20. */
import { RULES, type ScrewWall, tunerScrewWall } from "../fit/index.ts";
import type { Instrument, Tuners } from "../job/index.ts";
import type { Asking, Numbers } from "../ledger/index.ts";
import { mm, type Phrase, type Quantity, say, unknown } from "../quantity/index.ts";
import type { Verdict } from "../verdict/index.ts";
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
  const margins: Record<string, (x: Numbers) => number> = {};
  for (const [index, old] of tuners.oldScrews.entries()) {
    Object.assign(leaves, {
      [`distance${index}`]: old.distance,
      [`angle${index}`]: old.angle,
      [`diameter${index}`]: old.diameter,
    });
    margins[`screw${index}`] = (x) => wallAt(x, index).marginMm;
  }
  // Once the old holes are plugged with the headstock's wood, nothing is left to run into.
  const judged = judge({
    leaves,
    margins,
    after: { plugged: () => 1 },
    work: "permanent",
    gate: limits.gateProbability,
  });
  if (!judged.known)
    return measureVerdict({ ...asked, stake: 2 }, judged.missing, "whether the new screws meet the old holes");
  const values = valuesOf(leaves);
  const walls = tuners.oldScrews.map((_, index) => wallAt(values, index));
  const nearest = walls.reduce((least, wall) => (wall.wallMm < least.wallMm ? wall : least));
  const same = nearest.apartMm <= SAME_HOLE_MM;
  return screwsVerdict(
    asked,
    leaves,
    nearest,
    same ? { ...judged, status: "go", probability: 1, doubtful: false } : judged,
  );
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

function screwsVerdict(asked: Asked, leaves: Leaves, nearest: ScrewWall, judged: Judgement): Verdict {
  const reworks = judged.status === "rework";
  const plug = "plug the old tuner screw holes with the headstock's wood, let the glue cure, then drill";
  return fitVerdict({
    ...asked,
    ...judgedParts(judged),
    stake: 2,
    headline: screwsLine(judged.status, nearest),
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
    sums: [
      ruleSum({
        title: "New screw against the nearest old hole",
        rule: RULES.tunerScrews,
        leaves,
        rows: [
          ["distance", "a", "new screw from the post"],
          ["angle", "angle", "its angle"],
          ["distance0", "b", "an old screw from the post"],
          ["angle0", "angle", "its angle"],
          ["wall", "least", "least wall"],
        ],
        result: say`${mm(nearest.wallMm)}`,
      }),
    ],
    figures: { wall: nearest.wallMm, apart: nearest.apartMm },
  });
}

function screwsLine(status: Verdict["status"], { wallMm, apartMm }: ScrewWall): Phrase {
  if (apartMm <= SAME_HOLE_MM) return say`The new screws use the old holes.`;
  if (status === "go") return say`The new screws stand ${mm(wallMm, 1)} clear of the nearest old hole.`;
  if (status === "measure")
    return say`Too close to call whether the new screws clear the old holes: measure before you drill.`;
  if (wallMm < 0) return say`The new screws run into the old holes by ${mm(-wallMm)}: plug those first.`;
  return say`The new screws leave only ${mm(wallMm)} to the old holes: plug those first.`;
}
