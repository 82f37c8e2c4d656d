/** The plate while it is moved: where it stands, what that comes to, and the one act that keeps it. */
import { type Accessor, createEffect, createMemo, createSignal, on, onCleanup } from "solid-js";
import { type Job, tryPlace } from "../../core/index.ts";
import { mm, showFigure } from "../../core/quantity/index.ts";
import type { EditableDimension, MarkingOut } from "../../core/sheets/index.ts";
import type { Desk } from "./desk.ts";
import { versionOf } from "./readings.ts";
import { units } from "./settings.ts";

/** How far the plate may be dragged past its window, to see why not. */
const BEYOND_MM = 6;
const STEP_MM = 0.1;
/** Keys come one by one: their place is kept when none has come for so long. */
const SETTLES_MS = 900;

export type PlateHand = ReturnType<typeof createPlateHand>;

export function createPlateHand(desk: Desk, job: Accessor<Job>, sheet: Accessor<MarkingOut>) {
  const [moved, setMoved] = createSignal<number>();
  let timer: ReturnType<typeof setTimeout> | undefined;
  onCleanup(() => clearTimeout(timer));

  const placeMm = createMemo(() => moved() ?? sheet().plate?.placeMm ?? 0);
  const trial = createMemo(() => (sheet().plate ? tryPlace(job(), { placeMm: placeMm() }) : undefined));
  const range = createMemo(() => {
    const window = sheet().plate?.window ?? { minMm: 0, maxMm: 0 };
    return {
      minMm: Math.min(window.minMm, window.maxMm) - BEYOND_MM,
      maxMm: Math.max(window.minMm, window.maxMm) + BEYOND_MM,
    };
  });
  /** The dimension that tells the place: it knows from where the job counts. */
  const dimension = createMemo(() => sheet().dimensions.find(({ id }) => id === "plate-place"));
  const fromDatum = (place: number): number => place - datumX(dimension());
  // What another device or an undo did to the place ends a move that was not kept.
  createEffect(on(job, () => setMoved(undefined), { defer: true }));

  function move(to: number, settles: boolean): void {
    const { minMm, maxMm } = range();
    const datum = datumX(dimension());
    // Tenths as the rule has them, counted from where the job counts.
    const stepped = datum + Math.round((to - datum) / STEP_MM) * STEP_MM;
    setMoved(Math.min(maxMm, Math.max(minMm, stepped)));
    clearTimeout(timer);
    if (settles) timer = setTimeout(() => void settle(true), SETTLES_MS);
  }

  async function settle(kept: boolean): Promise<void> {
    clearTimeout(timer);
    const to = moved();
    const edit = dimension()?.edit;
    if (to === undefined) return;
    if (kept && edit?.by === "decision" && Math.abs(to - (sheet().plate?.placeMm ?? to)) >= STEP_MM / 2) {
      const value = fromDatum(to).toFixed(1);
      await desk.write(
        `front edge moved to ${showFigure(mm(Number(value), 1), units())}`,
        ...versionOf(desk.data(), "fit"),
        { path: edit.path, value: `${value} mm` },
      );
    }
    setMoved(undefined);
  }

  /** The place is left to the search again. */
  async function leaveToSearch(): Promise<void> {
    const edit = dimension()?.edit;
    if (edit?.by === "decision") await desk.write("front edge left to the search", { path: edit.path });
  }

  return {
    placeMm,
    trial,
    range,
    dimension,
    fromDatum,
    moving: () => moved() !== undefined,
    move,
    settle,
    leaveToSearch,
  };
}

function datumX(dimension: EditableDimension | undefined): number {
  return dimension?.from.x ?? 0;
}
