/** The print that was measured, what it says of the next one, and the way to measure another. */
import { createMemo, createSignal, Show } from "solid-js";
import { type MeasuredPrint, readPrint } from "../../core/index.ts";
import { figure, say } from "../../core/quantity/index.ts";
import type { Desk } from "../state/desk.ts";
import { Words } from "./phrase.tsx";
import { PrintAnswer } from "./print-answer.tsx";
import { PrintedRules, STEP_SHEET } from "./printed-rules.tsx";
import { TroubleNote } from "./trouble.tsx";

export interface SheetName {
  readonly id: string;
  readonly title: string;
}

export interface PrintCorrectionProps {
  readonly desk: Desk;
  /** The drawing looked at; none where the paper has no rules. */
  readonly sheet: SheetName | undefined;
  readonly sheets: readonly SheetName[];
}

export function PrintCorrection(props: PrintCorrectionProps) {
  const [open, setOpen] = createSignal(false);
  const read = createMemo(() => {
    const job = props.desk.job();
    return job && readPrint(job);
  });
  const print = (): MeasuredPrint | undefined => {
    const known = read();
    return known && "check" in known ? known : undefined;
  };
  const trouble = () => {
    const known = read();
    return known && "problem" in known ? known : undefined;
  };
  const titleOf = (id: string) => props.sheets.find((one) => one.id === id)?.title ?? id;
  /** Only one print is kept: measuring another sheet leaves the step's own sheet without its proof. */
  const takesThePlace = () => print()?.sheet === STEP_SHEET && props.sheet?.id !== STEP_SHEET;
  const leaveOut = () => void props.desk.write("the measured print left out", { path: "/record/printed" });
  return (
    <section class="print-correction" aria-label="Print check">
      <TroubleNote trouble={trouble()} />
      <Show when={print()}>{(known) => <PrintAnswer print={known()} title={titleOf(known().sheet)} />}</Show>
      <Show when={print()?.factors}>
        {(factors) => (
          <p class="applied">
            <strong>Correction applied</strong> to every drawing, here and in its PDF and SVG:{" "}
            <Words
              of={say`drawn at ${figure(factors().sx * 100, "%", 2)} across and ${figure(factors().sy * 100, "%", 2)} down an upright sheet`}
            />
            , for that printer alone. DXF keeps the true size.
          </p>
        )}
      </Show>
      <Show when={print() ?? trouble()}>
        <button type="button" onClick={leaveOut}>
          {print()?.factors ? "Take the correction off" : "Leave this measurement out"}
        </button>
      </Show>
      <Show when={props.sheet}>
        {(sheet) => (
          <details open={open()} onToggle={(event) => setOpen(event.currentTarget.open)}>
            <summary>
              {print() ? "Measure another print" : "Enter what the rules of a print measure"} ({sheet().title})
            </summary>
            <Show when={takesThePlace()}>
              <p>
                This takes the place of what was measured on {titleOf(STEP_SHEET)}: measure that one again before
                anything is marked from it.
              </p>
            </Show>
            <PrintedRules desk={props.desk} sheet={sheet().id} onKept={() => setOpen(false)} />
          </details>
        )}
      </Show>
    </section>
  );
}
