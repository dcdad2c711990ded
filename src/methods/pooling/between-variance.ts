import { findRoot } from "../../numeric/root.ts";
import type { BetweenEstimator } from "./random-effects-fields.ts";

/** An effect with the variance of its chance error, above 0. */
export interface Effect {
  readonly effect: number;
  readonly variance: number;
}

/** What the weights 1 / (variance + between variance) make of the effects. */
export interface Weighted {
  /** Sum of the weights. */
  readonly total: number;
  readonly mean: number;
  /** Weighted sum of squares around the mean. */
  readonly q: number;
}

export function weightedBy(effects: readonly Effect[], between: number): Weighted {
  let total = 0;
  let sum = 0;
  for (const { effect, variance } of effects) {
    const weight = 1 / (variance + between);
    total += weight;
    sum += weight * effect;
  }
  const mean = sum / total;
  let q = 0;
  for (const { effect, variance } of effects) q += Math.pow(effect - mean, 2) / (variance + between);
  return { total, mean, q };
}

/** The variance of the true effects between two or more studies, 0 where the estimator would be negative. */
export function betweenVariance(effects: readonly Effect[], estimator: BetweenEstimator): number {
  if (estimator === "dersimonianLaird") return momentVariance(effects);
  if (estimator === "pauleMandel") return varianceWithQ(effects, effects.length - 1);
  return likeliestVariance(effects, estimator === "reml");
}

/** Source: dersimonian1986. */
function momentVariance(effects: readonly Effect[]): number {
  const { total, q } = weightedBy(effects, 0);
  const squares = effects.reduce((sum, { variance }) => sum + 1 / Math.pow(variance, 2), 0);
  const room = total - squares / total;
  return room > 0 ? Math.max(0, (q - (effects.length - 1)) / room) : 0;
}

/**
 * The between variance at which the weighted sum of squares is `target`, 0 where it is below that already. The
 * sum falls as the variance grows. Sources: paule1982; viechtbauer2007 for limits.
 */
export function varianceWithQ(effects: readonly Effect[], target: number): number {
  const excess = (between: number) => weightedBy(effects, between).q - target;
  if (!(excess(0) > 0)) return 0;
  let high = Math.pow(spanOf(effects), 2);
  while (excess(high) > 0) high *= 4;
  return findRoot(excess, 0, high).root;
}

const GRID = 200;

/** The highest of 0 and all places where the likelihood's slope in the between variance changes its sign. */
function likeliestVariance(effects: readonly Effect[], restricted: boolean): number {
  const slope = (between: number) => likelihoodSlope(effects, between, restricted);
  const most = 2 * spanOf(effects);
  let best = 0;
  let height = logLikelihood(effects, 0, restricted);
  let before = 0;
  let slopeBefore = slope(0);
  for (let step = 1; step <= GRID; step += 1) {
    const at = Math.pow((most * step) / GRID, 2);
    const slopeAt = slope(at);
    if (slopeBefore > 0 && slopeAt <= 0) {
      const { root } = findRoot(slope, before, at);
      const there = logLikelihood(effects, root, restricted);
      if (there > height) [best, height] = [root, there];
    }
    [before, slopeBefore] = [at, slopeAt];
  }
  return best;
}

/** Log-likelihood with the mean at its best, without constants. */
function logLikelihood(effects: readonly Effect[], between: number, restricted: boolean): number {
  const { total, q } = weightedBy(effects, between);
  const logs = effects.reduce((sum, { variance }) => sum + Math.log(variance + between), 0);
  return -0.5 * (logs + q + (restricted ? Math.log(total) : 0));
}

function likelihoodSlope(effects: readonly Effect[], between: number, restricted: boolean): number {
  const { total, mean } = weightedBy(effects, between);
  let slope = 0;
  let squares = 0;
  for (const { effect, variance } of effects) {
    const weight = 1 / (variance + between);
    squares += weight * weight;
    slope += weight * weight * Math.pow(effect - mean, 2) - weight;
  }
  return 0.5 * (slope + (restricted ? squares / total : 0));
}

/** From the smallest effect to the largest. */
function spanOf(effects: readonly Effect[]): number {
  const values = effects.map(({ effect }) => effect);
  return Math.max(...values) - Math.min(...values);
}
