/** The plate as a thing to take hold of: with a finger, with the mouse, and with the arrow keys, as a slider. */
import { chanceFigure, oddsInWords } from "../../core/ledger/index.ts";
import { mm, say, showFigure, showPhrase } from "../../core/quantity/index.ts";
import { bindingWords, type PlaceTrial } from "../../core/questions/index.ts";
import type { MovablePlate } from "../../core/sheets/index.ts";
import { units } from "../state/settings.ts";

export interface PlateHandleProps {
  readonly plate: MovablePlate;
  readonly placeMm: number;
  /** The figure that is spoken, from the job's own datum. */
  readonly shownMm: number;
  readonly trial: PlaceTrial | undefined;
  readonly range: { readonly minMm: number; readonly maxMm: number };
  readonly onMove: (placeMm: number) => void;
  readonly onSettle: (kept: boolean) => void;
  readonly inert: boolean;
}

const SMALL_MM = 0.1;
const LARGE_MM = 0.5;

export function PlateHandle(props: PlateHandleProps) {
  const keys = (event: KeyboardEvent): void => {
    const to = target(event, props.placeMm, props.plate);
    if (to !== undefined) props.onMove(to);
    else if (event.key === "Enter") props.onSettle(true);
    else if (event.key === "Escape") props.onSettle(false);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  const spoken = (): string => {
    const place = `front edge ${showFigure(mm(props.shownMm, 1), units())}`;
    const { trial } = props;
    if (!trial) return place;
    const chance = `chance ${chanceFigure(trial.probability)}, ${oddsInWords(trial.probability)}`;
    const where = trial.insideWindow ? "" : ", outside the window";
    const binds = trial.binds ? `; ${showPhrase(bindingWords(trial.binds), units())}` : "";
    return `${place}${where}, ${chance}${binds}${trial.refused ? `; not to be drilled: ${showPhrase(trial.refused, units())}` : ""}`;
  };
  const half = () => props.plate.widthMm / 2;
  return (
    <g
      class="plate-handle"
      classList={{ inert: props.inert }}
      data-plate=""
      role="slider"
      tabindex="0"
      aria-label="The plate, along the strings"
      aria-valuemin={Number(props.range.minMm.toFixed(1))}
      aria-valuemax={Number(props.range.maxMm.toFixed(1))}
      aria-valuenow={Number(props.placeMm.toFixed(1))}
      aria-valuetext={spoken()}
      onKeyDown={keys}
      onBlur={() => props.onSettle(true)}
      transform={`translate(${props.placeMm} ${props.plate.sideMm}) rotate(${props.plate.yawDegrees})`}
    >
      <rect x="0" y={-half()} width={props.plate.lengthMm} height={props.plate.widthMm} />
    </g>
  );
}

function target({ key, shiftKey }: KeyboardEvent, placeMm: number, { window }: MovablePlate): number | undefined {
  const small = shiftKey ? LARGE_MM : SMALL_MM;
  switch (key) {
    case "ArrowRight":
    case "ArrowDown":
      return placeMm + small;
    case "ArrowLeft":
    case "ArrowUp":
      return placeMm - small;
    case "PageDown":
      return placeMm + LARGE_MM;
    case "PageUp":
      return placeMm - LARGE_MM;
    case "Home":
      return window.minMm;
    case "End":
      return window.maxMm;
    default:
      return undefined;
  }
}

/** What the call-out says, shortest first. */
export function callOutLines(trial: PlaceTrial): readonly string[] {
  const chance = `chance ${chanceFigure(trial.probability)}, ${oddsInWords(trial.probability)}`;
  const { binds } = trial;
  const wall = trial.thinnest ? [showPhrase(say`thinnest wall ${mm(trial.thinnest.wallMm)}`, units())] : [];
  if (!binds) return [chance, ...wall];
  const words =
    binds.kind === "wall"
      ? say`${binds.wallMm < 0 ? "run together by " : "wood "}${mm(Math.abs(binds.wallMm))}, wanted ${mm(binds.wantedMm)}`
      : binds.spareMm < 0
        ? say`string ${String(binds.string)}: ${mm(-binds.spareMm)} beyond its ${binds.stop} stop`
        : say`string ${String(binds.string)}: ${mm(binds.spareMm)} to its ${binds.stop} stop`;
  return [showPhrase(words, units()), chance, ...wall];
}
