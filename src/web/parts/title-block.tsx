/** Along the foot of the sheet, as on a drawing: which job, which sheet, where it is kept, and the few switches. */
import { For, Show } from "solid-js";
import type { BenchLink } from "../state/bench-link.ts";
import type { Desk } from "../state/desk.ts";
import { addressOf, route, SHEETS, toSheet } from "../state/route.ts";
import { light, setLight, setUnits, units } from "../state/settings.ts";

const NEXT_LIGHT = { "as the system": "day", day: "night", night: "as the system" } as const;

export function TitleBlock(props: { readonly desk: Desk; readonly bench: BenchLink }) {
  const here = () => {
    const now = route();
    return now.at === "job" ? now : undefined;
  };
  return (
    <footer class="title-block">
      <a class="cell name" href="#/">
        <small>Fettle</small>
        <span>{here() ? (props.desk.job()?.title ?? "Job") : "All jobs"}</span>
      </a>
      <Show when={here()}>
        {(job) => (
          <nav class="cell sheets" aria-label="Sheets of this job">
            <For each={SHEETS}>
              {({ id, name }) => (
                <a href={addressOf(toSheet(job().job, id))} aria-current={job().sheet === id ? "page" : undefined}>
                  {name}
                </a>
              )}
            </For>
          </nav>
        )}
      </Show>
      <div class="cell kept" role="status">
        <small>Kept</small>
        <span>{keptWords(props.desk, props.bench)}</span>
      </div>
      <div class="cell switches">
        <Show when={here()}>
          <button
            type="button"
            class="quiet"
            disabled={!props.desk.undoable()}
            title={props.desk.undoable()?.words ?? "Nothing to take back"}
            onClick={() => void props.desk.undo()}
          >
            Undo
          </button>
          <button
            type="button"
            class="quiet"
            disabled={!props.desk.redoable()}
            title={props.desk.redoable()?.words ?? "Nothing to do again"}
            onClick={() => void props.desk.redo()}
          >
            Redo
          </button>
        </Show>
        <button type="button" class="quiet" onClick={() => setUnits(units() === "mm" ? "inch" : "mm")}>
          <span class="visually-hidden">Units: </span>
          {units()}
        </button>
        <button type="button" class="quiet" onClick={() => setLight(NEXT_LIGHT[light()])}>
          <span class="visually-hidden">Light: </span>
          {light() === "as the system" ? "auto" : light()}
        </button>
      </div>
    </footer>
  );
}

function keptWords(desk: Desk, bench: BenchLink): string {
  if (!desk.keeping.lasts) return "nowhere yet";
  switch (desk.kept()) {
    case "being kept":
      return "writing …";
    case "not kept":
      return "NOT kept";
    default:
      return bench.state() === "together"
        ? "here and on the bench computer"
        : bench.state() === "apart"
          ? "here; bench computer out of reach"
          : "here";
  }
}
