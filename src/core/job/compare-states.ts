/**
 * Where two states of one instrument differ: as planned against as it is, or as found against as left.
 *
 * Both are folds of the same type. Lengths are compared by their values; a figure that only one state knows is told
 * as such. Sides are named as the player names them: bass side, treble side; back is toward the tail.
 */
import { mm, type Phrase, type Quantity, say } from "../quantity/index.ts";
import { wallDiameter } from "./acts-wood.ts";
import type { Instrument } from "./instrument.ts";
import type { Hole } from "./instrument-wood.ts";

export interface Difference {
  /** e.g. "body.holes.bridge-screws#3.u". */
  readonly path: string;
  /** Actual minus planned, where both are known lengths. */
  readonly mm?: number;
  readonly text: Phrase;
}

/** Two callipers' doubt (0.05 each at k = 1, so 0.14 at k = 2): smaller differences are not worth a line. */
const LEAST_MM = 0.1;

/**
 * Lists the differences, in the order of the instrument: holes, cavities, controls, lever, tuners, nut, shim, parts.
 *
 * @param options.leastMm smaller differences are left out; 0 lists every one
 */
export function compareStates(
  planned: Instrument,
  actual: Instrument,
  options: { readonly leastMm?: number } = {},
): readonly Difference[] {
  const least = options.leastMm ?? LEAST_MM;
  return [
    ...holes(planned, actual, least),
    ...cavities(planned, actual, least),
    ...fittings(planned, actual, least),
    ...parts(planned, actual),
  ];
}

function holes(planned: Instrument, actual: Instrument, least: number): Difference[] {
  const out: Difference[] = [];
  for (const { id, left, right } of pairs(planned.body.holes, actual.body.holes)) {
    const path = `body.holes.${id}`;
    if (!right) out.push({ path, text: say`hole ${id} is planned and not there yet` });
    else if (!left) out.push({ path, text: say`hole ${id} was not planned` });
    else out.push(...holePlace(left, right, actual.bassSide, least), ...holeState(left, right, least));
  }
  return out;
}

function holePlace(left: Hole, right: Hole, bassSide: 1 | -1, least: number): Difference[] {
  const path = `body.holes.${left.id}`;
  const out: Difference[] = [];
  const back = apart(left.at.u, right.at.u, least);
  if (back !== undefined) {
    out.push({
      path: `${path}.u`,
      mm: back,
      text: say`hole ${left.id} stands ${mm(Math.abs(back))} further ${back > 0 ? "back" : "forward"} than planned`,
    });
  }
  const across = apart(left.at.y, right.at.y, least);
  if (across !== undefined) {
    const side = across * bassSide > 0 ? "bass" : "treble";
    out.push({
      path: `${path}.y`,
      mm: across,
      text: say`hole ${left.id} stands ${mm(Math.abs(across))} further to the ${side} side than planned`,
    });
  }
  return out;
}

function holeState(left: Hole, right: Hole, least: number): Difference[] {
  const path = `body.holes.${left.id}`;
  const plugged = (hole: Hole): boolean => hole.state === "plugged";
  if (plugged(left) !== plugged(right)) {
    return [
      {
        path: `${path}.state`,
        text: plugged(left)
          ? say`hole ${left.id} is still open and planned to be plugged`
          : say`hole ${left.id} is plugged and planned to be open`,
      },
    ];
  }
  const out = size(
    `${path}.diameter`,
    say`hole ${left.id} is`,
    "wider",
    "narrower",
    wallDiameter(left),
    wallDiameter(right),
    least,
  );
  if (left.depth === "through" || right.depth === "through") {
    if (left.depth === right.depth) return out;
    return [
      ...out,
      {
        path: `${path}.depth`,
        text:
          right.depth === "through"
            ? say`hole ${left.id} went right through, which was not planned`
            : say`hole ${left.id} is planned to go right through and does not`,
      },
    ];
  }
  return [
    ...out,
    ...size(`${path}.depth`, say`hole ${left.id} is`, "deeper", "shallower", left.depth, right.depth, least),
  ];
}

function cavities(planned: Instrument, actual: Instrument, least: number): Difference[] {
  return pairs(planned.body.cavities, actual.body.cavities).flatMap(({ id, left, right }) => {
    if (!left || !right)
      return [
        {
          path: `body.cavities.${id}`,
          text: left ? say`cavity ${id} is planned and not there` : say`cavity ${id} was not planned`,
        },
      ];
    const box = (a: Box, b: Box, what: string, path: string): Difference[] => [
      ...size(`${path}.length`, say`${what} is`, "longer", "shorter", a.length, b.length, least),
      ...size(`${path}.width`, say`${what} is`, "wider", "narrower", a.width, b.width, least),
      ...size(`${path}.depth`, say`${what} is`, "deeper", "shallower", a.depth, b.depth, least),
    ];
    const path = `body.cavities.${id}`;
    const ears = left.ears && right.ears ? box(left.ears, right.ears, `ear rout of ${id}`, `${path}.ears`) : [];
    return [...box(left, right, `cavity ${id}`, path), ...ears];
  });
}

interface Box {
  readonly length: Quantity;
  readonly width: Quantity;
  readonly depth: Quantity;
}

function fittings(planned: Instrument, actual: Instrument, least: number): Difference[] {
  const out: Difference[] = [];
  for (const { id, left, right } of pairs(planned.controls, actual.controls)) {
    if (!left || !right) continue;
    out.push(...size(`controls.${id}.hole`, say`hole of ${id} is`, "wider", "narrower", left.hole, right.hole, least));
    out.push(...size(`controls.${id}.wood`, say`wood at ${id} is`, "thicker", "thinner", left.wood, right.wood, least));
  }
  if (planned.lever && actual.lever)
    out.push(
      ...size(
        "lever.slot",
        say`slot of the lever is`,
        "longer",
        "shorter",
        planned.lever.oldSlot,
        actual.lever.oldSlot,
        least,
      ),
    );
  if (planned.tuners && actual.tuners)
    out.push(
      ...size(
        "headstock.hole",
        say`tuner holes are`,
        "wider",
        "narrower",
        planned.tuners.oldHole,
        actual.tuners.oldHole,
        least,
      ),
    );
  planned.neck.nutSlots.forEach((slot, index) => {
    const there = actual.neck.nutSlots[index];
    // Nut slots are a matter of hundredths: the calliper's doubt is no measure for them.
    if (there)
      out.push(
        ...size(
          `neck.nutSlots[${index}]`,
          say`nut slot of string ${index + 1} is`,
          "wider",
          "narrower",
          slot,
          there,
          Math.min(least, 0.02),
        ),
      );
  });
  out.push(...size("shim", say`shim is`, "thicker", "thinner", orNone(planned.shim), orNone(actual.shim), least));
  return out;
}

/** No word of a shim means that there is none. */
function orNone(shim: Quantity): Quantity {
  return shim.known
    ? shim
    : { known: true, path: shim.path, kind: "length", value: 0, origin: "assumed", doubt: [], said: "" };
}

function parts(planned: Instrument, actual: Instrument): Difference[] {
  const keys = [...new Set([...Object.keys(planned.fitted ?? {}), ...Object.keys(actual.fitted ?? {})])].sort();
  return keys.flatMap((part) => {
    const [left, right] = [planned.fitted?.[part], actual.fitted?.[part]];
    if (left === right) return [];
    if (left === undefined)
      return [
        { path: `fitted.${part}`, text: say`${part} was ${right ? "fitted" : "taken off"}, which was not planned` },
      ];
    return [
      {
        path: `fitted.${part}`,
        text: left
          ? say`${part} is planned to be on and has not been fitted`
          : say`${part} is planned to be off and is still on`,
      },
    ];
  });
}

function size(
  path: string,
  what: Phrase,
  more: string,
  less: string,
  left: Quantity,
  right: Quantity,
  least: number,
): Difference[] {
  if (left.known !== right.known)
    return [{ path, text: say`${what} known only ${left.known ? "as planned" : "as it is"}` }];
  const by = apart(left, right, least);
  return by === undefined
    ? []
    : [{ path, mm: by, text: say`${what} ${mm(Math.abs(by))} ${by > 0 ? more : less} than planned` }];
}

/** Actual minus planned, or undefined where that is not worth a line. */
function apart(left: Quantity, right: Quantity, least: number): number | undefined {
  if (!left.known || !right.known) return undefined;
  const by = right.value - left.value;
  return Math.abs(by) > least + 1e-9 ? by : undefined;
}

function pairs<Thing extends { readonly id: string }>(
  left: readonly Thing[],
  right: readonly Thing[],
): { id: string; left: Thing | undefined; right: Thing | undefined }[] {
  const ids = [...new Set([...left, ...right].map((thing) => thing.id))];
  return ids.map((id) => ({
    id,
    left: left.find((thing) => thing.id === id),
    right: right.find((thing) => thing.id === id),
  }));
}
