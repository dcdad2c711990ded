import { InputError } from "../../core/input-error.ts";
import { incompleteBeta } from "../../numeric/incomplete-beta.ts";
import { findRoot } from "../../numeric/root.ts";

/** The two parameters of a beta distribution. */
export interface BetaShape {
  readonly a: number;
  readonly b: number;
}

/** A proportion as somebody states it. */
export interface StatedProportion {
  readonly mean: number;
  readonly lower: number;
  readonly upper: number;
  readonly level: number;
}

/** Weights (as of so many observations) between which the one wanted is looked for. */
const LIGHTEST = 1e-3;
const HEAVIEST = 1e12;

/**
 * The beta distribution with the mean stated and the stated probability between the limits.
 * @throws InputError unless lower < mean < upper, or where no weight gives that probability
 */
export function betaFromInterval({ mean, lower, upper, level }: StatedProportion): BetaShape {
  const place = ["input", "prevalence", "mean"];
  if (!(lower < mean && mean < upper)) throw new InputError(place, `between ${lower} and ${upper}`, mean);
  const excess = (logWeight: number) => {
    const weight = Math.exp(logWeight);
    const [a, b] = [mean * weight, (1 - mean) * weight];
    return 1 - level - incompleteBeta(lower, a, b, "lower") - incompleteBeta(upper, a, b, "upper");
  };
  const [from, to] = [Math.log(LIGHTEST), Math.log(HEAVIEST)];
  if (excess(from) >= 0 || excess(to) <= 0) {
    throw new InputError(place, "a mean and limits that a beta distribution can have", mean);
  }
  const weight = Math.exp(findRoot(excess, from, to).root);
  return { a: mean * weight, b: (1 - mean) * weight };
}
