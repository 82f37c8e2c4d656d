/**
 * What comes before what, and why: a table. The hold points among them carry their number.
 *
 * Source: order of work and hold points gathered from workshop writing (common practice); the 24 h of glue from a glue
 * maker's guide (published). Ids are those of docs/spec/plan.md.
 */
import { type Phrase, say } from "../quantity/index.ts";
import { type Draft, trimIdOf } from "./draft.ts";
import { isBridgePlug } from "./rests-on.ts";
import type { StepKind } from "./types.ts";

export interface OrderRule {
  readonly id: string;
  readonly before: readonly StepKind[] | "every step";
  readonly after: readonly StepKind[] | "every step";
  readonly because: Phrase;
  /** Only where the two steps concern each other. Left out: always. */
  readonly when?: (before: Draft, after: Draft) => boolean;
  /** The wait of the earlier step has to be over. */
  readonly waits?: true;
}

const CUTS: readonly StepKind[] = ["plug", "trim plugs", "rout", "spot-face", "ream", "slot", "drill"];
const NEEDS_PARTS: readonly StepKind[] = [
  "print",
  "plug",
  "rout",
  "spot-face",
  "ream",
  "slot",
  "drill",
  "nut slots",
  "shim",
  "fit pickups",
  "fit controls",
  "fit tuners",
  "fit bridge",
  "neck on",
  "restring",
];

const FITS: readonly StepKind[] = ["fit pickups", "fit controls", "fit tuners", "fit bridge", "wire"];

const sameTarget = (before: Draft, after: Draft): boolean => before.target === after.target;
const onBody = (step: Draft): boolean => step.target !== "tuners" && step.target !== "nut";
const bodyCut = (before: Draft): boolean => onBody(before);
const forBridge = (_: Draft, after: Draft): boolean => after.target === "bridge";

export const ORDER_RULES: readonly OrderRule[] = [
  {
    id: "OR1",
    before: ["record"],
    after: "every step",
    because: say`what has been moved cannot be photographed or read as it was`,
  },
  {
    id: "OR2",
    before: ["choose"],
    after: ["measure parts", ...NEEDS_PARTS],
    because: say`nothing is bought or cut before it is decided`,
  },
  {
    id: "OR3",
    before: ["measure parts"],
    after: NEEDS_PARTS,
    because: say`a part is what it measures, not what its box says`,
  },
  {
    id: "OR4",
    before: ["print"],
    after: ["drill"],
    when: (_, drill) => drill.gate.template !== undefined,
    because: say`a sheet printed small puts every hole in the wrong place`,
  },
  {
    id: "OR5",
    before: ["strip"],
    after: ["neck off", ...CUTS, "foil", "lay strings", "ground wire", ...FITS],
    when: inTheWay,
    because: say`the old part stands in the way`,
  },
  {
    id: "OR6",
    before: ["strip"],
    after: ["strip"],
    when: (before, after) => before.target === "strings" && after.target !== "strings",
    because: say`the strings hold it`,
  },
  { id: "OR7", before: ["neck off"], after: ["shim", "neck on"], because: say`the pocket has to be empty` },
  {
    id: "OR8",
    before: ["shim"],
    after: ["neck on", "carry scale line", "set up"],
    because: say`a shim moves the scale line a little and the heights a lot`,
  },
  {
    id: "OR9",
    before: ["neck on"],
    after: ["carry scale line", "lay strings", "nut slots", "restring"],
    because: say`only the neck as bolted says where its strings run`,
  },
  {
    id: "OR10",
    before: ["carry scale line"],
    after: ["plug", "drill", "lay strings"],
    when: concernsBridge,
    because: say`which holes are in the way hangs on where the bridge comes to stand`,
  },
  {
    id: "OR11",
    before: ["lay strings"],
    after: ["drill"],
    when: forBridge,
    because: say`a bridge out of line spoils it more surely than one too far back`,
  },
  {
    id: "OR12",
    before: ["plug"],
    after: ["trim plugs"],
    when: (plug, trim) => trimIdOf(plug.id) === trim.id,
    waits: true,
    because: say`the glue has to cure before the plug is cut or loaded`,
  },
  {
    id: "OR13",
    before: ["trim plugs"],
    after: ["drill"],
    when: touches,
    because: say`a bit slides into an old hole, and out of a soft plug`,
  },
  {
    id: "OR14",
    before: CUTS,
    after: ["foil", "fit pickups", "fit controls", "wire"],
    when: bodyCut,
    because: say`chips and dust first, clean work after`,
  },
  {
    id: "OR15",
    before: ["drill", "trim plugs"],
    after: ["fit bridge"],
    when: (before, after) => before.target === after.target || before.kind === "trim plugs",
    because: say`the plate hides what is under it`,
  },
  { id: "OR16", before: ["bare contact"], after: ["ground wire", "fit bridge"], because: say`paint does not conduct` },
  {
    id: "OR17",
    before: ["ground wire"],
    after: ["fit bridge", "wire"],
    because: say`a wire forgotten means taking it all off again`,
  },
  {
    id: "OR18",
    before: ["foil"],
    after: ["insulate", "fit pickups", "fit controls", "prove foil"],
    because: say`foil goes in while the cavity is empty`,
  },
  { id: "OR19", before: ["insulate"], after: ["fit controls"], because: say`the wall cannot be reached afterwards` },
  {
    id: "OR20",
    before: ["fit controls", "fit pickups"],
    after: ["prove foil", "wire"],
    because: say`lugs and leads have to be in their place`,
  },
  {
    id: "OR21",
    before: ["prove foil"],
    after: ["wire", "cover on"],
    because: say`a floating piece or a touching lug is found now, not under solder`,
  },
  {
    id: "OR22",
    before: ["map coils"],
    after: ["wire"],
    because: say`ohms cannot tell later which way round a coil was joined`,
  },
  {
    id: "OR31",
    before: ["wire"],
    after: ["wire"],
    when: (before, after) => groupNumber(before) < groupNumber(after),
    because: say`each group is proved against what was proved before`,
  },
  { id: "OR23", before: ["wire"], after: ["ohms"], because: say`there is nothing to read before` },
  {
    id: "OR24",
    before: ["ohms"],
    after: ["cover on", "restring"],
    because: say`a fault is found in minutes without strings and costs a set with them`,
  },
  {
    id: "OR25",
    before: ["fit bridge"],
    after: ["cover on"],
    because: say`the bridge's ground is proved with the cover on`,
  },
  { id: "OR26", before: ["cover on"], after: ["restring"], because: say`a cover can press a lug onto foil` },
  {
    id: "OR27",
    before: ["ream", "drill"],
    after: ["fit tuners"],
    when: sameTarget,
    because: say`the bushing needs its hole`,
  },
  {
    id: "OR28",
    before: ["fit bridge", "fit tuners", "nut slots", "fit pickups"],
    after: ["restring"],
    because: say`the strings lie over it`,
  },
  {
    id: "OR29",
    before: ["restring"],
    after: ["set up"],
    waits: true,
    because: say`strings that still stretch cannot be set`,
  },
  { id: "OR30", before: "every step", after: ["final sheet"], because: say`the sheet tells of finished work` },
];

/** "wiring 3" of the groups of joints; the last group is the wiring. */
function groupNumber({ target }: Draft): number {
  return Number(/^wiring (\d+)$/.exec(target)?.[1] ?? Number.POSITIVE_INFINITY);
}

/** What lies under the old part waits for it: bridge holes for the bridge, cavities for the electrics. */
function inTheWay(strip: Draft, after: Draft): boolean {
  if (strip.target === "strings") return true;
  if (strip.target === "tuners") return after.target === "tuners";
  if (strip.target === "bridge") return after.kind === "plug" || after.target === "bridge";
  return !["neck off", "lay strings", "fit tuners", "fit bridge"].includes(after.kind) && onBody(after);
}

function concernsBridge(_: Draft, after: Draft): boolean {
  return after.target === "bridge" || (after.kind === "plug" && isBridgePlug(after));
}

/** A new hole that reaches a plug, or is said to; a place that is not known counts as reaching it. */
function touches(trim: Draft, drill: Draft): boolean {
  if (drill.work?.act !== "drill") return false;
  if (drill.target === "tuners") return trim.target === "tuners";
  const plugs = trim.plugs ?? [];
  return drill.work.holes.some((hole) =>
    plugs.some(
      (plug) =>
        !(Math.hypot(plug.u - hole.u, plug.y - hole.y) >= (plug.diameter + Math.max(hole.diameter, hole.thread)) / 2),
    ),
  );
}
