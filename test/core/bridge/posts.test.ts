import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  placementAllowed,
  poseFromPosts,
  postPlaces,
  tailpieceWindow,
  twoPostWindow,
  unitPlaces,
} from "../../../src/core/bridge/index.ts";

const SEED = 20240619;
/** Evenly spread; doubles as such crowd about 0. */
const num = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((n) => min + ((max - min) * n) / 1_000_000);
const POSTS = { left: { pMm: 8, qMm: -37 }, right: { pMm: 8, qMm: 37 } };

/** Six saddles with little travel; the thick strings (y < 0) want to stand 3 further back than the thin ones. */
const BAR = {
  targetsMm: [650, 650.8, 651.2, 651.6, 652.2, 653],
  fromMm: Array(6).fill(5),
  toMm: Array(6).fill(8),
  acrossMm: [26, 15.6, 5.2, -5.2, -15.6, -26],
};

describe("[BR14] two posts", () => {
  it("there and back between pose and posts", () => {
    fc.assert(
      fc.property(num(600, 700), num(-3, 3), num(-10, 10), (placeMm, sideMm, yawDegrees) => {
        const pose = { placeMm, sideMm, yawDegrees };
        const back = poseFromPosts(POSTS, postPlaces(POSTS, pose));
        expect(back.placeMm).toBeCloseTo(placeMm, 9);
        expect(back.sideMm).toBeCloseTo(sideMm, 9);
        expect(back.yawDegrees).toBeCloseTo(yawDegrees, 9);
      }),
      { seed: SEED },
    );
  });

  it("square there is too little travel, turned there is enough: the thick strings' post stands further back", () => {
    // Square: spread 3, travel 3, reserves 0.5 each: empty by 1.0.
    const found = twoPostWindow({ ...BAR, reserveMm: 0.5, posts: POSTS, sideMm: 0, yawLimitDegrees: 6 });
    expect(found.square.widthMm).toBeCloseTo(-1, 9);
    expect(found.spareMm).toBeGreaterThan(0.8);
    expect(found.yawDegrees).toBeGreaterThan(0);
    expect(found.posts.left.uMm - found.posts.right.uMm).toBeCloseTo(
      74 * Math.sin((found.yawDegrees * Math.PI) / 180),
      9,
    );
    const check = placementAllowed({ ...BAR, reserveMm: 0.5, pose: poseFromPosts(POSTS, found.posts) });
    expect(check.leastMm).toBeCloseTo(0.5 + found.spareMm, 2);
  });

  it("targets on a slanted line leave the whole travel (closed form)", () => {
    // Contacts wanted at 650 - q tan 3°: a bar turned by 3° serves all alike.
    const slope = Math.tan((3 * Math.PI) / 180);
    const bar = { ...BAR, targetsMm: BAR.acrossMm.map((q) => 650 - q * slope) };
    const found = twoPostWindow({ ...bar, reserveMm: 0.5, posts: POSTS, sideMm: 0, yawLimitDegrees: 6 });
    // Travel 3 less reserves, times the cosine; q sin f against q tan f differs by 26·7e-5.
    expect(Math.abs(found.freest.widthMm - 2 * Math.cos((3 * Math.PI) / 180))).toBeLessThan(0.012);
    expect(Math.abs(found.yawDegrees - 3)).toBeLessThan(0.03);
  });

  it("mirrors: strings the other way round turn the bar the other way", () => {
    const right = twoPostWindow({ ...BAR, reserveMm: 0.5, posts: POSTS, sideMm: 0, yawLimitDegrees: 6 });
    const left = twoPostWindow({
      ...BAR,
      acrossMm: BAR.acrossMm.map((q) => -q),
      reserveMm: 0.5,
      posts: POSTS,
      sideMm: 0,
      yawLimitDegrees: 6,
    });
    expect(left.yawDegrees).toBeCloseTo(-right.yawDegrees, 4);
    expect(left.spareMm).toBeCloseTo(right.spareMm, 4);
  });

  it("refuses posts that the bar does not fit", () => {
    expect(() => poseFromPosts(POSTS, { left: { uMm: 0, yMm: -37 }, right: { uMm: 0, yMm: 40 } })).toThrow(
      /stand 77\.00 mm apart, the bar wants 74\.00/,
    );
  });

  it("tailpiece: behind the bridge by its limits, before the tail edge", () => {
    const tail = { bridgeUMm: 180, distanceFromMm: 35, distanceToMm: 60, tailpieceLengthMm: 20, edgeMarginMm: 5 };
    expect(tailpieceWindow({ ...tail, tailEdgeUMm: 300 })).toEqual({ minMm: 215, maxMm: 240 });
    expect(tailpieceWindow({ ...tail, tailEdgeUMm: 250 })).toEqual({ minMm: 215, maxMm: 225 });
    const none = tailpieceWindow({ ...tail, tailEdgeUMm: 230 });
    expect(none.maxMm).toBeLessThan(none.minMm);
  });
});

describe("[BR15] single units", () => {
  const unit = (targetMm: number, stringYMm: number, yawDegrees: number) => ({
    targetMm,
    stringYMm,
    yawDegrees,
    fromMm: 6,
    toMm: 14,
    lengthMm: 40,
    widthMm: 9,
  });

  it("each has its own window along its string and stands on its string's line", () => {
    const [place] = unitPlaces({ units: [unit(190, 20, 1.5)], reserveMm: 0.5 });
    const cos = Math.cos((1.5 * Math.PI) / 180);
    expect(place?.minMm).toBeCloseTo(190 - 13.5 * cos, 9);
    expect(place?.maxMm).toBeCloseTo(190 - 6.5 * cos, 9);
    // The string runs through y 20 at 190 with 1.5°: the front edge's middle lies on it.
    expect(place?.pose.sideMm).toBeCloseTo(
      20 - (190 - (place?.pose.placeMm as number)) * Math.tan((1.5 * Math.PI) / 180),
      9,
    );
  });

  it("square neighbours 10.5 apart and 9 wide have 1.5 between them; fanned ones less at the narrow end", () => {
    const square = unitPlaces({ units: [unit(190, 5.25, 0), unit(190, -5.25, 0)], reserveMm: 0.5 });
    expect(square[0]?.gapToNextMm).toBeCloseTo(1.5, 9);
    expect(square[1]?.gapToNextMm).toBeUndefined();
    const fanned = unitPlaces({ units: [unit(190, 5.25, 1), unit(190, -5.25, -1)], reserveMm: 0.5 });
    expect(fanned[0]?.gapToNextMm).toBeLessThan(1.5);
    const overlapping = unitPlaces({ units: [unit(190, 4, 0), unit(190, -4, 0)], reserveMm: 0.5 });
    expect(overlapping[0]?.gapToNextMm).toBeCloseTo(-1, 9);
  });
});
