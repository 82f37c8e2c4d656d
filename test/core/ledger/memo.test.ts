import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Asking, createLedger, type Question } from "../../../src/core/ledger/index.ts";
import type { Quantity } from "../../../src/core/quantity/index.ts";
import type { Verdict } from "../../../src/core/verdict/index.ts";
import { leaf } from "./leaves.ts";

interface Part {
  readonly id: string;
  readonly size: Quantity;
  readonly note?: string;
}

interface Subject {
  readonly name: string;
  readonly body: { readonly thickness: Quantity; readonly holes: readonly Part[] };
  readonly neck: { readonly length: Quantity; readonly frets: number };
  readonly lever?: Part;
}

const SUBJECT: Subject = {
  name: "bench piece",
  body: {
    thickness: leaf("body.thickness", 44.5, 0.05),
    holes: [
      { id: "a", size: leaf("a", 3.2) },
      { id: "b", size: leaf("b", 5) },
    ],
  },
  neck: { length: leaf("neck.length", 648), frets: 22 },
};

function verdict(id: string, figures: Record<string, number> = {}, more: Partial<Verdict> = {}): Verdict {
  const nothing = { detail: [], remedies: [], work: [], sums: [], shares: [], missing: [] } as const;
  return { id, question: id, status: "go", headline: [id], stake: 1, figures, ...nothing, ...more };
}

function value(quantity: Quantity): number {
  return quantity.known ? quantity.value : Number.NaN;
}

function question(id: string, figures: (asking: Asking<Subject>) => Record<string, number>): Question<Subject> {
  return { id, question: id, answer: (asking) => verdict(id, figures(asking)) };
}

const thickness = question("thickness", ({ subject }) => ({ t: value(subject.body.thickness) }));
const frets = question("frets", ({ subject }) => ({ n: subject.neck.frets }));
const holes = question("holes", ({ subject }) => ({
  sum: subject.body.holes.map((hole) => value(hole.size)).reduce((sum, size) => sum + size, 0),
}));
const lever = question("lever", ({ subject }) => ({ there: subject.lever ? 1 : 0 }));
const ALL = [thickness, frets, holes, lever];

describe("[LG12] createLedger", () => {
  it("answers everything once, then keeps every verdict, the same object", () => {
    const ledger = createLedger<Subject>();
    const first = ledger.ask(ALL, SUBJECT);
    expect(first.asked).toEqual(["thickness", "frets", "holes", "lever"]);
    expect(first.verdicts.map((one) => one.figures)).toEqual([{ t: 44.5 }, { n: 22 }, { sum: 8.2 }, { there: 0 }]);
    const again = ledger.ask(ALL, structuredClone(SUBJECT));
    expect(again.asked).toEqual([]);
    again.verdicts.forEach((one, index) => {
      expect(one).toBe(first.verdicts[index]);
    });
  });

  it.each([
    ["a leaf", { ...SUBJECT, body: { ...SUBJECT.body, thickness: leaf("body.thickness", 45, 0.05) } }, ["thickness"]],
    [
      "a doubt alone",
      { ...SUBJECT, body: { ...SUBJECT.body, thickness: leaf("body.thickness", 44.5, 0.25) } },
      ["thickness"],
    ],
    [
      "an origin alone",
      {
        ...SUBJECT,
        body: { ...SUBJECT.body, thickness: { ...leaf("body.thickness", 44.5, 0.05), origin: "assumed" as const } },
      },
      ["thickness"],
    ],
    ["a primitive", { ...SUBJECT, neck: { ...SUBJECT.neck, frets: 24 } }, ["frets"]],
    [
      "what nobody read",
      { ...SUBJECT, name: "other", neck: { ...SUBJECT.neck, length: leaf("neck.length", 690) } },
      [],
    ],
    ["a list's length", { ...SUBJECT, body: { ...SUBJECT.body, holes: SUBJECT.body.holes.slice(0, 1) } }, ["holes"]],
    ["a list's order", { ...SUBJECT, body: { ...SUBJECT.body, holes: [...SUBJECT.body.holes].reverse() } }, ["holes"]],
    [
      "a note on an item that nobody read",
      { ...SUBJECT, body: { ...SUBJECT.body, holes: SUBJECT.body.holes.map((hole) => ({ ...hole, note: "torn" })) } },
      [],
    ],
    ["what was not there", { ...SUBJECT, lever: { id: "l", size: leaf("l", 26) } }, ["lever"]],
  ] as const)("change %s: only its questions are asked", (_, changed, asked) => {
    const ledger = createLedger<Subject>();
    ledger.ask(ALL, SUBJECT);
    const next = ledger.ask(ALL, changed);
    expect(next.asked).toEqual(asked);
    expect(next.verdicts).toEqual(createLedger<Subject>().ask(ALL, changed).verdicts);
  });

  it("there and back: what had been read is compared, not what came last", () => {
    const ledger = createLedger<Subject>();
    ledger.ask([frets], SUBJECT);
    expect(ledger.ask([thickness], { ...SUBJECT, neck: { ...SUBJECT.neck, frets: 24 } }).asked).toEqual(["thickness"]);
    expect(ledger.ask(ALL, SUBJECT).asked).toEqual(["holes", "lever"]);
  });

  it("listing keys counts as reading the keys, not the values", () => {
    const keys = question("keys", ({ subject }) => ({ n: Object.keys(subject.neck).length }));
    const ledger = createLedger<Subject>();
    ledger.ask([keys], SUBJECT);
    expect(ledger.ask([keys], { ...SUBJECT, neck: { ...SUBJECT.neck, frets: 24 } }).asked).toEqual([]);
    const more = { ...SUBJECT, neck: { ...SUBJECT.neck, extra: 1 } };
    expect(ledger.ask([keys], more).verdicts[0]?.figures).toEqual({ n: 3 });
  });

  it("`in`, spreading and JSON are reads too", () => {
    const inside = question("in", ({ subject }) => ({ there: "lever" in subject ? 1 : 0 }));
    const spread = question("spread", ({ subject }) => ({ n: { ...subject.neck }.frets }));
    const text = question("text", ({ subject }) => ({ n: JSON.stringify(subject.neck).length }));
    const ledger = createLedger<Subject>();
    const all = [inside, spread, text];
    ledger.ask(all, SUBJECT);
    const changed = { ...SUBJECT, lever: { id: "l", size: leaf("l", 26) }, neck: { ...SUBJECT.neck, frets: 100 } };
    const next = ledger.ask(all, changed);
    expect(next.asked).toEqual(["in", "spread", "text"]);
    expect(next.verdicts).toEqual(createLedger<Subject>().ask(all, changed).verdicts);
  });

  it("hands out quantities as they are, and lists that behave as lists, of frozen data too", () => {
    const frozen: Subject = Object.freeze({
      ...SUBJECT,
      body: Object.freeze({ ...SUBJECT.body }),
      neck: Object.freeze(SUBJECT.neck),
    });
    const look = question("look", ({ subject }) => {
      expect(subject.body.thickness).toBe(SUBJECT.body.thickness);
      expect(Array.isArray(subject.body.holes)).toBe(true);
      expect(subject.body.holes.find((hole) => hole.id === "b")?.size).toBe(SUBJECT.body.holes[1]?.size);
      expect([...subject.body.holes].length + subject.body.holes.length).toBe(4);
      expect(subject.body).toBe(subject.body);
      expect(JSON.parse(JSON.stringify(subject))).toEqual(JSON.parse(JSON.stringify(SUBJECT)));
      return {};
    });
    createLedger<Subject>().ask([look], frozen);
    expect.assertions(6);
  });

  it("refuses to be written through", () => {
    const write = question("write", ({ subject }) => {
      (subject.neck as { frets: number }).frets = 24;
      return {};
    });
    expect(() => createLedger<Subject>().ask([write], SUBJECT)).toThrow(TypeError);
    expect(SUBJECT.neck.frets).toBe(22);
  });

  it("lets an error rise, and asks again afterwards", () => {
    let broken = true;
    const fails = question("fails", ({ subject }) => {
      if (broken) throw new Error("no number");
      return { n: subject.neck.frets };
    });
    const ledger = createLedger<Subject>();
    expect(() => ledger.ask([fails], SUBJECT)).toThrow("no number");
    broken = false;
    expect(ledger.ask([fails, frets], SUBJECT).asked).toEqual(["fails", "frets"]);
  });

  it("verdicts hold plain data, whatever part of the subject they carry; that part counts as read whole", () => {
    const carry: Question<Subject> = {
      id: "carry",
      question: "carry",
      answer: ({ subject }) => verdict("carry", {}, { work: subject.body.holes as unknown as Verdict["work"] }),
    };
    const ledger = createLedger<Subject>();
    const first = ledger.ask([carry], SUBJECT).verdicts[0];
    expect(first?.work).toBe(SUBJECT.body.holes);
    expect(structuredClone(first)).toEqual(first);
    const noted = {
      ...SUBJECT,
      body: { ...SUBJECT.body, holes: SUBJECT.body.holes.map((hole) => ({ ...hole, note: "torn" })) },
    };
    expect(ledger.ask([carry], noted).asked).toEqual(["carry"]);
  });
});

describe("[LG13] derive", () => {
  function counting() {
    const counts = { half: 0, twice: 0 };
    const half = (asking: Asking<Subject>) =>
      asking.derive("half", ({ subject }) => {
        counts.half += 1;
        return value(subject.body.thickness) / 2;
      });
    const twice = (asking: Asking<Subject>) =>
      asking.derive("twice", (inner) => {
        counts.twice += 1;
        return 2 * half(inner) + inner.subject.neck.frets;
      });
    const one = question("one", (asking) => ({ n: half(asking) }));
    const two = question("two", (asking) => ({ n: twice(asking), f: half(asking) }));
    return { counts, all: [one, two, frets] };
  }

  it("is worked out once for all, and kept while its reads hold", () => {
    const { counts, all } = counting();
    const ledger = createLedger<Subject>();
    const first = ledger.ask(all, SUBJECT);
    expect(first.verdicts.map((one) => one.figures)).toEqual([{ n: 22.25 }, { n: 66.5, f: 22.25 }, { n: 22 }]);
    expect(counts).toEqual({ half: 1, twice: 1 });
    ledger.ask(all, { ...SUBJECT, name: "other" });
    expect(counts).toEqual({ half: 1, twice: 1 });
    // What only the outer one reads: the inner one is kept.
    expect(ledger.ask(all, { ...SUBJECT, neck: { ...SUBJECT.neck, frets: 24 } }).asked).toEqual(["two", "frets"]);
    expect(counts).toEqual({ half: 1, twice: 2 });
  });

  it("its reads count as reads of every user, through another one as well", () => {
    const { all } = counting();
    const ledger = createLedger<Subject>();
    ledger.ask(all, SUBJECT);
    const changed = { ...SUBJECT, body: { ...SUBJECT.body, thickness: leaf("body.thickness", 40) } };
    const next = ledger.ask(all, changed);
    expect(next.asked).toEqual(["one", "two"]);
    expect(next.verdicts.map((one) => one.figures)).toEqual([{ n: 20 }, { n: 62, f: 20 }, { n: 22 }]);
  });

  it("a result that holds parts of the subject stays right when they change", () => {
    const big = (asking: Asking<Subject>) =>
      asking.derive("big", ({ subject }) => subject.body.holes.filter((hole) => value(hole.size) > 4));
    const notes = question("notes", (asking) => ({ n: big(asking).filter((hole) => hole.note === "torn").length }));
    const ledger = createLedger<Subject>();
    expect(ledger.ask([notes], SUBJECT).verdicts[0]?.figures).toEqual({ n: 0 });
    const torn = {
      ...SUBJECT,
      body: { ...SUBJECT.body, holes: SUBJECT.body.holes.map((hole) => ({ ...hole, note: "torn" })) },
    };
    expect(ledger.ask([notes], torn).verdicts[0]?.figures).toEqual({ n: 1 });
  });

  it("a compute that reads through the question's own subject is noted too", () => {
    const outer = question("outer", (asking) => ({ n: asking.derive("frets", () => asking.subject.neck.frets) }));
    const other = question("other", (asking) => ({ n: asking.derive("frets", () => asking.subject.neck.frets) }));
    const ledger = createLedger<Subject>();
    ledger.ask([outer, other], SUBJECT);
    const next = ledger.ask([outer, other], { ...SUBJECT, neck: { ...SUBJECT.neck, frets: 24 } });
    expect(next.verdicts.map((one) => one.figures)).toEqual([{ n: 24 }, { n: 24 }]);
  });

  it("refuses a result that needs itself", () => {
    const loop = (asking: Asking<Subject>): number => asking.derive("loop", loop);
    expect(() => createLedger<Subject>().ask([question("q", (asking) => ({ n: loop(asking) }))], SUBJECT)).toThrow(
      'derive("loop") needs itself',
    );
  });
});

describe("[LG12] any edits", () => {
  interface Node {
    readonly n: number;
    readonly on: boolean;
    readonly q: Quantity;
    readonly list: readonly Node[];
    readonly maybe?: Node;
  }

  const quantity = fc.oneof(
    fc.constant<Quantity>({ known: false, path: "q", kind: "length" }),
    fc.integer({ min: 0, max: 2 }).map((n): Quantity => leaf("q", n, n / 10)),
  );
  function nodeTo(depth: number): fc.Arbitrary<Node> {
    const own = { n: fc.integer({ min: 0, max: 3 }), on: fc.boolean(), q: quantity };
    if (depth === 0) return fc.record({ ...own, list: fc.constant([]) });
    const below = nodeTo(depth - 1);
    return fc.record(
      { ...own, list: fc.array(below, { maxLength: 2 }), maybe: below },
      { requiredKeys: ["n", "on", "q", "list"] },
    );
  }
  const node = nodeTo(3);

  /** Reads here and there, as its own numbers and switches say, so that what is read depends on what was read. */
  function wander(at: Node, depth: number): number {
    let sum = at.n;
    if (at.on) sum += 10 * (at.q.known ? at.q.value + (at.q.doubt[0]?.u ?? 0) : 7);
    if (depth > 0 && at.n % 2 === 0) for (const one of at.list) sum += 100 * wander(one, depth - 1);
    if (at.n === 1) sum += 1000 * at.list.length + Object.keys(at).length;
    if (at.maybe && at.n > 1) sum += 3 * wander(at.maybe, depth - 1);
    return sum;
  }

  function asks(id: string, answer: (asking: Asking<Node>) => number): Question<Node> {
    return { id, question: id, answer: (asking) => verdict(id, { n: answer(asking) }) };
  }

  const shared = (asking: Asking<Node>) =>
    asking.derive("shared", ({ subject }) => subject.list.filter((one) => one.on));
  const questions = [
    asks("top", ({ subject }) => subject.n),
    asks("wander", ({ subject }) => wander(subject, 3)),
    asks("first", ({ subject }) => (subject.list[0] ? wander(subject.list[0], 1) : -1)),
    asks("maybe", ({ subject }) => (subject.maybe?.on ? wander(subject.maybe, 2) : -1)),
    asks("shared", (asking) => shared(asking).reduce((sum, one) => sum + wander(one, 1), 0)),
    asks("shared count", (asking) => shared(asking).length),
  ];

  it("kept answers equal fresh answers, whatever was changed", () => {
    let kept = 0;
    fc.assert(
      fc.property(
        fc.array(node, { minLength: 2, maxLength: 6 }),
        fc.array(fc.nat(5), { maxLength: 12 }),
        (nodes, order) => {
          const ledger = createLedger<Node>();
          const [base] = nodes;
          for (const index of order) {
            // Some edits change everything, some one branch only.
            const other = nodes[index % nodes.length] ?? base;
            if (!base || !other) continue;
            const subject: Node =
              index % 3 === 0
                ? other
                : index % 3 === 1
                  ? { ...base, list: other.list }
                  : { ...base, n: other.n, q: other.q };
            const answered = ledger.ask(questions, subject);
            kept += questions.length - answered.asked.length;
            expect(answered.verdicts).toEqual(createLedger<Node>().ask(questions, subject).verdicts);
          }
        },
      ),
      { numRuns: 150, seed: 112 },
    );
    expect(kept).toBeGreaterThan(300);
  });

  it("an edit of what a question did not read never asks it", () => {
    fc.assert(
      fc.property(node, quantity, (one, q) => {
        const quiet: Node = { ...one, on: false };
        const ledger = createLedger<Node>();
        ledger.ask(questions, quiet);
        expect(ledger.ask(questions, { ...structuredClone(quiet), q }).asked).toEqual([]);
      }),
      { numRuns: 60, seed: 113 },
    );
  });
});
