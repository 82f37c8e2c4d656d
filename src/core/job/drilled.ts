/** Holes that the job's operations drill: each is a value of the job, so that it can be read once it is there. */
import { InputError } from "../errors.ts";
import type { FileOperation, JobFile } from "./schema.ts";
import { subjectOf, type Taker } from "./taker.ts";

/** Subject of a hole of the body, under which its place and sizes are read. */
export function holePath(id: string): string {
  return `body.holes.${id}`;
}

/**
 * Makes the place and the sizes of every drilled hole known to the readings.
 *
 * @param endWallX where it is known, a place may be read from the nut too
 * @throws InputError for a reading as found of a hole that was not there yet
 */
export function takeDrilledHoles(file: JobFile, taker: Taker, endWallX: number | undefined): void {
  const drilledBy = new Map((file.operations ?? []).flatMap((entry) => drilledIn(entry).map((id) => [id, entry.id])));
  for (const [id, operation] of drilledBy) {
    const path = holePath(id);
    if (!taker.knows(`${path}.diameter`)) refuseAsFound(file, id, operation);
    for (const key of ["u", "y", "diameter", "depth", "thread"]) taker.readingsOf(`${path}.${key}`);
    if (endWallX === undefined) continue;
    taker.readingsOf(`${path}.x`);
    taker.alias(`${path}.x`, `${path}.u`, -endWallX);
  }
}

/** Ids of the holes; screws of the tuners stand in the headstock, which has no places of the body. */
function drilledIn(entry: FileOperation): string[] {
  if (!("work" in entry) || entry.work.act !== "drill" || /^(tuner|headstock)/.test(entry.work.group)) return [];
  return entry.work.holes.map((hole) => hole.id);
}

function refuseAsFound(file: JobFile, id: string, operation: string): void {
  const own = `${holePath(id)}.`;
  for (const [index, { of, after }] of (file.readings ?? []).entries()) {
    if (after !== undefined || !subjectOf(of).startsWith(own)) continue;
    throw new InputError(
      `readings[${index}].after`,
      `"${id}" was drilled by "${operation}" and was not there as found`,
      `Say after which operation it was read, e.g. after: ${operation}`,
    );
  }
}
