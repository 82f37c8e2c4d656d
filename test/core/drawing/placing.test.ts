import { describe, expect, it } from "vitest";
import { type Placing, toPage, viewStatement } from "../../../src/core/drawing/index.ts";

const BODY = { name: "body", origin: "end wall of the pocket", axes: ["u", "y"] } as const;
const right = { ...BODY, bassSide: -1 } as const;
const left = { ...BODY, bassSide: 1 } as const;

describe("[PA3] viewStatement", () => {
  // Worked out by hand: head up, x runs down the page; seen from the front y > 0 is to the right, from behind to the left.
  it.each([
    [right, "front", 0, "seen from the front, head up, bass side left (y < 0)"],
    [left, "front", 0, "seen from the front, head up, bass side right (y > 0)"],
    [right, "behind", 0, "SEEN FROM BEHIND, head up, bass side right (y < 0)"],
    [left, "behind", 0, "SEEN FROM BEHIND, head up, bass side left (y > 0)"],
    [right, "front", 90, "seen from the front, head left, bass side down (y < 0)"],
    [left, "front", 90, "seen from the front, head left, bass side up (y > 0)"],
    [right, "behind", 90, "SEEN FROM BEHIND, head left, bass side up (y < 0)"],
    [left, "behind", 90, "SEEN FROM BEHIND, head left, bass side down (y > 0)"],
    [BODY, "front", 0, "seen from the front, head up"],
  ] as const)("says how to hold the sheet: %#", (frame, view, turn, statement) => {
    expect(viewStatement(frame, view, turn)).toBe(statement);
  });
});

describe("[PA2] toPage", () => {
  const at = (view: Placing["view"], turn: Placing["turn"]) =>
    toPage({ view, turn, origin: { right: 100, down: 50 }, scale: 1 }, { x: 10, y: 3 });

  it("keeps true millimetres and mirrors only the view from behind", () => {
    expect(at("front", 0)).toEqual({ right: 103, down: 60 });
    expect(at("front", 90)).toEqual({ right: 110, down: 47 });
    expect(at("behind", 0)).toEqual({ right: 97, down: 60 });
    expect(at("behind", 90)).toEqual({ right: 110, down: 53 });
  });
});
