/** Figures by thumb: digits, the signs of a fraction and of a running line. It types where the cursor stands. */
import { For } from "solid-js";

const KEYS = ["7", "8", "9", "½", "4", "5", "6", "¼", "1", "2", "3", "⅛", "0", ".", "/", "1/16"] as const;
/** Signs of a row of holes and the unit of an inch rule, as they are read: "34: 5 at 10.5", "12 1/2 in". */
const SIGNS = [":", "at", ";", "in"] as const;

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
    const apart = text.length > 1 || "½¼⅛".includes(text);
    const before = value.slice(0, at);
    const gap = (apart && /[\d½¼⅛]$/.test(before)) || (/^\d/.test(text) && /[a-z]$/.test(before)) ? " " : "";
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
      <For each={SIGNS}>
        {(sign) => (
          <button type="button" onClick={() => type(sign)}>
            {sign}
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
