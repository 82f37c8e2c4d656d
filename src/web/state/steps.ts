/** The traveller of the job that lies open, and the gates of its steps; worked out when somebody looks. */
import { untrack } from "solid-js";
import { gatesOf, type Job, travellerOf } from "../../core/index.ts";
import type { Gate, Traveller } from "../../core/plan/index.ts";
import type { Verdict } from "../../core/verdict/index.ts";
import type { Desk } from "./desk.ts";

type Looked = Pick<Desk, "job" | "verdicts" | "now">;

interface Known {
  readonly verdicts: readonly Verdict[];
  readonly traveller: Traveller;
  gates?: { readonly now: string; readonly byStep: ReadonlyMap<string, Gate> };
}

const known = new WeakMap<Looked, Known>();

/** Undefined where no job lies open. */
export function travellerOn(desk: Looked): Traveller | undefined {
  const verdicts = desk.verdicts();
  const job = untrack(desk.job);
  return job ? knownOf(desk, job, verdicts).traveller : undefined;
}

/** By step id. */
export function gatesOn(desk: Looked): ReadonlyMap<string, Gate> {
  const [verdicts, now] = [desk.verdicts(), desk.now()];
  const job = untrack(desk.job);
  if (!job) return new Map();
  const one = knownOf(desk, job, verdicts);
  if (one.gates?.now !== now) one.gates = { now, byStep: gatesOf(job, verdicts, one.traveller, now) };
  return one.gates.byStep;
}

function knownOf(desk: Looked, job: Job, verdicts: readonly Verdict[]): Known {
  const before = known.get(desk);
  if (before?.verdicts === verdicts) return before;
  const fresh: Known = { verdicts, traveller: travellerOf(job, verdicts) };
  known.set(desk, fresh);
  return fresh;
}
