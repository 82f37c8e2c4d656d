/**
 * Which readings an act makes void: what was read before it no longer says how the instrument is.
 *
 * A subject is a path, or a path with `*` for any one step, and covers everything below it: "neck.plane" covers
 * "neck.plane.fretHeight", "strings.*.cents" covers "strings.3.cents". "ohms" and "tap" are the meter's readings at the
 * jack and the tap test; "asLeft…" the readings of the finished set-up. All of it common practice, no source: it
 * follows from what each act moves.
 */

import type { Work } from "../verdict/index.ts";
import { holePath } from "./drilled.ts";

export interface VoidRule {
  readonly subject: string;
  /** In a person's words, to stand behind "void:". */
  readonly why: string;
}

/**
 * How sharp a string is when pressed, at a trial place of its saddle. What it says of the string's setback stays true when
 * neck, bridge or strings come off; other strings and another nut make it another string.
 */
const TRIAL = "strings.*.cents";
/** How sharp it was left: that goes with whatever moves. */
const PITCH_LEFT = "asLeft.strings.*.cents";
const ACTION = "strings.*.action";

const NEW_NUT: readonly VoidRule[] = ["neck.nutSlots", "strings.*.nutHeight", TRIAL].map((subject) => ({
  subject,
  why: "the nut is a new one",
}));

/** Parts whose wires are moved with them, by the first word of their name. Pickups hang from a pickguard. */
const ELECTRIC = /^(electrics|pickup|control|pot|switch|lever|jack|wiring|battery|pickguard)/;

/** What one act makes void. Empty: every reading stands. */
export function voidsOf(work: Work): readonly VoidRule[] {
  // Readings of the finished set-up are kept apart from the values the sums use; what moves one moves the other.
  return rulesOf(work).flatMap((rule) =>
    /^(neck\.relief|strings\.)/.test(rule.subject) ? [rule, { ...rule, subject: `asLeft.${rule.subject}` }] : [rule],
  );
}

function rulesOf(work: Work): readonly VoidRule[] {
  switch (work.act) {
    case "shim":
      return [{ subject: "shim", why: "the shim is another one" }, ...tilted("the shim tilts the neck")];
    case "nut slots":
      return [
        { subject: "neck.nutSlots", why: "the slots were cut" },
        { subject: "strings.*.nutHeight", why: "the slots were cut" },
        { subject: TRIAL, why: "a string that sits lower in the nut is pressed less sharp" },
      ];
    case "restring":
      return [
        { subject: TRIAL, why: "new strings are pressed sharp differently" },
        ...newPull("new strings pull differently"),
      ];
    case "take off":
      return movedPart(work.part);
    case "fit":
      // The old nut's slots say nothing of the new one's.
      return work.part === "nut" ? [...movedPart(work.part), ...NEW_NUT] : movedPart(work.part);
    case "ream":
      return bored(work.where, ["hole"], "the hole was reamed");
    case "spot-face":
      return bored(work.where, ["wood", "freeDepth"], "the wood was thinned there");
    case "slot":
      // A job holds one lever, whatever id it is entered under.
      return bored(
        "controls",
        work.screwOffset > 0 ? ["slot", "screws", "screwHole"] : ["slot", "screws"],
        "the slot was cut",
      );
    case "rout":
      return [{ subject: `body.cavities.${work.cavity}`, why: "the cavity was routed" }];
    // The id of a hole means the hole now there; what was read of the one before no longer says where that is.
    case "drill":
      return work.holes.map(({ id }) => ({ subject: holePath(id), why: "the hole was drilled anew" }));
    // A hole more or less moves nothing else that was read; foil tape and bare metal neither.
    case "plug":
    case "insulate":
    case "bare contact":
    case "buy":
    case "choose":
      return [];
    default:
      return work satisfies never;
  }
}

function movedPart(part: string): readonly VoidRule[] {
  if (/^neck/.test(part)) {
    return [
      ...tilted("the neck was moved in its pocket"),
      { subject: "neck.relief", why: "the strings were off and the neck moved" },
      { subject: "neck.heelGap", why: "the neck was moved in its pocket" },
    ];
  }
  if (/^(bridge|tailpiece|nut)/.test(part)) {
    return [
      { subject: ACTION, why: `the ${part} was moved` },
      { subject: "strings.*.height", why: `the ${part} was moved` },
      { subject: PITCH_LEFT, why: `the ${part} was moved` },
    ];
  }
  if (/^(tuner|strings)/.test(part)) return newPull("the strings were off");
  if (ELECTRIC.test(part))
    return [
      { subject: "ohms", why: `the wires of ${part} were moved` },
      { subject: "tap", why: `the wires of ${part} were moved` },
    ];
  return [];
}

function tilted(why: string): readonly VoidRule[] {
  // The old neck's line, scaleLine.old, is history and stands.
  const moved = [
    "neck.plane",
    "neck.straightedge",
    "scaleLine.u",
    "scaleLine.x",
    "scaleLine.read",
    ACTION,
    "strings.*.height",
    PITCH_LEFT,
  ];
  return moved.map((subject) => ({ subject, why }));
}

function newPull(why: string): readonly VoidRule[] {
  return ["neck.relief", PITCH_LEFT, ACTION, "strings.*.tension"].map((subject) => ({ subject, why }));
}

/** The act's own place: its old figures must not outlive it. */
function bored(where: string, fields: readonly string[], why: string): readonly VoidRule[] {
  const id = where.replace(/^controls?\./, "");
  const place = /^(tuner|headstock)/.test(id)
    ? "headstock"
    : /^(controls|pots)$/.test(id)
      ? "controls.*"
      : `controls.${id}`;
  return fields.map((field) => ({ subject: `${place}.${field}`, why }));
}

/** Whether a rule's subject covers a reading's subject. */
export function covers(pattern: string, subject: string): boolean {
  return coversSteps(stepsOf(pattern), stepsOf(subject));
}

export function coversSteps(want: readonly string[], have: readonly string[]): boolean {
  return want.length <= have.length && want.every((step, index) => step === "*" || step === have[index]);
}

/** "saddles[1].from" is a row's and "saddles.1.from" a string's: the bracket stays. */
export function stepsOf(path: string): readonly string[] {
  return path.replaceAll("[", ".[").split(".");
}
