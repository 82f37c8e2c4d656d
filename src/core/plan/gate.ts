/**
 * Gates: what holds and what does not, in plain words, before a step may start or be ticked off.
 *
 * A permanent step wants: every verdict it rests on at `go`, or at `rework` with its work, with at least the wanted
 * probability (JCGM 106:2012: accept only where the chance of being wrong is small enough; which chance is the
 * user's to set); two independent readings that agree of every value that decides; the doubt of the drilling inside
 * those odds; the steps before it done and their waits over; and an accepted print where it is marked from a sheet.
 * A hidden step wants the verdicts and one reading; a reversible one only the steps before it.
 * Left out: whether the person can do it. Nothing here replaces looking.
 */
import { InputError } from "../errors.ts";
import { minutesOf } from "../job/index.ts";
import { normalArea } from "../ledger/index.ts";
import { type Figure, figure, mm, type Phrase, say } from "../quantity/index.ts";
import type { Verdict } from "../verdict/index.ts";
import { viewReading } from "./asked.ts";
import { readingReasons } from "./deciding.ts";
import type { Circumstances, Gate, GateReason, GateRule, Need, Override, Step } from "./types.ts";
import { BIT_VERDICT, bitSettled } from "./unsettled.ts";

const SHOWS_FOR_GOOD = 3;
/** Shorter reasons say nothing when somebody reads the record later. */
const LEAST_REASON = 10;

/**
 * Whether a step may start.
 *
 * @throws InputError for an override without a reason of at least ten characters
 */
export function gateOf(step: Step, now: Circumstances): Gate {
  // The bit is judged apart: its odds say nothing of where the hole lands.
  const verdicts = step.restsOn
    .filter((id) => id !== BIT_VERDICT)
    .map((id) => now.verdicts.find((verdict) => verdict.id === id) ?? id);
  const known = verdicts.filter((verdict) => typeof verdict !== "string");
  // Two readings are asked for what shows for good. The rest (heights, say) can be mended, and is often only read later.
  const isRead = (verdict: Verdict): boolean => verdict.stake === SHOWS_FOR_GOOD || step.cause.includes(verdict.id);
  const held = step.gate.level === "reversible" ? [] : verdictReasons(verdicts, step.gate);
  const reasons = [
    ...step.needsBefore.flatMap((need) => needReasons(need, now)),
    ...held,
    ...(step.gate.level === "reversible" ? [] : readingReasons(step, known.filter(isRead), now.readings)),
    ...bitReasons(step, now.verdicts),
    ...executionReasons(step, known),
    ...printReasons(step, now),
    ...approvalReasons(step, now),
  ];
  return withOverride(step, reasons, now);
}

/** Whether a step may be ticked off: its own readings are in and as expected. */
export function finishOf(step: Step, now: Circumstances): Gate {
  const reasons = step.readings.map((asked): GateReason => {
    const { problem } = viewReading(asked, now.readings);
    if (!problem) return { ok: true, text: say`${asked.what}: in`, ref: asked.subject };
    return { ok: false, text: problem, ref: asked.subject, opens: say`${asked.how}` };
  });
  return withOverride(step, reasons, now);
}

function withOverride(step: Step, reasons: readonly GateReason[], now: Circumstances): Gate {
  const override = (now.overrides ?? []).find((one) => one.step === step.id);
  if (override) requireReason(override);
  if (reasons.every((reason) => reason.ok)) return { state: "open", reasons };
  return override ? { state: "overridden", reasons, override } : { state: "shut", reasons };
}

function requireReason(override: Override): void {
  const length = override.reason.trim().length;
  if (length >= LEAST_REASON) return;
  throw new InputError(
    `overrides.${override.step}.reason`,
    `a reason of ${length} characters says too little`,
    "Write why it may go on against the numbers: it stays on the record",
  );
}

function needReasons(need: Need, now: Circumstances): readonly GateReason[] {
  const before = now.steps.find((step) => step.id === need.step);
  const name: Phrase = before ? before.title : say`${need.step}`;
  const done = now.done.find((one) => one.step === need.step);
  if (!done)
    return [
      {
        ok: false,
        text: say`first: ${name}, because ${need.because}`,
        ref: need.step,
        opens: say`do “${name}” and tick it off`,
      },
    ];
  return [
    { ok: true, text: say`done: ${name}`, ref: need.step },
    ...waitReasons(need, name, done.at, now.at),
    ...staleReadings(before, now),
  ];
}

function waitReasons(
  need: Need,
  name: Phrase,
  doneAt: string | undefined,
  at: string | undefined,
): readonly GateReason[] {
  if (need.waitMinutes === 0) return [];
  if (doneAt === undefined || at === undefined) {
    return [
      {
        ok: false,
        text: say`nobody noted when “${name}” was done, so its wait cannot be proved`,
        ref: need.step,
        opens: say`enter when it was done`,
      },
    ];
  }
  const left = minutesOf(doneAt, `done.${need.step}.at`) + need.waitMinutes - minutesOf(at, "at");
  if (left <= 0) return [{ ok: true, text: say`the wait after “${name}” is over`, ref: need.step }];
  const wait = left >= 60 ? figure(left / 60, "h", 1) : figure(left, "min", 0);
  return [
    {
      ok: false,
      text: say`the wait after “${name}” is not over: ${need.because}`,
      ref: need.step,
      opens: say`wait ${wait} more`,
    },
  ];
}

/**
 * A step done once is not enough where its reading has been made void since. What was read as found stays what it was
 * found as: with the strings off nobody could read it again.
 */
function staleReadings(before: Step | undefined, now: Circumstances): readonly GateReason[] {
  if (before?.kind === "record") return [];
  return (before?.readings ?? []).flatMap((asked) => {
    const { problem } = viewReading(asked, now.readings);
    return problem ? [{ ok: false, text: problem, ref: asked.subject, opens: say`${asked.how}` }] : [];
  });
}

/** What of the answers holds and what does not. An answer that nobody gave stands as its id. */
export function verdictReasons(
  verdicts: readonly (Verdict | string)[],
  rule: Pick<GateRule, "level" | "probability">,
): readonly GateReason[] {
  const backed =
    rule.level === "hidden" ||
    verdicts.some((verdict) => typeof verdict !== "string" && probabilityOf(verdict) !== undefined);
  return verdicts.map((verdict) => verdictReason(verdict, rule, backed));
}

/** @param backed another verdict of the step carries odds, or the step does not ask for them */
function verdictReason(
  verdict: Verdict | string,
  rule: Pick<GateRule, "level" | "probability">,
  backed: boolean,
): GateReason {
  if (typeof verdict === "string")
    return { ok: false, text: say`“${verdict}” is not answered`, ref: verdict, opens: say`answer it first` };
  const wanted = rule.probability;
  const ref = verdict.id;
  if (verdict.status === "no-go" || verdict.status === "measure") {
    const answer = verdict.status === "no-go" ? "No" : "Not known yet";
    return { ok: false, text: say`${verdict.question} ${answer}: ${verdict.headline}`, ref, ...opensWith(verdict) };
  }
  const probability = probabilityOf(verdict);
  if (probability === undefined) {
    // A rule without doubt (an inch drawing that agrees, a hole to be plugged) counts by its status, never alone.
    const weighedNothing = verdict.margin === undefined && verdict.shares.length === 0;
    if (backed && (weighedNothing || rule.level === "hidden"))
      return { ok: true, text: say`${verdict.question} ${verdict.headline}`, ref };
    return {
      ok: false,
      text: say`${verdict.question} Nobody has worked out how sure it is.`,
      ref,
      ...opensWith(verdict),
    };
  }
  const odds = say`P ${shown(probability, wanted)}, wanted ${shown(wanted)}`;
  if (probability >= wanted) return { ok: true, text: say`${verdict.question} ${odds}`, ref };
  return { ok: false, text: say`${verdict.question} ${odds}: ${verdict.headline}`, ref, ...opensWith(verdict) };
}

/** A margin without any doubt is certain; a margin with doubt and no probability is not. */
function probabilityOf(verdict: Verdict): number | undefined {
  if (verdict.probability !== undefined) return verdict.probability;
  return verdict.margin?.u === 0 ? Number(verdict.margin.value >= 0) : undefined;
}

/** The reading or the way out that brings most; a reading where neither says what it would bring. */
function opensWith(verdict: Verdict): { readonly opens?: Phrase } {
  const now = verdict.probability;
  const from = now === undefined ? say`` : say`${shown(now)} → `;
  const next = verdict.next ?? verdict.missing[0];
  const ways = [
    ...(next ? [{ text: say`${next.what}, ${next.tool}. ${next.how}`, then: next.probabilityAfter }] : []),
    ...verdict.remedies.map((remedy) => ({ text: remedy.text, then: remedy.probability })),
  ];
  const best = [...ways].sort((a, b) => (b.then ?? 0) - (a.then ?? 0))[0];
  if (!best) return {};
  return { opens: best.then === undefined ? best.text : say`${best.text}: P ${from}${shown(best.then)}` };
}

/** Two digits; three near certainty, and where two would make it look like the limit it misses. */
function shown(probability: number, wanted?: number): Figure {
  const close = wanted !== undefined && probability !== wanted && probability.toFixed(2) === wanted.toFixed(2);
  // Never "1.00" for what is not certain.
  return figure(
    Math.min(probability, probability < 1 ? 0.999 : 1),
    "",
    close || (probability > 0.99 && probability < 1) ? 3 : 2,
  );
}

/** The work that mends a bit is done when the job names another bit, not when somebody has read about it. */
function bitReasons(step: Step, verdicts: readonly Verdict[]): readonly GateReason[] {
  const verdict = step.restsOn.includes(BIT_VERDICT) && verdicts.find(({ id }) => id === BIT_VERDICT);
  if (!verdict || step.work?.act !== "drill") return [];
  if (step.work.holes.every(({ id }) => bitSettled(id, verdicts)))
    return [{ ok: true, text: say`${verdict.question} ${verdict.headline}`, ref: BIT_VERDICT }];
  const [way] = verdict.remedies;
  return [
    {
      ok: false,
      text: say`bit not settled: ${verdict.headline}`,
      ref: BIT_VERDICT,
      opens: say`${way ? way.text : say`Measure the core of one screw.`} Then write the bit you take into the job as the screws' pilot`,
    },
  ];
}

/** How well the hole lands has to be inside the odds; where no verdict counted it, it is counted here. */
function executionReasons(step: Step, verdicts: readonly Verdict[]): readonly GateReason[] {
  if (step.work?.act !== "drill" || step.gate.level !== "permanent") return [];
  const execution = step.gate.execution;
  if (!execution) {
    if (!/^drill-(bridge|post|stud|through|tail)/.test(step.id)) return [];
    return [
      {
        ok: false,
        text: say`nobody said how the holes are drilled, so how well they land is not in the odds`,
        ref: "workshop.drilling",
        opens: say`say how they are drilled: by hand, on a press, or with a self-centring bit through the plate`,
      },
    ];
  }
  const where = say`${execution.how}, ±${mm(execution.u)}`;
  if (verdicts.some(countsDrilling))
    return [{ ok: true, text: say`how well the holes land is in the odds: ${where}`, ref: "workshop.drilling" }];
  const worst = Math.min(
    ...verdicts.flatMap((verdict) =>
      verdict.margin?.unit === "mm"
        ? [normalArea(verdict.margin.value / Math.max(1e-9, Math.hypot(verdict.margin.u, execution.u)))]
        : [],
    ),
  );
  if (!Number.isFinite(worst))
    return [
      {
        ok: false,
        text: say`how well the holes land (${where}) is in nobody's odds`,
        ref: "workshop.drilling",
        opens: say`answer where the bridge stands with the way of drilling stated`,
      },
    ];
  const ok = worst >= step.gate.probability;
  return [
    {
      ok,
      text: say`with the drilling (${where}) the odds are P ${shown(worst, step.gate.probability)}, wanted ${shown(step.gate.probability)}`,
      ref: "workshop.drilling",
      ...(ok ? {} : { opens: say`a drill press, or a self-centring bit through the plate` }),
    },
  ];
}

function countsDrilling(verdict: Verdict): boolean {
  const named = (text: string | undefined): boolean => text !== undefined && /drill/i.test(text);
  return (
    verdict.shares.some((share) => named(share.path) || named(share.what)) ||
    verdict.sums.some((sum) => sum.rows.some((row) => named(row.path) || named(row.meaning)))
  );
}

function printReasons(step: Step, now: Circumstances): readonly GateReason[] {
  const sheet = step.gate.template;
  if (sheet === undefined) return [];
  const print = now.prints?.find((one) => one.sheet === sheet);
  if (print?.accepted) return [{ ok: true, text: say`the sheet's rules measure true`, ref: sheet }];
  const text =
    print?.text ?? (print ? say`the sheet's rules do not measure true` : say`nobody has measured the sheet's rules`);
  return [
    {
      ok: false,
      text,
      ref: sheet,
      opens: say`measure both long rules and the diagonals, enter them, print again if they are refused`,
    },
  ];
}

function approvalReasons(step: Step, now: Circumstances): readonly GateReason[] {
  if (step.permanence !== "permanent" || now.approved === undefined) return [];
  const ok = now.approved.includes(step.id);
  return [
    {
      ok,
      text: ok ? say`approved by the customer` : say`the customer has not approved this step`,
      ref: step.id,
      ...(ok ? {} : { opens: say`have the proposal signed` }),
    },
  ];
}
