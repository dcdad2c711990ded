import { betaExcess, logBetaKernel } from "../../numeric/beta-kernel.ts";
import { logBetaScale } from "../../numeric/gamma-function.ts";
import { betaTail } from "../../numeric/incomplete-beta.ts";
import type { ShareDistribution } from "./exact-posterior-share.ts";
import { type ConditionTable, nothingOf } from "./exact-posterior-weights.ts";
import type { BetaPrior } from "./prior-fields.ts";

/** Betas with the second shape raised by `second`, and the first by `first`, `first` + 1, … */
interface Row {
  readonly second: number;
  readonly first: number;
  readonly weights: Float64Array;
}

/** Logs below this are those of numbers too small to be carried on by multiplying. */
const SMALLEST = -600;

/** The sensitivity after the data; the specificity from the mirrored table. */
export function ofTable(
  prior: BetaPrior,
  { reactive, nonreactive, weights }: ConditionTable,
): ShareDistribution {
  const rows = Array.from({ length: nonreactive + 1 }, (_, second) =>
    rowOf(
      second,
      nothingOf(weights),
      weights.subarray(second * (reactive + 1), (second + 1) * (reactive + 1)),
    ),
  );
  return betaMixture(prior, rows);
}

/** The prevalence after the data: k people with the condition of all. */
export function ofPrevalence(
  prior: BetaPrior,
  { reactive, nonreactive, weights }: ConditionTable,
): ShareDistribution {
  const people = reactive + nonreactive;
  const present = new Float64Array(people + 1);
  for (let place = 0; place < weights.length; place += 1) {
    const k = Math.floor(place / (reactive + 1)) + (place % (reactive + 1));
    present[k] = (present[k] as number) + (weights[place] as number);
  }
  const rows = Array.from({ length: people + 1 }, (_, k) => ({
    second: people - k,
    first: k,
    weights: present.subarray(k, k + 1),
  }));
  return betaMixture(prior, rows);
}

/** A single beta, such as a prior. */
export function ofBeta(prior: BetaPrior): ShareDistribution {
  return betaMixture(prior, [{ second: 0, first: 0, weights: Float64Array.of(1) }]);
}

function rowOf(second: number, nothing: number, weights: Float64Array): Row {
  let [from, to] = [0, weights.length];
  while (from < to && (weights[from] as number) < nothing) from += 1;
  while (to > from && (weights[to - 1] as number) < nothing) to -= 1;
  return { second, first: from, weights: weights.subarray(from, to) };
}

function betaMixture(prior: BetaPrior, all: readonly Row[]): ShareDistribution {
  const rows = all.filter(({ weights }) => weights.length > 0);
  const moments = momentsOf(prior, rows);
  return {
    ...moments,
    cdf: (logOdds) => tailsAt(prior, rows, logOdds).lower,
    density: (share) => {
      const { overOdds } = tailsAt(prior, rows, Math.log(share / (1 - share)));
      return overOdds / (share * (1 - share));
    },
  };
}

function momentsOf({ alpha, beta }: BetaPrior, rows: readonly Row[]) {
  const sum = (part: (a: number, b: number) => number) =>
    rows.reduce(
      (whole, { second, first, weights }) =>
        weights.reduce((inRow, weight, k) => inRow + weight * part(alpha + first + k, beta + second), whole),
      0,
    );
  const mean = sum((a, b) => a / (a + b));
  const variance = sum((a, b) => (a / (a + b) - mean) ** 2 + ((a / (a + b)) * (b / (a + b))) / (a + b + 1));
  return { mean, standardDeviation: Math.sqrt(variance) };
}

/**
 * The lower tail of the mixture and its density over the log odds. Within a row the tails follow from one another
 * by adding: I_x(a, b) = I_x(a + 1, b) + x^a y^b / (a B(a, b)), so that one incomplete beta function a row is enough
 * and nothing cancels.
 */
function tailsAt(
  prior: BetaPrior,
  rows: readonly Row[],
  logOdds: number,
): { lower: number; overOdds: number } {
  const [x, y] = [1 / (1 + Math.exp(-logOdds)), 1 / (1 + Math.exp(logOdds))];
  if (!(x > 0 && y > 0)) return { lower: logOdds > 0 ? 1 : 0, overOdds: 0 };
  let [lower, overOdds] = [0, 0];
  for (const { second, first, weights } of rows) {
    const last = weights.length - 1;
    const [a, b] = [prior.alpha + first + last, prior.beta + second];
    let tail = betaTail(a, b, x, y, "lower");
    // x^a y^b / B(a, b), carried from a to a - 1; by its log as long as it is too small for a double.
    let logKernel = logBetaKernel(a, b, logBetaScale(a, b), x, y, betaExcess(a, b, x, y));
    let kernel = Math.exp(logKernel);
    for (let k = last; ; k -= 1) {
      const weight = weights[k] as number;
      lower += weight * tail;
      overOdds += weight * kernel;
      if (k === 0) break;
      const shape = prior.alpha + first + k - 1;
      const change = shape / ((shape + b) * x);
      if (logKernel < SMALLEST) {
        logKernel += Math.log(change);
        kernel = Math.exp(logKernel);
      } else {
        kernel *= change;
      }
      tail += kernel / shape;
    }
  }
  return { lower, overOdds };
}
