/** `npm run bench`: builds what is missing, then measures. See bench/README.md. */
import "./require-node.mjs";

import("./ready.mjs")
  .then(({ makeReady, run, ROOT }) => {
    makeReady();
    run(process.execPath, [`${ROOT}/bench/bench.mjs`]);
  })
  .catch((error) => {
    console.error(error.stack);
    process.exitCode = 1;
  });
