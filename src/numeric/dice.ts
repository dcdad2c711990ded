import { logGamma } from "./gamma-function.ts";

/** Draws whose shapes change from one to the next, which is what a chain of conditional draws needs. */
export interface Dice {
  /** Above 0 and below 1. */
  readonly uniform: () => number;
  readonly normal: () => number;
  /** A gamma variable of shape 1 or more, scale 1. */
  readonly gamma: (shape: number) => number;
  /** The logarithm of a gamma variable of this shape, which does not vanish for small shapes. */
  readonly logGamma: (shape: number) => number;
  /** The log odds of a beta variable. */
  readonly betaLogit: (alpha: number, beta: number) => number;
  readonly binomial: (trials: number, chance: number) => number;
}

/** Below this mean, successes are counted up one by one. */
const FEW = 10;

/**
 * Random variables of one stream of uniform numbers. Ready-made samplers are built anew for every shape, which
 * took ten times as long here.
 *
 * @param source uniform numbers in [0, 1)
 * Source: normal by Marsaglia's polar method, gamma by Marsaglia and Tsang 2000, binomial by inversion and by
 * Hörmann 1993 (transformed rejection); all from memory, held against exact distributions by the tests
 */
export function diceOf(source: () => number): Dice {
  const uniform = () => source() + 2 ** -54;
  let spare = Number.NaN;
  const normal = () => {
    if (!Number.isNaN(spare)) {
      const kept = spare;
      spare = Number.NaN;
      return kept;
    }
    for (;;) {
      const x = 2 * source() - 1;
      const y = 2 * source() - 1;
      const square = x * x + y * y;
      if (square >= 1 || square === 0) continue;
      const scale = Math.sqrt((-2 * Math.log(square)) / square);
      spare = y * scale;
      return x * scale;
    }
  };
  const largeGamma = (shape: number) => {
    const d = shape - 1 / 3;
    const c = 1 / Math.sqrt(9 * d);
    for (;;) {
      const x = normal();
      const root = 1 + c * x;
      if (root <= 0) continue;
      const cube = root * root * root;
      const u = uniform();
      if (u < 1 - 0.0331 * x * x * x * x) return d * cube;
      if (Math.log(u) < 0.5 * x * x + d * (1 - cube + Math.log(cube))) return d * cube;
    }
  };
  const logOfGamma = (shape: number) =>
    shape >= 1 ? Math.log(largeGamma(shape)) : Math.log(largeGamma(shape + 1)) + Math.log(uniform()) / shape;
  return {
    uniform,
    normal,
    gamma: largeGamma,
    logGamma: logOfGamma,
    betaLogit: (alpha, beta) =>
      alpha >= 1 && beta >= 1
        ? Math.log(largeGamma(alpha) / largeGamma(beta))
        : logOfGamma(alpha) - logOfGamma(beta),
    binomial: (trials, chance) =>
      chance > 0.5 ? trials - fewer(trials, 1 - chance, uniform) : fewer(trials, chance, uniform),
  };
}

function fewer(trials: number, chance: number, uniform: () => number): number {
  if (trials === 0 || chance <= 0) return 0;
  return trials * chance < FEW ? counted(trials, chance, uniform) : rejected(trials, chance, uniform);
}

/** Inversion: probabilities are added up from none upwards. */
function counted(trials: number, chance: number, uniform: () => number): number {
  const odds = chance / (1 - chance);
  let probability = Math.exp(trials * Math.log1p(-chance));
  let left = uniform();
  for (let successes = 0; successes < trials; successes += 1) {
    if (left <= probability) return successes;
    left -= probability;
    probability *= (odds * (trials - successes)) / (successes + 1);
    if (probability === 0) return successes;
  }
  return trials;
}

/** Transformed rejection with a squeeze. */
function rejected(trials: number, chance: number, uniform: () => number): number {
  const spread = Math.sqrt(trials * chance * (1 - chance));
  const b = 1.15 + 2.53 * spread;
  const a = -0.0873 + 0.0248 * b + 0.01 * chance;
  const centre = trials * chance + 0.5;
  const sure = 0.92 - 4.2 / b;
  for (;;) {
    const u = uniform() - 0.5;
    let height = uniform();
    const edge = 0.5 - Math.abs(u);
    const k = Math.floor(((2 * a) / edge + b) * u + centre);
    if (k < 0 || k > trials) continue;
    if (edge >= 0.07 && height <= sure) return k;
    const mode = Math.floor((trials + 1) * chance);
    height *= ((2.83 + 5.1 / b) * spread) / (a / (edge * edge) + b);
    const gain =
      logGamma(mode + 1) +
      logGamma(trials - mode + 1) -
      logGamma(k + 1) -
      logGamma(trials - k + 1) +
      (k - mode) * Math.log(chance / (1 - chance));
    if (Math.log(height) <= gain) return k;
  }
}
