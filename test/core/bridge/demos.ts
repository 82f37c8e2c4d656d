/** The two invented demo jobs as the bridge area sees them, from test/reference/bridge/demos.json. */
import { readFileSync } from "node:fs";
import { type Column, type OldHole, type PatternHole, rout } from "../../../src/core/bridge/index.ts";

type Numbers = readonly number[];
type Places = readonly (readonly [number, number])[];

interface Lowtide {
  readonly scaleLineMm: number;
  readonly oldScaleLineMm: number;
  readonly reserveMm: number;
  readonly fromMm: Numbers;
  readonly toMm: Numbers;
  readonly acrossMm: Numbers;
  readonly setbacksMm: { readonly plainThird: Numbers; readonly woundThird: Numbers };
  readonly modelSetbacksMm: { readonly plainThird: Numbers; readonly woundThird: Numbers };
  readonly turnedRoundMm: number;
  readonly screws: Places;
  readonly threadMm: number;
  readonly pilotMm: number;
  readonly screwDepthMm: number;
  readonly stringHoles: Places;
  readonly stringHoleMm: number;
  readonly oldScrews: Places;
  readonly oldScrewMm: number;
  readonly oldScrewDepthMm: number;
  readonly oldStringHoles: Places;
  readonly oldStringHoleMm: number;
  readonly bridgeCavity: {
    readonly uMm: number;
    readonly lengthMm: number;
    readonly widthMm: number;
    readonly depthMm: number;
    readonly ears: { readonly lengthMm: number; readonly widthMm: number; readonly depthMm: number };
  };
  readonly expected: Readonly<Record<string, number>> & {
    readonly wound: readonly [number, number];
    readonly woundByModel: readonly [number, number];
    readonly turned: readonly [number, number];
    readonly turnedByModel: readonly [number, number];
    readonly walls: Numbers;
    readonly runIns: Numbers;
  };
}

interface Ferry {
  readonly scaleLineMm: number;
  readonly reserveMm: number;
  readonly fromMm: Numbers;
  readonly toMm: Numbers;
  readonly acrossMm: Numbers;
  readonly setbacksMm: Numbers;
  readonly screws: Places;
  readonly threadMm: number;
  readonly pilotMm: number;
  readonly screwDepthMm: number;
  readonly oldScrews: Places;
  readonly oldScrewMm: number;
  readonly oldScrewDepthMm: number;
  readonly expected: Readonly<Record<string, number>> & {
    readonly window: readonly [number, number];
    readonly firstGuessWalls: Numbers;
    readonly walls: { readonly centre: number; readonly outer: number; readonly secondRow: number };
    readonly plugFree: readonly [number, number];
    readonly widest: { readonly place: number; readonly wall: number };
    readonly topPastNut: number;
    readonly throughPastNut: Numbers;
  };
}

export const { lowtide, ferry }: { readonly lowtide: Lowtide; readonly ferry: Ferry } = JSON.parse(
  readFileSync(new URL("../../reference/bridge/demos.json", import.meta.url), "utf8"),
);

/** Half of the second decimal, and a hair: the demos print two. */
export const PRINTED = 0.00501;

export const LIMITS = { wallMm: 1.5, plugDiameterMm: 6 } as const;

export function saddlesOf(demo: Lowtide | Ferry, setbacksMm: Numbers) {
  return {
    targetsMm: setbacksMm.map((setback) => demo.scaleLineMm + setback),
    fromMm: demo.fromMm,
    toMm: demo.toMm,
    acrossMm: demo.acrossMm,
  };
}

export function screwsOf(demo: Lowtide | Ferry): PatternHole[] {
  const { pilotMm, threadMm, screwDepthMm: depthMm } = demo;
  return demo.screws.map(([pMm, qMm], i) => ({
    id: `screw#${i + 1}`,
    pMm,
    qMm,
    pilotMm,
    threadMm,
    depthMm,
    purpose: "screw",
  }));
}

export function stringHolesOf(demo: Lowtide): PatternHole[] {
  const size = demo.stringHoleMm;
  return demo.stringHoles.map(([pMm, qMm], i) => ({
    id: `string#${i + 1}`,
    pMm,
    qMm,
    pilotMm: size,
    threadMm: size,
    depthMm: "through",
    purpose: "other",
  }));
}

export function oldScrewsOf(demo: Lowtide | Ferry): OldHole[] {
  return demo.oldScrews.map(([uMm, yMm], i) => ({
    id: `old#${i + 1}`,
    uMm,
    yMm,
    diameterMm: demo.oldScrewMm,
    depthMm: demo.oldScrewDepthMm,
  }));
}

export function oldStringHolesOf(demo: Lowtide): OldHole[] {
  return demo.oldStringHoles.map(([uMm, yMm], i) => ({
    id: `old-string#${i + 1}`,
    uMm,
    yMm,
    diameterMm: demo.oldStringHoleMm,
    depthMm: "through",
  }));
}

export function bridgeCavityOf(demo: Lowtide): Column[] {
  return rout({ id: "bridge cavity", yMm: 0, cornerRadiusMm: 3, yawDegrees: 0, ...demo.bridgeCavity });
}
