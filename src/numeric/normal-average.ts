import { gaussHermite } from "./gauss-hermite.ts";
import type { GaussRule } from "./gauss-legendre.ts";
import { requireNonNegative } from "./require.ts";

/** Steepness up to which the rule of Gauss and Hermite needs fewer places. */
const MOST_FOR_GAUSS = 4;
const REACH = 9;
const kept = new Map<number, GaussRule>();

/**
 * A rule for the mean of a product of normal probabilities cdf(a + s u) over a standard normal u: places and
 * weights, exact to about 1e-14.
 *
 * @param steepness sum of s squared over the factors of the product, 0 or more
 * Source: up to 4 Gauss and Hermite; beyond, the trapezoidal rule, whose error for such a product is about
 * exp(-2 pi^2 / (h^2 (1 + steepness))) with steps of h (own derivation, after Trefethen and Weideman 2014,
 * SIAM Review 56, 385-458).
 */
export function normalAverage(steepness: number): GaussRule {
  requireNonNegative("steepness", steepness);
  const key = Math.ceil(steepness * 4);
  let rule = kept.get(key);
  if (rule === undefined) {
    rule = key <= 4 * MOST_FOR_GAUSS ? gaussHermite(24 + 4 * key) : trapezoid(key / 4);
    kept.set(key, rule);
  }
  return rule;
}

function trapezoid(steepness: number): GaussRule {
  const half = Math.ceil(REACH / (0.74 / Math.sqrt(1 + steepness)));
  const step = REACH / half;
  const nodes = Array.from({ length: 2 * half + 1 }, (_, at) => (at - half) * step);
  const heights = nodes.map((node) => Math.exp((-node * node) / 2));
  const total = heights.reduce((sum, height) => sum + height, 0);
  return { nodes, weights: heights.map((height) => height / total) };
}
