/** A sentence with its figures: the unit lighter, the doubt smaller, in the units of the switch. */
import { For, Show } from "solid-js";
import { type Figure, type Phrase, showFigure } from "../../core/quantity/index.ts";
import { units } from "../state/settings.ts";

export function Words(props: { readonly of: Phrase }) {
  return <For each={props.of}>{(part) => (typeof part === "string" ? part : <Reading figure={part} />)}</For>;
}

export function Reading(props: { readonly figure: Figure }) {
  const parts = () => partsOf(showFigure(props.figure, units()));
  return (
    <span class="figure">
      {parts().number}
      <Show when={parts().doubt}>{(doubt) => <span class="doubt"> {doubt()}</span>}</Show>
      <Show when={parts().unit}>{(unit) => <span class="unit">{unit()}</span>}</Show>
    </span>
  );
}

/** `1.70 ±0.20 mm (k=2)` in its parts. */
export function partsOf(shown: string): { readonly number: string; readonly doubt: string; readonly unit: string } {
  const match = /^(-?[\d.]+)( ±[\d.]+)?(.*?)( \(k=2\))?$/.exec(shown);
  const [, number = shown, doubt = "", unit = ""] = match ?? [];
  // A no-break space keeps figure and unit together.
  return { number, doubt: doubt.trim(), unit: unit.replace(/^ /, "\u00a0") };
}
