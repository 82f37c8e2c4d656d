/** Strings against the rest: does the winding pass the nut, and what moves when a string is changed for its spare. */
import { type Anchor, type Pose, toBody, windingPastNutMm } from "../bridge/index.ts";
import type { Instrument } from "../job/index.ts";
import { type Asking, weigh } from "../ledger/index.ts";
import { figure, type Known, mm, type Phrase, say } from "../quantity/index.ts";
import { heightsWithShimMm, shimRange } from "../setup/index.ts";
import type { Remedy, Verdict } from "../verdict/index.ts";
import { bridgeModel, withSpare, xOf } from "./bridge-model.ts";
import { type InstrumentQuestion, makeVerdict, measureVerdict } from "./make-verdict.ts";
import { neededHeights } from "./needed-heights.ts";
import { placement } from "./placement.ts";

const WINDING = { id: "strings.winding", question: "Does the full winding reach past the nut?", stake: 1 } as const;
const CHANGE = {
  id: "strings.change",
  question: "What moves if a string is changed for its spare?",
  stake: 1,
} as const;

export function stringQuestions(instrument: Instrument): InstrumentQuestion[] {
  const { bridge } = instrument;
  const anchored = bridge?.topAnchor !== undefined || bridge?.throughAnchor !== undefined;
  return [
    ...(bridge && anchored && instrument.windingLength.known
      ? [{ id: WINDING.id, question: WINDING.question, answer: answerWinding }]
      : []),
    ...(bridge && instrument.spareStrings.length > 0
      ? [{ id: CHANGE.id, question: CHANGE.question, answer: answerChange }]
      : []),
  ];
}

/** An anchor whose place along the strings is still to come: of the union's every kind. */
type AnchorInPart = Anchor extends infer Kind ? (Kind extends Anchor ? Omit<Kind, "xMm"> : never) : never;

function answerWinding(asking: Asking<Instrument>): Verdict {
  const heights = neededHeights(asking);
  const placed = placement(asking);
  if (!heights.known) return measureVerdict(WINDING, heights.missing, "how long the string's way is");
  if (!placed.known) return measureVerdict(WINDING, placed.missing, "how long the string's way is");
  const { bridge, windingLength, limits } = asking.subject;
  const { frame } = placed.model;
  const pieces = placed.pieces.filter(({ saddles }) => saddles.length > 0);
  if (!bridge || pieces.some(({ pose }) => !pose) || !windingLength.known)
    return measureVerdict(WINDING, [windingLength], "how far the winding passes the nut");
  const need = limits.windingPastNut.known ? limits.windingPastNut.value : 3;
  const z = contactHeights(asking.subject, heights);
  // In the order of the heights. Each string's way ends at its own nut, and its ball lies in its own piece.
  const strung = pieces.flatMap(({ pose, saddles }) => saddles.map((saddle) => ({ pose: pose as Pose, saddle })));
  const past = (anchorP: number, anchor: AnchorInPart) =>
    strung.map(({ pose, saddle }, index) => {
      const nutX = frame.nutX[saddle.string - 1] ?? 0;
      const ball = toBody(pose, { pMm: anchorP, qMm: saddle.q.value });
      return windingPastNutMm({
        contact: { xMm: (heights.contactsMm[index] ?? 0) - nutX, zMm: z[index] ?? 0 },
        anchor: { ...anchor, xMm: xOf(frame, ball.uMm) - nutX },
        windingLengthMm: windingLength.value,
      });
    });
  const ways = [
    ...(bridge.topAnchor?.p.known && bridge.topAnchor.z.known
      ? [
          {
            name: "top" as const,
            past: past(bridge.topAnchor.p.value, { kind: "top", zMm: bridge.topAnchor.z.value }),
          },
        ]
      : []),
    ...(bridge.throughAnchor?.p.known && bridge.throughAnchor.z.known && bridge.throughAnchor.down.known
      ? [
          {
            name: "through" as const,
            past: past(bridge.throughAnchor.p.value, {
              kind: "through",
              zMm: bridge.throughAnchor.z.value,
              downMm: bridge.throughAnchor.down.value,
            }),
          },
        ]
      : []),
  ];
  if (ways.length === 0)
    return measureVerdict(
      WINDING,
      [bridge.topAnchor?.z ?? bridge.throughAnchor?.z ?? windingLength].filter((quantity) => !quantity.known),
      "how far the winding passes the nut",
    );
  const judged = ways.map((way) => ({ ...way, least: Math.min(...way.past), most: Math.max(...way.past) }));
  const good = judged.filter((way) => way.least >= need).sort((a, b) => b.least - a.least)[0];
  const wanted = judged.find((way) => way.name === bridge.anchor) ?? good ?? judged[0];
  const status = wanted && wanted.least >= need ? "go" : good ? "rework" : "no-go";
  const weighed = wanted
    ? weigh({
        leaves: { winding: windingLength as Known },
        unit: "mm",
        margin: (x) => (x.winding as number) - windingLength.value + wanted.least - need,
      })
    : undefined;
  const remedies: Remedy[] =
    good && status !== "go"
      ? [
          {
            id: `anchor-${good.name}`,
            text: say`Anchor the strings ${good.name === "top" ? "on top" : "through the body"}`,
            permanence: "reversible",
            then: "go",
          },
        ]
      : [];
  return makeVerdict({
    ...WINDING,
    status,
    headline: windingHeadline(judged, status, need),
    ...(wanted && weighed?.known
      ? {
          margin: { value: wanted.least - need, unit: "mm", u: weighed.u },
          probability: weighed.probability,
          shares: weighed.shares,
        }
      : {}),
    remedies,
    work:
      status === "rework" && good
        ? [{ act: "choose", what: `strings anchored ${good.name === "top" ? "on top" : "through the body"}` }]
        : [],
    sums: [
      {
        title: "Winding past the nut",
        formula: "past = winding − (contact to nut) − √((x_a − x_c)² + (z_a − z_c)²) − down",
        rows: [
          {
            symbol: "winding",
            meaning: "full winding from the ball",
            value: windingLength.value,
            unit: "mm",
            u: 0,
            origin: windingLength.origin,
            path: windingLength.path,
          },
        ],
        result: say`${judged.flatMap((way, index) => [index === 0 ? "" : "; ", `${way.name}: `, mm(way.least, 1), " to ", mm(way.most, 1)])}`,
        source: { text: "Derived. At least 3 mm past the nut: common practice", mark: "derived" },
      },
    ],
    figures: Object.fromEntries(
      judged.flatMap((way) => [
        [`${way.name}LeastMm`, way.least],
        [`${way.name}MostMm`, way.most],
      ]),
    ),
  });
}

function windingHeadline(
  ways: readonly { readonly name: "top" | "through"; readonly least: number; readonly most: number }[],
  status: string,
  need: number,
): Phrase {
  const words = ways.map((way): Phrase => {
    const name = way.name === "top" ? "anchored on top" : "through the body";
    if (way.least >= need) return say`${name} it passes the nut by at least ${mm(way.least, 1)}`;
    if (way.most < 0) return say`${name} it ends ${mm(-way.most, 1)} to ${mm(-way.least, 1)} short of the nut`;
    return say`${name} it passes the nut by only ${mm(way.least, 1)}, ${mm(need, 1)} is wanted`;
  });
  const joined = words.flatMap((item, index) => (index === 0 ? item : ["; ", ...item]));
  return say`Full winding: ${joined}${status === "no-go" ? ". No anchoring will do: a longer-wound set is needed" : ""}.`;
}

/** Heights of the contacts as they will stand, with the shim that is fitted or needed. */
function contactHeights(
  instrument: Instrument,
  heights: Extract<ReturnType<typeof neededHeights>, { known: true }>,
): number[] {
  const { bridge, shim, limits, neck } = instrument;
  const { pocket, neededMm, contactsMm } = heights;
  // A glued neck takes no shim: its strings stand as high as they stand.
  if (!pocket || !neck.boltOn) return [...neededMm];
  if (shim.known)
    return shim.value === 0
      ? [...neededMm]
      : heightsWithShimMm({ neededMm, contactsMm, pocket, thicknessMm: shim.value, thick: "heel end" });
  if (!bridge?.lowest.known || !bridge.highest.known) return [...neededMm];
  const reserveMm = limits.saddleReserve.known ? limits.saddleReserve.value : 0.5;
  const wanted = shimRange({
    neededMm,
    contactsMm,
    lowestMm: bridge.lowest.value,
    highestMm: bridge.highest.value,
    reserveMm,
    pocket,
  });
  if (!wanted.needed || wanted.takeMm === undefined) return [...neededMm];
  return heightsWithShimMm({ neededMm, contactsMm, pocket, thicknessMm: wanted.takeMm, thick: wanted.thick });
}

function answerChange(asking: Asking<Instrument>): Verdict {
  const model = bridgeModel(asking);
  if (!model.known) return measureVerdict(CHANGE, model.missing, "how far the saddle would move");
  const rows = model.spares.flatMap((spare) => {
    const piece = model.pieces.find(({ saddles }) => saddles.some((saddle) => saddle.string === spare.string));
    const now = piece?.saddles.find((saddle) => saddle.string === spare.string);
    const then = piece && withSpare(piece, spare).find((saddle) => saddle.string === spare.string);
    if (!now?.how.quantity.known || !then) return [];
    return [
      {
        spare,
        // Like with like: the string's own setback, the saddle where it stands, and how far that is from the spare's wish.
        by: spare.setback.value - now.how.quantity.value,
        saddleBy: then.setback.value - now.setback.value,
        out: spare.setback.value - now.setback.value,
      },
    ];
  });
  const first = rows[0];
  if (!first)
    return makeVerdict({ ...CHANGE, status: "go", headline: say`No spare string has a setback of its own yet.` });
  const scale = model.frame.scaleLengths[first.spare.string - 1]?.value ?? 0;
  return makeVerdict({
    ...CHANGE,
    status: "go",
    headline: say`Changing string ${first.spare.string} for the ${first.spare.name} moves its setback by ${mm(Math.abs(first.by))} ${first.by < 0 ? "forward" : "back"}${sharedWords(first)}: set the intonation again, that string is out by ${figure(Math.abs((first.out * 1200) / Math.LN2 / scale), "cents", 0)} until then.`,
    sums: [
      {
        title: "Setback of both",
        formula: "Δ = s spare − s now",
        rows: rows.map(({ spare }) => ({
          symbol: `s${spare.string}`,
          meaning: spare.name,
          value: spare.setback.value,
          unit: "mm",
          u: 0,
          origin: spare.setback.origin,
          path: spare.setback.path,
        })),
        result: say`Δ ${mm(first.by)}`,
        source: { text: "Derived: the setback pattern restarts at each change from plain to wound", mark: "derived" },
      },
    ],
    figures: Object.fromEntries(
      rows.flatMap(({ spare, by, saddleBy }) => [
        [`string${spare.string}MovesMm`, by],
        ...(sharesSaddle({ by, saddleBy }) ? [[`saddle${spare.string}MovesMm`, saddleBy]] : []),
      ]),
    ),
  });
}

const SAME_MM = 1e-9;

/** A saddle that stands at the middle of what several strings want moves by less than the one that is changed. */
function sharesSaddle({ by, saddleBy }: { readonly by: number; readonly saddleBy: number }): boolean {
  return Math.abs(saddleBy - by) > SAME_MM;
}

function sharedWords(row: { readonly by: number; readonly saddleBy: number }): Phrase {
  return sharesSaddle(row) ? say`, and the saddle it shares by ${mm(Math.abs(row.saddleBy))}` : say``;
}
