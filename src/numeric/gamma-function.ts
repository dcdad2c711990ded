import { polynomial } from "./polynomial.ts";
import { requirePositive, requireShape } from "./require.ts";

const HALF_LOG_TWO_PI = 0.9189385332046728;
const TWO_PI = 2 * Math.PI;
const LOG_TWO_PI = 2 * HALF_LOG_TWO_PI;
/** From here on eight terms of Stirling's series are exact to the last place. */
const STIRLING_FROM = 10;

/** Stirling's series in 1 / x^2, times 1 / x; highest power first. Source: DLMF 5.11.1. */
const STIRLING = [
  -3617 / 122400,
  1 / 156,
  -691 / 360360,
  1 / 1188,
  -1 / 1680,
  1 / 1260,
  -1 / 360,
  1 / 12,
] as const;

/** `stirlingCorrection` at 1/2, 1, 3/2, … 19/2, by 50-digit arithmetic (mpmath 1.3.0). */
const AT_HALVES = [
  0.15342640972002736, 0.08106146679532726, 0.05481412105191765, 0.0413406959554093, 0.033162873519936284,
  0.02767792568499834, 0.023746163656297496, 0.020790672103765093, 0.018488450532673183, 0.016644691189821193,
  0.01513497322191738, 0.013876128823070748, 0.012810465242920227, 0.01189670994589177, 0.011104559758206917,
  0.010411265261972096, 0.009799416126158804, 0.009255462182712733, 0.008768700134139386,
] as const;

/**
 * What Stirling's formula lacks: log Gamma(x + 1) - [(x + 1/2) log x - x + log(2 pi) / 2].
 * About 1 / (12 x) for large x. Absolute accuracy about 1e-15.
 * Source: Loader 2000 (there stirlerr); the series is DLMF 5.11.1.
 *
 * @param x above 0
 */
function stirlingCorrection(x: number): number {
  if (x >= STIRLING_FROM) return stirlingSeries(x);
  const atHalf = Number.isInteger(2 * x) ? AT_HALVES[2 * x - 1] : undefined;
  if (atHalf !== undefined) return atHalf;
  const steps = Math.ceil(STIRLING_FROM - x);
  const raised = x + steps;
  let product = 1;
  for (let step = 1; step <= steps; step++) product *= (x + step) / raised;
  return stirlingSeries(raised) + (x + 0.5) * Math.log1p(steps / x) - Math.log(product) - steps;
}

function stirlingSeries(x: number): number {
  const p = 1 / x;
  const q = p * p;
  if (x > 1000) return p * (1 / 12 - q * (1 / 360 - q * (1 / 1260)));
  const r = q * q;
  const even = 1 / 12 + r * (1 / 1260 + r * (1 / 1188 + r * (1 / 156)));
  const odd = 1 / 360 + r * (1 / 1680 + r * (691 / 360360 + r * (3617 / 122400)));
  return p * (even - q * odd);
}

/**
 * log(x!) - (x log x - x), the part of a log factorial that is left after Stirling's main terms;
 * 0 at x = 0.
 */
export function factorialCorrection(x: number): number {
  return x === 0 ? 0 : 0.5 * (LOG_TWO_PI + Math.log(x)) + stirlingCorrection(x);
}

/** Minimax fit of log Gamma(x) / ((x - 1)(x - 2)) at x = 3/2 + s, |s| <= 1/2; error 6e-18 (mpmath 1.3.0). */
const FIT_TOP = [
  5.001081113581269e-6, 0.0012774380668719102, 0.027230347158436318, 0.19676268867958638, 0.6248711350725789,
  0.9013846394030535, 0.4831289505409809,
] as const;
const FIT_BOTTOM = [
  0.00036893976292285525, 0.013263239099206165, 0.1486108537745807, 0.7390558701888554, 1.8181003466507584,
  2.167836421610838, 1,
] as const;

/** log Gamma(1 + z) for 0 <= z <= 1, relatively accurate at both ends, where it is 0. */
export function logGammaOnePlus(z: number): number {
  const s = z - 0.5;
  return (z * (z - 1) * polynomial(FIT_TOP, s)) / polynomial(FIT_BOTTOM, s);
}

/**
 * The logarithm of the gamma function.
 * Relative accuracy about 1e-15, also beside the zeros at 1 and 2.
 *
 * @param x above 0, finite
 * @throws InputError outside the domain
 */
export function logGamma(x: number): number {
  requirePositive("x", x);
  if (x < 1) return logGammaOnePlus(x) - Math.log(x);
  if (x <= 2) return logGammaOnePlus(x - 1);
  if (x >= STIRLING_FROM) return (x - 0.5) * (Math.log(x) - 1) + (HALF_LOG_TWO_PI - 0.5) + stirlingSeries(x);
  let product = 1;
  let rest = x - 1;
  while (rest > 1) {
    product *= rest;
    rest -= 1;
  }
  return Math.log(product) + logGammaOnePlus(rest);
}

/**
 * The logarithm of the beta function, log B(a, b), to about 1e-15 of the larger of its size and 1.
 *
 * @param a above 0, from 1e-100 to 1e16
 * @param b as a
 * @throws InputError outside the domain
 */
export function logBeta(a: number, b: number): number {
  requireShape("a", a);
  requireShape("b", b);
  return plainLogBeta(a, b);
}

/** As `logBeta`, unchecked. */
export function plainLogBeta(a: number, b: number): number {
  return -logBetaScale(a, b) - a * Math.log1p(b / a) - b * Math.log1p(a / b);
}

/**
 * log of x^a (1 - x)^b / B(a, b) at the mean x = a / (a + b): what is left of 1 / B(a, b) once the large
 * terms of Stirling's formula are taken out. Unchecked.
 */
export function logBetaScale(a: number, b: number): number {
  const total = a + b;
  return (
    0.5 * Math.log((a / TWO_PI) * (b / total)) +
    stirlingCorrection(total) -
    stirlingCorrection(a) -
    stirlingCorrection(b)
  );
}

/**
 * log [Gamma(base + step) / Gamma(base) / base^step] for 0 < step <= 1, relatively accurate however small
 * `step` is; it tends to 0 as `base` grows.
 */
export function logGammaRise(base: number, step: number): number {
  let rise = 0;
  let from = base;
  for (; from < STIRLING_FROM; from++) rise -= Math.log1p(step / from);
  const to = from + step;
  rise += (to - 0.5) * Math.log1p(step / from) - step + step * Math.log(from / base);
  return rise + stirlingRise(from, to, step);
}

/** stirlingSeries(to) - stirlingSeries(from), to - from = step: the divided difference of the same polynomial. */
function stirlingRise(from: number, to: number, step: number): number {
  const p = 1 / to;
  const r = 1 / from;
  const u = p * p;
  const v = r * r;
  let value = 0;
  let difference = 0;
  for (const coefficient of STIRLING) {
    difference = value + u * difference;
    value = coefficient + v * value;
  }
  const atTo = value + (u - v) * difference;
  return -step * p * r * (atTo + r * (p + r) * difference);
}
