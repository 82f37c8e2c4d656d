/** What is drawn of a job: its papers, and the instrument as it lies on the bench. */
import type { Job } from "./answers.ts";
import {
  lookUp,
  type Placement,
  type PlaceTrial,
  placement,
  type ScaleFrame,
  scaleFrame,
  tryPlaceOn,
} from "./questions/index.ts";
import {
  drawingsOf,
  type MarkingOut,
  markingOutOf,
  type PaperSet,
  papersOf,
  type SheetContext,
  type SheetOptions,
} from "./sheets/index.ts";
import { gatesOf, travellerOf } from "./steps.ts";
import type { Verdict } from "./verdict/index.ts";

function sheetContext(job: Job, verdicts: readonly Verdict[], options: SheetOptions): SheetContext {
  const { placed } = placesOf(job);
  const partNames = Object.fromEntries(
    Object.entries(job.parsed.file.parts ?? {}).map(([id, part]) => [id, part.name ?? id]),
  );
  return { instrument: job.instrument, verdicts, placement: placed.known ? placed : undefined, options, partNames };
}

/** All papers of the job, one set a file. */
export function papers(job: Job, verdicts: readonly Verdict[], options: SheetOptions): readonly PaperSet[] {
  const traveller = travellerOf(job, verdicts);
  return papersOf(sheetContext(job, verdicts, options), traveller, gatesOf(job, verdicts, traveller));
}

/** The drawings alone, for DXF and for the screen. */
export function drawings(job: Job, verdicts: readonly Verdict[], options: SheetOptions): ReturnType<typeof drawingsOf> {
  return drawingsOf(sheetContext(job, verdicts, options));
}

interface Places {
  readonly placed: Placement;
  readonly frame: ScaleFrame;
}

/** Found once a job, which never changes: a plate that is dragged asks for them at every move. */
const places = new WeakMap<Job, Places>();

function placesOf(job: Job): Places {
  const known = places.get(job);
  if (known) return known;
  const found = lookUp(job.instrument, (asking) => ({ placed: placement(asking), frame: scaleFrame(asking) }));
  places.set(job, found);
  return found;
}

/** The whole instrument as it lies on the bench, true to scale. */
export function markingOut(job: Job, verdicts: readonly Verdict[]): MarkingOut {
  const { placed, frame } = placesOf(job);
  return markingOutOf({
    instrument: job.instrument,
    verdicts,
    frame,
    placement: placed.known ? placed : undefined,
    writtenAs: (path) => writtenAs(job, path),
  });
}

/**
 * What a plate would come to if its front edge stood at `placeMm` (u) and its middle at `sideMm`.
 *
 * @returns undefined if there is no whole plate to move, or not enough is known to judge it
 */
export function tryPlace(job: Job, at: { readonly placeMm: number; readonly sideMm?: number }): PlaceTrial | undefined {
  const { placed } = placesOf(job);
  return placed.known ? tryPlaceOn(job.instrument, placed, at) : undefined;
}

/** Places along the body may be written as u or as x: a reading has to be of the one that the file uses. */
function writtenAs({ parsed: { file } }: Job, path: string): string {
  if (!path.endsWith(".u")) return path;
  const byX = `${path.slice(0, -2)}.x`;
  const written = at(path === "fit.bridge.u" ? file : file.instrument, byX.split("."));
  const read = (file.readings ?? []).some(({ of }) => of.replace(/^instrument\./, "") === byX);
  return written !== undefined || read ? byX : path;
}

function at(data: unknown, keys: readonly string[]): unknown {
  let value = data;
  for (const key of keys)
    value = value === null || typeof value !== "object" ? undefined : (value as Record<string, unknown>)[key];
  return value;
}
