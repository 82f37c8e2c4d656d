/** The wiring sheet: the plate from behind, states with boxes for their readings, wires in the order of soldering. */
import type { Block, FlowDocument, Table } from "../drawing/index.ts";
import type { Wiring } from "../job/index.ts";
import {
  CONTACT_OHMS,
  drawWiring,
  type PlatePicture,
  type SolderGroup,
  type StateCheck,
  shownOhms,
  signalOf,
  solderGroups,
  wireNames,
  wiringCheck,
} from "../wiring/index.ts";
import { type SheetContext, titleFields } from "./context.ts";

/** @returns nothing where the job describes no wiring */
export function wiringPaper(context: SheetContext): FlowDocument[] {
  const { wiring } = context.instrument;
  const check = wiringCheck(wiring);
  if (!wiring || !check) return [];
  const groups = solderGroups(wiring);
  const picture = drawWiring(wiring);
  const { widthMm, heightMm } = picture;
  const blocks: Block[] = [
    {
      kind: "picture",
      title: "Control plate from behind",
      widthMm,
      heightMm,
      groups: picture.groups,
      caption:
        "Seen from behind, as it lies on the bench. Lines that cross are not joined: joints are at lugs alone. Dashed: ground. Numbers follow the order of soldering; letters are colours (BK black, BN brown, RD red, OG orange, YE yellow, GN green, BU blue, VT violet, GY grey, WH white, PK pink).",
    },
    ...findingBlocks(check.findings),
    { kind: "heading", words: "States: what sounds, and what the meter reads at the jack" },
    {
      kind: "paragraph",
      words: `Plug in, tip to sleeve, knobs as stated else full, ${check.celsius} °C. Write your reading down before you turn the sheet over: what it should be stands at its end.`,
    },
    { kind: "table", table: statesTable(check.states) },
    { kind: "heading", words: "The signal, state by state" },
    ...check.states.flatMap(({ id }): Block[] => {
      const signal = signalOf(wiring, check, id);
      return signal ? [{ kind: "picture", title: `Signal of ${id}`, ...signal, caption: "" }] : [];
    }),
    { kind: "heading", words: "Soldering, group by group" },
    {
      kind: "caution",
      words:
        "Solder in moving air and keep your face out of the fume; wash your hands after leaded solder. Goggles on: clipped wire flies. The iron stays hot for minutes. Three seconds a joint: a pot's case takes a bigger tip, not a longer time.",
      source: "common practice",
    },
    ...groups.flatMap((group, index) => groupBlocks(group, index + 1, wiring, picture)),
    { kind: "heading", words: "What the states should read" },
    { kind: "table", table: expectedTable(check.states) },
  ];
  return [
    {
      kind: "text",
      id: "wiring",
      fields: titleFields(context, "Wiring"),
      paper: context.options.paper,
      blocks,
      strings: true,
    },
  ];
}

function findingBlocks(findings: NonNullable<ReturnType<typeof wiringCheck>>["findings"]): Block[] {
  if (findings.length === 0) return [];
  return [
    { kind: "heading", words: "Wrong with it as drawn" },
    ...findings.map(({ what, why, remedy }): Block => ({ kind: "paragraph", words: `${what}. ${why}. ${remedy}.` })),
  ];
}

function statesTable(states: readonly StateCheck[]): Table {
  return {
    columns: [
      { head: "state", align: "text", bold: true, widthMm: 30 },
      { head: "what sounds", align: "text" },
      { head: "hum", align: "text", widthMm: 24 },
      { head: "read, kΩ", align: "text", widthMm: 26 },
    ],
    rows: states.map(({ title, sound, phases, hum }) => [
      title,
      `${sound}${phases.includes("out of phase") ? ", OUT OF PHASE" : ""}`,
      hum ?? "not known",
      "",
    ]),
  };
}

function expectedTable(states: readonly StateCheck[]): Table {
  return {
    columns: [
      { head: "state", align: "text", bold: true, widthMm: 40 },
      { head: "should read", align: "text", widthMm: 30 },
      { head: "between", align: "text" },
    ],
    rows: states.map(({ title, ohms }) => [
      title,
      shownOhms(ohms.ohms),
      Number.isFinite(ohms.ohms) ? `${shownOhms(ohms.low)} and ${shownOhms(ohms.high)}` : "",
    ]),
  };
}

function bandWords({ ohms, low, high }: SolderGroup["proofs"][number]["expected"]): string {
  if (!Number.isFinite(ohms)) return "open";
  return high <= CONTACT_OHMS
    ? `under ${CONTACT_OHMS} Ω`
    : `${shownOhms(ohms)}, ${shownOhms(low)} to ${shownOhms(high)}`;
}

/** A wire is cut as long as it is drawn, and so much for two joints and for going round (common practice). */
const SLACK_MM = 40;

function groupBlocks(group: SolderGroup, number: number, wiring: Wiring, { routed }: PlatePicture): Block[] {
  const names = wireNames(solderGroups(wiring));
  const lengthOf = (id: string, given: number | undefined) => {
    const drawn = routed.wires.find((wire) => wire.id === id)?.lengthMm;
    if (given !== undefined) return `${Math.round(given)}`;
    return drawn === undefined ? "" : `${10 * Math.ceil((drawn + SLACK_MM) / 10)}`;
  };
  const joints = group.joints.filter(({ act }) => act === "hook");
  return [
    { kind: "heading", level: 2, words: `${number}. ${group.title}` },
    {
      kind: "table",
      table: {
        columns: [
          { head: "wire", align: "text", bold: true, widthMm: 18 },
          { head: "from", align: "text", widthMm: 34 },
          { head: "to", align: "text", widthMm: 34 },
          { head: "colour", align: "text" },
          { head: "cut, mm", align: "text", widthMm: 20 },
        ],
        rows: group.wires.map(({ id, from, to, colour, lengthMm }) => [
          names.get(id)?.label ?? id,
          from,
          to,
          colour ?? "",
          colour === "own lead" || from.endsWith(`.${colour}`) ? "its own" : lengthOf(id, lengthMm),
        ]),
      },
    },
    ...joints.map(
      ({ lug, until }): Block => ({
        kind: "paragraph",
        words: `${lug}: hook and squeeze, do not solder yet; more comes with "${until}".`,
        small: true,
      }),
    ),
    ...group.proofs.map(
      ({ points, stateTitle, expected, wrong }): Block => ({
        kind: "paragraph",
        words: `Proof: ${points[0]} to ${points[1]}${stateTitle === "" ? "" : ` (${stateTitle})`}: ${bandWords(expected)}. If it is wrong: ${wrong.join("; ")}.`,
      }),
    ),
  ];
}
