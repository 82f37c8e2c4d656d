/** Coils and contacts that a meter found, as a part of a job file. */
import { Document, isCollection, isMap } from "yaml";
import type { CoilsFound, ContactMap, FoundCoil, ResistanceReading } from "../core/circuit/index.ts";
import { isId } from "../core/job/index.ts";
import { layOut } from "./job-text.ts";

/** A reading as it was written. */
type SaidReading = ResistanceReading & { readonly said: string };

export interface FoundPickup {
  readonly kind: "pickup";
  readonly coils: Readonly<Record<string, object>>;
  readonly metal?: Readonly<Record<string, string>>;
}

/**
 * A pickup as found; finish is the end on which red kicks +, so that its kick is + by its naming.
 *
 * @param shields names of bare leads
 */
export function pickupPart(
  { coils, joints }: Pick<CoilsFound, "coils" | "joints">,
  { resistances, conductors, shields = [], metals = [] }: ReadPickup,
): FoundPickup {
  const ids = coilIds(coils);
  const metal: Record<string, string> = {};
  for (const name of [...shields, ...metals]) {
    const point = joints.find((joint) => joint.includes(name)) ?? [name];
    const wire = point.find((one) => conductors.includes(one)) ?? point.find((one) => shields.includes(one));
    if (wire !== undefined) metal[shields.includes(name) ? "bare lead" : name] = wire;
  }
  return {
    kind: "pickup",
    coils: Object.fromEntries(coils.map((coil, index) => [ids[index] ?? "", coilData(coil, resistances)])),
    ...(Object.keys(metal).length > 0 ? { metal } : {}),
  };
}

interface ReadPickup {
  readonly conductors: readonly string[];
  readonly shields?: readonly string[];
  readonly metals?: readonly string[];
  readonly resistances: readonly SaidReading[];
}

/** The row of its poles where that is one and no other coil's; a letter else. */
function coilIds(coils: readonly FoundCoil[]): string[] {
  const rows = coils.map(({ rows: [row = "", ...more] }) => (more.length === 0 && isId(row) ? row : ""));
  return rows.map((row, index) =>
    row !== "" && rows.indexOf(row) === rows.lastIndexOf(row) ? row : freeLetter(index, rows),
  );
}

function freeLetter(index: number, taken: readonly string[]): string {
  const letter = String.fromCharCode("a".charCodeAt(0) + index);
  return taken.includes(letter) ? `coil-${index + 1}` : letter;
}

function coilData({ ends, joined, start, finish, winding, magnetUp }: FoundCoil, readings: readonly SaidReading[]) {
  const [one, other] = joined;
  const read = readings.findLast(
    ({ a, b, ohms }) =>
      ohms !== "open" && ((one.includes(a) && other.includes(b)) || (one.includes(b) && other.includes(a))),
  );
  const said = read === undefined || /[()]/.test(read.said) ? read?.said : `${read.said} (meter)`;
  return {
    ...(said === undefined ? {} : { ohms: said }),
    ...(finish === undefined ? {} : { kick: "+" as const }),
    ...(winding === undefined ? {} : { winding }),
    ...(magnetUp === undefined ? {} : { magnet: `${magnetUp} up` }),
    start: asLug(start ?? ends[0]),
    finish: asLug(finish ?? ends[1]),
  };
}

function asLug(name: string): string {
  return name.replaceAll(" ", "-");
}

export interface FoundSwitch {
  readonly kind: "switch";
  readonly contacts: {
    readonly lugs: readonly string[];
    readonly positions: Readonly<Record<string, readonly (readonly string[])[]>>;
  };
}

/** A switch as found. */
export function switchPart({ lugs, positions }: ContactMap): FoundSwitch {
  return {
    kind: "switch",
    contacts: { lugs, positions: Object.fromEntries(positions.map(({ name, joined }) => [name, joined])) },
  };
}

/** The part as the lines of a job file's section `parts`. */
export function partText(id: string, part: FoundPickup | FoundSwitch): string {
  const document = new Document({ parts: { [id]: part } });
  const { contents } = document;
  if (contents) layOut(contents);
  const positions = document.getIn(["parts", id, "contacts", "positions"]);
  if (isMap(positions)) for (const { value } of positions.items) if (isCollection(value)) value.flow = true;
  return document.toString({ lineWidth: 0 }).trimEnd();
}
