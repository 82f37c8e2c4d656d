export { checkedEntry, isJobId } from "./check.ts";
export { type Change, entriesFor, numberOf, sameJson } from "./edits.ts";
export { createFold, type Fold, inOrder } from "./fold.ts";
export { type Act, actsOf, foldUntil, nextToRedo, nextToUndo, type TakenBack, takeBack } from "./history.ts";
export { documentOf, leavesOf } from "./leaves.ts";
export { covers, isItem, itemKey, keysOf, mapKey, pathOf, plainKey, RANK } from "./paths.ts";
export { rankBetween } from "./rank.ts";
export { sha256 } from "./sha256.ts";
export type { Dispute, Json, LogEntry, Stamp } from "./types.ts";
