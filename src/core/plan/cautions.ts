/**
 * Cautions, each at the kind of step it belongs to. In our own words; figures from the sources named.
 * They are reminders for a person who knows the work, never instructions for mains or valve equipment, and local
 * rules and licensed practice go before all of them.
 */
import { figure, type Phrase, say } from "../quantity/index.ts";
import type { Source } from "../verdict/index.ts";
import type { Caution, StepKind } from "./types.ts";

/** Shown once above the cautions of every page and sheet. */
export const LOCAL_RULES_FIRST: Phrase = say`Local rules and licensed practice go before these words.`;

const published = (text: string): Source => ({ text, mark: "published" });
const practice: Source = { text: "common practice, no source", mark: "common practice" };

interface Row extends Caution {
  readonly at: readonly StepKind[];
}

const ROWS: readonly Row[] = [
  {
    id: "string-ends",
    at: ["strip", "restring", "lay strings"],
    text: say`Slacken a string before you cut it, hold the offcut, cover your eyes.`,
    source: practice,
  },
  {
    id: "eyes-cutting",
    at: ["plug", "rout", "spot-face", "ream", "slot", "drill", "bare contact", "nut slots"],
    text: say`Chips fly: wear spectacles with side shields or goggles. A face shield only goes over them.`,
    source: published("OSHA eye and face protection, 29 CFR 1910.133 and its selection table"),
  },
  {
    id: "cutter-load",
    at: ["rout", "slot"],
    text: say`Clamp the work, take shallow passes, never load a cutter or cutting wheel sideways: it breaks.`,
    source: published("abrasives maker's instructions; OSHA selection table"),
  },
  {
    id: "wood-dust",
    at: ["rout", "spot-face", "ream", "slot", "drill", "trim plugs"],
    text: say`Draw the dust off at the tool and wear a mask; hardwood dust causes cancer. UK limits over 8 h: hardwood ${figure(3, "mg/m³", 0)}, softwood ${figure(5, "mg/m³", 0)}; other countries set others.`,
    source: published("HSE EH40/2005"),
  },
  {
    id: "lacquer",
    at: ["trim plugs"],
    text: say`If you touch up with lacquer: air the room, no flame or spark. Its vapour is heavier than air and travels.`,
    source: published("safety data sheets of solvent lacquers"),
  },
  {
    id: "gas-duster",
    at: ["foil", "wire"],
    text: say`Clean with brush or vacuum. Gas dusters may burn: never near a hot iron, never tilted, never above ${figure(50, "°C", 0)}.`,
    source: published("safety data sheets of gas dusters"),
  },
  {
    id: "flux-fume",
    at: ["wire", "foil", "ground wire"],
    text: say`Keep your head out of the fume and draw it off: rosin fume causes asthma. Limits ${figure(0.05, "mg/m³", 2)} over 8 h, ${figure(0.15, "mg/m³", 2)} over 15 min. No hotter than needed.`,
    source: published("HSE SIM 03/2002/26 and INDG248"),
  },
  {
    id: "lead",
    at: ["wire", "foil", "ground wire"],
    text: say`Lead goes in by the mouth: no food or drink at the bench, wash your hands with soap, keep the waste apart.`,
    source: published("university safety pages on soldering"),
  },
  {
    id: "iron-burn",
    at: ["wire", "foil", "ground wire"],
    text: say`The tip is near ${figure(400, "°C", 0)}: keep it in its stand. Cool a burn ${figure(15, "min", 0)} under cold running water.`,
    source: published("university safety pages on soldering"),
  },
  {
    id: "clipped-wire",
    at: ["wire"],
    text: say`Cover your eyes: clipped wire ends fly. Wipe the tip, do not flick solder off it.`,
    source: published("university safety pages on soldering"),
  },
  {
    id: "string-ground",
    at: ["ground wire"],
    text: say`A string ground joins the player to the mains earth of the amplifier. A residual-current device in the supply is advised.`,
    source: practice,
  },
  {
    id: "amplifier",
    at: ["ohms", "cover on", "set up"],
    text: say`Amplifiers stay closed. A valve amplifier can keep ${figure(250, "V", 0)} to ${figure(500, "V", 0)} after it is unplugged: that is for licensed practice.`,
    source: published("amplifier-kit maker's high-voltage safety guide"),
  },
  {
    id: "oily-rag",
    at: ["set up"],
    text: say`If you oil the board: a rag with linseed or tung oil can take fire by itself. Spread it flat or hang it to dry.`,
    source: published("university workshop page pointing to NFPA"),
  },
  {
    id: "battery",
    at: ["fit other"],
    text: say`Tape the terminals of a ${figure(9, "V", 0)} battery, even a weak one: any metal across them makes heat. Never charge a lithium cell that is not made for it.`,
    source: published("NFPA advice through fire services"),
  },
];

/** Cautions of a kind of step, in the order in which they are to be read. */
export function cautionsFor(kind: StepKind, target: string): readonly Caution[] {
  return ROWS.filter((row) => row.at.includes(kind) && (row.id !== "battery" || target === "battery")).map(
    ({ id, text, source }) => ({ id, text, source }),
  );
}
