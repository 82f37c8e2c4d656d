/** What a job contains, so that the traveller asks only for the steps and hold points that it has. */
import type { PlannedWork } from "./merge-works.ts";
import type { PlanInput, ToFit } from "./types.ts";
import { targetOfGroup } from "./wood-steps.ts";

export interface Contents {
  readonly drillsBridge: boolean;
  readonly neckComesOff: boolean;
  readonly newNeck: boolean;
  readonly shim: boolean;
  readonly bridge: boolean;
  readonly tuners: boolean;
  readonly pickups: readonly string[];
  readonly controls: readonly string[];
  readonly lever: boolean;
  readonly foil: readonly string[];
  readonly wiring: boolean;
  /** Something inside the body is cut, so pickups and controls come out whether they are new or not. */
  readonly electricsComeOut: boolean;
  /** Undefined: the strings stay. */
  readonly strings: string | undefined;
  readonly template: string | undefined;
  readonly battery: boolean;
}

export function contentsOf(input: PlanInput, works: readonly PlannedWork[]): Contents {
  const { instrument, toFit } = input;
  const has = (test: (planned: PlannedWork["work"]) => boolean): boolean => works.some(({ work }) => test(work));
  const fits = (part: string): boolean => has((work) => work.act === "fit" && work.part === part);
  const shim = has((work) => work.act === "shim");
  const newNeck = toFit.neck === true || fits("neck");
  const pickups = toFit.pickups ?? [];
  const controls = toFit.controls ?? [];
  const lever = toFit.lever === true || fits("lever");
  const foil = toFit.foil ?? [];
  const electric = pickups.length > 0 || controls.length > 0 || lever || foil.length > 0;
  const cutsInside = has(
    (work) =>
      work.act === "rout" ||
      work.act === "spot-face" ||
      work.act === "slot" ||
      (work.act === "ream" && !/^(tuner|headstock)/.test(work.where)),
  );
  const restring = works.flatMap(({ work }) => (work.act === "restring" ? [work.set] : []))[0];
  const stringsComeOff =
    newNeck || shim || toFit.bridge === true || toFit.tuners === true || electric || works.length > 0;
  return {
    drillsBridge: has((work) => work.act === "drill" && targetOfGroup(work.group) === "bridge"),
    neckComesOff: newNeck || shim || has((work) => work.act === "take off" && work.part === "neck"),
    newNeck,
    shim,
    bridge: toFit.bridge === true || fits("bridge"),
    tuners: toFit.tuners === true || fits("tuners"),
    pickups,
    controls,
    lever,
    foil,
    wiring: toFit.wiring ?? (electric || cutsInside),
    electricsComeOut: electric || cutsInside,
    strings: toFit.strings ?? restring ?? (stringsComeOff ? "strings" : undefined),
    template: toFit.template,
    battery: instrument.battery !== undefined,
  };
}

/** Everything that the instrument's file names as to be fitted. Foil is not named there. */
export function everythingToFit(input: Pick<PlanInput, "instrument">): ToFit {
  const { oldNeck, bridge, pickups, controls, lever, tuners } = input.instrument;
  return {
    neck: oldNeck !== undefined,
    bridge: bridge !== undefined,
    pickups: pickups.map(({ id }) => id),
    controls: controls.map(({ id }) => id),
    lever: lever !== undefined,
    tuners: tuners !== undefined,
    strings: "the new set",
  };
}
