/** Every dimension of the drawing in one list, for the keyboard and for those who do not see the drawing. */
import { For } from "solid-js";
import { mm, standardUncertainty } from "../../core/quantity/index.ts";
import type { EditableDimension } from "../../core/sheets/index.ts";
import { Reading } from "./phrase.tsx";
import { capital } from "./trouble.tsx";

export function DimensionTable(props: {
  readonly dimensions: readonly EditableDimension[];
  readonly onPress: (one: EditableDimension) => void;
}) {
  // One row of holes has one place along: it is listed once.
  const rows = () => {
    const seen = new Set<string>();
    return props.dimensions.filter(({ quantity, edit }) => {
      const key = edit.by === "reading" ? edit.reading.path : quantity.path;
      return !seen.has(key) && seen.add(key);
    });
  };
  return (
    <details class="dimension-list">
      <summary>All {rows().length} dimensions of this drawing</summary>
      <div class="wide">
        <table>
          <thead>
            <tr>
              <th scope="col">What</th>
              <th scope="col" class="right">
                Value
              </th>
              <th scope="col">From</th>
              <th scope="col">
                <span class="visually-hidden">Change</span>
              </th>
            </tr>
          </thead>
          <tbody>
            <For each={rows()}>
              {(one) => (
                <tr>
                  <th scope="row">{capital(one.what)}</th>
                  <td class="right">
                    <Reading figure={mm(one.valueMm, 1, uOf(one))} />
                  </td>
                  <td class={originOf(one) === "assumed" ? "assumed" : ""}>{originOf(one)}</td>
                  <td>
                    <button
                      type="button"
                      class="quiet"
                      aria-label={`Change ${one.what}`}
                      onClick={() => props.onPress(one)}
                    >
                      {one.edit.by === "reading" ? "Measure" : "Change"}
                    </button>
                  </td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </div>
    </details>
  );
}

function uOf({ quantity }: EditableDimension): number | undefined {
  const u = quantity.known ? standardUncertainty(quantity) : 0;
  return u === 0 ? undefined : u;
}

function originOf({ quantity, edit }: EditableDimension): string {
  if (edit.by === "decision") return quantity.known && quantity.said !== "" ? "your decision" : "the search";
  return quantity.known ? (quantity.tool ?? quantity.origin) : "";
}
