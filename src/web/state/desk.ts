/**
 * The job that lies open: its log, what it folds to, and every answer about it. One place writes: the entries go to this
 * page's keeper, are shown at once, and count as kept when the keeper has them on the disk.
 */
import { createMemo, createSignal } from "solid-js";
import { type Briefing, briefing } from "../../core/briefing/index.ts";
import { assess, createLedger, InputError, type Job, loadJob } from "../../core/index.ts";
import type { Instrument } from "../../core/job/index.ts";
import {
  actsOf,
  type Change,
  createFold,
  entriesFor,
  type Fold,
  type Json,
  type LogEntry,
  nextToRedo,
  nextToUndo,
  numberOf,
  type Stamp,
  takeBack,
} from "../../core/log/index.ts";
import type { Verdict } from "../../core/verdict/index.ts";
import type { Keeping } from "./keeping.ts";

export type Kept = "nothing new" | "being kept" | "kept" | "not kept";

export interface Trouble {
  readonly where: string;
  readonly problem: string;
  readonly remedy: string;
}

export type Desk = ReturnType<typeof createDesk>;

export function createDesk(keeping: Keeping) {
  const { keeper, device } = keeping;
  const [jobId, setJobId] = createSignal<string>();
  const [fold, setFold] = createSignal<Fold>(createFold(), { equals: false });
  const [kept, setKept] = createSignal<Kept>("nothing new");
  const [trouble, setTrouble] = createSignal<Trouble>();
  let lastNumber = 0;
  const listeners = new Set<() => void>();
  const tabs = "BroadcastChannel" in globalThis ? new BroadcastChannel("fettle") : undefined;

  const [now, setNow] = createSignal(new Date().toISOString());
  setInterval(() => setNow(new Date().toISOString()), 30_000);
  /** Glue takes its hours: the job is looked at anew when another one has gone by. */
  const hour = createMemo(() => `${now().slice(0, 13)}:00Z`);

  const folded = createMemo(() => fold().read());
  const data = () => folded().data;
  const ledger = createLedger<Instrument>();

  /** The last document that could be read stays on the page while a new one is refused. */
  const read = createMemo<{ job?: Job; refused?: Trouble }>((before) => {
    if (fold().entries.size === 0) return {};
    try {
      return { job: loadJob(data(), hour()) };
    } catch (error) {
      const refused = troubleOf(error);
      return before.job ? { job: before.job, refused } : { refused };
    }
  }, {});
  const job = createMemo(() => read().job);
  const verdicts = createMemo<readonly Verdict[]>(() => {
    const present = job();
    return present ? assess(present, ledger) : [];
  });
  const brief = createMemo<Briefing>(() => briefing(verdicts()));
  const acts = createMemo(() => actsOf(fold()));

  function stamp(job: string): Stamp {
    const { latest } = fold();
    const time = Math.max(Date.now(), latest === "" ? 0 : Date.parse(latest));
    return { job, device, from: Math.max(Date.now(), lastNumber + 1), at: new Date(time).toISOString() };
  }

  async function open(id: string): Promise<void> {
    if (jobId() === id) return;
    const entries = await keeper.entriesOf(id);
    setTrouble(undefined);
    setKept("nothing new");
    setJobId(id);
    setFold(createFold(entries));
  }

  /** Shown at once, settled when it is on the disk. */
  async function keep(entries: readonly LogEntry[]): Promise<boolean> {
    if (entries.length === 0) return true;
    lastNumber = Math.max(lastNumber, ...entries.map(numberOf));
    fold().add(entries);
    setFold(fold());
    setKept("being kept");
    try {
      await keeper.append(entries);
      setKept("kept");
      tabs?.postMessage(entries[0]?.job);
      for (const listener of listeners) listener();
      return true;
    } catch (error) {
      setKept("not kept");
      setTrouble({
        where: "this browser's store",
        problem: `did not keep the last change (${error instanceof Error ? error.message : String(error)})`,
        remedy: "Save the job as a file now, then make room on the disk and try again",
      });
      return false;
    }
  }

  function write(words: string, ...changes: Change[]): Promise<boolean> {
    const id = jobId();
    if (id === undefined) return Promise.resolve(false);
    return keep(entriesFor(fold(), stamp(id), words, changes));
  }

  /**
   * Writes only what leaves a job that can be read: what is refused never gets into the log.
   *
   * @returns what is wrong with it
   */
  async function writeIfRead(words: string, ...changes: Change[]): Promise<Trouble | undefined> {
    const id = jobId();
    if (id === undefined) return undefined;
    const entries = entriesFor(fold(), stamp(id), words, changes);
    try {
      loadJob(createFold([...fold().entries.values(), ...entries]).read().data);
    } catch (error) {
      return troubleOf(error);
    }
    await keep(entries);
    return undefined;
  }

  /** A new job from a whole document; opens it. */
  async function begin(id: string, words: string, document: Json): Promise<boolean> {
    const fresh = createFold(await keeper.entriesOf(id));
    setJobId(id);
    setFold(fresh);
    return keep(entriesFor(fresh, stamp(id), words, [{ path: "", value: document }]));
  }

  function turnBack(which: typeof nextToUndo, words: string): Promise<boolean> {
    const id = jobId();
    const act = which(fold(), acts(), device);
    if (id === undefined || act === undefined) return Promise.resolve(false);
    return keep(takeBack(fold(), act, stamp(id), `${words}: ${act.words}`).entries);
  }

  /** Entries that came from another tab or from the bench computer. */
  async function refresh(): Promise<void> {
    const id = jobId();
    if (id === undefined) return;
    if (fold().add(await keeper.entriesOf(id)) > 0) setFold(fold());
  }
  if (tabs) tabs.onmessage = ({ data: changed }) => void (changed === jobId() && refresh());

  return {
    keeping,
    jobId,
    fold,
    data,
    disputes: () => folded().disputes,
    job,
    refused: () => read().refused,
    verdicts,
    brief,
    /** The present, to half a minute. */
    now,
    acts,
    kept,
    trouble,
    clearTrouble: () => setTrouble(undefined),
    open,
    write,
    writeIfRead,
    begin,
    refresh,
    undo: () => turnBack(nextToUndo, "taken back"),
    redo: () => turnBack(nextToRedo, "done again"),
    undoable: createMemo(() => nextToUndo(fold(), acts(), device)),
    redoable: createMemo(() => nextToRedo(fold(), acts(), device)),
    /** Called after every change that was kept here. */
    onKept: (listener: () => void) => {
      listeners.add(listener);
    },
  };
}

export function troubleOf(error: unknown): Trouble {
  if (error instanceof InputError) return { where: error.where, problem: error.problem, remedy: error.remedy };
  throw error;
}
