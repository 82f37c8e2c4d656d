/**
 * The fit rules in words: the formula as it is shown beside a sum, and where it comes from.
 *
 * "common practice" and "from memory" are soft and are shown as such. Ids match docs/spec/fit.md.
 */
import type { Source } from "../verdict/index.ts";

export interface Rule {
  readonly id: string;
  readonly formula: string;
  readonly source: Source;
}

function rule(id: string, formula: string, mark: Source["mark"], text: string): Rule {
  return { id, formula, source: { text, mark } };
}

const PLAIN = "plain arithmetic";

export const RULES = {
  rout: rule(
    "FT1",
    "margin = (rout - part)/2 - clearance, the smaller of length and width",
    "common practice",
    "clearance 0.5 all round; builders use 0.5 to 0.75, and 1.5 where a thick finish will follow",
  ),
  routDepth: rule(
    "FT2",
    "margin = rout depth - part depth - clearance",
    "common practice",
    "the clearance below is the same as at the sides",
  ),
  routFloor: rule(
    "FT2b",
    "wood left = thickness - (part depth + clearance), at least 3.0",
    "common practice",
    "3.0 of wood under a rout, as under a nut",
  ),
  corner: rule(
    "FT3",
    "least corner radius = R - g - h - √(2 g h), R the rout's corner radius, g and h the gaps at end and side",
    "derived",
    "two arcs that touch on the inside",
  ),
  lowestSetting: rule(
    "FT4",
    "stands proud = part depth + room below - rout depth; gap = string height - stands proud",
    "common practice",
    "2.0 for wires and the squashed spring; measure your own",
  ),
  poles: rule(
    "FT5",
    "offset = (spread of the outer strings - spread of the poles)/2, along the line of the poles",
    "derived",
    "each outer string taken straight from its nut slot to its own contact point",
  ),
  poleShift: rule(
    "FT5b",
    "shift = middle of the two outer strings - middle of the pickup; an outer string is |offset ± shift| off its pole",
    "derived",
    "only where somebody has measured where the pickup stands across",
  ),
  poleLimits: rule(
    "FT6",
    "margin = pole radius - |offset|; above 1.0 it shows",
    "common practice",
    "beside the pole is heard; a slight offset is not",
  ),
  polePairs: rule(
    "FT7",
    "offset = |pitch of the two strings - pitch of the pole pairs|/2, to stay under half the distance in a pair",
    "derived",
    "half and half about the middle of the two strings",
  ),
  bushing: rule(
    "FT8",
    "margin = thread - (wood + foil + lock washer + washer + nut)",
    "derived",
    "the stack of washers and nut is from memory: measure yours",
  ),
  spotFace: rule(
    "FT9",
    "depth = what is short, rounded up to 0.5; wood left = wood - depth, at least 3.0",
    "common practice",
    "3.0 of wood under a nut",
  ),
  controlDepth: rule(
    "FT10",
    "margin = free depth - part - room for lugs; free depth = body - top - cover",
    "common practice",
    "2.0 for bent lugs and wire",
  ),
  threadHole: rule("FT11", "hole = thread + 0.1", "common practice", "a free fit without play"),
  knob: rule(
    "FT12",
    "wobble = bore - shaft, at most 0.15 either way; a split shaft wants its own count of splines",
    "common practice",
    "spline counts 18 (coarse, 6.0) and 24 (fine, 5.95) from a trade article",
  ),
  taper: rule(
    "FT13",
    "level at half turn = m; outer lugs swapped: 1 - m",
    "derived",
    "audio taper as two straight slopes that meet at half turn with m = 10 % (owners' readings: 10 to 15 %)",
  ),
  slot: rule("FT14", "margin = slot there - slot needed", "derived", PLAIN),
  holeWall: rule(
    "FT15",
    "wall = distance of centres - both radii; under 1.5: plug first, or cover",
    "common practice",
    "1.5 of wood between holes",
  ),
  lugToFoil: rule(
    "FT16",
    "gap = (room - part)/2 - foil; at least 2.0",
    "common practice",
    "lugs and foil move when wires are bent",
  ),
  tunerHole: rule("FT17", "margin = hole - bushing", "derived", PLAIN),
  headstock: rule(
    "FT18",
    "margin = the smaller of (thickness - least) and (most - thickness)",
    "derived",
    "the range is the maker's",
  ),
  postSlot: rule("FT19", "margin = slot in the post - thickest string", "derived", PLAIN),
  tunerScrews: rule(
    "FT20",
    "wall = √(a² + b² - 2 a b cos(angle between)) - both radii; at least 1.5",
    "derived",
    "screw places as distance and angle from the post",
  ),
  tunerScrewHole: rule(
    "FT20b",
    "margin = (thread + root)/2 - old hole, root = 2/3 of the thread",
    "common practice",
    "an old hole within 0.3 of the new screw's place is used if half the thread's depth stands in wood",
  ),
  adapter: rule(
    "FT21",
    "wall of the adapter = (hole - bushing)/2, at least 0.5",
    "common practice",
    "a thinner ring cannot be turned: plug with the headstock's grain instead",
  ),
  nutSlot: rule(
    "FT22",
    "slot = gauge + 0.05",
    "common practice",
    "repair writing says gauge + 0.025 to 0.05 (1 to 2 thousandths)",
  ),
  rootTwoThirds: rule(
    "FT23a",
    "root = 2/3 of the shank",
    "published",
    "Rammer, Fastenings, Wood Handbook FPL-GTR-190 (2010), ch. 8",
  ),
  rootChart: rule("FT23b", "root as listed", "published", "a fastener distributor's wood-screw chart: one vendor"),
  rootNds: rule("FT23c", "root as listed", "from memory", "NDS, appendix L, table L3"),
  rootMeasured: rule("FT23d", "root as measured", "derived", "calliper across the core of the screw itself"),
  leadHole: rule(
    "FT24",
    "lead hole = root x 0.9 for G of 0.6 and more, x 0.7 for 0.5 to 0.6; under 0.5 none is asked for",
    "published",
    "NDS Commentary (AF&PA 1999/2004), part XI, 11.1.2",
  ),
  leadHoleLight: rule(
    "FT25",
    "G under 0.5: lead hole = root x 0.7 all the same",
    "common practice",
    "a finished body can split and cannot be thrown away; 70 % held well in eleven woods (Johnson 1960, abstract)",
  ),
  bit: rule(
    "FT26",
    "the own bit nearest to the lead hole, never above the root, at most 15 % under the lead hole",
    "common practice",
    "try it in scrap of the same wood",
  ),
  withdrawal: rule(
    "FT27",
    "p = 15700 G² D L in lbf and inches = 108.25 G² D L in N and mm, at which it pulls out of side grain",
    "published",
    "Wood Handbook (2010), eq. 8-10, and a published worked example",
  ),
  workingLoad: rule(
    "FT28",
    "working load = p x 2850/15700, 5.5 times below",
    "published",
    "allowable 2850 G² D per inch (NDS, published example)",
  ),
  spacing: rule(
    "FT29",
    "edge 4 D, end 10 D, along the grain 7 D, across 5 D",
    "published",
    "evaluation report ESR-4948, table 6, large structural screws: a level to look twice, not a limit",
  ),
  engagement: rule(
    "FT30",
    "thread held: steel 1, brass 1.5, aluminium or zinc 2, wood 6 diameters",
    "common practice",
    "workshop rule",
  ),
  thread: rule(
    "FT31",
    "pitch diameter = d - 0.649519 P, minor diameter = d - 1.082532 P",
    "published",
    "ISO 68-1 / ISO 724 basic profile, the same for Unified threads",
  ),
  threadMatch: rule(
    "FT33",
    "same nominal diameter within 0.1 and the same pitch within 1 %",
    "common practice",
    "over ten turns 1 % is a tenth of a pitch",
  ),
  stripped: rule(
    "FT34",
    "hold = (thread - hole)/(thread - root), at least one half; below it fill and drill again",
    "common practice",
    "half the depth of the thread in sound wood",
  ),
  fromBothFaces: rule(
    "FT36",
    "from each face: half the body + 1",
    "common practice",
    "thin bits wander; the sides are mirrored on the back",
  ),
  battery: rule(
    "FT37",
    "margin = room - battery - 0.5, the least of three, the best way round",
    "common practice",
    "0.5 for a lining",
  ),
  balance: rule(
    "FT38",
    "change = Σ (on - off)(strap button - x); as a mass at the nut: change / (strap button)",
    "derived",
    "moments about the strap button",
  ),
  inchDrawing: rule(
    "FT39",
    "difference = |declared - 25.4 x inches|, to stay under half the last digit",
    "derived",
    PLAIN,
  ),
  symmetry: rule(
    "FT40",
    "every hole (p, q) has a twin at (p, -q)",
    "derived",
    "then a sheet laid face down looks right and is wrong for everything that is not symmetrical",
  ),
  coated: rule(
    "FT41",
    "coated metal: the meter reads open until a spot is bare",
    "common practice",
    "powder coat and lacquer insulate",
  ),
  finish: rule(
    "FT42",
    "break the edge of the finish before a bit or screw touches it; brad point above 3",
    "common practice",
    "countersink by hand, a turn or two",
  ),
} as const satisfies Readonly<Record<string, Rule>>;

export type RuleName = keyof typeof RULES;
