export { isDontKnow } from "./answers.ts";
export { growJob, STARTERS } from "./grow.ts";
export { readHoleRows } from "./hole-rows.ts";
export type { Answers, Entry, EntryKind, GrownJob, Starter } from "./types.ts";
export { type WeakestValue, weakestValue } from "./weakest.ts";
