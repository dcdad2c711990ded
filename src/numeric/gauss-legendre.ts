import { requireCount } from "./require.ts";

/** Places in -1..1 and their weights, which add up to 2. */
export interface GaussRule {
  readonly nodes: readonly number[];
  readonly weights: readonly number[];
}

/**
 * The rule of Gauss and Legendre: the sum of weights × values is the integral over -1..1, exactly for
 * polynomials up to degree 2 size - 1.
 *
 * @param size how many places, 1 or more; meant for up to a few hundred
 * @throws InputError for no whole number of 1 or more
 * Source: DLMF 3.5(v); the places by Newton's steps on the Legendre polynomial, from the usual cosine guess.
 */
export function gaussLegendre(size: number): GaussRule {
  requireCount("size", size - 1);
  const found = Array.from({ length: size }, (_, at) => {
    let x = -Math.cos((Math.PI * (at + 0.75)) / (size + 0.5));
    for (let step = 0; step < 8; step += 1) {
      const { value, slope } = legendre(size, x);
      x -= value / slope;
    }
    const { slope } = legendre(size, x);
    return { node: x, weight: 2 / ((1 - x * x) * slope * slope) };
  });
  return { nodes: found.map(({ node }) => node), weights: found.map(({ weight }) => weight) };
}

/** The Legendre polynomial of a degree of 1 or more and its slope, inside -1..1. */
function legendre(degree: number, x: number): { value: number; slope: number } {
  let before = 1;
  let value = x;
  for (let n = 2; n <= degree; n += 1) {
    [before, value] = [value, ((2 * n - 1) * x * value - (n - 1) * before) / n];
  }
  return { value, slope: (degree * (before - x * value)) / (1 - x * x) };
}
