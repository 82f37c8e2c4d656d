/** Random scenes of holes for the property tests: marks, places, sizes, depths and both hands. */
import fc from "fast-check";
import { hole, line, makeScene, type Role, type Scene } from "../../src/core/drawing/index.ts";

/** Holes on a grid with random offsets, so that neighbours of one size never stand within half a millimetre. */
const spot = fc.record({
  dx: fc.double({ min: -4, max: 4, noNaN: true }),
  dy: fc.double({ min: -4, max: 4, noNaN: true }),
  diameterMm: fc.double({ min: 0.8, max: 9, noNaN: true }),
  depthMm: fc.oneof(
    fc.constant("through" as const),
    fc.integer({ min: 10, max: 450 }).map((tenths) => tenths / 10),
  ),
  datum: fc.constantFrom("body top", "body back", "plate's face"),
  role: fc.constantFrom<Role>("new hole", "old hole", "plug", "string hole", "post", "screw"),
});

export const anyScene: fc.Arbitrary<Scene> = fc
  .record({
    spots: fc.array(spot, { minLength: 1, maxLength: 9 }),
    bassSide: fc.constantFrom<1 | -1>(1, -1),
    view: fc.constantFrom<Scene["view"]>("front", "behind"),
    x: fc.double({ min: -200, max: 400, noNaN: true }),
    y: fc.double({ min: -30, max: 30, noNaN: true }),
  })
  .map(({ spots, bassSide, view, x, y }) =>
    makeScene({
      id: "random",
      title: "Random holes",
      view,
      frame: { name: "body", origin: "end wall of the neck pocket", axes: ["u", "y"], bassSide },
      datum: { at: { x, y }, name: "register line on the centre line" },
      items: [
        line("centre line", "centre", { x: x - 5, y }, { x: x + 70, y }, "centre line"),
        line("string line", "thin", { x: x + 2, y: y - bassSide * 26 }, { x: x + 60, y: y - bassSide * 26 }, "1 G"),
        line("string line", "thick", { x: x + 2, y: y + bassSide * 26 }, { x: x + 60, y: y + bassSide * 26 }, "4 E"),
        ...spots.map(({ dx, dy, role, ...shape }, index) =>
          hole(role, `hole#${index + 1}`, {
            ...shape,
            centre: { x: x + 15 + 20 * (index % 3) + dx, y: y + 20 * (Math.floor(index / 3) - 1) + dy },
          }),
        ),
      ],
    }),
  );
