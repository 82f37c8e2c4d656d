/** A step before the order is known, and what all makers of steps share. */
import type { Instrument } from "../job/index.ts";
import type { Phrase } from "../quantity/index.ts";
import { valueOr } from "../quantity/index.ts";
import type { Permanence, Work } from "../verdict/index.ts";
import { cautionsFor } from "./cautions.ts";
import { minutesFor } from "./minutes.ts";
import type { AskedReading, PlanInput, Step, ToolLine } from "./types.ts";

/** `target`: the place or part it is about, as the order rules and the gates match it, e.g. "bridge", "volume". */
export interface Draft extends Omit<Step, "needsBefore"> {
  readonly target: string;
  /** An operation in the log: it needs nothing any more. */
  readonly done?: true;
  /** Plugs that have to be firm before a bit reaches them. */
  readonly plugs?: readonly { readonly u: number; readonly y: number; readonly diameter: number }[];
}

/** Least probability of a permanent step where the job sets none. One in twenty: JCGM 106:2012 leaves it to the user. */
export const GATE_PROBABILITY = 0.95;

type Given = Pick<Draft, "kind" | "title"> &
  Partial<Omit<Draft, "gate" | "minutes">> & { readonly pieces?: number; readonly gate?: Partial<Draft["gate"]> };

export function draft(input: PlanInput, given: Given): Draft {
  const { kind, title, target = "", pieces = 1, gate, ...rest } = given;
  const permanence = given.permanence ?? "reversible";
  return {
    id: slug(kind, target),
    cause: [],
    restsOn: rest.cause ?? [],
    tools: [],
    instructions: [],
    readings: [],
    keeps: [],
    buys: [],
    ...rest,
    kind,
    title,
    target,
    permanence,
    cautions: cautionsFor(kind, target),
    minutes: minutesFor(kind, pieces, input.minutes),
    gate: {
      level: permanence,
      probability: gateProbability(input.instrument),
      readings: READINGS[permanence],
      ...gate,
    },
  };
}

const READINGS: Readonly<Record<Permanence, 0 | 1 | 2>> = { permanent: 2, hidden: 1, reversible: 0 };

export function gateProbability(instrument: Instrument): number {
  return valueOr(instrument.limits.gateProbability, GATE_PROBABILITY);
}

/** "drill-bridge-screws": small letters, digits and hyphens, so that it serves as an operation's id. */
export function slug(...words: readonly string[]): string {
  return words
    .join("-")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 60);
}

export function tool(text: Phrase, options: { readonly large?: boolean; readonly own?: boolean } = {}): ToolLine {
  return { text, large: options.large ?? false, own: options.own ?? false };
}

export function confirm(id: string, subject: string, what: Phrase, how: Phrase): AskedReading {
  return { id, subject, what, tool: "eye", how, answer: "confirm", unit: "", twice: false };
}

export function value(
  id: string,
  subject: string,
  asked: Pick<AskedReading, "what" | "tool" | "how"> & Partial<AskedReading>,
): AskedReading {
  return { id, subject, answer: "value", unit: "mm", twice: false, ...asked };
}

export function takeOff(part: string): Work {
  return { act: "take off", part };
}

export function putOn(part: string): Work {
  return { act: "fit", part };
}

/** The step that trims the plugs of a step, a day later. */
export function trimIdOf(plugId: string): string {
  return plugId.replace(/^(plug-)?/, "trim-");
}
