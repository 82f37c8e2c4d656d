/** Appends reading after reading to a log, and names each only once it is said to be on the disk. Ended from outside. */
import { openSqliteKeeper } from "../../dist/store/sqlite.js";

const [, , path, device] = process.argv;

// Everything is loaded; the run begins when it is its turn.
process.stdout.write("ready\n");
await new Promise((resolve) => process.stdin.once("data", resolve));
const keeper = await openSqliteKeeper(path);
for (let number = 1; ; number += 1) {
  const id = `${device}.${number.toString(36).padStart(8, "0")}`;
  const at = new Date(Date.UTC(2026, 2, 1) + number).toISOString();
  const reading = { id: `r${number}`, of: "body.thickness", value: "44.5 mm (calliper)" };
  await keeper.append([
    { id, job: "lowtide", device, at, act: id, path: `/readings/#${id}`, value: reading, over: [] },
  ]);
  process.stdout.write(`${id}\n`);
}
