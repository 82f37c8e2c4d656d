/**
 * The works of all verdicts as one list: what two verdicts ask for at one place is done once, large enough for both.
 *
 * A verdict that says no asks for nothing: there is no point in cutting for a part that does not fit.
 */
import { InputError } from "../errors.ts";
import type { Verdict, Work } from "../verdict/index.ts";

export interface PlannedWork {
  readonly work: Work;
  /** Verdicts that ask for it, in their order. */
  readonly cause: readonly string[];
}

/** Two places of one hole further apart than this are two opinions. */
const SAME_PLACE_MM = 0.01;

/** @throws InputError if two verdicts put one hole at different places */
export function mergeWorks(verdicts: readonly Verdict[]): readonly PlannedWork[] {
  const merged = new Map<string, PlannedWork>();
  for (const verdict of verdicts) {
    if (verdict.status === "no-go") continue;
    for (const work of verdict.work.flatMap(byGroup)) {
      if (work.act === "plug") {
        mergePlug(merged, work, verdict.id);
        continue;
      }
      const key = keyOf(work);
      const before = merged.get(key);
      if (!before) merged.set(key, { work, cause: [verdict.id] });
      else
        merged.set(key, { work: join(before, work, verdict.id), cause: [...new Set([...before.cause, verdict.id])] });
    }
  }
  return [...merged.values()];
}

type Plugging = Extract<Work, { act: "plug" }>;

/** A hole gets one plug, the largest asked for; a row of several sizes is several works. */
function mergePlug(merged: Map<string, PlannedWork>, work: Plugging, by: string): void {
  const group = groupOf(work.holes[0]?.id ?? "");
  let holes = work.holes;
  for (const [key, { work: other, cause }] of merged) {
    if (other.act !== "plug" || groupOf(other.holes[0]?.id ?? "") !== group) continue;
    const shared = (hole: { readonly id: string }, among: Plugging["holes"]) => among.some(({ id }) => id === hole.id);
    if (!other.holes.some((hole) => shared(hole, holes)) && other.diameter !== work.diameter) continue;
    const causes = [...new Set([...cause, by])];
    if (other.diameter >= work.diameter) {
      const more = other.diameter === work.diameter ? holes.filter((hole) => !shared(hole, other.holes)) : [];
      holes = more.length > 0 ? [] : holes.filter((hole) => !shared(hole, other.holes));
      merged.set(key, { work: { ...other, holes: [...other.holes, ...more] }, cause: causes });
    } else {
      const left = other.holes.filter((hole) => !shared(hole, holes));
      if (left.length > 0) merged.set(key, { work: { ...other, holes: left }, cause });
      else {
        // In its place in the list, so that what is asked for first still comes first.
        merged.set(key, { work: { ...work, holes }, cause: causes });
        holes = [];
      }
    }
  }
  if (holes.length > 0) merged.set(`plug ${group} ${merged.size}`, { work: { ...work, holes }, cause: [by] });
}

/** "volume" for "control.volume" and "controls.volume". */
export function placeName(where: string): string {
  return where.replace(/^controls?\./, "");
}

/** "old-screws" for "old-screws#3". */
export function groupOf(holeId: string): string {
  return holeId.replace(/#.*$/, "");
}

/** Plugs are glued row by row. */
function byGroup(work: Work): readonly Work[] {
  if (work.act !== "plug") return [work];
  const groups = [...new Set(work.holes.map((hole) => groupOf(hole.id)))];
  return groups.map((group) => ({ ...work, holes: work.holes.filter((hole) => groupOf(hole.id) === group) }));
}

function keyOf(work: Work): string {
  switch (work.act) {
    case "plug":
      return `plug ${work.holes.map((hole) => groupOf(hole.id))[0] ?? ""}`;
    case "drill":
      return `drill ${work.group}`;
    case "rout":
      return `rout ${work.cavity} ${isEars(work.what) ? "ears" : ""}`;
    case "ream":
    case "spot-face":
    case "slot":
    case "insulate":
    case "bare contact":
      return `${work.act} ${placeName(work.where)}`;
    case "shim":
    case "nut slots":
      return work.act;
    case "buy":
      return `buy ${work.what} ${work.spec}`;
    case "choose":
      return `choose ${work.what}`;
    case "take off":
    case "fit":
      return `${work.act} ${work.part}`;
    case "restring":
      return "restring";
    default:
      return work satisfies never;
  }
}

export function isEars(what: string): boolean {
  return /\bears?\b/.test(what);
}

/** Both works have the same key, so they are the same act at the same place. */
function join(before: PlannedWork, add: Work, by: string): Work {
  const one = before.work;
  if (one.act === "drill" && add.act === "drill") {
    requireSamePlaces(before, add.holes, by);
    const holes = [...one.holes, ...add.holes.filter((hole) => !one.holes.some((other) => other.id === hole.id))];
    return { ...one, holes, intoPlugs: one.intoPlugs || add.intoPlugs };
  }
  if (one.act === "rout" && add.act === "rout") {
    return {
      ...one,
      lengthBy: Math.max(one.lengthBy, add.lengthBy),
      widthBy: Math.max(one.widthBy, add.widthBy),
      depthBy: Math.max(one.depthBy, add.depthBy),
    };
  }
  if (one.act === "ream" && add.act === "ream") return one.to >= add.to ? one : add;
  if (one.act === "spot-face" && add.act === "spot-face") return one.depth >= add.depth ? one : add;
  if (one.act === "slot" && add.act === "slot") return one.to >= add.to ? one : add;
  if (one.act === "shim" && add.act === "shim") return one.thickness >= add.thickness ? one : add;
  if (one.act === "nut slots" && add.act === "nut slots") {
    const strings = [...new Set([...one.widths, ...add.widths].map((width) => width.string))].sort((a, b) => a - b);
    const widest = (string: number) =>
      [...one.widths, ...add.widths]
        .filter((width) => width.string === string)
        .reduce((a, b) => (a.to >= b.to ? a : b));
    return { ...one, widths: strings.map(widest) };
  }
  return one;
}

function requireSamePlaces(before: PlannedWork, holes: Extract<Work, { act: "drill" }>["holes"], by: string): void {
  if (before.work.act !== "drill") return;
  for (const hole of holes) {
    const other = before.work.holes.find((one) => one.id === hole.id);
    if (!other) continue;
    const apart = Math.hypot(other.u - hole.u, other.y - hole.y);
    if (apart <= SAME_PLACE_MM) continue;
    throw new InputError(
      `verdicts.${by}.work`,
      `puts hole "${hole.id}" ${apart.toFixed(2)} mm from where ${before.cause.join(", ")} puts it`,
      "Settle the place of the bridge first",
    );
  }
}
