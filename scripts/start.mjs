/**
 * `npm start`: the demo. Says what stands in the way of one refit, then writes its papers.
 * `npm start -- examples/ferry.yaml` does the same for another job file.
 */
import "./require-node.mjs";

const DEMO = "examples/lowtide.yaml";

// Imported late, so that an old Node gets the message above and not a syntax error.
import("./ready.mjs").then(showDemo).catch((error) => {
  console.error(`fettle: ${error.exitCode ? error.message : error.stack}`);
  process.exitCode = error.exitCode ?? 1;
});

async function showDemo({ makeReady, run, tell, ROOT }) {
  const { basename, extname, join, relative, resolve } = await import("node:path");
  makeReady();

  const [named] = process.argv.slice(2);
  const file = named ? relative(ROOT, resolve(process.env.INIT_CWD ?? ROOT, named)) : DEMO;
  const out = join("out", basename(file, extname(file)));
  const cli = join(ROOT, "dist", "cli", "main.js");

  // Exit code 1 says that something is not `go`, which is what a demo is there to show.
  run(process.execPath, [cli, "assess", file], { mayEndWith: [0, 1] });
  process.stdout.write("\n");
  run(process.execPath, [cli, "papers", file, "--out", out], { mayEndWith: [0, 1] });
  tell(`the papers are in ${join(ROOT, out)}`);
}
