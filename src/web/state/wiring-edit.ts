/** Wires and readings of ohms that a person writes on the page, as changes of the job. */
import { type Change, type Fold, type Json, mapKey, pathOf } from "../../core/log/index.ts";
import { freeId, plainId } from "./add-part.ts";
import { lastOperation } from "./bench-work.ts";
import { addReading, readingText, versionOf } from "./readings.ts";

type Data = Readonly<Record<string, Json>>;

export interface WireLine {
  readonly id: string;
  /** "bridge.blue to lever.p1-1, blue". */
  readonly text: string;
}

interface WrittenWire {
  readonly from: string;
  readonly to: string;
  readonly colour?: string;
  readonly length?: string | number;
}

export function wiresIn(data: Data): WireLine[] {
  return Object.entries(wiresOf(data)).map(([id, wire]) => ({ id, text: wireText(wire) }));
}

function wiresOf(data: Data): Readonly<Record<string, string | WrittenWire>> {
  const { wiring } = data as { readonly wiring?: { readonly wires?: Readonly<Record<string, string | WrittenWire>> } };
  return wiring?.wires ?? {};
}

function wireText(wire: string | WrittenWire): string {
  if (typeof wire === "string") return wire;
  const { from, to, colour, length } = wire;
  return [`${from} to ${to}`, ...[colour, length].flatMap((one) => (one === undefined ? [] : [String(one)]))].join(
    ", ",
  );
}

/** One wire written anew. */
export function wireWritten(data: Data, id: string, text: string): Change[] {
  return [...versionOf(data, "wiring"), { path: pathTo(id), value: text.trim() }];
}

export function wireTakenAway(id: string): Change {
  return { path: pathTo(id) };
}

/** A name for a wire that nobody has named: the two lugs that it joins. */
export function nameForWire(data: Data, text: string): string {
  const [joins = ""] = text.split(",");
  return freeId(plainId(joins), "wire", Object.keys(wiresOf(data)));
}

function pathTo(id: string): string {
  return pathOf(["wiring", "wires", mapKey(id)]);
}

/** From two lugs picked out of lists to the line that a person would write. */
export function wireBetween(from: string, to: string, colour: string): string {
  return colour.trim() === "" ? `${from} to ${to}` : `${from} to ${to}, ${colour.trim()}`;
}

/** What a meter shows between tip and sleeve in a state; a bare figure is in kΩ. */
export function ohmsRead(fold: Fold, state: string, typed: string, at: string): Change[] {
  const after = lastOperation(fold);
  const value = ohmsText(typed);
  return addReading(fold, { of: `ohms.${state}`, value, at, ...(after === undefined ? {} : { after }) });
}

/** @example ohmsText("12.4") // "12.4 k (meter)" */
export function ohmsText(typed: string): string {
  return readingText(typed, "meter", "k");
}
