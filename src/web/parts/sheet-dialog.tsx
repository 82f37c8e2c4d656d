/** A slip laid over the page: the browser's own dialog, which keeps the keyboard inside and gives it back. */
import { type JSX, onCleanup, onMount } from "solid-js";

export interface SlipProps {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: JSX.Element;
}

export function Slip(props: SlipProps) {
  let dialog: HTMLDialogElement | undefined;
  const before = document.activeElement;
  onMount(() => dialog?.showModal());
  onCleanup(() => {
    if (before instanceof HTMLElement && before.isConnected) before.focus();
  });
  return (
    <dialog
      ref={(element) => {
        dialog = element;
      }}
      class="slip"
      aria-labelledby="slip-title"
      onClose={() => props.onClose()}
      onCancel={(event) => {
        event.preventDefault();
        props.onClose();
      }}
    >
      <header>
        <h2 id="slip-title">{props.title}</h2>
        <button type="button" class="quiet" onClick={() => props.onClose()}>
          Close
        </button>
      </header>
      {props.children}
    </dialog>
  );
}
