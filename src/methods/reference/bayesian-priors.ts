import { randomStream, taskNumber } from "../../core/random.ts";
import { betaExcess, logBetaKernel } from "../../numeric/beta-kernel.ts";
import { betaQuantile } from "../../numeric/beta-quantile.ts";
import { diceOf } from "../../numeric/dice.ts";
import { logBetaScale } from "../../numeric/gamma-function.ts";
import { kernelDensity } from "../../numeric/kernel-density.ts";
import { sortedQuantile } from "../../numeric/sorted-quantile.ts";
import type { BayesianModel } from "./bayesian-model.ts";
import { covarianceAt, type Unknown } from "./bayesian-unknowns.ts";
import { fromLogit } from "./latent-layout.ts";
import { MOST_SHARED } from "./latent-tables.ts";
import type { BetaPrior } from "./prior-fields.ts";

/** What is believed of one unknown before these data. */
export interface PriorShape {
  readonly mean: number;
  readonly quantile: (share: number) => number;
  readonly density: (at: number) => number;
}

/** The prior of an unknown as it is reported. */
export function priorOf(unknown: Unknown, model: BayesianModel): PriorShape {
  if (unknown.kind === "share") return betaShape(reportedPrior(unknown, model));
  if (unknown.kind === "correlation") {
    return {
      mean: MOST_SHARED / 2,
      quantile: (share) => share * MOST_SHARED,
      density: (at) => (at >= 0 && at <= MOST_SHARED ? 1 / MOST_SHARED : 0),
    };
  }
  return covarianceShape(unknown, model);
}

/** The shapes of a share's prior, a specificity's the right way round. */
export function reportedPrior({ place, mirrored }: Unknown, { alpha, beta }: BayesianModel): BetaPrior {
  const [own, other] = [alpha[place] as number, beta[place] as number];
  return mirrored ? { alpha: other, beta: own } : { alpha: own, beta: other };
}

function betaShape({ alpha, beta }: BetaPrior): PriorShape {
  const scale = logBetaScale(alpha, beta);
  return {
    mean: alpha / (alpha + beta),
    quantile: (share) => betaQuantile(share, alpha, beta),
    density: (at) => {
      const rest = 1 - at;
      return (
        Math.exp(logBetaKernel(alpha, beta, scale, at, rest, betaExcess(alpha, beta, at, rest))) / (at * rest)
      );
    },
  };
}

const DRAWS = 20_000;

/** The prior of a covariance has no formula: 20,000 draws of the two shares and of the height between its limits. */
function covarianceShape({ place }: Unknown, model: BayesianModel): PriorShape {
  const { data, layout, alpha, beta } = model;
  const dice = diceOf(randomStream(20_011, taskNumber("prior covariances")));
  const condition = place < layout.dependence(1, 0) ? 0 : 1;
  const pair = place - layout.dependence(condition, 0);
  const drawn = (at: number) => fromLogit(dice.betaLogit(alpha[at] as number, beta[at] as number));
  const sides = (data.pairs[pair] as readonly [number, number]).map((test) =>
    layout.reactive(condition, test),
  );
  const sorted = Float64Array.from({ length: DRAWS }, () =>
    covarianceAt(drawn(sides[0] as number), drawn(sides[1] as number), dice.uniform()),
  ).sort();
  return {
    mean: sorted.reduce((sum, value) => sum + value / DRAWS, 0),
    quantile: (share) => sortedQuantile(sorted, share),
    density: kernelDensity(sorted),
  };
}
