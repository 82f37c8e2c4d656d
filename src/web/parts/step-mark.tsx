/** Where a step stands: a shape and a word. */
export type StepState = "done" | "open" | "waiting" | "shut" | "overridden";

const SHAPES: Readonly<Record<StepState, string>> = {
  done: "M2.5 8.5l3.5 4l7.500-9",
  open: "M8 2a6 6 0 1 1 0 12a6 6 0 1 1 0-12z",
  waiting: "M8 2a6 6 0 1 1 0 12a6 6 0 1 1 0-12zM8 4.500v4l2.500 2",
  shut: "M3 7h10v6.500h-10zM5 7v-2a3 3 0 0 1 6 0v2",
  overridden: "M3 7h10v6.500h-10zM5 7v-2a3 3 0 0 1 5.500-1.500",
};

const WORDS: Readonly<Record<StepState, string>> = {
  done: "done",
  open: "open",
  waiting: "waits",
  shut: "shut",
  overridden: "overridden",
};

export function StepMark(props: { readonly state: StepState }) {
  return (
    <span class={`step-mark ${props.state}`}>
      <svg viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
        <path d={SHAPES[props.state]} />
      </svg>
      <span>{WORDS[props.state]}</span>
    </span>
  );
}
