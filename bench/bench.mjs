/** Speed as ratios against general-purpose peers in the same run. See README.md in this folder. */
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { parse } from "yaml";
import { createLedger } from "../dist/core/index.js";
import { circuitBench } from "./circuit.mjs";
import { JOBS, load, median, ms, table, timed } from "./measure.mjs";
import { oddsBench } from "./odds.mjs";
import { pageBench } from "./page.mjs";
import { papersBench } from "./papers.mjs";
import { searchBench } from "./search.mjs";
import { storeBench } from "./store.mjs";

const { assess, loadJob } = await import("../dist/core/index.js");
const rows = [];

for (const name of JOBS) {
  const cold = Array.from({ length: 5 }, () =>
    Number(
      execFileSync(process.execPath, [fileURLToPath(new URL("./cold.mjs", import.meta.url)), name], {
        encoding: "utf8",
      }),
    ),
  );
  rows.push({ what: `${name}: all questions, cold`, own: median(cold), goal: 150 });
}

const EDITS = {
  "body thickness": (data) => {
    data.instrument.body.thickness = "44.6 mm (calliper)";
  },
  "wood at a control": (data) => {
    Object.values(data.instrument.controls)[0].wood = "6.1 mm (calliper)";
  },
  "one saddle's range": (data) => {
    const [saddle] = Object.values(data.parts).find((part) => part.kind === "bridge").saddles;
    saddle.to = Number.parseFloat(saddle.to) + 0.3;
  },
  "the scale line carried over": (data) => {
    data.readings.find((reading) => reading.id === "line-carried").value = data.readings
      .find((reading) => reading.id === "line-carried")
      .value.replace(".0 ", ".1 ");
  },
};

for (const name of JOBS) {
  const before = load(name);
  for (const [edit, change] of Object.entries(EDITS)) {
    const data = parse(readFileSync(new URL(`../examples/${name}.yaml`, import.meta.url), "utf8"));
    change(data);
    const after = loadJob(data);
    const own = median(
      Array.from({ length: 15 }, () => {
        const ledger = createLedger();
        assess(before, ledger);
        return timed(() => assess(after, ledger));
      }),
    );
    const peer = median(Array.from({ length: 5 }, () => timed(() => assess(after))));
    rows.push({ what: `${name}: one edit (${edit})`, own, peer, against: "asked anew, no memo", goal: 16 });
  }
}

rows.push(
  ...oddsBench(),
  ...(await circuitBench()),
  ...searchBench(),
  ...(await papersBench()),
  ...(await storeBench()),
  ...(await pageBench()),
);
console.log(table(rows));
console.log(
  `\n${process.version}, ${ms(performance.now())} in all. Ratios above 1: this program is that many times quicker than the peer.`,
);
