/** The rest of what a bridge asks: string ground, marks covered, the drawing's inches, and how the sheet must lie. */
import { type Column, column, type Pose, toBody, toPart, wallMm } from "../bridge/index.ts";
import { faceDown, inchDrawing, RULES, stringGround } from "../fit/index.ts";
import type { Cavity, Instrument } from "../job/index.ts";
import type { Asking } from "../ledger/index.ts";
import { type Known, MM_PER_INCH, mm, type Phrase, say, valueOr } from "../quantity/index.ts";
import type { Verdict } from "../verdict/index.ts";
import { xOf } from "./bridge-model.ts";
import { type InstrumentQuestion, listed, makeVerdict, measureVerdict } from "./make-verdict.ts";
import { type PlacedPiece, placement } from "./placement.ts";

const GROUND = {
  id: "bridge.ground",
  question: "Does the ground wire touch metal under the bridge?",
  stake: 1,
} as const;
const COVER = {
  id: "bridge.cover",
  question: "Does the bridge cover the old holes and clear its neighbours?",
  stake: 2,
} as const;
const DRAWING = {
  id: "bridge.drawing",
  question: "Do the drawing's inches agree with the millimetres used?",
  stake: 2,
} as const;
const SHEET = { id: "sheet.side", question: "Can the template be laid the wrong way up unnoticed?", stake: 3 } as const;

export function bridgeFitQuestions(instrument: Instrument): InstrumentQuestion[] {
  const { bridge, body } = instrument;
  if (!bridge) return [];
  return [
    ...(body.groundWire || bridge.coated ? [{ id: GROUND.id, question: GROUND.question, answer: answerGround }] : []),
    ...(body.holes.length > 0 || body.oldPlate
      ? [{ id: COVER.id, question: COVER.question, answer: answerCover }]
      : []),
    ...(bridge.inchDrawing.length > 0 ? [{ id: DRAWING.id, question: DRAWING.question, answer: answerDrawing }] : []),
    { id: SHEET.id, question: SHEET.question, answer: answerSheet },
  ];
}

const PRACTICE = {
  text: "Common practice, no source: powder coat and lacquer insulate",
  mark: "common practice",
} as const;

function answerGround(asking: Asking<Instrument>): Verdict {
  const { bridge, body } = asking.subject;
  const how = stringGround({ coated: bridge?.coated ?? false, wireFound: body.groundWire !== undefined });
  const bare = asking.subject.treated?.some((place) => place.how === "bare" && /bridge/.test(place.where)) ?? false;
  const sums = [
    {
      title: "String ground",
      formula: "bare metal on the wire: coat and lacquer insulate",
      rows: [],
      result: say`${how}`,
      source: PRACTICE,
    },
  ];
  if (how === "bare" || bare) {
    return makeVerdict({
      ...GROUND,
      status: "go",
      headline: say`The wire's bare end lies under bare metal. Prove it with the meter before the strings go on: under 1 Ω from bridge to jack sleeve.`,
      sums,
    });
  }
  if (how === "meter first") {
    return makeVerdict({
      ...GROUND,
      status: "rework",
      headline: say`No ground wire was found under the bridge: drill its way and lay it before the bridge goes down.`,
      work: [{ act: "bare contact", where: "under the bridge" }],
      sums,
    });
  }
  return makeVerdict({
    ...GROUND,
    status: "rework",
    headline: say`The plate is coated: a wire clamped under it reads open. Scrape one spot bare under the plate, or put a lug on a screw.`,
    detail: [
      say`Proof with the meter, plate screwed down: wire to a saddle under 1 Ω. Strings joined to the mains earth through a cable: a residual-current device is advised.`,
    ],
    remedies: [
      {
        id: "scrape",
        text: say`Scrape a spot bare on the underside where the wire lies`,
        permanence: "hidden",
        then: "go",
      },
      {
        id: "lug",
        text: say`Solder a ring lug on the wire and clamp it under one screw's bare head`,
        permanence: "reversible",
        then: "go",
      },
    ],
    work: [{ act: "bare contact", where: "underside of the bridge plate" }],
    sums,
  });
}

function answerCover(asking: Asking<Instrument>): Verdict {
  const placed = placement(asking);
  if (!placed.known) return measureVerdict(COVER, placed.missing, "what the bridge will cover");
  const sizes = placed.pieces.flatMap(({ piece }) => [piece.length, piece.width]);
  const unknown = sizes.filter((quantity) => !quantity.known);
  if (unknown.length > 0) return measureVerdict(COVER, unknown, "what the bridge will cover");
  const prints = placed.pieces.flatMap(footprintOf);
  if (prints.length < placed.pieces.length)
    return makeVerdict({ ...COVER, status: "no-go", headline: say`There is no place to judge: see bridge.place.` });
  const front = Math.min(...prints.map((print) => print.frontMm));
  const rear = Math.max(...prints.map((print) => print.rearMm));
  const half = Math.max(...prints.map((print) => Math.max(-print.leftMm, print.rightMm)));
  const visible = placed.scene.oldHoles
    .filter(
      (hole) =>
        hole.plug === undefined && !prints.some((print) => covers(print, hole.uMm, hole.yMm, hole.diameterMm / 2)),
    )
    .map((hole) => hole.id);
  const clear = clearOfCavities(asking.subject, prints);
  const overhang = clear !== undefined && clear.mm < 0;
  const x = (u: number) => mm(xOf(placed.model.frame, u), 1);
  return makeVerdict({
    ...COVER,
    status: overhang ? "no-go" : visible.length > 0 ? "rework" : "go",
    headline: overhang
      ? say`The bridge would overhang the ${clear.id} cavity by ${mm(-clear.mm)}.`
      : visible.length > 0
        ? say`${visible.length} old holes stay in sight (${listed(visible)}): plug and touch up, or leave them.`
        : say`The bridge, from ${x(front)} to ${x(rear)} from the nut and ${mm(half, 1)} to either side, covers every old hole${clear ? say`; it stands ${mm(clear.mm, 1)} clear of the ${clear.id} cavity` : say``}.`,
    stake: overhang ? 3 : 1,
    detail: oldMark(asking.subject, front, rear, 2 * half),
    sums: [
      {
        title: "Cover",
        formula: "front ≤ u ± Ø/2 ≤ rear, |y| + Ø/2 ≤ half width",
        rows: [
          { symbol: "front", meaning: "front edge", value: front, unit: "mm", u: 0, origin: "rule" },
          { symbol: "rear", meaning: "rear edge", value: rear, unit: "mm", u: 0, origin: "rule" },
          { symbol: "half", meaning: "half width", value: half, unit: "mm", u: 0, origin: "rule" },
        ],
        result: say`${visible.length === 0 ? "all covered" : `${visible.length} in sight`}`,
        source: { text: "Derived", mark: "derived" },
      },
    ],
    figures: {
      frontXMm: xOf(placed.model.frame, front),
      rearXMm: xOf(placed.model.frame, rear),
      halfWidthMm: half,
      inSight: visible.length,
      ...(clear ? { clearOfCavityMm: clear.mm } : {}),
    },
  });
}

/** What one piece covers of the top: a rectangle in its own frame, and the stretch of the body it lies in. */
interface Footprint {
  readonly pose: Pose;
  readonly lengthMm: number;
  readonly widthMm: number;
  readonly frontMm: number;
  readonly rearMm: number;
  readonly leftMm: number;
  readonly rightMm: number;
}

function footprintOf({ piece, pose }: PlacedPiece): Footprint[] {
  if (!pose || !piece.length.known || !piece.width.known) return [];
  const lengthMm = piece.length.value;
  const widthMm = piece.width.value;
  const corners = [0, lengthMm].flatMap((pMm) => [-widthMm / 2, widthMm / 2].map((qMm) => toBody(pose, { pMm, qMm })));
  const us = corners.map((corner) => corner.uMm);
  const ys = corners.map((corner) => corner.yMm);
  return [
    {
      pose,
      lengthMm,
      widthMm,
      frontMm: Math.min(...us),
      rearMm: Math.max(...us),
      leftMm: Math.min(...ys),
      rightMm: Math.max(...ys),
    },
  ];
}

function covers({ pose, lengthMm, widthMm }: Footprint, uMm: number, yMm: number, radius: number): boolean {
  const { pMm, qMm } = toPart(pose, { uMm, yMm });
  return pMm - radius >= -1e-9 && pMm + radius <= lengthMm + 1e-9 && Math.abs(qMm) + radius <= widthMm / 2 + 1e-9;
}

/**
 * Least clearance from a top cavity that lies before or behind the bridge, as both stand: one at an angle reaches
 * further, and so do its ears. One wholly beside the bridge is not in its way.
 */
function clearOfCavities(
  instrument: Instrument,
  prints: readonly Footprint[],
): { readonly id: string; readonly mm: number } | undefined {
  let nearest: { id: string; mm: number } | undefined;
  for (const cavity of instrument.body.cavities) {
    for (const outline of cavity.face === "top" ? outlinesOf(cavity) : []) {
      const halfAcross =
        outline.halfU * Math.abs(outline.sin) + outline.halfY * Math.abs(outline.cos) + outline.radiusMm;
      for (const print of prints) {
        if (outline.y + halfAcross <= print.leftMm || outline.y - halfAcross >= print.rightMm) continue;
        const clear = wallMm(outlineAt(print), outline);
        if (nearest === undefined || clear < nearest.mm) nearest = { id: cavity.id, mm: clear };
      }
    }
  }
  return nearest;
}

/** Right through, so that they part in plan alone. */
const THROUGH = { topZMm: Number.POSITIVE_INFINITY, bottomZMm: Number.NEGATIVE_INFINITY } as const;

function outlineAt({ pose, lengthMm, widthMm }: Footprint): Column {
  const { uMm, yMm } = toBody(pose, { pMm: lengthMm / 2, qMm: 0 });
  const { yawDegrees } = pose;
  const sizes = { alongMm: lengthMm, acrossMm: widthMm, cornerRadiusMm: 0 };
  return column({ id: "the bridge", uMm, yMm, yawDegrees, ...sizes, ...THROUGH });
}

/** The cavity and its ears; what was not measured of angle or corners counts as square and sharp. */
function outlinesOf({ id, centre, length, width, ears, angle, cornerRadius }: Cavity): Column[] {
  const { u, y } = centre;
  if (!u.known || !y.known) return [];
  const place = { id, uMm: u.value, yMm: y.value, yawDegrees: -valueOr(angle, 0), ...THROUGH };
  return [{ length, width }, ...(ears ? [ears] : [])].flatMap((part) =>
    part.length.known && part.width.known
      ? [
          column({
            ...place,
            alongMm: part.width.value,
            acrossMm: part.length.value,
            cornerRadiusMm: valueOr(cornerRadius, 0),
          }),
        ]
      : [],
  );
}

function oldMark(instrument: Instrument, front: number, rear: number, width: number): Phrase[] {
  const old = instrument.body.oldPlate;
  if (!old?.front.known || !old.length.known || !old.width.known) return [];
  const ahead = front - old.front.value;
  const behind = old.front.value + old.length.value - rear;
  const aside = (old.width.value - width) / 2;
  const worst = Math.max(ahead, behind, aside);
  return worst > 0
    ? [say`The old plate's mark shows by up to ${mm(worst, 1)}.`]
    : [say`The old plate's mark is covered.`];
}

function answerDrawing(asking: Asking<Instrument>): Verdict {
  const rows = asking.subject.bridge?.inchDrawing ?? [];
  const known = rows.filter(
    (row): row is { what: string; declared: Known; drawn: Known } => row.declared.known && row.drawn.known,
  );
  const compared = known.map((row) => ({
    row,
    ...inchDrawing({ declaredMm: row.declared.value, drawnInch: row.drawn.value / MM_PER_INCH, decimals: 3 }),
  }));
  const bad = compared.find((item) => item.converted !== "once" || item.marginMm < 0);
  const worst = compared.reduce((a, b) => Math.max(a, b.differenceMm), 0);
  return makeVerdict({
    ...DRAWING,
    status: bad ? "no-go" : "go",
    headline: bad
      ? bad.converted === "once"
        ? say`${bad.row.what}: the drawing says ${mm(bad.drawnMm)}, the job ${mm(bad.row.declared.value)}. Measure the part.`
        : say`${bad.row.what}: ${mm(bad.row.declared.value)} looks converted ${bad.converted === "twice" ? "twice" : "not at all"}; the drawing says ${mm(bad.drawnMm)}.`
      : say`Rounding alone: the drawing's inches give ${mm(worst)} at most from the figures used, no effect.`,
    sums: compared.map((item) => ({
      title: item.row.what,
      formula: RULES.inchDrawing.formula,
      rows: [
        {
          symbol: "declared",
          meaning: "figure used",
          value: item.row.declared.value,
          unit: "mm",
          u: 0,
          origin: item.row.declared.origin,
          path: item.row.declared.path,
        },
        {
          symbol: "drawn",
          meaning: "inches on the drawing",
          value: item.row.drawn.value / MM_PER_INCH,
          unit: "in",
          u: 0,
          origin: item.row.drawn.origin,
          path: item.row.drawn.path,
        },
      ],
      result: say`apart ${mm(item.differenceMm, 3)}`,
      source: { text: "1 in = 25.4 mm exactly", mark: "published" as const },
    })),
    figures: Object.fromEntries(
      compared.flatMap((item, index) => [
        [`drawn${index + 1}Mm`, item.drawnMm],
        [`difference${index + 1}Mm`, item.differenceMm],
      ]),
    ),
  });
}

/** Names of the outer strings as the sheets mark them; the octave is left out where the letters already differ. */
export function outerNames(strings: Instrument["strings"], count: number): readonly [string, string] {
  const high = strings[0]?.note ?? "";
  const low = strings[count - 1]?.note ?? "";
  if (high === "" || low === "") return ["string 1", `string ${count}`];
  const letter = (note: string) => note.replace(/\d+$/, "");
  return letter(high) === letter(low) ? [high, low] : [letter(high), letter(low)];
}

/** Holes as the sheet shows them: where they come to stand, or in the part's own frame while that is not known. */
function drawnHoles(asking: Asking<Instrument>): { readonly pMm: number; readonly qMm: number }[] {
  const placed = placement(asking);
  const standing = placed.known ? placed.pieces.flatMap((piece) => piece.holes) : [];
  if (standing.length > 0) return standing.map(({ uMm, yMm }) => ({ pMm: uMm, qMm: yMm }));
  const screws = asking.subject.bridge?.pieces[0]?.screws ?? [];
  return screws.flatMap(({ p, q }) => (p.known && q.known ? [{ pMm: p.value, qMm: q.value }] : []));
}

/** Symmetrical hole patterns look right face down: the sheet has to say how it lies. */
function answerSheet(asking: Asking<Instrument>): Verdict {
  const { bassSide, stringCount, strings } = asking.subject;
  const holes = drawnHoles(asking);
  // Of holes that nobody has measured the worse is taken.
  const symmetry = holes.length > 0 ? faceDown({ holes, withinMm: 0.3 }) : { looksRightFaceDown: true, worstMm: 0 };
  const side = bassSide === -1 ? "left (y < 0)" : "right (y > 0)";
  const [high, low] = outerNames(strings, stringCount);
  return makeVerdict({
    ...SHEET,
    stake: 1,
    status: "go",
    headline:
      holes.length === 0
        ? say`The holes are not known yet, so a sheet laid face down may look right. Every sheet says "seen from the front, head up, bass side ${side}" and marks ${low} and ${high}.`
        : symmetry.looksRightFaceDown
          ? say`The hole pattern is symmetrical: a sheet laid face down would look right. Every sheet says "seen from the front, head up, bass side ${side}" and marks ${low} and ${high}.`
          : say`A sheet laid face down would show; every sheet still says "seen from the front, head up, bass side ${side}".`,
    detail: [
      say`Parts are rigid: plate, pots, jack and pickups keep their shape for either hand; only the layout and the order of the strings change.`,
    ],
    figures: {
      symmetrical: symmetry.looksRightFaceDown ? 1 : 0,
      asymmetryMm: symmetry.worstMm,
      bassSideSign: bassSide,
    },
  });
}
