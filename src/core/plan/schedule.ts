/**
 * Least elapsed time for one worker with waits.
 *
 * Model: 1 | prec(l) | Cmax. Each task is done without a break by the one worker; a lag l from a to b means that b
 * starts no earlier than l after a is finished (glue cures, strings settle); the worker does other tasks meanwhile.
 * Left out: nights and meals, a second worker, tasks that could be left half done.
 * Method: list scheduling for a first order, then branch and bound over orders with earliest starts; the bound lets
 * the remaining tasks interrupt each other (Jackson's preemptive rule with heads and tails), and a task is never put
 * next where another one could be finished before it can start. The problem with unequal lags is NP-hard, so the
 * search stops after a fixed number of orders and says so.
 * Source: definitions and the rule of the longest tail: Brucker & Knust, complexity results for scheduling problems,
 * 1999 (published); bound and dominance: standard results (from memory), proved against full enumeration in the tests.
 */
import { InputError } from "../errors.ts";

export interface Task {
  readonly id: string;
  readonly minutes: number;
  /** After its end nothing more is done, but this long has to pass. 0 if left out. */
  readonly tailMinutes?: number;
}

export interface Lag {
  readonly before: string;
  readonly after: string;
  readonly minutes: number;
}

export interface Schedule {
  readonly order: readonly string[];
  readonly starts: Readonly<Record<string, number>>;
  readonly elapsedMinutes: number;
  /** The search proved that no order is shorter. */
  readonly shortest: boolean;
}

const NODE_LIMIT = 60_000;

/**
 * @param tasks in the order preferred where it costs no time
 * @throws InputError for a lag that names no task, a negative time, or lags that run in a ring
 * @example schedule([{ id: "glue", minutes: 10 }, { id: "drill", minutes: 5 }, { id: "wire", minutes: 60 }], [{ before: "glue", after: "drill", minutes: 60 }]).order // glue, wire, drill
 */
export function schedule(
  tasks: readonly Task[],
  lags: readonly Lag[],
  options: { readonly nodeLimit?: number } = {},
): Schedule {
  const problem = compile(tasks, lags);
  const bound = lowerBound(problem, start(problem));
  // The preferred order first: of two orders as short, the one a bench would take unasked.
  const byPreference = listOrder(problem, (index) => index);
  const byTail = listOrder(problem, (index) => -at(problem.tails, index));
  const first = byPreference.elapsed <= byTail.elapsed ? byPreference : byTail;
  const found =
    first.elapsed <= bound
      ? { best: first, complete: true }
      : branchAndBound(problem, first, bound, options.nodeLimit ?? NODE_LIMIT);
  const { order, elapsed } = found.best;
  return {
    order: order.map((index) => idOf(problem, index)),
    starts: startsOf(problem, order),
    elapsedMinutes: elapsed,
    shortest: found.complete,
  };
}

interface Edge {
  readonly to: number;
  readonly lag: number;
}

interface Problem {
  readonly tasks: readonly Task[];
  readonly after: readonly (readonly Edge[])[];
  readonly before: readonly number[];
  /** From a task's start, the least time to the end of everything, its own minutes included. */
  readonly tails: readonly number[];
  /** Indices so that each task stands behind those it needs. */
  readonly sorted: readonly number[];
}

interface State {
  readonly time: number;
  readonly end: number;
  /** Earliest start as far as the tasks done so far say. */
  readonly release: readonly number[];
  readonly waiting: readonly number[];
  readonly done: readonly number[];
}

interface Found {
  readonly order: readonly number[];
  readonly elapsed: number;
}

function compile(tasks: readonly Task[], lags: readonly Lag[]): Problem {
  const indexOf = new Map(tasks.map((task, index) => [task.id, index]));
  tasks.forEach((task, index) => {
    if (indexOf.get(task.id) !== index)
      throw new InputError(`tasks[${index}].id`, `"${task.id}" stands twice`, "Give each task an id of its own");
    if (!(task.minutes >= 0 && (task.tailMinutes ?? 0) >= 0))
      throw new InputError(
        `tasks[${index}].minutes`,
        `must be 0 minutes or more, got ${task.minutes}`,
        "State how long it takes",
      );
  });
  const after: Edge[][] = tasks.map(() => []);
  const before = tasks.map(() => 0);
  lags.forEach((lag, index) => {
    const [from, to] = [indexOf.get(lag.before), indexOf.get(lag.after)];
    if (from === undefined || to === undefined)
      throw new InputError(
        `lags[${index}]`,
        `"${from === undefined ? lag.before : lag.after}" is not a task`,
        "Name tasks that are there",
      );
    if (!(lag.minutes >= 0))
      throw new InputError(
        `lags[${index}].minutes`,
        `must be 0 minutes or more, got ${lag.minutes}`,
        "State how long to wait",
      );
    after[from]?.push({ to, lag: lag.minutes });
    before[to] = at(before, to) + 1;
  });
  const sorted = topological(tasks, after, before);
  const tails = tasks.map(() => 0);
  for (const index of [...sorted].reverse()) {
    const task = at(tasks, index);
    const rest = at(after, index).map((edge) => edge.lag + at(tails, edge.to));
    tails[index] = task.minutes + Math.max(task.tailMinutes ?? 0, ...rest);
  }
  return { tasks, after, before, tails, sorted };
}

function topological(tasks: readonly Task[], after: readonly (readonly Edge[])[], before: readonly number[]): number[] {
  const left = [...before];
  const ready = tasks.map((_, index) => index).filter((index) => left[index] === 0);
  const sorted: number[] = [];
  for (let next = ready.shift(); next !== undefined; next = ready.shift()) {
    sorted.push(next);
    for (const { to } of at(after, next)) {
      left[to] = at(left, to) - 1;
      if (left[to] === 0) ready.push(to);
    }
  }
  if (sorted.length === tasks.length) return sorted;
  const ring = tasks.filter((_, index) => !sorted.includes(index)).map((task) => task.id);
  throw new InputError("lags", `these wait for each other in a ring: ${ring.join(", ")}`, "Take one of the rules out");
}

function start(problem: Problem): State {
  return { time: 0, end: 0, release: problem.tasks.map(() => 0), waiting: problem.before, done: [] };
}

function advance(problem: Problem, state: State, index: number): State {
  const task = at(problem.tasks, index);
  const time = Math.max(state.time, at(state.release, index)) + task.minutes;
  const release = [...state.release];
  const waiting = [...state.waiting];
  waiting[index] = -1;
  for (const { to, lag } of at(problem.after, index)) {
    release[to] = Math.max(at(release, to), time + lag);
    waiting[to] = at(waiting, to) - 1;
  }
  return {
    time,
    end: Math.max(state.end, time + (task.tailMinutes ?? 0)),
    release,
    waiting,
    done: [...state.done, index],
  };
}

function readyTasks(state: State): number[] {
  return state.waiting.flatMap((count, index) => (count === 0 ? [index] : []));
}

/** Never idle while something can be started; of what can be started, the least `rank`. */
function listOrder(problem: Problem, rank: (index: number) => number): Found {
  let state = start(problem);
  while (state.done.length < problem.tasks.length) {
    const ready = readyTasks(state);
    const starts = (index: number): number => Math.max(state.time, at(state.release, index));
    const earliest = Math.min(...ready.map(starts));
    const candidates = ready.filter((index) => starts(index) === earliest).sort((a, b) => rank(a) - rank(b) || a - b);
    state = advance(problem, state, at(candidates, 0));
  }
  return { order: state.done, elapsed: state.end };
}

function branchAndBound(
  problem: Problem,
  first: Found,
  bound: number,
  nodeLimit: number,
): { best: Found; complete: boolean } {
  let best = first;
  let nodes = 0;
  const seen = new Map<string, State[]>();
  const visit = (state: State): void => {
    nodes += 1;
    if (nodes > nodeLimit || best.elapsed <= bound) return;
    if (state.done.length === problem.tasks.length) {
      if (state.end < best.elapsed) best = { order: state.done, elapsed: state.end };
      return;
    }
    if (lowerBound(problem, state) >= best.elapsed || isDominated(problem, seen, state)) return;
    const ready = readyTasks(state);
    const starts = (index: number): number => Math.max(state.time, at(state.release, index));
    const firstEnd = Math.min(...ready.map((index) => starts(index) + at(problem.tasks, index).minutes));
    // Where another task could be finished before this one can start, that one goes first: nothing is lost by it.
    const useful = ready.filter(
      (index) => starts(index) < firstEnd || (starts(index) === firstEnd && at(problem.tasks, index).minutes === 0),
    );
    useful.sort((a, b) => starts(a) - starts(b) || at(problem.tails, b) - at(problem.tails, a));
    for (const index of useful) visit(advance(problem, state, index));
  };
  visit(start(problem));
  return { best, complete: nodes <= nodeLimit || best.elapsed <= bound };
}

/** The same tasks done, everything left free to start as early, in as little time: this branch cannot do better. */
function isDominated(problem: Problem, seen: Map<string, State[]>, state: State): boolean {
  const key = [...state.done].sort((a, b) => a - b).join();
  const others = seen.get(key) ?? [];
  const open = problem.tasks.map((_, index) => index).filter((index) => at(state.waiting, index) >= 0);
  const noLater = (a: State, b: State): boolean =>
    a.time <= b.time &&
    a.end <= b.end &&
    open.every((index) => Math.max(a.time, at(a.release, index)) <= Math.max(b.time, at(b.release, index)));
  if (others.some((other) => noLater(other, state))) return true;
  seen.set(key, [...others.filter((other) => !noLater(state, other)), state]);
  return false;
}

/** Jackson's preemptive rule: at each moment the released task with the longest tail; never above the true least. */
function lowerBound(problem: Problem, state: State): number {
  const heads = new Map<number, number>();
  for (const index of problem.sorted) {
    if (at(state.waiting, index) < 0) continue;
    const head = Math.max(state.time, at(state.release, index), heads.get(index) ?? 0);
    heads.set(index, head);
    for (const { to, lag } of at(problem.after, index)) {
      heads.set(to, Math.max(heads.get(to) ?? 0, head + at(problem.tasks, index).minutes + lag));
    }
  }
  const coming = [...heads]
    .map(([index, head]) => ({
      head,
      left: at(problem.tasks, index).minutes,
      tail: at(problem.tails, index) - at(problem.tasks, index).minutes,
    }))
    .sort((a, b) => a.head - b.head);
  const open: { left: number; readonly tail: number }[] = [];
  let time = state.time;
  let bound = state.end;
  let next = 0;
  while (next < coming.length || open.length > 0) {
    if (open.length === 0) time = Math.max(time, at(coming, next).head);
    while (next < coming.length && at(coming, next).head <= time) {
      open.push(at(coming, next));
      next += 1;
    }
    open.sort((a, b) => a.tail - b.tail);
    const task = at(open, open.length - 1);
    const until = next < coming.length ? Math.min(time + task.left, at(coming, next).head) : time + task.left;
    task.left -= until - time;
    time = until;
    if (task.left > 0) continue;
    bound = Math.max(bound, time + task.tail);
    open.pop();
  }
  return bound;
}

function startsOf(problem: Problem, order: readonly number[]): Record<string, number> {
  let state = start(problem);
  const starts: Record<string, number> = {};
  for (const index of order) {
    starts[idOf(problem, index)] = Math.max(state.time, at(state.release, index));
    state = advance(problem, state, index);
  }
  return starts;
}

function idOf(problem: Problem, index: number): string {
  return at(problem.tasks, index).id;
}

/** An index that the code itself made. */
function at<Item>(list: readonly Item[], index: number): Item {
  if (index < 0 || index >= list.length) throw new RangeError(`index ${index} of ${list.length}`);
  return list[index] as Item;
}
