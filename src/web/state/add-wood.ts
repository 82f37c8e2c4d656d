/** Old holes and routs that a person adds to the instrument, as changes of the job. */
import { readHoleRows } from "../../core/begin/index.ts";
import { InputError } from "../../core/errors.ts";
import { type Change, type Json, mapKey, pathOf } from "../../core/log/index.ts";
import { freeId } from "./add-part.ts";
import { readingText, versionOf } from "./readings.ts";

type Data = Readonly<Record<string, Json>>;

/** Along the body: from the neck pocket's end wall, or from the nut. */
export type CountedFrom = "u" | "x";

export const COUNTED_FROM: Readonly<Record<CountedFrom, string>> = {
  u: "the pocket's end wall",
  x: "the nut",
};

/** No body is longer, and no hole lies farther in front of the end wall than a pocket is long. */
const LIMITS_MM = { u: { min: -150, max: 700 }, x: { min: 200, max: 1500 } } as const;

export interface HolesWanted {
  readonly name: string;
  /** Rows as Begin reads them: "201.5: 5 at 10 dia 3.2 deep 22". */
  readonly text: string;
  readonly from: CountedFrom;
  readonly tool: string;
  readonly purpose: "screw" | "string-through" | "post" | "wire" | "other";
}

/** @throws InputError for rows that cannot be read */
export function holesAdded(data: Data, { name, text, from, tool, purpose }: HolesWanted): Change[] {
  const { min, max } = LIMITS_MM[from];
  const rows = readHoleRows(text, {
    entry: "the places of the holes",
    tool,
    sizeTool: "calliper",
    minAlongMm: min,
    maxAlongMm: max,
    from: `from ${COUNTED_FROM[from]}`,
  });
  const taken = idsIn(data, "holes");
  return [
    ...versionOf(data, "instrument"),
    ...rows.map((row): Change => {
      const id = freeId(name, "old-holes", taken);
      taken.push(id);
      const depth: Json | undefined = row.through ? "through" : row.depth?.written;
      const value: Json = {
        purpose,
        [from]: row.along.written,
        y: row.across.map(({ written }) => written),
        ...(row.diameter ? { diameter: row.diameter.written } : {}),
        ...(depth === undefined ? {} : { depth }),
      };
      return { path: pathTo("holes", id), value };
    }),
  ];
}

export interface RoutWanted {
  readonly name: string;
  readonly face: "top" | "back";
  readonly from: CountedFrom;
  readonly tool: string;
  /** As typed; left empty where not known. */
  readonly sizes: Readonly<Record<"along" | "across" | "length" | "width" | "depth" | "cornerRadius", string>>;
}

/** @throws InputError if nothing is said of it */
export function routAdded(data: Data, { name, face, from, tool, sizes }: RoutWanted): Change[] {
  const keys = {
    along: from,
    across: "y",
    length: "length",
    width: "width",
    depth: "depth",
    cornerRadius: "cornerRadius",
  };
  const said = Object.entries(sizes).flatMap(([key, text]) =>
    text.trim() === "" ? [] : [[keys[key as keyof typeof keys], readingText(text, tool, "mm")] as const],
  );
  if (said.length === 0) throw new InputError("the rout", "has no size", "Give its length, width or depth at least");
  const id = freeId(name, "rout", idsIn(data, "cavities"));
  return [
    ...versionOf(data, "instrument"),
    { path: pathTo("cavities", id), value: { face, ...Object.fromEntries(said) } },
  ];
}

export interface WoodLine {
  readonly kind: "holes" | "cavities";
  readonly id: string;
}

/** What is there to be taken away: rows of old holes, and routs. */
export function woodIn(data: Data): WoodLine[] {
  return (["holes", "cavities"] as const).flatMap((kind) => idsIn(data, kind).map((id) => ({ kind, id })));
}

export function takenAway({ kind, id }: WoodLine): Change {
  return { path: pathTo(kind, id) };
}

function pathTo(kind: WoodLine["kind"], id: string): string {
  return pathOf(["instrument", "body", kind, mapKey(id)]);
}

function idsIn(data: Data, kind: WoodLine["kind"]): string[] {
  const { instrument } = data as { readonly instrument?: { readonly body?: Readonly<Record<string, Json>> } };
  const all = instrument?.body?.[kind];
  return typeof all === "object" && all !== null && !Array.isArray(all) ? Object.keys(all) : [];
}
