/** Two pickups in words: which way each kicks, what a compass says, metal, how they are joined, pots and capacitors. */
import { InputError } from "../errors.ts";
import { parseQuantity } from "../quantity/index.ts";
import { A_POT, type OhmsFigure, readOhmsList } from "./ohm-words.ts";
import { shown } from "./reading.ts";

export type Two<T> = readonly [T | undefined, T | undefined];
type Kick = "+" | "-" | "none";

const FILLER = /\b(?:first|second|kicks?|the|and|is|it|pickup|one|poles?|needle)\b|[,;:/.]/gi;

/** `up down`, `first up, second ?` @throws InputError */
export function readKicks(text: string): Two<Kick> {
  const words = text
    .replace(FILLER, " ")
    .replace(/\b(?:do(?:n['’]?t| not) know|not known|unknown)\b/gi, "?")
    .split(/\s+/)
    .filter((word) => word !== "");
  const kicks = words.map((word): Kick | undefined => {
    if (/^(?:up|\+|plus|positive)$/i.test(word)) return "+";
    if (/^(?:down|-|minus|negative)$/i.test(word)) return "-";
    if (/^none$/i.test(word)) return "none";
    if (word === "?") return undefined;
    throw new InputError("kicks", `cannot read "${shown(word)}"`, "Write up, down, none or ? for each, e.g. up down");
  });
  if (kicks.length !== 2)
    throw new InputError(
      "kicks",
      `gives ${kicks.length} ${kicks.length === 1 ? "kick" : "kicks"}`,
      "Give two, the first pickup's and the second's, with ? for one that nobody knows",
    );
  return [kicks[0], kicks[1]];
}

/** `north up, south up`: the poles. `draws north, draws south`: the needle's end, which names the opposite pole. */
export function readCompass(text: string): Two<"north up" | "south up"> {
  const magnets: ("north up" | "south up" | undefined)[] = [];
  const rest = text
    .replace(/\b(?:do(?:n['’]?t| not) know|not known|unknown)\b/gi, "?")
    .replace(
      /\bdraws? (?:the )?(north|south)(?: end)?\b|\b(north|south)(?: pole)?(?: is)? up\b|\?/gi,
      (word, drawn, up) => {
        if (word === "?") magnets.push(undefined);
        else if (up !== undefined) magnets.push(/north/i.test(up) ? "north up" : "south up");
        else magnets.push(/north/i.test(drawn) ? "south up" : "north up");
        return " ";
      },
    )
    .replace(FILLER, " ")
    .trim();
  if (rest !== "" || magnets.length !== 2)
    throw new InputError(
      "compass",
      `cannot read "${shown(text)}"`,
      "Write north up or south up for the pole itself, draws north or draws south for the needle's end, ? where not known, e.g. draws north, draws south",
    );
  return [magnets[0], magnets[1]];
}

export interface JoinedMetal {
  readonly pickups: readonly (0 | 1)[];
  readonly what: "cover" | "base plate";
  readonly end: "start" | "finish";
}

const METAL =
  /^(?:the )?(?:(cover|base ?plate)s? of )?(?:the )?(first|second|both)(?: pickups?)?(?:'s)?(?: (cover|base ?plate)s?)?,?(?: (?:on|to|at)(?: the)? (hot|ground)(?: (?:lead|end))?)?$/i;

/** @returns undefined for none */
export function readMetal(text: string): JoinedMetal | undefined {
  const plain = text.replace(/[.!]$/, "");
  if (/^(?:none|no|neither|no metal)$/i.test(plain)) return undefined;
  const [, before, which = "", behind, end] = METAL.exec(plain) ?? [];
  if (which === "")
    throw new InputError(
      "metal",
      `cannot read "${shown(text)}"`,
      "Write none, or e.g. base plate of second, or cover of both on hot",
    );
  return {
    pickups: /both/i.test(which) ? [0, 1] : /first/i.test(which) ? [0] : [1],
    what: /cover/i.test(before ?? behind ?? "") ? "cover" : "base plate",
    end: /hot/i.test(end ?? "") ? "finish" : "start",
  };
}

export function readJoined(text: string): "with" | "then" {
  const parallel = /\bparallel\b|^with$|\bside by side\b/i.test(text);
  const series = /\bseries\b|^then$|\bone after the other\b/i.test(text);
  if (parallel !== series) return series ? "then" : "with";
  throw new InputError("joined", `cannot read "${shown(text)}"`, "Write parallel or series");
}

export interface ThinControls {
  readonly volume?: { readonly pot: OhmsFigure; readonly at: number };
  readonly tone?: { readonly pot: OhmsFigure; readonly capacitance: string; readonly at: number };
  /** Across the output, without a pot. */
  readonly across?: string;
}

const CAP = /\b(\d+[pnu]\d+|\d+(?:[.,]\d+)?\s*[pnuμµ]F?|\.\d+\s*[uμµ]F?)(?![a-z\d])/i;
const AT = /\bat (\d+(?:[.,]\d+)?)\s*$/i;
const FULL = 10;

/** `volume 250 k, tone 250 k 22 n at 8, capacitor 470 p` @throws InputError */
export function readControls(text: string): ThinControls {
  if (/^(?:none|no|no pots?)[.!]?$/i.test(text)) return {};
  const controls: { -readonly [K in keyof ThinControls]: ThinControls[K] } = {};
  for (const piece of text.split(/[,;]\s+|\band\b|,$/i)) {
    if (piece.trim() === "") continue;
    const [, word = "", body = ""] = /^\s*(volume|tone|cap(?:acitor)?)\s+(.*)$/i.exec(piece) ?? [];
    const said = word.toLowerCase();
    const at = readAt(body);
    const rest = body.replace(AT, " ").trim();
    if (said === "volume" && !controls.volume) controls.volume = { pot: onePot(rest, text), at };
    else if (said === "tone" && !controls.tone) {
      const { capacitance, left } = takeCap(rest, text);
      controls.tone = { pot: onePot(left, text), capacitance, at };
    } else if (said.startsWith("cap") && controls.across === undefined) {
      const { capacitance, left } = takeCap(rest, text);
      if (left !== "" && !/^across(?: the)?(?: output)?$/i.test(left)) throw unreadable(text);
      controls.across = capacitance;
    } else throw unreadable(text);
  }
  return controls;
}

function readAt(body: string): number {
  const said = AT.exec(body)?.[1];
  if (said === undefined) return FULL;
  const value = Number(said.replace(",", "."));
  if (value <= FULL) return value;
  throw new InputError("controls", `a knob cannot stand at ${shown(said)}`, "Write 0 to 10; 10 is full");
}

function onePot(text: string, line: string): OhmsFigure {
  const [pot, extra] = readOhmsList(text, { entry: "controls", ...A_POT });
  if (!pot || extra) throw unreadable(line);
  return pot;
}

function takeCap(text: string, line: string): { readonly capacitance: string; readonly left: string } {
  const [whole, value] = CAP.exec(text) ?? [];
  if (whole === undefined || value === undefined) throw unreadable(line);
  const capacitance = value.replace(/[µμ]/g, "u");
  const { value: farads } = parseQuantity(capacitance, { path: "controls", kind: "capacitance" });
  if (!(farads > 0 && farads < 1e-4)) throw unreadable(line);
  return { capacitance, left: text.replace(whole, " ").trim() };
}

function unreadable(text: string): InputError {
  return new InputError(
    "controls",
    `cannot read "${shown(text)}"`,
    "Write e.g. volume 250 k, tone 250 k 22 n; or none",
  );
}
