import { plainLogBeta } from "./gamma-function.ts";

/**
 * A first guess of the odds at which the lower tail of a beta distribution is p <= 1/2.
 *
 * @param logP log(p)
 */
export function startingOdds(logP: number, a: number, b: number): number {
  const z = roughNormalQuantile(logP);
  const least = Math.min(a, b);
  if (least < 1 || z * z > 2 * least) return a < b ? oddsNearZero(logP, a, b) : oddsNearOne(logP, a, b);
  const u = 1 / (a - 0.5);
  const v = 1 / (b - 0.5);
  const variance = u + v - (u * u * u + v * v * v) / 12;
  const deviation = Math.sqrt(variance);
  const shift = (u * u - v * v) / 24 + deviation * cornishFisher(z, u, v, variance, deviation);
  return ((a - 0.5) / (b - 0.5)) * Math.exp(shift);
}

/** From the first two terms of the lower tail, x^a / (a B) (1 + …). */
function oddsNearZero(logP: number, a: number, b: number): number {
  const logX = (logP + Math.log(a) + plainLogBeta(a, b)) / a;
  const curve = ((b - 1) * Math.exp(logX)) / (a + 1);
  return (curve < 0.5 ? 1 + curve : 1) / Math.expm1(-logX);
}

/** From the lower tail as x^a y^(b - 1) / (a B); for b < 1 from the upper tail as y^b / (b B) where y is small. */
function oddsNearOne(logP: number, a: number, b: number): number {
  const logB = plainLogBeta(a, b);
  if (b < 1) {
    const y = Math.exp((Math.log1p(-Math.exp(logP)) + Math.log(b) + logB) / b);
    if (a * y < 0.2) return (1 - y) / y;
  }
  let fall = Math.max(1, -logP);
  for (let step = 0; step < 2; step++) {
    fall = Math.max(0.3, (b - 1) * Math.log(-Math.expm1(-fall / a)) - logP - Math.log(a) - logB);
  }
  return 1 / Math.expm1(fall / a);
}

/**
 * The standardised quantile of the log odds from that of a normal variable, by the expansion of Cornish and
 * Fisher up to the fifth cumulant; the cumulants, polygamma functions of a and b, by their leading
 * terms in u = 1 / (a - 1/2) and v = 1 / (b - 1/2). Good to 1e-3 standard deviations where both are above 5.
 * Source: Abramowitz & Stegun 26.2.49 and 6.4.12.
 */
function cornishFisher(z: number, u: number, v: number, variance: number, deviation: number): number {
  const square = z * z;
  const perVariance = 1 / variance;
  const perSquare = perVariance * perVariance;
  const skew = ((v - u) * (v + u) * perVariance) / deviation;
  const excess = 2 * (u * u * u + v * v * v) * perSquare;
  const fifth = (6 * (v - u) * (v + u) * (u * u + v * v) * perSquare) / deviation;
  const third = ((square - 1) * skew) / 6;
  const fourth = (z * ((square - 3) * excess - ((2 * square - 5) * skew * skew) / 1.5)) / 24;
  const rest =
    ((square * (square - 6) + 3) * fifth) / 120 -
    ((square * (square - 5) + 2) * skew * excess) / 24 +
    ((square * (12 * square - 53) + 17) * skew * skew * skew) / 324;
  return z + third + fourth + rest;
}

/** The normal quantile of a lower tail below 1/2 to 4.5e-4. Source: Abramowitz & Stegun 26.2.23. */
function roughNormalQuantile(logP: number): number {
  const t = Math.sqrt(-2 * logP);
  const top = 2.515517 + t * (0.802853 + t * 0.010328);
  const bottom = 1 + t * (1.432788 + t * (0.189269 + t * 0.001308));
  return top / bottom - t;
}
