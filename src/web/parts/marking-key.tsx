/** The signs of this drawing, told apart by line and shape. */
import { For } from "solid-js";
import { ROLES, type Role, type Scene, styleOf } from "../../core/drawing/index.ts";
import { circlePath, holeSign } from "../state/marking-paths.ts";

const HOLES: readonly Role[] = ["screw", "old hole", "plug", "post", "string hole", "new hole"];

export function MarkingKey(props: { readonly scene: Scene }) {
  const roles = () => ROLES.filter((role) => props.scene.items.some((item) => item.role === role));
  return (
    <details class="marking-key">
      <summary>What the lines and signs mean</summary>
      <ul>
        <For each={roles()}>
          {(role) => (
            <li>
              <svg viewBox="0 0 36 16" width="36" height="16" aria-hidden="true">
                {HOLES.includes(role) ? (
                  <>
                    <path class={`thing ${role.replaceAll(" ", "-")}`} d={circlePath(18, 8, 4)} />
                    <path class="thing sign" d={holeSign(role, 18, 8, 4)} />
                  </>
                ) : (
                  <path class={`thing ${role.replaceAll(" ", "-")}`} d="M2 8H34" />
                )}
              </svg>
              {saysOf(role)}
            </li>
          )}
        </For>
      </ul>
    </details>
  );
}

/** Words for the screen where they differ from those on paper. */
function saysOf(role: Role): string {
  if (role === "register line") return "where the front edge may stand";
  if (role === "neck outline") return "neck and frets";
  if (role === "part outline") return "pickup or other part";
  if (role === "old outline") return "the place first thought of, or the old part's";
  return styleOf(role).says;
}
