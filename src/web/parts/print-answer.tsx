/** What a measured print came to: true, to be printed again with a correction, or refused and why. */
import { Show } from "solid-js";
import { type MeasuredPrint, printInWords } from "../../core/index.ts";
import { Words } from "./phrase.tsx";
import { capital } from "./trouble.tsx";

export interface PrintAnswerProps {
  readonly print: MeasuredPrint;
  /** The sheet as the person knows it. */
  readonly title: string;
}

export function PrintAnswer(props: PrintAnswerProps) {
  const from = () => {
    const { at, code } = props.print;
    const when = at === undefined ? "" : `, ${new Date(at).toLocaleDateString(undefined, { dateStyle: "medium" })}`;
    return `${props.title}${code === undefined ? "" : `, code ${code}`}${when}`;
  };
  const refusal = () => {
    const { check } = props.print;
    return "refuse" in check ? check : undefined;
  };
  return (
    <p class="print-answer" role="status">
      <strong>Print measured ({from()}):</strong> <Words of={printInWords(props.print)} />.
      <Show when={refusal()}>{(refused) => <> {capital(refused().remedy)}.</>}</Show>
    </p>
  );
}
