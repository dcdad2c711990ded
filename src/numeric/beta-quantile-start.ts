import { plainLogBeta } from "./gamma-function.ts";

/**
 * A first guess of the odds at which the lower tail of a beta distribution is p <= 1/2: from an expansion about
 * the normal distribution for sizeable shapes, else from the first term of a tail near one of the ends.
 *
 * @param logP log(p)
 */
export function startingOdds(logP: number, a: number, b: number): number {
  const z = roughNormalQuantile(logP);
  const least = Math.min(a, b);
  if (least >= 1 && z * z <= 2 * least) return oddsByExpansion(z, a, b);
  const logB = plainLogBeta(a, b);
  if (b < 1) {
    const logY = (Math.log1p(-Math.exp(logP)) + Math.log(b) + logB) / b;
    if (logY < -0.7 && a * Math.exp(logY) < 0.2) return Math.expm1(-logY);
  }
  const logFirst = logP + Math.log(a) + logB;
  return a < Math.max(b, 1) ? oddsNearZero(logFirst, a, b) : oddsFarBelow(logP, logFirst, a, b);
}

function oddsByExpansion(z: number, a: number, b: number): number {
  const u = 1 / (a - 0.5);
  const v = 1 / (b - 0.5);
  const variance = u + v - (u * u * u + v * v * v) / 12;
  const deviation = Math.sqrt(variance);
  const shift = (u * u - v * v) / 24 + deviation * cornishFisher(z, u, v, variance, deviation);
  return ((a - 0.5) / (b - 0.5)) * Math.exp(shift);
}

/** From the first two terms of the lower tail, x^a / (a B) (1 + …); 1 where they don't serve. */
function oddsNearZero(logFirst: number, a: number, b: number): number {
  const logX = logFirst / a;
  if (logX > -0.5) return 1;
  const curve = ((b - 1) * Math.exp(logX)) / (a + 1);
  return (curve < 0.5 ? 1 + curve : 1) / Math.expm1(-logX);
}

/** From the lower tail as x^a (1 - x)^(b - 1) / (a B), for a >= b. */
function oddsFarBelow(logP: number, logFirst: number, a: number, b: number): number {
  let fall = Math.max(1, -logP);
  for (let step = 0; step < 2; step++) {
    fall = Math.max(0.3, (b - 1) * Math.log(-Math.expm1(-fall / a)) - logFirst);
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
