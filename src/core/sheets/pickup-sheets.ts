/** Pickup routs at 1:1, one sheet for each cavity that has to be cut: the edge as it is, what is cut away, the pickup. */
import {
  circle,
  type DrawingSheet,
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
    const verdict = verdicts.find((item) => item.id === `pickup.${pickup.id}.drop-in`);
    const routs = (verdict?.work ?? []).filter((work): work is Rout => work.act === "rout");
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
  const earsNow =
    cavity.ears?.length.known && cavity.ears.width.known
      ? { along: cavity.ears.width.value, across: cavity.ears.length.value }
      : undefined;
  const body: Box = { along: width.value, across: length.value };
  const grownBody = grown(
    body,
    routs.find((rout) => rout.what !== "ears"),
  );
  const grownEars =
    earsNow &&
    grown(
      earsNow,
      routs.find((rout) => rout.what === "ears"),
    );
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
      ...(deeper(routs, "body")
        ? [outline("rework area", "rework-body-floor", box(grownBody.along, grownBody.across))]
        : reworkItems(middle, turnDegrees, body, grownBody, "rework-body")),
      ...(earsNow && grownEars
        ? deeper(routs, "ears")
          ? earFloors(middle, turnDegrees, body, grownEars)
          : earRework(middle, turnDegrees, body, earsNow, grownEars)
        : []),
      outline("cavity outline", "cavity", box(body.along, body.across), "cavity as it is"),
      ...(earsNow ? [outline("cavity outline", "ears", box(earsNow.along, earsNow.across))] : []),
      ...pickupItems(pickup, middle, turnDegrees),
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

function grown(now: Box, rout: Rout | undefined): Box {
  return rout ? { along: now.along + rout.widthBy, across: now.across + rout.lengthBy } : now;
}

/** A frame between two outlines, as strips at the ends and along the sides. */
function reworkItems(middle: { x: number; y: number }, turnDegrees: number, now: Box, then: Box, id: string): Item[] {
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
function earRework(middle: { x: number; y: number }, turnDegrees: number, body: Box, now: Box, then: Box): Item[] {
  const items: Item[] = [];
  const inside = Math.min(body.across / 2, now.across / 2);
  const ends = (then.across - now.across) / 2;
  const sides = (then.along - now.along) / 2;
  const add = (name: string, dx: number, dy: number, along: number, across: number) => {
    if (along <= 1e-9 || across <= 1e-9) return;
    items.push(
      outline(
        "rework area",
        `rework-ear-${name}`,
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
function earFloors(middle: { x: number; y: number }, turnDegrees: number, body: Box, then: Box): Item[] {
  const reach = (then.across - body.across) / 2;
  if (reach <= 1e-9) return [];
  return [-1, 1].map((sign) => {
    const centre = turned(middle, 0, sign * (body.across / 2 + reach / 2), turnDegrees);
    const floor = rectangle({ centre, alongMm: then.along, acrossMm: reach, turnDegrees });
    return outline("rework area", `rework-ear-floor${sign}`, floor);
  });
}

function turned(middle: { x: number; y: number }, dx: number, dy: number, degrees: number): { x: number; y: number } {
  const angle = (degrees * Math.PI) / 180;
  return {
    x: middle.x + dx * Math.cos(angle) - dy * Math.sin(angle),
    y: middle.y + dx * Math.sin(angle) + dy * Math.cos(angle),
  };
}

function pickupItems(pickup: Pickup, middle: { x: number; y: number }, turnDegrees: number): Item[] {
  const { body, ears, poleSpread, poleDiameter, strings } = pickup;
  const items: Item[] = [];
  if (body.length.known && body.width.known)
    items.push(
      outline(
        "part outline",
        "pickup-body",
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
        "pickup-ears",
        rectangle({ centre: middle, alongMm: ears.width.value, acrossMm: ears.length.value, turnDegrees }),
      ),
    );
  if (poleSpread.known && pickup.poles === "one a string") {
    const count = strings.length;
    strings.forEach((string, index) => {
      const y = poleSpread.value * (index / Math.max(1, count - 1) - 0.5);
      items.push(
        circle(
          "part outline",
          `pole-${string}`,
          turned(middle, 0, y, turnDegrees),
          poleDiameter.known ? poleDiameter.value : 4,
        ),
      );
    });
  }
  return items;
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
