/** Verdicts in the order in which a person should hear them, and work in words: for the page, the command line and paper. */
export { workInWords } from "./work-in-words.ts";
export { type Briefing, bestRemedy, briefing, type NextAction, worstFirst } from "./worst-first.ts";
