/** Which part of the drawing lies under the eye, kept while the job changes and the page is turned. */
import { type Accessor, createMemo, createSignal } from "solid-js";
import type { MarkingOut } from "../../core/sheets/index.ts";
import { DIMENSIONS_PX, fitTo, panBy, sightsOf, type View, zoomAt } from "./marking-view.ts";

export type Sighting = ReturnType<typeof createSight>;

const ROUT_DIMENSIONS_PX = 90;

export function createSight(sheet: Accessor<MarkingOut>) {
  const [size, setSize] = createSignal({ width: 800, height: 480 });
  const [chosen, setChosen] = createSignal<View>();
  /** Until somebody pans or zooms, a new size shows the same thing again. */
  const [aim, setAim] = createSignal<string>("whole");
  const sights = createMemo(() => sightsOf(sheet()));

  const aimed = createMemo((): View => {
    const named = [...sights().routs, ...sights().holes].find(({ id }) => id === aim());
    if (named) return fitTo(named.box, size(), ROUT_DIMENSIONS_PX);
    return fitTo(aim() === "bridge" ? sheet().bridge : sheet().whole, size(), DIMENSIONS_PX);
  });
  const view = createMemo((): View => chosen() ?? aimed());
  const middle = () => ({ left: size().width / 2, top: size().height / 2 });

  return {
    sights,
    view,
    setView: (next: View) => setChosen(next),
    resize(width: number, height: number): void {
      const before = chosen();
      setSize({ width, height });
      if (!before) return;
      const { turn } = fitTo(sheet().whole, { width, height });
      setChosen({ ...before, width, height, turn });
    },
    lookAt(id: string): void {
      if (id === "") return;
      setAim(id);
      setChosen(undefined);
    },
    zoom: (factor: number) => setChosen(zoomAt(view(), factor, middle())),
    pan: (left: number, top: number) => setChosen(panBy(view(), left, top)),
  };
}
