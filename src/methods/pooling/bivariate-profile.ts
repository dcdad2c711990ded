import type { Estimate } from "../../core/estimate.ts";
import { chiSquareQuantile } from "../../numeric/chi-square.ts";
import { profileLimit } from "../../numeric/profile-limit.ts";
import type { Posed } from "./bivariate-fit.ts";
import { type BivariateModel, type Fit, fitShape } from "./bivariate-model.ts";
import { correlationHeld, FIXED, FREE, firstHeld, loadingsOf, type Shape, spreadOf } from "./loadings.ts";

/** A standard deviation above this is as good as without limit: 40 logits between one study and the next. */
const WIDEST = 20;

/** A step that is expected to gain less than this is the last: what is left after it is about its square. */
const ENOUGH = 1e-7;

/** The fit of the same data with the two proportions in the other order. */
function turned(fit: Fit, firstLevels: number): Fit {
  const { first, second, correlation } = spreadOf(fit.loadings);
  return {
    ...fit,
    means: Float64Array.from([...fit.means.slice(firstLevels), ...fit.means.slice(0, firstLevels)]),
    loadings: loadingsOf({ first: second, second: first, correlation }),
  };
}

export interface SpreadLimits {
  readonly sensitivity: Estimate;
  readonly specificity: Estimate;
  readonly correlation: Estimate;
}

/** Standard deviations and correlation with their profile likelihood limits; `null` for a limit beyond all reason. */
export function spreadLimits(
  { model, turned: other }: Posed,
  fit: Fit,
  firstLevels: number,
  level: number,
): SpreadLimits {
  const drop = chiSquareQuantile(level, 1) / 2;
  return {
    sensitivity: deviationLimits(model, fit, drop),
    specificity: deviationLimits(other, turned(fit, firstLevels), drop),
    correlation: correlationLimits(model, fit, drop),
  };
}

/** What is lost when the loadings have a shape, each fit beginning where the last one ended. */
function lossBy(model: BivariateModel, fit: Fit, shapeAt: (value: number) => Shape) {
  let nearest: Pick<Fit, "means" | "loadings"> = fit;
  return (value: number): number => {
    const there = fitShape(model, shapeAt(value), nearest, null, ENOUGH);
    nearest = there;
    return fit.logLikelihood - there.logLikelihood;
  };
}

function deviationLimits(model: BivariateModel, fit: Fit, drop: number): Estimate {
  const value = spreadOf(fit.loadings).first;
  const loss = lossBy(model, fit, firstHeld);
  const none = value === 0 || fit.logLikelihood - withoutFirst(model, fit) < drop;
  const lower = none ? 0 : profileLimit(loss, drop, value, value / 2, value / 1e3).limit;
  const upper = profileLimit(loss, drop, value, value === 0 ? 0.2 : value * 1.8, WIDEST);
  return { value, lower, upper: upper.reached ? upper.limit : null };
}

function withoutFirst(model: BivariateModel, fit: Fit): number {
  const { second } = spreadOf(fit.loadings);
  const shape = second === 0 ? FIXED : firstHeld(0);
  return fitShape(model, shape, fit).logLikelihood;
}

/** The correlation is searched by its angle, which keeps its steps even near 1 and -1. */
function correlationLimits(model: BivariateModel, fit: Fit, drop: number): Estimate {
  const { correlation } = spreadOf(fit.loadings);
  if (correlation === null) return { value: null, lower: null, upper: null };
  const at = Math.asin(correlation);
  const limit = (side: -1 | 1): number => {
    const end = (side * Math.PI) / 2;
    if (at === end) return side;
    const loss = lossBy(model, fit, (angle) => correlationHeld(angle === end ? side : Math.sin(angle)));
    const { limit: angle, reached } = profileLimit(loss, drop, at, (at + end) / 2, end);
    return reached ? Math.sin(angle) : side;
  };
  return { value: correlation, lower: limit(-1), upper: limit(1) };
}

/** Limits of a mean on the logit scale by profile likelihood. */
export function meanLimits(
  model: BivariateModel,
  fit: Fit,
  place: number,
  standardError: number,
  level: number,
): Estimate {
  const drop = chiSquareQuantile(level, 1) / 2;
  const value = fit.means[place] as number;
  const limit = (side: -1 | 1): number | null => {
    let nearest: Pick<Fit, "means" | "loadings"> = fit;
    const loss = (held: number): number => {
      const there = fitShape(model, FREE, nearest, { place, value: held }, ENOUGH);
      nearest = there;
      return fit.logLikelihood - there.logLikelihood;
    };
    const found = profileLimit(loss, drop, value, value + side * 2 * standardError, value + side * 40);
    return found.reached ? found.limit : null;
  };
  return { value, lower: limit(-1), upper: limit(1) };
}
