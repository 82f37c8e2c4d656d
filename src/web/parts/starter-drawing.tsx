/** A small line drawing for each question that a job can be begun with. */
import { For } from "solid-js";

/** Lines in a box of 64 × 40: thin for what is there, thick for what is asked. */
const DRAWINGS: Readonly<Record<string, { readonly thin: readonly string[]; readonly thick: readonly string[] }>> = {
  "bridge-place": { thin: ["M2 14H62M2 20H62M2 26H62"], thick: ["M44 8h10v24h-10z", "M36 36h8m-3-2l3 2-3 2"] },
  "old-holes": {
    thin: ["M20 12a4 4 0 1 0 .1 0M44 12a4 4 0 1 0 .1 0", "M20 24a4 4 0 1 0 .1 0M44 24a4 4 0 1 0 .1 0"],
    thick: ["M24 14a4 4 0 1 0 .1 0M40 26a4 4 0 1 0 .1 0"],
  },
  "saddle-range": {
    thin: ["M6 10h52v20h-52z", "M6 20h52"],
    thick: ["M26 15h10v10h-10z", "M14 35h36m-33-3l-3 3 3 3M47 32l3 3-3 3"],
  },
  "pickup-drop-in": { thin: ["M4 8h56v26h-56z", "M10 14h6v14h-6zM48 14h6v14h-6z"], thick: ["M14 13h36v16h-36z"] },
  poles: {
    thin: ["M10 4L14 36M22 4L24 36M42 4L40 36M54 4L50 36"],
    thick: ["M13 18a3 3 0 1 0 .1 0M23.500 18a3 3 0 1 0 .1 0M41 18a3 3 0 1 0 .1 0M51.500 18a3 3 0 1 0 .1 0"],
  },
  pot: {
    thin: ["M4 20h18M42 20h18M4 26h18M42 26h18"],
    thick: ["M22 26h20v10h-20z", "M26 26v-14h12v14", "M30 12v-8h4v8"],
  },
  jack: {
    thin: ["M4 16h22M38 16h22M4 22h22M38 22h22"],
    thick: ["M26 8v18h12v-18z", "M22 26h20v4h-20z", "M30 30v6h4v-6"],
  },
  switch: {
    thin: ["M8 10h48v20h-48z"],
    thick: ["M16 18h32v4h-32z", "M30 20l6-14h4l-6 14", "M11 20a1.500 1.500 0 1 0 .1 0M53 20a1.500 1.500 0 1 0 .1 0"],
  },
  ohms: {
    thin: ["M12 32H4V8h8M52 32h8V8h-8"],
    thick: ["M12 8h10v-3h20v6h-20v-6M42 8h10", "M32 20a6 6 0 1 0 .1 0", "M12 32h14M38 32h14"],
  },
  thin: {
    thin: ["M4 20h56"],
    thick: ["M4 20q7 -22 14 0t14 0t14 0t14 0"],
  },
};

const OTHER = { thin: ["M6 20h52"], thick: ["M32 8a12 12 0 1 0 .1 0", "M32 4v32M16 20h32"] };

export function StarterDrawing(props: { readonly id: string }) {
  const drawing = () => DRAWINGS[props.id] ?? OTHER;
  return (
    <svg class="line-drawing" viewBox="0 0 64 40" aria-hidden="true">
      <For each={drawing().thin}>{(d) => <path class="thin" d={d} />}</For>
      <For each={drawing().thick}>{(d) => <path class="thick" d={d} />}</For>
    </svg>
  );
}
