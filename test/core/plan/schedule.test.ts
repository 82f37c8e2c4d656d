import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Lag, schedule, type Task } from "../../../src/core/plan/schedule.ts";

interface Case {
  readonly id: string;
  readonly topic: string;
  readonly inputs: {
    readonly p?: Readonly<Record<string, number>>;
    readonly p_min?: Readonly<Record<string, number>>;
    readonly tail?: Readonly<Record<string, number>>;
    readonly lags?: readonly (readonly [string, string, number])[];
    readonly lags_min?: readonly (readonly [string, string, number])[];
    readonly chains?: readonly number[];
    readonly lag?: number;
  };
  readonly expected: {
    readonly makespan?: number;
    readonly makespan_min?: number;
    readonly work_min?: number;
    readonly order?: readonly string[];
  };
}

const CASES = (JSON.parse(readFileSync("test/reference/plan/cases.json", "utf8")) as Case[]).filter((one) =>
  one.topic.startsWith("scheduling"),
);

/** The reference cases come in three shapes. */
function problemOf({ inputs }: Case): { tasks: Task[]; lags: Lag[] } {
  const { chains, lag = 0 } = inputs;
  if (chains) {
    const rows = chains.map((length, row) => Array.from({ length }, (_, index) => `${row}.${index}`));
    return {
      tasks: rows.flat().map((id) => ({ id, minutes: 1 })),
      lags: rows.flatMap((ids) =>
        ids.slice(1).map((id, index) => ({ before: ids[index] ?? "", after: id, minutes: lag })),
      ),
    };
  }
  const tasks = Object.entries(inputs.p ?? inputs.p_min ?? {}).map(([id, minutes]) => ({
    id,
    minutes,
    tailMinutes: inputs.tail?.[id] ?? 0,
  }));
  return {
    tasks,
    lags: (inputs.lags ?? inputs.lags_min ?? []).map(([before, after, minutes]) => ({ before, after, minutes })),
  };
}

/** Full enumeration of the orders that keep every lag, each task as early as it can: the proof, not the method. */
function enumerate(tasks: readonly Task[], lags: readonly Lag[]): number {
  let best = Infinity;
  const ends = new Map<string, number>();
  const visit = (time: number, end: number): void => {
    if (ends.size === tasks.length) best = Math.min(best, end);
    for (const task of tasks) {
      if (ends.has(task.id)) continue;
      const needed = lags.filter((lag) => lag.after === task.id);
      if (needed.some((lag) => !ends.has(lag.before))) continue;
      const done = Math.max(time, ...needed.map((lag) => (ends.get(lag.before) ?? 0) + lag.minutes)) + task.minutes;
      ends.set(task.id, done);
      visit(done, Math.max(end, done + (task.tailMinutes ?? 0)));
      ends.delete(task.id);
    }
  };
  visit(0, 0);
  return best;
}

/** What a schedule says of itself, checked from its starts alone. */
function checkedEnd(tasks: readonly Task[], lags: readonly Lag[], result: ReturnType<typeof schedule>): number {
  const minutes = new Map(tasks.map((task) => [task.id, task.minutes]));
  const end = (id: string): number => (result.starts[id] ?? Number.NaN) + (minutes.get(id) ?? Number.NaN);
  for (const lag of lags) expect(result.starts[lag.after]).toBeGreaterThanOrEqual(end(lag.before) + lag.minutes);
  let busyUntil = 0;
  for (const id of result.order) {
    expect(result.starts[id]).toBeGreaterThanOrEqual(busyUntil);
    busyUntil = end(id);
  }
  expect([...result.order].sort()).toEqual(tasks.map((task) => task.id).sort());
  return Math.max(...tasks.map((task) => end(task.id) + (task.tailMinutes ?? 0)));
}

describe("reference cases, derived: proved by full enumeration where they were written", () => {
  it("are all there", () => expect(CASES).toHaveLength(8));

  it.each(CASES)("[PL20] $id", (one) => {
    const { tasks, lags } = problemOf(one);
    const result = schedule(tasks, lags);
    expect(result.elapsedMinutes).toBe(one.expected.makespan ?? one.expected.makespan_min);
    expect(checkedEnd(tasks, lags, result)).toBe(result.elapsedMinutes);
    expect(result.shortest).toBe(true);
    if (one.expected.work_min !== undefined)
      expect(tasks.reduce((sum, task) => sum + task.minutes, 0)).toBe(one.expected.work_min);
  });

  // mechanics.md, section 8: p = 5, 4, 6; q = 1, 10, 4 gives 16; and the first instance takes the order 3, 1, 2, 4.
  it("[PL20] the third tails instance of the text, and the order of the first", () => {
    const third = ["5,1", "4,10", "6,4"].map((text, index) => ({
      id: String(index + 1),
      minutes: Number(text.split(",")[0]),
      tailMinutes: Number(text.split(",")[1]),
    }));
    expect(schedule(third, []).elapsedMinutes).toBe(16);
    const first = [
      [2, 7],
      [3, 2],
      [1, 9],
      [4, 0],
    ].map(([minutes, tailMinutes], index) => ({
      id: String(index + 1),
      minutes: minutes ?? 0,
      tailMinutes: tailMinutes ?? 0,
    }));
    expect(schedule(first, []).elapsedMinutes).toBe(10);
  });
});

const instance = fc.integer({ min: 1, max: 6 }).chain((count) =>
  fc.record({
    minutes: fc.array(fc.integer({ min: 0, max: 9 }), { minLength: count, maxLength: count }),
    tails: fc.array(fc.integer({ min: 0, max: 12 }), { minLength: count, maxLength: count }),
    lags: fc.array(
      fc.tuple(fc.nat(count - 1), fc.nat(count - 1), fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 15 }))),
      { maxLength: 9 },
    ),
  }),
);

describe("against full enumeration", () => {
  it("[PL20] finds the least elapsed time, and says so", () => {
    fc.assert(
      fc.property(instance, ({ minutes, tails, lags: pairs }) => {
        const tasks = minutes.map((value, index) => ({
          id: `t${index}`,
          minutes: value,
          tailMinutes: tails[index] ?? 0,
        }));
        const lags = pairs
          .filter(([a, b]) => a < b)
          .map(([a, b, value]) => ({ before: `t${a}`, after: `t${b}`, minutes: value }));
        const result = schedule(tasks, lags);
        expect(result.shortest).toBe(true);
        expect(checkedEnd(tasks, lags, result)).toBe(result.elapsedMinutes);
        expect(result.elapsedMinutes).toBe(enumerate(tasks, lags));
      }),
      { seed: 20260302, numRuns: 400 },
    );
  });

  it("[PL20] cut off, it still gives an order that holds, and says that it is not proved", () => {
    const rows = Array.from({ length: 5 }, (_, row) => row);
    const tasks = rows.flatMap((row) => [
      { id: `a${row}`, minutes: 3 + ((row * 7) % 5) },
      { id: `b${row}`, minutes: 2 + ((row * 3) % 4) },
    ]);
    const lags = rows.map((row) => ({ before: `a${row}`, after: `b${row}`, minutes: 4 + ((row * 11) % 17) }));
    const cut = schedule(tasks, lags, { nodeLimit: 1 });
    expect(checkedEnd(tasks, lags, cut)).toBe(cut.elapsedMinutes);
    const full = schedule(tasks, lags);
    expect(full.shortest).toBe(true);
    expect(full.elapsedMinutes).toBeLessThanOrEqual(cut.elapsedMinutes);
  });
});

describe("orders", () => {
  it("[PL20] keeps the order preferred where it costs no time", () => {
    const tasks = ["a", "b", "c"].map((id) => ({ id, minutes: 5 }));
    expect(schedule(tasks, [{ before: "a", after: "c", minutes: 5 }]).order).toEqual(["a", "b", "c"]);
  });

  it.each([
    [
      "a ring",
      [
        { before: "a", after: "b", minutes: 0 },
        { before: "b", after: "a", minutes: 0 },
      ],
      /wait for each other in a ring: a, b/,
    ],
    ["a task that is not there", [{ before: "a", after: "x", minutes: 0 }], /"x" is not a task/],
    ["a negative wait", [{ before: "a", after: "b", minutes: -1 }], /must be 0 minutes or more/],
  ])("[PL20] refuses %s", (_, lags, message) => {
    expect(() =>
      schedule(
        [
          { id: "a", minutes: 1 },
          { id: "b", minutes: 1 },
        ],
        lags,
      ),
    ).toThrow(message);
  });
});
