import { InputError } from "../core/input-error.ts";
import type { GaussRule } from "./gauss-legendre.ts";
import { findRoot } from "./root.ts";

const MOST = 256;

/**
 * The rule of Gauss and Hermite for the standard normal distribution: the sum of weights × values is the mean
 * of a function of a standard normal variable, exactly for polynomials up to degree 2 size - 1. The weights
 * add up to 1.
 *
 * @param size how many places, 1 to 256
 * @throws InputError for anything else
 * Source: DLMF 3.5(v), with the weight function rescaled to the normal density; places by sign changes of the
 * orthonormal Hermite polynomial on a grid finer than their distance, weights by Christoffel's sum.
 */
export function gaussHermite(size: number): GaussRule {
  if (!(Number.isSafeInteger(size) && size >= 1 && size <= MOST)) {
    throw new InputError(["size"], `a whole number from 1 to ${MOST}`, size);
  }
  const positive = positiveRoots(size);
  const nodes = [...positive.map((node) => -node).reverse(), ...(size % 2 === 1 ? [0] : []), ...positive];
  return { nodes, weights: nodes.map((node) => 1 / hermite(size, node).squares) };
}

/** Roots are at least pi / sqrt(size + 1/2) apart, and the last one is below 2 sqrt(size). */
function positiveRoots(size: number): number[] {
  const value = (x: number) => hermite(size, x).value;
  const step = 1 / Math.sqrt(size + 1);
  const roots: number[] = [];
  for (let low = step / 2; roots.length < Math.floor(size / 2); low += step) {
    if (value(low) > 0 !== value(low + step) > 0) roots.push(findRoot(value, low, low + step).root);
  }
  return roots;
}

/** The orthonormal polynomial of a degree, and the sum of squares of those below it. */
function hermite(degree: number, x: number): { value: number; squares: number } {
  let before = 0;
  let value = 1;
  let squares = 0;
  for (let n = 0; n < degree; n += 1) {
    squares += value * value;
    [before, value] = [value, (x * value - Math.sqrt(n) * before) / Math.sqrt(n + 1)];
  }
  return { value, squares };
}
