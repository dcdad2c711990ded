import { inverseLdl, ldlFactors, solveLdl } from "../../numeric/ldl.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import {
  binormalLogLikelihood,
  binormalSlopes,
  type Categories,
  type Unknowns,
} from "./binormal-likelihood.ts";

export interface BinormalFit {
  readonly unknowns: Unknowns;
  /** Covariances of the unknowns, row by row. */
  readonly covariance: Float64Array;
  readonly logLikelihood: number;
  readonly iterations: number;
}

const MOST_STEPS = 500;
/** A step that is expected to gain less than this share of the log-likelihood ends the climb. */
const LEAST_GAIN = 1e-15;
/** Beyond these the two distributions are as good as apart, or one is as good as a point: nothing is told. */
const FARTHEST = 12;
const SMALLEST = 0.02;

/** Two normal distributions behind the categories, by scoring; `null` where the likelihood has no top inside. */
export function binormalFit(categories: Categories): BinormalFit | null {
  let unknowns = startOf(categories);
  const size = unknowns.length;
  for (let step = 1; step <= MOST_STEPS; step += 1) {
    const { logLikelihood, gradient, information } = binormalSlopes(categories, unknowns);
    const factors = ldlFactors(information, size);
    if (!factors.positive) return null;
    const direction = solveLdl(factors, gradient);
    const gain = direction.reduce((sum, part, place) => sum + part * (gradient[place] as number), 0) / 2;
    if (!Number.isFinite(gain)) return null;
    if (gain < LEAST_GAIN * (1 + Math.abs(logLikelihood))) {
      return toldFit({ unknowns, covariance: inverseLdl(factors), logLikelihood, iterations: step });
    }
    const next = higher(categories, unknowns, direction, logLikelihood);
    if (next === null) {
      if (gain > NOISE * (1 + Math.abs(logLikelihood))) return null;
      return toldFit({ unknowns, covariance: inverseLdl(factors), logLikelihood, iterations: step });
    }
    unknowns = next;
    if (degenerate(unknowns)) return null;
  }
  return null;
}

/** A standard error beyond this (b: as a share of it) says that the likelihood is as good as flat. */
const UNTOLD = 25;

function toldFit(fit: BinormalFit): BinormalFit | null {
  const size = fit.unknowns.length;
  const told = fit.unknowns.every((value, place) => {
    const error = Math.sqrt(fit.covariance[place * size + place] as number);
    return error <= (place === 1 ? UNTOLD * value : UNTOLD);
  });
  return told ? fit : null;
}

/** Where no step gains anything within rounding, this much may still be expected. */
const NOISE = 1e-11;

function higher(
  categories: Categories,
  unknowns: Unknowns,
  direction: Float64Array,
  logLikelihood: number,
): Unknowns | null {
  for (let share = 1; share > 1e-10; share /= 2) {
    const next = unknowns.map((value, place) => value + share * (direction[place] as number));
    if (ordered(next) && binormalLogLikelihood(categories, next) > logLikelihood) return next;
  }
  return null;
}

function ordered(unknowns: Unknowns): boolean {
  if (!((unknowns[1] as number) > 0)) return false;
  for (let place = 3; place < unknowns.length; place += 1) {
    if (!((unknowns[place] as number) > (unknowns[place - 1] as number))) return false;
  }
  return true;
}

function degenerate(unknowns: Unknowns): boolean {
  const b = unknowns[1] as number;
  return (
    b < SMALLEST ||
    b > 1 / SMALLEST ||
    unknowns.some((value, place) => place !== 1 && Math.abs(value) > FARTHEST)
  );
}

/** Borders from the shares of people without the condition (half a person added), a and b by a line through both. */
function startOf({ positives, negatives }: Categories): Unknowns {
  const [mine, others] = [normalScores(positives), normalScores(negatives)];
  const mean = (scores: readonly number[]) => scores.reduce((sum, score) => sum + score, 0) / scores.length;
  const [meanMine, meanOthers] = [mean(mine), mean(others)];
  const products = others.reduce(
    (sum, score, place) => sum + (score - meanOthers) * ((mine[place] as number) - meanMine),
    0,
  );
  const squares = others.reduce((sum, score) => sum + Math.pow(score - meanOthers, 2), 0);
  const b = squares > 0 ? Math.min(3, Math.max(0.3, products / squares)) : 1;
  return Float64Array.from([b * meanOthers - meanMine, b, ...others]);
}

function normalScores(people: readonly number[]): number[] {
  const total = people.reduce((sum, here) => sum + here + 0.5, 0);
  let below = 0;
  return people.slice(0, -1).map((here) => {
    below += here + 0.5;
    return normalQuantile(below / total);
  });
}
