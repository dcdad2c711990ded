import type { Estimate } from "../../core/estimate.ts";
import { chiSquareQuantile } from "../../numeric/chi-square.ts";
import { type ProfileLimit, profileLimit } from "../../numeric/profile-limit.ts";
import type { Posed } from "./bivariate-fit.ts";
import { type BivariateModel, type Fit, type FitStart, fitShape } from "./bivariate-model.ts";
import { correlationHeld, FIXED, FREE, firstHeld, loadingsOf, spreadOf } from "./loadings.ts";

/** A standard deviation above this is as good as without limit: usual studies then lie 8 logits apart. */
const WIDEST = 8;

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

/** Fits at a value of what is held, from a place to begin. */
type FitAt = (value: number, start: FitStart) => Fit;

/**
 * A limit on one side of the estimate `from`. Each fit begins at the nearest one inwards, which keeps to one hill. At
 * the limit it is begun once more from elsewhere: should another hill be higher there, all is sought again with both.
 */
function limitBy(
  fitAt: FitAt,
  fit: Fit,
  drop: number,
  from: number,
  guess: number,
  end: number,
): ProfileLimit {
  const elsewhere: FitStart = {
    means: fit.means,
    loadings: { a: 0.5, b: -fit.loadings.b, c: Math.max(0.5, Math.abs(fit.loadings.c)) },
  };
  const seek = (starts: "nearest" | "both") => {
    const known: { readonly value: number; readonly fit: FitStart }[] = [{ value: from, fit }];
    return profileLimit(
      (value) => {
        const inwards = known.filter((one) => Math.abs(one.value - from) <= Math.abs(value - from));
        const nearest = inwards.reduce((best, one) =>
          Math.abs(one.value - value) < Math.abs(best.value - value) ? one : best,
        );
        const near = fitAt(value, nearest.fit);
        known.push({ value, fit: near });
        const far = starts === "both" ? fitAt(value, elsewhere).logLikelihood : near.logLikelihood;
        return fit.logLikelihood - Math.max(near.logLikelihood, far);
      },
      drop,
      from,
      guess,
      end,
    );
  };
  const found = seek("nearest");
  const loss = fit.logLikelihood - fitAt(found.limit, elsewhere).logLikelihood;
  return found.reached && loss < drop - ANOTHER_HILL ? seek("both") : found;
}

/** A likelihood higher by this is another hill. */
const ANOTHER_HILL = 1e-3;

function deviationLimits(model: BivariateModel, fit: Fit, drop: number): Estimate {
  const value = spreadOf(fit.loadings).first;
  const limit = (guess: number, end: number) =>
    limitBy(
      (held, start) => fitShape(model, firstHeld(held), start, null, ENOUGH),
      fit,
      drop,
      value,
      guess,
      end,
    );
  const none = value === 0 || fit.logLikelihood - withoutFirst(model, fit) < drop;
  const lower = none ? 0 : limit(value / 2, value / 1e3).limit;
  if (value > 0.9 * WIDEST) return { value, lower, upper: null };
  const upper = limit(value === 0 ? 0.2 : Math.min(WIDEST, value * 1.8), WIDEST);
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
    const shape = (angle: number) => correlationHeld(angle === end ? side : Math.sin(angle));
    const fitAt: FitAt = (angle, start) => fitShape(model, shape(angle), start, null, ENOUGH);
    const { limit: angle, reached } = limitBy(fitAt, fit, drop, at, (at + end) / 2, end);
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
    const fitAt: FitAt = (held, start) => fitShape(model, FREE, start, { place, value: held }, ENOUGH);
    const found = limitBy(fitAt, fit, drop, value, value + side * 2 * standardError, value + side * 40);
    return found.reached ? found.limit : null;
  };
  return { value, lower: limit(-1), upper: limit(1) };
}
