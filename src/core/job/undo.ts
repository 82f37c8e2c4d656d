/**
 * Which operations of a log hold once its undos are heeded.
 *
 * An undo names an entry above it. Undoing an operation takes it away, unless a later one stands on what it made;
 * undoing an undo brings back what that took away, and so on up the chain.
 */
import { InputError } from "../errors.ts";
import type { LogEntry, Operation, Undo } from "./operation.ts";

/** Operation → what it leans on: the operation that made the thing, and the thing. */
export type Leans = ReadonlyMap<string, ReadonlyMap<string, string>>;

/**
 * The operations that hold, in the order of the log.
 *
 * @param leansOf what each of some operations leans on, by folding them. It is called once for all the undos that follow
 *   one another: what is taken away is leant on by nobody, so that the others lean on what they leant on before
 * @throws InputError naming both, for an undo of something that a later operation stands on
 */
export function liveOperations(log: readonly LogEntry[], leansOf: (live: readonly Operation[]) => Leans): Operation[] {
  const before = new Map<string, LogEntry>();
  const undone = new Set<string>();
  let leans: Map<string, ReadonlyMap<string, string>> | undefined;

  function live(): Operation[] {
    return [...before.values()].filter((entry): entry is Operation => !isUndo(entry) && !undone.has(entry.id));
  }

  function takeAway(entry: LogEntry, where: string): void {
    if (isUndo(entry)) bringBack(targetOf(entry), where);
    else {
      leans ??= new Map(leansOf(live()));
      refuseIfStoodOn(leans, entry, where);
      leans.delete(entry.id);
    }
    undone.add(entry.id);
  }

  function bringBack(entry: LogEntry, where: string): void {
    undone.delete(entry.id);
    if (isUndo(entry)) takeAway(targetOf(entry), where);
    else leans = undefined;
  }

  /** The entry that an earlier undo named; it was there when that undo was heeded. */
  function targetOf(undo: Undo): LogEntry {
    const target = before.get(undo.undoes);
    if (!target) throw new Error(`undo "${undo.id}" of nothing`);
    return target;
  }

  for (const [index, entry] of log.entries()) {
    if (isUndo(entry)) {
      const where = `operations[${index}].undoes`;
      const target = before.get(entry.undoes);
      if (!target)
        throw new InputError(
          where,
          `there is no earlier operation "${entry.undoes}"`,
          "Name an operation that stands above it in the log",
        );
      if (undone.has(target.id))
        throw new InputError(
          where,
          `"${target.id}" is undone already`,
          "Undo the entry that undid it to bring it back",
        );
      takeAway(target, where);
    } else leans = undefined;
    before.set(entry.id, entry);
  }
  return live();
}

function refuseIfStoodOn(all: Leans, target: Operation, where: string): void {
  for (const [id, leans] of all) {
    const thing = leans.get(target.id);
    if (thing === undefined) continue;
    throw new InputError(where, `"${id}" stands on what "${target.id}" made (${thing})`, `Undo "${id}" first`);
  }
}

function isUndo(entry: LogEntry): entry is Undo {
  return "undoes" in entry;
}
