/**
 * The traveller: the job's steps in order, each with its gate, readings, tools and cautions.
 *
 * Rules and their ids: docs/spec/plan.md.
 */
import type { Instrument, Operation } from "../job/index.ts";
import type { Phrase } from "../quantity/index.ts";
import type { Permanence, Source, Verdict, Work } from "../verdict/index.ts";
import type { SolderGroup } from "../wiring/index.ts";

/** What kind of step; the order table speaks of kinds. Listed in the order in which a bench would do them unasked. */
export const STEP_KINDS = [
  "record",
  "choose",
  "measure parts",
  "print",
  "strip",
  "neck off",
  "shim",
  "neck on",
  "carry scale line",
  "plug",
  "rout",
  "spot-face",
  "ream",
  "slot",
  "lay strings",
  "trim plugs",
  "drill",
  "bare contact",
  "ground wire",
  "foil",
  "insulate",
  "map coils",
  "fit pickups",
  "fit controls",
  "prove foil",
  "wire",
  "fit tuners",
  "fit bridge",
  "nut slots",
  "ohms",
  "cover on",
  "restring",
  "set up",
  "fit other",
  "final sheet",
] as const;

export type StepKind = (typeof STEP_KINDS)[number];

/** A step that has to be done first, and why. */
export interface Need {
  readonly step: string;
  readonly because: Phrase;
  /** Also wait until glue or strings have had their time. */
  readonly waitMinutes: number;
}

export interface ToolLine {
  readonly text: Phrase;
  /** Set in large type: the figure a person reads with the tool in the hand. */
  readonly large: boolean;
  /** The owner has it. */
  readonly own: boolean;
}

export interface Caution {
  readonly id: string;
  readonly text: Phrase;
  readonly source: Source;
}

/** A reading that a step asks for. `expected` is for the program: show it only through `viewReading`. */
export interface AskedReading {
  readonly id: string;
  /** Path under which the reading is kept, e.g. "scaleLine.u". */
  readonly subject: string;
  readonly what: Phrase;
  readonly tool: string;
  readonly how: Phrase;
  /** A confirmation has no number: it is entered as 1. */
  readonly answer: "value" | "confirm";
  readonly unit: string;
  readonly expected?: { readonly value: number; readonly tolerance: number };
  /** Two independent readings are wanted. */
  readonly twice: boolean;
}

export interface KeptPart {
  readonly label: string;
  readonly what: Phrase;
}

export interface Purchase {
  readonly what: Phrase;
  readonly quantity: number;
  readonly steps: readonly string[];
}

export interface Step {
  /** Stable; small letters, digits and hyphens, so that it can be the id of the operation it becomes. */
  readonly id: string;
  readonly kind: StepKind;
  readonly title: Phrase;
  readonly work?: Work;
  readonly permanence: Permanence;
  /** Number of the hold point, 1 to 12. A hold cannot be finished without its readings. */
  readonly hold?: number;
  /** Verdicts that ask for this step. */
  readonly cause: readonly string[];
  /** Verdicts whose numbers must hold before it starts; contains `cause`. */
  readonly restsOn: readonly string[];
  readonly needsBefore: readonly Need[];
  readonly waitAfter?: { readonly minutes: number; readonly why: Phrase };
  readonly minutes: number;
  readonly tools: readonly ToolLine[];
  readonly instructions: readonly Phrase[];
  readonly cautions: readonly Caution[];
  readonly rehearsal?: Phrase;
  readonly readings: readonly AskedReading[];
  readonly keeps: readonly KeptPart[];
  readonly buys: readonly Purchase[];
  readonly gate: GateRule;
}

/** What has to hold before a step may start. */
export interface GateRule {
  readonly level: Permanence;
  /** Least probability of every verdict it rests on. */
  readonly probability: number;
  /** Independent readings wanted of each value that decides. */
  readonly readings: 0 | 1 | 2;
  /** How well the hole lands, where a hole is drilled by hand and eye: part of the odds. */
  readonly execution?: { readonly u: number; readonly how: string };
  /** The sheet whose printed rules must have been read and accepted. */
  readonly template?: string;
}

/** What is to be fitted. Left out: stays as it is. */
export interface ToFit {
  readonly neck?: boolean;
  readonly bridge?: boolean;
  readonly pickups?: readonly string[];
  readonly controls?: readonly string[];
  readonly lever?: boolean;
  readonly tuners?: boolean;
  /** Cavities to be lined with foil. */
  readonly foil?: readonly string[];
  readonly wiring?: boolean;
  /** Name of the set. */
  readonly strings?: string;
  /** The bridge's holes are marked from a printed sheet of this id. */
  readonly template?: string;
}

/** Where the bridge stands, in the words and from the line of its sheet and its marking-out list. */
export interface PlanPlaces {
  /** The line that all places are told from ("the middle of fret 12"), and where it crosses the centre line. */
  readonly register: { readonly words: string; readonly uMm: number };
  /** Places u count from the nut's face: the neck is glued, or nobody has measured the pocket. */
  readonly fromNut: boolean;
  /** A multi-scale neck: what is square to the centre line holds on the centre line only. */
  readonly fanned: boolean;
  /** The scale line as it follows from neck and heel, not from carrying it over, with its standard doubt. */
  readonly scaleLine?: { readonly uMm: number; readonly doubtMm: number };
  /** Outer strings to the board's edges at the last fret, with the bridge where it is placed. */
  readonly margins?: { readonly treble: number; readonly bass: number };
  /** Left out: the bridge stands square. */
  readonly turn?: Turn;
}

/** A bridge that has to stand askew, so that its saddles reach. */
export interface Turn {
  readonly degrees: number;
  /** How much further back its outermost hole on the bass side stands; below 0: the treble side's does. */
  readonly bassBackMm: number;
  /** It stands on posts: nothing can be pricked through it, and no screw holds it. */
  readonly posts: boolean;
}

/** What the meter should read in a state. */
export interface ExpectedOhms {
  readonly state: string;
  /** In a person's words, e.g. "position 3". */
  readonly title: string;
  readonly ohms: number;
  readonly tolerance: number;
}

/** A coil whose ohms and kick are read while nothing is joined to it. */
export interface PlanCoil {
  readonly id: string;
  readonly pickup: string;
  readonly name: string;
  readonly start: string;
  readonly finish: string;
  readonly ohms?: { readonly value: number; readonly tolerance: number };
  /** +1: the meter goes up, red on the finish, as steel comes near. */
  readonly kick?: 1 | -1 | 0;
}

export interface PlanInput {
  /** As it is: as found, or folded with the operations done. */
  readonly instrument: Instrument;
  /**
   * Operations done, in their order. Their steps stay on the traveller under their own ids, so that a plug glued
   * yesterday still holds up the bit today; what the verdicts ask for anew gets ids of its own.
   */
  readonly done?: readonly Operation[];
  readonly verdicts: readonly Verdict[];
  readonly toFit: ToFit;
  /** Left out while no place was found: what is drilled then counts from where u does. */
  readonly places?: PlanPlaces;
  /** What the meter should read at the jack, state by state; from the wiring. */
  readonly ohms?: readonly ExpectedOhms[];
  /** Coils to be mapped before a wire is joined; from the wiring. */
  readonly coils?: readonly PlanCoil[];
  /** Groups of joints in their order, each closed by readings; from the wiring. */
  readonly solder?: readonly SolderGroup[];
  /** The shop's own allowances, minutes by kind of step; for kinds with several pieces, by piece. */
  readonly minutes?: Partial<Readonly<Record<StepKind, number>>>;
}

export interface Traveller {
  /** In the order of work. */
  readonly steps: readonly Step[];
  /** Shown once above all cautions. */
  readonly preface: Phrase;
  /** Of what is not done. */
  readonly workMinutes: number;
  /** The same, from first to last, for one worker who works on while glue cures, nights not counted out. */
  readonly elapsedMinutes: number;
  /** No order is shorter. False: the search was cut off, and the order is only a good one. */
  readonly shortest: boolean;
  /** When each step starts, minutes from the beginning. */
  readonly starts: Readonly<Record<string, number>>;
  readonly approvals: readonly { readonly step: string; readonly text: Phrase }[];
  readonly keep: readonly KeptPart[];
  readonly shopping: readonly Purchase[];
  /** Verdicts that say no: nothing of theirs is planned. */
  readonly stopped: readonly { readonly verdict: string; readonly text: Phrase }[];
}

/** A reading as the gates see it; the job maps its readings to this, void ones left out. */
export interface TakenReading {
  readonly id: string;
  readonly subject: string;
  readonly value: number;
  /** Standard uncertainty. */
  readonly u: number;
  readonly tool: string;
  /** Readings taken without lifting the tool share it. */
  readonly placing?: string;
  /** ISO time. */
  readonly at?: string;
}

/** A step that was done; without a time its waits cannot be proved. */
export interface DoneStep {
  readonly step: string;
  readonly at?: string;
}

export interface PrintCheck {
  readonly sheet: string;
  readonly accepted: boolean;
  /** What the rulers said. */
  readonly text?: Phrase;
}

export interface Override {
  readonly step: string;
  readonly reason: string;
  readonly by?: string;
  readonly at?: string;
}

/** All that a gate looks at besides its step. */
export interface Circumstances {
  readonly steps: readonly Step[];
  readonly verdicts: readonly Verdict[];
  readonly readings: readonly TakenReading[];
  readonly done: readonly DoneStep[];
  readonly prints?: readonly PrintCheck[];
  /** The present, as ISO time; needed to see that a wait is over. */
  readonly at?: string;
  readonly overrides?: readonly Override[];
  /** A shop's customer approved these steps. Left out: no approval is asked for. */
  readonly approved?: readonly string[];
}

export interface GateReason {
  readonly ok: boolean;
  readonly text: Phrase;
  /** Verdict, step, reading subject or sheet that it is about. */
  readonly ref: string;
  /** What would open it, where that is known. */
  readonly opens?: Phrase;
}

export interface Gate {
  readonly state: "open" | "shut" | "overridden";
  readonly reasons: readonly GateReason[];
  readonly override?: Override;
}
