#!/usr/bin/env node
/** `npx fettle …`: makes the working copy ready if it is not, then hands over to the built program. */
import "../scripts/require-node.mjs";

// Imported late, so that an old Node gets a message and not a syntax error.
import("../scripts/ready.mjs")
  .then(({ makeReady }) => {
    makeReady();
    return import("../dist/cli/main.js");
  })
  .catch((error) => {
    console.error(`fettle: ${error.exitCode ? error.message : error.stack}`);
    process.exitCode = error.exitCode ?? 70;
  });
