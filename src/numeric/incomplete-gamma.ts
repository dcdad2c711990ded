import { betaTail } from "./incomplete-beta.ts";
import { requireNonNegative, requireShape, requireTail } from "./require.ts";
import type { Tail } from "./tail.ts";

/**
 * The regularised incomplete gamma function: the probability that a gamma distributed number with shape a
 * and scale 1 is at most x ("lower") or above x ("upper"), each with relative accuracy of its own, as for
 * `incompleteBeta`.
 *
 * @param a above 0, from 1e-100 to 1e16
 * @param x 0 or more, infinity allowed
 * @throws InputError outside the domain
 */
export function incompleteGamma(a: number, x: number, tail: Tail = "lower"): number {
  requireShape("a", a);
  requireNonNegative("x", x);
  requireTail(tail);
  return gammaTail(a, x, tail);
}

/** As `incompleteGamma`, unchecked. */
export function gammaTail(a: number, x: number, tail: Tail): number {
  const many = manyFor(a);
  const share = x / many;
  return share < FAR ? betaTail(a, many, share, 1, tail) : betaTail(a, many, 1, 0, tail);
}

/** From here on e^-x is 0 for any shape. */
const FAR = 2 ** -50;

/**
 * A gamma variable of shape a is the limit of b times a beta variable of shapes a and b. With this b the limit
 * is reached to 1e-30, and each step of the beta function turns into the known one of the gamma function: the
 * power series, Legendre's continued fraction (DLMF 8.9.2) and Loader's saddle-point form of x^a e^-x / Gamma(a).
 * A power of 2, so that nothing is rounded when dividing by it.
 */
export function manyFor(a: number): number {
  return Math.pow(2, 100 + Math.ceil(Math.log2(Math.max(a, 1))));
}
