/**
 * `npm start`: installs and builds what is missing, says what stands in the way of the job that was worked on last, and
 * serves the page until Ctrl-C. An empty log is begun with the demo job.
 * `npm start -- my-guitar.yaml` brings that file into the log first.
 * FETTLE_PORT asks for one port, FETTLE_DATA names the folder of the log.
 */
import "./require-node.mjs";

const DEMO = "examples/ferry.yaml";

// Imported late, so that an old Node gets the message above and not a syntax error.
import("./ready.mjs").then(start).catch((error) => {
  console.error(`fettle: ${error.exitCode ? error.message : error.stack}`);
  process.exitCode = error.exitCode ?? 1;
});

async function start({ makeReady, run, ROOT }) {
  const { join, resolve } = await import("node:path");
  const { pathToFileURL } = await import("node:url");
  makeReady();

  const cli = join(ROOT, "dist", "cli", "main.js");
  const [named] = process.argv.slice(2);
  if (named) run(process.execPath, [cli, "import", resolve(process.env.INIT_CWD ?? ROOT, named)]);
  else if (isEmpty(cli)) run(process.execPath, [cli, "import", join(ROOT, DEMO)]);

  // In this process, so that Ctrl-C reaches the server itself and nothing is left running.
  const port = process.env.FETTLE_PORT;
  process.argv.splice(1, Number.POSITIVE_INFINITY, cli, "serve", ...(port ? ["--port", port] : []));
  await import(pathToFileURL(cli).href);

  function isEmpty(program) {
    const listed = run(process.execPath, [program, "jobs", "--json"], { stdio: ["ignore", "pipe", "inherit"] });
    return JSON.parse(listed).length === 0;
  }
}
