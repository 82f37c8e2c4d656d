/** Everything that lies on the sheet, drawn once in its own mm; only the plate's group moves while it is dragged. */
import { createMemo, For, Show } from "solid-js";
import { type Item, ROLES } from "../../core/drawing/index.ts";
import type { MarkingOut } from "../../core/sheets/index.ts";
import { circlePath, holeSign, pathOf } from "../state/marking-paths.ts";

export interface ThingsProps {
  readonly sheet: MarkingOut;
  /** How far the plate stands from where the papers have it. */
  readonly movedMm: number;
  /** Old holes that are plugged, or have to be where the plate stands now, with the plug's diameter. */
  readonly plugs: ReadonlyMap<string, number>;
}

export function Things(props: ThingsProps) {
  const moving = createMemo(() => new Set(props.sheet.plate?.itemIds));
  const still = createMemo(() =>
    [...props.sheet.scene.items]
      .filter(({ id, role }) => !moving().has(id) && role !== "plug")
      .sort((a, b) => ROLES.indexOf(a.role) - ROLES.indexOf(b.role)),
  );
  const plate = createMemo(() => props.sheet.scene.items.filter(({ id }) => moving().has(id)));
  const old = createMemo(() => props.sheet.scene.items.filter(({ role }) => role === "old hole"));
  return (
    <>
      <For each={still()}>{(item) => <Thing item={item} />}</For>
      <For each={old()}>
        {(item) => (
          <Show when={props.plugs.get(item.id)}>{(diameter) => <Plug item={item} diameter={diameter()} />}</Show>
        )}
      </For>
      <g transform={`translate(${props.movedMm} 0)`} class="moving">
        <For each={plate()}>{(item) => <Thing item={item} />}</For>
      </g>
    </>
  );
}

function Thing(props: { readonly item: Item }) {
  const { geometry, role, id } = props.item;
  const sign =
    geometry.kind === "hole" ? holeSign(role, geometry.centre.x, geometry.centre.y, geometry.diameterMm / 2) : "";
  const kind = id.startsWith("fret-") ? "fret" : id.includes("-pole-") ? "pole" : role.replaceAll(" ", "-");
  return (
    <>
      <path class={`thing ${kind}`} d={pathOf(geometry)} />
      {sign === "" ? null : <path class="thing sign" d={sign} />}
    </>
  );
}

function Plug(props: { readonly item: Item; readonly diameter: number }) {
  const path = () => {
    const { geometry } = props.item;
    if (geometry.kind !== "hole") return "";
    const { x, y } = geometry.centre;
    return circlePath(x, y, props.diameter / 2) + holeSign("plug", x, y, props.diameter / 2);
  };
  return <path class="thing plug" d={path()} />;
}
