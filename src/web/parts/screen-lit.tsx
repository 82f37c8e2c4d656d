/** Keeps the screen lit while somebody works with both hands; says so where the browser cannot. */
import { createSignal, onCleanup, Show } from "solid-js";

export function ScreenLit() {
  const [lit, setLit] = createSignal(false);
  const [refused, setRefused] = createSignal(false);
  let lock: WakeLockSentinel | undefined;

  const light = async (): Promise<void> => {
    try {
      lock = await navigator.wakeLock.request("screen");
      setLit(true);
    } catch {
      // A browser short of battery says no.
      setRefused(true);
    }
  };
  const leave = (): void => {
    setLit(false);
    void lock?.release();
    lock = undefined;
  };
  // A page that was out of sight has lost its lock.
  const seenAgain = (): void => {
    if (document.visibilityState === "visible" && lit()) void light();
  };
  document.addEventListener("visibilitychange", seenAgain);
  onCleanup(() => {
    document.removeEventListener("visibilitychange", seenAgain);
    leave();
  });
  return (
    <Show
      when={"wakeLock" in navigator && !refused()}
      fallback={
        <p class="screen-dark">
          This browser cannot keep the screen lit here: give the device a longer time before it goes dark.
        </p>
      }
    >
      <button type="button" class="screen-lit" aria-pressed={lit()} onClick={() => (lit() ? leave() : void light())}>
        {lit() ? "The screen stays lit" : "Keep the screen lit"}
      </button>
    </Show>
  );
}
