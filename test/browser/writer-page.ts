/** Put into an empty page by the kill test: writes readings one after the other and says each id once it is kept. */
import { createFold, entriesFor } from "../../src/core/log/index.ts";
import { openBrowserKeeper } from "../../src/store/browser.ts";

export async function writeOnAndOn(device: string, said: (id: string) => void): Promise<void> {
  const keeper = await openBrowserKeeper("kill");
  for (let number = 0; ; number += 1) {
    const stamp = { job: "J1", device, from: number, at: new Date().toISOString() };
    const [entry] = entriesFor(createFold(), stamp, "read", [{ path: `/notes/${device}-${number}`, value: number }]);
    if (!entry) return;
    await keeper.append([entry]);
    said(entry.id);
  }
}

export async function keptIds(): Promise<string[]> {
  const keeper = await openBrowserKeeper("kill");
  const ids = (await keeper.entriesOf("J1")).map(({ id }) => id);
  await keeper.close();
  return ids;
}
