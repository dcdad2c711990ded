import { betaExcess, logBetaKernel } from "../../numeric/beta-kernel.ts";
import { betaQuantile } from "../../numeric/beta-quantile.ts";
import { logBetaScale } from "../../numeric/gamma-function.ts";
import { betaTail } from "../../numeric/incomplete-beta.ts";
import { findRoot } from "../../numeric/root.ts";
import type { BetaPrior } from "./prior-fields.ts";

/** The value in the middle that all betas of a family share. */
export interface Middle {
  readonly kind: "mean" | "median" | "mode";
  readonly value: number;
}

const LOG_LEAST = Math.log(1e-3);
const LOG_MOST = Math.log(1e9);
const STEPS = 220;

/** The chances that the betas of a family give to lie below a place. */
export interface Reached {
  /** Every beta of the family with the chance wanted, the heaviest first. */
  readonly found: readonly BetaPrior[];
  readonly leastChance: number;
  readonly mostChance: number;
}

/**
 * All betas with the mean, median or mode given that have this chance to lie below a place. The family is gone
 * through by its weight (alpha + beta; for a mode, what is above 2), from a thousandth to a thousand million;
 * every change of sign between neighbours is narrowed down.
 */
export function betasThrough(middle: Middle, at: number, chance: number): Reached {
  const chanceAt = (logWeight: number) => {
    const { alpha, beta } = memberOf(middle, Math.exp(logWeight));
    return betaTail(alpha, beta, at, 1 - at, "lower");
  };
  const found: BetaPrior[] = [];
  let above = LOG_MOST;
  let excessAbove = chanceAt(above) - chance;
  let [leastChance, mostChance] = [excessAbove + chance, excessAbove + chance];
  for (let step = 1; step <= STEPS; step += 1) {
    const here = LOG_MOST + ((LOG_LEAST - LOG_MOST) * step) / STEPS;
    const reached = chanceAt(here);
    leastChance = Math.min(leastChance, reached);
    mostChance = Math.max(mostChance, reached);
    const excess = reached - chance;
    if (excess > 0 !== excessAbove > 0 && Math.abs(excess) + Math.abs(excessAbove) > ROUNDING) {
      const { root } = findRoot((place) => chanceAt(place) - chance, here, above, { absolute: 1e-14 });
      found.push(memberOf(middle, Math.exp(root)));
    }
    above = here;
    excessAbove = excess;
  }
  return { found, leastChance, mostChance };
}

/** Chances this close to the one wanted at two weights do not tell the weights apart. */
const ROUNDING = 1e-12;

function memberOf({ kind, value }: Middle, weight: number): BetaPrior {
  if (kind === "mean") return { alpha: value * weight, beta: (1 - value) * weight };
  if (kind === "mode") return { alpha: 1 + value * weight, beta: 1 + (1 - value) * weight };
  return withMedian(value, weight);
}

/** The beta of this weight whose median is the value: the share of alpha lies within 1 of the weight's ends. */
function withMedian(median: number, weight: number): BetaPrior {
  const shapes = (logit: number): BetaPrior => ({
    alpha: weight / (1 + Math.exp(-logit)),
    beta: weight / (1 + Math.exp(logit)),
  });
  const excess = (logit: number) => {
    const { alpha, beta } = shapes(logit);
    return betaTail(alpha, beta, median, 1 - median, "lower") - 0.5;
  };
  const { root } = findRoot(excess, -60, 60, { absolute: 1e-14 });
  return shapes(root);
}

/** The density of a beta at a place strictly between 0 and 1. */
export function betaDensity({ alpha, beta }: BetaPrior, at: number): number {
  const scale = logBetaScale(alpha, beta);
  const excess = betaExcess(alpha, beta, at, 1 - at);
  return Math.exp(logBetaKernel(alpha, beta, scale, at, 1 - at, excess)) / (at * (1 - at));
}

/** Points evenly over the central 99.8 %, for a drawing; those where the doubles end are left out. */
export function densityPoints(shapes: BetaPrior, points: number): { at: number; density: number }[] {
  const [least, most] = [0.001, 0.999].map((chance) => betaQuantile(chance, shapes.alpha, shapes.beta)) as [
    number,
    number,
  ];
  return Array.from({ length: points }, (_, k) => least + ((most - least) * k) / (points - 1))
    .filter((at) => at > 0 && at < 1)
    .map((at) => ({ at, density: betaDensity(shapes, at) }))
    .filter(({ density }) => Number.isFinite(density));
}
