/** A verdict's word with its shape: told apart without colour. */
import type { Status } from "../../core/verdict/index.ts";

const SHAPES: Readonly<Record<Status, string>> = {
  // A ring closed, half closed, crossed, and a dotted one still to be read.
  go: "M8 1.5a6.5 6.5 0 1 1 0 13a6.5 6.5 0 1 1 0-13z",
  rework: "M8 1.5a6.5 6.5 0 1 1 0 13a6.5 6.5 0 1 1 0-13zM8 1.5v13",
  "no-go": "M2.5 2.5h11v11h-11zM2.5 2.5l11 11M13.5 2.5l-11 11",
  measure: "M1.5 8L8 1.5L14.5 8L8 14.5zM8 5.5v5M5.5 8h5",
};

export function StatusWord(props: { readonly status: Status }) {
  return (
    <span class={`status ${props.status}`}>
      <svg viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
        <path d={SHAPES[props.status]} />
        {props.status === "rework" ? <path class="half" d="M8 1.5a6.5 6.5 0 0 1 0 13z" /> : null}
      </svg>
      {props.status}
    </span>
  );
}
