/** The control plate from behind, and the signal of the state in hand: drawn when asked, pressed for where a lug goes. */
import { createEffect, createSignal, For, on, Show } from "solid-js";
import type { WiringReport } from "../../core/index.ts";
import { type Desk, type Trouble, troubleOf } from "../state/desk.ts";
import { wiringDrawing } from "../state/late.ts";
import { TroubleNote } from "./trouble.tsx";

interface PlateProps {
  readonly desk: Desk;
  readonly report: WiringReport;
  /** The state whose signal stands out. */
  readonly chosen: string;
  readonly onLug: (lug: string) => void;
}

type Drawing = Awaited<ReturnType<typeof wiringDrawing>>;

const ZOOMS = [1, 1.5, 2, 3] as const;
const WIDE_MM = "1.1";
const THIN_MM = "0.45";

export function PlateDrawing(props: PlateProps) {
  const [drawing, setDrawing] = createSignal<Drawing>();
  const [plate, setPlate] = createSignal<string>();
  const [busy, setBusy] = createSignal(false);
  const [zoom, setZoom] = createSignal<(typeof ZOOMS)[number]>(1);
  const [trouble, setTrouble] = createSignal<Trouble>();
  const wiring = () => props.desk.job()?.instrument.wiring;
  // Another wire is another drawing.
  createEffect(on(wiring, () => setPlate(undefined), { defer: true }));
  const draw = async (): Promise<void> => {
    setBusy(true);
    try {
      const tools = await wiringDrawing();
      // The page says that it draws before it does: laying the wires takes a second.
      await new Promise((resolve) => setTimeout(resolve, 30));
      const now = wiring();
      if (!now) return;
      setPlate(tools.plateSvg(now, props.desk.job()?.title ?? ""));
      setDrawing(tools);
    } catch (error) {
      setTrouble(troubleOf(error));
    } finally {
      setBusy(false);
    }
  };
  const signal = () => {
    const now = wiring();
    return plate() === undefined || !now ? undefined : drawing()?.signalSvg(now, props.report, props.chosen);
  };
  const title = () => props.report.states.find(({ id }) => id === props.chosen)?.title ?? props.chosen;
  return (
    <section class="wiring-plate" aria-labelledby="plate-title">
      <h2 id="plate-title">The plate from behind</h2>
      <TroubleNote trouble={trouble()} onClear={() => setTrouble(undefined)} />
      <Show
        when={plate()}
        fallback={
          <p>
            <button type="button" disabled={busy()} onClick={() => void draw()}>
              {busy() ? "Drawing …" : "Draw the plate and the signal"}
            </button>
          </p>
        }
      >
        {(svg) => (
          <>
            <fieldset class="row zoom">
              <legend class="visually-hidden">Size of the drawing</legend>
              <For each={ZOOMS}>
                {(size) => (
                  <button type="button" aria-pressed={zoom() === size} onClick={() => setZoom(size)}>
                    {size} ×
                  </button>
                )}
              </For>
            </fieldset>
            <p class="source">
              As it lies on the bench. Lines that cross are not joined; dashed is ground; wide lines carry the signal of{" "}
              {title()}. Press a lug or a wire for where it goes.
            </p>
            <PlateFigure
              svg={svg()}
              zoom={zoom()}
              wide={drawing()?.wiresOfSignal(props.report, props.chosen) ?? new Set()}
              onLug={props.onLug}
            />
            <Show when={signal()} fallback={<p>No signal is drawn of {title()}.</p>}>
              {(drawn) => <Figure svg={drawn()} label={`Signal of ${title()}`} />}
            </Show>
          </>
        )}
      </Show>
    </section>
  );
}

interface FigureProps {
  readonly svg: string;
  readonly zoom: number;
  readonly wide: ReadonlySet<string>;
  readonly onLug: (lug: string) => void;
}

function PlateFigure(props: FigureProps) {
  let place: HTMLElement | undefined;
  createEffect(() => {
    put(place, props.svg);
    const { wide } = props;
    for (const group of place?.querySelectorAll<SVGGElement>("[data-wire]") ?? [])
      group.querySelector("path")?.setAttribute("stroke-width", wide.has(group.dataset.wire ?? "") ? WIDE_MM : THIN_MM);
  });
  const pressed = (event: MouseEvent): void => {
    const target = event.target instanceof Element ? event.target : undefined;
    const lug = target?.closest<SVGElement>("[data-lug]")?.dataset.lug;
    const from = target?.closest<SVGElement>("[data-wire]")?.dataset.from;
    const found = lug ?? from;
    if (found !== undefined) props.onLug(found);
  };
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: every lug can be reached by the keyboard in the states and wires below
    // biome-ignore lint/a11y/noStaticElementInteractions: the same
    <div
      class="plate-figure"
      data-zoom={props.zoom}
      onClick={pressed}
      ref={(element) => {
        place = element;
      }}
    />
  );
}

function Figure(props: { readonly svg: string; readonly label: string }) {
  let place: HTMLElement | undefined;
  createEffect(() => put(place, props.svg));
  return (
    <figure class="plate-figure" aria-label={props.label}>
      <div
        ref={(element) => {
          place = element;
        }}
      />
    </figure>
  );
}

/** The drawing's own picture, read as XML and never as a part of this page's text. */
function put(place: HTMLElement | undefined, svg: string): void {
  const read = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
  place?.replaceChildren(document.adoptNode(read));
}
