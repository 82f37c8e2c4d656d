/** What the rules of a printed sheet measured: whether holes may be marked from it. */
import { createSignal, For, Show } from "solid-js";
import { measuredPrint } from "../../core/index.ts";
import { printed, printedRecord, type PrintedRules as Typed } from "../state/bench-work.ts";
import { type Desk, type Trouble, troubleOf } from "../state/desk.ts";
import { Keypad } from "./keypad.tsx";
import { TroubleNote } from "./trouble.tsx";

/** In the words of the boxes on the sheet. */
const LENGTHS = [
  ["along", "Down the left side"],
  ["across", "Across the top"],
  ["diagonal1", "Diagonal, top left down"],
  ["diagonal2", "Diagonal, top right down"],
  ["code", "Code of this sheet"],
] as const;
const NOTHING: Typed = { along: "", across: "", diagonal1: "", diagonal2: "", code: "" };

/** The sheet that a step of the traveller waits for: its rules are readings of that step, too. */
export const STEP_SHEET = "bridge-template";

export interface PrintedRulesProps {
  readonly desk: Desk;
  readonly sheet: string;
  readonly onKept?: () => void;
}

export function PrintedRules(props: PrintedRulesProps) {
  const [typed, setTyped] = createSignal<Typed>(NOTHING);
  const [trouble, setTrouble] = createSignal<Trouble>();
  let field: HTMLInputElement | undefined;
  const keep = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const at = new Date().toISOString();
    try {
      measuredPrint(printedRecord(props.sheet, typed()));
    } catch (error) {
      setTrouble(troubleOf(error));
      return;
    }
    const changes = printed(props.desk.fold(), props.sheet, typed(), at, props.sheet === STEP_SHEET);
    const refused = await props.desk.writeIfRead("measured the printed rules", ...changes);
    setTrouble(refused);
    if (refused) return;
    // The next print has a code of its own: nothing of this one may slip into it.
    setTyped(NOTHING);
    props.onKept?.();
  };
  const missing = () => LENGTHS.filter(([key]) => typed()[key].trim() === "").length;
  return (
    <form class="printed" aria-label="The rules of the print" onSubmit={(event) => void keep(event)}>
      <p>
        <strong>The rules of the print, measured with a steel rule, cross to cross</strong>
      </p>
      <div class="printed-fields">
        <For each={LENGTHS}>
          {([key, words], index) => (
            <label>
              {words}
              <input
                ref={(element) => {
                  if (index() === 0) field = element;
                }}
                type="text"
                inputmode={key === "code" ? "text" : "none"}
                autocomplete="off"
                maxlength="40"
                value={typed()[key]}
                onFocus={(event) => {
                  field = event.currentTarget;
                }}
                onInput={(event) => {
                  setTrouble(undefined);
                  setTyped({ ...typed(), [key]: event.currentTarget.value });
                }}
              />
              <span class="unit">{key === "code" || /[a-z"″]/i.test(typed()[key]) ? "" : "mm"}</span>
            </label>
          )}
        </For>
        <small>Millimetres, as the boxes say, unless you write "in". The code stands below the boxes.</small>
        <TroubleNote trouble={trouble()} />
        <button type="submit" disabled={missing() > 0}>
          Keep these lengths
        </button>
        <Show when={missing() > 0 && missing() < LENGTHS.length}>
          <small>{missing() === 1 ? "One box is" : `${missing()} boxes are`} still empty.</small>
        </Show>
      </div>
      <Keypad input={() => field} />
    </form>
  );
}
