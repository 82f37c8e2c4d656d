/** The drawing itself: true millimetres under one matrix, and over it what keeps its size. */
import { createMemo, createSignal, onCleanup, onMount, Show } from "solid-js";
import type { Job } from "../../core/index.ts";
import type { Binding } from "../../core/questions/index.ts";
import type { EditableDimension, MarkingOut } from "../../core/sheets/index.ts";
import { listen } from "../state/marking-gestures.ts";
import type { PlateHand } from "../state/marking-plate.ts";
import type { Sighting } from "../state/marking-sight.ts";
import { lookedAt, matrixOf, type Px, type Snapped, snap, toScreen } from "../state/marking-view.ts";
import { MeasureLine, type MeasureState } from "./marking-measure.tsx";
import { CallOut, DimensionFigures, DimensionLines, Names, shownDimensions } from "./marking-overlay.tsx";
import { Things } from "./marking-things.tsx";
import { callOutLines, PlateHandle } from "./plate-handle.tsx";

export interface DrawingProps {
  readonly job: Job;
  readonly sheet: MarkingOut;
  readonly sight: Sighting;
  readonly hand: PlateHand;
  readonly measuring: boolean;
  readonly measured: MeasureState;
  readonly onMeasured: (state: MeasureState) => void;
  readonly onDimension: (one: EditableDimension) => void;
  readonly onEscape: () => void;
}

const PAN_PX = 60;
const MOUSE_REACH_PX = 14;
const FINGER_REACH_PX = 26;
/** Nearer than this the place that binds is pointed at without anybody moving the plate. */
const POINTED_AT_SCALE = 2.2;

export function MarkingDrawing(props: DrawingProps) {
  let area: HTMLDivElement | undefined;
  const { view } = props.sight;
  const [hover, setHover] = createSignal<Snapped>();
  const [held, setHeld] = createSignal(false);
  const snapped = (at: Px, reach: number) => snap(view(), props.sheet.points, props.sheet.scene, at, reach);
  onMount(() => {
    const element = area as HTMLDivElement;
    const sizes = new ResizeObserver(() => props.sight.resize(element.clientWidth, element.clientHeight));
    sizes.observe(element);
    const deaf = listen(element, {
      view,
      setView: props.sight.setView,
      plateAt: () => {
        if (!props.sheet.plate) return undefined;
        setHeld(true);
        return props.hand.placeMm();
      },
      movePlate: (to) => props.hand.move(to, false),
      letGo: (kept) => {
        setHeld(false);
        void props.hand.settle(kept);
      },
      pointing: () => props.measuring,
      point: (at, coarse) => {
        const found = snapped(at, coarse ? FINGER_REACH_PX : MOUSE_REACH_PX);
        const { from, to } = props.measured;
        props.onMeasured(from && !to ? { from, to: found } : { from: found });
      },
      hover: (at) => setHover(snapped(at, MOUSE_REACH_PX)),
    });
    onCleanup(() => {
      sizes.disconnect();
      deaf();
    });
  });
  const keys = (event: KeyboardEvent): void => {
    switch (event.key) {
      case "ArrowLeft":
        props.sight.pan(PAN_PX, 0);
        break;
      case "ArrowRight":
        props.sight.pan(-PAN_PX, 0);
        break;
      case "ArrowUp":
        props.sight.pan(0, PAN_PX);
        break;
      case "ArrowDown":
        props.sight.pan(0, -PAN_PX);
        break;
      case "+":
      case "=":
        props.sight.zoom(1.25);
        break;
      case "-":
        props.sight.zoom(1 / 1.25);
        break;
      case "0":
        props.sight.lookAt("whole");
        break;
      case "Escape":
        props.onEscape();
        break;
      default:
        return;
    }
    event.preventDefault();
  };
  const plugs = createMemo(() => {
    const there = props.job.instrument.body.holes.flatMap(({ id, plug }): [string, number][] =>
      plug?.diameter.known ? [[id, plug.diameter.value]] : [],
    );
    const needed = props.hand.trial()?.plugs ?? [];
    return new Map([...there, ...needed.map(({ oldId, plugDiameterMm }): [string, number] => [oldId, plugDiameterMm])]);
  });
  const moved = () => props.hand.placeMm() - (props.sheet.plate?.placeMm ?? 0);
  const shown = createMemo(() =>
    held() || props.hand.moving() ? [] : shownDimensions(props.sheet, props.sight.sights(), view()),
  );
  /** At rest only where somebody looks at it. */
  const pointedAt = (binds: Binding): boolean => {
    const { left, top } = toScreen(view(), spot(binds.kind === "wall" ? binds.from : binds.at));
    const inside = left > 0 && top > 0 && left < view().width && top < view().height;
    return inside && !lookedAt(props.sheet, props.sight.sights(), view()).startsWith("rout");
  };
  const rear = () => {
    const { plate } = props.sheet;
    return plate && { x: props.hand.placeMm() + plate.lengthMm, y: 0 };
  };
  const binding = createMemo(() => {
    const trial = props.hand.trial();
    if (!trial?.binds || props.measuring) return undefined;
    const moving = props.hand.moving() || held();
    if (!moving && !(pointedAt(trial.binds) && view().scale >= POINTED_AT_SCALE)) return undefined;
    return { binds: trial.binds, lines: callOutLines(trial) };
  });
  return (
    // The keys pan and zoom the drawing that it holds; the things in it are real controls of their own.
    <div
      ref={(element) => {
        area = element;
      }}
      class="marking-area"
      classList={{ pointing: props.measuring, held: held() }}
      role="application"
      aria-roledescription="drawing"
      aria-label="The instrument from the front. Arrow keys move the sheet, plus and minus change its size, 0 shows all."
      tabindex="0"
      onKeyDown={keys}
    >
      <svg aria-hidden="true" class="marking-sheet">
        <defs>
          <pattern
            id="cut-away"
            width="6"
            height="6"
            patternUnits="userSpaceOnUse"
            patternTransform={`scale(${1 / view().scale})`}
          >
            <path d="M-1 1L1 -1M0 6L6 0M5 7L7 5" class="hatch" />
          </pattern>
        </defs>
        <g transform={matrixOf(view())}>
          <Things sheet={props.sheet} movedMm={moved()} plugs={plugs()} />
        </g>
      </svg>
      <Show when={props.sheet.plate}>
        {(plate) => (
          <svg class="marking-sheet taking-hold" aria-label="The plate">
            <g transform={matrixOf(view())}>
              <PlateHandle
                plate={plate()}
                placeMm={props.hand.placeMm()}
                shownMm={props.hand.fromDatum(props.hand.placeMm())}
                trial={props.hand.trial()}
                range={props.hand.range()}
                onMove={(to) => props.hand.move(to, true)}
                onSettle={(kept) => void props.hand.settle(kept)}
                inert={props.measuring}
              />
            </g>
          </svg>
        )}
      </Show>
      <svg aria-hidden="true" class="marking-sheet overlay">
        <DimensionLines shown={shown()} />
        <Names sheet={props.sheet} view={view()} taken={shown()} />
        <Show when={binding()}>
          {(one) => {
            const ends = () => {
              const { binds } = one();
              return binds.kind === "wall" ? { at: spot(binds.from), to: spot(binds.to) } : { at: spot(binds.at) };
            };
            return <CallOut view={view()} {...ends()} lines={one().lines} rear={rear()} />;
          }}
        </Show>
        <Show when={props.measuring}>
          <MeasureLine view={view()} state={props.measured} hover={hover()} />
        </Show>
      </svg>
      <DimensionFigures shown={shown()} onPress={props.onDimension} />
      <Show when={props.measuring && hover()}>{(at) => <p class="hover-name">{at().name}</p>}</Show>
    </div>
  );
}

function spot({ uMm, yMm }: { readonly uMm: number; readonly yMm: number }) {
  return { x: uMm, y: yMm };
}
