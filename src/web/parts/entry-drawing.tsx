/**
 * Where the rule lies, for each entry: what is there in thin lines, the rule or calliper heavy and dashed, its ends
 * marked. Drawn for the eye, not to scale.
 */
import { For, Show } from "solid-js";

interface Drawing {
  /** What is there. */
  readonly thin: readonly string[];
  /** What is measured. */
  readonly thick?: readonly string[];
  /** From and to of each laying of the tool: x1 y1 x2 y2. */
  readonly rules: readonly (readonly [number, number, number, number])[];
  readonly words?: readonly (readonly [number, number, string])[];
}

/** Nut at 12, fret 12 at 76, bridge at 140, three strings. */
const NECK = [
  "M12 14V46M20 14V46M28 14V46M36 14V46M44 14V46M52 14V46M60 14V46M68 14V46",
  "M12 14H100V46H12",
  "M12 20H150M12 30H150M12 40H150",
];
const NUT_AND_12 = ["M12 12V48", "M76 12V48"];
const NECK_WORDS = [
  [8, 8, "nut"],
  [68, 8, "fret 12"],
] as const;
const PLATE = ["M50 8H110V52H50z", "M8 20H100M8 30H100M8 40H100"];
const SADDLES = ["M72 16h12v8h-12zM72 26h12v8h-12zM72 36h12v8h-12z"];
/** A panel in section with a pot through it. */
const PANEL = ["M10 26H62M98 26H150M10 34H62M98 34H150", "M10 26V34M150 26V34"];
const POT = ["M62 34H98V50H62z", "M70 34V16H90V34", "M76 16V6H84V16", "M64 22H96V26H64z"];
const ROUT = ["M20 12H140V52H20z"];
const PICKUP = ["M44 18H116V46H44z", "M32 26H44V38H32zM116 26H128V38H116z"];

const DRAWINGS: Readonly<Record<string, Drawing>> = {
  "nut-12": { thin: NECK, thick: NUT_AND_12, rules: [[12, 30, 76, 30]], words: NECK_WORDS },
  travel: {
    thin: PLATE,
    thick: SADDLES,
    rules: [
      [50, 56, 70, 56],
      [50, 4, 92, 4],
    ],
    words: [
      [22, 58, "front"],
      [22, 6, "rear"],
    ],
  },
  spread: {
    thin: [...NECK, "M136 12V48h10V12z"],
    thick: ["M12 20H150", "M12 40H150"],
    rules: [
      [8, 20, 8, 40],
      [154, 20, 154, 40],
    ],
  },
  "bridge-holes": {
    thin: PLATE,
    thick: ["M98 18a2.5 2.5 0 1 0 .1 0M98 28a2.5 2.5 0 1 0 .1 0M98 38a2.5 2.5 0 1 0 .1 0"],
    rules: [
      [50, 56, 98, 56],
      [116, 20.5, 116, 30.5],
    ],
  },
  "old-holes": {
    thin: [...NECK, ...NUT_AND_12],
    thick: ["M128 18a2.5 2.5 0 1 0 .1 0M128 28a2.5 2.5 0 1 0 .1 0M128 38a2.5 2.5 0 1 0 .1 0"],
    rules: [
      [76, 54, 128, 54],
      [136, 30.5, 136, 40.5],
    ],
    words: [[68, 8, "fret 12"]],
  },
  place: {
    thin: [...NECK, ...NUT_AND_12],
    thick: ["M124 10h22v40h-22z"],
    rules: [[76, 30, 124, 30]],
    words: [[68, 8, "fret 12"]],
  },
  contacts: {
    thin: [...NECK, ...NUT_AND_12],
    thick: ["M130 16h10v8h-10zM134 26h10v8h-10zM132 36h10v8h-10z"],
    rules: [[76, 20, 134, 20]],
    words: [[68, 8, "fret 12"]],
  },
  thread: {
    thin: [...PANEL, ...POT],
    thick: ["M70 16V34H90V16"],
    rules: [
      [104, 16, 104, 34],
      [70, 12, 90, 12],
    ],
  },
  wood: { thin: PANEL, thick: ["M62 26V34M98 26V34"], rules: [[52, 26, 52, 34]] },
  hole: { thin: PANEL, thick: ["M62 26V34M98 26V34"], rules: [[62, 30, 98, 30]] },
  depth: { thin: [...PANEL, ...POT], thick: ["M62 34H98V50H62z"], rules: [[104, 34, 104, 50]] },
  room: { thin: [...PANEL, "M10 34V56H150V34"], thick: ["M10 56H150"], rules: [[80, 34, 80, 56]] },
  knob: {
    thin: ["M76 50V20H84V50"],
    thick: ["M60 10H100V30H60z"],
    rules: [[76, 36, 84, 36]],
    words: [[104, 38, "shaft"]],
  },
  pickup: {
    thin: ROUT,
    thick: PICKUP,
    rules: [
      [44, 56, 116, 56],
      [134, 18, 134, 46],
    ],
  },
  ears: {
    thin: ROUT,
    thick: PICKUP,
    rules: [
      [32, 8, 128, 8],
      [24, 26, 24, 38],
    ],
  },
  rout: {
    thin: PICKUP,
    thick: ROUT,
    rules: [
      [20, 56, 140, 56],
      [146, 12, 146, 52],
    ],
  },
  "ear-rout": {
    thin: [...PICKUP, "M20 22H32V42H20zM128 22H140V42H128z"],
    thick: ["M32 14H128V50H32z"],
    rules: [
      [20, 56, 140, 56],
      [146, 22, 146, 42],
    ],
  },
  thickness: { thin: ["M14 18H146V44H14z"], thick: ["M14 18H146M14 44H146"], rules: [[80, 18, 80, 44]] },
  poles: {
    thin: PICKUP,
    thick: ["M54 29a3 3 0 1 0 .1 0M72 29a3 3 0 1 0 .1 0M88 29a3 3 0 1 0 .1 0M106 29a3 3 0 1 0 .1 0"],
    rules: [[54, 52, 106, 52]],
  },
  row: { thin: NECK, thick: ["M108 12V48M112 12V48", ...NUT_AND_12], rules: [[76, 30, 110, 30]], words: NECK_WORDS },
  slant: { thin: ["M14 20H146M14 30H146M14 40H146"], thick: ["M84 8L72 52"], rules: [[84, 8, 84, 52]] },
  "old-slot": { thin: ["M10 10H150V50H10z"], thick: ["M50 28H110V32H50z"], rules: [[50, 40, 110, 40]] },
  "new-slot": { thin: ["M36 20H124V40H36z"], thick: ["M54 28H106V32H54z"], rules: [[54, 46, 106, 46]] },
  "screw-holes": {
    thin: ["M50 28H110V32H50z"],
    thick: ["M38 27a3 3 0 1 0 .1 0M122 27a3 3 0 1 0 .1 0"],
    rules: [[38, 42, 122, 42]],
  },
  size: {
    thin: ["M30 16H130"],
    thick: ["M46 16H114V48H46z"],
    rules: [
      [120, 16, 120, 48],
      [46, 54, 114, 54],
    ],
  },
};

export function EntryDrawing(props: { readonly id: string }) {
  return (
    <Show when={DRAWINGS[props.id]}>
      {(drawing) => (
        <svg class="line-drawing entry-drawing" viewBox="0 0 160 62" aria-hidden="true">
          <For each={drawing().thin}>{(d) => <path class="thin" d={d} />}</For>
          <For each={drawing().thick ?? []}>{(d) => <path class="thick" d={d} />}</For>
          <For each={drawing().rules}>{(rule) => <Rule ends={rule} />}</For>
          <For each={drawing().words ?? []}>
            {([x, y, text]) => (
              <text x={x} y={y}>
                {text}
              </text>
            )}
          </For>
        </svg>
      )}
    </Show>
  );
}

/** A dimension line: witness ticks and an arrowhead at each end. */
function Rule(props: { readonly ends: readonly [number, number, number, number] }) {
  const path = (): string => {
    const [x1, y1, x2, y2] = props.ends;
    const along = Math.hypot(x2 - x1, y2 - y1) || 1;
    const [ux, uy] = [(x2 - x1) / along, (y2 - y1) / along];
    const head = (x: number, y: number, way: number) =>
      `M${x - uy * 4} ${y + ux * 4}L${x + uy * 4} ${y - ux * 4}M${x + way * ux * 3 - uy * 1.4} ${y + way * uy * 3 + ux * 1.4}L${x} ${y}L${x + way * ux * 3 + uy * 1.4} ${y + way * uy * 3 - ux * 1.4}`;
    return `M${x1} ${y1}L${x2} ${y2}${head(x1, y1, 1)}${head(x2, y2, -1)}`;
  };
  return <path class="rule" d={path()} />;
}
