import { logGapOf } from "./deviance.ts";
import { exactExcess } from "./exact-excess.ts";

/** (a + b) x - a: how far x is above the mean, in units of a + b; from the smaller of x and y = 1 - x. */
export function betaExcess(a: number, b: number, x: number, y: number): number {
  const total = a + b;
  const lost = a > b ? b - (total - a) : a - (total - b);
  return x <= y ? exactExcess(total, x, a) + lost * x : -exactExcess(total, y, b) - lost * y;
}

/**
 * log of x^a y^b / B(a, b), y = 1 - x, in saddle-point form, so that large parameters lose nothing.
 * This is the density of the log odds log(x / y). Source: Loader 2000.
 *
 * @param scale `logBetaScale(a, b)`
 * @param excess `betaExcess(a, b, x, y)`
 */
export function logBetaKernel(
  a: number,
  b: number,
  scale: number,
  x: number,
  y: number,
  excess: number,
): number {
  const total = a + b;
  return scale - a * logGapOf(excess / a, total * x, a) - b * logGapOf(-excess / b, total * y, b);
}
