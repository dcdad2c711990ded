import { bivariateNormalCdf } from "./bivariate-normal.ts";
import { gaussLegendre } from "./gauss-legendre.ts";
import { normalCdf } from "./normal.ts";

/** Places in 0..1 and their weights, which add up to 1. */
export interface UnitRule {
  readonly places: Float64Array;
  readonly weights: Float64Array;
}

const WEAK_RULE = unitRule(8);
const MIDDLE_RULE = unitRule(12);
const STRONG_RULE = unitRule(32);
const SINGULAR_RULE = unitRule(96);
const TWO_PI = 2 * Math.PI;

/** The rule of Gauss and Legendre on 0..1. */
function unitRule(size: number): UnitRule {
  const { nodes, weights } = gaussLegendre(size);
  return {
    places: Float64Array.from(nodes, (node) => (node + 1) / 2),
    weights: Float64Array.from(weights, (weight) => weight / 2),
  };
}

/**
 * How finely to go along a path of correlations that ends with these.
 *
 * @param strongest largest size of a correlation
 * @param left      share of the variance left at the end of the path: near 0, the set is nearly singular
 */
export function ruleFor(strongest: number, left: number): UnitRule {
  if (left < 0.02) return SINGULAR_RULE;
  if (strongest > 0.85 || left < 0.2) return STRONG_RULE;
  return strongest > 0.4 ? MIDDLE_RULE : WEAK_RULE;
}

/**
 * P(X <= x, Y <= y, Z <= z) for three standard normal variables, finite thresholds.
 *
 * The least correlated variable is tied to the other two along a straight path from independence; the slope
 * along it (Plackett's identity) has closed form. Absolute accuracy about 1e-14, less for correlations that
 * are very nearly singular.
 *
 * @param xy correlation of X and Y, strictly between -1 and 1, as the others; together positive definite
 * Source: Plackett 1954, Biometrika 41, 351-360; path and order of the variables as in Genz 2004, Statistics
 * and Computing 14, 251-260. Recalled, held against sums over common factors.
 */
export function trivariateNormalCdf(
  x: number,
  y: number,
  z: number,
  xy: number,
  xz: number,
  yz: number,
): number {
  const sizeXy = Math.abs(xy);
  const sizeXz = Math.abs(xz);
  const sizeYz = Math.abs(yz);
  if (sizeYz >= sizeXy && sizeYz >= sizeXz) return fromFirst(x, y, z, xy, xz, yz);
  if (sizeXz >= sizeXy) return fromFirst(y, x, z, xy, yz, xz);
  return fromFirst(z, x, y, xz, yz, xy);
}

function fromFirst(x: number, y: number, z: number, xy: number, xz: number, yz: number): number {
  const free = normalCdf(x) * bivariateNormalCdf(y, z, yz);
  if (xy === 0 && xz === 0) return free;
  const volume = 1 - xy * xy - xz * xz - yz * yz + 2 * xy * xz * yz;
  const { places, weights } = ruleFor(Math.abs(yz), volume);
  let sum = 0;
  for (let at = 0; at < places.length; at += 1) {
    const place = places[at] as number;
    const slope =
      xy * slopeOf(x, y, z, place * xy, place * xz, yz) + xz * slopeOf(x, z, y, place * xz, place * xy, yz);
    sum += (weights[at] as number) * slope;
  }
  return Math.min(1, Math.max(0, free + sum / TWO_PI));
}

/** 2 pi times the density of the first two at their thresholds, times P(third below its own, given those). */
function slopeOf(x: number, y: number, z: number, xy: number, xz: number, yz: number): number {
  const rest = 1 - xy * xy;
  const density = Math.exp((x * y * xy - (x * x + y * y) / 2) / rest) / Math.sqrt(rest);
  if (density === 0) return 0;
  const mean = ((xz - xy * yz) * x + (yz - xy * xz) * y) / rest;
  const variance = 1 - (xz * xz - 2 * xy * xz * yz + yz * yz) / rest;
  return density * normalCdf((z - mean) / Math.sqrt(Math.max(variance, Number.MIN_VALUE)));
}
