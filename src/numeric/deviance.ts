/** Below this size of t the fit is used. */
const NEAR = 0.4;

/**
 * t - log(1 + t), for t > -1, without the cancellation near t = 0: with s = t / (2 + t), log(1 + t) is
 * 2 atanh(s) = 2 s + 2 s^3 (1/3 + s^2/5 + s^4/7 + …), and the bracket is a minimax fit for s^2 up to 1/16
 * (error 2e-17; mpmath 1.3.0). Relative accuracy: a few units in the last place.
 */
function logGap(t: number): number {
  if (t > NEAR || t < -NEAR) return t - Math.log1p(t);
  const s = t / (2 + t);
  const q = s * s;
  const r = q * q;
  const even =
    1 / 3 +
    r *
      (0.14285714286477938 + r * (0.0909091929486584 + r * (0.06679165229050926 + r * 0.06829739362457482)));
  const odd =
    0.19999999999998205 + r * (0.11111110986270721 + r * (0.07691840563802481 + r * 0.056893920929386915));
  return s * (t - 2 * q * (even + q * odd));
}

/** As `logGap(t)`, where 1 + t is known more accurately as part / whole than by adding. */
export function logGapOf(t: number, part: number, whole: number): number {
  return t < -NEAR ? t - Math.log(part / whole) : logGap(t);
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
  return observed * logGapOf(-difference / observed, expected, observed);
}
