/** A new value for a dimension: what was measured is measured again, what was decided is written. */
import { createSignal } from "solid-js";
import { mm, showFigure } from "../../core/quantity/index.ts";
import type { EditableDimension } from "../../core/sheets/index.ts";
import type { Desk, Trouble } from "../state/desk.ts";
import { readingText, versionOf } from "../state/readings.ts";
import { units } from "../state/settings.ts";
import { Keypad } from "./keypad.tsx";
import { MeasureSlip } from "./measure-slip.tsx";
import { Slip } from "./sheet-dialog.tsx";
import { capital, TroubleNote } from "./trouble.tsx";

export interface DimensionSlipProps {
  readonly desk: Desk;
  readonly dimension: EditableDimension;
  readonly onClose: () => void;
}

export function DimensionSlip(props: DimensionSlipProps) {
  const { edit } = props.dimension;
  return edit.by === "reading" ? (
    <MeasureSlip desk={props.desk} reading={edit.reading} onClose={props.onClose} />
  ) : (
    <DecisionSlip {...props} path={edit.path} />
  );
}

function DecisionSlip(props: DimensionSlipProps & { readonly path: string }) {
  let input: HTMLInputElement | undefined;
  const [trouble, setTrouble] = createSignal<Trouble>();
  const now = () => showFigure(mm(props.dimension.valueMm, 1), units());
  const keep = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const text = readingText(input?.value ?? "", "", units() === "inch" ? "in" : "mm");
    const section = props.path.split("/")[1] ?? "fit";
    const refused = await props.desk.writeIfRead(
      `${props.dimension.what}: ${text}`,
      ...versionOf(props.desk.data(), section),
      { path: props.path, value: text },
    );
    setTrouble(refused);
    if (refused) return;
    props.onClose();
  };
  return (
    <Slip title={capital(props.dimension.what)} onClose={props.onClose}>
      <form class="measure" onSubmit={(event) => void keep(event)}>
        <p>A decision of yours, now {now()}. The papers go by it where it holds.</p>
        <label class="big-entry">
          <span>New value, {units() === "inch" ? "inches" : "millimetres"} unless you write the unit</span>
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
        <Keypad input={() => input} />
        <div class="row">
          <button type="submit" class="main">
            Keep this value
          </button>
          <button type="button" onClick={() => props.onClose()}>
            Leave it as it is
          </button>
        </div>
      </form>
    </Slip>
  );
}
