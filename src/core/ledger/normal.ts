/**
 * The normal distribution: area below a point, and the point below which a given area lies.
 *
 * Model: area by the series of odd powers over double factorials, which only adds numbers of one sign; point by
 * rational approximations in three ranges.
 * Left out: relative accuracy of areas below about 1e-15, where the answer is 0 or 1 for every use here.
 * Sources: G. Marsaglia, "Evaluating the normal distribution", Journal of Statistical Software 11(4), 2004 (from
 * memory); M. J. Wichura, Algorithm AS 241 (PPND16), Applied Statistics 37, 1988, 477-484 (from memory, proved against
 * another program in the tests).
 */

/** Beyond this nothing is left to speak of. */
export const FARTHEST = 8.3;
const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);

/** Standard deviation is 1 for all three shapes; a uniform error reaches this far. */
export const UNIFORM_REACH = Math.sqrt(3);
export const TRIANGULAR_REACH = Math.sqrt(6);

/**
 * Probability that a standard normal value is at or below `z`.
 *
 * @example
 * normalArea(1.96); // 0.975002…
 */
export function normalArea(z: number): number {
  if (z < -FARTHEST) return 0;
  if (z > FARTHEST) return 1;
  const square = z * z;
  let power = z;
  let sum = z;
  for (let odd = 3; sum + power !== sum; odd += 2) {
    power *= square / odd;
    sum += power;
  }
  const area = 0.5 + (sum * Math.exp(-square / 2)) / ROOT_TWO_PI;
  return Math.min(1, Math.max(0, area));
}

/**
 * The point below which the area is `p`, for 0 < p < 1.
 *
 * @example
 * normalPoint(0.975); // 1.959963…
 */
export function normalPoint(p: number): number {
  const fromMiddle = p - 0.5;
  if (Math.abs(fromMiddle) <= 0.425) {
    const r = 0.180625 - fromMiddle * fromMiddle;
    return fromMiddle * ratio(r, MIDDLE);
  }
  const r = Math.sqrt(-Math.log(fromMiddle < 0 ? p : 1 - p));
  const distance = r <= 5 ? ratio(r - 1.6, FLANK) : ratio(r - 5, TAIL);
  return fromMiddle < 0 ? -distance : distance;
}

/** Point of a uniform error of standard deviation 1. */
export function uniformPoint(p: number): number {
  return (2 * p - 1) * UNIFORM_REACH;
}

/** Point of a symmetric triangular error of standard deviation 1. */
export function triangularPoint(p: number): number {
  return p < 0.5 ? (Math.sqrt(2 * p) - 1) * TRIANGULAR_REACH : (1 - Math.sqrt(2 * (1 - p))) * TRIANGULAR_REACH;
}

const TABLE_STEPS = 64;
const TABLE_REACH = 8;
/** Areas at steps of 1/64, worked out when first asked for. */
let areaTable: Float64Array | undefined;

/** `normalArea` to 1e-5, for loops: straight between tabled steps, off by at most step²/8 × 0.242. */
export function quickNormalArea(z: number): number {
  areaTable ??= Float64Array.from({ length: 2 * TABLE_REACH * TABLE_STEPS + 2 }, (_, step) =>
    normalArea(step / TABLE_STEPS - TABLE_REACH),
  );
  if (z <= -TABLE_REACH) return 0;
  if (z >= TABLE_REACH) return 1;
  const place = (z + TABLE_REACH) * TABLE_STEPS;
  const left = Math.floor(place);
  const area = areaTable[left] ?? 0;
  return area + ((areaTable[left + 1] ?? 1) - area) * (place - left);
}

/** Probability that a uniform error of standard deviation 1 is at or below `z`. */
export function uniformArea(z: number): number {
  return Math.min(1, Math.max(0, (1 + z / UNIFORM_REACH) / 2));
}

/** The same for a symmetric triangular error. */
export function triangularArea(z: number): number {
  const toEnd = Math.max(0, 1 - Math.abs(z) / TRIANGULAR_REACH);
  return z < 0 ? (toEnd * toEnd) / 2 : 1 - (toEnd * toEnd) / 2;
}

interface Rational {
  /** Coefficients, highest power first. */
  readonly above: Coefficients;
  readonly below: Coefficients;
}

type Coefficients = readonly [number, number, number, number, number, number, number, number];

const MIDDLE: Rational = {
  above: [
    2509.0809287301227, 33430.57558358813, 67265.7709270087, 45921.95393154987, 13731.69376550946, 1971.5909503065513,
    133.14166789178438, 3.3871328727963665,
  ],
  below: [
    5226.495278852854, 28729.085735721943, 39307.89580009271, 21213.794301586597, 5394.196021424751, 687.1870074920579,
    42.31333070160091, 1,
  ],
};

const FLANK: Rational = {
  above: [
    0.0007745450142783414, 0.022723844989269184, 0.2417807251774506, 1.2704582524523684, 3.6478483247632045,
    5.769497221460691, 4.630337846156546, 1.4234371107496835,
  ],
  below: [
    1.0507500716444169e-9, 0.0005475938084995345, 0.015198666563616457, 0.14810397642748008, 0.6897673349851,
    1.6763848301838038, 2.053191626637759, 1,
  ],
};

const TAIL: Rational = {
  above: [
    2.0103343992922881e-7, 2.7115555687434876e-5, 0.0012426609473880784, 0.026532189526576124, 0.29656057182850487,
    1.7848265399172913, 5.463784911164114, 6.657904643501103,
  ],
  below: [
    2.0442631033899397e-15, 1.421511758316446e-7, 1.8463183175100548e-5, 0.0007868691311456133, 0.014875361290850615,
    0.1369298809227358, 0.599832206555888, 1,
  ],
};

function ratio(x: number, { above, below }: Rational): number {
  return polynomial(x, above) / polynomial(x, below);
}

/** Horner's scheme written out: it is worked out for every draw of every error. */
function polynomial(x: number, c: Coefficients): number {
  return ((((((c[0] * x + c[1]) * x + c[2]) * x + c[3]) * x + c[4]) * x + c[5]) * x + c[6]) * x + c[7];
}
