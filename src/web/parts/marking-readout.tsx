/** Beside the plate: where it stands, how likely that holds, what binds, the thinnest wall. One line each, always there. */
import { createMemo, For, Show } from "solid-js";
import { chanceFigure, oddsInWords } from "../../core/ledger/index.ts";
import { mm, type Phrase, say } from "../../core/quantity/index.ts";
import { bindingWords, type PlaceTrial, wallWords } from "../../core/questions/index.ts";
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
        </div>
        <div>
          <dt>Thinnest wall</dt>
          <dd>
            <Words of={wall()} />
          </dd>
          <dd>{plugWords(props.trial.plugs.length)}</dd>
        </div>
      </dl>
      <p class="refused">
        <Show when={props.trial.refused}>
          {(why) => (
            <>
              Not to be drilled here. <Words of={why()} />.
            </>
          )}
        </Show>
      </p>
      <fieldset class="nudges">
        <legend>Move the plate, mm (+ toward the tail)</legend>
        <For each={NUDGES}>
          {(by) => (
            <button type="button" onClick={() => props.onNudge(by)} aria-label={nudgeName(by)}>
              {by > 0 ? `+${by}` : `−${-by}`}
            </button>
          )}
        </For>
      </fieldset>
    </section>
  );
}

function nudgeName(by: number): string {
  return `${Math.abs(by)} mm toward the ${by > 0 ? "tail" : "neck"}`;
}

function windowWords(trial: PlaceTrial, { minMm, maxMm }: ReadoutProps["window"]): Phrase {
  if (maxMm < minMm) return say`no place will do: short by ${mm(minMm - maxMm)}`;
  const window = say`its window, ${mm(minMm, 2)} to ${mm(maxMm, 2)}`;
  return trial.insideWindow ? say`inside ${window}` : say`${mm(trial.beyondMm, 1)} outside ${window}`;
}

function plugWords(count: number): string {
  return count === 0
    ? "no old hole to plug"
    : count === 1
      ? "1 old hole to plug first"
      : `${count} old holes to plug first`;
}
