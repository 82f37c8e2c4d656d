/** Beginnings about a bridge: its place, old holes against new, the saddles' reach. */
import { InputError } from "../errors.ts";
import type { JobFile } from "../job/index.ts";
import { mm, say } from "../quantity/index.ts";
import { BRIDGE_HOLES, bridgePart, OLD_HOLES, readOldHoles, readTravel, TRAVEL } from "./bridge-entries.ts";
import type { Draft, Grower } from "./draft.ts";
import type { Described } from "./instrument-words.ts";
import { plainMm, type Reading, writtenScaled } from "./reading.ts";
import {
  FROM_THE_NUT,
  INSTRUMENT_ONLY,
  instrumentOf,
  inWords,
  NUT_12,
  readScale,
  readSpread,
  readWhat,
  type Scale,
  SPREAD,
  spreadNotAsked,
  WHAT,
} from "./scale-entries.ts";
import type { Entry } from "./types.ts";

const PLACE: Entry = {
  id: "place",
  prompt: "Where do you mean the new bridge's front edge to stand?",
  lay: "Lay the bridge where you want it and the steel rule along the centre line: from the middle of fret 12 to the bridge's front edge.",
  kind: "length",
  example: "312",
  more: "Leave it empty and the place is chosen for you: the one inside the saddles' reach that needs fewest plugs.",
  tool: "steel rule",
  unknown: "the best place within the saddles' reach is taken",
};

const CONTACTS: Entry = {
  id: "contacts",
  prompt: "Where do the strings touch the old saddles now, while it plays in tune?",
  lay: "Lay the steel rule along each string with its mark on the middle of fret 12, and read where the string leaves the saddle.",
  kind: "lengths",
  example: "325.6 326.2 326.9 326 326.8 328",
  more: "One figure a string, string 1 (the thinnest) first, all from the middle of fret 12. This is the best evidence there is of how far back each string wants its saddle; it holds for strings like those that are on.",
  tool: "steel rule",
  unknown: "a fixed rule stands in, and a plain third may want 2 mm more than it says",
};

const USES = { bridge: true, drilling: true } as const;

export const BRIDGE_STARTERS: readonly Grower[] = [
  {
    id: "bridge-place",
    title: "Where must this bridge stand?",
    entries: [WHAT, NUT_12, TRAVEL, SPREAD, BRIDGE_HOLES, OLD_HOLES],
    questions: ["bridge.place"],
    grow(draft) {
      const what = readWhat(draft, USES);
      const scale = readScale(draft, what);
      const saddles = readTravel(draft, what);
      const spread = readSpread(draft, what);
      const part = bridgePart(draft, what, { ...spread, saddles });
      const holes = readOldHoles(draft, scale);
      noteSetbacks(draft);
      if (part.screws === undefined && Object.keys(holes).length > 0)
        draft.note(
          say`The old holes are kept in the job, but nothing is said about them until the new bridge's own holes are known.`,
        );
      return draft.finish(
        sections(what, { ...scale.neck, ...spread.neck }, { holes, part, asked: "Where must this bridge stand?" }),
      );
    },
  },
  {
    id: "old-holes",
    title: "Do the old holes clash with the new bridge's?",
    entries: [WHAT, NUT_12, TRAVEL, BRIDGE_HOLES, OLD_HOLES, PLACE],
    questions: ["bridge.holes"],
    grow(draft) {
      const what = readWhat(draft, USES);
      const scale = readScale(draft, what);
      const saddles = readTravel(draft, what);
      const spread = spreadNotAsked(draft, what);
      const part = bridgePart(draft, what, { ...spread, saddles });
      const holes = readOldHoles(draft, scale);
      if (part.screws === undefined)
        draft.note(say`The new bridge's own holes are not known: the answer waits for them.`);
      noteSetbacks(draft);
      const place = readPlace(draft, scale);
      return draft.finish(
        sections(
          what,
          { ...scale.neck, ...spread.neck },
          {
            holes,
            part,
            ...(place === undefined ? {} : { place }),
            asked: "Do the old holes clash with the new bridge's?",
          },
        ),
      );
    },
  },
  {
    id: "saddle-range",
    title: "Can the saddles reach where the strings want them?",
    entries: [WHAT, NUT_12, TRAVEL, CONTACTS],
    questions: ["bridge.window"],
    grow(draft) {
      const uses = { bridge: true, drilling: false };
      const what = readWhat(draft, uses);
      const scale = readScale(draft, what);
      const saddles = readTravel(draft, what);
      const spread = spreadNotAsked(draft, what);
      const part = bridgePart(draft, what, { ...spread, saddles });
      const setup = readContacts(draft, what, scale);
      return draft.finish(
        sections(
          what,
          { ...scale.neck, ...spread.neck },
          { part, setup, asked: "Can the saddles reach where the strings want them?" },
        ),
      );
    },
  },
];

type Setup = NonNullable<NonNullable<JobFile["fit"]>["setup"]>["strings"];

interface Given {
  readonly part: ReturnType<typeof bridgePart>;
  readonly asked: string;
  readonly holes?: ReturnType<typeof readOldHoles>;
  /** fit.bridge.x */
  readonly place?: number;
  readonly setup?: Setup;
}

function sections(what: Described, neck: Scale["neck"], { part, asked, holes = {}, place, setup }: Given) {
  const holed = Object.keys(holes).length > 0 ? { holes } : {};
  return {
    job: { title: inWords(what, INSTRUMENT_ONLY), notes: `Begun with: ${asked} ${FROM_THE_NUT}` },
    instrument: instrumentOf(what, neck, holed),
    parts: { bridge: part },
    fit: {
      bridge: { part: "bridge", ...(place === undefined ? {} : { x: place }) },
      ...(setup === undefined ? {} : { setup: { strings: setup } }),
    },
    settings: { drilling: what.drilling },
  };
}

function noteSetbacks(draft: Draft): void {
  draft.note(
    say`How far back each string wants its saddle: a fixed rule, ${mm(1.6, 1)} on string 1 to ${mm(4, 1)} on the last at a scale of ${mm(648, 0)}, give or take ${mm(2, 0)} (common practice). A plain third can want ${mm(2, 0)} more.`,
  );
}

function readPlace(draft: Draft, { fret12Mm }: Scale): number | undefined {
  const place = draft.length("place", {
    what: "the distance from fret 12 to a bridge's front edge",
    minMm: 100,
    maxMm: 700,
  });
  if (place === undefined) {
    draft.note(say`No place was given: the best one within the saddles' reach is taken.`);
    return undefined;
  }
  draft.read("place", say`Front edge ${mm(place.valueMm, 1)} from fret 12.`);
  if (fret12Mm === undefined)
    throw new InputError(
      "place",
      "is counted from fret 12, and its place is not known",
      "Give the reading from nut to fret 12 first, or leave this empty",
    );
  return Number(plainMm(fret12Mm + place.valueMm));
}

/** Each old saddle against its own half scale: a difference of two readings with one rule. */
function readContacts(draft: Draft, what: Described, { halves }: Scale): Setup {
  const list = draft.lengths("contacts", {
    what: "the distance from fret 12 to a saddle",
    minMm: 200,
    maxMm: 510,
    counts: [what.strings],
    form: `one figure for each of the ${what.strings} strings, string 1 first`,
  });
  if (!list || halves.length === 0) {
    if (list) draft.note(say`The old saddles say nothing as long as nut to fret 12 is not known.`);
    noteSetbacks(draft);
    return undefined;
  }
  const setbacks = list.map((contact, index) => contact.valueMm - (halves[index]?.valueMm ?? 0));
  const odd = setbacks.findIndex((setback) => setback < -6 || setback > 20);
  if (odd >= 0) {
    throw new InputError(
      "contacts",
      `puts string ${odd + 1} ${plainMm(setbacks[odd] ?? 0)} mm behind its scale line`,
      "Measure from the middle of fret 12; -6 to 20 mm behind half the scale is possible",
    );
  }
  draft.read(
    "contacts",
    say`Behind the scale line, strings 1 to ${what.strings}: ${setbacks.flatMap((one, index) => (index === 0 ? [mm(one, 1)] : [", ", mm(one, 1)]))}.`,
  );
  draft.note(
    say`Setbacks are those of the strings that are on. Other gauges, another tuning or a wound third in place of a plain one move them.`,
  );
  return Object.fromEntries(
    list.map((contact, index) => {
      const half = halves[index] as Reading;
      return [
        String(index + 1),
        { oldSaddle: { nutToFret12: writtenScaled(half, {}), fret12ToContact: writtenScaled(contact, {}) } },
      ];
    }),
  );
}
