/** Beside the plate: where it stands, how likely that holds, what binds, the thinnest wall. One line each, always there. */
import { createMemo, For, Show } from "solid-js";
import { chanceFigure, oddsInWords } from "../../core/ledger/index.ts";
import { mm, type Phrase, say, showFigure } from "../../core/quantity/index.ts";
import { bindingWords, type PlaceTrial, wallWords } from "../../core/questions/index.ts";
import { units } from "../state/settings.ts";
import { Words } from "./phrase.tsx";

export interface ReadoutProps {
  readonly trial: PlaceTrial;
  /** "from the nut's face" or "from the pocket's end wall", and the figure by it. */
  readonly from: string;
  readonly placeMm: number;
  /** Where the front edge may stand, counted as `placeMm`. */
  readonly window: { readonly minMm: number; readonly maxMm: number };
  readonly moving: boolean;
  readonly onNudge: (byMm: number) => void;
}

const NUDGES = [-0.5, -0.1, 0.1, 0.5] as const;

export function Readout(props: ReadoutProps) {
  const wall = createMemo(
    (): Phrase => (props.trial.thinnest ? wallWords(props.trial.thinnest) : say`nothing stands near`),
  );
  return (
    <section class="readout" classList={{ moving: props.moving }} aria-label="The plate where it stands">
      <dl>
        <div>
          <dt>Front edge, {props.from}</dt>
          <dd class="large">
            <Words of={say`${mm(props.placeMm, 1)}`} />
          </dd>
          <dd>
            <Words of={windowWords(props.trial, props.window)} />
          </dd>
          <dd class="after">
            <Words of={say`window ${mm(props.window.minMm)} to ${mm(props.window.maxMm)}`} />
          </dd>
        </div>
        <div>
          <dt>Chance that it goes</dt>
          <dd class="large figure">{chanceFigure(props.trial.probability)}</dd>
          <dd>{oddsInWords(props.trial.probability)}</dd>
        </div>
        <div>
          <dt>Binds first</dt>
          <dd>
            <Show when={props.trial.binds} fallback="nothing">
              {(binds) => <Words of={bindingWords(binds())} />}
            </Show>
          </dd>
          <Show when={props.trial.refused}>
            {(why) => (
              <dd class="refused">
                Not to be drilled here: <Words of={why()} />
              </dd>
            )}
          </Show>
        </div>
        <div>
          <dt>Thinnest wall</dt>
          <dd>
            <Words of={wall()} />
          </dd>
          <dd>{plugWords(props.trial.plugs.length)}</dd>
        </div>
      </dl>
      <fieldset class="nudges">
        <legend>Move the plate (+ toward the tail)</legend>
        <For each={NUDGES}>
          {(by) => (
            <button type="button" onClick={() => props.onNudge(by)} aria-label={nudgeName(by)}>
              {`${by > 0 ? "+" : "−"}${stepWords(by)}`}
            </button>
          )}
        </For>
      </fieldset>
    </section>
  );
}

function nudgeName(by: number): string {
  return `${stepWords(by)} toward the ${by > 0 ? "tail" : "neck"}`;
}

function stepWords(by: number): string {
  return showFigure(mm(Math.abs(by), 1), units());
}

function windowWords(trial: PlaceTrial, { minMm, maxMm }: ReadoutProps["window"]): Phrase {
  if (maxMm < minMm) return say`short by ${mm(minMm - maxMm)} anywhere`;
  return trial.insideWindow ? say`inside its window` : say`${mm(trial.beyondMm, 1)} outside its window`;
}

function plugWords(count: number): string {
  return count === 0
    ? "no old hole to plug"
    : count === 1
      ? "1 old hole to plug first"
      : `${count} old holes to plug first`;
}
