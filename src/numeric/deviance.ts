/** 2 (s^3/3 + s^5/5 + …) is the part of log(1 + t) = 2 atanh(s) beyond its first term; s = t / (2 + t). */
const NEAR = 0.4;

/**
 * t - log(1 + t), for t > -1, without the cancellation near t = 0.
 * Relative accuracy: a few units in the last place.
 */
export function logGap(t: number): number {
  if (t > NEAR || t < -NEAR) return t - Math.log1p(t);
  const s = t / (2 + t);
  const q = s * s;
  let sum = 1 / 27;
  sum = 1 / 25 + q * sum;
  sum = 1 / 23 + q * sum;
  sum = 1 / 21 + q * sum;
  sum = 1 / 19 + q * sum;
  sum = 1 / 17 + q * sum;
  sum = 1 / 15 + q * sum;
  sum = 1 / 13 + q * sum;
  sum = 1 / 11 + q * sum;
  sum = 1 / 9 + q * sum;
  sum = 1 / 7 + q * sum;
  sum = 1 / 5 + q * sum;
  sum = 1 / 3 + q * sum;
  return s * (t - 2 * q * sum);
}

/**
 * As `logGap(t)`, where 1 + t is known more accurately as `ratio` than by adding.
 */
export function logGapOf(t: number, ratio: number): number {
  return t < -NEAR ? t - Math.log(ratio) : logGap(t);
}

/**
 * The Poisson deviance of a count from its expectation, halved:
 * observed log(observed / expected) + expected - observed, never negative.
 * Source: Loader 2000, "Fast and accurate computation of binomial probabilities" (there bd0).
 *
 * @param observed 0 or more
 * @param expected above 0
 * @param difference observed - expected, when it is known more accurately than by subtracting
 */
export function deviance(observed: number, expected: number, difference = observed - expected): number {
  if (observed === 0) return expected;
  return observed * logGapOf(-difference / observed, expected / observed);
}
