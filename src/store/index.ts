export type { JobLine, JobsWanted, Keeper, Photograph } from "./keeper.ts";
export { MOST_PHOTOGRAPH_BYTES } from "./keeper.ts";
export { createMemoryKeeper } from "./memory.ts";
export { checkedHash, photographOf } from "./photographs.ts";
