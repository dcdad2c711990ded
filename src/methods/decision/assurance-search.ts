import { binomialCdf } from "../../numeric/binomial.ts";
import type { CriterionOptions } from "../proportion/criterion.ts";
import { type BetaShape, betaBinomialMass } from "./beta-binomial.ts";
import { type Demand, metBorderNear } from "./verdict-borders.ts";

/** What was seen so far, in favour of the criterion. */
export interface SoFar {
  readonly favourable: number;
  readonly total: number;
  /** Jeffreys posterior of the proportion in favour. */
  readonly posterior: BetaShape;
}

/** For one target: the first number of further people that reaches it, and the one from which on it stays. */
interface Reached {
  first: number | null;
  stays: number | null;
}

export interface TargetReached {
  readonly target: number;
  readonly estimateHeld: Reached;
  readonly predictive: Reached;
}

/**
 * For every number of further people from 0 to the horizon, the probability that the criterion will then
 * be met, and where it reaches each target.
 *
 * The border of the verdict moves by a step or none from one total to the next, and the tail of the
 * beta-binomial distribution follows from that before it: one more person either comes in favour or not.
 */
export function assuranceSearch(
  soFar: SoFar,
  demand: Demand,
  options: CriterionOptions,
  targets: readonly number[],
  horizon: number,
): TargetReached[] {
  const found = targets.map((target) => ({
    target,
    estimateHeld: { first: null, stays: null } as Reached,
    predictive: { first: null, stays: null } as Reached,
  }));
  const { favourable, total, posterior } = soFar;
  const weight = posterior.a + posterior.b;
  let needed = metBorderNear(favourable, total, demand, options) - favourable;
  let tail = needed <= 0 ? 1 : 0;
  for (let further = 0; further <= horizon; further += 1) {
    if (further > 0) {
      const before = further - 1;
      const joins = (posterior.a + needed - 1) / (weight + before);
      tail += betaBinomialMass(needed - 1, before, posterior) * joins;
      const border = metBorderNear(needed + favourable, total + further, demand, options) - favourable;
      for (; needed < border; needed += 1) tail -= betaBinomialMass(needed, further, posterior);
      for (; needed > border; needed -= 1) tail += betaBinomialMass(needed - 1, further, posterior);
    }
    const held = needed <= 0 ? 1 : binomialCdf(needed - 1, further, favourable / total, "upper");
    for (const { target, estimateHeld, predictive } of found) {
      follow(estimateHeld, further, held >= target);
      follow(predictive, further, tail >= target - 1e-12);
    }
  }
  return found;
}

function follow(reached: Reached, further: number, holds: boolean): void {
  if (!holds) reached.stays = null;
  else {
    reached.first ??= further;
    reached.stays ??= further;
  }
}
