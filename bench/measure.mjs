/** Shared by the benchmarks. */
import { readFileSync } from "node:fs";
import { parse } from "yaml";
import { loadJob } from "../dist/core/index.js";

export const JOBS = ["lowtide", "ferry"];

export function load(name) {
  return loadJob(parse(readFileSync(new URL(`../examples/${name}.yaml`, import.meta.url), "utf8")));
}

export function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)];
}

export function timed(work) {
  const start = performance.now();
  work();
  return performance.now() - start;
}

export async function timedAsync(work) {
  const start = performance.now();
  await work();
  return performance.now() - start;
}

export function ms(value) {
  return value >= 1000 ? `${(value / 1000).toFixed(2)} s` : `${value.toFixed(value < 10 ? 2 : 0)} ms`;
}

export function table(rows) {
  const lines = [["what", "this program", "peer", "ratio", "goal", "met"]];
  for (const { what, own, peer, against, goal, show = ms } of rows) {
    lines.push([
      what,
      show(own),
      peer === undefined ? "" : `${ms(peer)} ${against}`,
      peer === undefined ? "" : (peer / own).toFixed(1),
      goal === undefined ? "" : show(goal),
      goal === undefined ? "" : own <= goal ? "yes" : "no",
    ]);
  }
  const widths = lines[0].map((_, column) => Math.max(...lines.map((line) => line[column].length)));
  return lines
    .map((line) =>
      line
        .map((cell, column) => cell.padEnd(widths[column]))
        .join("  ")
        .trimEnd(),
    )
    .join("\n");
}

/** A dependency's version; read from its folder, as not every package exports its description. */
export function versionOf(name) {
  return JSON.parse(readFileSync(new URL(`../node_modules/${name}/package.json`, import.meta.url), "utf8")).version;
}
