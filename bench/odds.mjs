/** The odds of Lowtide's place: the ledger against plain draws through mathjs and through plain JavaScript. */
import { compile } from "mathjs";
import { jointly, weigh } from "../dist/core/ledger/index.js";
import { exact } from "../dist/core/quantity/index.js";
import { median, timed, versionOf } from "./measure.mjs";

const VERSION = versionOf("mathjs");
const MANY_DRAWS = 1e6;
const SETBACKS = [5.3, 9.4, 5.3, 7.5, 8.2, 10.7].map((cents) => (cents * 690) / (1200 / Math.LN2));
const FROM = [11.5, 11.5, 11.5, 13, 13, 13];
const TO = [16, 16, 16, 18, 18, 18];
const [LINE, LINE_U, PLACE, PLACE_U, SETBACK_U, RESERVE] = [182, 0.464, 170.9, 0.45, 0.2, 0.5];
/** Twice the standard error that the ledger stops at is 0.0025. */
const STANDARD_ERROR = 0.00125;

function doubtful(value, path, u) {
  return { ...exact(value, path), doubt: [{ id: path, u, shape: "normal", what: path }] };
}

export function oddsBench() {
  const leaves = { line: doubtful(LINE, "line", LINE_U), place: doubtful(PLACE, "place", PLACE_U) };
  const margins = {};
  SETBACKS.forEach((setback, i) => {
    leaves[`s${i}`] = doubtful(setback, `s${i}`, SETBACK_U);
    margins[`front${i}`] = (x) => x.line + x[`s${i}`] - x.place - FROM[i] - RESERVE;
    margins[`rear${i}`] = (x) => TO[i] - RESERVE - (x.line + x[`s${i}`] - x.place);
  });
  const problem = jointly({ leaves, unit: "mm", margins });
  const { probability } = weigh(problem);
  // A problem seen before is not worked out again, so each round brings its own.
  const own = median(Array.from({ length: 9 }, () => timed(() => weigh({ ...problem }))));
  const draws = Math.ceil((probability * (1 - probability)) / STANDARD_ERROR ** 2);
  const terms = SETBACKS.flatMap((_, i) => [
    `line + s${i} - place - ${FROM[i] + RESERVE}`,
    `${TO[i] - RESERVE} - (line + s${i} - place)`,
  ]);
  const expression = compile(`min(${terms.join(", ")})`);
  const byMathjs = median(Array.from({ length: 3 }, () => timed(() => count(draws, (x) => expression.evaluate(x)))));
  const byMany = median(Array.from({ length: 3 }, () => timed(() => count(MANY_DRAWS, leastByHand))));
  const byHand = median(Array.from({ length: 3 }, () => timed(() => count(draws, leastByHand))));
  return [
    {
      what: `odds of a place (P ${probability.toFixed(3)})`,
      own,
      peer: byMathjs,
      against: `mathjs ${VERSION}, ${draws} plain draws`,
    },
    { what: "odds of a place", own, peer: byHand, against: `plain JavaScript, ${draws} plain draws` },
    { what: "odds of a place", own, peer: byMany, against: `plain JavaScript, ${MANY_DRAWS} plain draws` },
  ];
}

function leastByHand(x) {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < SETBACKS.length; i += 1) {
    const p = x.line + x[`s${i}`] - x.place;
    least = Math.min(least, p - FROM[i] - RESERVE, TO[i] - RESERVE - p);
  }
  return least;
}

function count(draws, margin) {
  let goes = 0;
  const x = { line: 0, place: 0 };
  for (let n = 0; n < draws; n += 1) {
    x.line = LINE + LINE_U * normal();
    x.place = PLACE + PLACE_U * normal();
    for (let i = 0; i < SETBACKS.length; i += 1) x[`s${i}`] = SETBACKS[i] + SETBACK_U * normal();
    if (margin(x) >= 0) goes += 1;
  }
  return goes / draws;
}

let state = 20261125;

function uniform() {
  state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
  return (state + 0.5) / 4294967296;
}

function normal() {
  return Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}
