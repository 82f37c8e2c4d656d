/** What is wrong, where, and what to do about it. */
import { Show } from "solid-js";
import type { Trouble } from "../state/desk.ts";

export function TroubleNote(props: { readonly trouble: Trouble | undefined; readonly onClear?: () => void }) {
  return (
    <Show when={props.trouble}>
      {(trouble) => (
        <div class="trouble" role="alert">
          <p>
            <strong>{capital(trouble().where)}</strong> {trouble().problem}. {trouble().remedy}.
          </p>
          <Show when={props.onClear}>
            {(clear) => (
              <button type="button" class="quiet" onClick={() => clear()()}>
                Put aside
              </button>
            )}
          </Show>
        </div>
      )}
    </Show>
  );
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
