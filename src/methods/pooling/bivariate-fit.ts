import { binomialModel } from "./binomial-model.ts";
import {
  type Levels,
  type PooledCounts,
  type PooledLogits,
  pooledCounts,
  pooledLogits,
  swapped,
} from "./bivariate-data.ts";
import type { Likelihood } from "./bivariate-fields.ts";
import { type BivariateModel, type Fit, type FitStart, fitShape } from "./bivariate-model.ts";
import {
  FIRST_ALONE,
  FIXED,
  FREE,
  type Loadings,
  loadingsOf,
  SECOND_ALONE,
  type Shape,
  spreadOf,
  TIED,
} from "./loadings.ts";
import { normalModel } from "./normal-model.ts";
import type { Study } from "./study-fields.ts";

/** A question to be fitted: the model, and the same with the two proportions in the other order. */
export interface Posed {
  readonly model: BivariateModel;
  readonly turned: BivariateModel;
}

/** The model of these studies; `first` and `second` say whose mean sensitivity and specificity each study has. */
export function posed(
  studies: readonly Study[],
  likelihood: Likelihood,
  points: number,
  first: Levels,
  second: Levels,
): Posed {
  const counts = pooledCounts(studies, first, second);
  if (likelihood.kind === "binomial") {
    const of = (data: PooledCounts) => binomialModel(data, points);
    return { model: of(counts), turned: of(swapped(counts)) };
  }
  const logits = pooledLogits(studies, likelihood.correction, first, second);
  const restricted = likelihood.kind === "normal_reml";
  const of = (data: PooledLogits, by: PooledCounts) => normalModel(data, by, restricted);
  return { model: of(logits, counts), turned: of(swapped(logits), swapped(counts)) };
}

/** A standard deviation this small, or a share of it this small not shared with the other, is tried at 0. */
const NEAR_BORDER = 0.05;
/** Likelihoods as near as this are the same. */
const SAME = 1e-9;

/**
 * The likeliest fit. A spread that runs to its border (a standard deviation of 0, a correlation of 1 or -1) is put
 * there where the likelihood is not lower for it; the search is then begun once more from the other side, lest the
 * border be but the nearer of two hills.
 */
export function fitFreely(model: BivariateModel, start: FitStart = model.begin): Fit {
  const found = settled(model, fitShape(model, FREE, start));
  if (found.shape === FREE && found.converged) return found;
  const { correlation } = spreadOf(found.loadings);
  const other = { first: 0.5, second: 0.5, correlation: -0.5 * Math.sign(correlation ?? 1) };
  const again = settled(
    model,
    fitShape(model, FREE, { means: model.begin.means, loadings: loadingsOf(other) }),
  );
  return again.logLikelihood > found.logLikelihood + SAME ? again : found;
}

/** The fit put at the border that it is near, if that loses nothing. */
function settled(model: BivariateModel, fit: Fit): Fit {
  const lost = SAME * (1 + Math.abs(fit.logLikelihood));
  for (const shape of bordersNear(fit.loadings)) {
    const there = fitShape(model, shape, fit);
    if ((there.converged || !fit.converged) && there.logLikelihood >= fit.logLikelihood - lost) {
      return { ...there, iterations: fit.iterations + there.iterations };
    }
  }
  return fit;
}

/** Borders near these loadings, those that leave least free first. */
function bordersNear({ a, b, c }: Loadings): Shape[] {
  const [first, second] = [Math.abs(a) < NEAR_BORDER, Math.hypot(b, c) < NEAR_BORDER];
  const tied = Math.abs(c) < NEAR_BORDER * Math.max(Math.hypot(b, c), 1e-6);
  return [
    ...(first && second ? [FIXED] : []),
    ...(first ? [SECOND_ALONE] : []),
    ...(second ? [FIRST_ALONE] : []),
    ...(tied || first || second ? [TIED] : []),
  ];
}
