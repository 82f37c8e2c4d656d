/**
 * Notes of what was read from a subject, and whether those reads still hold.
 *
 * A subject is plain data: objects, arrays, primitives, quantities. Reading it through `watch` notes every step. A
 * quantity is taken whole and handed out as it is, so that formulas run on plain objects. Anything that is not plain
 * (a map, a date, a function, an object of a class) is handed out as it is and compared by identity.
 * Left out: stand-ins hidden in such objects when they are part of an answer; writing (refused); telling apart two paths that hold the same object (each path has its own stand-in, so
 * compare parts of the subject by their ids, not with ===).
 */

/** What was seen at one place of the subject. */
export interface Trace {
  readonly seen: unknown;
  /** Everything below counts as read. */
  whole: boolean;
  /** Reads below, by key. */
  readonly below: Map<string, Trace>;
  /** Keys listed, in their order. */
  keys?: readonly string[];
  /** Keys asked for with `in`. */
  readonly asked: Map<string, boolean>;
}

/** Where a stand-in stands: the note-taker finds the trace of any place from the root. */
interface Place {
  readonly raw: object;
  readonly above?: { readonly place: Place; readonly key: string };
  /** Last answer, as a run of reads goes to one note-taker. */
  last?: { readonly root: Trace; readonly trace: Trace };
}

export interface Watch {
  readonly subject: unknown;
  /** `value` without stand-ins: each becomes what it stands for, and counts as read whole. */
  plain(value: unknown): unknown;
}

export function newTrace(seen: unknown): Trace {
  return { seen, whole: !isOpen(seen), below: new Map(), asked: new Map() };
}

/**
 * A subject to be read.
 *
 * @param noting the root trace that reads now go to, if any
 */
export function watch(subject: unknown, noting: () => Trace | undefined): Watch {
  const places = new WeakMap<object, Place>();

  function traceAt(place: Place, root: Trace): Trace {
    if (place.last?.root === root) return place.last.trace;
    const trace = place.above ? noteBelow(traceAt(place.above.place, root), place.above.key, place.raw) : root;
    place.last = { root, trace };
    return trace;
  }

  function standIn(place: Place): object {
    const { raw } = place;
    const children = new Map<string, object>();
    const current = (): Trace | undefined => {
      const root = noting();
      return root && traceAt(place, root);
    };
    // The stand-in is built on an empty object, as one built on frozen data would have to hand out that data itself.
    const made: object = new Proxy(Array.isArray(raw) ? [] : {}, {
      get(_, key) {
        const value: unknown = Reflect.get(raw, key);
        if (typeof key === "symbol" || (!Object.hasOwn(raw, key) && key in raw)) return value;
        const trace = current();
        if (trace) noteBelow(trace, key, value);
        if (!isOpen(value)) return value;
        const known = children.get(key) ?? standIn({ raw: value, above: { place, key } });
        children.set(key, known);
        return known;
      },
      has(_, key) {
        const there = Reflect.has(raw, key);
        if (typeof key === "string") current()?.asked.set(key, there);
        return there;
      },
      ownKeys() {
        const trace = current();
        if (trace) trace.keys = Object.keys(raw);
        return Reflect.ownKeys(raw);
      },
      getOwnPropertyDescriptor(_, key) {
        const found = Reflect.getOwnPropertyDescriptor(raw, key);
        if (typeof key === "string") current()?.asked.set(key, found !== undefined);
        if (!found) return undefined;
        if (Array.isArray(raw) && key === "length") {
          return { value: Reflect.get(made, key), writable: true, enumerable: false, configurable: false };
        }
        // A getter, so that listing keys does not count as reading every value.
        return { get: () => Reflect.get(made, key), enumerable: found.enumerable ?? false, configurable: true };
      },
      getPrototypeOf: () => Reflect.getPrototypeOf(raw),
      ...REFUSE,
    });
    places.set(made, place);
    return made;
  }

  /** What a stand-in stands for, which then counts as read whole. */
  function behind(value: object): object | undefined {
    const place = places.get(value);
    const root = noting();
    if (place && root) traceAt(place, root).whole = true;
    return place?.raw;
  }

  return {
    subject: isOpen(subject) ? standIn({ raw: subject }) : subject,
    plain: (value) => replaced(value, behind),
  };
}

const REFUSE: ProxyHandler<object> = {
  set: () => false,
  defineProperty: () => false,
  deleteProperty: () => false,
  preventExtensions: () => false,
  setPrototypeOf: () => false,
};

/** Plain data with objects replaced where `by` gives another; what holds nothing to replace stays the same object. */
function replaced(value: unknown, by: (value: object) => object | undefined): unknown {
  if (typeof value !== "object" || value === null) return value;
  const other = by(value);
  if (other) return other;
  if (!isOpen(value)) return value;
  if (Array.isArray(value)) {
    const items = value.map((item) => replaced(item, by));
    return items.some((item, index) => !Object.is(item, value[index])) ? items : value;
  }
  const entries = Object.entries(value);
  const next = entries.map(([key, item]) => [key, replaced(item, by)] as const);
  return next.some(([, item], index) => !Object.is(item, entries[index]?.[1])) ? Object.fromEntries(next) : value;
}

function noteBelow(trace: Trace, key: string, value: unknown): Trace {
  const known = trace.below.get(key);
  if (known) return known;
  const made = newTrace(value);
  trace.below.set(key, made);
  return made;
}

/** Would the same reads from `now` see the same? Data that is the same object is not looked into. */
export function holds(trace: Trace, now: unknown): boolean {
  if (Object.is(trace.seen, now)) return true;
  if (trace.whole) return sameData(trace.seen, now);
  if (!isOpen(now) || Array.isArray(now) !== Array.isArray(trace.seen)) return false;
  if (trace.keys && !sameKeys(trace.keys, Object.keys(now))) return false;
  for (const [key, there] of trace.asked) if (key in now !== there) return false;
  for (const [key, below] of trace.below) if (!holds(below, Reflect.get(now, key))) return false;
  return true;
}

/** Plain data that is looked into step by step; a quantity is not, it is one value. */
function isOpen(value: unknown): value is object {
  // A result may say `known` too: only a quantity has a path and a kind beside it.
  return isPlain(value) && !("known" in value && "path" in value && "kind" in value);
}

function isPlain(value: unknown): value is object {
  if (typeof value !== "object" || value === null) return false;
  if (Array.isArray(value)) return true;
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === Object.prototype || prototype === null;
}

function sameData(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (!isPlain(a) || !isPlain(b) || Array.isArray(a) !== Array.isArray(b)) return false;
  const keys = Object.keys(a);
  return sameKeys(keys, Object.keys(b)) && keys.every((key) => sameData(Reflect.get(a, key), Reflect.get(b, key)));
}

function sameKeys(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((key, index) => key === b[index]);
}
