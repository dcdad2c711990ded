import type { Estimate } from "../../core/estimate.ts";
import { chiSquareQuantile } from "../../numeric/chi-square.ts";
import { inverseLdl, ldlFactors } from "../../numeric/ldl.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { findRoot } from "../../numeric/root.ts";
import { climb, freeOf, observedInformation, type Summit } from "./latent-climb.ts";
import type { LatentData } from "./latent-data.ts";
import { fromLogit, type LatentLayout } from "./latent-layout.ts";

/** Variances and covariances of the unknowns, logit scale; `null` at a border or where they can't be had. */
export type Covariance = (a: number, b: number) => number | null;

export function covarianceOf(theta: Float64Array, data: LatentData, layout: LatentLayout): Covariance {
  const free = freeOf(theta, []);
  const factors = ldlFactors(observedInformation(theta, free, data, layout), free.length);
  if (!factors.positive) return () => null;
  const inverse = inverseLdl(factors);
  return (a, b) => {
    const [row, column] = [free.indexOf(a), free.indexOf(b)];
    return row < 0 || column < 0 ? null : (inverse[row * free.length + column] as number);
  };
}

/** A share with its Wald limits on the logit scale; no limits at a border. */
export function waldOf(logit: number, variance: number | null, level: number): Estimate {
  const value = fromLogit(logit);
  if (variance === null) return { value, lower: null, upper: null };
  const reach = normalQuantile((1 + level) / 2) * Math.sqrt(variance);
  return { value, lower: fromLogit(logit - reach), upper: fromLogit(logit + reach) };
}

/** Beyond this the share is 0 or 1 for every purpose. */
const OUTERMOST = 20;

/**
 * A share with its profile likelihood limits: values at which the likelihood, the other unknowns being refitted,
 * is lower by half the chi-square quantile. A limit that is never reached is 0 or 1.
 */
export function profileOf(
  place: number,
  summit: Summit,
  variance: number | null,
  level: number,
  data: LatentData,
  layout: LatentLayout,
): Estimate {
  const logit = summit.theta[place] as number;
  const drop = chiSquareQuantile(level, 1) / 2;
  const held = Array.from({ length: layout.size }, (_, other) => other === place);
  const limit = (side: -1 | 1): number => {
    if (logit === side * Number.POSITIVE_INFINITY) return logit;
    let nearest = thawed(summit.theta);
    const known = new Map<number, number>();
    const excess = (at: number): number => {
      const before = known.get(at);
      if (before !== undefined) return before;
      const start = Float64Array.from(nearest);
      start[place] = at;
      const there = climb(start, held, data, layout, "scoring");
      nearest = thawed(there.theta);
      const value = Math.max(-1e6, there.logLikelihood - summit.logLikelihood + drop);
      known.set(at, value);
      return value;
    };
    const begin = Number.isFinite(logit) ? logit : -side * FROM_BORDER;
    const width = variance === null ? 1 : Math.min(2, normalQuantile((1 + level) / 2) * Math.sqrt(variance));
    let inside = begin;
    known.set(begin, drop);
    for (let step = 1; ; step += 1) {
      const outside = begin + side * width * step;
      if (Math.abs(outside) > OUTERMOST) return side * Number.POSITIVE_INFINITY;
      if (excess(outside) < 0) {
        return findRoot(excess, Math.min(inside, outside), Math.max(inside, outside), ROOT).root;
      }
      inside = outside;
    }
  };
  return { value: fromLogit(logit), lower: fromLogit(limit(-1)), upper: fromLogit(limit(1)) };
}

/** Where the way inwards from a border begins. */
const FROM_BORDER = 16;
const ROOT = { absolute: 1e-9, relative: 1e-9, maxIterations: 60 };

/** Unknowns at a border are let go again: with another unknown held elsewhere they may leave it. */
function thawed(theta: Float64Array): Float64Array {
  return theta.map((value) => (Number.isFinite(value) ? value : Math.sign(value) * THAWED));
}
const THAWED = 6;
