/**
 * Questions answered anew only when something they read has changed.
 *
 * Model: while a question is answered, its reads of the subject are noted (trace.ts). On the next asking the notes are
 * held against the new subject; if every read would see the same, and the question still has the same words, the
 * verdict is kept. A derived result is a question of its own without a verdict: its reads are noted under it, it is
 * worked out once for all who use it, and it stands or falls with its own reads; whoever used it falls with it.
 * Left out: changing the subject in place (give a new object; unchanged parts may be the same objects); answers that
 * come later; a `compute` that uses, other than through its own `asking`, a plain number read outside it.
 */

import type { Verdict } from "../verdict/index.ts";
import { holds, newTrace, type Trace, type Watch, watch } from "./trace.ts";
import type { Asking, Ledger, Question } from "./types.ts";

/** One piece of work with what it read and what it used. */
interface Notes {
  readonly trace: Trace;
  readonly used: Set<Derived>;
}

interface Derived extends Notes {
  readonly result: unknown;
}

interface Answered extends Notes {
  /** The words in which it was asked: they are made from the subject, and may name another part today. */
  readonly asked: string;
  readonly verdict: Verdict;
}

/**
 * A memo for one kind of subject.
 *
 * @example
 * const ledger = createLedger<Instrument>();
 * ledger.ask(questions, instrument).asked; // every id
 * ledger.ask(questions, { ...instrument, shim }).asked; // only those that read the shim
 */
export function createLedger<Subject>(): Ledger<Subject> {
  const answers = new Map<string, Answered>();
  const derived = new Map<string, Derived>();

  return {
    ask(questions, subject) {
      const asking = askingOf(subject, derived);
      const asked: string[] = [];
      const verdicts = questions.map((question) => {
        const before = answers.get(question.id);
        if (before && before.asked === question.question && asking.stillGood(before)) return before.verdict;
        asked.push(question.id);
        answers.delete(question.id);
        const answered = asking.answer(question);
        answers.set(question.id, answered);
        return answered.verdict;
      });
      return { verdicts, asked };
    },
  };
}

/** One round of questions about one subject. */
function askingOf<Subject>(subject: Subject, derived: Map<string, Derived>) {
  /** Innermost last: reads go to the piece of work that is being done. */
  const working: Notes[] = [];
  const underWay = new Set<string>();
  const looked = new Map<Notes, boolean>();
  const watched: Watch = watch(subject, () => working.at(-1)?.trace);

  function stillGood(notes: Notes): boolean {
    const known = looked.get(notes);
    if (known !== undefined) return known;
    const good = holds(notes.trace, subject) && [...notes.used].every(stillGood);
    looked.set(notes, good);
    return good;
  }

  function noted<T>(work: () => T): Notes & { readonly result: T } {
    const notes: Notes = { trace: newTrace(subject), used: new Set() };
    working.push(notes);
    try {
      // Stand-ins are gone from what is kept: a later read of one would see the old subject.
      return { ...notes, result: watched.plain(work()) as T };
    } finally {
      working.pop();
    }
  }

  const asking: Asking<Subject> = {
    // The stand-in answers every read as the subject would.
    subject: watched.subject as Subject,
    derive<T>(key: string, compute: (asking: Asking<Subject>) => T): T {
      let one = derived.get(key);
      if (!one || !stillGood(one)) {
        if (underWay.has(key)) throw new Error(`derive("${key}") needs itself`);
        underWay.add(key);
        try {
          one = noted(() => compute(asking));
        } finally {
          underWay.delete(key);
        }
        looked.set(one, true);
        derived.set(key, one);
      }
      working.at(-1)?.used.add(one);
      // One key always stands for one kind of result: the caller's promise.
      return one.result as T;
    },
  };

  function answer(question: Question<Subject>): Answered {
    const { result, ...notes } = noted(() => question.answer(asking));
    const answered = { ...notes, asked: question.question, verdict: result };
    looked.set(answered, true);
    return answered;
  }

  return { answer, stillGood };
}
