/** The sum behind a verdict: formula, what was put in, whose doubt it is, the source. */
import { For, Show } from "solid-js";
import { showFigure } from "../../core/quantity/index.ts";
import type { Share, Sum, SumRow, Verdict } from "../../core/verdict/index.ts";
import { units } from "../state/settings.ts";
import { Words } from "./phrase.tsx";
import { Slip } from "./sheet-dialog.tsx";

export function SumSlip(props: { readonly verdict: Verdict; readonly onClose: () => void }) {
  return (
    <Slip title={props.verdict.question} onClose={props.onClose}>
      <For each={props.verdict.sums} fallback={<p>Nothing is reckoned here: it was looked up or counted.</p>}>
        {(sum) => <OneSum sum={sum} />}
      </For>
      <Show when={props.verdict.shares.length > 0}>
        <h3>Whose doubt it is</h3>
        <table class="shares">
          <tbody>
            <For each={props.verdict.shares.filter(({ share }) => share >= 0.005)}>
              {(share) => <ShareRow share={share} />}
            </For>
          </tbody>
        </table>
      </Show>
    </Slip>
  );
}

function OneSum(props: { readonly sum: Sum }) {
  return (
    <section class="sum">
      <h3>{props.sum.title}</h3>
      <p class="formula">{props.sum.formula}</p>
      <div class="wide">
        <table>
          <thead>
            <tr>
              <th scope="col">Sign</th>
              <th scope="col">What it is</th>
              <th scope="col" class="right">
                Value
              </th>
              <th scope="col">From</th>
            </tr>
          </thead>
          <tbody>
            <For each={props.sum.rows}>
              {(row) => (
                <tr>
                  <td class="formula">{row.symbol}</td>
                  <td>{row.meaning}</td>
                  <td class="right figure">{shown(row)}</td>
                  <td class={row.origin === "assumed" ? "assumed" : ""}>
                    {row.tool ? `${row.origin}, ${row.tool}` : row.origin}
                  </td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </div>
      <p>
        Result: <Words of={props.sum.result} />
      </p>
      <p class="source">
        {props.sum.source.text} ({props.sum.source.mark}).
      </p>
    </section>
  );
}

function shown({ value, unit, u }: SumRow): string {
  const digits = unit === "mm" ? 2 : Math.abs(value) < 10 ? 3 : 1;
  return showFigure({ value, unit, digits, ...(u > 0 ? { u } : {}) }, units());
}

function ShareRow(props: { readonly share: Share }) {
  const percent = () => Math.round(props.share.share * 100);
  return (
    <tr>
      <td>{props.share.what}</td>
      <td class="right figure">{percent()} %</td>
      <td class="bar-cell">
        <svg class="bar" viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
          <rect width={percent()} height="6" />
        </svg>
      </td>
    </tr>
  );
}
