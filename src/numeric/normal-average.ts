import { gaussHermite } from "./gauss-hermite.ts";
import type { GaussRule } from "./gauss-legendre.ts";
import { requireNonNegative } from "./require.ts";

/** Beyond 8.3 the normal distribution has nothing left that a double would show beside 1. */
const REACH = 8.3;
/** Step, times the root of 1 + steepness, at which the trapezoidal rule's error is about 1e-14. */
const STEP = 0.78;
const kept = new Map<number, GaussRule>();

/**
 * A rule for the mean of a product of normal probabilities cdf(a + s u) over a standard normal u: places and
 * weights, absolute error about 1e-14. The same rule, the same object, for nearly the same steepness.
 *
 * @param steepness sum of s squared over the factors of the product, 0 or more
 * Source: up to 1 Gauss and Hermite; beyond, the trapezoidal rule, which then needs fewer places: its error for
 * such a product is about exp(-2 pi^2 / (h^2 (1 + steepness))) with steps of h (own derivation from how fast
 * the product grows off the real line, as in Trefethen and Weideman 2014, SIAM Review 56, 385-458; recalled).
 */
export function normalAverage(steepness: number): GaussRule {
  requireNonNegative("steepness", steepness);
  const quarters = Math.ceil(steepness * 4);
  let rule = kept.get(quarters);
  if (rule === undefined) {
    rule = quarters <= 4 ? gaussHermite(14 + 4 * quarters) : trapezoid(quarters / 4);
    kept.set(quarters, rule);
  }
  return rule;
}

function trapezoid(steepness: number): GaussRule {
  const half = Math.ceil((REACH * Math.sqrt(1 + steepness)) / STEP);
  const step = REACH / half;
  const nodes = Array.from({ length: 2 * half + 1 }, (_, at) => (at - half) * step);
  const heights = nodes.map((node) => Math.exp((-node * node) / 2));
  const total = heights.reduce((sum, height) => sum + height, 0);
  return { nodes, weights: heights.map((height) => height / total) };
}
