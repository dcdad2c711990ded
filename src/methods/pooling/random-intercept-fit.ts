import { chiSquareQuantile } from "../../numeric/chi-square.ts";
import { newtonMaximum, type Summit } from "../../numeric/newton-maximum.ts";
import { findRoot } from "../../numeric/root.ts";
import { type Counted, type RandomIntercept, randomIntercept } from "./random-intercept.ts";

export interface InterceptFit {
  readonly mean: number;
  readonly betweenSd: number;
  readonly standardError: number;
  readonly logLikelihood: number;
  readonly converged: boolean;
  readonly likeliest: readonly number[];
  /** Limits by the profile of the likelihood; `null` where it never falls far enough. */
  readonly meanLimits: Bounds;
  readonly betweenLimits: Bounds;
  /** How far the log-likelihood moves with more places of the quadrature. */
  readonly quadratureError: number;
}

interface Bounds {
  readonly lower: number | null;
  readonly upper: number | null;
}

/** Standard deviations at which climbs begin, besides 0. */
const STARTS = [0.15, 0.6, 2];
const FARTHEST = 40;
/** A scatter that gains less in log-likelihood is none. */
const LEAST_GAIN = 1e-10;
const CLOSE = { relative: 1e-9, absolute: 1e-9 };

/**
 * The likeliest random intercept, with profile limits.
 * @param studies at least two, and at least one of them with both kinds of result
 */
export function interceptFit(studies: readonly Counted[], points: number, level: number): InterceptFit {
  const model = randomIntercept(studies, points);
  const best = highest(model, commonLogOdds(studies), [], STARTS);
  const [mean, betweenSd] = best.at as unknown as readonly [number, number];
  const hessian = model.hessianAt(best.at);
  const standardError = errorOfMean(hessian, betweenSd);
  const drop = chiSquareQuantile(level, 1) / 2;
  const floor = best.local.value - drop;
  const alongMean = (at: number) => profileOfMean(model, at, betweenSd + 0.2).local.value - floor;
  const alongBetween = (at: number) => profileOfBetween(model, mean, at).local.value - floor;
  const finer = randomIntercept(studies, Math.min(201, 2 * points + 11));
  return {
    mean,
    betweenSd,
    standardError,
    logLikelihood: best.local.value,
    converged: best.converged,
    likeliest: model.likeliestAt(best.at),
    meanLimits: {
      lower: crossing(alongMean, mean, -standardError, -FARTHEST),
      upper: crossing(alongMean, mean, standardError, FARTHEST),
    },
    betweenLimits: {
      lower: alongBetween(0) >= 0 ? 0 : findRoot(alongBetween, 0, betweenSd, CLOSE).root,
      upper: crossing(alongBetween, betweenSd, Math.max(0.1, betweenSd / 2), FARTHEST),
    },
    quadratureError: Math.abs(finer.value(best.at) - best.local.value),
  };
}

export function commonLogOdds(studies: readonly Counted[]): number {
  const count = studies.reduce((sum, study) => sum + study.count, 0);
  const total = studies.reduce((sum, study) => sum + study.total, 0);
  return Math.log(count / (total - count));
}

/** The highest of several climbs, the scatter 0 among them. */
function highest(
  model: RandomIntercept,
  mean: number,
  held: readonly number[],
  starts: readonly number[],
): Summit {
  const flat = newtonMaximum(model.locally, [mean, 0], { held: [...held, 1], nonNegative: [1] });
  return starts.reduce((best, start) => {
    const summit = newtonMaximum(model.locally, [mean, start], { held, nonNegative: [1] });
    return summit.local.value > best.local.value + LEAST_GAIN ? summit : best;
  }, flat);
}

/** Away from the likeliest mean the scatter must grow: the climb begins above 0 and finds its way back there. */
function profileOfMean(model: RandomIntercept, mean: number, betweenSd: number): Summit {
  return newtonMaximum(model.locally, [mean, betweenSd], { held: [0], nonNegative: [1] });
}

function profileOfBetween(model: RandomIntercept, mean: number, betweenSd: number): Summit {
  return newtonMaximum(model.locally, [mean, betweenSd], { held: [1], nonNegative: [1] });
}

function errorOfMean(hessian: Float64Array, betweenSd: number): number {
  const [meanBend, cross, , betweenBend] = hessian as unknown as readonly [number, number, number, number];
  const lost = betweenSd > 0 && betweenBend < 0 ? (cross * cross) / betweenBend : 0;
  return 1 / Math.sqrt(-(meanBend - lost));
}

/** Where a function that is above 0 at `from` falls to 0 on the side of `step`; `null` beyond `farthest`. */
function crossing(f: (at: number) => number, from: number, step: number, farthest: number): number | null {
  let inside = from;
  for (let width = step; ; width *= 2) {
    const outside = from + width;
    if (f(outside) < 0) return findRoot(f, inside, outside, CLOSE).root;
    if (Math.abs(outside) > Math.abs(farthest)) return null;
    inside = outside;
  }
}
