import { polynomial } from "./polynomial.ts";
import { requireNumber, requireProbability, requireTail } from "./require.ts";
import type { Tail } from "./tail.ts";

const INVERSE_ROOT_TWO_PI = 0.3989422804014327;
/** Where the two fits meet. */
const FAR_FROM = 6;

/**
 * Minimax fits by 50-digit arithmetic (mpmath 1.3.0) of the upper tail divided by exp(-z^2 / 2): in z up to 6
 * (error 6e-19), and, times z, in 1 / z^2 beyond (4e-18). Highest powers first.
 */
const NEAR_TOP = [
  3.1235631674872442e-6, 8.486312448575896e-5, 0.001092199700654736, 0.008641944138506573,
  0.045879375918002306, 0.1676264498828317, 0.4144344596501948, 0.6431610725316989, 0.5,
] as const;
const NEAR_BOTTOM = [
  7.829611108306e-6, 0.00021272035404738064, 0.0027455666204129125, 0.021874899160494135, 0.11772400374427452,
  0.44142177846907, 1.1483576989935047, 1.9918252714328744, 2.084206705866263, 1,
] as const;
const FAR_TOP = [
  485.4902259829677, 2103.671217550914, 1289.018013257069, 247.8553864522949, 17.6046936151477,
  0.3989422804014327,
] as const;
const FAR_BOTTOM = [
  3681.1932309956173, 7628.932359702379, 3774.113472625257, 663.4097424829336, 45.12842278194503, 1,
] as const;

/** The standard normal density at z. */
export function normalDensity(z: number): number {
  requireNumber("z", z);
  return INVERSE_ROOT_TWO_PI * gaussian(Math.abs(z));
}

/** exp(-z^2 / 2), with the square split so that its rounding does not reach the result. */
function gaussian(z: number): number {
  if (z > 40) return 0;
  const coarse = Math.trunc(z * 16) / 16;
  return Math.exp(-0.5 * coarse * coarse) * Math.exp(-0.5 * (z - coarse) * (z + coarse));
}

/**
 * The standard normal distribution: P(Z <= z) ("lower") or P(Z > z) ("upper"), each with relative accuracy
 * of its own, about 1e-15, down to the smallest double.
 *
 * @throws InputError where z is not a number
 */
export function normalCdf(z: number, tail: Tail = "lower"): number {
  requireNumber("z", z);
  requireTail(tail);
  const size = Math.abs(z);
  const small = gaussian(size) * scaledTail(size);
  return z > 0 === (tail === "upper") ? small : 1 - small;
}

/** The upper tail at z >= 0, divided by exp(-z^2 / 2). */
function scaledTail(z: number): number {
  if (z <= FAR_FROM) return polynomial(NEAR_TOP, z) / polynomial(NEAR_BOTTOM, z);
  const square = 1 / (z * z);
  return polynomial(FAR_TOP, square) / polynomial(FAR_BOTTOM, square) / z;
}

/** Rational fits of Wichura 1988 (AS 241, Applied Statistics 37, 477-484), routine PPND16. */
const CENTRE_TOP = [
  2509.0809287301227, 33430.57558358813, 67265.7709270087, 45921.95393154987, 13731.69376550946,
  1971.5909503065513, 133.14166789178438, 3.3871328727963665,
] as const;
const CENTRE_BOTTOM = [
  5226.495278852546, 28729.085735721943, 39307.89580009271, 21213.794301586597, 5394.196021424751,
  687.1870074920579, 42.31333070160091, 1,
] as const;
const MIDDLE_TOP = [
  0.0007745450142783414, 0.022723844989269184, 0.2417807251774506, 1.2704582524523684, 3.6478483247632045,
  5.769497221460691, 4.630337846156546, 1.4234371107496835,
] as const;
const MIDDLE_BOTTOM = [
  1.0507500716444169e-9, 0.0005475938084995345, 0.015198666563616457, 0.14810397642748008, 0.6897673349851,
  1.6763848301838038, 2.053191626637759, 1,
] as const;
const OUTER_TOP = [
  2.0103343992922881e-7, 2.7115555687434876e-5, 0.0012426609473880784, 0.026532189526576124,
  0.29656057182850487, 1.7848265399172913, 5.463784911164114, 6.657904643501103,
] as const;
const OUTER_BOTTOM = [
  2.0442631033899397e-15, 1.421511758316446e-7, 1.8463183175100548e-5, 0.0007868691311456133,
  0.014875361290850615, 0.1369298809227358, 0.599832206555888, 1,
] as const;

/**
 * The standard normal quantile: the z with P(Z <= z) = p ("lower") or P(Z > z) = p ("upper").
 * Relative accuracy about 1e-15; for p = 0 and 1 it is infinite.
 *
 * @param p probability, 0 to 1
 * @throws InputError outside the domain
 * Source: Wichura 1988, algorithm AS 241.
 */
export function normalQuantile(p: number, tail: Tail = "lower"): number {
  requireProbability("p", p);
  requireTail(tail);
  const sign = tail === "lower" ? 1 : -1;
  const centred = p - 0.5;
  if (Math.abs(centred) <= 0.425) {
    const r = 0.180625 - centred * centred;
    return (sign * centred * polynomial(CENTRE_TOP, r)) / polynomial(CENTRE_BOTTOM, r);
  }
  return centred < 0 ? sign * lowerEnd(p) : -sign * lowerEnd(1 - p);
}

/** For p below 0.075. */
function lowerEnd(p: number): number {
  if (p === 0) return Number.NEGATIVE_INFINITY;
  const r = Math.sqrt(-Math.log(p));
  return r <= 5
    ? -polynomial(MIDDLE_TOP, r - 1.6) / polynomial(MIDDLE_BOTTOM, r - 1.6)
    : -polynomial(OUTER_TOP, r - 5) / polynomial(OUTER_BOTTOM, r - 5);
}
