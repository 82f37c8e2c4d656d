/** What a page from another computer over plain http cannot do, and what to do instead. */
import { Show } from "solid-js";

const overPlainHttp = location.protocol === "http:" && !globalThis.isSecureContext;

export function PlainHttp() {
  return (
    <Show when={overPlainHttp}>
      <aside class="plain-http" aria-label="What this address allows">
        <p>
          <strong>This page came over plain http.</strong> Here the browser gives it no microphone, cannot keep the
          screen lit, and does not install it or open it without the network. All else works: readings, drawings,
          papers, and photographs by the button that takes a picture. Save the job as a file before you leave the house.
        </p>
      </aside>
    </Show>
  );
}
