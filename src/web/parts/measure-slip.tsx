/** One reading: where the tool lies, the figure, what it settles. */
import { createSignal, For, Show } from "solid-js";
import { kindOfSubject } from "../../core/index.ts";
import { readingU, toolNamed } from "../../core/quantity/index.ts";
import type { NextReading } from "../../core/verdict/index.ts";
import { lastOperation } from "../state/bench-work.ts";
import type { Desk, Trouble } from "../state/desk.ts";
import { addReading, readingText } from "../state/readings.ts";
import { setToolFor, TOOLS, toolFor, units } from "../state/settings.ts";
import { Keypad } from "./keypad.tsx";
import { Slip } from "./sheet-dialog.tsx";
import { TroubleNote } from "./trouble.tsx";

export interface MeasureProps {
  readonly desk: Desk;
  readonly reading: NextReading;
  /** Asked by a step at the bench: readings of one laying of the tool share it. */
  readonly placing?: string;
  readonly onClose: () => void;
}

export function MeasureSlip(props: MeasureProps) {
  let input: HTMLInputElement | undefined;
  const [trouble, setTrouble] = createSignal<Trouble>();
  const first = toolNamed(props.reading.tool)?.name ?? "";
  const [inHand, setInHand] = createSignal(toolFor(first));
  const job = props.desk.job();
  const kind = (job && kindOfSubject(job, props.reading.path)) ?? "length";
  const isLength = kind === "length";
  const choices = [first, ...TOOLS.filter((name) => toolNamed(name)?.kinds.includes(kind))];
  const keep = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const typed = input?.value ?? "";
    // A bare figure is a length where the value is one; other values take it as it stands.
    const asLength = readingText(typed, inHand(), units() === "inch" ? "in" : "mm");
    const refused = await keepAs(isLength ? asLength : readingText(typed, inHand(), ""));
    const wrong = refused && (await keepAs(readingText(typed, inHand(), ""))) ? refused : undefined;
    if (wrong) return void setTrouble(wrong);
    setToolFor(first, inHand());
    props.onClose();
  };
  const keepAs = (text: string): Promise<Trouble | undefined> => {
    const { path, what } = props.reading;
    const after = lastOperation(props.desk.fold());
    const reading = {
      of: path,
      value: text,
      at: new Date().toISOString(),
      ...(after === undefined ? {} : { after }),
      ...(props.placing === undefined ? {} : { placing: props.placing }),
    };
    return props.desk.writeIfRead(`read ${what}: ${text}`, ...addReading(props.desk.fold(), reading));
  };
  const doubt = (): string => {
    const known = toolNamed(inHand());
    return known && !known.relative ? `reads to about ±${(2 * readingU(known, 0)).toFixed(2)} mm` : "";
  };
  return (
    <Slip title={`Measure ${props.reading.what}`} onClose={props.onClose}>
      <form class="measure" onSubmit={(event) => void keep(event)}>
        <p>{props.reading.how}</p>
        <label class="big-entry">
          <span>
            Reading,{" "}
            {isLength ? `${units() === "inch" ? "inches" : "millimetres"} unless you write the unit` : "with its unit"}
          </span>
          <input
            ref={(element) => {
              input = element;
            }}
            type="text"
            inputmode="none"
            autocomplete="off"
            autofocus
            aria-invalid={trouble() !== undefined}
            onInput={() => setTrouble(undefined)}
          />
        </label>
        <TroubleNote trouble={trouble()} />
        <fieldset class="tools">
          <legend>With which tool</legend>
          <For each={[...new Set(choices.filter(Boolean))]}>
            {(name) => (
              <label>
                <input type="radio" name="tool" checked={inHand() === name} onChange={() => setInHand(name)} /> {name}
              </label>
            )}
          </For>
          <Show when={doubt()}>{(text) => <small>{text()} (one reading in twenty is further off)</small>}</Show>
        </fieldset>
        <Keypad input={() => input} />
        <div class="row">
          <button type="submit" class="main">
            Keep this reading
          </button>
          <button type="button" onClick={() => props.onClose()}>
            Don't know
          </button>
        </div>
        <Show when={props.reading.settles}>
          {(settles) => <p class="source">It settles {settles().replace(/\.$/, "")}.</p>}
        </Show>
      </form>
    </Slip>
  );
}
