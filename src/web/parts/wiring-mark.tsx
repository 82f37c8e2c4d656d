/** A word with its shape, for what a wiring gives: told apart without colour. */
type Grade = "fault" | "caution" | "fine" | "agrees" | "differs";

const SHAPES: Readonly<Record<Grade, string>> = {
  fault: "M2.5 2.5h11v11h-11zM2.5 2.5l11 11M13.5 2.5l-11 11",
  caution: "M8 2L14.5 13.5h-13zM8 6v4M8 11.2v1",
  fine: "M8 1.5a6.5 6.5 0 1 1 0 13a6.5 6.5 0 1 1 0-13z",
  agrees: "M2 8.5l4 4.5L14 3.5",
  differs: "M2 5.5h12M2 10.5h12M12 2L4 14",
};

const COLOURS: Readonly<Record<Grade, string>> = {
  fault: "no-go",
  caution: "rework",
  fine: "go",
  agrees: "go",
  differs: "no-go",
};

export function WiringMark(props: { readonly grade: Grade; readonly words?: string }) {
  return (
    <span class={`status ${COLOURS[props.grade]}`}>
      <svg viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
        <path d={SHAPES[props.grade]} />
      </svg>
      {props.words ?? props.grade}
    </span>
  );
}
