import { incompleteBeta } from "../../numeric/incomplete-beta.ts";
import { chainOf } from "./bayesian-chain.ts";
import { type BayesianModel, withFlatPrior } from "./bayesian-model.ts";
import { reportedPrior } from "./bayesian-priors.ts";
import type { Unknown } from "./bayesian-unknowns.ts";

const LENGTH = { draws: 2000, warmup: 600 };
/** Chains of these questions have numbers of their own. */
const FIRST_CHAIN = 1000;

/**
 * Do the data (with all other priors) speak against this prior? The share is drawn anew with its own prior made
 * flat, one chain of 2,000 draws, and held against the prior: p is twice the smaller chance that a draw from the
 * prior lies below it, or above. A side on which the prior's density does not fall (a shape of 1 or less) speaks
 * against nothing: p is then the chance of the other side alone, and 1 where neither falls. So it is for flat
 * priors, and near 1 where the data say little.
 *
 * Source: presanis2013 for the idea of cutting the share off from its prior (memory); the one-sided rule is ours
 */
export function conflictOf(unknown: Unknown, model: BayesianModel, seed: number): number {
  if (unknown.kind !== "share") return 1;
  const { alpha, beta } = reportedPrior(unknown, model);
  if (alpha <= 1 && beta <= 1) return 1;
  const { logits } = chainOf(withFlatPrior(model, unknown.place), seed, FIRST_CHAIN + unknown.place, LENGTH);
  let below = 0;
  for (let draw = 0; draw < LENGTH.draws; draw += 1) {
    below += incompleteBeta(unknown.valueAt(logits, draw), alpha, beta) / LENGTH.draws;
  }
  const inTail = Math.min(1, Math.max(0, below));
  if (beta <= 1) return inTail;
  if (alpha <= 1) return 1 - inTail;
  return Math.min(1, 2 * Math.min(inTail, 1 - inTail));
}
