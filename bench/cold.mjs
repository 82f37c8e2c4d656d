/** First assessment of a fresh process, in ms; the job file is read and resolved before the clock starts. */
import { assess } from "../dist/core/index.js";
import { load, timed } from "./measure.mjs";

const job = load(process.argv[2]);
console.log(timed(() => assess(job)));
