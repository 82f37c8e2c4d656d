export type { JobLine, Keeper, Photograph } from "./keeper.ts";
export { MOST_PHOTOGRAPH_BYTES } from "./keeper.ts";
export { createMemoryKeeper } from "./memory.ts";
export { checkedHash, photographOf, photographType } from "./photographs.ts";
