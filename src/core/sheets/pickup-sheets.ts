/** Pickup routs at 1:1, one sheet for each cavity that has to be cut: the edge as it is, what is cut away, the pickup. */
import {
  circle,
  type DrawingSheet,
  type FramePoint,
  type Item,
  line,
  makeScene,
  note,
  outline,
  rectangle,
  type Scene,
} from "../drawing/index.ts";
import type { Cavity, Pickup } from "../job/index.ts";
import { mm, type Phrase, say } from "../quantity/index.ts";
import type { Verdict, Work } from "../verdict/index.ts";
import { fromRegister, registerLineAt, registerOf, type SheetContext, titleFields } from "./context.ts";

type Rout = Extract<Work, { act: "rout" }>;

export function pickupSheets(context: SheetContext): DrawingSheet[] {
  const { instrument, verdicts } = context;
  return instrument.pickups.flatMap((pickup) => {
    const verdict = dropInOf(verdicts, pickup.id);
    const routs = routsOf(verdicts, pickup.id);
    const cavity = instrument.body.cavities.find((item) => item.id === pickup.cavityId);
    if (!verdict || !cavity || routs.length === 0) return [];
    const scene = routScene(context, pickup, cavity, routs);
    return scene
      ? [
          {
            kind: "drawing" as const,
            id: `rout-${pickup.id}`,
            scene,
            fields: titleFields(context, `Rout, ${pickup.id} pickup`),
            paper: context.options.paper,
            ...(context.options.printFactors ? { printFactors: context.options.printFactors } : {}),
            notes: notesOf(verdict, cavity, routs),
            table: false,
            turn: 0 as const,
          },
        ]
      : [];
  });
}

function dropInOf(verdicts: readonly Verdict[], pickupId: string): Verdict | undefined {
  return verdicts.find((item) => item.id === `pickup.${pickupId}.drop-in`);
}

/** What has to be cut before the pickup drops in. */
export function routsOf(verdicts: readonly Verdict[], pickupId: string): readonly Rout[] {
  return (dropInOf(verdicts, pickupId)?.work ?? []).filter((work): work is Rout => work.act === "rout");
}

interface Box {
  readonly along: number;
  readonly across: number;
}

function routScene(context: SheetContext, pickup: Pickup, cavity: Cavity, routs: readonly Rout[]): Scene | undefined {
  const { placement: placed, instrument } = context;
  const { centre, length, width, cornerRadius, angle } = cavity;
  if (!placed || !centre.u.known || !centre.y.known || !length.known || !width.known) return undefined;
  const register = registerOf(placed, instrument);
  const middle = { x: fromRegister(placed, register, centre.u.value), y: centre.y.value };
  const turnDegrees = angle.known ? -angle.value : 0;
  const radius = cornerRadius.known ? cornerRadius.value : 0;
  const box = (along: number, across: number, corner = radius) =>
    rectangle({
      centre: middle,
      alongMm: along,
      acrossMm: across,
      cornerRadiusMm: Math.min(corner, along / 2, across / 2),
      turnDegrees,
    });
  const body: Box = { along: width.value, across: length.value };
  const { earsNow, grownBody, grownEars } = boxesOf(cavity, body, routs);
  const half = Math.max(grownBody.across, grownEars?.across ?? 0) / 2 + 10;
  const front = middle.x - Math.max(grownBody.along, grownEars?.along ?? 0) / 2;
  const rear = middle.x + grownBody.along / 2 + 8;
  const lineAt = registerLineAt(front);
  return makeScene({
    id: `rout-${pickup.id}`,
    title: `Rout, ${pickup.id} pickup`,
    view: "front",
    frame: {
      name: "body",
      origin: `${register.words}, on the centre line of the neck`,
      axes: ["along", "across"],
      bassSide: instrument.bassSide,
    },
    datum: {
      at: { x: lineAt, y: 0 },
      name: `register line on the centre line, ${lineAt.toFixed(1)} from ${register.words} by steel rule`,
    },
    items: [
      line("centre line", "centre", { x: lineAt - 12, y: 0 }, { x: rear + 6, y: 0 }, "centre line"),
      line(
        "register line",
        "register",
        { x: lineAt, y: -half },
        { x: lineAt, y: half },
        { label: "register line", labelAt: "to" },
      ),
      ...cavityRework(cavity, middle, turnDegrees, routs, "rework"),
      outline("cavity outline", "cavity", box(body.along, body.across), "cavity as it is"),
      ...(earsNow ? [outline("cavity outline", "ears", box(earsNow.along, earsNow.across))] : []),
      ...pickupItems(pickup, { middle, turnDegrees, bassSide: instrument.bassSide }, "pickup"),
      // A line a zone: both in one made the drawing wider than an upright sheet.
      ...routs.map((rout, index) =>
        note(index === 0 ? "growth" : `growth-${index + 1}`, {
          at: { x: rear + 14 + 6 * index, y: 0 },
          words: growthWords(rout, cavity),
          heightMm: 2.8,
          anchor: "middle",
          bold: true,
        }),
      ),
    ],
  });
}

/** A zone that goes deeper is cut over its whole floor, not along its edges alone. */
function deeper(routs: readonly Rout[], zone: "body" | "ears"): boolean {
  return routs.some((rout) => (rout.what === "ears") === (zone === "ears") && rout.depthBy > 0);
}

/** The cavity and its ears, as they are and as they have to be. */
function boxesOf({ ears }: Cavity, body: Box, routs: readonly Rout[]) {
  const earsNow: Box | undefined =
    ears?.length.known && ears.width.known ? { along: ears.width.value, across: ears.length.value } : undefined;
  const rout = (isEars: boolean) => routs.find((one) => (one.what === "ears") === isEars);
  return { earsNow, grownBody: grown(body, rout(false)), grownEars: earsNow && grown(earsNow, rout(true)) };
}

/** What has to be cut away round a cavity and its ears. */
export function cavityRework(
  cavity: Cavity,
  middle: FramePoint,
  turnDegrees: number,
  routs: readonly Rout[],
  id: string,
): Item[] {
  const { length, width } = cavity;
  if (!length.known || !width.known) return [];
  const body: Box = { along: width.value, across: length.value };
  const { earsNow, grownBody, grownEars } = boxesOf(cavity, body, routs);
  const floor = () => rectangle({ centre: middle, alongMm: grownBody.along, acrossMm: grownBody.across, turnDegrees });
  const ears = () => {
    if (!earsNow || !grownEars) return [];
    return deeper(routs, "ears")
      ? earFloors(middle, turnDegrees, body, grownEars, `${id}-ear`)
      : earRework(middle, turnDegrees, body, earsNow, grownEars, `${id}-ear`);
  };
  return [
    ...(deeper(routs, "body")
      ? [outline("rework area", `${id}-body-floor`, floor())]
      : reworkItems(middle, turnDegrees, body, grownBody, `${id}-body`)),
    ...ears(),
  ];
}

function grown(now: Box, rout: Rout | undefined): Box {
  return rout ? { along: now.along + rout.widthBy, across: now.across + rout.lengthBy } : now;
}

/** A frame between two outlines, as strips at the ends and along the sides. */
function reworkItems(middle: FramePoint, turnDegrees: number, now: Box, then: Box, id: string): Item[] {
  const ends = (then.across - now.across) / 2;
  const sides = (then.along - now.along) / 2;
  const items: Item[] = [];
  const strip = (name: string, dx: number, dy: number, along: number, across: number) => {
    if (along <= 0 || across <= 0) return;
    items.push(
      outline(
        "rework area",
        `${id}-${name}`,
        rectangle({ centre: turned(middle, dx, dy, turnDegrees), alongMm: along, acrossMm: across, turnDegrees }),
      ),
    );
  };
  for (const sign of [-1, 1]) {
    strip(`end${sign}`, 0, sign * (now.across / 2 + ends / 2), then.along, ends);
    strip(`side${sign}`, sign * (now.along / 2 + sides / 2), 0, sides, now.across);
  }
  return items;
}

/** Ears reach out of the main cavity: only what lies beyond it is cut. */
function earRework(middle: FramePoint, turnDegrees: number, body: Box, now: Box, then: Box, id: string): Item[] {
  const items: Item[] = [];
  const inside = Math.min(body.across / 2, now.across / 2);
  const ends = (then.across - now.across) / 2;
  const sides = (then.along - now.along) / 2;
  const add = (name: string, dx: number, dy: number, along: number, across: number) => {
    if (along <= 1e-9 || across <= 1e-9) return;
    items.push(
      outline(
        "rework area",
        `${id}-${name}`,
        rectangle({ centre: turned(middle, dx, dy, turnDegrees), alongMm: along, acrossMm: across, turnDegrees }),
      ),
    );
  };
  for (const sign of [-1, 1]) {
    add(`end${sign}`, 0, sign * (now.across / 2 + ends / 2), then.along, ends);
    for (const side of [-1, 1])
      add(
        `side${sign}${side}`,
        side * (now.along / 2 + sides / 2),
        sign * ((inside + now.across / 2) / 2),
        sides,
        now.across / 2 - inside,
      );
  }
  return items;
}

/** The floors of both ears, beyond the main cavity. */
function earFloors(middle: { x: number; y: number }, turnDegrees: number, body: Box, then: Box, id: string): Item[] {
  const reach = (then.across - body.across) / 2;
  if (reach <= 1e-9) return [];
  return [-1, 1].map((sign) => {
    const centre = turned(middle, 0, sign * (body.across / 2 + reach / 2), turnDegrees);
    const floor = rectangle({ centre, alongMm: then.along, acrossMm: reach, turnDegrees });
    return outline("rework area", `${id}-floor${sign}`, floor);
  });
}

function turned(middle: FramePoint, dx: number, dy: number, degrees: number): { x: number; y: number } {
  const angle = (degrees * Math.PI) / 180;
  return {
    x: middle.x + dx * Math.cos(angle) - dy * Math.sin(angle),
    y: middle.y + dx * Math.sin(angle) + dy * Math.cos(angle),
  };
}

interface Lying {
  readonly middle: FramePoint;
  readonly turnDegrees: number;
  readonly bassSide: 1 | -1;
}

/** The pickup's own outline, ears and poles. */
export function pickupItems(pickup: Pickup, { middle, turnDegrees, bassSide }: Lying, id: string): Item[] {
  const { body, ears } = pickup;
  const items: Item[] = [];
  if (body.length.known && body.width.known)
    items.push(
      outline(
        "part outline",
        `${id}-body`,
        rectangle({
          centre: middle,
          alongMm: body.width.value,
          acrossMm: body.length.value,
          cornerRadiusMm: 1,
          turnDegrees,
        }),
        pickup.name,
      ),
    );
  if (ears?.length.known && ears.width.known)
    items.push(
      outline(
        "part outline",
        `${id}-ears`,
        rectangle({ centre: middle, alongMm: ears.width.value, acrossMm: ears.length.value, turnDegrees }),
      ),
    );
  return [...items, ...poleItems(pickup, { middle, turnDegrees, bassSide }, id)];
}

/** Common practice, as the poles' question assumes it. */
const USUAL_POLE_MM = 4.8;

function poleItems(pickup: Pickup, { middle, turnDegrees, bassSide }: Lying, id: string): Item[] {
  const { poles, poleSpread, polePair, poleDiameter, strings } = pickup;
  if (!poleSpread.known || poles === "none") return [];
  const spread = poleSpread.value;
  const diameter = poleDiameter.known ? poleDiameter.value : USUAL_POLE_MM;
  const pair = poles === "two a string" ? (polePair.known ? [-polePair.value / 2, polePair.value / 2] : []) : [0];
  return [...strings]
    .sort((a, b) => a - b)
    .flatMap((string, index) =>
      pair.map((beside, which) => {
        // The thinnest string lies on the treble side.
        const y = -bassSide * spread * (0.5 - index / Math.max(1, strings.length - 1)) + beside;
        const name = pair.length > 1 ? `${id}-pole-${string}-${which + 1}` : `${id}-pole-${string}`;
        return circle("part outline", name, turned(middle, 0, y, turnDegrees), diameter);
      }),
    );
}

function growthWords(rout: Rout, cavity: Cavity): Phrase {
  const parts: Phrase[] = [];
  if (rout.lengthBy > 0) parts.push(say`${mm(rout.lengthBy / 2, 1)} at each end`);
  if (rout.widthBy > 0) parts.push(say`${mm(rout.widthBy, 1)} in width (${mm(rout.widthBy / 2, 2)} a side)`);
  if (rout.depthBy > 0) {
    const now = rout.what === "ears" ? cavity.ears?.depth : cavity.depth;
    const to = now?.known ? say`, to ${mm(now.value + rout.depthBy, 1)}` : say``;
    parts.push(say`${mm(rout.depthBy, 1)} deeper${to}`);
  }
  return say`${rout.what}: cut ${parts.flatMap((part, index) => (index === 0 ? part : [", ", ...part]))}`;
}

function notesOf(verdict: Verdict, cavity: Cavity, routs: readonly Rout[]): Phrase[] {
  const cut = routs.some((rout) => rout.depthBy > 0)
    ? say`Cut all that is hatched, the floor too. Depths from the top: ${depthWords(cavity, routs)}. Set the cutter anew for each.`
    : say`Cut only the hatched strips at the full line's outside. The depth stays as it is${cavity.ears?.depth.known ? say` (${mm(cavity.ears.depth.value, 1)} at the ears)` : say``}.`;
  return [
    verdict.headline,
    cut,
    say`Lay the sheet by its register and centre lines, and check it against the edge of the cavity: the full line must lie on it all round.`,
    say`Before the foil and before the pickup. Sharp cutter, shallow passes, the work clamped; goggles, mask, and local rules first.`,
  ];
}

/** "body to 20.5, ears to 25.5": each zone's depth as it is to be, or that it stays. */
function depthWords(cavity: Cavity, routs: readonly Rout[]): Phrase {
  const zones = [
    { zone: "body", now: cavity.depth },
    ...(cavity.ears ? [{ zone: "ears", now: cavity.ears.depth }] : []),
  ] as const;
  const words = zones.map(({ zone, now }): Phrase => {
    const by = routs.find((rout) => (rout.what === "ears") === (zone === "ears"))?.depthBy ?? 0;
    if (!now.known) return by > 0 ? say`${zone} ${mm(by, 1)} deeper than now` : say`${zone} as now`;
    return by > 0
      ? say`${zone} to ${mm(now.value + by, 1)}`
      : say`${zone} ${zone === "ears" ? "stay" : "stays"} at ${mm(now.value, 1)}`;
  });
  return words.flatMap((part, index) => (index === 0 ? part : [", ", ...part]));
}
