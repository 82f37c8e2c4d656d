/** The keeper of this page and the name of this device in the log. */
import { openBrowserKeeper } from "../../store/browser.ts";
import { createMemoryKeeper, type Keeper } from "../../store/index.ts";

export interface Keeping {
  readonly keeper: Keeper;
  readonly device: string;
  /** False where the browser keeps nothing: private windows, a full disk. */
  readonly lasts: boolean;
}

export async function openKeeping(): Promise<Keeping> {
  let keeper: Keeper;
  let lasts = true;
  try {
    keeper = await openBrowserKeeper();
  } catch (error) {
    console.warn("the browser's own store cannot be opened", error);
    keeper = createMemoryKeeper();
    lasts = false;
  }
  return { keeper, lasts, device: await deviceOf(keeper) };
}

/** One name a browser; a second tab open at the same time writes under one of its own. */
async function deviceOf(keeper: Keeper): Promise<string> {
  let device = await keeper.note("device");
  if (device === undefined) {
    device = newName();
    await keeper.setNote("device", device);
  }
  return (await isMine(device)) ? device : newName();
}

function newName(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(8));
  return `d${[...bytes].map((byte) => (byte % 36).toString(36)).join("")}`;
}

/** Holds the name as long as the tab is open. Where a page cannot lock (plain http) it is taken to be alone. */
function isMine(device: string): Promise<boolean> {
  const { locks } = navigator as { locks?: LockManager };
  if (!locks) return Promise.resolve(true);
  return new Promise((settle) => {
    locks
      .request(`fettle ${device}`, { ifAvailable: true }, (lock) => {
        settle(lock !== null);
        return lock === null ? undefined : new Promise<void>(() => {});
      })
      .catch(() => settle(true));
  });
}
