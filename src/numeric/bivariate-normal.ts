import { InputError } from "../core/input-error.ts";
import { gaussLegendre } from "./gauss-legendre.ts";
import { normalCdf } from "./normal.ts";
import { requireNumber } from "./require.ts";

const TWO_PI = 2 * Math.PI;
/** Exponents below this leave nothing. */
const NOTHING = -700;
/** Correlations from here on are taken from the side of 1. */
const STRONG = 0.925;

/** Rules by the strength of the correlation; the first has the fewest places. */
const WEAK_RULE = gaussLegendre(8);
const MIDDLE_RULE = gaussLegendre(14);
const STRONG_RULE = gaussLegendre(24);

/** @throws InputError unless `value` is a number from -1 to 1 */
export function requireCorrelation(name: string, value: number): void {
  if (!(value >= -1 && value <= 1)) throw new InputError([name], "a number between -1 and 1", value);
}

/**
 * P(X <= x and Y <= y) for two standard normal variables with a correlation.
 *
 * Absolute accuracy about 1e-15, relative about 1e-13 for a correlation of 0 or more; for a negative one a
 * very small probability keeps the absolute accuracy only.
 *
 * @param x may be infinite, as `y`
 * @param correlation -1 to 1, both allowed
 * @throws InputError outside the domain
 * Source: Genz 2004, Statistics and Computing 14, 251-260 (after Drezner and Wesolowsky 1990); formula
 * recalled, held against 40-digit integrals.
 */
export function bivariateNormalCdf(x: number, y: number, correlation: number): number {
  requireNumber("x", x);
  requireNumber("y", y);
  requireCorrelation("correlation", correlation);
  if (x === Number.NEGATIVE_INFINITY || y === Number.NEGATIVE_INFINITY) return 0;
  if (x === Number.POSITIVE_INFINITY) return normalCdf(y);
  if (y === Number.POSITIVE_INFINITY) return normalCdf(x);
  const found =
    Math.abs(correlation) < STRONG
      ? normalCdf(x) * normalCdf(y) + gained(x, y, correlation)
      : nearOne(x, y, correlation);
  return Math.min(1, Math.max(0, found));
}

/**
 * P(X <= x and Y <= y) less the product of the two probabilities: the covariance of the two events. Keeps its
 * relative accuracy where the excess is small.
 *
 * @param x finite, as `y`
 * @param correlation -1 to 1
 */
export function bivariateExcess(x: number, y: number, correlation: number): number {
  return Math.abs(correlation) < STRONG
    ? gained(x, y, correlation)
    : nearOne(x, y, correlation) - normalCdf(x) * normalCdf(y);
}

/** The density integrated over the correlation from 0, by its arcsine. */
function gained(x: number, y: number, correlation: number): number {
  const size = Math.abs(correlation);
  const { nodes, weights } = size < 0.3 ? WEAK_RULE : size < 0.75 ? MIDDLE_RULE : STRONG_RULE;
  const halfAngle = Math.asin(correlation) / 2;
  const product = x * y;
  const halfSquares = (x * x + y * y) / 2;
  let sum = 0;
  for (let at = 0; at < nodes.length; at += 1) {
    const sine = Math.sin(halfAngle * (1 + (nodes[at] as number)));
    sum += (weights[at] as number) * Math.exp((sine * product - halfSquares) / (1 - sine * sine));
  }
  return (sum * halfAngle) / TWO_PI;
}

/** From the limit of a correlation of 1 or -1, less the density integrated over what is left up to it. */
function nearOne(x: number, y: number, correlation: number): number {
  const positive = correlation > 0;
  const other = positive ? y : -y;
  const left = correlation * correlation < 1 ? lost(x, other, Math.abs(correlation)) : 0;
  if (positive) return normalCdf(Math.min(x, y)) - left;
  return (x > other ? between(other, x) : 0) + left;
}

/** P(low < X <= high), from the tail in which it loses fewer digits. */
function between(low: number, high: number): number {
  return low > 0
    ? normalCdf(low, "upper") - normalCdf(high, "upper")
    : normalCdf(high, "lower") - normalCdf(low, "lower");
}

/**
 * The density integrated from a correlation to 1: the leading terms of its expansion in sqrt(1 - r^2) in
 * closed form, the smooth remainder by quadrature.
 */
function lost(x: number, y: number, correlation: number): number {
  const square = (1 - correlation) * (1 + correlation);
  const size = Math.sqrt(square);
  const gap = Math.abs(x - y);
  const gapSquare = gap * gap;
  const product = x * y;
  const first = (4 - product) / 8;
  const second = (12 - product) / 80;
  let closed = 0;
  const exponent = -(gapSquare / square + product) / 2;
  if (exponent > NOTHING) {
    closed =
      size *
      Math.exp(exponent) *
      (1 -
        first * (gapSquare - square) * (1 - second * gapSquare) * (1 / 3) +
        first * second * square * square);
  }
  if (gap > 0) {
    const tail = Math.sqrt(TWO_PI) * normalCdf(-gap / size) * Math.exp(-product / 2);
    closed -= tail * gap * (1 - (first * gapSquare * (1 - second * gapSquare)) / 3);
  }
  return (closed + remainder(size / 2, gapSquare, product, first, second)) / TWO_PI;
}

function remainder(half: number, gapSquare: number, product: number, first: number, second: number): number {
  const { nodes, weights } = STRONG_RULE;
  let sum = 0;
  for (let at = 0; at < nodes.length; at += 1) {
    const place = half * (1 + (nodes[at] as number));
    const square = place * place;
    const exponent = -(gapSquare / square + product) / 2;
    if (exponent <= NOTHING) continue;
    const root = Math.sqrt(1 - square);
    const grown = Math.exp((-product * square) / (2 * (1 + root) * (1 + root))) / root;
    const expanded = 1 + first * square * (1 + 5 * second * square);
    sum += (weights[at] as number) * Math.exp(exponent) * (grown - expanded);
  }
  return sum * half;
}
