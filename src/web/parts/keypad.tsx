/** Figures by thumb: digits, the signs of a fraction and of a running line. It types where the cursor stands. */
import { For } from "solid-js";

const KEYS = ["7", "8", "9", "½", "4", "5", "6", "¼", "1", "2", "3", "⅛", "0", ".", "/", "1/16"] as const;

export interface KeypadProps {
  readonly input: () => HTMLInputElement | undefined;
}

export function Keypad(props: KeypadProps) {
  const type = (text: string): void => {
    const input = props.input();
    if (!input) return;
    const { selectionStart, selectionEnd, value } = input;
    const at = selectionStart ?? value.length;
    // A fraction behind a digit is a mixed number: 25 1/2.
    const gap = text.length > 1 || "½¼⅛".includes(text) ? (/\d$/.test(value.slice(0, at)) ? " " : "") : "";
    input.setRangeText(`${gap}${text}`, at, selectionEnd ?? at, "end");
    input.dispatchEvent(new InputEvent("input", { bubbles: true }));
  };
  const takeOff = (): void => {
    const input = props.input();
    if (!input) return;
    const at = input.selectionStart ?? input.value.length;
    if (at === 0) return;
    input.setRangeText("", at - 1, input.selectionEnd ?? at, "end");
    input.dispatchEvent(new InputEvent("input", { bubbles: true }));
  };
  return (
    <fieldset class="keypad" aria-label="Keys for figures">
      <For each={KEYS}>
        {(key) => (
          <button type="button" onClick={() => type(key)}>
            {key}
          </button>
        )}
      </For>
      <button type="button" class="broad" onClick={() => type(" ")} aria-label="Space between figures">
        space
      </button>
      <button type="button" onClick={() => type("-")} aria-label="minus">
        −
      </button>
      <button type="button" onClick={takeOff} aria-label="Take off the last sign">
        ⌫
      </button>
    </fieldset>
  );
}
