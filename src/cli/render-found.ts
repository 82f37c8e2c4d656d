/** What the meter found of a pickup or a switch, in plain words and as lines for the job file. */
import { partText, pickupPart, switchPart } from "../app/found-parts.ts";
import {
  type CoilPairing,
  type CoilsFound,
  type ContactsFound,
  type FoundCoil,
  faultsOf,
} from "../core/circuit/index.ts";
import type { AskedCoils } from "./find-coils-talk.ts";
import type { contactSearchOf } from "./find-switch-talk.ts";
import { paint, printable, table, wrap } from "./text.ts";

interface Style {
  readonly width: number;
  readonly colour: boolean;
}

/** More would hide what comes first. */
const MOST_TESTS = 6;

export function renderCoils(found: CoilsFound, search: AskedCoils, part: string, style: Style): string {
  const { coils, needs, words, pairings } = found;
  const pickup = pickupPart(found, search);
  const coilWords = coils.length === 0 ? ["No coil was found."] : [];
  const bareMetal = (found.mostReadingsLeft > 0 ? [] : (search.metals ?? []))
    .filter((name) => pickup.metal?.[name] === undefined)
    .map((name) => `${name} touches no wire: give it one to ground, or it picks up hum.`);
  const tests = needs.slice(0, MOST_TESTS).map((need) => need.words);
  const more = needs.length - tests.length;
  const lines = [
    ...section("Found", [...coilWords, ...words, ...bareMetal], style),
    ...pairings.flatMap((pairing) => ["", ...joiningOf(pairing, coils, style)]),
    ...(tests.length === 0
      ? []
      : [
          "",
          ...section("Not known yet; what would tell", [...tests, ...(more > 0 ? [`And ${more} more.`] : [])], style),
        ]),
    "",
    ...section("Read", [readingsInWords(search)], style),
  ];
  if (coils.length > 0) {
    const note = coils.some(({ finish }) => finish === undefined)
      ? "where no kick was read, start and finish stand in the order of the names"
      : undefined;
    lines.push("", ...fileLines(partText(part, pickup), note, style));
  }
  return lines.join("\n");
}

function joiningOf(pairing: CoilPairing, coils: readonly FoundCoil[], style: Style): string[] {
  const { series, inPhaseAsJoined, hum } = pairing;
  const [one, other] = pairing.coils.map((place) => coils[place]);
  const humWords =
    hum === "not known" ? "not known: hold a compass to the poles of both" : `${hum} when they are in phase`;
  if (series) {
    const rows = [
      ["hot", series.hot],
      ["joint", series.joint.join(" with ")],
      ["ground", series.ground],
      ["hum", humWords],
    ];
    return [heading("In series, in phase", style), ...table(rows, ["left", "left"], style.width, "  ")];
  }
  const shared = one?.joined.find((end) => other?.joined.includes(end)) ?? [];
  const rows = [
    ["joint", `${shared.join(", ")} (joined inside)`],
    ["phase", inPhaseAsJoined ? "in phase" : "out of phase as they are joined"],
    ["hum", humWords],
  ];
  return [heading("Joined inside, in series", style), ...table(rows, ["left", "left"], style.width, "  ")];
}

function readingsInWords({ resistances, kicks, compass }: AskedCoils): string {
  const all = [
    ...resistances.map(({ a, b, said }) => `${a} to ${b} ${said}`),
    ...kicks.map(({ red, black, row, kick }) => `red on ${red}, black on ${black}, ${row}: ${kick}`),
    ...compass.map(({ row, drawn }) => `${row} draws ${drawn}`),
  ];
  return all.length === 0 ? "Nothing." : `${all.join("; ")}.`;
}

type SearchedSwitch = NonNullable<ReturnType<typeof contactSearchOf>>;

export function renderSwitch(found: ContactsFound, search: SearchedSwitch, part: string, style: Style): string {
  const { positions, contradictions, notes, map } = found;
  const unknown = positions.flatMap(({ name, unknown: pairs }) =>
    pairs.length === 0 ? [] : [`Position ${name}: ${pairsInWords(pairs)}.`],
  );
  const remarks = [
    ...contradictions.map(({ words }) => words),
    ...notes,
    ...(map ? faultsOf(map).map(({ words }) => words) : []),
    ...(search.poles.length > 1
      ? [`Poles were taken as apart, and not read: ${search.poles.map((pole) => pole.join(" ")).join(" | ")}.`]
      : []),
  ];
  const joined1 = section(
    "Joined",
    positions.map(({ name, joined, unknown: { length } }) => `Position ${name}: ${joinedInWords(joined, length > 0)}.`),
    style,
  );
  const lines = [
    ...joined1,
    ...(remarks.length === 0 ? [] : ["", ...section("To look at", remarks, style)]),
    ...(unknown.length === 0 ? [] : ["", ...section("Not known yet: put the probes on", unknown, style)]),
  ];
  if (map) lines.push("", ...fileLines(partText(part, switchPart(map)), "kind: lever or pot, if it is one", style));
  return lines.join("\n");
}

function pairsInWords(pairs: readonly (readonly [string, string])[]): string {
  const more = pairs.length - MOST_TESTS;
  const first = pairs.slice(0, MOST_TESTS).map(([a, b]) => `${a} to ${b}`);
  return `${first.join(", ")}${more > 0 ? `, and ${more} more` : ""}`;
}

function joinedInWords(joined: readonly (readonly string[])[], more: boolean): string {
  if (joined.length === 0) return more ? "nothing joined so far" : "nothing joined";
  return joined.map(([first, ...others]) => `${first} to ${others.join(" and ")}`).join("; ");
}

function fileLines(yaml: string, note: string | undefined, style: Style): string[] {
  return [heading("For the job file", style), ...(note === undefined ? [] : [`# ${note}`]), printable(yaml)];
}

function section(title: string, texts: readonly string[], style: Style): string[] {
  return [heading(title, style), ...texts.flatMap((text) => wrap(printable(text), style.width, "  - ", "    "))];
}

function heading(title: string, { colour }: Style): string {
  return paint(title, "strong", colour);
}
