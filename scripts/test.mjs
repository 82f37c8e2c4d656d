/**
 * `npm test`: every check there is, in the order of what is cheapest to mend. Stops at the first step that fails.
 * `npm test -- fit bridge` runs only the tests whose path holds one of the words.
 * The last line is always `N passed, N failed`, counting single tests.
 */
import "./require-node.mjs";

// Imported late, so that an old Node gets the message above and not a syntax error.
import("./ready.mjs").then(runAll).catch((error) => {
  console.error(error.stack);
  process.exitCode = 1;
});

async function runAll(tools) {
  const { makeReady, moduleFile, run, ROOT, StepFailed } = tools;
  const ready = async () => {
    makeReady();
    (await import("./browser.mjs")).ensureBrowser();
  };
  const { readFileSync, rmSync } = await import("node:fs");
  const { join } = await import("node:path");
  const words = process.argv.slice(2);
  const report = join(ROOT, "node_modules", ".fettle-tests.json");
  const node = (file, ...args) => run(process.execPath, [moduleFile(file), ...args]);
  const tsc = (project) => node("typescript/bin/tsc", "--noEmit", "-p", project);

  const checks = [
    ["Types: the core, with no files, clock, network or page to lean on", () => tsc("tsconfig.core.json")],
    ["Types: everything", () => tsc("tsconfig.test.json")],
    ["Types: the page", () => tsc("tsconfig.web.json")],
    ["Format and lint", () => node("@biomejs/biome/bin/biome", "check", "--error-on-warnings", ".")],
    ["Nothing unused", () => node("knip/bin/knip.js", "--no-progress")],
  ];
  const tests = [
    words.length ? `Tests: ${words.join(", ")}` : "Tests",
    () => {
      const outputs = ["--reporter=default", "--reporter=json", `--outputFile.json=${report}`];
      node("vitest/vitest.mjs", "run", ...outputs, ...words);
    },
  ];

  rmSync(report, { force: true });
  const steps = [["Ready: packages, build and a browser", ready], ...(words.length ? [] : checks), tests];
  const started = Date.now();
  for (const [title, step] of steps) {
    console.log(`\n== ${title}`);
    try {
      await step();
    } catch (error) {
      if (!(error instanceof StepFailed)) throw error;
      console.log(`\n== Stopped: ${error.message}`);
      process.exitCode = 1;
      break;
    }
  }

  const { passed, failed, skipped } = countTests(report, readFileSync, process.exitCode === 1);
  console.log(`\n== ${process.exitCode ? "Not well" : "All well"}, ${Math.round((Date.now() - started) / 1000)} s`);
  if (skipped) console.log(`${skipped} skipped`);
  console.log(`${passed} passed, ${failed} failed`);
}

/** A step that stopped before or outside the tests is one failure, so that the last line never looks well when it is not. */
function countTests(report, readFileSync, stopped) {
  let summary = { numPassedTests: 0, numFailedTests: 0, numPendingTests: 0, numTodoTests: 0 };
  try {
    summary = JSON.parse(readFileSync(report, "utf8"));
  } catch {
    // The tests were not reached.
  }
  const failed = summary.numFailedTests || (stopped ? 1 : 0);
  return { passed: summary.numPassedTests, failed, skipped: summary.numPendingTests + summary.numTodoTests };
}
