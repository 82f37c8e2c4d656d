/** The search for Ferry's place, against the direct check at every place, side and yaw of a grid of the same size. */
import { holesAtPose, judgeHoles, searchPlace } from "../dist/core/bridge/index.js";
import { median, timed } from "./measure.mjs";

const PATTERN = [
  [47, -20],
  [47, 0],
  [47, 20],
  [58, -10],
  [58, 10],
].map(([pMm, qMm], index) => ({
  id: `screw#${index + 1}`,
  pMm,
  qMm,
  pilotMm: 2.8,
  threadMm: 3.5,
  depthMm: 26,
  purpose: "screw",
}));
const OLD = [-22, -11, 0, 11, 22].map((yMm, index) => ({
  id: `old#${index + 1}`,
  uMm: 301,
  yMm,
  diameterMm: 3.4,
  depthMm: 20,
}));
const LIMITS = { wallMm: 1.5, plugDiameterMm: 6 };
const SADDLES = {
  targetsMm: [266, 266.7, 267.19, 268.64],
  fromMm: [8, 8, 8, 8],
  toMm: [24, 24, 24, 24],
  acrossMm: [-28.5, -9.5, 9.5, 28.5],
};

export function searchBench() {
  const scene = { oldHoles: OLD, obstacles: [], limits: LIMITS };
  const search = {
    ...scene,
    saddles: SADDLES,
    reserveMm: 0.5,
    pattern: PATTERN,
    side: { fromMm: -0.5, toMm: 0.5 },
    yawLimitDegrees: 0.5,
  };
  const { posesTried } = searchPlace(search);
  const own = median(Array.from({ length: 15 }, () => timed(() => searchPlace(search))));
  const peer = median(
    Array.from({ length: 3 }, () =>
      timed(() => {
        for (let n = 0; n < posesTried; n += 1)
          judgeHoles({
            ...scene,
            newHoles: holesAtPose(PATTERN, { placeMm: 245.2 + 0.1 * (n % 123), sideMm: 0, yawDegrees: 0 }),
          });
      }),
    ),
  );
  return [
    { what: `search for a place (${posesTried} poses)`, own, peer, against: "the direct check of each", goal: 5 },
  ];
}
