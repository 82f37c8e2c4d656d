/** The print that was measured, what it says of the next one, and the way to measure another. */
import { createMemo, Show } from "solid-js";
import { type MeasuredPrint, printInWords, readPrint } from "../../core/index.ts";
import { figure, say } from "../../core/quantity/index.ts";
import type { Desk } from "../state/desk.ts";
import { Words } from "./phrase.tsx";
import { PrintedRules } from "./printed-rules.tsx";
import { TroubleNote } from "./trouble.tsx";

/** The sheet whose rules the record keeps. */
const SHEET = "bridge-template";

export function PrintCorrection(props: { readonly desk: Desk }) {
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
  const when = () => {
    const at = print()?.at;
    return at === undefined ? "" : ` on ${new Date(at).toLocaleDateString(undefined, { dateStyle: "medium" })}`;
  };
  const refusal = () => {
    const check = print()?.check;
    return check && "refuse" in check ? check : undefined;
  };
  return (
    <section class="print-correction" aria-label="Print check">
      <TroubleNote trouble={trouble()} />
      <Show when={print()}>
        {(known) => (
          <>
            <p role="status">
              <strong>Print measured{when()}:</strong> <Words of={printInWords(known())} />.
              <Show when={refusal()}>{(refused) => <> {refused().remedy}.</>}</Show>
            </p>
            <Show when={known().factors}>
              {(factors) => (
                <p>
                  Drawn for that printer:{" "}
                  <Words
                    of={say`${figure(factors().sx * 100, "%", 2)} across, ${figure(factors().sy * 100, "%", 2)} down an upright sheet.`}
                  />{" "}
                  On another printer measure a print again.
                </p>
              )}
            </Show>
            <button
              type="button"
              onClick={() => void props.desk.write("the measured print left out", { path: "/record/printed" })}
            >
              Leave this measurement out
            </button>
          </>
        )}
      </Show>
      <details>
        <summary>{print() ? "Measure another print" : "Enter what the rules of a print measure"}</summary>
        <PrintedRules desk={props.desk} sheet={SHEET} />
      </details>
    </section>
  );
}
